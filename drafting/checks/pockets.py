"""Pockets: does a patch lie on its marks, and does a bag hang clear of the hem and of the other half of the body."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.geometry import Point, distance, encloses, polyline, run_bounds, run_hits
from drafting.geometry.meet import run_meetings
from drafting.pattern import CENTRES, Edge, Landmark, Pattern, Piece, Place, Role, edges_at, points_at
from drafting.pattern.pockets import ABOVE_HEM, above_hem, is_patch, marked_for_pockets, pockets, sewn_behind

__all__ = ["look_at_pockets"]

_ON_MARKS: Final = 0.5
"""mm by which a corner of a patch may miss its mark (ours: what a chalk line is wide)."""


def look_at_pockets(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every patch: how far the ends of its mouth lie off their marks, mm, and whether it lies on one piece, or on
    two panels over the seam between, clear of edges and darts. Every bag: how far it ends above the hem, mm, and
    whether it crosses the centre line.
    """
    found = False
    for pocket in pockets(pattern):
        found = True
        if is_patch(pocket):
            yield look(_on_marks, pocket, *marked_for_pockets(pattern, pocket))
        elif (behind := sewn_behind(pattern, pocket)) is not None:
            yield look(_hangs_clear, pocket, behind)
    if not found:
        yield look(_none)


def _none(check: Check) -> Iterator[Result]:
    yield check.result("there are no pockets", Verdict.PASS)


def _on_marks(check: Check, pocket: Piece, *pieces: Piece) -> Iterator[Result]:
    """Measured is how far a pocket's corners lie from their marks, mm; then how many edges it runs over."""
    (mouth,) = edges_at(pocket, Place.POCKET_MOUTH)
    ends = (mouth.start, mouth.end)
    offs = [(max(_nearest(on, end) for end in ends), on) for on in _what_it_may_lie_on(pieces)]
    off, on = min(offs, key=lambda each: each[0], default=(float("inf"), ()))
    if not on:
        remedy = "No piece has marks for it: ask for the pocket again."
        yield check.result(pocket.name, Verdict.FAIL, remedy=remedy)
        return
    yield check.result(
        f"{pocket.name} on {_named(on)}",
        Verdict.PASS if off <= _ON_MARKS else Verdict.FAIL,
        measured=off,
        wanted=0.0,
        allowed=(None, _ON_MARKS),
        remedy=f"A corner of it lies {off:.1f} mm off its mark: put the step that makes the pocket after the others.",
    )
    # half of a pocket that lies across a centre line is drawn from there on
    own = [edge for edge in pocket.edges if edge.role is not Role.FOLD]
    about = [curve for edge in own for curve in edge.curves]
    left, low, right, high = run_bounds(pocket.outline)
    middle = Point(0.5 * (left + right), 0.5 * (low + high))
    outside = not any(encloses(polyline(piece.outline), middle) for piece in on)
    centre = CENTRES if pocket.cut.fold else ()
    crossed = [
        edge
        for piece in on
        for edge in piece.edges
        if edge.place not in centre and run_meetings(about, edge.curves) and not _sewn_below(pocket, edge, piece, on)
    ]
    what = (
        "the edge of the piece"
        if outside
        else "a dart"
        if any(edge.role is Role.DART_LEG for edge in crossed)
        else "a seam or an edge"
    )
    yield check.result(
        f"{pocket.name} within {_named(on)}",
        Verdict.FAIL if crossed or outside else Verdict.PASS,
        measured=float(len(crossed) or outside),
        wanted=0.0,
        allowed=0.0,
        unit="places",
        remedy=f"It runs over {what}: let it begin elsewhere (from_centre, below), or make it smaller.",
    )


def _what_it_may_lie_on(pieces: Sequence[Piece]) -> Iterator[tuple[Piece, ...]]:
    """Each of the pieces, and every two panels that were cut out of one: a patch may lie over the seam between."""
    yield from ((piece,) for piece in pieces)
    yield from combinations((piece for piece in pieces if edges_at(piece, Place.PRINCESS)), 2)


def _named(pieces: Sequence[Piece]) -> str:
    return " and ".join(piece.name for piece in pieces)


def _sewn_below(pocket: Piece, edge: Edge, piece: Piece, on: Sequence[Piece]) -> bool:
    """Whether a patch lies over an edge that is a seam between two panels, and they lie flat there, drawn side by side:
    below it the one edge runs where the other does.
    """
    partner = [each for other in on if other is not piece for each in edges_at(other, Place.PRINCESS)]
    if edge.place is not Place.PRINCESS or not partner:
        return False
    (mouth,) = edges_at(pocket, Place.POCKET_MOUTH)
    across = (mouth.end - mouth.start).unit()
    about, along = polyline(pocket.outline), [curve for each in partner for curve in each.curves]
    places = [meeting.point for _, _, meeting in run_meetings(pocket.outline, edge.curves)]
    places += [place for place in polyline(edge.curves) if encloses(about, place)]
    offs = (min((abs(hit.along) for _, hit in run_hits(along, at, across)), default=float("inf")) for at in places)
    return all(off <= _ON_MARKS for off in offs)


def _nearest(pieces: Sequence[Piece], place: Point) -> float:
    """How far a place lies from the nearest mark for a pocket, mm."""
    return min(distance(mark.at, place) for piece in pieces for mark in points_at(piece, Landmark.POCKET))


def _hangs_clear(check: Check, bag: Piece, behind: Piece) -> Iterator[Result]:
    """Measured is whether a pocket bag reaches over the centre, then how far above the hem it ends, mm."""
    round_ = [curve for edge in edges_at(bag, Place.POCKET_EDGE) for curve in edge.curves]
    crosses = any(run_meetings(round_, edge.curves) for edge in edges_at(behind, *CENTRES))
    yield check.result(
        f"{bag.name} short of the centre",
        Verdict.FAIL if crosses else Verdict.PASS,
        measured=float(crosses),
        wanted=0.0,
        allowed=0.0,
        unit="places",
        remedy="It reaches over the centre line: make it less wide.",
    )
    left = above_hem(round_, behind)
    if left is not None:
        yield check.result(
            f"{bag.name} above the hem",
            Verdict.PASS if left >= ABOVE_HEM else Verdict.FAIL,
            measured=left,
            wanted=ABOVE_HEM,
            allowed=(ABOVE_HEM, None),
            remedy=f"Let it hang {ABOVE_HEM - left:.0f} mm less deep, or begin higher.",
        )
