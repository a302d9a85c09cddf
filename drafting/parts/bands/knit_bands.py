r"""Bands of knit at a neck, a wrist or a hem: straight strips, folded lengthwise, shorter than the edge, stretched on.

A band of finished width b on an edge that turns by theta lies flat when its free edge is b theta shorter than the seam
(plane geometry). A straight strip rests at its free edge, so it is cut so long and is stretched at the seam. A round
neck comes to 0.80 to 0.90 of the edge (common practice); the sides of a V hardly turn, so the band is as long as they
are there, and its ends meet slanting at the point. Wrists and hems do not turn: there the band is 0.85 of the edge
(common practice, 0.80 to 0.90), and no less than the body.

    +--------------+--------------+--------------+--------------+
    | - - - - - - - - - - - -  fold  - - - - - - - - - - - - - -|
    +--------------+--------------+--------------+--------------+
     right back     right front    left front     left back
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from drafting.errors import NotAPattern
from drafting.parts.bands.band_edge import Stretch, StripBand, edges_long, on_side
from drafting.parts.bands.band_notches import quarter_marks
from drafting.parts.bands.knit_stretch import HEM_BAND, WRIST_BAND, accept_knit, share_it_gives
from drafting.parts.bands.strip import drawn_strip
from drafting.parts.drawn import Drawn
from drafting.parts.edge_runs import edge_run
from drafting.pattern import (
    BodyPart,
    Derived,
    DrawnTo,
    EdgeRef,
    Identity,
    Notch,
    NotchMark,
    Pattern,
    PieceKind,
    Place,
    Role,
    Station,
    edges_at,
    free_piece_name,
    pieces_drawn_to,
)
from drafting.pattern.neck_band import NECK_BAND
from drafting.pattern.unfinished import is_facing

__all__ = ["HEM_BAND_TO", "NECK_BAND", "WRIST_BAND_TO", "draw_hem_band", "draw_wrist_band", "wrist_band_room"]

WRIST_BAND_TO: Final = (DrawnTo(Place.WRIST, Identity(PieceKind.SLEEVE, BodyPart.SLEEVE)),)
HEM_BAND_TO: Final = tuple(
    DrawnTo(Place.HEM, Identity(kind, BodyPart.BODICE)) for kind in (PieceKind.FRONT, PieceKind.BACK)
)
"""What the bands are drawn to."""

_SHARE: Final = 0.85  # of a wrist or a hem (common practice, 0.80 to 0.90)
_CLOSES: Final = 10.0  # mm by which a band is wider than the wrist at rest, 0 to 1.5 cm (common practice)


def draw_wrist_band(pattern: Pattern, derived: Derived) -> Drawn:
    """The bands of both wrists. Raises NotAPattern where there is no sleeve that ends in one edge."""
    accept_knit(pattern, WRIST_BAND)
    pieces = [piece for source in derived.to for piece in pieces_drawn_to(pattern, source) if not is_facing(piece)]
    if len(pieces) != 1:
        raise NotAPattern(WRIST_BAND, reason="there is no sleeve in one piece with a wrist")
    (piece,) = pieces
    refs = [EdgeRef(piece.name, edge.name) for edge in edges_at(piece, Place.WRIST)]
    whole = _cut_at(derived, "wrist_girth", _edge("wrist", pattern, refs), pattern, 1.0)
    band = StripBand(
        free_piece_name(pattern, WRIST_BAND), (whole,), derived.length("width"), BodyPart.SLEEVE, piece.cut.count
    )
    return drawn_strip(pattern, band, quarter_marks(pattern, [whole]), edges=refs)


def wrist_band_room(derived: Derived, mm: Mapping[str, float]) -> Mapping[str, float]:
    """The ease at the wrist that a band asks of its sleeve, mm: so much that the band, drawing it in, is no tighter
    than the wrist.
    """
    wrist = mm.get("wrist_girth", 0.0)
    return {"wrist": (wrist + _CLOSES) / derived.length_or("share", _SHARE) - wrist} if wrist else {}


def draw_hem_band(pattern: Pattern, derived: Derived) -> Drawn:
    """The band of a hem all round; where the front is open it ends there. Raises NotAPattern where there is no hem."""
    accept_knit(pattern, HEM_BAND)
    run = edge_run(pattern, HEM_BAND, Place.HEM, BodyPart.BODICE)
    parts = [
        replace(_edge(part.name, pattern, [each.ref for each in part.edges]), joint=NotchMark.SIDE)
        for part in run.parts
    ]
    half = [_cut_at(derived, "waist_girth", each, pattern, 2.0, of=run.length) for each in parts]
    right = [on_side("right", each.turned_round()) for each in reversed(half)]
    left = [on_side("left", each) for each in half]
    opens = run.start.role is Role.OPENING
    stretches = (*left, *right) if opens else (*right, *left)
    band = StripBand(free_piece_name(pattern, HEM_BAND), stretches, derived.length("width"), BodyPart.BODICE)
    marks = [*_centres(half, opens=opens), *quarter_marks(pattern, half)]
    return drawn_strip(pattern, band, marks, edges=[ref for each in half for ref in each.refs], from_front=opens)


def _edge(name: str, pattern: Pattern, refs: Sequence[EdgeRef]) -> Stretch:
    long = edges_long(pattern, refs)
    return Stretch(name, tuple(refs), long, long)


def _cut_at(derived: Derived, key: str, part: Stretch, pattern: Pattern, times: float, of: float = 0.0) -> Stretch:
    """The part cut to the share asked for, or as its knit gives, and no shorter than the body, of which it is its own
    share of the whole.
    """
    body = next((each.mm for each in pattern.wearer.lengths if each.key == key), 0.0) / times
    least = min(1.0, body / (of or part.length))
    usual = max(_SHARE, share_it_gives(pattern, derived))
    return replace(part, rest=part.length * max(derived.length_or("share", usual), least))


def _centres(half: Sequence[Stretch], *, opens: bool) -> Iterator[tuple[str, Notch]]:
    """The centre front and the centre back on what the band is sewn to, where it is whole there."""
    found = [(half[-1].refs[-1], not half[-1].refs[-1].backward, "back")]
    if not opens:
        found.insert(0, (half[0].refs[0], half[0].refs[0].backward, "front"))
    for ref, backward, name in found:
        station = Station(ref.edge, 0.0, "end" if backward else "start")
        yield ref.piece, Notch(f"centre {name} of the hem", station, marks=NotchMark.CENTRE)
