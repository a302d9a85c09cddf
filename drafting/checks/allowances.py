"""The allowances: do turned edges lie flat, do the cut edges of a seam lie together, are notches far apart."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.errors import Remedy, Setting
from drafting.geometry import Curve, Line, Vec, distance, run_hits
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Edge, EdgeRef, Pattern, Piece, PieceKind, Place, Role, Station, edges_at, place
from drafting.pattern.casings import casings
from drafting.pattern.cutting import LEAST_ALLOWANCE, mouth_lies
from drafting.pattern.notches import INWARD_NOTCH, LEAST_APART, notch_places
from drafting.pattern.seam_ends import SeamEnd, seam_ends

__all__ = [
    "ENDS",
    "NARROW_HEM",
    "NARROW_TURNED",
    "TURNED",
    "lies_flat",
    "look_at_allowance_ends",
    "look_at_marks",
    "look_at_turned_in",
]

TURNED: Final = 0.015
"""The share of its fold by which the raw edge of what is turned in may be longer or shorter than the fold: more has to
be eased or stretched to lie flat (our figure)."""

NARROW_HEM: Final = 10.0
"""mm up to which a hem is turned twice by half its depth, stitched, and so eased in on a curve (common practice)."""

NARROW_TURNED: Final = 0.11
"""The share of its fold by which the raw edge of so narrow a hem may be longer: turned twice, half of it (ours; an
armhole takes in 8 in 100)."""

ENDS: Final = 1.0
"""mm by which two allowances that are laid together may differ in width or at their ends: a snip's width (ours)."""

_LEAST_HEM: Final = 3.0
"""mm. The least that can be turned up."""

_NEAR: Final = 3.0 * LEAST_APART
"""mm along the outline beyond which two marks need not be looked at more closely."""

_CUT_SHORT: Final = 0.5
"""The share of its allowance that a notch needs to be seen (our figure)."""

_OFF_THE_LINE: Final = 1e-3
"""mm off its own sewing line from which a notch looks for what might cut it off."""


def look_at_turned_in(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every hem, every opening that is turned in by its own allowance, and every dart.

    measured is how much longer the raw edge is than the fold it is turned in along, mm (less than zero: shorter):
    as deep as it is turned in, times the angle through which the fold bends (plane geometry). The ends are mirrored in
    the fold and lie on the sides by themselves. A dart passes where the cloth over its mouth can be folded so that it
    lies on the seam. A casing is left out: its elastic draws it in;
    and so is the edge of a lap on a shoulder, which is bound.
    """
    joined = {(ref.piece, ref.edge) for seam in pattern.seams for ref in (*seam.a, *seam.b)}
    drawn_in = {ref for casing in casings(pattern) for ref in casing.edges}
    for piece in pattern.pieces:
        for edge in piece.edges:
            opening = edge.role is Role.OPENING and (piece.name, edge.name) not in joined
            bound = edge.place is Place.SHOULDER and bool(edges_at(piece, Place.LAP_END))
            cased = EdgeRef(piece.name, edge.name) in drawn_in or bound
            if edge.allowance > 0.0 and (edge.role is Role.HEM or opening) and not cased:
                yield look(_turned, piece.name, edge, piece.identity.kind is PieceKind.LINING)
        if piece.darts:
            yield look(_mouths, piece)


def lies_flat(length: float, bends: float) -> float:
    """The deepest hem that lies flat when it is turned up, mm, on an edge of this length that bends by so many radians.

    One that bulges out can be a narrow one on a tighter curve, turned twice.
    """
    if abs(bends) < 1e-6:
        return math.inf
    narrow = min(NARROW_HEM, NARROW_TURNED * length / bends) if bends > 0.0 else 0.0
    return max(TURNED * length / abs(bends), narrow)


def _turned(check: Check, piece: str, edge: Edge, lining: bool) -> Iterator[Result]:
    """Measured is how much longer the raw edge of an allowance is than its seam when it is turned in, mm."""
    bends = _bends(edge)
    more, most = edge.allowance * bends, TURNED * edge.length
    if edge.role is Role.HEM:
        most = min(lies_flat(edge.length, bends), edge.length) * abs(bends)
    remedy = (
        f"Turned in by {edge.allowance:.1f} mm its raw edge is {abs(more):.1f} mm too "
        f"{'full' if more > 0.0 else 'tight'} to lie flat on the curve of {edge.name}."
    )
    remedies: list[Remedy] = []
    on = Setting("piece", piece)
    # in inches it is told to a sixteenth: that may be 0.8 mm more
    lies = math.floor(most / abs(bends) - 0.8) if abs(more) > most else math.inf
    if edge.role is Role.OPENING:
        remedy += f" Turn in only {lies:.0f} mm of it, or snip the allowance so that it spreads."
        if LEAST_ALLOWANCE <= lies < math.inf:
            narrower = (Setting("seam_allowance", float(lies), "mm"),)
            lead = "With less beyond every seam it lies"
            remedies.append(Remedy("set in paper", "seam_allowance", narrower, lead=lead))
    elif lining:  # it is drawn to the garment, and takes no step of its own
        remedy += " Turn it up by hand, and lay what is too full in small folds; or turn up less of the garment there."
    elif lies < math.inf:
        if lies >= _LEAST_HEM:
            depth = Setting("depth", float(lies), "mm")
            remedies.append(Remedy("add", "hem", (on, depth), lead="So deep it lies"))
        remedies.append(Remedy("add", "hem", (on, Setting("finish", "facing")), lead="Or face it"))
    yield check.result(
        f"{piece} {edge.name}",
        Verdict.WARN if abs(more) > most else Verdict.PASS,
        measured=more,
        wanted=0.0,
        allowed=most,
        remedy=remedy,
        remedies=remedies,
    )


def _bends(edge: Edge) -> float:
    """The most that an edge turns one way between any two of its places, radians; above zero where it bulges out.

    Where it wavers the ways do not make up for each other: full in one place and tight in another lies nowhere.
    """
    turned = least = most = fullest = tightest = 0.0
    last: Vec | None = None
    for curve in edge.curves:
        for leg in _legs(curve):
            turned += 0.0 if last is None else last.angle_to(leg)
            last = leg
            least, most = min(least, turned), max(most, turned)
            fullest, tightest = max(fullest, turned - least), max(tightest, most - turned)
    return fullest if fullest >= tightest else -tightest


def _legs(curve: Curve) -> Iterator[Vec]:
    """The legs of a curve's control polygon that have a length: they turn as the curve does."""
    places = (curve.start, curve.end) if isinstance(curve, Line) else (curve.start, curve.c1, curve.c2, curve.end)
    for here, there in pairwise(places):
        if not here.near(there):
            yield there - here


def _mouths(check: Check, piece: Piece) -> Iterator[Result]:
    for dart in piece.darts:
        yield check.result(
            f"{piece.name}: {dart.name}",
            Verdict.PASS if mouth_lies(piece, dart) else Verdict.WARN,
            remedy="Folded and pressed, the cloth over its mouth does not come to lie on the seam: make the dart "
            "narrower, or divide it.",
        )


def look_at_allowance_ends(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every end of a seam at which the allowances of both pieces end free.

    measured is by how much the cut edges differ there, mm: in how wide they are, or in how far past the end they reach.
    An edge that is bound has none: the strip's raw edge is laid on it.
    """
    for end in seam_ends(pattern):
        kinds = {pattern.piece(piece).identity.kind for piece, _ in end.edges}
        if PieceKind.BINDING not in kinds or all(end.wide):
            yield look(_ends, end)


def _ends(check: Check, end: SeamEnd) -> Iterator[Result]:
    wide, past = (abs(one - other) for one, other in (end.wide, end.past))
    one, other = (f"{piece} {edge}" for piece, edge in end.edges)
    what, (first, second) = ("wide", end.wide) if wide >= past else ("far past the seam", end.past)
    yield check.result(
        f"{end.seam}, {end.at}: {one} to {other}",
        Verdict.WARN if max(wide, past) > ENDS else Verdict.PASS,
        measured=max(wide, past),
        wanted=0.0,
        allowed=ENDS,
        remedy=f"The allowance of {one} is {first:.1f} mm {what}, that of {other} {second:.1f} mm: cut both alike, so "
        "that the cut edges can be laid together.",
    )


def look_at_marks(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every notch as it is drawn; measured is how far its nearest neighbour on the piece stands off, mm.

    The two marks of a double notch are one notch. A notch fails where another line of the piece cuts it off.
    """
    for piece in pattern.pieces:
        if piece.notches:
            yield look(_marks, piece)


def _marks(check: Check, piece: Piece) -> Iterator[Result]:
    """Measured is how far each notch stands from the nearest other one along the outline, mm."""
    along = _edge_begins(piece)
    marks = {
        notch.name: [(along[station.edge] + station.at, station) for station in notch_places(piece, notch)]
        for notch in piece.notches
    }
    nearest: dict[str, tuple[float, str]] = {}
    around = sum(edge.length for edge in piece.edges)
    for one, other in combinations(marks, 2):
        off = min(_apart(piece, here, there, around) for here in marks[one] for there in marks[other])
        for name, beside in ((one, other), (other, one)):
            if name not in nearest or off < nearest[name][0]:
                nearest[name] = off, beside
    for notch in piece.notches:
        off, beside = nearest.get(notch.name, (math.inf, ""))
        lost = _cut_off(piece, [station for _, station in marks[notch.name]])
        near = off < LEAST_APART - SAME_PLACE
        remedy = "Another line of the piece cuts it off before it can be seen: move it along, on both pieces."
        if near:
            remedy = f'It stands {off:.1f} mm from "{beside}"; the two would be taken for one: leave one of them out.'
        yield check.result(
            f"{piece.name} / {notch.name}",
            Verdict.WARN if near or lost else Verdict.PASS,
            measured=off if beside else None,
            allowed=(LEAST_APART, None),
            remedy=remedy,
        )


def _edge_begins(piece: Piece) -> dict[str, float]:
    """How far along the outline each edge begins, mm."""
    along, gone = {}, 0.0
    for edge in piece.edges:
        along[edge.name] = gone
        gone += edge.length
    return along


def _apart(piece: Piece, here: tuple[float, Station], there: tuple[float, Station], around: float) -> float:
    """How far two marks stand apart on the sewing line, mm: straight across where they are near, else along it."""
    way = abs(here[0] - there[0])
    way = min(way, around - way)
    if way > _NEAR:
        return way
    return distance(place(piece, here[1])[0], place(piece, there[1])[0])


def _cut_off(piece: Piece, stations: Sequence[Station]) -> bool:
    """Whether a line at a near end of its edge crosses a notch before half of its allowance."""
    k = piece.index(stations[0].edge)
    own = piece.edges[k]
    long = own.allowance * _CUT_SHORT or INWARD_NOTCH
    if all(2.0 * long < station.at < own.length - 2.0 * long for station in stations):
        return False
    lines = [c for edge in (piece.edges[k - 1], own, piece.edges[(k + 1) % len(piece.edges)]) for c in edge.curves]
    for station in stations:
        point, direction = place(piece, station)
        out = direction.right() if own.allowance else direction.left()
        if any(_OFF_THE_LINE < hit.along < long for _, hit in run_hits(lines, point, out)):
            return True
    return False
