"""Splitting and joining the edges of a piece, with all that refers to them kept right: seams, measurements, notches.

A dart that is let into an edge splits it in two, and a dart that is taken out joins the two again. Whoever does that
says which stretches of the old edges each new edge is made of; everything else follows from that.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Curve, Move, at_length, length, moved_all, split
from drafting.geometry.outline import starting_at
from drafting.geometry.tolerance import MEASURED, SAME_PLACE
from drafting.pattern import (
    Along,
    Edge,
    EdgeRef,
    Measure,
    Notch,
    Pattern,
    Piece,
    Place,
    Role,
    Seam,
    Station,
    Tape,
    closed,
    free_name,
    from_start,
    relaid,
    with_pieces,
)

__all__ = [
    "EdgePart",
    "Fragment",
    "Made",
    "begun_at",
    "cut",
    "cut_at",
    "cut_part",
    "edges_of_same_cloth",
    "joined",
    "joined_name",
    "made_of",
    "new_dart_name",
    "notches_on",
    "part_name",
    "renamed_notches",
    "renamed_points",
    "short_name",
    "whole_edge",
    "with_edge_cut",
    "with_edges_split",
    "word_beside",
]

_SHORT: Final = {
    Place.SIDE: "side",
    Place.UNDERARM: "underarm",
    Place.CENTRE_FRONT: "centre",
    Place.CENTRE_BACK: "centre",
}
"""What the neighbours of an edge are called after it, where that is not the word for its place."""


@dataclass(frozen=True, slots=True)
class Fragment:
    """A stretch of an edge as it was: from `low` to `high` mm from its start."""

    edge: str
    low: float
    high: float

    @property
    def long(self) -> float:
        """Its length, mm."""
        return self.high - self.low


Made = Mapping[str, tuple[Fragment, ...]]
"""The stretches of the old edges that each new edge is made of, in outline order."""


@dataclass(frozen=True, slots=True)
class EdgePart:
    """A stretch of the outline that becomes one edge, with the stretches of the old edges it is made of."""

    edge: Edge
    of: tuple[Fragment, ...]

    def moved(self, move: Move) -> EdgePart:
        """The same part, moved."""
        return self.redrawn(moved_all(self.edge.curves, move))

    def redrawn(self, curves: Sequence[Curve]) -> EdgePart:
        """The same part along other curves."""
        return EdgePart(replace(self.edge, curves=tuple(curves)), self.of)

    def named(self, name: str) -> EdgePart:
        """The same part under another name."""
        return EdgePart(replace(self.edge, name=name), self.of)

    def with_role(self, role: Role) -> EdgePart:
        """The same part as a fold, which has no allowance, an opening or a seam."""
        allowance = 0.0 if role is Role.FOLD else self.edge.allowance
        return EdgePart(replace(self.edge, role=role, allowance=allowance), self.of)


def whole_edge(edge: Edge) -> EdgePart:
    """An edge as a part by itself."""
    return EdgePart(edge, (Fragment(edge.name, 0.0, edge.length),))


def cut(edge: Edge, at: float, *, near: float = 1e-5) -> tuple[EdgePart | None, EdgePart | None]:
    """An edge cut so many mm from its start: the part before and the part after; None for a part without length.

    A place within `near` mm of a joint of the edge is the joint (ten times what a place on a curve is found to).
    """
    return cut_part(whole_edge(edge), at, near=near)


def cut_part(part: EdgePart, at: float, *, near: float = 1e-5) -> tuple[EdgePart | None, EdgePart | None]:
    """A part of the outline that is to be one edge, cut so many mm from its start: before and after, as by `cut`."""
    gone, curves = 0.0, part.edge.curves
    for k, curve in enumerate(curves):
        long = length(curve, MEASURED)
        if at <= gone + near:
            return _both_parts(part, gone, curves[:k], curves[k:])
        if at < gone + long - near:
            one, other = split(curve, at_length(curve, at - gone))
            return _both_parts(part, at, (*curves[:k], one), (other, *curves[k + 1 :]))
        gone += long
    return part, None


def cut_at(edge: Edge, *places: float) -> tuple[EdgePart, ...]:
    """The parts of an edge before, between and after these places, mm from its start, in its direction.

    Raises NotAPattern where one of them has no length.
    """
    parts, gone = [whole_edge(edge)], 0.0
    for place in places:
        one, other = cut_part(parts[-1], place - gone)
        if one is None or other is None:
            raise NotAPattern(edge.name, reason=f"nothing of it would be left beside the place {place:.1f} mm along it")
        parts[-1:], gone = [one, other], place
    return tuple(parts)


def joined(one: EdgePart, other: EdgePart, name: str) -> EdgePart:
    """Two parts that meet up to rounding, as one edge."""
    head = starting_at(other.edge.curves[0], one.edge.end)
    curves = (*one.edge.curves, head, *other.edge.curves[1:])
    return EdgePart(replace(one.edge, name=name, curves=curves), (*one.of, *other.of))


def made_of(parts: Iterable[EdgePart]) -> dict[str, tuple[Fragment, ...]]:
    """Of which stretches of the old edges each new edge is made; the legs of darts are new."""
    return {part.edge.name: part.of for part in parts if part.edge.role is not Role.DART_LEG}


def part_name(edge: Edge, beside: str, taken: Collection[str]) -> str:
    """What a part of an edge is called: "side seam at armhole", after what lies at its other end; a free name."""
    return free_name(f"{_whole_name(edge)} at {beside}", taken)


def joined_name(one: Edge, other: Edge, rest: Sequence[Edge]) -> str | None:
    """The name of the edge that two parts of one edge make when they are joined; None for parts of different edges.

    rest: the rest of the outline, in its order from the second of the two on
    One that is whole then is called after its place. While there are more parts of it, it keeps the name of the part
    that does not end at another dart.
    """
    if one.place is None or not _same_stretch(one, other):
        return None
    if any(_same_stretch(one, edge) for edge in rest):
        return other.name if rest[-1].role is Role.DART_LEG else one.name
    return free_name(str(one.place), {edge.name for edge in rest})


def word_beside(piece: Piece, edge: Edge) -> str:
    """What is said to lie beside a part of an edge: for the leg of a dart the dart, else the short name."""
    return next((dart.name for dart in piece.darts if edge.name in dart.legs), "") or short_name(edge)


def short_name(edge: Edge) -> str:
    """What the parts beside an edge are called after it: "waist", "side"; its own name where it is new to the block."""
    return edge.name if edge.place in (None, Place.PRINCESS) else _SHORT.get(edge.place, str(edge.place))


def _whole_name(edge: Edge) -> str:
    return edge.name if edge.place is None or edge.drawn_up else str(edge.place)


def _same_stretch(one: Edge, other: Edge) -> bool:
    return all(getattr(one, what) == getattr(other, what) for what in ("place", "half", "role", "drawn_up"))


def edges_of_same_cloth(made: Made) -> Iterator[frozenset[str]]:
    """The edges before and after that are of the same cloth, as sets of names."""
    groups: list[set[str]] = []
    for name, parts in made.items():
        group = {name, *(part.edge for part in parts)}
        for other in [each for each in groups if each & group]:
            groups.remove(other)
            group |= other
        groups.append(group)
    return iter([frozenset(group) for group in groups])


def with_edges_split(pattern: Pattern, before: Piece, after: Piece, made: Made) -> Pattern:
    """The pattern with this piece, whose edges were split or joined, in the place of the old piece.

    Its seams and its measurements run over the same cloth as before. Raises NotAPattern where two edges were joined
    that are not sewn one after the other to the same partner.
    """
    pieces = with_pieces(replace(pattern, seams=(), measures=()), after).pieces
    atoms = {(fragment.edge, fragment.low): name for name, parts in made.items() for fragment in parts}
    seams = tuple(_seam(seam, before.name, made, atoms) for seam in pattern.seams)

    def over_new_edges(_: Measure, part: Tape) -> Sequence[Tape]:
        if not isinstance(part, Along):
            return (part,)
        names = [name for name, parts in made.items() if any(each.edge == part.edge for each in parts)]
        return [replace(part, edge=name) for name in names]

    measures = relaid(pattern.measures, before.name, over_new_edges)
    return replace(pattern, pieces=pieces, seams=seams, measures=measures)


def with_edge_cut(
    pattern: Pattern, piece: Piece, parts: Sequence[EdgePart], *notches: Notch, corners: Iterable[tuple[str, str]] = ()
) -> Pattern:
    """The pattern with one edge of a piece in these parts, in outline order; all that lies along it follows the cloth.

    notches, corners: what the piece gets besides: notches, and corners that are meant
    """
    old = parts[0].of[0].edge
    whole = [each for edge in piece.edges for each in (parts if edge.name == old else (whole_edge(edge),))]
    edges, made = [part.edge for part in whole], made_of(whole)
    after = replace(
        piece,
        edges=closed(piece.name, tuple(edges)),
        notches=(*renamed_notches(piece, made), *notches),
        points_meant=(*renamed_points(piece, edges, made), *corners),
    )
    return with_edges_split(pattern, piece, after, made)


def renamed_notches(before: Piece, made: Made) -> tuple[Notch, ...]:
    """The notches of a piece at the same places of the same cloth, counted from the ends they were counted from."""
    return tuple(_notch(before, notch, made) or notch for notch in before.notches)


def notches_on(before: Piece, made: Made) -> tuple[Notch, ...]:
    """The notches of a piece that lie on these new edges of it, at the same places of the same cloth."""
    found = (_notch(before, notch, made) for notch in before.notches)
    return tuple(notch for notch in found if notch is not None)


def renamed_points(before: Piece, edges: Sequence[Edge], made: Made) -> tuple[tuple[str, str], ...]:
    """The corners at which a piece says that a point is meant, by what the edges beside them are called now."""
    meant = {frozenset(pair) for pair in before.points_meant}
    if not meant:
        return ()
    return tuple(
        (one.name, other.name)
        for one, other in pairwise((*edges, edges[0]))
        if any(frozenset((a.edge, b.edge)) in meant for a in made.get(one.name, ()) for b in made.get(other.name, ()))
    )


def _both_parts(
    part: EdgePart, at: float, one: Sequence[Curve], other: Sequence[Curve]
) -> tuple[EdgePart | None, EdgePart | None]:
    before, after = list[Fragment](), list[Fragment]()
    for each in part.of:
        middle = min(max(each.low, each.low + at), each.high)
        at -= each.long
        before += [replace(each, high=middle)] if middle > each.low else []
        after += [replace(each, low=middle)] if middle < each.high else []
    return (
        EdgePart(replace(part.edge, curves=tuple(one)), tuple(before)) if one else None,
        EdgePart(replace(part.edge, curves=tuple(other)), tuple(after)) if other else None,
    )


def _seam(seam: Seam, piece: str, made: Made, atoms: Mapping[tuple[str, float], str]) -> Seam:
    if not any(ref.piece == piece for ref in (*seam.a, *seam.b)):
        return seam
    sides = [_run(seam.name, run, piece, made, atoms) for run in (seam.a, seam.b)]
    return replace(seam, a=sides[0], b=sides[1])


def _run(
    seam: str, run: Sequence[EdgeRef], piece: str, made: Made, atoms: Mapping[tuple[str, float], str]
) -> tuple[EdgeRef, ...]:
    """One side of a seam after a piece was cut: its edges in order, each new edge once.

    Raises NotAPattern for a new edge that only a part of would be sewn.
    """
    found: list[EdgeRef] = []
    met: dict[str, list[tuple[str, float]]] = {}
    for ref in run:
        if ref.piece != piece:
            found.append(ref)
            continue
        parts = sorted(key for key in atoms if key[0] == ref.edge)
        for key in reversed(parts) if ref.backward else parts:
            name = atoms[key]
            if name not in met:
                found.append(EdgeRef(piece, name, ref.backward))
            met.setdefault(name, []).append(key)
    for name, keys in met.items():
        if len(keys) != len(made[name]):
            raise NotAPattern(piece, reason=f'"{name}" would be sewn only in part in the seam "{seam}"')
    return tuple(found)


def _notch(before: Piece, notch: Notch, made: Made) -> Notch | None:
    station = notch.station
    at = from_start(before.edge(station.edge), station)
    for name, offset, fragment, rest in _laid_out(made):
        if fragment.edge == station.edge and fragment.low - SAME_PLACE <= at <= fragment.high + SAME_PLACE:
            if station.end == "start":
                along = offset + station.at - fragment.low
            else:
                along = rest + station.at - (before.edge(station.edge).length - fragment.high)
            return replace(notch, station=Station(name, along, station.end))
    return None


def _laid_out(made: Made) -> Iterator[tuple[str, float, Fragment, float]]:
    """Every fragment, with the new edge it lies on and the length before and after it there, mm."""
    for name, parts in made.items():
        total, gone = sum(part.long for part in parts), 0.0
        for part in parts:
            yield name, gone, part, total - gone - part.long
            gone += part.long


def begun_at(first: str, edges: Sequence[Edge], made: Made) -> tuple[Edge, ...]:
    """The closed outline begun where it began before."""
    begins = {name for name, parts in made.items() if any(part.edge == first and part.low == 0.0 for part in parts)}
    k = next((k for k, edge in enumerate(edges) if edge.name in begins or edge.name == first), 0)
    return (*edges[k:], *edges[:k])


def new_dart_name(piece: Piece, edge: Edge) -> str:
    """A name for a dart at a new place: "side dart" in the side seam."""
    return free_name(f"{short_name(edge)} dart", {dart.name for dart in piece.darts})
