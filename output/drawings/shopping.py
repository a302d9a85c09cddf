"""What a pattern shows has to be bought beside thread: cloth, fastenings, buttons."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from drafting.pattern import Landmark, Pattern, Place, Role, is_back, is_front, points_at
from drafting.reading.units import length_text

__all__ = ["things_to_buy"]

_OPENINGS: Final = (Place.CENTRE_BACK, Place.CENTRE_FRONT, Place.SIDE)
_SAME: Final = 0.05  # mm: what no shop tells apart


def things_to_buy(patterns: Sequence[Pattern], unit: str, cloth: Sequence[str] = ()) -> tuple[str, ...]:
    """A line for each thing, lengths in `unit`; of several sizes from the shortest to the longest.

    patterns: the sizes of one garment, or one pattern alone
    cloth:    lines that say how much cloth of each kind, where that is known
    """
    first = patterns[0]
    return (*(cloth or _other_cloth(first)), *_fastenings(patterns, unit), *_buttons(first, unit))


def _fastenings(patterns: Sequence[Pattern], unit: str) -> Iterator[str]:
    for place in _OPENINGS:
        lengths = [_open(pattern, place) for pattern in patterns]
        if min(lengths) > 0.0 and not _button_count(patterns[0]):
            yield f"a zip (or another fastening) for the {place}: it is open for {_range(lengths, unit)}"


def _open(pattern: Pattern, place: Place) -> float:
    """How long the opening at that place is, mm; 0 for none. At a side, front and back each have it whole."""
    halves = []
    for lies in (is_front, is_back):
        edges = [edge for piece in pattern.pieces if lies(piece) for edge in piece.edges]
        halves.append(sum(edge.length for edge in edges if edge.role is Role.OPENING and edge.place is place))
    return max(halves)


def _range(lengths: Sequence[float], unit: str) -> str:
    shortest, longest = length_text(min(lengths), unit), length_text(max(lengths), unit)
    if max(lengths) - min(lengths) < _SAME or shortest == longest:
        return longest
    return f"{shortest.removesuffix(f' {unit}')} to {longest}"


def _button_count(pattern: Pattern) -> int:
    return sum(len(points_at(piece, Landmark.BUTTON)) for piece in pattern.pieces)


def _buttons(pattern: Pattern, unit: str) -> Iterator[str]:
    """How many buttons, and of which diameter where a step says it."""
    count = _button_count(pattern)
    if count:
        asked = [dict(step.options).get("button") for step in pattern.history if step.alter == "opening"]
        across = [mm for mm in asked if isinstance(mm, float)]
        size = f" of {length_text(across[-1], unit)}" if across else ""
        yield f"{count} button{'s' if count > 1 else ''}{size}"


def _other_cloth(pattern: Pattern) -> Iterator[str]:
    for cloth in ("interfacing", "lining"):
        names = [piece.name for piece in pattern.pieces if getattr(piece.cut, cloth)]
        if names:
            yield f"{cloth} for {names[0] if len(names) == 1 else ', '.join(names[:-1]) + ' and ' + names[-1]}"
