"""What was only the command's before: found by any word, given back when unticked, brought in, printed to measure by.

Where there is no Chromium none of these run, and the end of the run says so.
"""

from __future__ import annotations

import re
import shutil
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.outside.opened_page import CHROMIUM, blank, examples, served, shown, spoilt, until, written
from tests.outside.page_views import DXF

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no Chromium here: the page was NOT tried")

TEE = "garments/quayside-tee.toml"
SKIRT = "garments/lock-keeper-skirt.toml"


@pytest.fixture
def folder(server: tuple[Path, str, int], request: pytest.FixtureRequest) -> Iterator[Path]:
    """A part of the folder that is served, that only this test writes to, taken away again."""
    mine = server[0] / request.node.name[:40]
    mine.mkdir()
    yield examples(mine, TEE, SKIRT)
    shutil.rmtree(mine)


def parts(file: Path) -> list[str]:
    return [each["name"] for each in tomllib.loads(file.read_text(encoding="utf-8")).get("part", [])]


def found(page: Any, word: str) -> list[tuple[str, bool]]:
    """What is found by a word: its title, and whether it can be had."""
    page.fill("#find", word)
    return page.eval_on_selector_all(
        "#changed .choices button", "all => all.map((each) => [each.querySelector('b').innerText, !each.disabled])"
    )


def test_a_word_leads_to_parts_blocks_and_changes_and_what_cannot_be_had_comes_last(
    browser: Any, server: tuple[Path, str, int], folder: Path
) -> None:
    page = shown(browser, server, folder, SKIRT)
    page.click("#changed .more summary")
    for word, first in {
        "elastic": "Waist elastic",
        "wide leg": "Trousers",
        "tee": "Knit top",
        "jumpsuit": "Trousers",
        "button front": "Button front",
    }.items():
        assert found(page, word)[0][0] == first, word
    for word in ("collar", "cuffs", "short sleeve", "smock dress", "gather"):
        can = [can for _, can in map(tuple, found(page, word))]
        assert can, word
        assert can == sorted(can, reverse=True), word
    assert "snaps along" in page.inner_text("#changed .more p[role=status]") or found(page, "snaps") == []
    page.fill("#find", "elastic")
    page.click("#changed .choices button >> nth=0")
    assert page.evaluate("document.activeElement.closest('.block').id") == "made-waist-elastic"


def test_a_part_that_cannot_be_drawn_says_so_on_its_card_and_one_taken_out_is_given_back(
    browser: Any, server: tuple[Path, str, int], folder: Path
) -> None:
    file = folder / TEE
    page = shown(browser, server, folder, TEE)
    assert "In place of: neck band" in page.inner_text("#made-neck-facing")
    page.click("#made-front-band input")
    page.wait_for_selector("#made-front-band .refusal")
    assert page.locator("#who .refusal").count() == 0
    assert page.get_by_role("button", name="Open the front").count() == 1
    page.get_by_role("button", name="Leave it as it was").click()
    page.wait_for_selector("#made-front-band .refusal", state="detached")
    page.click("#made-neck-facing input")
    written(page, "neck facing put in")
    assert parts(file) == ["neck facing"]
    page.click("#made-neck-facing input")
    written(page, "neck facing taken out")
    assert parts(file) == ["neck band"]


def test_a_page_in_inches_says_nothing_in_centimetres(
    browser: Any, server: tuple[Path, str, int], folder: Path
) -> None:
    """But what she typed in them, and the other unit, which stands small beside a length."""
    file = folder / SKIRT
    text = file.read_text(encoding="utf-8")
    file.write_text(re.sub(r'= "([\d.]+) cm"', lambda cm: f'= "{float(cm[1]) / 2.54:.3f} in"', text), encoding="utf-8")
    page = shown(browser, server, folder, SKIRT)
    page.locator("label", has_text="inches").first.click()
    until(page, "document.querySelector('#measures')?.closest('section').innerText.includes(' in')")
    page.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true; })")
    page.evaluate("document.querySelectorAll('.other, #length-list, #cloth, #looked').forEach((each) => each.remove())")
    spoilt(page)
    said = page.inner_text("#what") + page.inner_text("#changed") + page.inner_text("#together")
    assert not re.findall(r"[^\n]*\d (?:cm|mm)\b[^\n]*", said)
    assert not re.findall(r"[^\n]*\d \d/\d[^\n]*", said)  # fractions are one sign


def test_a_stranger_s_drawing_is_brought_in_looked_at_named_and_put_on_paper(browser: Any, tmp_path: Path) -> None:
    with served(examples(tmp_path, SKIRT)) as address:
        page = blank(browser)
        page.goto(address)
        page.set_input_files("#bring", str(DXF))
        page.wait_for_selector("#brought-names")
        assert page.locator("img.drawn").count() == 1
        beside = tmp_path / "patterns" / "harbour-skirt.toml"
        page.fill("#brought-names", '[[piece]]\nname = "mitten"\n')
        page.click("text=Write it, and check again")
        until(page, "document.querySelector('.refusal')?.innerText.includes('mitten')")  # no piece is called so
        page.fill("#brought-names", 'unit = "cm"\n')
        page.click("text=Write it, and check again")
        until(page, "!document.querySelector('.refusal')")
        assert beside.read_text(encoding="utf-8") == 'unit = "cm"\n'
        page.select_option("#brought-paper", "A0")
        page.click("text=(ZIP)")
        page.wait_for_selector(".told a[download]", timeout=60000)


def test_a_sheet_to_measure_by_is_made_for_anybody(browser: Any, tmp_path: Path) -> None:
    with served(examples(tmp_path, SKIRT)) as address:
        page = blank(browser)
        page.goto(address)
        page.click("summary:has-text('A sheet to measure by')")
        page.select_option("[aria-label='Whose sheet']", "girl")
        page.select_option("[aria-label='Written in']", "in")
        with page.expect_download() as coming:
            page.click("text=Make the sheet")
        sheet = Path(coming.value.path()).read_text(encoding="utf-8")
        assert "Measuring a girl" in sheet
        assert "@page{margin:12mm}" in sheet  # for A4 and Letter alike
