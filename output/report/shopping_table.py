"""What has to be bought beside the cloth, as a table."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.pattern import Place
from drafting.reading.units import length_text
from drafting.sewing import Supply, SupplyKind
from output.lay.how_much import shop_length, shop_step
from output.report.step_text import listed
from output.report.tables import Column, Row, Table

__all__ = ["buy_table"]


def buy_table(bought: Sequence[Supply], unit: str) -> Table:
    """What is to be bought beside the cloth itself."""
    rows = tuple(Row((_what(each), _how_much(each, unit), _what_for(each))) for each in bought)
    columns = (Column("what"), Column("how much"), Column("for"))
    return Table("What to buy beside the cloth", columns, rows)


def _what(each: Supply) -> str:
    if each.kind is SupplyKind.HOOK and Place.WAIST in each.places:
        return "hook and eye, or button"
    return {
        SupplyKind.SEPARATING_ZIP: "zip that comes apart",
        SupplyKind.TIE: "buttons, snaps or ties",
    }.get(each.kind, str(each.kind))


def _how_much(each: Supply, unit: str) -> str:
    if each.kind in (SupplyKind.ZIP, SupplyKind.SEPARATING_ZIP):
        return f"{_zip_length(each.length, unit)}\nthe opening is {length_text(each.length, unit)}"
    if each.kind is SupplyKind.BUTTONS:
        return f"{each.count}, {length_text(each.size, unit)} across"
    if each.kind in (SupplyKind.HOOK, SupplyKind.TIE):
        return str(each.count)
    if each.kind in (SupplyKind.INTERFACING, SupplyKind.LINING):
        return f"for {each.count} piece{'s' if each.count > 1 else ''}"
    if each.kind is SupplyKind.THREAD:
        reels = -(-each.length // 1000.0)
        return (
            f"about {50.0 * -(-reels // 50.0):.0f} m"
            if unit != "in"
            else f"about {50.0 * -(-reels * 1.0936 // 50.0):.0f} yd"
        )
    bought = shop_length(shop_step(each.length + each.spare, unit), unit)
    used = length_text(each.length, unit)
    if each.kind is SupplyKind.BINDING:
        return f"{bought}\nthe edge is {used}; joins and turned ends take more (common practice)"
    return f"{bought}\n{used} of it are used"


def _zip_length(mm: float, unit: str) -> str:
    """A zip as it is sold: by 5 cm, or by 2 in; the next longer one is made shorter (common practice)."""
    step, name = (50.8, "in") if unit == "in" else (50.0, "cm")
    count = -(-(mm - 2.0) // step)
    return f"{count * (2 if unit == 'in' else 5):.0f} {name}"


def _what_for(each: Supply) -> str:
    if each.pieces and each.kind is not SupplyKind.HOOK:
        return listed(each.pieces)
    if each.kind is SupplyKind.THREAD:
        return "all seams, with their edges neatened"
    if each.kind is SupplyKind.TIE:
        return "the wrap: one inside, one outside"
    if each.kind is SupplyKind.HOOK:
        return "the neck, above the zip" if Place.NECK in each.places else "the waistband, above the opening"
    if each.kind is SupplyKind.BUTTONS:
        return "the button stand"
    places = listed("left side" if place is Place.SIDE else str(place) for place in each.places)
    return f"{places}, instead of a facing or band" if each.kind is SupplyKind.BINDING else places
