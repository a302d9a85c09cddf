"""What a drafted bodice hands on: its armhole to the sleeve, its waist to the skirt."""

from __future__ import annotations

from blocks.handover import Armhole, WaistHalf
from drafting.pattern import (
    EdgeRef,
    NotchMark,
    Piece,
    PieceKind,
    Place,
    edges_at,
    from_start,
    notches_marking,
    require_edge,
)

__all__ = ["armhole_of", "waist_half_of"]


def armhole_of(front: Piece, back: Piece) -> Armhole:
    """The armhole that both pieces make, from the underarm to the shoulder; each has it as one edge."""
    front_edge, back_edge = (require_edge(piece, Place.ARMHOLE) for piece in (front, back))
    front_at, back_at = (
        from_start(piece.edge(notch.station.edge), notch.station)
        for piece in (front, back)
        for notch in notches_marking(piece, NotchMark.BALANCE)
    )
    return Armhole(
        front=front_edge.length,
        back=back_edge.length,
        front_notch=front_edge.length - front_at,
        back_notch=back_at,
        front_run=(EdgeRef(front.name, front_edge.name, backward=True),),
        back_run=(EdgeRef(back.name, back_edge.name),),
    )


def waist_half_of(piece: Piece) -> WaistHalf:
    """The waist of one piece from the centre to the side, darts closed."""
    backward = piece.identity.kind is PieceKind.FRONT  # the front runs from the side seam to the centre
    names = [edge.name for edge in edges_at(piece, Place.WAIST)]
    run = tuple(EdgeRef(piece.name, name, backward) for name in (reversed(names) if backward else names))
    lengths = [piece.edge(ref.edge).length for ref in run]
    darts = tuple(sum(lengths[: i + 1]) for i in range(len(lengths) - 1))
    last = piece.edge(run[-1].edge)
    at = from_start(last, notches_marking(piece, NotchMark.WAIST)[0].station)
    notch = sum(lengths[:-1]) + (last.length - at if backward else at)
    return WaistHalf(sum(lengths), darts, notch, run)
