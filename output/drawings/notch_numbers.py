"""The numbers beside notches: the same on both pieces where two notches meet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from drafting.geometry import Curve, Point, Vec, lerp
from drafting.pattern import Piece
from drafting.pattern.notches import notch_ends
from drafting.pattern.seam_ends import Sewn
from output.drawings.drawing import KIND_LAYERS, Item, LineKind, Text
from output.drawings.free_space import first_clear, obstacles
from output.drawings.lettering import block, text_width

__all__ = ["notch_numbers"]

_SIZE = 3.5  # of the writing, mm
_AIR = 1.0  # kept free around it, mm
_INWARD = (4.0, 5.5, 7.0, 9.0)  # how far inside the sewing line, mm
_ASIDE = (0.0, 4.0, -4.0, 8.0, -8.0)  # how far along it, mm


def notch_numbers(piece: Piece, sewn: Sewn, border: Sequence[Curve], drawn: Iterable[Item]) -> tuple[Text, ...]:
    """The number of every notch that meets another, just inside the sewing line, clear of what is drawn.

    border: the piece's cutting line
    """
    numbered = [(notch, sewn.numbers[notch.name]) for notch in piece.notches if notch.name in sewn.numbers]
    if not numbered:
        return ()
    texts: list[Text] = []
    taken = obstacles(drawn)
    for notch, number in numbered:
        marks = notch_ends(piece, notch, border)
        foot, far = (lerp(marks[0][end], marks[-1][end], 0.5) for end in (0, 1))
        # where there is no allowance the mark runs inward, and the number stands beyond it
        inward = (far - foot).unit() * (1.0 if piece.edge(notch.station.edge).allowance == 0.0 else -1.0)
        places = list(_places(foot, inward))
        words = str(number)
        room = (text_width(words, _SIZE) + _AIR, _SIZE + _AIR)
        centre = first_clear(obstacles(texts, besides=taken), places, room) or places[0]
        texts += block([(words, _SIZE, False)], centre)
    return tuple(replace(text, layer=KIND_LAYERS[LineKind.NOTCH]) for text in texts)


def _places(foot: Point, inward: Vec) -> Iterator[Point]:
    for aside in _ASIDE:
        for deep in _INWARD:
            yield foot + inward * deep + inward.left() * aside
