"""The report as a browser shows it: judged by an accessibility checker, on a phone, and on paper.

The checker is axe-core (MPL-2.0, unchanged, `tests/data/axe`); Chromium is driven by Playwright. Where there is no
Chromium none of these run, and the skip says so.
"""

from __future__ import annotations

import io
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from output.api import check, draft, read_garment
from output.api.garment_files import garment_report

_ROOT = Path(__file__).parents[2]
_AXE = (_ROOT / "tests" / "data" / "axe" / "axe.min.js").read_text(encoding="utf-8")
_CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
_QUIET = (
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync"),
)
_EXAMPLES = ("lantern-dress", "slipway-skirt")

pytestmark = pytest.mark.skipif(
    _CHROMIUM is None,
    reason="no Chromium here: the report's accessibility, its width on a phone and its print were NOT looked at",
)


@pytest.fixture(scope="module")
def browser() -> Iterator[object]:
    sync_api = pytest.importorskip("playwright.sync_api")
    with sync_api.sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=_CHROMIUM, args=list(_QUIET))
        yield opened
        opened.close()


@pytest.fixture(scope="module", params=_EXAMPLES)
def report(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> str:
    drafted = draft(read_garment(_ROOT / "examples" / "garments" / f"{request.param}.toml"))
    page = tmp_path_factory.mktemp("report") / "report.html"
    files = ("print-at-home.pdf", "sheets/01.svg", "pieces/a.svg", "pattern.dxf", "pattern.json")
    page.write_text(garment_report(drafted, check(drafted).rows, files=files), encoding="utf-8")
    return page.as_uri()


@pytest.mark.parametrize("wide", [360, 1200])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_an_accessibility_checker_finds_nothing(browser, report: str, wide: int, scheme: str) -> None:  # type: ignore[no-untyped-def]
    page = browser.new_page(viewport={"width": wide, "height": 800}, color_scheme=scheme)
    page.goto(report)
    page.evaluate(_AXE)
    found = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
    page.close()
    told = [
        (rule["id"], rule["help"], [node["html"][:120] for node in rule["nodes"][:3]]) for rule in found["violations"]
    ]
    assert told == []
    assert len(found["passes"]) > 15  # it has looked


def test_nothing_is_wider_than_a_phone(browser, report: str) -> None:  # type: ignore[no-untyped-def]
    page = browser.new_page(viewport={"width": 360, "height": 800})
    page.goto(report)
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    small = page.evaluate(
        "[...document.querySelectorAll('.shown svg text')].filter(t => t.getBoundingClientRect().height < 8).length"
    )
    page.close()
    assert small == 0


@pytest.mark.parametrize(("paper", "wide"), [("A4", 595.0), ("Letter", 612.0)])
def test_every_step_is_whole_on_one_printed_page(browser, report: str, paper: str, wide: float) -> None:  # type: ignore[no-untyped-def]
    from pypdf import PdfReader

    page = browser.new_page()
    page.goto(report)
    steps = page.evaluate(
        "[...document.querySelectorAll('.step')].map(s => [s.querySelector('h3').innerText,"
        "[...s.querySelectorAll('li')].at(-1).innerText])"
    )
    pages = PdfReader(io.BytesIO(page.pdf(format=paper))).pages
    page.close()
    assert all(abs(float(each.mediabox.width) - wide) < 2.0 for each in pages)
    texts = [" ".join(each.extract_text().split()) for each in pages]
    for title, last in steps:
        on = [number for number, text in enumerate(texts) if title in text]
        assert on, title
        assert any(" ".join(last.split())[-30:] in texts[number] for number in on), title
