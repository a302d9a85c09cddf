"""The page where it is hard on it: a phone, large letters, names that would be markup, five hundred quick moves.

Where there is no Chromium none of these run, and the end of the run says so.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

import pytest

from tests.outside.opened_page import CHROMIUM, LANTERN, made, saved, shown, steps, written

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no Chromium here: the page was NOT tried where it is hard")


_TOO_WIDE = """() => [...document.querySelectorAll("#sheet button, #sheet h2, #sheet p, #sheet label, .slip *")]
  .filter((each) => each.checkVisibility() && !each.closest(".quiet, .wide"))
  .filter((each) => { const box = each.getBoundingClientRect();
    return box.width && (box.right > document.documentElement.clientWidth + 1 || box.left < -1); })
  .map((each) => each.textContent.slice(0, 60))"""


def test_a_job_on_a_phone_by_touch(browser: Any, server: tuple[Path, str, int], folder: Path) -> None:
    page = shown(browser, server, folder, LANTERN, width=360, height=740, has_touch=True, is_mobile=True)
    assert page.evaluate(_TOO_WIDE) == []
    page.tap("nav >> text=Changed how")
    page.fill("#step-0-by", "-52")
    page.keyboard.press("Enter")
    page.wait_for_selector("#step-0 .refusal")
    assert page.evaluate(_TOO_WIDE) == []
    page.tap("#step-0 .refusal button")
    written(page, "Shorten by")
    page.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true; })")
    assert page.evaluate(_TOO_WIDE) == []
    assert page.evaluate("document.documentElement.scrollWidth") == 360


def test_letters_set_twice_as_large_in_the_browser_cost_nothing(
    browser: Any, server: tuple[Path, str, int], folder: Path
) -> None:
    page = shown(browser, server, folder, LANTERN, reduced_motion="reduce")  # one of its own: its letters stay large
    small = page.evaluate("parseFloat(getComputedStyle(document.querySelector('h2')).fontSize)")
    page.context.new_cdp_session(page).send("Page.setFontSizes", {"fontSizes": {"standard": 32, "fixed": 26}})
    page.wait_for_timeout(300)
    assert page.evaluate("parseFloat(getComputedStyle(document.querySelector('h2')).fontSize)") > 1.5 * small
    page.fill("#step-0-by", "-52")
    page.keyboard.press("Enter")
    page.wait_for_selector("#step-0 .refusal")
    assert page.evaluate(_TOO_WIDE) == []
    assert page.evaluate("document.documentElement.scrollWidth") == 1440
    assert page.locator(".piece").first.is_visible()


HOSTILE = "<script>window.taken=1</script>\"'&gpj<img src=x onerror=window.taken=2>"


def test_names_that_would_be_markup_are_only_names(browser: Any, server: tuple[Path, str, int], folder: Path) -> None:
    hostile = HOSTILE.replace('"', '\\"')
    saved(folder / LANTERN, 'title = "Lantern dress"', f'title = "{hostile}"')
    saved(folder / "people/oda.toml", 'name = "Oda"', f'name = "{hostile}"')
    name = "garments/'a' & <b onclick=x>#%41?.toml"
    (folder / LANTERN).rename(folder / name)
    page = browser.new_page(viewport={"width": 1440, "height": 900})  # of its own: it is listened to
    wrong: list[str] = []
    page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("dialog", lambda dialog: wrong.append(dialog.message))
    page.goto(server[1])
    page.locator(".garments a", has_text="gpj").first.click()
    page.wait_for_selector(".piece")
    assert HOSTILE in page.inner_text("h1")
    page.fill("#step-0-by", "5 cm")
    page.keyboard.press("Enter")
    written(page, "5 cm")
    data = made(page, "The report")
    assert page.evaluate("window.taken") is None
    assert page.evaluate("document.querySelectorAll('[onclick], [onerror], body script').length") == 0
    page.close()
    assert steps(folder / name)[0]["by"] == "5 cm"
    assert b"<script>window.taken" not in data
    assert wrong == []


_MOVES = """async ([id, count]) => {
  const slider = document.getElementById(id);
  for (let move = 1; move <= count; move += 1) {
    slider.value = 20 + (move * 7) % 60;
    slider.dispatchEvent(new Event("input", {bubbles: true}));
    if (move % 5 === 0) await new Promise((next) => setTimeout(next));  // which a browser makes 4 ms long
  }
  slider.value = 33;
  slider.dispatchEvent(new Event("input", {bubbles: true}));
  slider.dispatchEvent(new Event("change", {bubbles: true}));
}"""


def _held(page: Any, process: int) -> tuple[float, float, float]:
    """How much is held: megabytes of the page's own, its nodes, megabytes of the server."""
    devtools = page.context.new_cdp_session(page)
    devtools.send("HeapProfiler.enable")
    devtools.send("HeapProfiler.collectGarbage")
    devtools.send("Performance.enable")
    found = {each["name"]: each["value"] for each in devtools.send("Performance.getMetrics")["metrics"]}
    resident = int(Path(f"/proc/{process}/statm").read_text().split()[1]) * os.sysconf("SC_PAGESIZE")
    devtools.detach()
    return found["JSHeapUsedSize"] / 1e6, found["Nodes"], resident / 1e6


def test_five_hundred_quick_moves_of_a_slider_keep_the_last_and_hold_no_more(
    browser: Any, server: tuple[Path, str, int], folder: Path
) -> None:
    page = shown(browser, server, folder, LANTERN, color_scheme="light")  # of its own: others have left nothing in it
    held = []
    for count in (100, 500):
        page.fill("#step-0-by", "4 cm")
        page.keyboard.press("Enter")
        if held:
            written(page, "4 cm")
        page.focus("#step-0-by-slider")
        page.evaluate(_MOVES, ["step-0-by-slider", count])
        written(page, "3.3 cm")
        assert steps(folder / LANTERN)[0]["by"] == "3.3 cm"
        assert page.input_value("#step-0-by") == "3.3 cm"
        held.append(_held(page, server[2]))
    (heap, nodes, resident), after = held
    assert after[0] < heap + 1.0
    assert after[1] <= nodes * 1.05
    assert after[2] < resident + 8.0
