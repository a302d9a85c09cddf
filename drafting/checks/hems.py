"""Hems that run on over a seam: are they turned up alike."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.errors import Remedy, Setting
from drafting.pattern import Edge, EdgeRef, Pattern, Piece, Place, Role
from drafting.pattern.let_down import let_down_edges

__all__ = ["look_at_hems"]

_ALIKE: Final = 1.0
"""mm by which the depths of two hems may differ at the seam between them (our figure: what shows at a folded edge)."""


def look_at_hems(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """The depths of the two hems at the end of every seam that comes down to one on both sides.

    measured is how much deeper the first is, mm. Folded up, hems of two depths end at two heights at the seam, and so
    do two edges of which one can be let down by more. Where there are seams and none comes down to two hems, as after
    they were faced, that is well; of pieces alone nothing is known.
    """
    found = False
    for seam in pattern.seams:
        for last in (False, True):
            one, other = (_at_end(pattern, run[-1] if last else run[0], last=last) for run in (seam.a, seam.b))
            if one is not None and other is not None and one[0].name != other[0].name:
                found = True
                yield look(_depths, seam.name, one[0], one[1], other[0], other[1])
            beyond = [_edge_beyond(pattern, run[-1] if last else run[0], last=last) for run in (seam.a, seam.b)]
            if beyond[0][0].name != beyond[1][0].name and any(_left_to_let_down(*each) for each in beyond):
                yield look(_hems_end_level, seam.name, *beyond[0], *beyond[1])
    if pattern.seams and not found:
        yield look(_none)


def _none(check: Check) -> Iterator[Result]:
    yield check.result("no hem runs on over a seam", Verdict.PASS)


def _at_end(pattern: Pattern, ref: EdgeRef, *, last: bool) -> tuple[Piece, Edge] | None:
    """The hem to which a run comes at that end, and its piece."""
    piece, beyond = _edge_beyond(pattern, ref, last=last)
    return (piece, beyond) if beyond.role is Role.HEM else None


def _edge_beyond(pattern: Pattern, ref: EdgeRef, *, last: bool) -> tuple[Piece, Edge]:
    """The edge that a run comes to at that end, and its piece."""
    piece = pattern.piece(ref.piece)
    k = piece.index(ref.edge)
    return piece, piece.edges[k - 1] if last == ref.backward else piece.edges[(k + 1) % len(piece.edges)]


def _left_to_let_down(piece: Piece, edge: Edge) -> float:
    """By how much an edge can be let down, mm."""
    return sum(by for each, by in let_down_edges(piece) if each.name == edge.name)


def _hems_end_level(check: Check, seam: str, one: Piece, first: Edge, other: Piece, second: Edge) -> Iterator[Result]:
    """Whether what is let down on both sides of a seam ends at one height."""
    more, less = _left_to_let_down(one, first), _left_to_let_down(other, second)
    to, at = (other, second) if more > less else (one, first)
    at_waist = (Setting("at", "waist"),) if at.place is Place.WAIST else ()
    as_much = Setting("piece", to.name), Setting("by", round(max(more, less), 1), "mm"), *at_waist
    yield check.result(
        f"{seam}, let down: {one.name} and {other.name}",
        Verdict.WARN if abs(more - less) > _ALIKE else Verdict.PASS,
        measured=more - less,
        wanted=0.0,
        allowed=_ALIKE,
        remedy=(
            f"At the {seam} the {one.name} can be let down by {more:.1f} mm and the {other.name} by {less:.1f} mm: let "
            "down they end at two heights."
        ),
        remedies=(Remedy("add", "room to grow", (*as_much, Setting("only", to.name)), lead="Leave as much in both"),),
    )


def _depths(check: Check, seam: str, one: Piece, first: Edge, other: Piece, second: Edge) -> Iterator[Result]:
    """Measured is by how much the hems on the two sides of a seam differ in depth, mm."""
    deeper = first.allowance - second.allowance
    lower = max(first.allowance, second.allowance)
    to = one if first.allowance < second.allowance else other
    settings = Setting("piece", to.name), Setting("depth", lower, "mm"), Setting("only", to.name)
    yield check.result(
        f"{seam}: {one.name} and {other.name}",
        Verdict.WARN if abs(deeper) > _ALIKE else Verdict.PASS,
        measured=deeper,
        wanted=0.0,
        allowed=_ALIKE,
        remedy=(
            f"At the {seam} the hem of the {one.name} is {first.allowance:.1f} mm deep and that of the {other.name} "
            f"{second.allowance:.1f} mm: turned up they end at two heights."
        ),
        remedies=(Remedy("add", "hem", settings, lead="Make them alike"),),
    )
