"""A sleeve shortened as a cutter does it for a three-quarter or a short one: cut off, as wide as it is there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from drafting.alterations.alteration import Promise
from drafting.alterations.promises import lengths_kept, seam_kept
from drafting.alterations.refusing import refusing
from drafting.alterations.techniques.spreading.cut_off import CutOff, cut_off
from drafting.alterations.techniques.spreading.level_cut import CutLine, crossed
from drafting.errors import StepRefused
from drafting.geometry import Vec, lerp
from drafting.pattern import (
    Along,
    Between,
    Edge,
    Landmark,
    MarkPoint,
    Measure,
    Pattern,
    Piece,
    Place,
    Tape,
    across,
    edges_at,
    free_name,
    with_pieces,
    without_notches,
)

__all__ = ["sleeve_cut_off", "sleeve_promises"]

_HEM = "sleeve hem"


def sleeve_cut_off(step: str, pattern: Pattern, piece: Piece, down: Vec, shorter: float) -> Pattern:
    """The pattern with `shorter` mm of a sleeve cut off, and nothing marked or measured on what falls away.

    down: the unit direction of its grain towards the hem
    Raises StepRefused, as everything here, for what is no sleeve.
    """
    hem, cut = _hem_and_cut(step, piece, down, shorter)
    with refusing(step):
        left = cut_off(piece, hem, cut)
    without = without_notches(pattern, left.notches)
    ends = next((mark for mark in left.piece.points if mark.landmark is Landmark.WRIST), None)
    called = free_name(_HEM, {mark.name for mark in left.piece.points if mark is not ends})
    measures = (
        _to_hem(each, piece.name, ends.name if ends else "", called)
        if _ends_there(each, piece.name, hem, ends)
        else each
        for each in without.measures
        if not any(_is_gone(tape, piece.name, left) for tape in each.tape)
    )
    named = (replace(mark, name=called) if mark is ends else mark for mark in left.piece.points)
    return with_pieces(replace(without, measures=tuple(measures)), replace(left.piece, points=tuple(named)))


def sleeve_promises(step: str, pattern: Pattern, piece: Piece, down: Vec, shorter: float) -> Iterator[Promise]:
    """Everything above the cut is left alone, its seams meet as they did, and so much is gone."""
    _, cut = _hem_and_cut(step, piece, down, shorter)
    above = (e.name for e in piece.edges if not cut.below(e.start) and not cut.below(e.end))
    yield from lengths_kept(piece, above)
    kept = sleeve_cut_off(step, pattern, piece, down, shorter).piece(piece.name)
    for line in kept.lines:
        if line in piece.lines:
            yield Promise(f"the width of {piece.name} at the {line.name}", partial(_width, piece.name, line.name))
    yield Promise(f"how far down {piece.name} reaches", partial(_lowest, piece.name, cut), change=-shorter)
    cut_through = {edge.name for edge in crossed(piece, cut)}
    for seam in pattern.seams:
        if any(ref.piece == piece.name and ref.edge in cut_through for ref in (*seam.a, *seam.b)):
            yield seam_kept(seam)


def _hem_and_cut(step: str, piece: Piece, down: Vec, shorter: float) -> tuple[Edge, CutLine]:
    hems = edges_at(piece, Place.WRIST)
    if shorter <= 0.0 or len(hems) != 1:
        raise StepRefused(
            step, reason='a hem "as tapered" is for a sleeve that is shortened; leave it out for anything else'
        )
    (hem,) = hems
    return hem, CutLine(lerp(hem.start, hem.end, 0.5) - down * shorter, down)


def _ends_there(measure: Measure, piece: str, hem: Edge, ends: MarkPoint | None) -> bool:
    """Whether a measurement goes round the hem, or down to it."""
    return any(
        tape.piece == piece
        and (
            (isinstance(tape, Along) and tape.edge == hem.name)
            or (isinstance(tape, Between) and ends is not None and ends.name in (tape.one, tape.other))
        )
        for tape in measure.tape
    )


def _to_hem(measure: Measure, piece: str, was: str, now: str) -> Measure:
    """The measurement called by the hem, and compared with nothing: nobody is measured where it ends now.

    was, now: the name of the place it goes down to
    """

    def named(tape: Tape) -> Tape:
        if not isinstance(tape, Between) or tape.piece != piece:
            return tape
        one, other = (now if each == was else each for each in (tape.one, tape.other))
        return replace(tape, one=one, other=other)

    name = re.sub(r"\bwrist\b", _HEM, measure.name)
    return replace(measure, name=name, tape=tuple(map(named, measure.tape)), body=None, least=None, snug=None, ease=0.0)


def _is_gone(tape: Tape, piece: str, left: CutOff) -> bool:
    """Whether the tape lies by a line or a point that was cut off."""
    if tape.piece != piece or isinstance(tape, Along):
        return False
    if isinstance(tape, Between):
        return not left.points.isdisjoint((tape.one, tape.other))
    return tape.line in left.lines


def _width(piece: str, line: str, pattern: Pattern) -> float:
    return across(pattern.piece(piece), line)


def _lowest(piece: str, cut: CutLine, pattern: Pattern) -> float:
    return max(cut.depth(edge.start) for edge in pattern.piece(piece).edges)
