"""Every view and state of the page, each brought about the way she does it: for the accessibility checker and the eye.

A view is given a page of the browser, the address, and a folder below it that only this view writes to.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.outside.opened_page import examples, go_to

__all__ = ["VIEWS", "View", "settled"]

LANTERN = "garments/lantern-dress.toml"
FERRY = "garments/ferry-dress.toml"
SIGNAL = "garments/signal-dress.toml"
TOLLHOUSE = "garments/tollhouse-dress.toml"


DXF = Path(__file__).parents[1] / "data" / "release_2000" / "harbour-skirt.dxf"


@dataclass(frozen=True, slots=True)
class View:
    """One view. whole: whether it is of the folder itself, with none beside it; at: what is scrolled to, if anything"""

    name: str
    bring: Callable[[Any, str, Path], None]
    at: str = ""
    whole: bool = False


def settled(page: Any) -> None:
    """Waits until the pieces are drawn and nothing is asked any more."""
    page.wait_for_selector(".piece")
    page.wait_for_function("() => document.querySelectorAll('.labels .first').length > 0")


def _garment(name: str, *, text: Callable[[str], str] = lambda text: text) -> Callable[[Any, str, Path], None]:
    def bring(page: Any, address: str, folder: Path) -> None:
        file = examples(folder, name) / name
        file.write_text(text(file.read_text(encoding="utf-8")), encoding="utf-8")
        go_to(page, address, f"{folder.name}/{name}")
        settled(page)

    return bring


def _then(
    first: Callable[[Any, str, Path], None], act: Callable[[Any, Path], None]
) -> Callable[[Any, str, Path], None]:
    def bring(page: Any, address: str, folder: Path) -> None:
        first(page, address, folder)
        act(page, folder)

    return bring


def _first_of_all(page: Any, address: str, _folder: Path) -> None:
    page.goto(address)
    page.wait_for_selector("form")


def _first_garment(page: Any, address: str, folder: Path) -> None:
    shutil.copytree(examples(folder / ".all") / "people", folder / "people")
    page.goto(address)
    page.wait_for_selector("form")


def _wardrobe(page: Any, address: str, folder: Path) -> None:
    examples(folder, FERRY, LANTERN, SIGNAL, TOLLHOUSE)
    page.goto(address)
    page.wait_for_selector(".garments img")
    page.wait_for_function(
        "() => [...document.querySelectorAll('.picture')].every((each) => each.querySelector('img'))"
    )


def _charts(page: Any, address: str, folder: Path) -> None:
    examples(folder, FERRY)
    page.goto(address)
    page.click("text=The charts of sizes")
    page.wait_for_selector("#patterns ~ details table")


def _in_a_size(page: Any, address: str, _folder: Path) -> None:
    page.goto(address)
    page.click("text=Nobody is measured yet")
    page.wait_for_selector(".kinds label")
    page.click("text=What the sizes measure")


def _only_front(text: str) -> str:
    """A step held to one piece, so that a seam does not meet any more."""
    return text + '\n[[step]]\nalter = "lengthen"\npiece = "skirt front"\nby = "2 cm"\nonly = "skirt front"\n'


def _broken(page: Any, address: str, folder: Path) -> None:
    file = examples(folder, LANTERN) / LANTERN
    file.write_text(file.read_text(encoding="utf-8").replace("[[step]]", "[[stp]]"), encoding="utf-8")
    page.goto(f"{address}#{folder.name}/{LANTERN}")
    page.wait_for_selector(".refusal")


def _type(where: str, text: str, *, then: str) -> Callable[[Any, Path], None]:
    def act(page: Any, _folder: Path) -> None:
        page.fill(where, text)
        page.keyboard.press("Enter")
        page.wait_for_selector(then)

    return act


def _changed_by_hand(page: Any, folder: Path) -> None:
    """Another hand writes what she is about to write."""
    file = folder / LANTERN
    with page.expect_response("**/api/try"):
        page.fill("#step-0-by", "3")
    text = file.read_text(encoding="utf-8").replace('by = "4 cm"', 'by = "5 cm"', 1)
    new = file.with_suffix(".new")
    new.write_text(text, encoding="utf-8")
    os.replace(new, file)
    page.keyboard.press("Enter")
    page.wait_for_selector(".asks")


def _piece(page: Any, _folder: Path) -> None:
    page.evaluate("[...document.querySelectorAll('.piece')][0].focus()")
    page.keyboard.press("Enter")
    page.wait_for_selector(".edges li")
    page.keyboard.press("Tab")
    page.wait_for_timeout(500)


def _folded(page: Any, folder: Path) -> None:
    _piece(page, folder)
    page.get_by_role("button", name="Darts closed").click()
    page.wait_for_selector(".piece.folded")


def _walk(page: Any, _folder: Path) -> None:
    page.evaluate("document.getElementById('together-more').scrollIntoView()")
    page.wait_for_selector("#walk-seam")
    page.select_option("#walk-seam", "front armhole")
    page.wait_for_function("() => document.querySelector('.walk-picture .a .edge')?.getAttribute('d')")
    page.get_by_role("button", name="On to the next mark").click()
    page.wait_for_timeout(800)


def _real(page: Any, folder: Path) -> None:
    if page.viewport_size["width"] < 500:  # on a phone what stands under the pieces comes with the first that is chosen
        _piece(page, folder)
    page.get_by_role("button", name="Real size").click()
    page.wait_for_selector(".coin input")


def _more(page: Any, _folder: Path) -> None:
    page.click("#changed .more summary")
    page.fill("#find", "v neck")
    page.click(".choices button >> nth=0")
    page.wait_for_selector("#new-step")


def _find(page: Any, _folder: Path) -> None:
    page.click("#changed .more summary")
    page.fill("#find", "bust")


def _made(page: Any, _folder: Path) -> None:
    page.get_by_role("button", name="The pattern to print at home").click()
    page.wait_for_selector(".things a[download]", timeout=60000)


def _making(page: Any, _folder: Path) -> None:
    page.get_by_role("button", name="How it lies on the cloth").click()
    page.wait_for_selector("progress")


def _opened_up(page: Any, _folder: Path) -> None:
    """Everything that is folded away is open."""
    page.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true; })")


def _dragged(page: Any, _folder: Path) -> None:
    page.focus("#step-0-by-slider")
    for _ in range(12):
        page.keyboard.press("ArrowRight")
    page.wait_for_function("() => [...document.querySelectorAll('.differs')].some((each) => each.getAttribute('d'))")


def _child(page: Any, address: str, folder: Path) -> None:
    """A girl with an earlier height, her dress to fit until a day, and how she grows."""
    examples(folder, LANTERN)
    (folder / "people" / "mika.toml").write_text(
        'name = "Mika"\nbody = "girl"\nunit = "cm"\nborn = 2021-05-14\nmeasured = 2026-11-20\n'
        "[measurements]\nheight = 110\nchest = 57\nwaist = 53\nhip = 60\n"
        "[[earlier]]\nmeasured = 2026-03-01\nheight = 105\n"
    )
    blocks = "".join(f'[[block]]\nname = "child\'s {each}"\n' for each in ("bodice", "sleeve", "skirt"))
    dress = f'title = "Pier dress"\nwearer = "../people/mika.toml"\n[grow]\nuntil = 2027-08-01\n{blocks}'
    (folder / "garments" / "pier-dress.toml").write_text(dress)
    page.goto(f"{address}#{folder.name}/garments/pier-dress.toml")
    settled(page)
    page.click("text=How Mika grows")
    page.wait_for_selector("img.drawn")


def _wearers(page: Any, _folder: Path) -> None:
    page.click("text=For several people, side by side")
    group = page.get_by_role("group", name="For whom, side by side")
    for name in ("Oda", "Runa"):
        group.get_by_label(name, exact=True).first.check()
    page.wait_for_selector("#side-by-side")


def _nest(text: str) -> str:
    return text.replace("bust = 92\nwaist = 96\nhip = 100\n", "nest = [88, 92, 100]\n")


def _bought(page: Any, address: str, folder: Path) -> None:
    _wardrobe(page, address, folder)
    page.click("text=Which size of a bought pattern?")
    page.select_option("#size-person", label="Oda")
    page.select_option("#chart-for", "woman")
    page.fill("#chart-sizes", "8 10 12 14 16 18")
    page.fill("#chart-body", "bust 32 1/2 34 36 38 40 42\nwaist 25 26 1/2 28 30 32 34\nhip 34 1/2 36 38 40 42 44")
    page.click("button:has-text('Which size?')")
    page.wait_for_selector("#size-told .answer")


def _brought(page: Any, address: str, folder: Path) -> None:
    """A DXF of pieces that nobody has named."""
    _wardrobe(page, address, folder)
    page.set_input_files("#bring", str(DXF))
    page.wait_for_selector("img.drawn")


def _part_refused(page: Any, _folder: Path) -> None:
    page.click("#made-shirt-collar input")
    page.wait_for_selector("#made-shirt-collar .refusal")


_LANTERN = _garment(LANTERN)

VIEWS = (
    View("first person", _first_of_all, whole=True),
    View("first garment", _first_garment, whole=True),
    View("wardrobe", _wardrobe, whole=True),
    View("calm", _garment(FERRY)),
    View("who", _LANTERN, at="#who"),
    View("what", _LANTERN, at="#what"),
    View("cloth", _LANTERN, at="#cloth"),
    View("changed", _LANTERN, at="#changed"),
    View("together", _LANTERN, at="#together"),
    View("paper", _LANTERN, at="#paper"),
    View("all open", _then(_LANTERN, _opened_up)),
    View("longer", _then(_LANTERN, _dragged), at="#changed"),
    View("failed", _garment(LANTERN, text=_only_front), at="#together"),
    View("refused", _then(_LANTERN, _type("#step-0-by", "-52", then="#step-0 .refusal")), at="#step-0"),
    View("slip", _then(_LANTERN, _type("#length-wrist_girth", "24", then=".length .note")), at="#who"),
    View("unread", _then(_LANTERN, _type("#length-wrist_girth", "nine ells", then=".length .refusal")), at="#who"),
    View("asks", _then(_LANTERN, _changed_by_hand)),
    View("broken", _broken),
    View("piece", _then(_LANTERN, _piece)),
    View("darts closed", _then(_LANTERN, _folded)),
    View("walk", _then(_LANTERN, _walk), at="#walk-seam"),
    View("real size", _then(_LANTERN, _real)),
    View("look for a change", _then(_LANTERN, _find), at="#find"),
    View("new change", _then(_LANTERN, _more), at="#new-step"),
    View("making", _then(_LANTERN, _making), at=".things"),
    View("made", _then(_LANTERN, _made), at=".things"),
    View("sizes", _garment("garments/bakehouse-bodice.toml"), at="#who"),
    View("child", _child, at="#who"),
    View("several people", _then(_LANTERN, _wearers), at="#side-by-side"),
    View("sizes over each other", _garment("garments/tollhouse-dress.toml", text=_nest), at="#by-size"),
    View("size of a bought pattern", _bought, whole=True),
    View("pattern from elsewhere", _brought, whole=True),
    View("charts of sizes", _charts, at="#patterns", whole=True),
    View("begun in a size", _in_a_size, whole=True),
    View("part refused", _then(_LANTERN, _part_refused), at="#made-shirt-collar"),
    View("wrap skirt", _garment("garments/slipway-skirt.toml")),
)
