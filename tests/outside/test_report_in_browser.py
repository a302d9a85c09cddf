"""The report as a browser shows it: judged by an accessibility checker, on a phone, and on paper.

The checker is axe-core (MPL-2.0, unchanged, `tests/data/axe`); Chromium is driven by Playwright. Where there is no
Chromium none of these run, and the skip says so.
"""

from __future__ import annotations

import io
from typing import Any

import pytest

from output.api import check, draft, read_garment
from output.api.garment_files import garment_report
from tests.outside.opened_page import AXE, CHROMIUM, ROOT, blank, thinned
from tests.sampling import some

_EXAMPLES = some(["lantern-dress", "slipway-skirt"], every=2)

pytestmark = pytest.mark.skipif(
    CHROMIUM is None,
    reason="no Chromium here: the report's accessibility, its width on a phone and its print were NOT looked at",
)


@pytest.fixture(scope="module", params=_EXAMPLES)
def report(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> str:
    drafted = draft(read_garment(ROOT / "examples" / "garments" / f"{request.param}.toml"))
    page = tmp_path_factory.mktemp("report") / "report.html"
    files = ("print-at-home.pdf", "sheets/01.svg", "pieces/a.svg", "pattern.dxf", "pattern.json")
    page.write_text(garment_report(drafted, check(drafted).rows, files=files), encoding="utf-8")
    return page.as_uri()


_COLOURS = {"runOnly": {"type": "rule", "values": ["color-contrast"]}}


def _find_nothing(page: Any, wide: int, scheme: str, rules: dict[str, Any]) -> None:
    page.set_viewport_size({"width": wide, "height": 800})
    page.emulate_media(color_scheme=scheme)
    found = page.evaluate(
        "(rules) => axe.run(document, {resultTypes: ['violations'], preload: false, ...rules})", rules
    )
    told = [
        (rule["id"], rule["help"], [each["html"][:120] for each in rule["nodes"][:3]]) for rule in found["violations"]
    ]
    assert (wide, scheme, told) == (wide, scheme, [])
    assert len(found["passes"]) > (0 if rules else 15)  # it has looked


def test_an_accessibility_checker_finds_nothing(browser: Any, report: str) -> None:
    page = blank(browser)
    page.goto(report)
    page.evaluate(AXE)
    _find_nothing(page, 360, "light", {})
    thinned(page)
    _find_nothing(page, 1200, "dark", {})


@pytest.mark.whole  # no colour depends on the width: `test_no_colour_depends_on_the_width`
def test_an_accessibility_checker_finds_nothing_in_any_colour(browser: Any, report: str) -> None:
    page = blank(browser)
    page.goto(report)
    page.evaluate(AXE)
    _find_nothing(page, 1200, "light", _COLOURS)
    _find_nothing(page, 360, "dark", _COLOURS)


def test_nothing_is_wider_than_a_phone(browser: Any, report: str) -> None:
    page = blank(browser, width=360, height=800)
    page.goto(report)
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    small = page.evaluate(
        "[...document.querySelectorAll('.shown svg text')].filter(t => t.getBoundingClientRect().height < 8).length"
    )
    assert small == 0


@pytest.mark.parametrize(("paper", "wide"), some([("A4", 595.0), ("Letter", 612.0)], every=2))
def test_every_step_is_whole_on_one_printed_page(browser: Any, report: str, paper: str, wide: float) -> None:
    from pypdf import PdfReader

    page = blank(browser)
    page.goto(report)
    steps = page.evaluate(
        "[...document.querySelectorAll('.step')].map(s => [s.querySelector('h3').innerText,"
        "[...s.querySelectorAll('li')].at(-1).innerText])"
    )
    pages = PdfReader(io.BytesIO(page.pdf(format=paper))).pages
    assert all(abs(float(each.mediabox.width) - wide) < 2.0 for each in pages)
    texts = [" ".join(each.extract_text().split()) for each in pages]
    for title, last in steps:
        on = [number for number, text in enumerate(texts) if title in text]
        assert on, title
        assert any(" ".join(last.split())[-30:] in texts[number] for number in on), title
