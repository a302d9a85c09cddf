"""The band of a cardigan: one strip of knit from the hem up one front edge, round the neck and down the other.

Along the straight edges the band is as long as they are (or three hundredths shorter, so that it does not sag: common
practice). Round the neck it is shorter, by how much the neck turns, or by how far its knit gives. Where the hem has a
band too, the front band begins at the lower edge of that and covers its end. It is buttoned on the centre line, which
is the middle of the band: the fronts end half a band before the centre. The highest button lies just below the
beginning of the V, then one about every 8 cm, the last at least one and a half spaces above the hem (as in a button
stand).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Line, Point, length
from drafting.parts.bands.band_edge import Stretch, StripBand, edges_long, on_side, turning
from drafting.parts.bands.band_notches import quarter_marks
from drafting.parts.bands.knit_stretch import HEM_BAND
from drafting.parts.bands.strip import drawn_strip
from drafting.parts.collars.neck_line import COLLAR_TO, neck_line
from drafting.parts.drawn import Drawn
from drafting.parts.what_helps import in_block
from drafting.pattern import (
    BodyPart,
    Derived,
    EdgeRef,
    Landmark,
    MarkPoint,
    Notch,
    NotchMark,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Station,
    corner_at,
    edges_at,
    free_piece_name,
)
from drafting.pattern.stretch_used import USED_PUTTING_ON
from drafting.pattern.unfinished import is_facing

__all__ = ["FRONT_BAND", "FRONT_BAND_TO", "draw_front_band"]

FRONT_BAND: Final = "front band"
FRONT_BAND_TO: Final = COLLAR_TO

_WIDTH: Final = 30.0  # mm, where no block says one (common practice)
_SHARPEST: Final = math.radians(40.0)  # at which the band turns from the front edge into the neck (ours)
_BELOW_V: Final = 12.0  # mm from there to the highest button (ours)
_CLEAR: Final = 20.0  # mm from the ends of the front edge, within which no notch lies (ours)
_SPACE: Final = 80.0  # mm between buttons, nearly (ours, as in a button stand)
_LAST: Final = 1.5  # spaces from the last button to the hem (R. Carr, Couture: The Art of Fine Sewing)


def draw_front_band(pattern: Pattern, derived: Derived) -> Drawn:
    """The band; width: when it is finished, share: of the straight edges.

    Raises NotAPattern where the front does not open from hem to neck, or turns into the neck at a corner.
    """
    front, edge = _front_edge(pattern)
    line = neck_line(pattern, FRONT_BAND)
    _accept_no_corner(front, edge, line.to_centre[0].edges[0].ref.edge)
    width = derived.length_or("width", _of_block(pattern))
    share = derived.length("share")
    up = _upward(front, edge)
    long = edges_long(pattern, [up])
    straight = Stretch("front edge", (up,), long, share * long)
    flat = 1.0 - width * sum(turning(part.edges) for part in line.to_centre) / line.length_to_centre()
    rest = max(flat, 1.0 / (1.0 + USED_PUTTING_ON * pattern.stretch))
    neck = [
        Stretch(part.name, tuple(each.ref for each in part.edges), part.length, rest * part.length, NotchMark.SHOULDER)
        for part in line.to_centre
    ]
    hem = next((part.length("width") for part in pattern.derived if part.part == HEM_BAND), 0.0)
    below = [Stretch("hem band", (), hem, hem)] if hem else []
    half = [*below, straight, *neck]
    stretches = (
        *(on_side("right", each) for each in half),
        *(on_side("left", each.turned_round()) for each in reversed(half)),
    )
    whole = sum(each.rest for each in stretches)
    points = tuple(_buttons(front, edge, derived, share, width, whole, hem))
    lowest = min((mark.at.x for mark in points if mark.at.x > hem), default=hem)
    marks = [*quarter_marks(pattern, neck), *_front_marks(front, up, (lowest - hem) / share)]
    band = StripBand(free_piece_name(pattern, FRONT_BAND), stretches, width, BodyPart.BODICE, points=points)
    return drawn_strip(pattern, band, marks, from_front=True)


OPEN_FRONT: Final = in_block("front", "open", "Open the front")


def _front_edge(pattern: Pattern) -> tuple[Piece, str]:
    for piece in pattern.pieces:
        if piece.identity.kind is PieceKind.FRONT and piece.identity.part is BodyPart.BODICE and not is_facing(piece):
            found = edges_at(piece, Place.CENTRE_FRONT)
            if len(found) == 1 and found[0].role is Role.OPENING and piece.cut.mirror:
                return piece, found[0].name
    reason = 'no front opens from the hem to the neck, as that of a "knit top" with front = "open" does'
    raise NotAPattern(FRONT_BAND, reason=reason, remedies=(OPEN_FRONT,))


def _of_block(pattern: Pattern) -> float:
    """The width that the block was drawn for, mm."""
    widths = (dict(origin.options).get("front_band") for origin in pattern.origin)
    return next((float(each) for each in widths if isinstance(each, float | int)), _WIDTH)


def _accept_no_corner(front: Piece, edge: str, neck: str) -> None:
    turned = abs(corner_at(front, front.index(edge if front.beside(edge)[0].name == neck else neck)))
    if turned > _SHARPEST:
        raise NotAPattern(
            FRONT_BAND,
            reason=f"the front edge turns into the neck by {math.degrees(turned):.0f} degrees; one band goes round "
            "no such corner: it wants a V that runs into the edge",
        )


def _upward(front: Piece, edge: str) -> EdgeRef:
    """The front edge walked from the hem to the neck."""
    before, _ = front.beside(edge)
    return EdgeRef(front.name, edge, backward=before.place is Place.NECK)


def _below_v(front: Piece, edge: str) -> float:
    """How long the straight of the front edge is, from the hem to where the V begins, mm."""
    return sum(length(curve) for curve in front.edge(edge).curves if isinstance(curve, Line))


def _front_marks(front: Piece, up: EdgeRef, last_button: float) -> Iterator[tuple[str, Notch]]:
    """Where the V begins and where the lowest button lies on the front edge, so that the band is not sewn on blind."""
    long = front.edge(up.edge).length
    for name, at in (("beginning of the V", _below_v(front, up.edge)), ("lowest button", last_button)):
        if _CLEAR < at < long - _CLEAR:
            yield (
                front.name,
                Notch(name, Station(up.edge, at, "end" if up.backward else "start"), marks=NotchMark.BALANCE),
            )


def _buttons(
    front: Piece, edge: str, derived: Derived, share: float, width: float, whole: float, below: float
) -> Iterator[MarkPoint]:
    """The buttonholes on the right of the band and the buttons on the left, in the middle of its width.

    below: how far it goes on below the front edge, over a hem band, mm
    """
    straight = below + share * _below_v(front, edge)
    room = straight - _BELOW_V
    asked = dict(derived.options)["buttons"]
    # a band at the hem would gape: the last button holds it together, in its middle
    rest = _LAST if below == 0.0 else 0.0
    room -= 0.5 * below
    count = int(asked) if isinstance(asked, float | int) else max(2, round((room / _SPACE) - rest + 1.0))
    space = room / (count - 1 + rest)
    for number in range(count):
        at = straight - _BELOW_V - number * space
        yield MarkPoint(f"buttonhole {number + 1}", Point(at, 0.5 * width), Landmark.BUTTON)
        yield MarkPoint(f"button {number + 1}", Point(whole - at, 0.5 * width), Landmark.BUTTON)
