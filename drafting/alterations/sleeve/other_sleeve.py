"""Put another sleeve in: the sleeve of another garment, set into this one's armhole.

The trade's way: a sleeve can be set in where cap and armhole agree, in front and behind, with an ease that can be sewn;
a sleeve of another pattern fits when both armholes are equally long (a sewing teacher on caps that do not fit; one
practitioner). Where they do not agree, the cap is redrawn to this armhole.

An alteration depends on nothing but the pattern it is applied to. So the step carries the other sleeve with it, as the
text of a pattern.json that holds this one piece, and can be taken again without the other file.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import run_surplus, surplus_becomes, whole_pieces_kept
from drafting.alterations.sleeve.fit_sleeve import BICEPS, KEEP, refitted
from drafting.alterations.sleeve.set_in_sleeve import SLEEVE, SetIn, biceps_width, find_set_in, set_in
from drafting.alterations.techniques.marks.called_as import called_as
from drafting.alterations.techniques.marks.seam_ease import ease_that_sews, gathered_ease, with_ease
from drafting.errors import InputProblems, NotAPattern, StepRefused
from drafting.pattern import (
    BodyPart,
    Curved,
    Measure,
    Pattern,
    Piece,
    Seam,
    SeamEase,
    Tape,
    Wearer,
    relaid,
    with_edges,
    with_pieces,
)
from drafting.pattern.text import from_json, to_json

__all__ = ["PutSleeveIn", "with_sleeve_of"]

_PLACES: Final = 6  # decimals of a mm to which the ease that a sleeve brings along is noted: any text holds it exactly


@alteration_class
class PutSleeveIn(Alteration):
    """Put the sleeve of another garment into this one's armhole, in place of its own.

    sleeve:    the other sleeve, as the text of a pattern with this one piece: `with_sleeve_of` puts it there
    front_ease, back_ease: how much longer than its armhole its cap was, mm; None to ask for this garment's own ease
    """

    name = "put sleeve in"
    layer = Layer.FIT
    needs = ((BodyPart.SLEEVE,),)
    about = "Put the sleeve of another garment in, its cap drawn to this armhole."
    leaves = "both bodices; of the other sleeve the width at the biceps line or the height of the cap, and all below it"
    carries = "the notches of the cap; the ease declared for the armhole"

    garment: str = option("text", "the garment file whose sleeve is put in")
    refit: bool = option("flag", "draw its cap to this armhole; otherwise it goes in as it is or not", default=True)
    keep: str = option("choice", "what of it stays when its cap is drawn anew", choices=KEEP, default=BICEPS)
    piece: str = option("text", "the sleeve that comes out", default=SLEEVE)
    sleeve: str = ""
    front_ease: float | None = None
    back_ease: float | None = None

    @property
    def puts_in(self) -> str:
        return self.piece

    def apply(self, pattern: Pattern) -> Pattern:
        sleeve, (front, back) = _other_sleeve(self, pattern)
        pattern = with_pieces(_without_tucks(pattern, sleeve.piece), sleeve.piece)
        try:
            if self.refit:
                return refitted(pattern, sleeve, front, back, keep=self.keep)
            altered = set_in(pattern, sleeve.piece)
        except NotAPattern as error:
            raise StepRefused(self.name, reason=f"{error}. {sleeve.described()}") from error
        return _as_it_is(self, altered, sleeve, (front, back))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        sleeve, (front, back) = _other_sleeve(self, pattern)
        name = sleeve.piece.name
        yield from whole_pieces_kept(pattern, [name])
        if self.refit:
            yield surplus_becomes(pattern, sleeve.front, front.wanted)
            yield surplus_becomes(pattern, sleeve.back, back.wanted)
        if not self.refit or self.keep == BICEPS:
            wider = sleeve.cap.width - biceps_width(name, pattern)
            yield Promise("the width of the other sleeve at its biceps line", partial(biceps_width, name), wider)


def with_sleeve_of(step: PutSleeveIn, other: Pattern) -> PutSleeveIn:
    """The step with the sleeve of another pattern in it. Raises StepRefused where that has no set-in sleeve."""
    found = find_set_in(step.name, other, SLEEVE)
    alone = Pattern(other.title, Wearer(""), (found.piece,))
    text = json.dumps(json.loads(to_json(alone)), separators=(",", ":"), ensure_ascii=False)
    front, back = (round(run_surplus(other, seam), _PLACES) for seam in (found.front, found.back))
    return replace(step, sleeve=text, front_ease=front, back_ease=back)


def _other_sleeve(step: PutSleeveIn, pattern: Pattern) -> tuple[SetIn, tuple[SeamEase, SeamEase]]:
    """The other sleeve, under the name and with the allowances of this one, and the ease it is to go in with."""
    own = find_set_in(step.name, pattern, step.piece)
    if not step.sleeve:
        raise StepRefused(step.name, reason=f'the sleeve of "{step.garment}" has not been read')
    try:
        (other,) = from_json(step.sleeve, place=f'the sleeve of "{step.garment}"').pieces
    except (InputProblems, ValueError) as error:
        raise StepRefused(step.name, reason=f'what stands for the sleeve of "{step.garment}" cannot be read') from error
    other = called_as(other, own.piece)
    allowances = {edge.name: edge.allowance for edge in own.piece.edges}
    other = with_edges(other, *(e.with_allowance(allowances.get(e.name, e.allowance)) for e in other.edges))
    _accept(step, pattern, other)
    return own.with_piece(other), (_ease(own.front, step.front_ease), _ease(own.back, step.back_ease))


def _without_tucks(pattern: Pattern, other: Piece) -> Pattern:
    """The pattern with nothing measured of what a tuck of its own sleeve takes up: that goes with the sleeve."""

    def lay(_: Measure, part: Tape) -> tuple[Tape, ...]:
        return () if isinstance(part, Curved) else (part,)

    return replace(pattern, measures=relaid(pattern.measures, other.name, lay))


def _accept(step: PutSleeveIn, pattern: Pattern, other: Piece) -> None:
    """Raise StepRefused where this pattern sews or measures the sleeve at something that the other has not."""
    edges, notches, lines, points = (
        {each.name for each in group} for group in (other.edges, other.notches, other.lines, other.points)
    )
    laid_at = {"edge": edges, "one": points, "other": points, "line": lines, "onward": lines}
    asked: list[tuple[str, set[str]]] = []
    for seam in pattern.seams:
        asked += [(ref.edge, edges) for ref in (*seam.a, *seam.b) if ref.piece == other.name]
        asked += [(mark.notch, notches) for pair in seam.notches for mark in pair if mark.piece == other.name]
    tape = (part for measure in pattern.measures for part in measure.tape if part.piece == other.name)
    for part in (each for each in tape if not isinstance(each, Curved)):
        asked += [(getattr(part, at), there) for at, there in laid_at.items() if hasattr(part, at)]
    missing = dict.fromkeys(name for name, there in asked if name not in there)
    if missing:
        names = ", ".join(f'"{name}"' for name in missing)
        reason = f'the sleeve of "{step.garment}" has no {names}, where this garment is sewn or measured'
        raise StepRefused(step.name, reason=reason)


def _ease(seam: Seam, wanted: float | None) -> SeamEase:
    """The ease a sleeve brings along, or this garment's own; more than will be eased in is gathered."""
    if wanted is None:
        return seam.ease
    if seam.ease.low <= wanted <= seam.ease.high:
        return replace(seam.ease, wanted=wanted)
    return gathered_ease(wanted) if wanted > seam.ease.high else seam.ease


def _as_it_is(step: PutSleeveIn, altered: Pattern, sleeve: SetIn, eases: tuple[SeamEase, SeamEase]) -> Pattern:
    """The pattern with the sleeve set in as it is. Raises StepRefused, with the lengths, where it does not go in."""
    for seam, ease in zip((sleeve.front, sleeve.back), eases, strict=True):
        more = run_surplus(altered, seam)
        will = ease_that_sews(ease, more)
        if will is None:
            found = find_set_in(step.name, altered, sleeve.piece.name)
            way = "longer" if more > 0.0 else "shorter"
            off = f"at the {seam.name} it is {abs(more):.1f} mm {way}"
            sews = f"{ease.low:.1f} to {ease.high:.1f} mm longer will sew. To have its cap drawn to this armhole"
            raise StepRefused(step.name, reason=f"{found.described()}: {off}, and {sews}: refit = true")
        altered = with_ease(altered, seam.name, will)
    return altered
