"""Wrap over: a skirt front cut twice, each half reaching beyond the centre front to lie over or under the other.

Each front reaches at least 3 in beyond the centre, so the overlap is 6 in (N. Smith, "Sew the wrap skirt"). Beyond the
centre, waist and hem are those of the other half, mirrored, so that the layer below has the shape of the layer on top.
A dart of the other half that the overlap reaches is folded out of it. With a slant the edge runs straight from the
waist to a place further out, or less far out, at the hem, as on a wrap cut from a half circle (plane geometry; how far
is taste).

The garment is measured once round the body: every width ends at the centre front. The width of the overlap is measured
too, at the waist, at the hip, at the knee and at the hem.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise, find_piece
from drafting.alterations.earlier_steps import in_the_way, refused_after
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, lengths_kept_but, seams_kept
from drafting.alterations.skirt.wrapped_front import WrappedPiece, over_wrap, wrapped_pieces
from drafting.alterations.techniques.cutting.centre_line import (
    Beyond,
    CentreLine,
    centre_lines,
    hangs_from,
    laid_to_centre,
    with_seam_beyond,
)
from drafting.errors import Lacking, StepRefused
from drafting.parts.finishes.edge_facing import WRAP_FACING, edge_facing
from drafting.parts.finishes.facing_strip import FACING
from drafting.pattern import (
    Along,
    Between,
    BodyPart,
    Measure,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    edge_at,
    require_piece,
    with_pieces,
)
from drafting.pattern.unfinished import has_inner_layer

__all__ = ["Wrap"]

_CENTRE: Final = Place.CENTRE_FRONT
_OVERLAP: Final = 76.2  # mm: 3 in each, Smith
_LEAST: Final = 30.0
_MOST: Final = 400.0


@alteration_class
class Wrap(Alteration):
    """Let the front of a skirt wrap over."""

    name = "wrap over"
    layer = Layer.FULLNESS
    needs = ((BodyPart.SKIRT,),)
    about = "Let a skirt front wrap over: cut twice, each half reaching beyond the centre front, straight or slanting."
    leaves = "the fit at waist and hip; every edge but centre front and hem; how well every seam meets"
    carries = "a facing of the wrap edge; the overlap at waist, hip, knee and hem among the finished measurements"

    overlap: float = option(
        "length", "how far each front passes the centre at the waist", _LEAST, _MOST, default=_OVERLAP, or_less=True
    )
    slant: float = option(
        "length", "how much further it goes at the hem; below zero for less", -_MOST, _MOST, default=0.0, or_less=True
    )
    piece: str = option("text", "the front that is to wrap over; left out, the front of the skirt", default="")
    knee: float | None = option(
        "length",
        "how far the knee lies below the waist, to tell the overlap there; left out, as the measurements give it",
        100.0,
        900.0,
        default=None,
    )
    facing: float = option("length", "how deep the edge is faced; zero to turn it in", 0.0, 150.0, default=FACING)

    def apply(self, pattern: Pattern) -> Pattern:
        row = _row(self, pattern)
        made = wrapped_pieces(self.name, pattern, row, self.overlap, self.overlap + self.slant, self.knee)
        measures = pattern.measures
        for each in made:
            ends = (each.levels[0].centre, each.levels[-1].centre)
            measures = laid_to_centre(measures, each.line, ends, partial(over_wrap, each.levels))
        beyond = {each.piece.name: Beyond(each.line, each.at_upper, each.at_lower) for each in made}
        altered = replace(
            with_pieces(pattern, *(each.piece for each in made)),
            seams=tuple(with_seam_beyond(seam, beyond) for seam in pattern.seams),
            measures=(*measures, *_overlaps(made)),
        )
        # the inner layer of a band finishes its end
        faced = [(each.piece, each.wrap_edge) for each in made if not has_inner_layer(each.piece)]
        if not self.facing or not faced:
            return altered
        return replace(altered, derived=(*altered.derived, edge_facing(WRAP_FACING, faced, self.facing)))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        row = _row(self, pattern)
        gone = {(line.piece.name, edge.name) for line in row for edge in line.edges}
        yield from lengths_kept_but(pattern, {*gone, (row[-1].piece.name, row[-1].lower.name)})
        yield from finished_kept(pattern)
        yield from seams_kept(pattern)


def _front(step: Wrap, pattern: Pattern) -> Piece:
    if step.piece:
        return find_piece(step.name, pattern, step.piece)
    try:
        return require_piece(pattern, PieceKind.FRONT, BodyPart.SKIRT)
    except Lacking as error:
        raise StepRefused(step.name, reason=str(error)) from error


def _row(step: Wrap, pattern: Pattern) -> list[CentreLine]:
    """The centre lines of the front that wraps over, from above to below: of its band and its yoke, and of the rest."""
    piece = _front(step, pattern)
    mine = [line for line in centre_lines(pattern, _CENTRE) if line.piece.identity.part is piece.identity.part]
    line = next((each for each in mine if each.piece.name == piece.name), None)
    if line is None:
        if edge_at(piece, Place.WRAP_EDGE):
            raise StepRefused(step.name, reason=f'"{piece.name}" wraps over already')
        plain = f'"{piece.name}" has no edge at its {_CENTRE} to reach beyond'
        raise refused_after(step.name, in_the_way(piece), plain)
    row = _sewn_on(pattern, line, mine)
    for each in row:
        if not each.straight:
            shaped = f'the {_CENTRE} of "{each.piece.name}" is shaped; it has to be straight to wrap over'
            raise StepRefused(step.name, reason=shaped)
    if row[-1].lower.role is not Role.HEM or row[0].upper.role is not Role.SEAM:
        reason = f'"{piece.name}" cannot wrap over: that is for a skirt front, with a seam at its waist and a hem below'
        raise StepRefused(step.name, reason=reason)
    return row


def _sewn_on(pattern: Pattern, line: CentreLine, among: Sequence[CentreLine]) -> list[CentreLine]:
    """A centre line with those above and below it that were cut off at a band or a yoke, from above to below."""
    row = [line]
    while row[0].upper.place is Place.YOKE:
        above = next((each for each in among if each not in row and hangs_from(pattern, row[0], each)), None)
        if above is None:
            break
        row.insert(0, above)
    while row[-1].lower.place is Place.YOKE:
        below = next((each for each in among if each not in row and hangs_from(pattern, each, row[-1])), None)
        if below is None:
            break
        row.append(below)
    return row


def _overlaps(made: Sequence[WrappedPiece]) -> Iterator[Measure]:
    """How far the two fronts lie over each other: twice what each reaches beyond the centre."""
    yield Measure("overlap at the waist", (Along(made[0].piece.name, made[0].at_upper, 2.0),))
    for each in made:
        inner = each.levels[1:] if each is made[-1] else each.levels[1:-1]
        for level in inner:
            yield Measure(f"overlap at the {level.at}", (Between(each.piece.name, level.centre, level.edge, 2.0),))
