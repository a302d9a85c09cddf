"""Her jobs about people and sizes, from start to end: a child that grows, several wearers, a bought pattern, a nest,
another hand on the same number. Chromium, the real server, real files.

Where there is no Chromium none of these run, and the end of the run says so.
"""

from __future__ import annotations

import datetime
import tomllib
from pathlib import Path
from typing import Any

import pytest

from drafting.body.person import person
from output.api.sizing import size_choice, size_data
from tests.outside.opened_page import (
    CHROMIUM,
    FERRY,
    LANTERN,
    TOLLHOUSE,
    blank,
    examples,
    made,
    saved,
    served,
    shown,
    until,
    written,
)
from tests.outside.read_pdf import text_of

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no Chromium here: her jobs with people were NOT done")

PIER = "garments/pier-dress.toml"
LENGTHS = {"height": 1650.0, "bust": 914.4, "waist": 762.0, "hip": 1066.8}
MIKA = """name = "Mika"
body = "girl"
unit = "cm"
born = 2021-05-14
measured = 2026-11-20
[measurements]
height = 110
chest = 57
waist = 53
hip = 60
[[earlier]]
measured = 2026-03-01
height = 105
"""
BODY = "bust\t31 1/2\t32 1/2\t34\t36\t38\t40\nwaist 24 25 26 1/2 28 30 32\nhip 33 1/2 34 1/2 36 38 40 42"
FINISHED = "bust 35 36 37 1/2 39 1/2 41 1/2 43 1/2\nwaist 25 26 27 1/2 29 31 33\nhip 36 1/2 37 1/2 39 41 43 45"


def test_a_childs_dress_is_to_fit_until_a_day(browser: Any, server: tuple[Path, str, int], folder: Path) -> None:
    (folder / "people" / "mika.toml").write_text(MIKA, encoding="utf-8")
    blocks = "".join(f'[[block]]\nname = "child\'s {each}"\n' for each in ("bodice", "sleeve", "skirt"))
    (folder / PIER).write_text(f'title = "Pier dress"\nwearer = "../people/mika.toml"\n{blocks}', encoding="utf-8")
    page = shown(browser, server, folder, PIER)
    page.wait_for_selector("#over-time")
    over = (
        page.locator("tr", has=page.get_by_role("rowheader", name="height", exact=True)).first.inner_text().split("\t")
    )
    assert over[1:3] == ["105.0 cm", "110.0 cm"]
    page.click("text=Measure anew today")
    written(page, "measured anew")
    kept = tomllib.loads((folder / "people" / "mika.toml").read_text(encoding="utf-8"))
    assert [each["height"] for each in kept["earlier"]] == [105, 110]
    assert str(kept["measured"]) == datetime.date.today().isoformat()
    page.fill("#length-stature", "112")
    page.keyboard.press("Enter")
    written(page, "height 112")
    until(page, "document.querySelectorAll('#over-time + .wide thead th').length === 5")
    page.get_by_label("It is to fit until").fill("2027-08-01")
    written(page, "to fit until 2027-08-01")
    assert tomllib.loads((folder / PIER).read_text(encoding="utf-8"))["grow"]["until"] in (
        "2027-08-01",
        datetime.date(2027, 8, 1),
    )
    until(page, "document.querySelectorAll('.piece .differs[d]:not([d=\"\"])').length >= 3")
    page.click("text=How Mika grows")
    page.wait_for_selector("img.drawn")
    until(page, "document.querySelector('img.drawn').naturalWidth > 0")
    told = page.locator("#who").inner_text()
    assert "What fits until when" in told
    assert "skirt length" in told


def test_one_garment_for_several_people_side_by_side(browser: Any, server: tuple[Path, str, int], folder: Path) -> None:
    page = shown(browser, server, folder, FERRY)
    page.wait_for_selector("text=For several people, side by side")
    page.click("text=For several people, side by side")
    group = page.get_by_role("group", name="For whom, side by side")
    for name in ("Oda", "Runa"):
        group.get_by_label(name, exact=True).first.check()
    until(page, "document.querySelectorAll('#side-by-side + .wide thead th').length === 3")
    cells = page.locator("#side-by-side + .wide tbody tr").first.locator("td").all_inner_texts()
    mine = page.locator("#measures + .wide tbody tr").first.locator("td.is").inner_text()
    assert cells[0] == mine
    assert cells[1] != mine


def test_the_size_of_a_bought_pattern_from_its_packet(browser: Any, tmp_path: Path) -> None:
    folder = examples(tmp_path, FERRY)
    lengths = "".join(f"{word} = {mm}\n" for word, mm in LENGTHS.items())
    text = f'name = "Isolde"\nbody = "woman"\nunit = "mm"\n[measurements]\n{lengths}'
    (folder / "people" / "isolde.toml").write_text(text, encoding="utf-8")
    with served(folder) as address:
        page = blank(browser)
        page.goto(address)
        page.click("text=Which size of a bought pattern?")
        page.select_option("#size-person", label="Isolde")
        page.fill("#chart-title", "Kelp dress")
        page.fill("#chart-sizes", "8 10 12 14 16 18")
        page.fill("#chart-body", BODY.replace("32 1/2", "31"))
        page.fill("#chart-finished", FINISHED)
        page.click("button:has-text('Which size?')")
        page.wait_for_selector("#size-told .refusal li")
        page.fill("#chart-body", BODY)
        page.click("button:has-text('Which size?')")
        page.wait_for_selector("#size-told .answer")
        page.click("text=Keep this chart")
        page.wait_for_selector("text=Kept in")
        kept = tomllib.loads((folder / "charts" / "kelp-dress.toml").read_text(encoding="utf-8"))
        told = size_data(size_choice(kept, person(LENGTHS, name="Isolde", unit="mm"), kind="dress"))
        assert page.locator("#size-told .answer").inner_text() == told["take"]
        assert page.locator("#size-told img.drawn").count() == (1 if told["picture"] else 0)
        page.click("text=Back to the wardrobe")
        page.click("text=Which size of a bought pattern?")
        page.select_option("#chart-kept", label="Kelp dress")
        until(page, "document.getElementById('chart-body').value.includes('26 1/2')")


def test_several_sizes_over_each_other_and_two_of_them_printed(
    browser: Any, server: tuple[Path, str, int], folder: Path
) -> None:
    page = shown(browser, server, folder, TOLLHOUSE)
    page.click("text=Several sizes over each other")
    sizes = page.get_by_role("group", name="Sizes over each other")
    for size, said in (("88", "88, 92"), ("100", "88, 92, 100")):
        sizes.get_by_label(size, exact=True).check()
        written(page, f"sizes {said}")
    assert tomllib.loads((folder / TOLLHOUSE).read_text(encoding="utf-8"))["sizes"] == {"nest": [88, 92, 100]}
    until(page, "document.querySelectorAll('.piece .sizes path').length === 5 * 2")
    lines = (
        "[...document.querySelectorAll('.piece .sizes path, .piece .cut')].map((each) => each.style.strokeDasharray)"
    )
    assert len({*page.evaluate(lines)}) == len(("88", "92", "100"))
    until(page, "document.querySelectorAll('.labels .size:not([display])').length > 10")
    assert "Size 100:" in page.locator("#together").inner_text()
    page.click("text=Which sizes: all")
    page.locator("#paper").get_by_label("92", exact=True).uncheck()
    assert "sizes 88, 100" in " ".join(text_of(made(page, "For a copy shop")))


@pytest.mark.whole  # its like: the edits of two hands
@pytest.mark.parametrize("hers", [True, False])
def test_two_hands_on_one_number(browser: Any, server: tuple[Path, str, int], folder: Path, hers: bool) -> None:
    page = shown(browser, server, folder, LANTERN)
    with page.expect_response("**/api/try"):
        page.fill("#step-0-by", "3")
    saved(folder / LANTERN, 'by = "4 cm"', 'by = "5 cm"')
    page.keyboard.press("Enter")
    asks = page.locator(".asks")
    asks.wait_for()
    assert "5 cm" in asks.inner_text()
    assert "3" in asks.inner_text()
    assert 'by = "5 cm"' in (folder / LANTERN).read_text(encoding="utf-8")
    asks.get_by_role("button", name="Yours" if hers else "What the file says").click()
    asks.wait_for(state="detached")
    by = tomllib.loads((folder / LANTERN).read_text(encoding="utf-8"))["step"][0]["by"]
    assert by == ("3 cm" if hers else "5 cm")
    until(page, "document.getElementById('step-0-by').value.startsWith(given)", by.split()[0])


def test_a_cloth_by_her_word(browser: Any, server: tuple[Path, str, int], folder: Path) -> None:
    page = shown(browser, server, folder, LANTERN)
    page.select_option("#cloth-kind", "denim")
    written(page, "cloth denim")
    assert tomllib.loads((folder / LANTERN).read_text(encoding="utf-8"))["cloth"]["kind"] == "denim"
    until(page, "document.getElementById('cloth').textContent.includes('Denim: heavy')")
    page.fill("#cloth-over", "pullover")
    page.keyboard.press("Enter")
    written(page, "worn over pullover")


def test_a_number_that_is_half_typed_is_not_refused(browser: Any, server: tuple[Path, str, int], folder: Path) -> None:
    page = shown(browser, server, folder, LANTERN)
    page.evaluate(
        """() => { window.refused = 0;
        new MutationObserver(() => { window.refused += document.querySelectorAll(".length .refusal").length; })
          .observe(document.getElementById("who"), {childList: true, subtree: true}); }"""
    )
    waist = page.locator("#length-waist_girth")
    waist.focus()
    waist.evaluate(
        """async (field) => { for (const typed of ["8", "80"]) {
        field.value = typed;
        field.dispatchEvent(new Event("input", {bubbles: true}));
        await new Promise((done) => setTimeout(done, 150)); } }"""
    )
    page.keyboard.press("Enter")
    written(page, "waist 80")
    assert page.evaluate("window.refused") == 0
    waist.fill("8")
    page.wait_for_selector(".length .refusal")
    page.keyboard.press("Escape")
    page.wait_for_selector(".length .refusal", state="detached")
