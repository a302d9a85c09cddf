"""The table of the page as Chromium draws it: true to scale, no name on another, no piece on another, keys and touch.

Where there is no Chromium none of these run, and the skip says so.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest

from tests.outside.opened_page import AXE, CHROMIUM, ROOT, examples, opened
from tests.sampling import some

pytestmark = pytest.mark.skipif(
    CHROMIUM is None, reason="no Chromium here: the table of the page was NOT looked at in a browser"
)

GARMENTS = sorted(f"garments/{path.name}" for path in (ROOT / "examples" / "garments").glob("*.toml"))
FERRY = "garments/ferry-dress.toml"
SIGNAL = "garments/signal-dress.toml"
LANTERN = "garments/lantern-dress.toml"

_BOXES = """(selector) => [...document.querySelectorAll(selector)]
  .filter((each) => !each.closest("[display=none]"))
  .map((each) => each.getBoundingClientRect())
  .map(({left, top, right, bottom}) => [left, top, right, bottom])"""

_PIECES = """() => [...document.querySelectorAll(".piece")].map((piece) => {
  const box = piece.querySelector(".ground").getBoundingClientRect();
  return [piece.getAttribute("aria-label").split(",")[0], box.left, box.top, box.right, box.bottom];
})"""

_ZOOM = """([factor, x, y]) => {
  const table = document.querySelector("#table .lay svg");
  const box = table.getBoundingClientRect();
  const spot = {clientX: box.left + x * box.width, clientY: box.top + y * box.height};
  const turn = factor > 1 ? -120 : 120;
  for (let i = 0; i < 4; i++) {
    table.dispatchEvent(new WheelEvent("wheel", {deltaY: turn, bubbles: true, cancelable: true, ...spot}));
  }
}"""


@dataclass(frozen=True)
class Shelf:
    """A part of the folder that is served, with what nobody here writes to."""

    server: tuple[Path, str, int]
    folder: Path

    def address(self, file: str) -> str:
        return f"{self.folder.name}/{file}"

    def opened(self, browser: Any, file: str, **how: Any) -> Any:
        """A page that shows an example; it is laid there first, so that pages list no more than is looked at."""
        if not (self.folder / file).exists():
            shutil.copy(ROOT / "examples" / file, self.folder / file)
        return opened(browser, self.server[1], self.address(file), **how)


@pytest.fixture(scope="module")
def shelf(server: tuple[Path, str, int]) -> Iterator[Shelf]:
    folder = server[0] / "shelf"
    folder.mkdir()
    yield Shelf(server, examples(folder, FERRY, SIGNAL, LANTERN))
    shutil.rmtree(folder)


def _overlap(one: list[float], other: list[float]) -> bool:
    return one[0] < other[2] - 0.5 and other[0] < one[2] - 0.5 and one[1] < other[3] - 0.5 and other[1] < one[3] - 0.5


@pytest.mark.parametrize("file", some(GARMENTS[::3], every=7, first=6))
def test_no_name_lies_on_another_at_any_zoom(browser: Any, shelf: Shelf, file: str) -> None:
    page = shelf.opened(browser, file)
    written = 0
    for factor, x, y in [(1, 0.5, 0.5), *[(2, 0.3, 0.3)] * 5, *[(0.5, 0.6, 0.4)] * 9, *[(2, 0.7, 0.6)] * 6]:
        if factor != 1:
            page.evaluate(_ZOOM, [factor, x, y])
        boxes = page.evaluate(_BOXES, ".labels text")
        written += len(boxes)
        room = page.evaluate(_BOXES, "#table .lay")[0]
        assert not [pair for pair in combinations(boxes, 2) if _overlap(*pair)]
        assert all(box[0] >= room[0] - 1 and box[2] <= room[2] + 1 and box[3] <= room[3] + 2 for box in boxes)
    assert written > 20


@pytest.mark.parametrize("file", some(GARMENTS[1::3], every=7))
def test_all_the_pieces_are_seen_and_none_lies_on_another(browser: Any, shelf: Shelf, file: str) -> None:
    page = shelf.opened(browser, file)
    for width, height in ((1440, 900), (1024, 768), (2560, 1300), (390, 844), (800, 390)):
        page.set_viewport_size({"width": width, "height": height})
        room, pieces = _laid_anew(page)
        assert not [pair for pair in combinations([box for _, *box in pieces], 2) if _overlap(*pair)]
        named = page.locator(".labels g:not([display=none]) .first").count()
        if (
            min(width, height) > 390 or len(pieces) <= 10
        ):  # on a phone a dozen names and more have no room: the first have
            assert named >= len(pieces)  # each has its name
        assert all(_within(room, box) for _, *box in pieces)


def _laid_anew(page: Any) -> tuple[list[float], list[list[Any]]]:
    """The box of the table, and each piece with its own, once the page has laid them: on a loaded machine that takes
    a while. What it comes to in 5 s is given as it is."""
    for _ in range(50):
        page.wait_for_timeout(100)
        room, pieces = page.evaluate(_BOXES, "#table .lay")[0], page.evaluate(_PIECES)
        if all(_within(room, box) for _, *box in pieces):
            break
    return room, pieces


def _within(room: list[float], box: list[float]) -> bool:
    left, top, right, bottom = box
    return room[0] - 1 <= left and right <= room[2] + 1 and room[1] - 1 <= top and bottom <= room[3] + 1


def test_a_centimetre_of_the_tape_is_one_of_the_pieces_at_any_zoom(browser: Any, shelf: Shelf) -> None:
    page = shelf.opened(browser, FERRY)
    for factor in (1, 2, 2, 0.5, 0.5, 0.5, 2):
        if factor != 1:
            page.evaluate(_ZOOM, [factor, 0.4, 0.4])
        pixels = page.evaluate("document.querySelector('.piece').getScreenCTM().a")
        numbers = page.evaluate(
            "[...document.querySelectorAll('#tape text')].map((text) => [Number(text.textContent.replace('−', '-')),"
            " text.getBoundingClientRect().top])"
        )
        (first, high), (last, low) = numbers[0], numbers[-1]
        assert (low - high) / (last - first) == pytest.approx(10.0 * pixels, rel=2e-3)


_PRESS = """(name) => [...document.querySelectorAll(".table-foot button")]
  .find((button) => button.textContent === name).click()"""

_DRAG = """([id, values]) => {
  const slider = document.getElementById(id);
  return values.reduce((done, value) => done.then(async () => {
    slider.value = value;
    slider.dispatchEvent(new Event("input", {bubbles: true}));
    await new Promise((end) => setTimeout(end, 160));
  }), Promise.resolve());
}"""


def test_while_a_sleeve_is_lengthened_nothing_else_moves_and_what_is_added_is_hatched(
    browser: Any, shelf: Shelf
) -> None:
    page = shelf.opened(browser, FERRY)
    before = {name: box for name, *box in page.evaluate(_PIECES)}
    page.evaluate(_DRAG, ["step-0-by-slider", [40, 60, 80, 100]])
    page.wait_for_function("() => document.querySelector('.slip').textContent.includes('68.0 cm')")
    after = {name: box for name, *box in page.evaluate(_PIECES)}
    hatched = page.evaluate(
        "[...document.querySelectorAll('.piece')].filter((piece) => piece.querySelector('.differs').getAttribute('d'))"
        ".map((piece) => piece.getAttribute('aria-label'))"
    )
    assert [label.split(",")[0] for label in hatched] == ["sleeve"]
    assert hatched[0].endswith("changed")
    assert {name for name in before if before[name] != pytest.approx(after[name], abs=0.6)} == {"sleeve"}
    assert after["sleeve"][3] > before["sleeve"][3] + 20
    assert after["sleeve"][1] == pytest.approx(before["sleeve"][1], abs=0.6)


def test_keys_go_through_the_edges_and_each_says_its_length_and_what_it_is_sewn_to(browser: Any, shelf: Shelf) -> None:
    page = shelf.opened(browser, FERRY)
    page.evaluate("[...document.querySelectorAll('.piece')][2].focus()")
    page.keyboard.press("Enter")
    page.wait_for_selector(".edges li")
    said = []
    for _ in range(5):
        words, lit = page.evaluate(
            "[document.activeElement.innerText.split('\\n'),"
            " [...document.querySelectorAll('.lit')].some((each) => each.getAttribute('d'))]"
        )
        assert lit
        said.append(words)
        page.keyboard.press("ArrowDown")
    assert [words[0] for words in said] == [
        *("wrist", "underarm seam, front", "cap front", "cap back", "underarm seam, back")
    ]
    assert said[2][-1] == "sewn to the bodice front, 1.0 cm eased in"
    assert all("cm" in words[1] for words in said)
    page.keyboard.press("Escape")
    assert page.evaluate("document.activeElement.getAttribute('aria-label')").startswith("sleeve")
    page.keyboard.press("+")
    page.wait_for_function("() => !document.querySelector('.table').classList.contains('whole')")


def test_pointing_at_an_edge_names_it(browser: Any, shelf: Shelf) -> None:
    page = shelf.opened(browser, FERRY)
    page.evaluate("[...document.querySelectorAll('.piece')][0].dispatchEvent(new PointerEvent('pointermove'))")
    x, y = page.evaluate(
        """() => {
          const edge = [...document.querySelectorAll(".piece")][0].querySelectorAll(".feelers path")[7];
          const at = edge.getPointAtLength(edge.getTotalLength() / 2).matrixTransform(edge.getScreenCTM());
          return [at.x, at.y];
        }"""
    )
    page.mouse.move(x, y)
    tip = page.inner_text(".edge-tip")
    assert tip.startswith("side seam")
    assert "sewn to the bodice back" in tip


def test_darts_close_and_open_again(browser: Any, shelf: Shelf) -> None:
    page = shelf.opened(browser, FERRY)
    shape = "[...document.querySelectorAll('.piece')][0].querySelector('.ground').getAttribute('d')"
    cut = page.evaluate(shape)
    page.evaluate("[...document.querySelectorAll('.piece')][0].focus()")
    page.keyboard.press("Enter")
    page.get_by_role("button", name="Darts closed").click()
    page.wait_for_selector(".piece.folded")
    folded = page.evaluate(shape)
    page.get_by_role("button", name="Darts closed").click()
    page.wait_for_selector(".piece.folded", state="detached")
    again = page.evaluate(shape)
    assert folded != cut
    assert again == cut


def test_a_seam_is_walked_from_mark_to_mark(browser: Any, shelf: Shelf) -> None:
    page = shelf.opened(browser, FERRY)
    page.evaluate("document.getElementById('together-more').scrollIntoView()")
    page.wait_for_selector("#walk-seam")
    page.select_option("#walk-seam", "front armhole")
    page.wait_for_function("() => document.querySelector('.walk .small')?.textContent.includes('eased in')")
    page.emulate_media(reduced_motion="reduce")
    page.get_by_role("button", name="On to the next mark").click()
    met = page.inner_text(".walk .told")
    page.get_by_role("button", name="On to the next mark").click()
    ended = page.inner_text(".walk .told")
    assert page.get_by_role("button", name="On to the next mark").is_disabled()
    assert met.startswith("The front cap notch meets the front armhole notch")
    assert "1.0 cm taken in" in ended


@pytest.mark.whole
def test_from_an_edge_one_comes_to_its_seam(browser: Any, shelf: Shelf) -> None:
    page = shelf.opened(browser, FERRY)
    page.evaluate("[...document.querySelectorAll('.piece')][2].dispatchEvent(new MouseEvent('click', {bubbles: true}))")
    page.locator(".edges li button", has_text="cap back").click()
    page.get_by_role("button", name="Walk the seam “back armhole”").click()
    page.wait_for_function("() => document.querySelector('#walk-seam')?.value === 'back armhole'")
    page.wait_for_function("() => document.activeElement.id === 'walk-seam'")


def test_real_size_is_what_the_card_says(browser: Any, shelf: Shelf) -> None:
    page = shelf.opened(browser, FERRY)
    page.get_by_role("button", name="Real size").click()
    page.evaluate(
        "(() => { const bar = document.querySelector('.coin input'); bar.value = 4.2;"
        " bar.dispatchEvent(new Event('input', {bubbles: true})); })()"
    )
    wide = page.evaluate("document.querySelector('.coin .card').getBoundingClientRect().width")
    page.get_by_role("button", name="It is as wide").click()
    pixels = page.evaluate("document.querySelector('.piece').getScreenCTM().a")
    said = page.inner_text(".table-foot .scale")
    assert wide == pytest.approx(85.6 * 4.2, abs=1.0)
    assert pixels == pytest.approx(wide / 85.6, rel=2e-3)
    assert said.startswith("Real size")


@pytest.mark.whole
def test_on_a_phone_the_table_comes_near_what_the_last_change_touched(browser: Any, shelf: Shelf) -> None:
    page = shelf.opened(browser, FERRY, width=390, height=844, has_touch=True, reduced_motion="reduce")
    whole = {name: box for name, *box in page.evaluate(_PIECES)}
    page.evaluate("document.getElementById('step-0').scrollIntoView({block: 'center'})")
    page.wait_for_timeout(300)
    page.evaluate(_DRAG, ["step-0-by-slider", [60]])
    page.wait_for_selector(".piece.aside")
    page.wait_for_timeout(400)
    near = {name: box for name, *box in page.evaluate(_PIECES)}
    names = page.evaluate(
        "[...document.querySelectorAll('.labels g:not([display=none]) .first')].map((each) => each.textContent)"
    )
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert near["sleeve"][3] - near["sleeve"][1] > 1.1 * (whole["sleeve"][3] - whole["sleeve"][1])
    assert names == ["sleeve"]
    assert wide <= 390


@pytest.mark.whole
def test_another_garment_is_drawn_under_this_one_and_taken_away_again(browser: Any, shelf: Shelf) -> None:
    page = shelf.opened(browser, FERRY)
    page.get_by_role("button", name="Two versions").click()
    page.select_option("#compare-with", f"other {shelf.address(SIGNAL)}")
    page.wait_for_function(
        "() => [...document.querySelectorAll('.was')].filter((each) => each.getAttribute('d')).length > 3"
    )
    page.wait_for_selector(".compare li")
    said = page.inner_text(".compare")
    page.get_by_role("button", name="Two versions").click()
    page.wait_for_function("() => [...document.querySelectorAll('.was')].every((each) => !each.getAttribute('d'))")
    assert "shoulder" in said


@pytest.mark.parametrize(("width", "scheme"), some([(1440, "light"), (390, "dark")], every=2))
def test_an_accessibility_checker_finds_nothing_on_the_table_with_all_of_it_open(
    browser: Any, shelf: Shelf, width: int, scheme: str
) -> None:
    page = shelf.opened(browser, FERRY, width=width)
    page.emulate_media(color_scheme=scheme)
    page.evaluate(_DRAG, ["step-0-by-slider", [70]])
    page.evaluate("[...document.querySelectorAll('.piece')][0].dispatchEvent(new MouseEvent('click', {bubbles: true}))")
    page.wait_for_selector(".edges li")
    for name in ("Real size", "Two versions"):
        page.evaluate(_PRESS, name)
    page.evaluate("document.getElementById('together-more').scrollIntoView()")
    page.wait_for_selector("#walk-seam")
    page.wait_for_selector(".compare option", state="attached")
    page.evaluate(AXE)
    found = page.evaluate(
        "axe.run({include: [['#table'], ['#together-more']]}, {resultTypes: ['violations'], preload: false})"
    )
    told = [
        (rule["id"], rule["help"], [node["html"][:120] for node in rule["nodes"][:3]]) for rule in found["violations"]
    ]
    assert told == []
    assert len(found["passes"]) > 12


@pytest.mark.whole
def test_two_fingers_bring_the_pieces_nearer(browser: Any, shelf: Shelf) -> None:
    page = shelf.opened(browser, FERRY, width=390, height=844, has_touch=True, is_mobile=True)
    scale = "document.querySelector('.piece').getScreenCTM().a"
    before = page.evaluate(scale)
    touch = page.context.new_cdp_session(page)
    for kind, gap in (("touchStart", 40), ("touchMove", 60), ("touchMove", 90), ("touchMove", 120)):
        points = [{"x": 195 - gap, "y": 110, "id": 0}, {"x": 195 + gap, "y": 110, "id": 1}]
        touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
    touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    after = page.evaluate(scale)
    assert 2.0 < after / before < 4.0


def test_pieces_that_grow_push_each_other_aside_and_never_lie_on_each_other(browser: Any, shelf: Shelf) -> None:
    page = shelf.opened(browser, FERRY)
    for field, values in (("block-0-ease-bust-slider", [80, 120]), ("block-2-length-slider", [700, 820])):
        for value in values:
            page.evaluate(_DRAG, [field, [value]])
            boxes = [box for _, *box in page.evaluate(_PIECES)]
            assert not [pair for pair in combinations(boxes, 2) if _overlap(*pair)]


@pytest.mark.whole
def test_on_a_phone_another_garment_can_be_opened_and_the_tape_lies_there_again(browser: Any, shelf: Shelf) -> None:
    page = shelf.opened(browser, FERRY, width=390, height=844)
    page.evaluate("(file) => { location.hash = file; }", shelf.address(LANTERN))
    page.wait_for_function("() => document.title.startsWith('Lantern')")
    page.wait_for_selector(".piece")
    tapes = page.evaluate(
        "[document.querySelectorAll('#tape svg').length, document.querySelectorAll('#table svg').length]"
    )
    assert tapes == [1, 2]
