"""The page of a lay: how much to buy, whether what there is is enough, and what would save most."""

from __future__ import annotations

import re

from output.page.lay_page import LayWishes, lay_page
from tests.examples import example

SKIRT = "slipway-skirt"


def page(**wishes: float) -> str:
    return lay_page(example(SKIRT), LayWishes(seconds=0.0, **wishes), lambda _doing, _share: None)


def lengths_bought(html: str) -> list[float]:
    """The lengths of the column "to buy", m."""
    table = html[html.index("What would save cloth") :]
    return [float(found) for found in re.findall(r">([\d.]+) m<", table)]


def test_the_lay_says_what_would_save_most_and_names_only_what_takes_less() -> None:
    html = page()
    bought = re.search(r"buy ([\d.]+) (m|cm)", html)
    assert bought is not None
    now = float(bought[1]) / (100.0 if bought[2] == "cm" else 1.0)
    less = lengths_bought(html)
    assert less or "Nothing that was tried takes less cloth." in html
    assert all(each < now for each in less)


def test_too_little_cloth_is_told_with_what_makes_it_fit() -> None:
    html = page(have=900.0)
    assert "too little as the garment stands" in html
    assert re.search(r"It fits with |Nothing that was tried makes it fit", html)
    assert "It is enough" in page(have=5000.0)
