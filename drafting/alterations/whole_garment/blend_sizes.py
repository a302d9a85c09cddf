"""Blend between sizes: one size at the bust, another at the waist, another at the hip.

The trade's way (common practice, no source): begin and end the change at real marks of the seam (the bust line, the
waist, the hip), in one curve without a corner; keep neck, shoulder and armhole of one size, so that its sleeve still
goes in; do the same to the back, so that both side seams stay equal; notches keep their distance from the end they are
counted from. A change of d round the garment over two side seams is d/4 on each piece (plane geometry).

Where the other sizes come from. An alteration is a function of one pattern, so it does not hold the patterns of the
other sizes. It needs only their girths, and those are in the chart that the pattern was drafted from. The history holds
the names of the sizes, and the step can be taken again from the pattern alone.

The size at the bust, and the size at the upper chest where another one is chosen for a full bust, are drafted, not
blended: `[sizes]` in a garment file drafts the block for them. The step holds the pattern to them, so that a history
is never taken on a pattern of another size.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.darts.side_darts import side_edges, sides_closed, with_sides_closed
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import crosses_leg, finished_changes, places_kept_but, seams_kept
from drafting.alterations.techniques.sides.move_sides import moved_sides
from drafting.alterations.techniques.sides.side_view import accept_plain_waists, far_edge, sides_at
from drafting.body.charts import CHARTS, SIZE_LIMITS, chart_length, chart_named
from drafting.body.complete import Measured
from drafting.errors import StepRefused, UnknownName
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Along, BodyLength, Level, Pattern

__all__ = ["Blend"]

_BUST, _UPPER_CHEST, _WAIST, _HIP = "bust_girth", "upper_chest_girth", "waist_girth", "hip_girth"
_GIRTHS = (_BUST, _WAIST, _HIP)
_OWN = (
    "the pattern is drafted to somebody's own measurements, not from a chart; take its side seams in or let them out "
    "instead"
)
_SAME_GIRTH = 0.5
"""mm. A girth of the pattern no further from the chart's is the chart's: a pattern.json may hold it rounded."""


def _size(about: str) -> Any:
    """The field for a size of the chart."""
    return option("number", f"{about}; left out, as drafted", *SIZE_LIMITS, default=None)


@alteration_class
class Blend(Alteration):
    """Blend a pattern that was drafted from a size chart into another size; a woman's size is named by its bust in cm.

    It cannot be held to one piece: a size is that of a whole body. One piece alone is taken in or let out.
    """

    name = "blend"
    layer = Layer.SIZES
    about = "Blend a pattern drafted from a size chart into other sizes at the waist and the hip, along the side seams."
    leaves = "neck, shoulder, armhole and sleeve; the width at the bust line; every dart; how well every seam meets"
    carries = "front and back side seams alike; the waist seam; the skirt; the hem"
    instead = "take in"

    waist: float | None = _size("the size whose waist it is to have")
    hip: float | None = _size("the size whose hip it is to have")
    bust: float | None = _size("the size at the bust, to be held to it")
    upper_chest: float | None = _size("the size at the high bust, to be held to it")
    chart: str = option("choice", "the chart the sizes are of", choices=CHARTS, default=CHARTS[0])

    @classmethod
    def not_here(cls, pattern: Pattern) -> str:
        from_chart = any(length.key in _GIRTHS and length.source == "chart" for length in pattern.wearer.lengths)
        return "" if from_chart else _OWN

    def apply(self, pattern: Pattern) -> Pattern:
        return with_sides_closed(self.name, pattern, self._blended)

    def _blended(self, pattern: Pattern) -> Pattern:
        """The pattern with its side seams moved to the other sizes, which are now the body's at waist and hip."""
        changed = _changes(self, pattern)
        by = {key: _change(pattern, value) for key, value in changed.items()}
        moved = moved_sides(self.name, pattern, waist=0.25 * by.get(_WAIST, 0.0), hip=0.25 * by.get(_HIP, 0.0))
        measures = (
            replace(measure, body=changed[measure.key].mm) if measure.key in changed else measure
            for measure in moved.measures
        )
        lengths = (
            BodyLength(length.key, new.mm, new.source, new.how, new.sd_mm)
            if (new := changed.get(length.key))
            else length
            for length in moved.wearer.lengths
        )
        return replace(moved, measures=tuple(measures), wearer=replace(moved.wearer, lengths=tuple(lengths)))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        shut = sides_closed(pattern)
        changed = _changes(self, shut)
        upper, lower = sides_at(self.name, shut, Level.BUST), sides_at(self.name, shut, Level.HIP)
        redrawn = {(side.piece.name, side.waist_edge) for side in (*upper, *lower)}
        redrawn |= {
            (side.piece.name, edge) for side in (*upper, *lower) for edge in side_edges(pattern.piece(side.piece.name))
        }
        redrawn |= {(side.piece.name, far_edge(side)) for side in lower}
        yield from places_kept_but(pattern, redrawn)
        yield from seams_kept(pattern)
        for measure in pattern.measures:
            along = {(part.piece, part.edge) for part in measure.tape if isinstance(part, Along)}
            change = _change(pattern, changed[measure.key]) if measure.key in changed and measure.round else 0.0
            if crosses_leg(pattern, measure):
                change = 0.5 * _change(pattern, changed[_HIP]) if _HIP in changed else 0.0
            elif measure.key not in changed and not along.isdisjoint(redrawn):
                continue  # it runs along a side, which may become longer
            yield finished_changes(measure, change)


def _changes(step: Blend, pattern: Pattern) -> dict[str, Measured]:
    """The girths of the chart that the pattern is to have and has not."""
    _accept_size(step, pattern, _BUST, step.bust, "bust")
    _accept_size(step, pattern, _UPPER_CHEST, step.upper_chest, "high bust")
    if step.waist is None and step.hip is None:
        raise StepRefused(step.name, reason="say which size at the waist, at the hip, or at both: waist = 96")
    lower = sides_at(step.name, pattern, Level.HIP)
    if step.hip is not None and not lower:
        raise StepRefused(step.name, reason=f'no piece has a "{Level.HIP}"; leave the size at the hip out')
    changed = {}
    for key, size in ((_WAIST, step.waist), (_HIP, step.hip)):
        if size is not None:
            girth = _girth(step, size, key)
            if abs(girth.mm - _drafted(step, pattern, key).mm) > SAME_PLACE:
                changed[key] = girth
    if not changed:
        raise StepRefused(
            step.name, reason="the pattern has these sizes already; choose another at the waist or the hip"
        )
    if _WAIST in changed:
        accept_plain_waists(step.name, pattern, (*sides_at(step.name, pattern, Level.BUST), *lower))
    return changed


def _drafted(step: Blend, pattern: Pattern, key: str) -> BodyLength:
    """A length of the pattern's wearer, which must be one of a chart."""
    try:
        length = pattern.wearer.length(key)
    except UnknownName:
        where = key.removesuffix("_girth").replace("_", " ")
        raise StepRefused(step.name, reason=f"the pattern is not drawn from a {where}; leave that size out") from None
    if length.source != "chart":
        raise StepRefused(step.name, reason=_OWN)
    return length


def _accept_size(step: Blend, pattern: Pattern, key: str, size: float | None, where: str) -> None:
    if size is None:
        return
    drafted, wanted = _drafted(step, pattern, key).mm, _girth(step, size, key).mm
    if abs(drafted - wanted) > _SAME_GIRTH:
        raise StepRefused(
            step.name,
            reason=f"the pattern is drafted for {drafted / 10:.1f} cm at the {where}, and size {size:g} has "
            f"{wanted / 10:.1f} cm there; name the size under [sizes], so that the block is drafted for it",
        )


def _girth(step: Blend, size: float, key: str) -> Measured:
    try:
        return chart_length(_whole(step, size), key, chart=step.chart)
    except UnknownName as error:
        raise StepRefused(step.name, reason=str(error)) from error


def _whole(step: Blend, size: float) -> int:
    sizes = chart_named(step.chart).sizes
    if size not in sizes:
        raise StepRefused(step.name, reason=str(UnknownName("size", f"{size:g}", [str(each) for each in sizes])))
    return int(size)


def _change(pattern: Pattern, girth: Measured) -> float:
    """How much larger a girth is than the pattern's wearer has it now, mm."""
    return girth.mm - pattern.wearer.length(girth.key).mm
