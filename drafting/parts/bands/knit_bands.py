r"""Bands of knit at a neck, a wrist or a hem: straight strips, folded lengthwise, shorter than the edge, stretched on.

A band of finished width b on an edge that turns by theta lies flat when its free edge is b theta shorter than the seam
(plane geometry). A straight strip rests at its free edge, so it is cut so long and is stretched at the seam. Each part
of a neck is reckoned by its own turning: a round one comes to 0.80 to 0.90 of the edge (common practice); the sides of
a V hardly turn, so the band is as long as they are there, and its ends meet slanting at the point. Wrists and hems do
not turn: there the band is 0.85 of the edge (common practice, 0.80 to 0.90), and no less than the body.

    +--------------+--------------+--------------+--------------+
    | - - - - - - - - - - - -  fold  - - - - - - - - - - - - - -|
    +--------------+--------------+--------------+--------------+
     right back     right front    left front     left back
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Line, Point, end_tangents
from drafting.parts.collars.neck_line import COLLAR_TO, NeckLine, neck_line
from drafting.parts.drawn import Drawn
from drafting.parts.finishes.neck_facing import centre_marks
from drafting.parts.folded_outline import LaidEdge
from drafting.pattern import (
    BodyPart,
    Cut,
    Derived,
    DrawnTo,
    Edge,
    EdgeAs,
    EdgeRef,
    Grain,
    Half,
    Identity,
    Level,
    MarkLine,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    edges_at,
    free_piece_name,
    from_start,
    pieces_drawn_to,
)
from drafting.pattern.neck_band import BAND_WIDTH, NECK_BAND, band_of_block
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
]

WRIST_BAND, HEM_BAND = "wrist band", "hem band"
NECK_BAND_TO: Final = COLLAR_TO
WRIST_BAND_TO: Final = (DrawnTo(Place.WRIST, Identity(PieceKind.SLEEVE, BodyPart.SLEEVE)),)
HEM_BAND_TO: Final = tuple(
    DrawnTo(Place.HEM, Identity(kind, BodyPart.BODICE)) for kind in (PieceKind.FRONT, PieceKind.BACK)
)
"""What the bands are drawn to."""

_SHARE: Final = 0.85  # of a wrist or a hem (common practice, 0.80 to 0.90)
_LEAST: Final = 0.5  # of an edge; no strip is cut shorter (ours, against slips)
_SEWS: Final = 0.02  # of an edge by which a band may be longer or shorter than said (ours)
_POINTED: Final = math.radians(75.0)  # from the centre line upward, below which a neck comes to a point there (ours)
_MITRE: Final = 0.45  # of a band's half, the most that its slanting end takes (ours)


@dataclass(frozen=True, slots=True)
class _Part:
    """A stretch of the edge of the garment: how long it is, and how long what of the band is sewn to it, mm.

    name: "front neck"
    """

    name: str
    refs: tuple[EdgeRef, ...]
    length: float
    rest: float

    def turned_round(self) -> _Part:
        refs = tuple(replace(ref, backward=not ref.backward) for ref in reversed(self.refs))
        return replace(self, refs=refs)


@dataclass(frozen=True, slots=True)
class _Band:
    """What a band is drawn from, mm: its stretches from one end to the other, its width, how far its ends slant."""

    name: str
    stretches: tuple[_Part, ...]
    width: float
    part: BodyPart
    count: int = 1
    slant: float = 0.0


def draw_neck_band(pattern: Pattern, derived: Derived) -> Drawn:
    """The band of a neck; width: when it is finished, mm. Raises NotAPattern where there is no neck for it."""
    _accept_knit(pattern, NECK_BAND)
    line = neck_line(pattern, NECK_BAND)
    usual = band_of_block(pattern)
    width = derived.length_or("width", usual.width if usual else BAND_WIDTH)
    share = dict(derived.options)["share"]
    half = [
        _part(part.name, [each.ref for each in part.edges], part.length, _turning(part.edges) * width, share)
        for part in line.to_centre
    ]
    slant = _slant(line, width)
    round_it = [_sided("right", each.turned_round()) for each in reversed(half)]
    over = [_sided("left", each) for each in half]
    from_front = slant > 0.0 or line.front.role is Role.OPENING
    stretches = (*over, *round_it) if from_front else (*round_it, *over)
    if slant > _MITRE * sum(each.rest for each in half):
        raise NotAPattern(NECK_BAND, f"the V is too narrow for a band {width:.0f} mm wide")
    band = _Band(free_piece_name(pattern, NECK_BAND), tuple(stretches), width, BodyPart.BODICE, slant=slant)
    marks = [*centre_marks(pattern, derived), _quarter_mark(pattern, half)]
    return _drawn(pattern, band, marks, from_front=from_front)


def draw_wrist_band(pattern: Pattern, derived: Derived) -> Drawn:
    """The bands of both wrists. Raises NotAPattern where there is no sleeve that ends in one edge."""
    _accept_knit(pattern, WRIST_BAND)
    pieces = [piece for source in derived.to for piece in pieces_drawn_to(pattern, source) if not is_facing(piece)]
    if len(pieces) != 1:
        raise NotAPattern(WRIST_BAND, "there is no sleeve in one piece with a wrist")
    (piece,) = pieces
    refs = [EdgeRef(piece.name, edge.name) for edge in edges_at(piece, Place.WRIST)]
    whole = _cut_at(derived, "wrist_girth", _part("wrist", refs, _long(pattern, refs), 0.0, None), pattern, 1.0)
    band = _Band(
        free_piece_name(pattern, WRIST_BAND), (whole,), derived.length("width"), BodyPart.SLEEVE, piece.cut.count
    )
    return _drawn(pattern, band, [_quarter_mark(pattern, [whole])], edges=refs)


def draw_hem_band(pattern: Pattern, derived: Derived) -> Drawn:
    """The band of a hem all round. Raises NotAPattern where front or back has none."""
    _accept_knit(pattern, HEM_BAND)
    half = []
    for source in derived.to:
        pieces = [piece for piece in pieces_drawn_to(pattern, source) if not is_facing(piece)]
        if len(pieces) != 1 or not pieces[0].cut.fold:
            raise NotAPattern(HEM_BAND, f"the {source.identity.kind} is not in one piece on the fold with a hem")
        (piece,) = pieces
        refs = [EdgeRef(piece.name, edge.name) for edge in edges_at(piece, Place.HEM)]
        if _begins_at_centre(piece) is not (piece.identity.half is Half.FRONT):  # front to the side, back from there
            refs = [EdgeRef(ref.piece, ref.edge, backward=True) for ref in reversed(refs)]
        half.append(_part(f"{piece.identity.half} hem", refs, _long(pattern, refs), 0.0, None))
    half = [_cut_at(derived, "waist_girth", each, pattern, 2.0, of=sum(one.length for one in half)) for each in half]
    stretches = [_sided("right", each.turned_round()) for each in reversed(half)] + [
        _sided("left", each) for each in half
    ]
    band = _Band(free_piece_name(pattern, HEM_BAND), tuple(stretches), derived.length("width"), BodyPart.BODICE)
    marks = [*_centres(half), _quarter_mark(pattern, half)]
    return _drawn(pattern, band, marks, edges=[ref for each in half for ref in each.refs])


def _accept_knit(pattern: Pattern, part: str) -> None:
    if not pattern.stretch:
        raise NotAPattern(part, "it is stretched onto its edge, so it is for a knit")


def _part(name: str, refs: Sequence[EdgeRef], length: float, drawn_in: float, share: object) -> _Part:
    rest = share * length if isinstance(share, float | int) else length - drawn_in
    if rest < _LEAST * length:
        raise NotAPattern(NECK_BAND, f"it is too wide for the {name}, {length:.0f} mm long: make it narrower")
    return _Part(name, tuple(refs), length, rest)


def _cut_at(derived: Derived, key: str, part: _Part, pattern: Pattern, times: float, of: float = 0.0) -> _Part:
    """The part cut to the share asked for, and no shorter than the body, of which it is its own share of the whole."""
    body = next((each.mm for each in pattern.wearer.lengths if each.key == key), 0.0) / times
    least = min(1.0, body / (of or part.length))
    return replace(part, rest=part.length * max(derived.length_or("share", _SHARE), least))


def _sided(side: str, part: _Part) -> _Part:
    return replace(part, name=f"{side} {part.name}")


def _long(pattern: Pattern, refs: Sequence[EdgeRef]) -> float:
    return sum(pattern.piece(ref.piece).edge(ref.edge).length for ref in refs)


def _turning(edges: Sequence[LaidEdge]) -> float:
    """By how much a stretch turns in all, radians."""
    curves = [curve for each in edges for curve in each.edge.curves]
    ends = [end_tangents(curve) for curve in curves]
    within = sum(abs(first.angle_to(last)) for first, last in ends)
    return within + sum(abs(one[1].angle_to(other[0])) for one, other in pairwise(ends))


def _slant(line: NeckLine, width: float) -> float:
    """How much shorter the folded edge of the band is at each end of it, where the neck comes to a point in front."""
    first = line.to_centre[0].edges[0].edge.curves[0]
    near, far = line.front.start, line.front.end
    up = (near - far) if (first.start - near).norm() < (first.start - far).norm() else (far - near)
    off = abs(up.angle_to(end_tangents(first)[0]))
    return width / math.tan(off) if off < _POINTED else 0.0


def _begins_at_centre(piece: Piece) -> bool:
    """Whether the hem begins at the centre line, anticlockwise."""
    first = edges_at(piece, Place.HEM)[0]
    return piece.beside(first.name)[0].role is Role.FOLD


def _centres(half: Sequence[_Part]) -> Iterator[tuple[str, Notch]]:
    """The centre front and the centre back on what the band is sewn to."""
    for ref, backward, name in (
        (half[0].refs[0], half[0].refs[0].backward, "front"),
        (half[-1].refs[-1], not half[-1].refs[-1].backward, "back"),
    ):
        station = Station(ref.edge, 0.0, "end" if backward else "start")
        yield ref.piece, Notch(f"centre {name} of the hem", station, marks=NotchMark.CENTRE)


def _quarter_mark(pattern: Pattern, half: Sequence[_Part]) -> tuple[str, Notch]:
    """The mark half way along a half of the edge, on the piece it lies on."""
    left = 0.5 * sum(part.length for part in half)
    for ref in (ref for part in half for ref in part.refs):
        long = pattern.piece(ref.piece).edge(ref.edge).length
        if left <= long:
            station = Station(ref.edge, left, "end" if ref.backward else "start")
            return ref.piece, Notch("quarter of the edge", station, marks=NotchMark.QUARTER)
        left -= long
    raise NotAPattern("band", "the edge it is sewn to has no length")


def _drawn(
    pattern: Pattern,
    band: _Band,
    marks: Sequence[tuple[str, Notch]],
    *,
    edges: Sequence[EdgeRef] = (),
    from_front: bool = False,
) -> Drawn:
    """The band with its seams; edges: the hems that it is sewn to."""
    pieces = {ref.piece: pattern.piece(ref.piece) for each in band.stretches for ref in each.refs}
    allowance = max(_seam_allowance(piece) for piece in pieces.values())
    notches, pairs = _band_notches(pattern, band, marks, from_front=from_front)
    piece = _piece(band, allowance, notches)
    seams = tuple(
        Seam(
            f"{band.name} to {each.name}",
            each.refs,
            (EdgeRef(band.name, each.name),),
            _stretched(each),
            tuple((mark, NotchRef(band.name, name)) for mark, name in pairs.get(each.name, ())),
        )
        for each in band.stretches
    )
    sewn = tuple(EdgeAs(ref.piece, ref.edge, Role.SEAM, _seam_allowance(pattern.piece(ref.piece))) for ref in edges)
    return Drawn((piece,), seams, tuple(marks), sewn)


def _seam_allowance(piece: Piece) -> float:
    return max((edge.allowance for edge in piece.edges if edge.role is Role.SEAM), default=0.0)


def _stretched(part: _Part) -> SeamEase:
    more, sews = part.length - part.rest, _SEWS * part.length
    return SeamEase(more, more - sews, more + sews)


def _band_notches(
    pattern: Pattern, band: _Band, marks: Sequence[tuple[str, Notch]], *, from_front: bool
) -> tuple[list[Notch], dict[str, list[tuple[NotchRef, str]]]]:
    """The notches of a band, and by the name of each of its stretches which meet which on the garment."""
    notches: list[Notch] = []
    pairs: dict[str, list[tuple[NotchRef, str]]] = {}
    for each in band.stretches:
        gone = 0.0
        for ref in each.refs:
            edge = pattern.piece(ref.piece).edge(ref.edge)
            for on, notch in marks:
                if on != ref.piece or notch.station.edge != ref.edge:
                    continue
                at = from_start(edge, notch.station)
                along = gone + (edge.length - at if ref.backward else at)
                if not 0.0 < along < each.length:
                    continue
                name = f"quarter in the {each.name}"
                notches.append(Notch(name, Station(each.name, along * each.rest / each.length), marks=notch.marks))
                pairs.setdefault(each.name, []).append((NotchRef(on, notch.name), name))
            gone += edge.length
    if len(band.stretches) > 1:
        middle = band.stretches[len(band.stretches) // 2 - 1]
        where = "centre back" if from_front else "centre front"
        notches.append(Notch(where, Station(middle.name, 0.0, "end"), marks=NotchMark.CENTRE))
        last = middle.refs[-1]
        for on, notch in marks:
            if notch.marks is NotchMark.CENTRE and (on, notch.station.edge) == (last.piece, last.edge):
                pairs.setdefault(middle.name, []).append((NotchRef(on, notch.name), where))
    return notches, pairs


def _piece(band: _Band, allowance: float, notches: Sequence[Notch]) -> Piece:
    """The strip, its lower left corner at the origin; folded, its upper half lies behind the lower."""
    xs = list(accumulate((each.rest for each in band.stretches), initial=0.0))
    whole, deep, in_ = xs[-1], 2.0 * band.width, band.slant
    lower = [
        Edge(each.name, (Line(Point(a, 0.0), Point(b, 0.0)),), Role.SEAM, allowance, Place.BAND_EDGE)
        for each, (a, b) in zip(band.stretches, pairwise(xs), strict=True)
    ]
    end = (Point(whole, 0.0), Point(whole - in_, band.width), Point(whole, deep))
    start = (Point(0.0, deep), Point(in_, band.width), Point(0.0, 0.0))
    rest = [
        Edge(name, tuple(Line(a, b) for a, b in pairwise(points)), Role.SEAM, allowance, place)
        for name, points, place in (
            ("end", end if in_ else (end[0], end[2]), Place.BAND_END),
            ("upper edge", (end[2], start[0]), Place.BAND_EDGE),
            ("beginning", start if in_ else (start[0], start[2]), Place.BAND_END),
        )
    ]
    middle = 0.5 * band.width
    return Piece(
        band.name,
        (*lower, *rest),
        Cut(band.count),
        Grain(Point(0.5 * whole, 0.25 * middle), Point(0.5 * whole, deep - 0.25 * middle)),
        notches=tuple(notches),
        lines=(MarkLine("fold line", Point(in_, band.width), Point(whole - in_, band.width), level=Level.FOLD),),
        identity=Identity(PieceKind.BAND, band.part),
    )
