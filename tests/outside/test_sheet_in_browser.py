"""The sheet of the page in Chromium: fields and sliders under the hand, refusals and slips with their buttons, focus.

Where there is no Chromium none of these run, and the skip says so.
"""

from __future__ import annotations

import shutil
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.outside.opened_page import CHROMIUM, ROOT, blank, opened, served, until, written

pytestmark = pytest.mark.skipif(
    CHROMIUM is None, reason="no Chromium here: the sheet of the page was NOT looked at in a browser"
)

LANTERN = "garments/lantern-dress.toml"


@pytest.fixture
def folder(server: tuple[Path, str, int], request: pytest.FixtureRequest) -> Iterator[Path]:
    """A part of it that only this test writes to, taken away again."""
    part = server[0] / request.node.name[5:25]
    for name in (LANTERN, "people/oda.toml"):
        (part / name).parent.mkdir(parents=True)
        shutil.copy(ROOT / "examples" / name, part / name)
    yield part
    shutil.rmtree(part)


@pytest.fixture
def page(browser: Any, server: tuple[Path, str, int], folder: Path) -> Any:
    return opened(browser, server[1], f"{folder.name}/{LANTERN}")


def steps(folder: Path) -> list[dict[str, Any]]:
    return tomllib.loads((folder / LANTERN).read_text(encoding="utf-8"))["step"]


def lengths(folder: Path) -> dict[str, Any]:
    return tomllib.loads((folder / "people/oda.toml").read_text(encoding="utf-8"))["measurements"]


def test_a_run_of_arrow_keys_is_written_when_it_rests_and_undone_as_one(page: Any, folder: Path) -> None:
    page.focus("#step-0-by-slider")
    for _ in range(5):
        page.keyboard.press("ArrowRight")
    written(page, "4.5 cm")
    assert steps(folder)[0]["by"] == "4.5 cm"
    assert page.evaluate("document.activeElement.id") == "step-0-by-slider"
    page.click(".head-row button")
    until(page, "document.getElementById('step-0-by').value === '4 cm'")
    assert steps(folder)[0]["by"] == "4 cm"
    page.click(".head-row button:nth-of-type(2)")
    until(page, "document.getElementById('step-0-by').value === '4.5 cm'")


def test_nothing_is_written_while_a_slider_is_drawn(page: Any, folder: Path) -> None:
    slider = page.locator("#step-0-by-slider")
    slider.scroll_into_view_if_needed()
    box = slider.bounding_box()
    middle = box["y"] + box["height"] / 2
    page.mouse.move(box["x"] + box["width"] * 0.66, middle)
    page.mouse.down()
    for share in (0.7, 0.74, 0.78, 0.82):
        page.mouse.move(box["x"] + box["width"] * share, middle)
    until(page, "document.getElementById('step-0-by').value !== '4 cm'")
    assert steps(folder)[0]["by"] == "4 cm"
    page.mouse.up()
    written(page, "by")
    assert steps(folder)[0]["by"] == page.input_value("#step-0-by") != "4 cm"


def test_a_refused_number_stays_in_its_field_until_its_button_gives_what_can_be_had(page: Any, folder: Path) -> None:
    page.fill("#step-0-by", "-52")
    page.keyboard.press("Enter")
    page.wait_for_selector("#step-0 .refusal")
    assert page.input_value("#step-0-by").startswith("-52")
    assert steps(folder)[0]["by"] == "4 cm"
    assert page.locator("#step-0 .cannot").count() == 1
    page.click("#step-0 .refusal button")
    written(page, "Shorten by")
    assert steps(folder)[0]["by"].startswith("-")
    until(page, "!document.querySelector('#step-0 .refusal')")
    until(page, "document.querySelector('#step-0-by').value === given", steps(folder)[0]["by"])


@pytest.mark.whole
def test_her_writing_is_kept_with_its_fraction_and_the_other_unit_stands_beside(page: Any, folder: Path) -> None:
    page.fill("#step-0-by", "1 1/2 in")
    page.keyboard.press("Enter")
    written(page, "1½ in")
    assert steps(folder)[0]["by"] == "1 1/2 in"
    assert page.input_value("#step-0-by") == "1 1/2 in"
    assert "3.8 cm" in page.locator("#step-0 .card-top").inner_text()


def test_a_slip_of_the_tape_is_named_while_she_types_and_mended_by_its_button(page: Any, folder: Path) -> None:
    page.fill("#length-wrist_girth", "24")
    page.wait_for_selector(".length .note")
    assert lengths(folder)["wrist"] == 16.2
    page.click(".length .note button")
    written(page, "wrist")
    until(page, "!document.querySelector('.length .note')")
    assert str(lengths(folder)["wrist"]).startswith("15.9")
    assert page.evaluate("document.activeElement.id") == "length-wrist_girth"


@pytest.mark.whole
def test_escape_puts_back_what_stood_there_and_writes_nothing(page: Any, folder: Path) -> None:
    page.fill("#length-wrist_girth", "17")
    until(page, "document.querySelector('.slip')?.textContent.includes('wrist')")
    page.keyboard.press("Escape")
    until(page, "document.getElementById('length-wrist_girth').value === '16.2'")
    assert lengths(folder)["wrist"] == 16.2


@pytest.mark.whole
def test_what_cannot_be_read_is_said_beside_the_field(page: Any, folder: Path) -> None:
    page.fill("#length-wrist_girth", "nine ells")
    page.keyboard.press("Enter")
    page.wait_for_selector(".length .refusal")
    assert page.get_attribute("#length-wrist_girth", "aria-invalid") == "true"
    assert lengths(folder)["wrist"] == 16.2


@pytest.mark.whole
def test_the_figure_shows_the_tape_of_the_length_that_is_looked_at(page: Any) -> None:
    page.focus("#length-hip_girth")
    until(page, "document.querySelector('.figure figcaption').textContent.startsWith('Hip')")
    front = page.locator(".figure .tape-band").get_attribute("d")
    page.focus("#length-back_waist_length")
    until(page, "document.querySelector('.figure svg').getAttribute('aria-label').includes('from behind')")
    assert page.locator(".figure .tape-band").get_attribute("d") != front


def test_a_change_is_found_by_another_word_put_in_switched_off_and_taken_out(page: Any, folder: Path) -> None:
    page.click("#changed .more summary")
    page.fill("#find", "v neck")
    page.click(".choices button >> nth=0")
    page.fill("#new-depth", "5")
    page.keyboard.press("Tab")
    page.click("text=Put it in")
    page.wait_for_selector("#step-3")
    assert steps(folder)[3] == {"alter": "V neck", "depth": "5 cm"}
    page.click("#step-3 .card-foot label")
    written(page, "switched off")
    assert steps(folder)[3]["in_use"] is False
    page.click("#step-3 >> text=Take out")
    written(page, "taken out")
    assert len(steps(folder)) == 3
    assert page.evaluate("document.activeElement.id") == "q4"


def test_lengths_are_shown_in_inches_at_a_press(page: Any) -> None:
    page.check("input[name=unit][value=in]", force=True)
    until(page, "document.querySelector('#together td.is').textContent.endsWith(' in')")


@pytest.mark.whole  # its like: the hard days, on a phone and with the letters of the browser
def test_the_sheet_needs_no_sideways_scroll_on_a_phone_nor_with_letters_twice_as_large(page: Any) -> None:
    page.set_viewport_size({"width": 360, "height": 740})
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    page.set_viewport_size({"width": 720, "height": 900})
    assert page.evaluate("document.documentElement.scrollWidth") == 720


def test_one_key_skips_the_table(page: Any) -> None:
    """On through every question: `test_a_whole_job_with_the_keyboard_alone`."""
    page.focus(".skip")
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('#sheet') !== null")


def test_a_first_person_is_asked_for_in_an_empty_folder(browser: Any, tmp_path: Path) -> None:
    with served(tmp_path) as address:
        page = blank(browser)
        page.goto(address)
        page.wait_for_selector("h1")
        assert page.inner_text("h1") == "Who will wear it?"
        assert page.locator("form button[type=submit]").is_disabled()
        page.goto("about:blank")


@pytest.mark.whole
def test_what_was_refused_is_there_again_after_a_restart_until_she_leaves_it(page: Any, folder: Path) -> None:
    page.fill("#step-0-by", "-52")
    page.keyboard.press("Enter")
    until(page, "document.querySelector('.head-row button').textContent.includes('could not be had')")
    page.reload()
    page.wait_for_selector("#step-0 .refusal")
    assert page.input_value("#step-0-by").startswith("-52")
    page.click("text=Leave it as it was")
    until(page, "document.getElementById('step-0-by').value === '4 cm'")
    assert steps(folder)[0]["by"] == "4 cm"


@pytest.mark.whole
def test_a_file_that_is_broken_by_hand_is_told_at_its_card_and_followed_when_it_is_mended(
    page: Any, folder: Path
) -> None:
    path = folder / LANTERN
    whole = path.read_text(encoding="utf-8")
    path.write_text(whole.replace('"4 cm"', '"6 ells"'), encoding="utf-8")
    page.wait_for_selector("#step-0 .refusal")
    assert page.locator("text=Leave it as it was").count() == 0  # it stands in her file: there is nothing to take back
    path.write_text(whole.replace('"4 cm"', '"6 cm"'), encoding="utf-8")
    until(page, "document.getElementById('step-0-by').value === '6 cm'")
    assert page.locator(".refusal").count() == 0


@pytest.mark.whole
def test_what_a_length_was_before_can_be_had_again(page: Any, folder: Path) -> None:
    page.fill("#length-waist_girth", "80")
    page.keyboard.press("Enter")
    written(page, "waist 80")
    page.click("text=What they were before")
    page.click("text=79 again")
    written(page, "waist 79")
    assert lengths(folder)["waist"] == 79


@pytest.mark.whole
def test_all_that_is_in_the_folder_is_one_press_away_and_the_skip_link_keeps_the_address(page: Any) -> None:
    address = page.url
    page.focus(".skip")
    page.keyboard.press("Enter")
    assert page.url == address
    assert page.evaluate("document.activeElement.id") == "sheet"
    page.click("text=All that is in this folder")
    page.wait_for_selector("text=Your wardrobe")
