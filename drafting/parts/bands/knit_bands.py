r"""Bands of knit at a neck, a wrist or a hem: straight strips, folded lengthwise, shorter than the edge, stretched on.

A band of finished width b on an edge that turns by theta lies flat when its free edge is b theta shorter than the seam
(plane geometry). A straight strip rests at its free edge, so it is cut so long and is stretched at the seam. A round
neck comes to 0.80 to 0.90 of the edge (common practice); the sides of a V hardly turn, so the band is as long as they
are there, and its ends meet slanting at the point. Wrists and hems do
not turn: there the band is 0.85 of the edge (common practice, 0.80 to 0.90), and no less than the body.

    +--------------+--------------+--------------+--------------+
    | - - - - - - - - - - - -  fold  - - - - - - - - - - - - - -|
    +--------------+--------------+--------------+--------------+
     right back     right front    left front     left back
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import end_tangents
from drafting.parts.bands.strip import Stretch, StripBand, drawn_strip, edges_long, on_side, quarter_marks, turning
from drafting.parts.collars.neck_line import COLLAR_TO, NeckLine, NeckPart, neck_line
from drafting.parts.drawn import Drawn
from drafting.parts.edge_runs import edge_run
from drafting.parts.finishes.neck_facing import centre_marks
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
from drafting.pattern.neck_band import BAND_WIDTH, NECK_BAND, BlockBand, band_of_block
from drafting.pattern.stretch_used import USED_PUTTING_ON
from drafting.pattern.unfinished import is_facing

__all__ = [
    "HEM_BAND",
    "HEM_BAND_TO",
    "NECK_BAND",
    "NECK_BAND_TO",
    "WRIST_BAND",
    "WRIST_BAND_TO",
    "draw_hem_band",
    "draw_neck_band",
    "draw_wrist_band",
    "wrist_band_room",
]

WRIST_BAND, HEM_BAND = "wrist band", "hem band"
NECK_BAND_TO: Final = COLLAR_TO
WRIST_BAND_TO: Final = (DrawnTo(Place.WRIST, Identity(PieceKind.SLEEVE, BodyPart.SLEEVE)),)
HEM_BAND_TO: Final = tuple(
    DrawnTo(Place.HEM, Identity(kind, BodyPart.BODICE)) for kind in (PieceKind.FRONT, PieceKind.BACK)
)
"""What the bands are drawn to."""

_IN_A_WOVEN: Final = {
    NECK_BAND: 'a bias strip, name = "neck binding"',
    WRIST_BAND: 'a cuff, name = "cuff"',
    HEM_BAND: 'a hem, alter = "hem"',
}
_SHARE: Final = 0.85  # of a wrist or a hem (common practice, 0.80 to 0.90)
_CLOSES: Final = 10.0  # mm by which a band is wider than the wrist at rest, 0 to 1.5 cm (common practice)
_LEAST: Final = 0.5  # of an edge; no strip is cut shorter (ours, against slips)
_POINTED: Final = math.radians(75.0)  # from the centre line upward, below which a neck comes to a point there (ours)
_MITRE: Final = 0.45  # of a band's half, the most that its slanting end takes (ours)


def draw_neck_band(pattern: Pattern, derived: Derived) -> Drawn:
    """The band of a neck; width: when it is finished, mm. Raises NotAPattern where there is no neck for it."""
    _accept_knit(pattern, NECK_BAND)
    line = neck_line(pattern, NECK_BAND)
    usual = band_of_block(pattern)
    width = derived.length_or("width", usual.width if usual else BAND_WIDTH)
    if line.length_beyond():
        raise NotAPattern(NECK_BAND, "a button stand ends in the neck: take a collar or a neck facing there")
    slant = _slant(line, width)
    if slant > 0.0 and line.front.role is Role.OPENING:
        raise NotAPattern(NECK_BAND, 'the V runs into the open front: one band goes round both, name = "front band"')
    half = _half_neck(
        line, width, derived.length_or("share", 0.0), _as_it_gives(pattern, derived, usual), pointed=slant > 0.0
    )
    round_it = [on_side("right", each.turned_round()) for each in reversed(half)]
    over = [on_side("left", each) for each in half]
    from_front = slant > 0.0 or line.front.role is Role.OPENING
    stretches = (*over, *round_it) if from_front else (*round_it, *over)
    if slant > _MITRE * sum(each.rest for each in half):
        raise NotAPattern(NECK_BAND, f"the V is too narrow for a band {width:.0f} mm wide")
    band = StripBand(free_piece_name(pattern, NECK_BAND), tuple(stretches), width, BodyPart.BODICE, slant=slant)
    marks = [*centre_marks(pattern, derived), *quarter_marks(pattern, half)]
    return drawn_strip(pattern, band, marks, from_front=from_front)


def draw_wrist_band(pattern: Pattern, derived: Derived) -> Drawn:
    """The bands of both wrists. Raises NotAPattern where there is no sleeve that ends in one edge."""
    _accept_knit(pattern, WRIST_BAND)
    pieces = [piece for source in derived.to for piece in pieces_drawn_to(pattern, source) if not is_facing(piece)]
    if len(pieces) != 1:
        raise NotAPattern(WRIST_BAND, "there is no sleeve in one piece with a wrist")
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
    _accept_knit(pattern, HEM_BAND)
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


def _accept_knit(pattern: Pattern, part: str) -> None:
    if not pattern.stretch:
        mend = f'take a knit, kind = "jersey", or {_IN_A_WOVEN[part]}'
        raise NotAPattern(part, f"it is stretched onto its edge, so it is for a knit: {mend}")


def _half_neck(line: NeckLine, width: float, share: float, least: float, *, pointed: bool) -> list[Stretch]:
    """From the centre front to the centre back, drawn in evenly to the share, or by what the neck turns, so far as its
    knit gives: to `least` of the edge.

    The side of a V hardly turns and is drawn in by its own turning alone; what lies behind it is drawn in evenly.
    """
    parts = line.to_centre
    apart = 1 if pointed and len(parts) > 1 else 0
    rest = [*(share or max(least, _flat(width, [part])) for part in parts[:apart])]
    rest += [share or max(least, _flat(width, parts[apart:]))] * len(parts[apart:])
    shortest, part = min(zip(rest, parts, strict=True), key=lambda each: each[0])
    if shortest < _LEAST:
        raise NotAPattern(NECK_BAND, f"it is too wide for the {part.name}, {part.length:.0f} mm long: make it narrower")
    return [
        Stretch(part.name, tuple(each.ref for each in part.edges), part.length, of * part.length)
        for of, part in zip(rest, parts, strict=True)
    ]


def _flat(width: float, parts: Sequence[NeckPart]) -> float:
    """The share of an edge at which a band so wide lies flat on it."""
    return 1.0 - width * sum(turning(part.edges) for part in parts) / sum(part.length for part in parts)


def _edge(name: str, pattern: Pattern, refs: Sequence[EdgeRef]) -> Stretch:
    long = edges_long(pattern, refs)
    return Stretch(name, tuple(refs), long, long)


def _cut_at(derived: Derived, key: str, part: Stretch, pattern: Pattern, times: float, of: float = 0.0) -> Stretch:
    """The part cut to the share asked for, or as its knit gives, and no shorter than the body, of which it is its own
    share of the whole.
    """
    body = next((each.mm for each in pattern.wearer.lengths if each.key == key), 0.0) / times
    least = min(1.0, body / (of or part.length))
    usual = max(_SHARE, _as_it_gives(pattern, derived))
    return replace(part, rest=part.length * max(derived.length_or("share", usual), least))


def _as_it_gives(pattern: Pattern, derived: Derived, block: BlockBand | None = None) -> float:
    """The share of an edge below which a band cannot be stretched to it: half of its stretch is used, that of its own
    knit where that is said.
    """
    own = derived.length_or("stretch", block.stretch if block else pattern.stretch)
    return 1.0 / (1.0 + USED_PUTTING_ON * max(own, pattern.stretch))


def _slant(line: NeckLine, width: float) -> float:
    """How much shorter the folded edge of the band is at each end of it, where the neck comes to a point in front."""
    first = line.to_centre[0].edges[0].edge.curves[0]
    near, far = line.front.start, line.front.end
    up = (near - far) if (first.start - near).norm() < (first.start - far).norm() else (far - near)
    off = abs(up.angle_to(end_tangents(first)[0]))
    return width / math.tan(off) if off < _POINTED else 0.0


def _centres(half: Sequence[Stretch], *, opens: bool) -> Iterator[tuple[str, Notch]]:
    """The centre front and the centre back on what the band is sewn to, where it is whole there."""
    found = [(half[-1].refs[-1], not half[-1].refs[-1].backward, "back")]
    if not opens:
        found.insert(0, (half[0].refs[0], half[0].refs[0].backward, "front"))
    for ref, backward, name in found:
        station = Station(ref.edge, 0.0, "end" if backward else "start")
        yield ref.piece, Notch(f"centre {name} of the hem", station, marks=NotchMark.CENTRE)
