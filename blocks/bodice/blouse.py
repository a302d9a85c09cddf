"""A blouse: the fitted bodice drawn on below the waist to a hem, without a waist seam and without waist darts.

The trade's way (common practice): the waist darts are left open, so that it hangs loosely from bust and shoulder; the
side runs from the underarm as that of the bodice does, comes in to the waist a little, and goes out to the hip and
straight down to the hem, which is square to it and to the centre. What the hip is wider than the bust is shared alike
by front and back, so that both side seams are one line.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from blocks.bodice.draft import plan_bodice
from blocks.bodice.pieces import BACK, FRONT
from blocks.handover import Drafted
from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.geometry import (
    Curve,
    Line,
    Point,
    Vec,
    fair,
    fair_through,
    mirror,
    moved_all,
    run_hits,
    run_length,
    run_reversed,
    shift,
    split,
    tangent,
)
from drafting.pattern import (
    CENTRES,
    Across,
    Dart,
    Edge,
    Level,
    MarkLine,
    Measure,
    Notch,
    NotchMark,
    NotchRef,
    Piece,
    Place,
    Role,
    Seam,
    Station,
    closed,
    require_edge,
    require_line,
)

__all__ = ["draft_blouse"]

_SAME: Final = 0.5  # mm: a bust line this near to the underarm, or above it, is at the underarm (ours)
_DOWN: Final = Vec(0.0, -1.0)
_OUT: Final = Vec(1.0, 0.0)
_LEFT: Final = mirror(Point(0.0, 0.0), Vec(0.0, 1.0))
_DOWN_CENTRE: Final = ("back_waist_length", "front_waist_length_from_neck_pit")
_NOTCH: Final = "waist level notch"


@dataclass(frozen=True, slots=True)
class _Below:
    """How it goes on, mm: how far below the waist the hem is and the hip, how wide half of it is to be at the hip, and
    at the waist at the least.
    """

    hem: float
    hip: float
    hip_half: float
    waist_half: float


def draft_blouse(
    body: Body,
    ease: Mapping[str, float],
    least: Mapping[str, float],
    *,
    below: float,
    bust_dart: float | None = None,
    for_sleeve: bool = True,
) -> Drafted:
    """The blouse for a body; `below`: how far below the waist its hem is, mm; the rest as for the bodice.

    Raises CannotDraft naming the measurements at odds.
    """
    base = plan_bodice(body, ease, least, bust_dart=bust_dart, for_sleeve=for_sleeve).draft()
    half = {place: 0.5 * (body.mm(f"{place}_girth") + ease[place]) for place in ("waist", "hip")}
    long = _Below(below, body.mm("waist_to_hip"), half["hip"], half["waist"])
    front, back = (next(piece for piece in base.pieces if piece.name == name) for name in (FRONT, BACK))
    level, side_name = require_line(front, Level.BUST).start.y, require_edge(front, Place.SIDE).name
    under = [abs(require_line(piece, Level.SCYE).end.x) for piece in (front, back)]
    side = _side(moved_all(require_edge(front, Place.SIDE).curves, _LEFT), level, sum(under), long)
    pieces = (
        _led_on(front, moved_all(side, _LEFT), level, long),
        _led_on(back, run_reversed(moved_all(side, shift(Vec(under[1] - under[0], 0.0)))), level, long),
    )
    return replace(
        base,
        pieces=pieces,
        seams=tuple(_with_waist_notch(seam, side_name) for seam in base.seams),
        measures=(*map(_to_hem, base.measures), *_girths(body, ease, least, side, sum(under), long)),
        options=(*base.options, ("below_waist", below)),
        given={place: mm for place, mm in base.given.items() if place != "waist"},
        waist=None,
    )


def _side(old: tuple[Curve, ...], level: float, under: float, long: _Below) -> tuple[Curve, ...]:
    """The side of the front, its centre at x = 0, from the underarm down to the hem.

    old: that of the bodice; level: the bust line, to which it stays; under: half the width at the underarm, mm
    """
    upper, at, along = _down_to(old, level)
    aside = 0.5 * (long.hip_half - under)
    hip = Point(old[0].start.x + aside, -long.hip)
    lower: tuple[Curve, ...] = (fair(at, along, hip, _DOWN, steady=True),)
    waist = _across(lower, 0.0)
    short = 0.5 * (long.waist_half - (under + 2.0 * (waist.x - old[0].start.x)))
    if short > 0.0:
        lower = fair_through(at, along, waist + _OUT * short, hip, _DOWN, steady=True)
    if long.hem < long.hip:
        return (*upper, fair(at, along, _across(lower, -long.hem), _DOWN, steady=True))
    return (*upper, *lower, Line(hip, Point(hip.x, -long.hem)))


def _down_to(run: tuple[Curve, ...], level: float) -> tuple[tuple[Curve, ...], Point, Vec]:
    """What of a side lies above a level, and where and in what direction it comes there: none where it begins there."""
    if run[0].start.y - level < _SAME:
        return (), run[0].start, tangent(run[0], 0.0)
    k, hit = next(iter(run_hits(run, Point(0.0, level), _OUT)))
    upper = (*run[:k], split(run[k], hit.t)[0])
    return upper, upper[-1].end, tangent(run[k], hit.t)


def _across(run: tuple[Curve, ...], level: float) -> Point:
    """Where a side comes to a level."""
    return next(hit.point for _, hit in run_hits(run, Point(0.0, level), _OUT))


def _led_on(piece: Piece, side: tuple[Curve, ...], level: float, long: _Below) -> Piece:
    """The piece led on to the hem; side: its side seam in the direction of its outline; level: of the bust line."""
    centre, foot = Point(0.0, -long.hem), min(side[0].start, side[-1].end, key=lambda at: at.y)
    down = foot == side[-1].end
    hem = Edge("hem", (Line(foot, centre) if down else Line(centre, foot),), Role.HEM, place=Place.HEM)
    waist = [dart for dart in piece.darts if _at_waist(piece, dart)]
    gone = {edge.name for edge in piece.edges if edge.place is Place.WAIST} | {leg for d in waist for leg in d.legs}
    edges: list[Edge] = []
    for edge in piece.edges:
        if edge.name in gone:
            edges += [] if hem in edges else [hem]
        elif edge.place is Place.SIDE:
            edges.append(replace(edge, curves=side))
        elif edge.place in CENTRES:
            up = edge.end.y > edge.start.y
            edges.append(replace(edge, curves=(Line(centre, edge.end) if up else Line(edge.start, centre),)))
        else:
            edges.append(edge)
    lines = [_to_side(line, side) for line in piece.lines]
    for name, at, kind in (("waist line", 0.0, Level.WAIST), ("hip line", -long.hip, Level.HIP)):
        if -long.hem < at:
            lines.append(MarkLine(name, Point(0.0, at), _across(side, at), level=kind))
    name = require_edge(piece, Place.SIDE).name
    notches = [each for each in piece.notches if each.station.edge not in (*gone, name)]
    run = side if down else run_reversed(side)
    marks = [(each.name, level, NotchMark.BUST) for each in piece.notches if each.station.edge == name]
    for mark, at, marked in (*marks, (_NOTCH, 0.0, NotchMark.WAIST)):
        far = run_length(_down_to(run, at)[0])
        notches.append(Notch(mark, Station(name, far, "start" if down else "end"), marks=marked))
    return replace(
        piece,
        edges=closed(piece.name, tuple(edges)),
        darts=tuple(dart for dart in piece.darts if dart not in waist),
        notches=tuple(notches),
        lines=tuple(lines),
    )


def _at_waist(piece: Piece, dart: Dart) -> bool:
    return any(edge.place is Place.WAIST for leg in dart.legs for edge in piece.beside(leg))


def _to_side(line: MarkLine, side: tuple[Curve, ...]) -> MarkLine:
    """A level drawn on to the new side."""
    if line.end.y > max(side[0].start.y, side[-1].end.y) - _SAME:
        return line
    return line.straight(line.start, _across(side, line.end.y))


def _with_waist_notch(seam: Seam, side: str) -> Seam:
    """The side seam with its notches at the waist; any other as it is."""
    if seam.a[0].edge != side:
        return seam
    return replace(seam, notches=(*seam.notches, (NotchRef(BACK, _NOTCH), NotchRef(FRONT, _NOTCH))))


def _to_hem(measure: Measure) -> Measure:
    """The lengths down the centre, which go on to the hem; any other as it is."""
    down = measure.key in _DOWN_CENTRE
    return Measure(f"{measure.name}, neck to hem", measure.tape) if down else measure


def _girths(
    body: Body,
    ease: Mapping[str, float],
    least: Mapping[str, float],
    side: tuple[Curve, ...],
    under: float,
    long: _Below,
) -> list[Measure]:
    """What it measures round waist and hip; the waist is as wide as it comes."""
    half = under + 2.0 * (_across(side, 0.0).x - side[0].start.x)
    loose = 2.0 * half - body.mm("waist_girth")
    found = [("waist", "waist line", loose)] + ([("hip", "hip line", ease["hip"])] if long.hem > long.hip else [])
    return [
        Measure(
            name,
            (Across(FRONT, line, 2.0), Across(BACK, line, 2.0)),
            f"{name}_girth",
            body.mm(f"{name}_girth"),
            added,
            least.get(name),
            round=True,
        )
        for name, line, added in found
    ]
