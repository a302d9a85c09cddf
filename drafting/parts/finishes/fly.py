r"""The fly of trousers: a facing behind the right front, and a shield that covers the zip behind the left.

waist                    The facing is traced from the front along its centre, wider than the line of stitching by a
+------+  facing         finger, and ends a little below the opening; it is cut once, interfaced. The shield is cut once
|    : |                 and folded lengthwise; it hangs a little lower too. Right laps over left (common practice for
|    : |  : line of      women; all widths are common practice).
|   .' /    stitching
|_.' .'                  Over a shaped band, whose inner layer finishes it, the facing begins below the band, and the
+--'                     shield goes up to the waist.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import (
    Line,
    Point,
    run_length,
)
from drafting.parts.drawn import Drawn
from drafting.parts.finishes.fly_facing import (
    BELOW_OPENING,
    BEYOND_STITCHING,
    CENTRE,
    END,
    FLY,
    GRAIN_SHARE,
    Opened,
    all_corners,
    downward,
    fly_facing,
    stitched_on_pieces,
)
from drafting.parts.part import Part
from drafting.parts.what_helps import in_block
from drafting.pattern import (
    BodyPart,
    BodySide,
    Cut,
    Derived,
    DrawnTo,
    Edge,
    EdgeRef,
    Grain,
    Identity,
    Level,
    MarkLine,
    Notch,
    NotchMark,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    Site,
    Station,
    edges_at,
    free_piece_name,
    pieces_drawn_to,
    pieces_of,
    seam_allowance,
)
from drafting.pattern.unfinished import has_inner_layer
from drafting.reading.options import Option

__all__ = ["FLY_PART", "shield_width"]


_FASTENED: Final = in_block("fastening", FLY, "Close the trousers with a fly")


def shield_width(fly: Derived) -> float:
    """How wide the shield of a fly is when it is folded, mm: as wide as its facing."""
    return fly.length("stitching") + BEYOND_STITCHING


def _draw(pattern: Pattern, derived: Derived) -> Drawn:
    """Facing, shield, and the line of stitching on the front. Raises NotAPattern where no opening is in front."""
    opened = _opening(pattern, derived)
    faced = [each for each in opened if not has_inner_layer(each[0])]
    if not faced:
        if not pieces_of(pattern, part=BodyPart.TROUSERS):
            raise NotAPattern(FLY, reason="there are no trousers to close with it")
        raise NotAPattern(FLY, reason="the trousers do not open at the centre front", remedies=(_FASTENED,))
    facing, line = fly_facing(pattern, faced, derived.length("stitching"))
    lines = tuple(stitched_on_pieces(faced, line))
    shield = _shield(pattern, opened, shield_width(derived))
    down = tuple(ref for _, _, ref in opened)
    up = tuple(EdgeRef(ref.piece, ref.edge, not ref.backward) for ref in reversed(down))
    seams = (
        Seam(f"{facing.name} to front", tuple(ref for _, _, ref in faced), (EdgeRef(facing.name, CENTRE, True),)),
        Seam(f"{shield.name} to front", up, (EdgeRef(shield.name, CENTRE),)),
    )
    return Drawn((facing, shield), seams, (), (), lines)


def _opening(pattern: Pattern, derived: Derived) -> list[Opened]:
    """The edges of the right front along the opening, from the waist down, each walked so."""
    found = [
        (piece, edge)
        for source in derived.to
        for piece in pieces_drawn_to(pattern, source)
        for edge in edges_at(piece, Place.CENTRE_FRONT)
        if edge.role is Role.OPENING
    ]
    found.sort(key=lambda each: -max(each[1].start.y, each[1].end.y))
    return [(piece, edge, EdgeRef(piece.name, edge.name, edge.end.y > edge.start.y)) for piece, edge in found]


def _shield(pattern: Pattern, opened: Sequence[Opened], wide: float) -> Piece:
    """The shield, opened out: the edge that is sewn to the left front at its right, the fold in its middle."""
    name = free_piece_name(pattern, f"{FLY} shield")
    long, deep = run_length(downward(opened)), 2.0 * wide
    allowance = seam_allowance(opened[-1][0])

    def edge(called: str, a: Point, b: Point, place: Place) -> Edge:
        return Edge(called, (Line(a, b),), Role.SEAM, allowance, place)

    foot = -(long + BELOW_OPENING)
    edges = (
        edge("lower end", Point(-deep, foot), Point(0.0, foot), Place.BAND_END),
        edge("below the opening", Point(0.0, foot), Point(0.0, -long), Place.BAND_EDGE),
        edge(CENTRE, Point(0.0, -long), Point(0.0, 0.0), Place.CENTRE_FRONT),
        edge("upper edge", Point(0.0, 0.0), Point(-deep, 0.0), Place.BAND_END),
        edge("inner edge", Point(-deep, 0.0), Point(-deep, foot), Place.BAND_EDGE),
    )
    fold = MarkLine("fold line", Point(-wide, 0.0), Point(-wide, foot), level=Level.FOLD)
    at = -0.5 * wide
    return Piece(
        name,
        edges,
        Cut(1),
        Grain(Point(at, foot * (0.5 + GRAIN_SHARE)), Point(at, foot * (0.5 - GRAIN_SHARE))),
        notches=(Notch(END, Station(CENTRE, 0.0, "start"), marks=NotchMark.OPENING_END),),
        lines=(fold,),
        points_meant=all_corners(edges),
        identity=Identity(PieceKind.FLY, opened[-1][0].identity.part, of=PieceKind.FRONT, side=BodySide.LEFT),
    )


FLY_PART: Final = Part(
    FLY,
    "The fly of trousers that open in front: a facing, a shield behind the zip, and the line it is stitched along.",
    (DrawnTo(Place.CENTRE_FRONT, Identity(PieceKind.FRONT, BodyPart.TROUSERS)),),
    (Site(Place.CENTRE_FRONT, BodyPart.TROUSERS),),
    (Option("stitching", "length", "how far from the centre front it is stitched", 20.0, 50.0, default=35.0),),
    _draw,
    fills=("fly",),
    helped_by=(_FASTENED,),
)
"""The fly, as a row of the table of parts."""
