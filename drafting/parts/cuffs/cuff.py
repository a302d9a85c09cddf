r"""The cuff of a shirt: a band that closes at a slit in the sleeve, whose lower edge is pleated or gathered into it.

The seam of the cuff is as long as the wrist, the ease and the overlap together; the binding of the slit takes a part of
this length, the sleeve the rest. Where the sleeve is wider, it is laid in pleats that face the slit, or gathered
(M. Ingalls, Text-Book on Domestic Art: the slit on the under side, the cuff's depth taken off the sleeve). The cuff is
cut in one and folded.

      back underarm            slit                       front underarm
    sleeve |--------------------|--<<--<<---------------------|      q: a quarter of the edge
           the cuff begins at the slit, goes round by the underarm, and ends there
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from drafting.errors import NotAPattern, Setting
from drafting.geometry import Line, Point, Vec
from drafting.parts.cuffs.cuff_lengths import BINDING, cuff_length, sleeve_edge, slit_needed
from drafting.parts.cuffs.wrist_marks import (
    CUFF,
    PLEATED,
    WristEdge,
    pleat_arrows,
    pleats_at,
    slit_line,
    wrist_edge,
    wrist_notches,
)
from drafting.parts.drawn import Drawn
from drafting.parts.what_helps import step_first
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

__all__ = ["CUFF_TO", "draw_cuff"]

CUFF_TO: Final = (DrawnTo(Place.WRIST, Identity(PieceKind.SLEEVE, BodyPart.SLEEVE)),)


_SLIT, _CHILDS_SLIT = 100.0, 70.0  # mm: 9 to 12 cm are comfortable, 6 to 8 for a child (common practice)
_PLAIN: Final = 10.0  # mm that are eased in without pleats or gathers (ours)
_GATHERS_GIVE: Final = 0.02  # share of what is gathered in by which it may be off (ours)


def draw_cuff(pattern: Pattern, derived: Derived) -> Drawn:
    """The cuff, and the slit above it. Raises NotAPattern where there is no wrist, or too little sleeve for it."""
    sleeve = next((piece for source in derived.to for piece in pieces_drawn_to(pattern, source)), None)
    girth = next((length.mm for length in pattern.wearer.lengths if length.key == "wrist_girth"), 0.0)
    if sleeve is None or not girth:
        raise NotAPattern(CUFF, reason="there is no sleeve down to a wrist, or the wrist is not measured")
    wrist = wrist_edge(sleeve)
    whole = cuff_length(girth, derived.length("ease"), derived.length("overlap"))
    more = wrist.long - sleeve_edge(whole, 0.0)
    if more < -1.0:
        raise NotAPattern(
            CUFF,
            reason=f"it is {whole:.0f} mm long and the lower edge of the sleeve only {wrist.long:.0f} mm",
            remedies=(step_first("full sleeve", Setting("hem", float(math.ceil(-more)), "mm")),),
        )
    wants = derived.length_or("slit", _CHILDS_SLIT if pattern.wearer.child else _SLIT)
    slit = max(wants, slit_needed(girth, whole))
    pleated = dict(derived.options)["into"] == PLEATED and more > _PLAIN
    folds = pleats_at(wrist, more, round(derived.length("pleats"))) if pleated else ()
    back = wrist.slit * (1.0 if pleated else (whole - BINDING) / wrist.long)
    piece = _piece(free_piece_name(pattern, CUFF), wrist, whole, back, derived, folds)
    marks = wrist_notches(wrist, folds)
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
        ((sleeve.name, slit_line(wrist, slit)), *((sleeve.name, arrow) for arrow in pleat_arrows(wrist, folds))),
    )


def _ease(more: float, *, pleated: bool) -> SeamEase:
    if pleated:
        return SeamEase(more, more - 1.0, more + 1.0)
    if more <= _PLAIN:
        return SeamEase(more, min(0.0, more), _PLAIN)
    return SeamEase(more, more * (1.0 - _GATHERS_GIVE), more * (1.0 + _GATHERS_GIVE))


def _piece(
    name: str, wrist: WristEdge, whole: float, back: float, derived: Derived, folds: Sequence[tuple[float, float]]
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
