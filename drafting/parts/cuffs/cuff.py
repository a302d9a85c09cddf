r"""The cuff of a shirt: a band that closes at a slit in the sleeve, whose lower edge is pleated or gathered into it.

Its seam is the wrist, its ease and its overlap; the binding of the slit takes a part of that, the sleeve the rest.
What the sleeve is wider lies in pleats that face the slit, or is gathered (M. Ingalls, Text-Book on Domestic Art: the
slit on the under side, the cuff's depth taken off the sleeve). The cuff is cut in one and folded.

      back underarm            slit                       front underarm
    sleeve |--------------------|--<<--<<---------------------|      q: a quarter of the edge
           the cuff begins at the slit, goes round by the underarm, and ends there
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Line, Point, Vec, run_place
from drafting.parts.drawn import Drawn
from drafting.parts.part import Ends
from drafting.pattern import (
    BodyPart,
    Cut,
    Derived,
    DrawnTo,
    Edge,
    EdgeAs,
    EdgeRef,
    Grain,
    Identity,
    Level,
    MarkLine,
    MarkPoint,
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
    pieces_drawn_to,
    seam_allowance,
)
from drafting.pattern.casings import HAND

__all__ = [
    "BINDING",
    "BLOUSE",
    "CUFF",
    "CUFF_TO",
    "DROP",
    "GATHERED",
    "PLEATED",
    "cuff_ends",
    "cuff_length",
    "cuff_room",
    "draw_cuff",
    "sleeve_edge",
    "slit_needed",
]

CUFF: Final = "cuff"
CUFF_TO: Final = (DrawnTo(Place.WRIST, Identity(PieceKind.SLEEVE, BodyPart.SLEEVE)),)
GATHERED, PLEATED = "gathers", "pleats"

BINDING: Final = 10.0
"""mm of the cuff that the bound slit takes where it is lapped (common practice)."""

BLOUSE: Final = 15.0
"""mm that a sleeve is longer than to its cuff, so that the arm can bend: 1 to 1.5 cm (common practice)."""

DROP: Final = 10.0
"""mm that the edge of a sleeve lies lower at the quarter behind, over the bent elbow: 1 to 2 cm (common practice)."""

_SLIT_AT: Final = 0.25  # of the lower edge, from the underarm seam at the back (common practice)
_SLIT, _CHILDS_SLIT = 100.0, 70.0  # mm: 9 to 12 cm are comfortable, 6 to 8 for a child (common practice)
_PLAIN: Final = 10.0  # mm that are eased in without pleats or gathers (ours)
_PLEAT, _PLEAT_OF_WRIST = 30.0, 0.1875  # mm of a pleat in a sleeve for a wrist of 16 cm, less for a smaller (ours)
_ARROW: Final = 14.0  # mm above the edge at which the arrow of a pleat lies, clear of the names along it
_ROUNDING: Final = 1e-6  # mm
_PLEATS_FROM: Final = 25.0  # mm from the slit to the first pleat, and
_DEEPEST: Final = 60.0  # mm that a pleat takes up at the most (ours)
_BETWEEN: Final = 10.0  # from one to the next (ours)
_GATHERS_GIVE: Final = 0.02  # share of what is gathered in by which it may be off (ours)


def cuff_length(wrist: float, ease: float, overlap: float) -> float:
    """How long the seam of a cuff is, mm."""
    return wrist + ease + overlap


def sleeve_edge(cuff: float, pleats: float, binding: float = BINDING) -> float:
    """How wide a sleeve is at its lower edge that goes into a cuff with so much in pleats, mm."""
    return cuff - binding + pleats


def cuff_room(derived: Derived, mm: Mapping[str, float]) -> Mapping[str, float]:
    """The ease at the wrist that a cuff asks of its sleeve: what goes into it, and its pleats, mm."""
    wrist = mm.get("wrist_girth", 0.0)
    whole = cuff_length(wrist, derived.length("ease"), derived.length("overlap"))
    pleats = derived.length("pleats") * min(_PLEAT, _PLEAT_OF_WRIST * wrist)
    return {"wrist": sleeve_edge(whole, pleats) - wrist} if wrist else {}


def cuff_ends(derived: Derived) -> Ends:
    """How a sleeve ends above its cuff: shorter by the depth of that, less what falls over it; lower behind."""
    less = derived.length("depth") - derived.length("blouse") if derived.is_on("shorter") else 0.0
    return Ends(max(0.0, less), derived.length("drop"))


def slit_needed(wrist: float, open_girth: float) -> float:
    """How long a slit has to be for the hand to pass an open cuff, mm."""
    return max(0.0, 0.5 * (HAND * wrist - open_girth))


@dataclass(frozen=True, slots=True)
class _Wrist:
    """The lower edge of a sleeve from its back underarm to its front one: its edges, how long it is, where the slit is.

    long, slit: mm
    """

    piece: Piece
    refs: tuple[EdgeRef, ...]
    long: float
    slit: float

    def station(self, at: float) -> Station:
        """The place so far from the back underarm seam."""
        for ref in self.refs:
            long = self.piece.edge(ref.edge).length
            if at <= long or ref is self.refs[-1]:
                return Station(ref.edge, at, "end" if ref.backward else "start")
            at -= long
        raise NotAPattern(CUFF, "the sleeve has no lower edge")

    def inside(self, at: float, deep: float) -> Point:
        """The point so far from the back underarm seam, and so deep inside the sleeve, mm."""
        gone = 0.0
        at = self.long - at if self.refs[0].backward else at
        for edge in edges_at(self.piece, Place.WRIST):
            if at - gone <= edge.length + _ROUNDING:
                foot, along = run_place(edge.curves, min(at - gone, edge.length))
                return foot + along.left() * deep
            gone += edge.length
        raise NotAPattern(CUFF, "the sleeve has no lower edge")


def draw_cuff(pattern: Pattern, derived: Derived) -> Drawn:
    """The cuff, and the slit above it. Raises NotAPattern where there is no wrist, or too little sleeve for it."""
    sleeve = next((piece for source in derived.to for piece in pieces_drawn_to(pattern, source)), None)
    girth = next((length.mm for length in pattern.wearer.lengths if length.key == "wrist_girth"), 0.0)
    if sleeve is None or not girth:
        raise NotAPattern(CUFF, "there is no sleeve down to a wrist, or the wrist is not measured")
    wrist = _wrist(sleeve)
    whole = cuff_length(girth, derived.length("ease"), derived.length("overlap"))
    more = wrist.long - sleeve_edge(whole, 0.0)
    if more < -1.0:
        raise NotAPattern(
            CUFF,
            f"it is {whole:.0f} mm long and the lower edge of the sleeve only {wrist.long:.0f} mm: make the sleeve "
            f'{-more:.0f} mm wider there, with "full sleeve"',
        )
    wants = derived.length_or("slit", _CHILDS_SLIT if pattern.wearer.child else _SLIT)
    slit = max(wants, slit_needed(girth, whole))
    pleated = dict(derived.options)["into"] == PLEATED and more > _PLAIN
    folds = _pleats(wrist, more, round(derived.length("pleats"))) if pleated else ()
    back = wrist.slit * (1.0 if pleated else (whole - BINDING) / wrist.long)
    piece = _piece(free_piece_name(pattern, CUFF), wrist, whole, back, derived, folds)
    marks = _marks(wrist, folds)
    pairs = tuple((NotchRef(sleeve.name, notch.name), NotchRef(piece.name, met)) for notch, met in marks)
    run = [edge.name for edge in edges_at(piece, Place.WRIST)]
    seam = Seam(
        f"{piece.name} to {sleeve.name}",
        wrist.refs,
        tuple(EdgeRef(piece.name, name, backward=True) for name in run),
        _ease(more, pleated=pleated),
        pairs,
    )
    allowance = seam_allowance(sleeve)
    return Drawn(
        (piece,),
        (seam,),
        tuple((sleeve.name, notch) for notch, _ in marks),
        tuple(EdgeAs(sleeve.name, ref.edge, Role.SEAM, allowance) for ref in wrist.refs),
        ((sleeve.name, _slit(wrist, slit)), *((sleeve.name, arrow) for arrow in _arrows(wrist, folds))),
    )


def _wrist(sleeve: Piece) -> _Wrist:
    edges = edges_at(sleeve, Place.WRIST)
    before = sleeve.beside(edges[0].name)[0]
    from_back = before.half is None or str(before.half) == "back"
    refs = [EdgeRef(sleeve.name, edge.name, backward=not from_back) for edge in edges]
    long = sum(edge.length for edge in edges)
    return _Wrist(sleeve, tuple(refs if from_back else reversed(refs)), long, _SLIT_AT * long)


def _pleats(wrist: _Wrist, more: float, count: int) -> tuple[tuple[float, float], ...]:
    """Where each pleat begins and ends along the lower edge, mm: beside the slit toward the front."""
    deep = more / count
    at = wrist.slit + _PLEATS_FROM
    if deep > _DEEPEST or at + count * (deep + _BETWEEN) > wrist.long:
        raise NotAPattern(CUFF, f'{more:.0f} mm are too much for {count} pleats: take more, or into = "{GATHERED}"')
    return tuple((at + k * (deep + _BETWEEN), at + k * (deep + _BETWEEN) + deep) for k in range(count))


def _ease(more: float, *, pleated: bool) -> SeamEase:
    if pleated:
        return SeamEase(more, more - 1.0, more + 1.0)
    if more <= _PLAIN:
        return SeamEase(more, min(0.0, more), _PLAIN)
    return SeamEase(more, more * (1.0 - _GATHERS_GIVE), more * (1.0 + _GATHERS_GIVE))


def _marks(wrist: _Wrist, folds: Sequence[tuple[float, float]]) -> list[tuple[Notch, str]]:
    """The notches of the sleeve, each with the name of that of the cuff which it meets."""
    marks = [(Notch("slit", wrist.station(wrist.slit), marks=NotchMark.BALANCE), "slit")]
    for k, (one, other) in enumerate(folds, start=1):
        # the fold is brought to the place beside it, toward the slit, so that the pleat faces it
        marks.append((Notch(f"pleat {k} place", wrist.station(one), marks=NotchMark.PLEAT_PLACE), f"pleat {k}"))
        marks.append((Notch(f"pleat {k} fold", wrist.station(other), marks=NotchMark.PLEAT_FOLD), f"pleat {k}"))
    return marks


def _slit(wrist: _Wrist, long: float) -> MarkLine:
    """The slit, square to the lower edge."""
    return MarkLine("slit", wrist.inside(wrist.slit, 0.0), wrist.inside(wrist.slit, long), level=Level.SLIT)


def _arrows(wrist: _Wrist, folds: Sequence[tuple[float, float]]) -> Iterator[MarkLine]:
    """An arrow above each pleat, from its fold to where that is brought, toward the slit."""
    for k, (one, other) in enumerate(folds, start=1):
        tail, tip = wrist.inside(other, _ARROW), wrist.inside(one, _ARROW)
        back = min(_ARROW, 0.4 * (other - one))
        above, below = (wrist.inside(one + back, _ARROW + side * 0.5 * back) for side in (1.0, -1.0))
        head = (Line(tail, tip), Line(tip, above), Line(above, tip), Line(tip, below))
        yield MarkLine(f"pleat {k}, folded toward the slit", tail, below, head)


def _piece(
    name: str, wrist: _Wrist, whole: float, back: float, derived: Derived, folds: Sequence[tuple[float, float]]
) -> Piece:
    """The cuff, its seam above, its lower left corner at the origin; its underlap on the right."""
    deep, allowance = derived.length("depth"), seam_allowance(wrist.piece)
    high, front = 2.0 * deep, whole - BINDING - back
    corners = (
        ("turned edge", 0.0, 0.0, whole, 0.0, Place.BAND_EDGE),
        ("end of the underlap", whole, 0.0, whole, high, Place.BAND_END),
        ("underlap", whole, high, whole - BINDING, high, Place.BAND_EDGE),
        ("back of the wrist", whole - BINDING, high, front, high, Place.WRIST),
        ("front of the wrist", front, high, 0.0, high, Place.WRIST),
        ("end with the buttonhole", 0.0, high, 0.0, 0.0, Place.BAND_END),
    )
    edges = tuple(
        Edge(called, (Line(Point(a, b), Point(c, d)),), Role.SEAM, allowance, place)
        for called, a, b, c, d, place in corners
    )
    at_slit, at_underarm, at_front = edges[3].name, Station(edges[3].name, 0.0, "end"), edges[4].name
    notches = [
        Notch("slit", Station(at_slit, 0.0), marks=NotchMark.BALANCE),
        Notch("underarm seam", at_underarm, marks=NotchMark.SIDE),
    ]
    gone = 0.0
    for k, (one, other) in enumerate(folds, start=1):
        # from the slit, at the far end of the front of the wrist
        from_slit = one - wrist.slit - gone
        notches.append(Notch(f"pleat {k}", Station(at_front, from_slit, "end"), marks=NotchMark.PLEAT_PLACE))
        gone += other - one
    overlap = derived.length("overlap")
    middle = 1.5 * deep
    points = (
        MarkPoint("buttonhole", Point(0.5 * overlap, middle)),
        MarkPoint("button", Point(whole - 0.5 * overlap, middle)),
    )
    across = Vec(0.3 * whole, 0.0)
    centre = Point(0.5 * whole, 0.5 * deep)
    return Piece(
        name,
        edges,
        Cut(wrist.piece.cut.count, mirror=wrist.piece.cut.mirror, interfacing=wrist.piece.cut.count),
        Grain(centre + across * -1.0, centre + across),
        notches=tuple(notches),
        lines=(MarkLine("fold line", Point(0.0, deep), Point(whole, deep), level=Level.FOLD),),
        points=points,
        identity=Identity(PieceKind.CUFF, BodyPart.SLEEVE),
    )
