"""Every view and state of the page judged by an accessibility checker, light and dark, broad and as narrow as a phone.

The checker is axe-core (MPL-2.0, unchanged, `tests/data/axe`). Where there is no Chromium none of these run, and the
end of the run says so.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from tests.outside.opened_page import (
    CHROMIUM,
    ROOT,
    blank,
    served,
    thinned,
)
from tests.outside.page_views import VIEWS, View

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no Chromium here: the page was NOT judged for everyone")

_AXE = (ROOT / "tests" / "data" / "axe" / "axe.min.js").read_text(encoding="utf-8")
_ALL = ((1440, "light"), (360, "dark"), (1440, "dark"), (360, "light"))
_AS_WHO = {"what", "cloth", "changed", "together", "paper", "longer"}
_ON_THE_TABLE = {"piece", "darts closed", "walk", "real size"}  # all open at once in test_table_in_browser.py
_VIEWS = [view for view in VIEWS if view.name not in _AS_WHO | _ON_THE_TABLE]
_ALWAYS = {"first person", "all open", "refused", "asks", "size of a bought pattern"}
"""What differs most from each other (the last is the wardrobe, with more of it open); the others with `--whole`."""
_RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
_COLOURS = {"type": "rule", "values": ["color-contrast"]}
"""What every further look is for, but the second at the whole sheet: all else is as it was in light or in dark."""
_JUDGE = """([rules]) =>
  axe.run(document, {runOnly: rules, resultTypes: ["violations"], preload: false, selectors: false})
"""


@pytest.mark.parametrize(
    "view",
    [pytest.param(view, marks=() if view.name in _ALWAYS else pytest.mark.whole) for view in _VIEWS],
    ids=lambda view: view.name,
)
def test_a_view_is_for_everyone(browser: Any, server: tuple[Path, str, int], tmp_path: Path, view: View) -> None:
    """One page is brought to the view, then looked at broad or narrow, light or dark, or in all four looks.

    All there is is looked at once, the garment's whole sheet as "all open"; else two of what is made alike.
    Views that differ only in what is scrolled to are one document, and are judged as "who".
    """
    page = blank(browser)
    page.emulate_media(reduced_motion="reduce")
    if view.whole:
        with served(tmp_path) as address:
            view.bring(page, address, tmp_path)
            found = _found(page, _looks(view), all_of_it=True)
    else:
        folder = server[0] / view.name.replace(" ", "-")
        folder.mkdir()
        view.bring(page, server[1], folder)
        found = _found(page, _looks(view), all_of_it=view.name == "all open")
        shutil.rmtree(folder)
    assert found == []


def _looks(view: View) -> Sequence[tuple[int, str]]:
    """Two where all is open and for what is red; else one, by turns broad and narrow."""
    return _ALL[:2] if view.name in ("all open", "failed", "slip", "refused") else [_ALL[_VIEWS.index(view) % 2]]


@pytest.mark.whole  # no colour depends on the width: `test_no_colour_depends_on_the_width`
def test_the_colours_of_all_that_is_open(browser: Any, server: tuple[Path, str, int]) -> None:
    """Broad and dark, narrow and light."""
    page = blank(browser)
    page.emulate_media(reduced_motion="reduce")
    folder = server[0] / "colours"
    folder.mkdir()
    next(view for view in VIEWS if view.name == "all open").bring(page, server[1], folder)
    assert _found(page, _ALL[2:], all_of_it=True) == []
    shutil.rmtree(folder)


@pytest.mark.parametrize("style", ["page/static/style.css", "page/static/table.css", "report/page_style.py"])
def test_no_colour_depends_on_the_width(style: str) -> None:
    """So that what is looked at broad and light, narrow and dark, has been looked at in all its colours."""
    text = (ROOT / "output" / style).read_text(encoding="utf-8")
    narrow = [rest for rest in text.split("@media")[1:] if "max-width" in rest.partition("{")[0]]
    assert narrow
    rules = [rule for rest in narrow for rule in _of_a_block(rest)]
    said = re.findall(r"[\w-]*(?:color|background|fill|stroke|opacity|filter)[\w-]*\s*:\s*([^;}]*)", "}".join(rules))
    assert [value for value in said if not re.fullmatch(r"var\(--\w+\)|none", value.strip())] == []


def _of_a_block(rest: str) -> list[str]:
    """The rules between the first brace and the one that closes it."""
    deep, begun = 0, rest.index("{")
    for at, letter in enumerate(rest[begun:], begun):
        deep += (letter == "{") - (letter == "}")
        if deep == 0:
            return rest[begun + 1 : at].split("}")
    return []


def _found(
    page: Any, looks: Sequence[tuple[int, str]], *, all_of_it: bool
) -> list[tuple[int, str, str, str, list[str]]]:
    page.evaluate(_AXE)
    told = []
    for look, (width, scheme) in enumerate(looks):
        if look > 0 or not all_of_it:
            thinned(page)
        page.set_viewport_size({"width": width, "height": 900 if width > 400 else 740})
        page.emulate_media(color_scheme=scheme)
        page.wait_for_timeout(100)
        rules = _RULES if looks[look] in _ALL[:2] and (look == 0 or all_of_it) else _COLOURS
        found = page.evaluate(_JUDGE, [rules])
        assert len(found["passes"]) > (10 if rules is _RULES else 0)  # it has looked
        for rule in found["violations"]:
            nodes = [node["html"][:110] for node in rule["nodes"][:3]]
            told.append((width, scheme, f"{rule['impact']} {rule['id']}", rule["help"], nodes))
    return told
