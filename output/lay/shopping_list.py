"""What is bought for a garment: the cloth by its lay, and what the steps of sewing use up, in amounts that shops sell.

One list: the report, the first sheet, the command's JSON and the interface for Python all show this one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import listed
from drafting.pattern import Pattern, Place
from drafting.reading.units import MM_PER_INCH, length_text, percent
from drafting.sewing import Supply, SupplyKind, is_under_three, sewing_order, supplies
from output.lay.find_lay import too_wide_for
from output.lay.how_much import length_to_buy, shop_length
from output.lay.lay_pieces import Material, pieces_to_lay
from output.lay.lay_values import Fold, Lay, Spread
from output.lay.lay_widths import width_table
from output.lay.lay_words import width_text

__all__ = ["ToBuy", "lines_by_size", "shopping_list", "supply_to_buy"]

_ZIPS_CM: Final = (10, 12, 15, 18, 20, 22, 25, *range(30, 85, 5))
_ZIPS_IN: Final = (4, 5, 6, 7, 8, 9, *range(10, 32, 2))
"""Lengths in which zips are sold (common practice, from memory); the next longer one is made shorter."""

_LONGER: Final = 3.0  # mm by which an opening may be longer than its zip: one of 18 cm is sold as 7 in too

_TAPE_CM: Final = 100.0
_TAPE_IN: Final = 9.0 * MM_PER_INCH  # a quarter of a yard

_BUTTONED: Final = {
    Place.SHOULDER: "the shoulders",
    Place.BIB: "the straps",
    Place.WRIST: "the cuffs",
    Place.NECK: "the loops",
}

_ENDS_OF_SLEEVES: Final = "ends of the sleeves"

_HOLDS: Final[Mapping[str, str]] = {
    SupplyKind.BUTTONS: "set with a tool, in place of buttons",
    SupplyKind.SNAPS: "ring snaps, set with a tool",
    SupplyKind.HOOK: "set with a tool, in place of a hook",
    SupplyKind.TIE: "rather ring snaps, set with a tool",
}
"""What is bought in place of what a child under three could pull off and swallow (common practice)."""

_SNAPS_FOR: Final[Mapping[str, tuple[str, str]]] = {
    SupplyKind.BUTTONS: ("buttons", "ring snaps"),
    SupplyKind.HOOK: ("hook and eye", "ring snap"),
}

_REEL: Final = 50.0  # m or yd of thread

_METRES_IN_A_YARD: Final = 0.9144


@dataclass(frozen=True, slots=True)
class ToBuy:
    """One line of the list, lengths in her unit.

    kind:     "shell", "lining", "interfacing", or the kind of the supply, "zip"
    what:     what is asked for in the shop: "interfacing, 90 cm wide"
    how_much: "1.6 m", "20 cm", "5"
    what_for: the pieces or places it goes to; "" for the whole garment
    note:     what else is good to know; "" for nothing
    length:   the length asked for, mm; 0.0 where it is sold by number
    count:    how many
    """

    kind: str
    what: str
    how_much: str
    what_for: str = ""
    note: str = ""
    length: float = 0.0
    count: int = 1

    @property
    def line(self) -> str:
        """All of it in one line."""
        what_for = f" for {self.what_for}" if self.what_for else ""
        return f"{self.what}: {self.how_much}{what_for}{f'; {self.note}' if self.note else ''}"


def shopping_list(
    pattern: Pattern, cloths: Mapping[Material, Spread], shrinkage: float, unit: str, *, knit: bool
) -> tuple[ToBuy, ...]:
    """Everything that is bought: each cloth that is wide enough, then fastenings, tape, binding and thread.

    cloths:    how each material lies; shrinkage: of the shell
    """
    cloth = (
        _cloth(pattern, spread, material, shrinkage if material == "shell" else 0.0, unit)
        for material, spread in cloths.items()
    )
    steps = sewing_order(pattern, knit=knit)
    used = supplies(pattern, steps) if steps else ()
    bought = (supply_to_buy(each, unit) for each in used)
    return (*(each for each in cloth if each), *(_with_what_holds(each, pattern) for each in bought))


def _with_what_holds(bought: ToBuy, pattern: Pattern) -> ToBuy:
    """What is bought for a child under three, with what holds best: the caution itself stands before the steps."""
    if bought.kind not in _HOLDS or not is_under_three(pattern):
        return bought
    return replace(bought, what=bought.what.replace(*_SNAPS_FOR.get(bought.kind, ("", ""))), note=_HOLDS[bought.kind])


def lines_by_size(lists: Mapping[str, Sequence[ToBuy]]) -> tuple[str, ...]:
    """The lines for several sizes: one where all sizes take the same, else how much for which size."""
    found: dict[tuple[str, str], dict[str, list[str]]] = {}
    for size, bought in lists.items():
        for each in bought:
            found.setdefault((each.what, each.what_for), {}).setdefault(each.how_much, []).append(size)
    return tuple(_line(what, what_for, amounts, len(lists)) for (what, what_for), amounts in found.items())


def _line(what: str, what_for: str, amounts: Mapping[str, Sequence[str]], sizes: int) -> str:
    def told(amount: str, own: Sequence[str]) -> str:
        return amount if len(own) == sizes else f"{amount} for size {', '.join(own)}"

    words = "; ".join(told(amount, own) for amount, own in amounts.items())
    return f"{what}{f', for {what_for}' if what_for else ''}: {words}"


def _cloth(pattern: Pattern, cloth: Spread, material: Material, shrinkage: float, unit: str) -> ToBuy | None:
    """The line of one material; None where nothing is cut from it. Where no usual width is wide enough that is said."""
    laid = pieces_to_lay(pattern, cloth, material)
    if not laid:
        return None
    table = width_table(pattern, cloth, material, unit)
    widths = [cloth.width, *(width for width in table if width != cloth.width)]
    lengths = [
        (width, length_to_buy(lay.length, shrinkage, unit))
        for width in widths
        if (lay := table[width].get(cloth.fold)) is not None
    ]
    if not lengths:
        return ToBuy(
            material, material, "goes on no cloth", note=_too_wide(pattern, cloth, material, max(widths), unit)
        )
    (width, length), *others = lengths
    # after another length "the same" would be read as that one
    same = all(other == length for _, other in others)
    more = ", ".join(
        f"{'the same' if same else shop_length(other, unit)} of {width_text(wide, unit)}" for wide, other in others
    )
    notes = [*_less_otherwise(table[width], cloth.fold, length, shrinkage, unit), *([f"or {more}"] if more else [])]
    if cloth.one_way:
        notes.append("all pieces one way, as for nap")
    if shrinkage:
        notes.append(f"{percent(shrinkage)} for the wash is in it")
    what_for = "" if material == "shell" else listed(dict.fromkeys(piece.name for piece in laid))
    return ToBuy(
        material,
        f"{material}, {width_text(width, unit)} wide",
        shop_length(length, unit),
        what_for,
        "; ".join(notes),
        length,
    )


def _too_wide(pattern: Pattern, cloth: Spread, material: Material, widest: float, unit: str) -> str:
    """Why a material stands in the list without a length: the pieces that are wider than any cloth."""
    opened = replace(cloth, width=widest, fold="single")
    laid = pieces_to_lay(pattern, opened, material)
    names = dict.fromkeys(each.name for each in laid if too_wide_for(each, opened))
    are = "is" if len(names) == 1 else "are"
    return (
        f"{listed(names)} {are} too wide even for {width_text(widest, unit)}: sew a seam there, or take less fullness"
    )


def _less_otherwise(
    ways: Mapping[Fold, Lay | None], fold: Fold, length: float, shrinkage: float, unit: str
) -> Iterator[str]:
    """How the cloth lies for that length, and what less it takes where it lies otherwise."""
    less = []
    for other, words in _OTHERWISE.items():
        lay = ways.get(other)
        if other != fold and lay is not None and (bought := length_to_buy(lay.length, shrinkage, unit)) < length:
            less.append(f"{shop_length(bought, unit)} {words}")
    if less:
        yield f"{_LIES[fold]}; {' or '.join(less)}"


_OTHERWISE: Final[Mapping[Fold, str]] = {"double": "with both selvedges folded to the middle", "single": "cut singly"}
_LIES: Final[Mapping[Fold, str]] = {
    "lengthwise": "folded lengthwise",
    "double": "both selvedges folded to the middle",
    "across": "folded across",
    "single": "cut singly",
}


def supply_to_buy(used: Supply, unit: str) -> ToBuy:
    """What is asked for in a shop for something that the steps of sewing use up."""
    kind, what_for = str(used.kind), _what_for(used)
    if used.kind in (SupplyKind.ZIP, SupplyKind.SEPARATING_ZIP):
        length, text = _zip_sold(used.length, unit)
        what = "zip that comes apart" if used.kind is SupplyKind.SEPARATING_ZIP else "zip"
        return ToBuy(kind, what, text, what_for, f"the opening is {length_text(used.length, unit)}", length)
    if used.kind in (SupplyKind.BUTTONS, SupplyKind.SNAPS):
        size = f"{length_text(used.size, unit)} across"
        return ToBuy(kind, f"{kind}, {size}", str(used.count), what_for, count=used.count)
    if used.kind in (SupplyKind.HOOK, SupplyKind.TIE):
        at_waist = "hook and eye, or button" if Place.WAIST in used.places else "hook and eye"
        what = "buttons, snaps or ties" if used.kind is SupplyKind.TIE else at_waist
        return ToBuy(kind, what, str(used.count), what_for, count=used.count)
    if used.kind is SupplyKind.NEEDLES:
        note = "with a rounded point, which slips between the loops; a twin needle as well for hems"
        return ToBuy(kind, kind, "1 packet", "", note)
    if used.kind is SupplyKind.THREAD:
        metre = 1000.0 * (_METRES_IN_A_YARD if unit == "in" else 1.0)
        reels = _REEL * math.ceil(used.length / metre / _REEL)
        return ToBuy(kind, "thread", f"about {reels:.0f} {'yd' if unit == 'in' else 'm'}", what_for, "", reels * metre)
    if used.kind in (SupplyKind.STRIPS, SupplyKind.STRIP_INTERFACING):
        return _strips(used, unit)
    if used.kind is SupplyKind.CASED_ELASTIC:
        return _elastic(used, unit)
    step = _TAPE_IN if unit == "in" else _TAPE_CM
    length = step * math.ceil((used.length + used.spare) / step - 1e-6)
    note = f"{length_text(used.length, unit)} of it are used"
    return ToBuy(kind, kind, shop_length(length, unit), what_for, note, length)


def _strips(used: Supply, unit: str) -> ToBuy:
    """Strips that are no pieces: cut beside them, or of interfacing, which is little enough to be a remnant."""
    shell = used.kind is SupplyKind.STRIPS
    cloth = "strips of the cloth" if shell else "interfacing"
    if used.stretch:
        cloth = f"rib, or another knit that stretches by {percent(used.stretch)} or more"
    what = f"{cloth}, {length_text(used.size, unit)} wide"
    each = length_text(used.length, unit)
    how_much = f"{used.count}, each {each} long" if used.count > 1 else f"1, {each} long"
    note = "cut from what the pieces leave; see the order of sewing" if shell else "a remnant is enough"
    if used.stretch:
        note = "its stretch along the strip; the cloth itself stretches less; see the order of sewing"
    return ToBuy(str(used.kind), what, how_much, _what_for(used), note, used.length, used.count)


def _elastic(used: Supply, unit: str) -> ToBuy:
    """Elastic for casings: how wide, how much in all, and how long each piece is cut, its join counted in."""
    step = _TAPE_IN if unit == "in" else _TAPE_CM
    whole = used.count * used.length + used.spare
    length = step * math.ceil(whole / step - 1e-6)
    each = length_text(used.length + used.spare / used.count, unit)
    cut = f"cut {used.count} pieces, each {each} long" if used.count > 1 else f"cut {each} long"
    note = f"{cut}, the join counted in"
    what = f"elastic, {length_text(used.size, unit)} wide"
    return ToBuy(str(used.kind), what, shop_length(length, unit), _what_for(used), note, length)


def _zip_sold(mm: float, unit: str) -> tuple[float, str]:
    """The zip for an opening as it is sold: its length, mm, and in words."""
    sold, one, name = (_ZIPS_IN, MM_PER_INCH, "in") if unit == "in" else (_ZIPS_CM, 10.0, "cm")
    count = next((count for count in sold if count * one + _LONGER >= mm), math.ceil(mm / one))
    return count * one, f"{count} {name}"


def _what_for(used: Supply) -> str:
    """In words: what a thing that is bought is for."""
    if used.kind is SupplyKind.THREAD:
        return "all seams, with their edges neatened"
    if used.kind is SupplyKind.TIE:
        return "the wrap, one inside and one outside"
    if used.kind is SupplyKind.HOOK:
        return "the neck, above the zip" if Place.NECK in used.places else "the waistband, above the opening"
    if used.kind in (SupplyKind.STRIPS, SupplyKind.STRIP_INTERFACING) and Place.SHOULDER in used.places:
        return "the shoulders"
    if Place.INSEAM in used.places:
        return "both inseams"
    if used.kind is SupplyKind.BUTTONS and not used.places:
        return f"the {used.pieces[0]}s"
    if used.kind is SupplyKind.BUTTONS:
        return _BUTTONED.get(used.places[0], "the button stand")
    places = listed(
        _ENDS_OF_SLEEVES
        if place is Place.WRIST and used.kind is SupplyKind.CASED_ELASTIC
        else "left side"
        if place is Place.SIDE
        else str(place)
        for place in used.places
    )
    return f"the {places}, instead of a facing or band" if used.kind is SupplyKind.BINDING else f"the {places}"
