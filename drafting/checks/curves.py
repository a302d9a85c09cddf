"""Every seam line as a curve: how tightly it bends beside its allowance, whether it wavers, how wide the neck is."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import partial
from typing import Final

from drafting.checks.armholes import NARROWEST, armhole_hollow, armholes_level, raglan_runs_in
from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.checks.half_armhole import holes
from drafting.errors import Remedy, Setting
from drafting.geometry import Point, distance, split, tangent
from drafting.geometry.bending import Bend, kinks, tightest, turns
from drafting.geometry.outline import run_length
from drafting.pattern import CENTRES, BodyPart, Edge, Level, MarkLine, Pattern, Piece, Place, Role, line_at

__all__ = ["look_at_bends", "look_at_shapes"]

_ARMHOLE: Final = 22.0
_ARMHOLE_MORE: Final = 5.0
"""mm. The tightest that an armhole may bend, and by how much more than its allowance (our figures)."""

_NECK: Final = 12.0
_BACK_NECK_MORE: Final = 3.0
"""mm. The tightest that a neck may bend, and by how much more than its allowance behind (our figures)."""

_STRAIGHT: Final = 1e6
"""mm of radius above which a line is straight: over half a metre it strays by less than a hairline is wide."""

_CORNER: Final = 0.5
"""degrees of corner within a seam line that a ruler laid along it shows (our figure)."""

_WAVER: Final = 1.5
"""degrees by which a line may turn against its own bend (our figure: half of what a joined line may)."""

_UNSEEN: Final = math.radians(0.1)
"""A bend the other way that is less is none: over a decimetre it strays by a tenth of a hairline (our figure)."""

_ONE_WAY: Final[Mapping[Place | None, int]] = {
    Place.ARMHOLE: 1,
    Place.NECK: 1,
    Place.SHOULDER: 1,
    Place.SIDE: 1,
    Place.UNDERARM: 2,
    Place.HEM: 1,
    Place.CAP: 2,
}
"""The edges that are to be one even curve, and in how many stretches: a cap turns out of the underarm and over the
crown the other way, an underarm seam at the elbow and back to the wrist. A line at another place may have been drawn
with a waver on purpose; one that is drawn up, over the mouth of a dart left unsewn, may dip."""

_THROUGH_THE_WAIST: Final = 3
"""The stretches of a side seam from the underarm through the waist to the hip and below."""

_LEG: Final[Mapping[Place | None, int]] = {**_ONE_WAY, Place.SIDE: 2, Place.INSEAM: 3, Place.CROTCH: 1}
"""The same for trousers: the outside leg turns out of the hip and back, the inside leg is hollow as well."""

_HALF_NECK: Final = 40.0
"""mm from the centre line that a neck is wide at the shoulder at the least: the narrowest children's blocks have 45
(common practice; the figure is ours)."""

_FELT: Final = 0.05
"""mm or degrees: what a number shown with one decimal hides."""


def look_at_bends(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """The tightest bend of every seam line that is a curve, mm of radius, against its allowance and the table above.

    Where the line is hollow and bends tighter than its allowance, the line parallel to it folds and the cutting
    line has to be cut short: that fails. What is tighter than the table has it warns, and so does a corner within a
    line.
    """
    for piece in pattern.pieces:
        yield look(_bends, piece)


def _bends(check: Check, piece: Piece) -> Iterator[Result]:
    narrow = {hole.edge: hole.width for hole in holes(piece) if hole.width < NARROWEST}
    straight = True
    for edge in piece.edges:
        if edge.role in (Role.FOLD, Role.DART_LEG) or edge.drawn_up:
            continue
        found = _bend(check, piece, edge, narrow.get(edge.name))
        if found is not None:
            straight = False
            yield found
    if straight:
        yield check.result(f"{piece.name}, all its lines straight", Verdict.PASS)


def _bend(check: Check, piece: Piece, edge: Edge, narrow: float | None) -> Result | None:
    """Measured is the radius of the tightest bend of an edge, mm; None for an edge that is nearly straight."""
    hollow, round_ = edge.remembered("tightest", lambda: tightest(edge.curves))
    corner = edge.remembered("kinks", lambda: max((abs(angle) for angle, _ in kinks(edge.curves)), default=0.0))
    worst = hollow if hollow.radius <= round_.radius else round_
    if worst.radius > _STRAIGHT and not corner:
        return None
    least = _least(piece, edge, narrow)
    if hollow.radius < edge.allowance - _FELT:
        verdict, remedy = Verdict.FAIL, _folded_words(piece, edge, hollow)
    elif worst.radius < least - _FELT:
        verdict, remedy = Verdict.WARN, _too_tight(piece, edge, worst, least, narrow)
    elif math.degrees(corner) > _CORNER:
        verdict, remedy = Verdict.WARN, _corner_words(piece, edge)
    else:
        verdict, remedy = Verdict.PASS, ""
    return check.result(
        f"{piece.name} {edge.name}",
        verdict,
        measured=worst.radius if worst.radius <= _STRAIGHT else math.inf,
        wanted=least,
        allowed=(least, None),
        remedy=remedy,
    )


def _least(piece: Piece, edge: Edge, narrow: float | None) -> float:
    """The tightest bend that the table allows, mm."""
    if edge.place is Place.ARMHOLE and narrow is None:
        return max(_ARMHOLE, edge.allowance + _ARMHOLE_MORE)
    if edge.place is Place.NECK:
        behind = any(each.place is Place.CENTRE_BACK for each in piece.edges)
        return max(_NECK, edge.allowance + (_BACK_NECK_MORE if behind else 0.0))
    return edge.allowance


def _folded_words(piece: Piece, edge: Edge, bend: Bend) -> str:
    return (
        f"{_place(piece, edge, bend)} it is hollowed as tightly as a circle of {bend.radius:.1f} mm radius, and its "
        f"allowance is {edge.allowance:.1f} mm: the cutting line folds there. Draw it flatter there, or cut it with "
        "less allowance than that radius."
    )


def _too_tight(piece: Piece, edge: Edge, bend: Bend, least: float, narrow: float | None) -> str:
    why = "" if narrow is None else f" The armhole reaches only {narrow:.0f} mm in from the side seam."
    return (
        f"{_place(piece, edge, bend)} it bends as tightly as a circle of {bend.radius:.1f} mm radius, and "
        f"{least:.1f} mm is the least: draw it flatter there.{why}"
    )


def _corner_words(piece: Piece, edge: Edge) -> str:
    angle, at = max(kinks(edge.curves), key=lambda kink: abs(kink[0]))
    return (
        f"{_place_of_joint(piece, edge, at)} it has a corner of {abs(math.degrees(angle)):.1f} degrees: draw one curve."
    )


def _place(piece: Piece, edge: Edge, bend: Bend) -> str:
    before = (*edge.curves[: bend.curve], split(edge.curves[bend.curve], bend.t)[0])
    return _place_words(piece, edge, run_length(before))


def _place_of_joint(piece: Piece, edge: Edge, at: Point) -> str:
    count = next(k for k, curve in enumerate(edge.curves) if curve.start == at)
    return _place_words(piece, edge, run_length(edge.curves[:count]))


def _place_words(piece: Piece, edge: Edge, gone: float) -> str:
    """In words: where on an edge a place lies, counted from the nearer end, which the edge there gives its name."""
    k = piece.index(edge.name)
    left = edge.length - gone
    other = piece.edges[k - 1] if gone <= left else piece.edges[(k + 1) % len(piece.edges)]
    near = min(gone, left)
    return f"At the {other.name}" if near < 1.0 else f"{near:.0f} mm from the {other.name}"


def look_at_shapes(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Wavers in every line that is to be one even curve, the shape of every armhole, the width of every neck.

    Measured are the degrees by which a line turns against its own bend in all; what an armhole is measured by stands
    in `armholes.py`, and how a raglan seam runs into one; how far from the centre a neck is at the shoulder, mm.
    """
    for piece in pattern.pieces:
        yield look(_wavers, piece)
        yield look(armhole_hollow, piece)
        yield look(raglan_runs_in, piece)
        yield look(_necks, piece)
    yield from armholes_level(pattern)


def _wavers(check: Check, piece: Piece) -> Iterator[Result]:
    """Measured is by how much an edge turns against the way it is meant to turn, degrees."""
    for edge in piece.edges:
        ways = _ways(piece, edge)
        if not ways or edge.role in (Role.FOLD, Role.DART_LEG) or edge.drawn_up:
            continue
        turned = edge.remembered("turns", partial(turns, edge.curves, felt=_UNSEEN))
        by_size = sorted(turned, key=lambda turn: abs(turn.angle), reverse=True)
        against = math.degrees(sum(abs(turn.angle) for turn in by_size[ways:]))
        verdict, remedy = Verdict.PASS, ""
        if against > _WAVER:
            verdict = Verdict.WARN
            back = by_size[ways]
            remedy = (
                f"{_off_start(edge, back.start)} it turns back by {abs(math.degrees(back.angle)):.1f} degrees: draw it "
                "as one even curve."
            )
        yield check.result(
            f"{piece.name} {edge.name}",
            verdict,
            measured=against,
            wanted=0.0,
            allowed=_WAVER,
            unit="degrees",
            remedy=remedy,
        )


def _ways(piece: Piece, edge: Edge) -> int:
    """In how many stretches an edge may turn: a side that runs on below the waist turns in, out and upright again."""
    if piece.identity.part is BodyPart.TROUSERS:
        return _LEG.get(edge.place, 0)
    ways = _ONE_WAY.get(edge.place, 0)
    waist = line_at(piece, Level.WAIST) if edge.place is Place.SIDE else None
    return ways if waist is None or not _crossed(edge, waist) else _THROUGH_THE_WAIST


def _crossed(edge: Edge, line: MarkLine) -> bool:
    off = [(line.end - line.start).cross(at - line.start) for at in (edge.start, edge.end)]
    return off[0] * off[1] < 0.0


def _off_start(edge: Edge, at: Point) -> str:
    return f"{distance(edge.start, at):.0f} mm from one end"


_GOES_ON: Final = (Place.RAGLAN, Place.SADDLE, Place.YOKE)
"""Seams over which a neck goes on in the sleeve or the yoke: its width is not to be seen on one piece."""


def _necks(check: Check, piece: Piece) -> Iterator[Result]:
    """Measured is half the width of the neck at each centre line of a piece, mm."""
    count = len(piece.edges)
    for k, edge in enumerate(piece.edges):
        if edge.place not in CENTRES or edge.role is Role.DART_LEG:
            continue
        for step in (1, -1):
            beside = piece.edges[(k + step) % count]
            if beside.place is not Place.NECK or beside.role is Role.DART_LEG:
                continue
            j = (k + step) % count
            last = beside
            while piece.edges[j].place is Place.NECK or piece.edges[j].role is Role.DART_LEG:
                last = piece.edges[j] if piece.edges[j].role is not Role.DART_LEG else last
                j = (j + step) % count
            if piece.edges[j].place in _GOES_ON:
                continue
            far = last.end if step == 1 else last.start
            # as the centre line runs away from the neck: beside a V it may be rounded
            along = tangent(edge.curves[0], 0.0) if step == 1 else tangent(edge.curves[-1], 1.0)
            half = abs(along.cross(far - edge.start))
            wider = float(math.ceil(_HALF_NECK - half - _FELT))
            yield check.result(
                f"{piece.name} {beside.name}, half its width",
                Verdict.PASS if half >= _HALF_NECK - _FELT else Verdict.WARN,
                measured=half,
                wanted=_HALF_NECK,
                allowed=(_HALF_NECK, None),
                remedy=(
                    f"Half the neck is only {half:.0f} mm wide at the shoulder, which makes a slot of it: widen it by "
                    f"{wider:.0f} mm."
                ),
                remedies=(Remedy("add", "neckline", (Setting("width", wider, "mm"),), lead="To widen it"),),
            )
