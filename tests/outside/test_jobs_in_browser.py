"""What she comes to the page for, from start to end: Chromium, the real server, real files, and what lies on the disk
afterwards read by what shares no code with the page.

Where there is no Chromium none of these run, and the end of the run says so.
"""

from __future__ import annotations

import io
import re
import tomllib
from pathlib import Path
from typing import Any

import pypdfium2 as pdfium
import pytest

from output.api import check, draft, read_garment
from output.api.garment_files import pdf_to_print
from tests.outside.opened_page import (
    CHROMIUM,
    FERRY,
    LANTERN,
    TOLLHOUSE,
    blank,
    examples,
    made,
    opened,
    saved,
    served,
    shown,
    steps,
    until,
    written,
)
from tests.outside.read_pdf import read_pdf

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no Chromium here: her jobs were NOT done in a browser")

PRINTED = "The pattern to print at home"


def put_in(page: Any, asked: str, **options: str) -> None:
    """Looks for a change by a word, takes the first that is found, says its options and puts it in."""
    more = page.locator("#changed .more")
    if more.get_attribute("open") is None:
        more.locator("summary").click()
    page.fill("#find", asked)
    page.locator(".choices button", has=page.get_by_text(re.compile(f"^{asked}$", re.IGNORECASE))).first.click()
    for name, value in options.items():
        field = page.locator(f"#new-{name}")
        if field.evaluate("(field) => field.tagName") == "SELECT":
            field.select_option(value)
        else:
            field.fill(value)
            page.keyboard.press("Tab")
    page.click("text=Put it in")
    page.wait_for_selector("#new-step", state="detached")


def test_a_first_person_and_a_first_dress_from_nothing(browser: Any, tmp_path: Path) -> None:
    with served(tmp_path) as address:
        page = blank(browser)
        page.goto(address)
        page.get_by_label("name", exact=True).fill("Wren")
        page.get_by_label("measured in").select_option("in")
        for name, typed in {"height": "65", "bust": "37 1/2", "waist": "29,5", "hip": "40"}.items():
            page.get_by_label(name, exact=True).fill(typed)
        page.click("text=Begin with these")
        page.wait_for_selector("text=What shall we make?")
        page.get_by_label("What it is called").fill("Quay dress")
        page.click("text=Begin it")
        page.wait_for_selector(".piece")
        until(page, "document.title === 'Quay dress for Wren'")
        pieces = page.locator(".piece").count()
        verdict = page.inner_text("#verdict .big")
        files = page.locator(".house code").all_inner_texts()
    person = tomllib.loads((tmp_path / files[1]).read_text(encoding="utf-8"))
    assert (person["name"], person["unit"], person["measurements"]["bust"]) == ("Wren", "in", "37 1/2")
    drafted = draft(read_garment(tmp_path / files[0]))
    assert pieces == len(drafted.pattern.pieces) == 5
    assert not [row for row in check(drafted).rows if row.verdict == "fail"]
    assert verdict.startswith("All ")


def _sleeve(pdf: bytes) -> tuple[int, float]:
    """How many pages there are, and how long the cutting line of the sleeve is from top to bottom, mm."""
    with pdfium.PdfDocument(io.BytesIO(pdf)) as opened_file:
        pages = len(opened_file)
    low, high = zip(*(cut.bounds[1::2] for cut in read_pdf(pdf)[0].lines["cutting lines"].geoms), strict=True)
    return pages, max(high) - min(low)


def test_a_sleeve_made_two_inches_longer_is_printed_two_inches_longer(
    browser: Any, server: tuple[Path, str, int], folder: Path
) -> None:
    page = shown(browser, server, folder, FERRY)
    page.locator("#paper details summary").first.click()
    for name in ("bodice front", "bodice back", "skirt front", "skirt back"):
        page.locator("#paper").get_by_label(name, exact=True).uncheck()
    drafted = draft(read_garment(folder / FERRY))
    before = _sleeve(pdf_to_print(drafted, check(drafted).rows, for_shop=True, only=["sleeve"]))
    put_in(page, "lengthen", piece="sleeve", by="2 in")
    written(page, "lengthen")
    after = _sleeve(made(page, "For a copy shop"))
    home = made(page, PRINTED)
    assert steps(folder / FERRY)[-1] == {"alter": "lengthen", "piece": "sleeve", "by": "2 in"}
    assert after[1] - before[1] == pytest.approx(50.8, abs=0.2)
    with pdfium.PdfDocument(io.BytesIO(home)) as file:
        words = " ".join(each.get_textpage().get_text_range() for each in file)
    assert "sleeve" in words
    assert "skirt" not in words


def _finished(page: Any) -> dict[str, str]:
    rows = page.locator("#together tbody tr")
    return dict(zip(rows.locator("th").all_inner_texts(), rows.locator("td.is").all_inner_texts(), strict=True))


def test_another_size_at_the_waist_is_blended_in(browser: Any, server: tuple[Path, str, int], folder: Path) -> None:
    page = shown(browser, server, folder, TOLLHOUSE)
    before = _finished(page)
    sizes = tomllib.loads((folder / TOLLHOUSE).read_text(encoding="utf-8"))["sizes"]
    larger = str(sizes["bust"] + 8)
    page.get_by_label("Size at the waist").select_option(larger)
    written(page, "waist")
    after = _finished(page)
    assert tomllib.loads((folder / TOLLHOUSE).read_text(encoding="utf-8"))["sizes"] == sizes | {"waist": int(larger)}
    assert after["waist"] != before["waist"]
    assert after["bust"] == before["bust"]
    assert not [row for row in check(draft(read_garment(folder / TOLLHOUSE))).rows if row.verdict == "fail"]


def test_room_is_let_in_for_a_full_bust(browser: Any, server: tuple[Path, str, int], folder: Path) -> None:
    page = shown(browser, server, folder, FERRY)
    before = _finished(page)["bust"]
    put_in(page, "full bust", by="4 cm")
    written(page, "full bust")
    moved = page.locator(".card").last.locator(".told").inner_text()
    after = _finished(page)["bust"]
    assert float(after.split()[0]) - float(before.split()[0]) == pytest.approx(4.0, abs=0.11)
    assert "dart" in moved
    assert not [row for row in check(draft(read_garment(folder / FERRY))).rows if row.verdict == "fail"]


_ONLY = '\n[[step]]\nalter = "lengthen"\npiece = "skirt front"\nby = "2 cm"\nonly = "skirt front"\n'


def test_a_check_that_fails_is_mended_by_its_button(browser: Any, server: tuple[Path, str, int], folder: Path) -> None:
    file = folder / FERRY
    file.write_text(file.read_text(encoding="utf-8") + _ONLY, encoding="utf-8")
    page = shown(browser, server, folder, FERRY)
    assert page.get_attribute("#verdict", "data-state") == "failed"
    assert page.inner_text(".index .flag") == "fails"
    assert "only" not in page.inner_text(".faults .fail").split("\n")[0]  # no word of the file where a button does it
    page.locator(".faults .fail button").first.click()
    until(page, "document.querySelector('#verdict').dataset.state !== 'failed'")
    assert not [row for row in check(draft(read_garment(file))).rows if row.verdict == "fail"]


def test_undo_goes_back_and_forth_across_a_restart_of_the_server(browser: Any, tmp_path: Path) -> None:
    file = examples(tmp_path, LANTERN) / LANTERN
    texts = [file.read_bytes()]
    with served(tmp_path) as address:
        page = opened(browser, address, LANTERN)
        for field, typed in (("#step-0-by", "1 1/2 in"), ("#step-2-depth", "3")):
            page.fill(field, typed)
            page.keyboard.press("Enter")
            written(page, typed.replace(" 1/2", "½"))
            texts.append(file.read_bytes())
        page.goto("about:blank")
    # another server, whose desk knows nothing but what lies on the disk; of a process that was killed: test_server.py
    with served(tmp_path) as address:
        page = opened(browser, address, LANTERN)
        undo, again = page.locator(".head-row button").all()
        for text, button in (
            (texts[1], undo),
            (texts[0], undo),
            (texts[1], again),
            (texts[2], again),
            (texts[1], undo),
        ):
            by, _, depth = tomllib.loads(text.decode())["step"]
            button.click()
            until(page, "document.getElementById('step-0-by').value === given", by["by"])
            until(page, "document.getElementById('step-2-depth').value === given", depth["depth"])
            assert file.read_bytes() == text
    assert len({*texts}) == 3


@pytest.mark.whole  # its like: the edits of two hands
def test_what_an_editor_saves_is_shown_and_can_be_undone(
    browser: Any, server: tuple[Path, str, int], folder: Path
) -> None:
    page = shown(browser, server, folder, LANTERN)
    was = (folder / LANTERN).read_text(encoding="utf-8")
    saved(folder / LANTERN, 'by = "4 cm"', 'by = "6 cm"   # for Sundays')
    until(page, "document.getElementById('step-0-by').value === '6 cm'")
    page.fill("#step-0-by", "7 cm")
    page.keyboard.press("Enter")
    written(page, "7 cm")
    assert (folder / LANTERN).read_text(encoding="utf-8") == was.replace(
        'by = "4 cm"', 'by = "7 cm"   # for Sundays', 1
    )


def test_edits_of_two_hands_are_merged_and_where_they_meet_she_is_asked(
    browser: Any, server: tuple[Path, str, int], folder: Path
) -> None:
    file = folder / LANTERN
    page = shown(browser, server, folder, LANTERN)
    with page.expect_response("**/api/try"):
        page.fill("#step-0-by", "4.8")  # typed, not sent yet
    saved(file, '"60 cm"', '"63 cm"')
    until(page, "document.getElementById('block-2-length').value === '63 cm'")
    page.keyboard.press("Enter")
    written(page, "4.8 cm")
    told = tomllib.loads(file.read_text(encoding="utf-8"))
    assert (told["block"][2]["length"], told["step"][0]["by"]) == ("63 cm", "4.8 cm")
    with page.expect_response("**/api/try"):
        page.fill("#step-0-by", "3 cm")
    saved(file, '"4.8 cm"', '"5.2 cm"')
    saved(file, '"63 cm"', '"64 cm"')
    until(page, "document.getElementById('block-2-length').value === '64 cm'")
    page.keyboard.press("Enter")
    page.wait_for_selector(".asks")
    assert steps(file)[0]["by"] == "5.2 cm"  # nothing is written until she has said which
    assert page.locator(".asks button").all_inner_texts() == ["Yours: 3 cm", "What the file says: 5.2 cm"]
    page.click(".asks button >> nth=0")
    written(page, "3 cm")
    assert steps(file)[0]["by"] == "3 cm"


def test_two_pages_on_one_folder_follow_each_other(browser: Any, server: tuple[Path, str, int], folder: Path) -> None:
    one, other = (shown(browser, server, folder, LANTERN) for _ in range(2))
    one.fill("#step-0-by", "5 cm")
    one.keyboard.press("Enter")
    until(other, "document.getElementById('step-0-by').value === '5 cm'")
    other.fill("#step-2-depth", "3 cm")
    other.keyboard.press("Enter")
    until(one, "document.getElementById('step-2-depth').value === '3 cm'")
    assert [(step.get("by"), step.get("depth")) for step in steps(folder / LANTERN)[::2]] == [
        ("5 cm", None),
        (None, "3 cm"),
    ]


_SEEN = """() => { const here = document.activeElement;
  const cut = here.querySelector(".cut");
  return getComputedStyle(here).outlineStyle !== "none" || (cut &&
    parseFloat(getComputedStyle(cut).strokeWidth) >= 3); }"""


def _tab_to(page: Any, true: str, *, back: bool = False) -> set[str]:
    """Presses Tab until the focus is where something is true of it, told as the body of a function of the element.

    The sections that it came through.
    """
    through = set()
    for _ in range(200):
        page.keyboard.press("Shift+Tab" if back else "Tab")
        there, section = page.evaluate(
            f"((here) => [{true}, here.closest('section')?.id ?? ''])(document.activeElement)"
        )
        through.add(section)
        if there:
            seen = page.evaluate(_SEEN)
            assert seen, f"the focus is not seen at {true}"
            return through
    pytest.fail(f"no key leads to {true}")


def test_a_whole_job_with_the_keyboard_alone(browser: Any, server: tuple[Path, str, int], folder: Path) -> None:
    page = shown(browser, server, folder, LANTERN)
    _tab_to(page, "here.classList.contains('piece')")
    page.keyboard.press("Enter")
    page.wait_for_selector(".edges li")
    page.keyboard.press("Escape")
    through = _tab_to(page, "here.id === 'step-0-by-slider'")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    written(page, "4.2 cm")
    through |= _tab_to(page, "here.id === 'step-0-by'", back=True)
    through |= _tab_to(page, "here.textContent.startsWith('A drawing for a cutter')")
    assert {"who", "what", "cloth", "changed", "together", "paper"} <= through
    data = made(page, "A drawing for a cutter", press=lambda: page.keyboard.press("Enter"))
    assert b"SECTION" in data
    _tab_to(page, "here.textContent.startsWith('Undo')")  # from the end of the page on to its beginning
    page.keyboard.press("Enter")
    until(page, "document.getElementById('step-0-by').value === '4 cm'")
    assert steps(folder / LANTERN)[0]["by"] == "4 cm"
