r"""The sailor collar: square behind, and in front it runs out at the point of a V.

Drawn on front and back laid together with the shoulders lapped a little: square across the back at the wanted depth,
square down to the width at the shoulder, and in a curve to the point of the V (C. Conover, A Complete Course in
Dressmaking, vol. 4).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Curve, Line, Point, Vec, end_tangents, fair, run_length, run_place
from drafting.geometry.meet import outline_crossings
from drafting.parts.collars.collar_neck import neck_allowance, neck_edges
from drafting.parts.collars.flat_collar import neck_laid
from drafting.parts.collars.neck_line import COLLAR_TO, NeckLine, lap_angle, neck_line, shoulder_length
from drafting.parts.collars.two_layers import TURN, centre_edge, edge_allowance, layers_drawn
from drafting.parts.drawn import Drawn
from drafting.pattern import Derived, Edge, Pattern, Place, Role

__all__ = ["SAILOR_COLLAR", "SAILOR_COLLAR_TO", "draw_sailor_collar"]

SAILOR_COLLAR: Final = "sailor collar"
SAILOR_COLLAR_TO: Final = COLLAR_TO

_DEPTH, _CHILDS = 160.0, 100.0  # mm: 8 to 12 cm for a child (common practice), the grown woman's ours
_WIDE: Final = 0.8  # how far along the shoulder it reaches, as a share (ours)
_NO_SHOULDER: Final = 100.0  # mm that are taken for the shoulder where a sleeve is cut up to the neck
_LEAST_ANGLE: Final = 0.2  # radians between the neck and the collar's edge where they meet in the point, at the least


def draw_sailor_collar(pattern: Pattern, derived: Derived) -> Drawn:
    """The collar and its under collar. Raises NotAPattern where there is no neck for it."""
    shoulder = shoulder_length(pattern)
    line = neck_line(pattern, SAILOR_COLLAR, lapped=lap_angle(derived.length("lap"), shoulder))
    depth = derived.length_or("depth", _CHILDS if pattern.wearer.child else _DEPTH)
    width = derived.length_or("width", _WIDE * (shoulder or _NO_SHOULDER))
    ease, turned = derived.length("ease"), derived.length_or("turn", TURN)
    neck = neck_laid(line, line.length_to_centre() - ease)
    behind = line.share_behind(pattern) * run_length(neck)

    layers = [(_neck(line, neck), _edges(line, neck, behind, depth, width, less)) for less in (0.0, turned)]
    if _crossed(layers):
        raise NotAPattern(SAILOR_COLLAR, reason=f"{width:.0f} mm wide its edge would cross the neck")
    return layers_drawn(pattern, derived, line, layers, ease)


def _crossed(layers: Sequence[tuple[list[Edge], list[Edge]]]) -> bool:
    """Whether the outline of a layer crosses itself."""
    return any(
        outline_crossings([c for edge in (*neck, *edges) for c in edge.curves], most=1) for neck, edges in layers
    )


def _neck(line: NeckLine, neck: tuple[Curve, ...]) -> list[Edge]:
    return neck_edges(neck, line.to_centre, neck_allowance(line))


def _edges(
    line: NeckLine, neck: tuple[Curve, ...], behind: float, depth: float, width: float, less: float
) -> list[Edge]:
    """The centre back, the lower edge behind, and the side that runs on to the point in front.

    behind: how much of the neck lies behind the shoulder point, mm; less: by how much it is smaller there, mm
    """
    allowance = edge_allowance(line)
    at, along = run_place(neck, run_length(neck) - behind)
    shoulder = at + along.left() * (width - less)
    corner = Point(shoulder.x, less - depth)
    point, into = neck[0].start, end_tangents(neck[0])[0]
    if corner.y > shoulder.y:
        raise NotAPattern(SAILOR_COLLAR, reason=f"{depth:.0f} mm behind does not reach below the shoulder")
    # it comes to the point from inside, never steeper than the neck
    chord = (point - shoulder).unit()
    turned = max(_LEAST_ANGLE - into.angle_to(-chord), 0.0)
    side = (Line(corner, shoulder), fair(shoulder, Vec(0.0, 1.0), point, chord.turned(turned), steady=True))
    return [
        centre_edge(neck[-1].end, Point(0.0, less - depth), allowance, ends=line.open_behind),
        Edge("lower edge", (Line(Point(0.0, less - depth), corner),), Role.SEAM, allowance, Place.COLLAR_EDGE),
        Edge("side edge", side, Role.SEAM, allowance, Place.COLLAR_EDGE),
    ]
