"""Full bust and small bust: cloth let in or taken out round the bust of a front, and nowhere else.

How the front is slashed, and the geometry: see `bust_slash.py`. How much is let in: half of what is wanted round the
body goes into each half of the front. Where nobody says how much, it follows from the wearer's own girths: by how much
her bust is larger than her upper chest, minus the difference that the pattern was drafted for (plane geometry; that a
size is chosen by the upper chest where the bust is two inches or more larger is in Principles of Pattern Alteration,
an extension bulletin).
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Any, ClassVar, Final, Literal

from drafting.alterations.alteration import Alteration, Layer, Promise, find_piece
from drafting.alterations.bodice.bust_slash import Slashed, slashed
from drafting.alterations.bodice.bust_zones import NEW_DART
from drafting.alterations.darts.move_dart import MoveDart
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_changes, total_changes
from drafting.alterations.refusing import instead
from drafting.alterations.techniques.cutting.split_edges import edges_of_same_cloth, with_edges_split
from drafting.alterations.techniques.marks.levels_over_darts import measured_lines, with_tape_over_bends
from drafting.alterations.techniques.pivoting.pivot import angle_about, turning_of
from drafting.errors import Remedy, Setting, StepRefused, UnknownName
from drafting.geometry import distance, run_hits, run_length
from drafting.geometry.tolerance import MEASURED, SAME_PLACE
from drafting.pattern import (
    Across,
    BodyPart,
    Edge,
    Landmark,
    Measure,
    Pattern,
    Place,
    Role,
    dart_mouth,
    point_at,
    require_edge,
    sewn_runs,
)

__all__ = ["FullBust", "SmallBust"]

INTO: Final = ("bust dart", "side seam")
Waist = Literal["kept", "goes along"]


def _amount_option(verb: str) -> Any:
    """The field for how much is let in or taken out."""
    about = f"how much to {verb} round the body; left out, worked out from the two girths"
    return option("length", about, 0.0, 200.0, default=None, or_less=True)


_LEAVES: Final = (
    "the lengths of the shoulder, the neck, the armhole, the sewn side seam and, unless it goes along, the waist; "
    "every other piece"
)


_GIRTHS: Final = "bust_girth and upper_chest_girth (in a file bust and high_bust)"
_SAY: Final = f'say by how much, by = "3 cm", or both {_GIRTHS}'


@alteration_class
class _Bust(Alteration):
    """What both have in common; lengths in mm.

    waist: "kept": the waist dart takes up what is let in, and is made where there is none; "goes along": the waist
           line becomes longer or shorter by it, where it is sewn to nothing
    """

    sign: ClassVar[float]

    by: float | None = _amount_option("let in")
    bust_girth: float | None = option(
        "length", "the wearer's own bust, in place of by; left out, by says it", 300.0, 2500.0, default=None
    )
    upper_chest_girth: float | None = option(
        "length", "the wearer's own high bust, with her bust; left out, by says it", 300.0, 2500.0, default=None
    )
    drafted_gap: float | None = option(
        "length",
        "how much larger than the high bust the draft takes the bust; left out, as it was drafted",
        default=None,
    )
    waist: Waist = option(
        "choice",
        "kept by the waist dart, or going along where it is sewn to nothing",
        choices=("kept", "goes along"),
        default="kept",
    )
    piece: str = option("text", "the front, where it is not the one with the bust point", default="")

    def apply(self, pattern: Pattern) -> Pattern:
        done = self._slashed(pattern)
        return with_tape_over_bends(
            with_edges_split(pattern, done.front.piece, done.after, done.made), done.front.piece.name
        )

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        done = self._slashed(pattern)
        front = done.front
        name = front.piece.name
        centre = {edge.name for edge in front.centre}
        for edges in edges_of_same_cloth(done.made):
            if not edges & centre and not (self.waist == "goes along" and edges & _waist_line(done)):
                what = f"the length of {' and '.join(sorted(edges))} on {name}"
                yield total_changes(what, front.piece, edges)
        yield total_changes(f"the centre line of {name}", front.piece, centre, done.drop)
        dart = front.bust_dart
        if dart is not None and any(kept.name == dart.name for kept in done.after.darts):
            what = f'the angle of "{dart.name}" at the bust point, radians'
            yield Promise(what, partial(_dart_angle, name, dart.name), done.angle)
        yield from self._girths_and_others(pattern, done)

    def _girths_and_others(self, pattern: Pattern, done: Slashed) -> Iterator[Promise]:
        """What becomes of the bust, and that every other piece stays as it is."""
        for measure in pattern.measures:
            if measure.key == "bust_girth" and not _over_waist_dart(done, measure):
                change = self.sign * self._amount(pattern)
                yield finished_changes(measure, change)
        for piece in pattern.pieces:
            if piece is not done.front.piece:
                yield total_changes(f"the outline of {piece.name}", piece, [edge.name for edge in piece.edges])

    def _slashed(self, pattern: Pattern) -> Slashed:
        spread = 0.5 * self.sign * self._amount(pattern)
        front = self.piece or next((piece.name for piece in pattern.pieces if point_at(piece, Landmark.BUST_POINT)), "")
        if not front:
            raise StepRefused(self.name, reason="no piece has a bust point marked on it")
        piece = find_piece(self.name, pattern, front)
        if point_at(piece, Landmark.BUST_POINT) is None:
            raise StepRefused(self.name, reason=f'there is no bust point marked on "{front}"')
        measured = measured_lines(pattern, front)
        done = slashed(self.name, piece, spread, widen_waist=self.waist == "goes along", measured=measured)
        if self.waist == "goes along":
            self._accept_free_waist(pattern, front, _waist_line(done))
        return done

    def _accept_free_waist(self, pattern: Pattern, front: str, waist: set[str]) -> None:
        for _, _, other in sewn_runs(pattern, front, waist):
            reason = f'the waist of "{front}" is sewn to "{other[0].piece}" and cannot go along'
            raise StepRefused(
                self.name,
                reason=f"{reason}; keep it, and take in or let out both after",
                remedies=instead(self.name, "waist", "kept"),
            )

    def _amount(self, pattern: Pattern) -> float:
        """How much is let in or taken out round the body, mm, above zero."""
        girths = (self.bust_girth, self.upper_chest_girth, self.drafted_gap)
        if self.by is not None:
            if any(given is not None for given in girths):
                raise StepRefused(
                    self.name,
                    reason=f"say either by, or {_GIRTHS}; leave the rest out",
                )
            if self.by <= SAME_PLACE:
                raise StepRefused(self.name, reason=f"by: {self.by:g} mm changes nothing; say how much, above zero")
            return self.by
        if self.bust_girth is None or self.upper_chest_girth is None:
            raise StepRefused(self.name, reason=_SAY)
        own, drafted = self.bust_girth - self.upper_chest_girth, self._drafted_gap(pattern)
        more = self.sign * (own - drafted)
        if more <= SAME_PLACE:
            other = "small bust" if self.sign > 0.0 else "full bust"
            said = f"her bust is {own:.0f} mm larger than her high bust, and {drafted:.0f} mm were drafted"
            if -more <= SAME_PLACE:
                raise StepRefused(self.name, reason=f"{said}: nothing is to be done")
            raise StepRefused(
                self.name, reason=said, remedies=(Remedy("instead", other, (Setting("by", round(-more, 1), "mm"),)),)
            )
        return more

    def _drafted_gap(self, pattern: Pattern) -> float:
        if self.drafted_gap is not None:
            return self.drafted_gap
        try:
            lengths = [pattern.wearer.length(key).mm for key in ("bust_girth", "upper_chest_girth")]
        except UnknownName as error:
            raise StepRefused(self.name, reason="say drafted_gap: what the draft took the bust to be larger") from error
        return lengths[0] - lengths[1]


@alteration_class
class FullBust(_Bust):
    """Let in cloth round the bust.

    into: "bust dart": the bust dart opens by what the slashes open; "side seam": that much of it goes into a dart of
          its own in the side seam, so that one in the shoulder stays as it was (the trade's way: the slashes give a
          dart at the side)
    """

    name = "full bust"
    layer = Layer.FIT
    needs = ((BodyPart.BODICE,),)
    about = "Let in cloth round the bust: the dart opens, the front becomes wider and longer."
    leaves = _LEAVES
    carries = "the waist dart, the length of the centre front, the bust dart"
    sign: ClassVar[float] = 1.0

    into: str = option(
        "choice", "what the slashes open: the bust dart, or a new one in the side seam", choices=INTO, default=INTO[0]
    )

    def apply(self, pattern: Pattern) -> Pattern:
        altered = _Bust.apply(self, pattern)
        if self.into == INTO[0]:
            return altered
        done = self._slashed(pattern)
        return _to_the_side(self, done).apply(altered)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        if self.into == INTO[0]:
            yield from _Bust.promises(self, pattern)
            return
        done = self._slashed(pattern)
        _to_the_side(self, done)
        piece, centre = done.front.piece, {edge.name for edge in done.front.centre}
        kept = {
            _part_of(edge): None for edge in piece.edges if edge.role is not Role.DART_LEG and edge.name not in centre
        }
        goes_along = {_part_of(piece.edge(name)) for name in _waist_line(done)} if self.waist == "goes along" else set()
        for kind in kept:
            if kind not in goes_along:
                yield Promise(f"the length of the {kind} on {piece.name}", partial(_part_length, piece.name, kind))
        yield total_changes(f"the centre line of {piece.name}", piece, centre, done.drop)
        yield from self._girths_and_others(pattern, done)


@alteration_class
class SmallBust(_Bust):
    """Take out cloth round the bust."""

    name = "small bust"
    layer = Layer.FIT
    needs = ((BodyPart.BODICE,),)
    about = "Take out cloth round the bust: the dart closes in part, the front becomes narrower and shorter."
    leaves = _LEAVES
    carries = "the waist dart, the length of the centre front, the bust dart"
    sign: ClassVar[float] = -1.0

    by: float | None = _amount_option("take out")


def _to_the_side(step: FullBust, done: Slashed) -> MoveDart:
    """The step that takes to the side seam what the slashes have opened the bust dart by."""
    front = done.front
    if front.bust_dart is None or "sliver" not in front.zones:
        where = "there is no bust dart yet" if front.bust_dart is None else f'"{front.bust_dart.name}" lies there'
        raise StepRefused(step.name, reason=f"{where}, so it goes into the side seam as it is; leave into out")
    part = done.angle / (front.bust_angle + done.angle)
    side = require_edge(front.piece, Place.SIDE).name
    armhole = next(edge.name for edge in front.piece.beside(side) if edge.place is Place.ARMHOLE)
    return MoveDart(front.piece.name, front.bust_dart.name, side, share=NEW_DART, measured_from=armhole, part=part)


def _part_of(edge: Edge) -> str:
    """What an edge is a part of: the side seam; by its own name where its place is not known."""
    return edge.name if edge.place is None else str(edge.place)


def _part_length(piece: str, kind: str, pattern: Pattern) -> float:
    edges = (edge for edge in pattern.piece(piece).edges if edge.role is not Role.DART_LEG)
    return sum(run_length(edge.curves, MEASURED) for edge in edges if _part_of(edge) == kind)


def _waist_line(done: Slashed) -> set[str]:
    """The edges of the waist that become longer or shorter where it goes along."""
    front = done.front
    return {
        part.edge.name for part, zone in zip(front.ring, front.zones, strict=True) if zone in ("waist line", "waist")
    }


def _dart_angle(piece: str, dart: str, pattern: Pattern) -> float:
    there = pattern.piece(piece)
    found = there.dart(dart)
    return angle_about(*dart_mouth(there, found), turning_of(there, found).pivot)


def _over_waist_dart(done: Slashed, measure: Measure) -> bool:
    """Whether the bust line lies so low that the waist dart takes up a part of the cloth that is let in there."""
    after, bust = done.after, done.front.bust_dart
    darts = [dart for dart in after.darts if bust is None or dart.name != bust.name]
    legs = [curve for dart in darts for name in dart.legs for curve in after.edge(name).curves]
    lines = [after.line(part.line) for part in measure.tape if isinstance(part, Across) and part.piece == after.name]
    return any(
        0.0 <= hit.along <= distance(line.start, line.end)
        for line in lines
        for _, hit in run_hits(legs, line.start, line.end - line.start)
    )
