"""Loops for a belt, loops for buttons, and tabs that hold a rolled sleeve up.

A button loop and the edge it is sewn to go round the button as it passes: loop and the space between its ends are
together twice the width and the thickness of the button (plane geometry). The space is as wide as the button (ours).
"""

from __future__ import annotations

from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Point, Vec
from drafting.parts.attached.small_pieces import SEAM, folded_strip, mark_on_edge, pieces_with, pointed_tab
from drafting.parts.drawn import Drawn
from drafting.parts.what_helps import opened_at, set_here
from drafting.pattern import (
    BodyPart,
    Derived,
    Edge,
    Identity,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    edges_at,
    free_piece_name,
    line_at,
)
from drafting.pattern.buttons import BEYOND_CENTRE

__all__ = [
    "BELT_LOOPS",
    "BUTTON_LOOPS",
    "SLEEVE_TABS",
    "draw_belt_loops",
    "draw_button_loops",
    "draw_sleeve_tabs",
    "loop_length",
]

BELT_LOOPS, BUTTON_LOOPS, SLEEVE_TABS = "belt loops", "button loops", "sleeve tabs"

_OVER_BELT: Final = 12.0  # mm that a loop is longer than a belt is wide (common practice: 1 to 1.5 cm)
_TURNED: Final = 10.0  # mm turned under at both ends of a belt loop (common practice)
_IN_FRONT, _BEHIND = 0.55, 0.5  # where loops lie between centre and side, of that way (ours)
_LOOP: Final = 4.0  # mm: how thick a button loop is (common practice: 3 to 5)
_BETWEEN: Final = 8.0  # mm between one button loop and the next (ours)
_MARK: Final = 10.0  # mm: how long the mark of a belt loop is
_ABOVE_ELBOW: Final = 30.0  # mm: where a sleeve tab is sewn on (common practice: just above the elbow)


def loop_length(button: float) -> float:
    """How long a button loop is between its two ends, for a flat button so wide, mm."""
    return 2.0 * (button + BEYOND_CENTRE) - button


def draw_belt_loops(pattern: Pattern, derived: Derived) -> Drawn:
    """One strip for all loops, and where they lie along the waist. Raises NotAPattern where there is no waist."""
    belt, width, count = derived.length("belt"), derived.length("width"), round(derived.length("count"))
    marks: list[tuple[str, MarkLine]] = []
    halves = ((PieceKind.FRONT, _IN_FRONT), (PieceKind.BACK, _BEHIND))
    for kind, share in halves[: 1 if count <= _FIVE else 2]:
        pieces = (each for of in _BELOW for each in pieces_with(pattern, of, Place.WAIST, kind))
        marks += [(piece.name, _at_share(piece, share)) for piece in (next(pieces, None),) if piece is not None]
    if not marks:
        raise NotAPattern(BELT_LOOPS, reason="there is no skirt and there are no trousers with a waist")
    one = belt + _OVER_BELT + 2.0 * _TURNED
    part = pattern.piece(marks[0][0]).identity.part
    strip = folded_strip(
        free_piece_name(pattern, BELT_LOOPS), (count * one, width), 0.0, 1, Identity(PieceKind.LOOP, part)
    )
    return Drawn((strip,), (), lines=tuple(marks))


_BELOW: Final = (BodyPart.TROUSERS, BodyPart.SKIRT)
_FIVE: Final = 5  # loops: at the centre back, the sides, and in front; more lie behind as well


def _at_share(piece: Piece, share: float) -> MarkLine:
    """The mark of a loop on the waist, so far from the centre to the side."""
    waist = edges_at(piece, Place.WAIST)
    whole = sum(edge.length for edge in waist)
    first = piece.beside(waist[0].name)[0]
    at = (1.0 - share if first.place in (Place.SIDE, Place.OUTSEAM) else share) * whole
    for edge in waist:
        if at <= edge.length or edge is waist[-1]:
            return mark_on_edge("belt loop", edge, at, _MARK)
        at -= edge.length
    raise NotAPattern(BELT_LOOPS, reason="the waist has no length")


def draw_button_loops(pattern: Pattern, derived: Derived) -> Drawn:
    """One bias strip for all loops, and where each lies on the opening. Raises NotAPattern where nothing opens."""
    button, count = derived.length("button"), round(derived.length("count"))
    for piece in pieces_with(pattern, BodyPart.BODICE, Place.NECK):
        for edge in (each for each in piece.edges if each.role is Role.OPENING):
            before, after = piece.beside(edge.name)
            if Place.NECK in (before.place, after.place):
                marks = [
                    (piece.name, each) for each in _loop_marks(edge, button, count, down=before.place is Place.NECK)
                ]
                one = loop_length(button) + 2.0 * SEAM
                size = (count * one, _LOOP)
                identity = Identity(PieceKind.LOOP, BodyPart.BODICE)
                strip = folded_strip(free_piece_name(pattern, BUTTON_LOOPS), size, 0.0, 1, identity, bias=True)
                return Drawn((strip,), (), lines=tuple(marks))
    raise NotAPattern(BUTTON_LOOPS, reason="nothing opens at the neck", remedies=(opened_at("centre back"),))


def _loop_marks(edge: Edge, button: float, count: int, *, down: bool) -> list[MarkLine]:
    """The marks of the loops, the first just below the neck."""
    step = button + _BETWEEN
    places = [SEAM + 0.5 * button + k * step for k in range(count)]
    if places[-1] + 0.5 * button > edge.length:
        most = max(1, int((edge.length - SEAM - button) / step) + 1)
        raise NotAPattern(
            BUTTON_LOOPS, reason=f"the opening is {edge.length:.0f} mm long", remedies=(set_here("count", most),)
        )
    return [
        mark_on_edge(f"button loop {k + 1}", edge, at if down else edge.length - at, button)
        for k, at in enumerate(places)
    ]


def draw_sleeve_tabs(pattern: Pattern, derived: Derived) -> Drawn:
    """A tab for each sleeve, and where it is sewn on inside. Raises NotAPattern where there is no long sleeve."""
    long, width = derived.length("length"), derived.length("width")
    sleeves = pieces_with(pattern, BodyPart.SLEEVE, Place.WRIST, PieceKind.SLEEVE)
    elbow = line_at(sleeves[0], Level.ELBOW) if sleeves else None
    if elbow is None:
        raise NotAPattern(SLEEVE_TABS, reason="there is no sleeve that goes on below an elbow")
    middle = Point(0.5 * (elbow.start.x + elbow.end.x), elbow.start.y + _ABOVE_ELBOW)
    line = MarkLine("the tab is sewn on inside here", middle - Vec(0.5 * width, 0.0), middle + Vec(0.5 * width, 0.0))
    hole = MarkPoint("buttonhole", Point(long - 0.75 * width, 0.5 * width), Landmark.BUTTON)
    tab = pointed_tab(free_piece_name(pattern, "sleeve tab"), long, width, 2, (hole,))
    return Drawn((tab,), (), lines=((sleeves[0].name, line),))
