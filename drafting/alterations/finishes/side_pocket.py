r"""A pocket in the side seam: its mouth is left open there, and a bag is sewn to each of its two edges.

                      waist      Front and back are parted at the ends of the mouth, and a bag is traced from each,
________________________|        with the mouth as its outer edge. The bags are sewn to each other round their edge,
    .-------------------+        in one go with the side seam above and below (common practice).
   (                    | mouth
   (       bag          |        The mouth takes the hand with 1/2 in beyond it on both sides and its thickness (a
    (                   +        sewing page on drafting a pocket in a seam); the bag hangs 4 in below it (a
     `.               .'|        sewing page on trouser pockets). Where it lies is common practice.
       `-------------'  |  side seam
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.earlier_steps import not_whole, refused_after
from drafting.alterations.finishes.pocket_bag import LEAST_UNDER_MOUTH, Mouth, bag_like, draw_bag
from drafting.alterations.finishes.pocket_sizes import (
    BESIDE_HAND,
    HAND_WIDE,
    ROUNDED_AWAY,
    accept_no_zip,
    bag_hangs,
    by_height,
)
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, whole_pieces_kept
from drafting.alterations.refusing import instead
from drafting.alterations.techniques.cutting.divide_edge import divided, end_notch, notched_edge, without_notches_along
from drafting.alterations.techniques.cutting.split_edges import with_edge_cut
from drafting.dataclass import dataclass
from drafting.errors import Remedy, Setting, StepRefused
from drafting.geometry import Point, distance, run_hits, run_length
from drafting.geometry.outline import stretch
from drafting.pattern import (
    BodyPart,
    Edge,
    EdgeRef,
    Level,
    NotchMark,
    NotchRef,
    Origin,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    edges_at,
    line_at,
    notches_marking,
)

__all__ = ["SidePocket"]

_SIDES: Final = (Place.SIDE, Place.OUTSEAM)
_BELOW_WAIST: Final = 0.031  # of the height: 5 cm for a woman (common practice)
_MOUTH: Final = 0.095  # of the height: 15 to 16 cm for a woman (common practice)
_LOWEST: Final = 0.16  # of the height below the waist: what an arm reaches down to with ease, 26 cm for a woman (ours)
_LEFT: Final = 20.0  # mm of seam left at both ends of a mouth (ours)
_FEWER_TIERS: Final = Remedy("set in block", "", (Setting("tiers", "2"),), lead="Take fewer tiers, higher ones")
_ON_SEAM: Final = 1e-3  # mm


@alteration_class
class SidePocket(Alteration):
    """Put a pocket into both side seams of a skirt, of trousers, or of what hangs straight from the chest.

    Every size that is left out goes by the wearer's height.
    """

    name = "side pocket"
    layer = Layer.OPENINGS
    about = "Put a pocket into both side seams: a mouth in the seam, a bag of two halves behind it."
    leaves = "the finished widths and lengths; every other edge"
    carries = "front and back: both get the mouth at the same place, and a half of the bag"

    mouth: float | None = option(
        "length", "how long its mouth is; left out, 15.5 cm for a height of 163 cm", 60.0, 300.0, default=None
    )
    below_waist: float | None = option(
        "length",
        "how far the mouth begins below the waist; left out, 5 cm for a height of 163 cm",
        0.0,
        400.0,
        default=None,
    )
    width: float | None = option(
        "length",
        "how far the bag reaches in; left out, 14 cm for a height of 163 cm",
        50.0,
        300.0,
        default=None,
        or_less=True,
    )
    hangs: float | None = bag_hangs(300.0)

    def apply(self, pattern: Pattern) -> Pattern:
        halves = {half.piece.name: half for half in _halves(self, pattern)}
        bags: dict[str, Piece] = {}
        mouths: dict[str, str] = {}
        first, *others = halves.values()
        bags[first.piece.name] = bag = draw_bag(self.name, pattern, first, width=self.width, hangs=self.hangs)
        for half in others:  # so that both go together round their edge, however the two side seams are curved
            bags[half.piece.name] = bag_like(pattern, bag, first, half, [each.name for each in bags.values()])
        for name, half in halves.items():
            pattern, mouths[name] = _with_seam_parted(pattern, half)
        seams = tuple(_seams(self, pattern, halves, mouths, bags))
        # such as the notch of the hip: what the mouth meets is a bag now, with none
        bare = without_notches_along(pattern, set(mouths.items()))
        return replace(pattern, pieces=(*bare, *bags.values()), seams=seams)

    def came_to(self, before: Pattern, after: Pattern) -> Mapping[str, float]:  # noqa: ARG002
        side = _seams_with_room(self, before)[0]
        half = _half(self, before, side)
        top = half.low if half.downward else half.high
        return {"mouth": half.high - half.low, "below_waist": side.above + abs(top - side.waist)}

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        yield from whole_pieces_kept(pattern, {half.piece.name for half in _halves(self, pattern)})
        yield from finished_kept(pattern)


@dataclass(frozen=True, slots=True)
class _Side:
    """The side seam of a piece that hangs from a waist.

    waist: how far along it the waist lies, or for a tier its upper edge, mm; downward: whether it runs down from there
    above: how far below the waist that upper edge of a tier lies, mm; 0 for the first
    """

    piece: Piece
    edge: Edge
    waist: float
    downward: bool
    above: float = 0.0

    @property
    def long(self) -> float:
        """How far it runs down, mm."""
        return self.edge.length - self.waist if self.downward else self.waist


def _halves(step: SidePocket, pattern: Pattern) -> list[Mouth]:
    """The front and the back with the side seam that the pocket lies in. Raises StepRefused where there is none."""
    return [_half(step, pattern, side) for side in _seams_with_room(step, pattern)]


def _seams_with_room(step: SidePocket, pattern: Pattern) -> list[_Side]:
    """The side seams in which there is room for the pocket: of tiers in the highest that are long enough.

    Raises StepRefused, of the first of them, where there is none.
    """
    sides = [side for piece in pattern.pieces if (side := _from_waist(piece)) is not None]
    if not sides:
        raise StepRefused(step.name, reason="no piece has a side seam that goes on below a waist")
    why: StepRefused | None = None
    while sides:
        try:
            for side in sides:
                _half(step, pattern, side)
        except StepRefused as refused:
            why = why or refused
            sides = [below for side in sides if (below := _next_tier(pattern, side)) is not None]
            if step.below_waist is None and any(side.above > by_height(pattern, _LOWEST) for side in sides):
                break
        else:
            return sides
    assert why is not None
    raise why


def _next_tier(pattern: Pattern, side: _Side) -> _Side | None:
    """The side seam of the tier that hangs from the piece with this one; None where none does."""
    foot = side.edge.end if side.downward else side.edge.start
    lower = {edge.name for edge in edges_at(side.piece, Place.TIER) if foot in (edge.start, edge.end)}
    for seam in pattern.seams:
        for one, other in ((seam.a, seam.b), (seam.b, seam.a)):
            if any(ref.piece == side.piece.name and ref.edge in lower for ref in one):
                below = pattern.piece(other[0].piece)
                tops = {at for ref in other if ref.piece == below.name for at in _ends(below.edge(ref.edge))}
                found = _side_from(below, tops)
                return None if found is None else replace(found, above=side.above + side.long)
    return None


def _half(step: SidePocket, pattern: Pattern, side: _Side) -> Mouth:
    """Where the mouth lies on a side seam. Raises StepRefused where there is no room for it."""
    piece, edge, waist, downward = side.piece, side.edge, side.waist, side.downward
    accept_no_zip(step.name, pattern, [piece])
    if edge.role is not Role.SEAM:
        plain = f'the side seam of "{piece.name}" is not free'
        raise refused_after(step.name, not_whole(piece, Place.SIDE), plain)
    begins = by_height(pattern, _BELOW_WAIST) if step.below_waist is None else step.below_waist - side.above
    mouth = by_height(pattern, _MOUTH) if step.mouth is None else step.mouth
    hand = by_height(pattern, HAND_WIDE)
    if mouth < hand + BESIDE_HAND - ROUNDED_AWAY:
        reason = f"a mouth of {mouth:.0f} mm takes no hand of {hand:.0f} mm"
        raise StepRefused(step.name, reason=reason, remedies=instead(step.name, "mouth", hand + BESIDE_HAND, "mm"))
    room = side.long - _LEFT
    # above a hem the bag has to find its place too
    at_hem = piece.beside(edge.name)[downward].place in (Place.HEM, Place.LEG_OPENING)
    free = room + _LEFT - LEAST_UNDER_MOUTH if at_hem else room
    if step.below_waist is None:  # higher where the seam is short, as that of a tier or a top is
        begins = max(_LEFT, min(begins, free - mouth))
    if step.mouth is None:
        mouth = max(hand + BESIDE_HAND, min(mouth, free - begins))
    if begins < _LEFT or begins + mouth > room:
        raise StepRefused(
            step.name,
            reason=f'the mouth would lie {begins:.0f} to {begins + mouth:.0f} mm below the waist of "{piece.name}", '
            "and "
            f"its side seam has room from {_LEFT:.0f} to {max(room, 0.0):.0f} mm",
            remedies=[_FEWER_TIERS] if any(("tiers", "2") not in origin.options for origin in _tiered(pattern)) else [],
        )
    low, high = (waist + begins, waist + begins + mouth) if downward else (waist - begins - mouth, waist - begins)
    return Mouth(piece, edge, low, high, downward)


def _tiered(pattern: Pattern) -> Iterator[Origin]:
    return (origin for origin in pattern.origin if origin.block == "tiered skirt")


def _from_waist(piece: Piece) -> _Side | None:
    """The side seam below the waist; None where none goes on there. Below a band or a yoke that was cut off it begins
    there.
    """
    hems = edges_at(piece, Place.HEM, Place.LEG_OPENING, Place.TIER)
    if piece.identity.kind not in (PieceKind.FRONT, PieceKind.BACK) or not hems:
        return None
    if piece.identity.part in (BodyPart.SKIRT, BodyPart.TROUSERS):
        tops = {at for edge in edges_at(piece, Place.WAIST, Place.YOKE) for at in _ends(edge)}
        found = _side_from(piece, tops)
        if found is not None or tops:
            return found
    line = line_at(piece, Level.WAIST)
    if line is None:
        return None
    for side in edges_at(piece, *_SIDES):
        for i, hit in run_hits(side.curves, line.start, line.end - line.start):
            if min(distance(hit.point, line.start), distance(hit.point, line.end)) <= _ON_SEAM:
                long = run_length(stretch(side.curves, 0.0, i + hit.t))
                return _Side(piece, side, long, not any(hem.end == side.start for hem in hems))
    return None


def _side_from(piece: Piece, tops: Collection[Point]) -> _Side | None:
    """The side seam of a piece that begins at one of these places and runs down from there; None for none."""
    for side in edges_at(piece, *_SIDES):
        if side.start in tops:
            return _Side(piece, side, 0.0, downward=True)
        if side.end in tops:
            return _Side(piece, side, side.length, downward=False)
    return None


def _ends(edge: Edge) -> tuple[Point, Point]:
    return edge.start, edge.end


def _with_seam_parted(pattern: Pattern, half: Mouth) -> tuple[Pattern, str]:
    """The pattern with the side seam of a piece parted at both ends of the mouth, which are notched; what the mouth is
    called.
    """
    piece, downward = pattern.piece(half.piece.name), half.downward
    words = ("above the pocket", "at the pocket", "below the pocket")
    parts = divided(piece, half.edge, (half.low, half.high), words, downward=downward)
    above, mouth, below = parts
    marks = (
        end_notch(piece, above, "upper end of the pocket's mouth", NotchMark.POCKET, at_start=not downward),
        end_notch(piece, below, "lower end of the pocket's mouth", NotchMark.POCKET, at_start=downward),
    )
    return with_edge_cut(pattern, piece, parts if downward else parts[::-1], *marks), mouth.edge.name


def _seams(
    step: SidePocket,
    pattern: Pattern,
    halves: Mapping[str, Mouth],
    mouths: Mapping[str, str],
    bags: Mapping[str, Piece],
) -> Iterator[Seam]:
    """The seams of the garment: in the place of each side seam the bags sewn to the mouths, the seam above them, the
    bags round their edge, the seam below them.
    """
    for seam in pattern.seams:
        parts = [_about_mouth(run, mouths) for run in (seam.a, seam.b)]
        if parts == [None, None]:
            yield seam
            continue
        one, other = parts
        if one is None or other is None or not seam.plain:
            raise StepRefused(step.name, reason=f'"{seam.name}" is gathered or eased, so that no pocket can lie in it')
        for _, ref, _ in (one, other):
            bag = bags[ref.piece]
            yield Seam(f"{bag.name} to {ref.piece}", (EdgeRef(bag.name, "mouth", ref.backward),), (ref,))
        runs_down = halves[one[1].piece].downward is not one[1].backward
        first = _seam_at(pattern, seam, one[0], other[0], "above" if runs_down else "below")
        last = _seam_at(pattern, seam, one[2], other[2], "below" if runs_down else "above")
        yield first
        # from where the first part ends, so that both bags are walked from the same end of the mouth
        rounds = [EdgeRef(bags[ref.piece].name, "round", not ref.backward) for _, ref, _ in (one, other)]
        yield Seam(f"pocket round its edge in {seam.name}", (rounds[0],), (rounds[1],))
        yield last


_Run = tuple[EdgeRef, ...]


def _about_mouth(run: _Run, mouths: Mapping[str, str]) -> tuple[_Run, EdgeRef, _Run] | None:
    """A run of edges divided at a mouth: the edges before it, the mouth, those after; None without a mouth."""
    for k, ref in enumerate(run):
        if mouths.get(ref.piece) == ref.edge:
            return run[:k], ref, run[k + 1 :]
    return None


def _seam_at(pattern: Pattern, seam: Seam, a: _Run, b: _Run, where: str) -> Seam:
    """The part of a side seam on one side of a mouth, with the notches that lie on it and those at the mouth's end."""
    on = [{(ref.piece, ref.edge) for ref in run} for run in (a, b)]
    pairs = [
        (one, other)
        for one, other in seam.notches
        if all(notched_edge(pattern, mark) in refs for mark, refs in zip((one, other), on, strict=True))
    ]
    ends = [_mouth_end(pattern, refs) for refs in on]
    if ends[0] and ends[1]:
        pairs.append((ends[0], ends[1]))
    return replace(seam, name=f"{seam.name} {where} the pocket", a=a, b=b, notches=tuple(pairs))


def _mouth_end(pattern: Pattern, refs: Collection[tuple[str, str]]) -> NotchRef | None:
    """The notch at the end of the mouth on one of these edges."""
    for name in {piece for piece, _ in refs}:
        for notch in notches_marking(pattern.piece(name), NotchMark.POCKET):
            if (name, notch.station.edge) in refs:
                return NotchRef(name, notch.name)
    return None
