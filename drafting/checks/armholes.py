"""The armhole as a cutter draws it: level at the side seam, and round below rather than hooked."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look, verdict_on
from drafting.checks.half_armhole import Hole, holes
from drafting.geometry import Point, run_at, run_length, run_reversed, run_tangent, tangent
from drafting.geometry.bending import most_turning_within
from drafting.geometry.curve import point_at
from drafting.pattern import Pattern, Piece, Place, Seam, ref_edge
from drafting.pattern.unfinished import is_facing

__all__ = ["NARROWEST", "armhole_hollow", "armholes_level", "raglan_runs_in"]

NARROWEST: Final = 33.0
"""mm. A half of an armhole that is narrower leaves no room for an even hollow (our figure)."""

_LEVEL: Final = 1.0
"""degrees by which either piece may leave the side seam off level (our figure: what a set square shows)."""

_START: Final = 15.0
"""mm of armhole from the side seam over which it is to stay low (this and the two below: our figures)."""

_RISE: Final = 12.0
_RISE_NARROW: Final = 15.0
_NARROW: Final = 40.0
"""The degrees that it may have risen there, seen from the side seam; more where its half is narrower than 40 mm."""

_SPAN: Final = 40.0
_SPAN_SHARE, _START_SHARE = 0.2, 0.075
"""Of half an armhole: on a child's, which is short, neither is looked at over more than this (ours)."""

_CROWDED: Final = 60.0
"""Percent of all its turning that an armhole may make within 40 mm of it (our figure)."""

_CLEAR: Final = 14.0
"""mm by which an armhole clears the corner of the level at the side seam and the upright at its narrowest (handbooks
measure 15 to 25 along the line that halves that corner; the least is ours)."""

_CLEAR_SHARE: Final = 0.4
"""Of the width of half an armhole: a small one need clear it by no more, as a quarter of a circle does by 0.41."""

_RUNS_IN: Final = (16.0, 24.0)
"""degrees by which a raglan seam may turn back over its first 40 mm, or in a corner where it leaves the armhole: it
passes, it warns (ours: a line of 22 cm bowed up by a centimetre turns by 16 in all)."""

_RUNS_IN_AT: Final = (0.0, 0.125, 0.25, 0.5, 0.75, 1.0)
"""Where on those 40 mm it is looked (ours: nearer where it leaves)."""

_FELT: Final = 0.05
"""mm or degrees: what a number shown with one decimal hides."""


def armholes_level(pattern: Pattern) -> Iterator[Look]:
    """At each side seam: by how many degrees front and back leave it off level, and rise over their first 15 mm.

    Level is square to the grain. Where a dart moved elsewhere has turned the side of one piece, what counts is how it
    lies when the side seam is sewn: the line of the other carried on.
    """
    for seam in pattern.seams:
        names = {ref.piece for ref in (*seam.a, *seam.b) if ref_edge(pattern.pieces, ref).place is Place.SIDE}
        pieces = [piece for piece in pattern.pieces if piece.name in names]
        if len(names) == 2 and not any(map(is_facing, pieces)):  # a facing is as its piece is, its darts folded
            yield look(_level, seam, *pieces)


def _level(check: Check, seam: Seam, *pieces: Piece) -> Iterator[Result]:
    sewn = {(ref.piece, ref.edge) for ref in (*seam.a, *seam.b)}
    found = [hole for piece in pieces for hole in holes(piece) if (hole.piece, hole.below) in sewn]
    if len(found) != 2:
        return
    bend = sum(hole.cloth for hole in found) - math.pi
    rises = [hole.rise for hole in found]
    off = 0 if abs(rises[0]) > abs(rises[1]) else 1
    rises[off] = min(rises[off], bend - rises[1 - off], key=abs)
    for hole, rise in zip(found, rises, strict=True):
        yield _at_seam(check, hole, math.degrees(rise))
        yield _over_start(check, hole, rise)


def _at_seam(check: Check, hole: Hole, off: float) -> Result:
    way = "rises" if off > 0.0 else "dips"
    return check.result(
        f"{hole.piece} {hole.edge}, at the side seam",
        Verdict.PASS if abs(off) <= _LEVEL + _FELT else Verdict.WARN,
        measured=off,
        wanted=0.0,
        allowed=_LEVEL,
        unit="degrees",
        remedy=f"It {way} {abs(off):.1f} degrees from level as it leaves the side seam: draw it level there.",
    )


def _over_start(check: Check, hole: Hole, rise: float) -> Result:
    """Measured is how steeply an armhole rises where it begins at the underarm, degrees off the level."""
    start = min(_START, _START_SHARE * run_length(hole.run))
    chord = run_at(hole.run, start) - hole.run[0].start
    turned = hole.rise - rise  # by how much the piece lies turned on its grain
    angle = math.degrees(math.atan2(hole.up.dot(chord), hole.level.dot(chord)) - turned)
    most = _RISE_NARROW if hole.width < _NARROW else _RISE
    return check.result(
        f"{hole.piece} {hole.edge}, its first {start:.0f} mm",
        Verdict.PASS if angle <= most + _FELT else Verdict.WARN,
        measured=angle,
        wanted=0.0,
        allowed=(None, most),
        unit="degrees",
        remedy=(
            f"It rises {angle:.1f} degrees over its first {start:.0f} mm from the side seam, and {most:.0f} is the "
            f"most: let it run level a little further before it turns up.{_width_sentence(hole)}"
        ),
    )


def armhole_hollow(check: Check, piece: Piece) -> Iterator[Result]:
    """Each half of an armhole that is whole on its piece: how much of its turning lies in 40 mm, percent, and by how
    many mm it clears its corner.
    """
    for hole in holes(piece):
        if not hole.whole:
            continue
        span = min(_SPAN, _SPAN_SHARE * run_length(hole.run))
        share = 100.0 * most_turning_within(hole.run, span)
        yield check.result(
            f"{hole.piece} {hole.edge}, its turning in {span:.0f} mm",
            Verdict.PASS if share <= _CROWDED + _FELT else Verdict.WARN,
            measured=share,
            wanted=_CROWDED,
            allowed=(None, _CROWDED),
            unit="percent",
            remedy=(
                f"{share:.0f} percent of all its turning lies within {span:.0f} mm: a hook. Draw it rounder, with its "
                f"narrowest place higher up.{_width_sentence(hole)}"
            ),
        )
        clear, least = _clearance(hole), min(_CLEAR, _CLEAR_SHARE * hole.width)
        yield check.result(
            f"{hole.piece} {hole.edge}, from its corner",
            Verdict.PASS if clear >= least - _FELT else Verdict.WARN,
            measured=clear,
            wanted=least,
            allowed=(least, None),
            remedy=(
                f"It comes within {clear:.1f} mm of the corner below its narrowest place, and {least:.0f} mm is the "
                f"least: cut it less deep there.{_width_sentence(hole)}"
            ),
        )


def _clearance(hole: Hole) -> float:
    """How far the run stays from the corner of the level at the side seam and the upright at its narrowest, mm."""
    corner: Point = hole.run[0].start + hole.level * hole.width
    return min((point_at(curve, k / 16) - corner).norm() for curve in hole.run for k in range(17))


def _width_sentence(hole: Hole) -> str:
    """The sentence that names what leaves no room, where it is the width."""
    if hole.width >= NARROWEST:
        return ""
    return (
        f" There is little room: the armhole reaches only {hole.width:.0f} mm in from the side seam. Measure again "
        "how wide the chest and the back are, or let the garment out round there."
    )


def raglan_runs_in(check: Check, piece: Piece) -> Iterator[Result]:
    """How far each raglan seam turns back, or has a corner, where it leaves armhole or cap, degrees."""
    for k, edge in enumerate(piece.edges):
        if edge.place is not Place.RAGLAN:
            continue
        for beside, away in ((piece.edges[k - 1], True), (piece.edges[(k + 1) % len(piece.edges)], False)):
            if beside.place not in (Place.ARMHOLE, Place.CAP):
                continue
            hollow, out = (beside.curves, edge.curves) if away else map(run_reversed, (beside.curves, edge.curves))
            last = tangent(hollow[-1], 1.0)
            way = math.copysign(1.0, tangent(hollow[0], 0.0).angle_to(last))
            short = min(_SPAN, run_length(out))
            on = [way * last.angle_to(run_tangent(out, share * short)) for share in _RUNS_IN_AT]
            turned = math.degrees(max(abs(on[0]), -min(on)))
            yield check.result(
                f"{piece.name} {edge.name}, where it leaves the {beside.place}",
                verdict_on(turned, passing=_RUNS_IN[0], warning=_RUNS_IN[1]),
                measured=turned,
                wanted=0.0,
                allowed=_RUNS_IN[0],
                unit="degrees",
                remedy=f"It turns back by {turned:.0f} degrees there: let it run into the {beside.place} in one sweep.",
            )
