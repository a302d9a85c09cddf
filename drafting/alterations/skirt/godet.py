r"""A godet: a part of a circle set into the lower end of a seam of a skirt, or into a slit, so that its hem swings out.

point       Its two straight edges are as long as the seam is left open, so that they are the radius of the
/\\         circle, and its hem is an arc of it: of an opening of 25 cm and a quarter of a circle, 39.27 cm
/  \\        (plane geometry). The grain runs down its middle. The seam above ends at the point, which is
/    \\       notched; both edges of a godet lie across the grain: it is hung before it is hemmed (common
/______\\      practice).
hem
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, places_kept, total_changes, whole_pieces_kept
from drafting.alterations.skirt.godet_slit import ALLOWANCE, room_above, with_slit
from drafting.alterations.skirt.quarters_to_change import accept_unpleated
from drafting.alterations.techniques.cutting.divide_edge import divided, end_notch, notched_edge, without_notches_along
from drafting.alterations.techniques.cutting.split_edges import with_edge_cut
from drafting.dataclass import dataclass
from drafting.errors import StepRefused, UnknownName
from drafting.geometry import Line, Point, arc, length
from drafting.pattern import (
    CENTRES,
    BodyPart,
    Cut,
    Edge,
    EdgeRef,
    Grain,
    Identity,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    closed,
    edges_at,
    free_piece_name,
    with_edges,
    with_pieces,
)

__all__ = ["Godet", "godet_hem"]

_PLACES: Final = (Place.SIDE, Place.GORE, *CENTRES)
_SLITS: Final = "slits"
_LEFT: Final = 20.0  # mm of seam left above a godet (ours)
_ROUND: Final = math.pi  # radians: more of a circle would not lie beside the skirt
_LIES: Final = 0.0149  # of the radius of a hem: so deep it can be turned up and lies flat (ours, as it is checked)
_NARROW: Final = 10.0  # mm: a hem turned twice by 5 mm, which is eased in on the curve of a godet (common practice)
_LIES_NARROW: Final = 0.1  # of the radius: so deep such a hem lies (ours, as it is checked)
_POINT: Final = "godet point"
_LEFT_EDGE, _RIGHT_EDGE = "left edge", "right edge"


def godet_hem(long: float, angle: float) -> float:
    """How wide the hem of a godet is, mm: of a part of a circle of that radius, mm, and that angle, radians."""
    return long * angle


@dataclass(frozen=True, slots=True)
class _Slit:
    """One edge that is left open above the hem; downward: whether the outline runs down it."""

    piece: Piece
    edge: Edge
    hem: Edge
    downward: bool


@alteration_class
class Godet(Alteration):
    """Set a godet into the lower end of the seams at a place of a skirt, or into a slit in each of its pieces."""

    name = "godet"
    layer = Layer.OPENINGS
    about = "Set parts of a circle into the lower ends of seams of a skirt, or into slits, so that its hem swings out."
    leaves = "the finished widths; every seam above the godets; the length of every edge"
    carries = (
        "both pieces of each seam: a godet between them, its edges as long as theirs, a notch at its point; the hem "
        "all round, as narrow as lies flat on the arc"
    )

    at: str = option(
        "choice",
        "in which seams; or slits, where there is none",
        choices=(*map(str, _PLACES), _SLITS),
        default=str(Place.SIDE),
    )
    long: float = option("length", "how far from the hem up its point lies", 80.0, 900.0, default=250.0, or_less=True)
    hem: float = option("length", "how much wider each makes the hem", 50.0, 1500.0, default=200.0, or_less=True)
    across: float = option(
        "number",
        "where a slit lies: the share of the hem of its piece from the centre to there",
        0.1,
        0.9,
        default=0.5,
        goes_with=("at", (_SLITS,)),
    )
    piece: str = option("text", "which piece is slit; left out, all", default="", goes_with=("at", (_SLITS,)))

    def apply(self, pattern: Pattern) -> Pattern:
        if self.at == _SLITS:
            for piece, hem in _to_slit(self, pattern):
                pattern = _set_in_slit(self, pattern, piece, hem)
            return self._narrowly_hemmed(pattern)
        joined, alone = _slits(self, pattern)
        for seam, slits in joined:
            pattern = _set_in(self, pattern, seam.name, slits)
        for slit in alone:
            pattern = _set_in_centre(self, pattern, slit)
        return self._narrowly_hemmed(pattern)

    @property
    def deepest_hem(self) -> float:
        return math.floor(max(_LIES * self.long, min(_NARROW, _LIES_NARROW * self.long)))

    def _narrowly_hemmed(self, pattern: Pattern) -> Pattern:
        return _narrowly_hemmed(pattern, self.deepest_hem)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        if self.at == _SLITS:
            whole = _to_slit(self, pattern)
            yield from whole_pieces_kept(pattern, {piece.name for piece, _ in whole})
            yield from finished_kept(pattern)
            for piece, hem in whole:
                yield from places_kept(piece, (edge.name for edge in piece.edges if edge.name != hem.name))
            yield Promise("the whole hem", _whole_hem, self.hem * sum(_times(piece) for piece, _ in whole))
            return
        joined, alone = _slits(self, pattern)
        slits = [slit for _, each in joined for slit in each] + list(alone)
        yield from whole_pieces_kept(pattern, {slit.piece.name for slit in slits})
        yield from finished_kept(pattern)
        for slit in slits:
            others = [edge.name for edge in slit.piece.edges if edge.name != slit.edge.name]
            yield total_changes(f"the other edges of {slit.piece.name}", slit.piece, others)
        yield Promise("the whole hem", _whole_hem, self.hem * (2.0 * len(joined) + len(alone)))


def _narrowly_hemmed(pattern: Pattern, deep: float) -> Pattern:
    """The pattern with no hem of the skirt deeper than that, mm: one that bends as a godet's lies no deeper."""
    narrow = []
    for piece in filter(_is_of_skirt, pattern.pieces):
        hems = [edge for edge in edges_at(piece, Place.HEM) if edge.role is Role.HEM and edge.allowance > deep]
        narrow.append(with_edges(piece, *(edge.with_allowance(deep) for edge in hems)) if hems else piece)
    return with_pieces(pattern, *narrow)


def _is_of_skirt(piece: Piece) -> bool:
    return piece.identity.part is BodyPart.SKIRT and piece.identity.kind in _KINDS


def _whole_hem(pattern: Pattern) -> float:
    """All round the hem of the skirt, mm."""
    skirt = filter(_is_of_skirt, pattern.pieces)
    return sum(_times(piece) * edge.length_within(1e-9) for piece in skirt for edge in edges_at(piece, Place.HEM))


_KINDS: Final = (PieceKind.FRONT, PieceKind.BACK, PieceKind.PANEL)


def _times(piece: Piece) -> int:
    return 2 if piece.cut.fold else piece.cut.count


def _slits(step: Godet, pattern: Pattern) -> tuple[list[tuple[Seam, tuple[_Slit, _Slit]]], list[_Slit]]:
    """The seams that end at the hem there, with their two edges; and the edges sewn to their own mirror image."""
    angle = step.hem / step.long
    if angle > _ROUND:
        most = f"a godet {step.long:.0f} mm long widens the hem by at most {godet_hem(step.long, _ROUND):.0f} mm"
        raise StepRefused(step.name, reason=most, too_much=("hem",))
    joined = []
    for seam in pattern.seams:
        one, other = (_at_hem(step, pattern, run) for run in (seam.a, seam.b))
        if one is not None and other is not None and seam.plain and one.downward is not other.downward:
            joined.append((seam, (one, other)))
    sewn = {(ref.piece, ref.edge) for seam in pattern.seams for ref in (*seam.a, *seam.b)}
    alone = [
        slit
        for piece in pattern.pieces
        for edge in edges_at(piece, *CENTRES)
        if piece.cut.mirror and (piece.name, edge.name) not in sewn
        if (slit := _slit(step, pattern, EdgeRef(piece.name, edge.name))) is not None
    ]
    if not joined and not alone:
        skirted = any(map(_is_of_skirt, pattern.pieces))
        none = f"no {step.at} of a skirt runs down to its hem, to set a godet into"
        raise StepRefused(step.name, reason=none if skirted else "a godet is set into a skirt, and there is none here")
    return joined, alone


def _at_hem(step: Godet, pattern: Pattern, run: Sequence[EdgeRef]) -> _Slit | None:
    """The edge of a run of a seam that can be left open; None where none is."""
    return next((slit for ref in run if (slit := _slit(step, pattern, ref)) is not None), None)


def _slit(step: Godet, pattern: Pattern, ref: EdgeRef) -> _Slit | None:
    """The edge where it is a seam at the place asked for that ends at the hem of a skirt; else None."""
    piece = pattern.piece(ref.piece)
    edge = piece.edge(ref.edge)
    if piece.identity.part is not BodyPart.SKIRT or edge.place != step.at or edge.role is not Role.SEAM:
        return None
    before, after = piece.beside(edge.name)
    hems = [each for each in (after, before) if each.place is Place.HEM]
    if not hems:
        return None
    if step.long > edge.length - _LEFT:
        room = f'the {step.at} of "{piece.name}" has room for a godet {max(0.0, edge.length - _LEFT):.0f} mm long'
        raise StepRefused(step.name, reason=room, too_much=("long",))
    return _Slit(piece, edge, hems[0], hems[0] is after)


def _with_edge_opened(pattern: Pattern, slit: _Slit, long: float) -> tuple[Pattern, str, str]:
    """The pattern with the edge parted so far above the hem and notched there; what its lower part and its notch are
    called.
    """
    piece, downward = pattern.piece(slit.piece.name), slit.downward
    edge = piece.edge(slit.edge.name)
    at = edge.length_within(1e-9) - long if downward else long
    parts = divided(piece, edge, (at,), ("above the godet", "at the godet"), downward=downward)
    point = end_notch(piece, parts[0], _POINT, NotchMark.BALANCE, at_start=not downward)
    along = parts if downward else parts[::-1]
    corner = (along[0].edge.name, along[1].edge.name)  # no line runs on over a seam where a godet begins
    return with_edge_cut(pattern, piece, along, point, corners=[corner]), parts[1].edge.name, point.name


def _set_in(step: Godet, pattern: Pattern, seam: str, slits: tuple[_Slit, _Slit]) -> Pattern:
    """The pattern with a godet between two edges of a seam."""
    lower, marks = [], []
    for slit in slits:
        pattern, below, mark = _with_edge_opened(pattern, slit, step.long)
        lower.append((slit.piece.name, below))
        marks.append(NotchRef(slit.piece.name, mark))
    name = free_piece_name(pattern, f"{seam.removesuffix(' seam')} godet".replace("skirt skirt", "skirt"))
    godet = _godet_piece(name, step, slits[0], step.hem)
    sewn = []
    for each in pattern.seams:
        if each.name != seam:
            sewn.append(each)
            continue
        a, b = (tuple(ref for ref in run if (ref.piece, ref.edge) not in lower) for run in (each.a, each.b))
        kept = tuple(pair for pair in each.notches if all(notched_edge(pattern, mark) not in lower for mark in pair))
        sewn.append(replace(each, a=a, b=b, notches=(*kept, (marks[0], marks[1]))))
    sewn += [_godet_seam(name, slit, below) for slit, (_, below) in zip(slits, lower, strict=True)]
    return replace(pattern, pieces=(*without_notches_along(pattern, lower), godet), seams=tuple(sewn))


def _godet_seam(godet: str, slit: _Slit, below: str) -> Seam:
    """The seam between a godet and the edge that was left open for it, both from the point to the hem."""
    edge = _RIGHT_EDGE if slit.downward else _LEFT_EDGE
    own = EdgeRef(slit.piece.name, below, not slit.downward)
    return Seam(f"{godet} to {slit.piece.name}", (own,), (EdgeRef(godet, edge, slit.downward),))


def _set_in_centre(step: Godet, pattern: Pattern, slit: _Slit) -> Pattern:
    """The pattern with half a godet, cut on the fold, at an edge that is sewn to its own mirror image."""
    pattern, below, _ = _with_edge_opened(pattern, slit, step.long)
    piece = slit.piece.name
    name = free_piece_name(pattern, f"{piece.split(',')[0]} {step.at} godet")
    godet = _godet_piece(name, step, slit, step.hem, half=True)
    pieces = (*without_notches_along(pattern, [(piece, below)]), godet)
    return replace(pattern, pieces=pieces, seams=(*pattern.seams, _godet_seam(name, slit, below)))


def _to_slit(step: Godet, pattern: Pattern) -> list[tuple[Piece, Edge]]:
    """The pieces of a skirt that get a slit, each with its hem. Raises StepRefused where there is none, or no room."""
    found = [
        (piece, hems[0])
        for piece in pattern.pieces
        if _is_of_skirt(piece) and len(hems := edges_at(piece, Place.HEM)) == 1 and not edges_at(piece, Place.GODET)
    ]
    if not found:
        raise StepRefused(step.name, reason="no piece of a skirt has one hem, to set a godet into")
    taken = [(piece, hem) for piece, hem in found if step.piece in ("", piece.name)]
    if not taken:
        raise StepRefused(
            step.name, reason=str(UnknownName("piece of a skirt", step.piece, [p.name for p, _ in found]))
        )
    accept_unpleated(step.name, (piece for piece, _ in taken))
    for piece, hem in taken:
        room = room_above(piece, hem, step.across) - _LEFT
        if step.long > room:
            reason = f'"{piece.name}" has room for a slit {max(0.0, room):.0f} mm long there'
            raise StepRefused(step.name, reason=reason, too_much=("long",))
    return taken


def _set_in_slit(step: Godet, pattern: Pattern, piece: Piece, hem: Edge) -> Pattern:
    """The pattern with a slit in a piece and a godet in it."""
    pattern, one, other = with_slit(pattern, piece, hem, step.across, step.long)
    name = free_piece_name(pattern, f"{piece.name} godet")
    wide = step.hem + 2.0 * ALLOWANCE
    cut = Cut(2, mirror=True) if piece.cut.fold or piece.cut.mirror else Cut(piece.cut.count)
    godet = replace(
        _godet_piece(name, step, _Slit(piece, pattern.piece(piece.name).edge(one), hem, True), wide), cut=cut
    )
    seams = (
        Seam(f"{name} to {piece.name}, {word}", (EdgeRef(piece.name, mine, back),), (EdgeRef(name, its, not back),))
        for word, mine, its, back in (("one side", one, _LEFT_EDGE, True), ("other side", other, _RIGHT_EDGE, False))
    )
    return replace(pattern, pieces=(*pattern.pieces, godet), seams=(*pattern.seams, *seams))


def _angle(long: float, hem: float) -> float:
    """The angle of an arc of that radius as it is drawn that is as long as the hem, mm; radians."""
    angle = hem / long
    for _ in range(3):  # an arc that is drawn is longer than a true one by some ten millionths
        half = arc(Point(0.0, 0.0), long, 0.0, 0.5 * angle)
        angle *= 0.5 * hem / sum(length(curve, 1e-9) for curve in half)
    return angle


def _godet_piece(name: str, step: Godet, slit: _Slit, wide: float, *, half: bool = False) -> Piece:
    """The godet, its hem so wide, mm, its point at the origin and its middle upright; half: on the fold, beside the
    edge of the slit.
    """
    angle = _angle(step.long, wide)
    start, end = -0.5 * (math.pi + angle), -0.5 * (math.pi - angle)
    fold_left = slit.downward
    if half:
        start, end = (-0.5 * math.pi, end) if fold_left else (start, -0.5 * math.pi)
    # from the middle out, so that half a godet is half of a whole one
    turns = [(start, end)] if half else [(start, -0.5 * math.pi), (-0.5 * math.pi, end)]
    hem = tuple(curve for a, b in turns for curve in arc(Point(0.0, 0.0), step.long, a, b - a))
    point = Point(0.0, 0.0)
    seam, fold = slit.edge.allowance, (Role.FOLD, 0.0, slit.edge.place)
    sides: Sequence[tuple[Role, float, Place | None]] = [(Role.SEAM, seam, Place.GODET)] * 2
    if half:
        sides = (fold, sides[1]) if fold_left else (sides[0], fold)
    names = ("fold" if half and fold_left else _LEFT_EDGE, "fold" if half and not fold_left else _RIGHT_EDGE)
    edges = (
        Edge(names[0], (Line(point, hem[0].start),), *sides[0]),
        Edge("hem", hem, slit.hem.role, slit.hem.allowance, Place.HEM),
        Edge(names[1], (Line(hem[-1].end, point),), *sides[1]),
    )
    aside = 0.0 if not half else 0.06 * step.hem * (1.0 if fold_left else -1.0)
    grain = Grain(Point(aside, -0.85 * step.long), Point(aside, -0.45 * step.long))
    return Piece(
        name,
        closed(name, edges),
        Cut(1, fold=True) if half else Cut(2, mirror=True),
        grain,
        points_meant=((names[1], names[0]),),
        identity=Identity(PieceKind.PANEL, BodyPart.SKIRT),
    )
