"""What the parts of a pattern are, taken from what they are called: for files from before a pattern said it.

A pattern.json of version 1, and a DXF of that time, have names only, and the names are the ones that the blocks and
alterations of that time gave. This is the only place where code goes by a word in a name. A name that tells nothing
leaves its part without a type, and what has a type already keeps it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final, TypeVar

from drafting.pattern.pattern import Pattern
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import Edge, MarkLine, MarkPoint, Notch, Role
from drafting.pattern.places import (
    BodyPart,
    Fullness,
    Half,
    Identity,
    Landmark,
    Level,
    NotchMark,
    PieceKind,
    Place,
)

__all__ = ["necks_by_steps", "pattern_by_names", "piece_by_names"]

T = TypeVar("T")

_PLACES: Final[Mapping[str, Place]] = {
    r".*\bdart( \d+)? seam( \d+)?": Place.PRINCESS,
    r"free edge.*": Place.FACING_EDGE,
    r"wrap edge.*": Place.WRAP_EDGE,
    r"wrap at .*": Place.WRAP,
    r"stand at .*": Place.STAND,
    r"(front|back) edge.*": Place.STAND_EDGE,
    r"centre front.*": Place.CENTRE_FRONT,
    r"centre back.*": Place.CENTRE_BACK,
    r"neck.*": Place.NECK,
    r"shoulder.*": Place.SHOULDER,
    r"armhole.*": Place.ARMHOLE,
    r"side.*": Place.SIDE,
    r"underarm.*": Place.UNDERARM,
    r"cap .*": Place.CAP,
    r"waist.*": Place.WAIST,
    r"hem.*": Place.HEM,
    r"wrist.*": Place.WRIST,
}
"""By the name of an edge, the first that fits; of the line over a dart's mouth it is what its neighbours are."""

_LEVELS: Final[Mapping[str, Level]] = {
    "underarm line": Level.SCYE,
    "bust line": Level.BUST,
    "back width line": Level.BACK_WIDTH,
    "hip line": Level.HIP,
    "biceps line": Level.BICEPS,
    "elbow line": Level.ELBOW,
    "lengthen or shorten line": Level.LENGTHEN,
    "lengthen or shorten line above the elbow": Level.LENGTHEN_ABOVE_ELBOW,
    "centre front": Level.CENTRE_FRONT,
    "centre back": Level.CENTRE_BACK,
}
_ONWARD: Final = " beyond the dart"

_LANDMARKS: Final[Mapping[str, Landmark]] = {
    r"bust point": Landmark.BUST_POINT,
    r"nape": Landmark.NAPE,
    r"neck pit": Landmark.NECK_PIT,
    r"side neck": Landmark.SIDE_NECK,
    r"crown": Landmark.CROWN,
    r"elbow": Landmark.ELBOW,
    r"wrist": Landmark.WRIST,
    r"button \d+": Landmark.BUTTON,
    r"centre (front|back), upper end": Landmark.CENTRE_TOP,
    r"centre (front|back), lower end": Landmark.CENTRE_BOTTOM,
    r"centre (front|back) at .*": Landmark.CENTRE,
    r"wrap edge at .*": Landmark.EDGE,
    r".* was closed here": Landmark.CLOSED_DART,
    r".* was closed towards here": Landmark.CLOSED_TOWARDS,
    r"point the .* is turned about": Landmark.TURNED_ABOUT,
}

_NOTCHES: Final[Mapping[str, NotchMark]] = {
    r".*(armhole|cap) notch": NotchMark.BALANCE,
    r".* seam( \d+)?( second)? notch": NotchMark.BALANCE,
    r"crown notch": NotchMark.CROWN,
    r".*elbow notch": NotchMark.ELBOW,
    r".*hip notch": NotchMark.HIP,
    r".*waist notch": NotchMark.WAIST,
    r"bust level notch": NotchMark.BUST,
    r".*zip notch": NotchMark.OPENING_END,
    r".*gathers notch": NotchMark.GATHERS_END,
    r".* (gathers|ease)( \d+)? begin( \d+)?": NotchMark.DRAWN_UP_FROM,
    r".* (gathers|ease)( \d+)? end( \d+)?": NotchMark.DRAWN_UP_TO,
    r".* (gathers|ease)( \d+)? (from|to)( \d+)?": NotchMark.DRAWN_UP_BESIDE,
    r".* (gathers|ease)( \d+)?": NotchMark.DRAWN_UP_INTO,
}

_PARTS: Final[Mapping[str, BodyPart]] = {
    "bodice": BodyPart.BODICE,
    "skirt": BodyPart.SKIRT,
    "sleeve": BodyPart.SLEEVE,
}
_HALVES: Final[Mapping[str, PieceKind]] = {"front": PieceKind.FRONT, "back": PieceKind.BACK}
_DRAWN_UP: Final[Mapping[str, Fullness]] = {
    r".* gathers( \d+)?": Fullness.GATHERED,
    r".* ease( \d+)?": Fullness.EASED,
}


def pattern_by_names(pattern: Pattern) -> Pattern:
    """The pattern with a type on every part that has none and whose name tells it."""
    pieces = tuple(piece_by_names(piece) for piece in pattern.pieces)
    same = all(now is was for now, was in zip(pieces, pattern.pieces, strict=True))
    return pattern if same else replace(pattern, pieces=pieces)


def necks_by_steps(pattern: Pattern) -> Pattern:
    """The pattern of a file that does not keep how much lower its neck lies, which its steps then tell; else itself."""
    steps = [dict(step.options) for step in pattern.history if step.alter == "neckline"]
    if not steps or any(mark.lowered for piece in pattern.pieces for mark in piece.points):
        return pattern
    return replace(pattern, pieces=tuple(_neck_by_steps(piece, steps) for piece in pattern.pieces))


def _neck_by_steps(piece: Piece, steps: Sequence[Mapping[str, object]]) -> Piece:
    mine = [step for step in steps if step.get("only") in (None, "", piece.name)]
    by_landmark = {Landmark.NECK_PIT: "depth", Landmark.NAPE: "back"}
    points = (
        replace(mark, lowered=sum(_mm(step.get(by_landmark[mark.landmark])) for step in mine))
        if mark.landmark in by_landmark
        else mark
        for mark in piece.points
    )
    return replace(piece, points=tuple(points))


def _mm(value: object) -> float:
    return float(value) if isinstance(value, int | float) else 0.0


def piece_by_names(piece: Piece) -> Piece:
    """The piece with a type on each of its parts that has none and whose name tells it; itself where nothing is new."""
    edges = _over_mouths(tuple(map(_edge, piece.edges)))
    lines, points, notches = (
        tuple(map(_line, piece.lines)),
        tuple(map(_point, piece.points)),
        tuple(map(_notch, piece.notches)),
    )
    identity = _identity(piece.name) if piece.identity == Identity() else piece.identity
    pairs = ((edges, piece.edges), (lines, piece.lines), (points, piece.points), (notches, piece.notches))
    if identity == piece.identity and all(new is old for group in pairs for new, old in zip(*group, strict=True)):
        return piece
    return replace(piece, edges=edges, lines=lines, points=points, notches=notches, identity=identity)


def _edge(edge: Edge) -> Edge:
    if edge.place is not None or edge.role is Role.DART_LEG:
        return edge
    if (drawn_up := _first(_DRAWN_UP, edge.name)) is not None:
        return replace(edge, drawn_up=drawn_up)  # its place is that of its neighbours
    place = _first(_PLACES, edge.name)
    if place is None:
        return edge
    half = _half(edge.name) if place in (Place.CAP, Place.UNDERARM) else None
    return replace(edge, place=place, half=half)


def _over_mouths(edges: tuple[Edge, ...]) -> tuple[Edge, ...]:
    return tuple(
        replace(edge, place=edges[k - 1].place) if edge.drawn_up is not None and edge.place is None else edge
        for k, edge in enumerate(edges)
    )


def _half(name: str) -> Half | None:
    return next((half for half in Half if re.search(rf"\b{half}\b", name)), None)


def _line(line: MarkLine) -> MarkLine:
    level = _LEVELS.get(line.name.removesuffix(_ONWARD))
    if line.level is not None or level is None:
        return line
    return replace(line, level=level, onward=line.name.endswith(_ONWARD))


def _point(mark: MarkPoint) -> MarkPoint:
    landmark = _first(_LANDMARKS, mark.name)
    return mark if mark.landmark is not None or landmark is None else replace(mark, landmark=landmark)


def _notch(notch: Notch) -> Notch:
    marks = _first(_NOTCHES, notch.name)
    return notch if notch.marks is not None or marks is None else replace(notch, marks=marks)


def _identity(name: str) -> Identity:
    words = re.findall(r"\w+", name)
    part = next((_PARTS[word] for word in words if word in _PARTS), None)
    half = next((_HALVES[word] for word in words if word in _HALVES), None)
    if "facing" in words:
        return Identity(PieceKind.FACING, part, of=half)
    return Identity(PieceKind.SLEEVE if part is BodyPart.SLEEVE else half, part)


def _first(table: Mapping[str, T], name: str) -> T | None:
    return next((found for words, found in table.items() if re.fullmatch(words, name)), None)
