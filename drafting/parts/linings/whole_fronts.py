"""Fronts as they were before slanted pockets were cut into them: a lining has none."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from drafting.pattern import EdgeRef, NotchRef, Pattern, Piece, PieceKind, Place, closed, edges_at, free_name
from drafting.pattern.pockets import edge_past_pocket

__all__ = ["with_whole_fronts"]

_BAG = (Place.POCKET_MOUTH, Place.POCKET_TOP, Place.POCKET_EDGE)


def with_whole_fronts(pattern: Pattern) -> Pattern:
    """The pattern with the hip piece of every slanted pocket a part of its front again, and without the bags."""
    cut = [p for p in pattern.pieces if p.identity.kind is PieceKind.FRONT and edges_at(p, Place.POCKET_MOUTH)]
    if not cut:
        return pattern
    whole: dict[str, Piece] = {}
    moved: dict[tuple[str, str], EdgeRef] = {}
    for front in cut:
        (mouth,) = edges_at(front, Place.POCKET_MOUTH)
        past = edge_past_pocket(pattern, front, mouth, onward=True)
        assert past is not None  # a mouth has its hip piece
        whole[front.name] = _whole(front, past[0], moved)
    gone = {name for name, _ in moved} | {p.name for p in pattern.pieces if p.identity.kind is PieceKind.POCKET}

    def run(refs: tuple[EdgeRef, ...]) -> tuple[EdgeRef, ...]:
        return tuple(replace(moved.get((r.piece, r.edge), r), backward=r.backward) for r in refs)

    homes = {piece: ref.piece for (piece, _), ref in moved.items()}
    seams = tuple(
        replace(
            seam,
            a=run(seam.a),
            b=run(seam.b),
            notches=tuple((_marked(homes, one), _marked(homes, other)) for one, other in seam.notches),
        )
        for seam in pattern.seams
        if not any(_of_pocket(pattern, ref) for ref in (*seam.a, *seam.b))
    )
    pieces = tuple(whole.get(piece.name, piece) for piece in pattern.pieces if piece.name not in gone)
    return replace(pattern, pieces=pieces, seams=seams, measures=())


def _of_pocket(pattern: Pattern, ref: EdgeRef) -> bool:
    return pattern.piece(ref.piece).edge(ref.edge).place in _BAG


def _marked(homes: Mapping[str, str], mark: NotchRef) -> NotchRef:
    return replace(mark, piece=homes.get(mark.piece, mark.piece))


def _whole(front: Piece, hip: Piece, moved: dict[tuple[str, str], EdgeRef]) -> Piece:
    """The front with the corner that its hip piece has; where the edges of that are now is written into `moved`."""
    names = {edge.name for edge in front.edges}
    order = [edge for edge in hip.edges if edge.place not in _BAG]
    back = []
    for edge in order:
        name = free_name(f"{edge.name} at the pocket", names)
        names.add(name)
        moved[hip.name, edge.name] = EdgeRef(front.name, name)
        back.append(replace(edge, name=name))
    if back[0].end != back[1].start:
        back.reverse()
    edges = [each for edge in front.edges for each in (back if edge.place is Place.POCKET_MOUTH else [edge])]
    notches = tuple(
        replace(notch, station=replace(notch.station, edge=moved[hip.name, notch.station.edge].edge))
        for notch in hip.notches
        if (hip.name, notch.station.edge) in moved
    )
    kept = {edge.name for edge in edges}
    return replace(
        front,
        edges=closed(front.name, tuple(edges)),
        notches=(*front.notches, *notches),
        lines=(*front.lines, *(replace(line, name=free_name(line.name, names)) for line in hip.lines)),
        points_meant=tuple(pair for pair in front.points_meant if set(pair) <= kept),
    )
