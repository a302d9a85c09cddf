"""What a cutter's eye finds on the curves of a bodice and a sleeve, line by line, beside what the trade asks for.

Reads pattern.json with json and numpy alone: the cubics are sampled, turning is the angle between chords. The limits
are our figures, but for the clearance from the corner of the armhole (common practice: 15 to 25 mm).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from tests.outside.stranger import Draft

FRONT, BACK, SLEEVE = "bodice front", "bodice back", "sleeve"
_CHORD = 15.0
_WINDOW = 40.0
_NARROW = 33.0
"""mm of half-width below which an armhole is too narrow for the table (ours)."""

Array = Any


@dataclass(frozen=True)
class Eye:
    """One line: what was looked at, what was found, what it is held to.

    at_least: whether `limit` is a least (else a most)
    narrow:   whether the armhole is too narrow there for the table to be asked of it
    """

    what: str
    found: float
    limit: float
    at_least: bool = False
    narrow: bool = False

    @property
    def holds(self) -> bool:
        return self.found >= self.limit if self.at_least else self.found <= self.limit

    @property
    def over(self) -> float:
        """How far past the limit it is, in the unit of the line; below zero where it holds."""
        return self.limit - self.found if self.at_least else self.found - self.limit


def table(draft: Draft) -> tuple[Eye, ...]:
    """Every line for the curves of a bodice, and of a sleeve where there is one."""
    names = {piece["name"] for piece in draft.table["pieces"]}
    lines = [*_armhole(draft, FRONT), *_armhole(draft, BACK), *_neck(draft, FRONT), *_neck(draft, BACK)]
    if SLEEVE in names:
        lines += _crown(draft)
    return tuple(lines)


@dataclass(frozen=True)
class Line:
    """A flattened line: its places, how far along it each is, the direction of each chord, unwound, radians."""

    places: Array
    along: Array
    headings: Array

    @property
    def turning(self) -> Array:
        """How much has been turned, either way, up to the middle of each chord, radians."""
        return np.r_[0.0, np.cumsum(np.abs(np.diff(self.headings)))]

    @property
    def middles(self) -> Array:
        return 0.5 * (self.along[1:] + self.along[:-1])

    def tightest(self) -> float:
        """The least radius, mm: chord by chord, how far is gone for how much is turned."""
        turned = np.abs(np.diff(self.headings))
        gone = np.diff(self.middles)
        return float((gone / np.maximum(turned, 1e-12)).min())

    def most_turning(self, window: float) -> float:
        """The largest share of all turning in a window of so many mm."""
        whole, middles = self.turning, self.middles
        if self.along[-1] <= window:
            return 1.0
        starts = np.linspace(0.0, self.along[-1] - window, 400)
        within = np.interp(starts + window, middles, whole) - np.interp(starts, middles, whole)
        return float(within.max() / whole[-1])

    def wavering(self) -> float:
        """How much is turned against the turn of the whole, degrees."""
        turned = np.diff(self.headings)
        return float(np.degrees(min(turned[turned > 0.0].sum(), -turned[turned < 0.0].sum())))

    def turned_within(self, reach: float) -> float:
        """How much is turned over the first `reach` mm, radians."""
        return float(np.interp(reach, self.middles, self.turning))


def line(places: Array) -> Line:
    """The line through these places."""
    steps = np.diff(places, axis=0)
    sizes = np.hypot(*steps.T)
    headings = np.unwrap(np.arctan2(steps[:, 1], steps[:, 0]))
    return Line(places, np.r_[0.0, np.cumsum(sizes)], headings)


def allowance(draft: Draft, piece: str, edge: str) -> float:
    """The allowance beside an edge, mm."""
    return float(next(row["allowance"] for row in draft.piece(piece)["outline"] if row["edge"] == edge))


def up_from_the_underarm(draft: Draft, piece: str) -> Array:
    """The armhole from the side seam to the shoulder, the centre line on the left."""
    places = draft.points(piece, "armhole")
    places = places if places[0, 1] < places[-1, 1] else places[::-1]
    return places * np.array([1.0 if places[:, 0].mean() > 0.0 else -1.0, 1.0])


def _armhole(draft: Draft, piece: str) -> Iterator[Eye]:
    up = line(up_from_the_underarm(draft, piece))
    under = up.places[0]
    low = up.places[: 1 + int(np.argmax(up.places[:, 1] > under[1] + 0.6 * (up.places[-1, 1] - under[1])))]
    half = float(under[0] - low[:, 0].min())
    narrow = half < _NARROW
    where = f"{piece.rsplit(maxsplit=1)[-1]} armhole"
    along = np.array([np.interp(_CHORD, up.along, up.places[:, k]) for k in (0, 1)]) - under
    level = abs(np.degrees(np.arctan2(*(up.places[1] - under)[::-1] * np.array([1.0, -1.0]))))
    yield Eye(f"{where}: off level at the side seam, degrees", level, 1.0)
    chord = np.degrees(np.arctan2(along[1], -along[0]))
    yield Eye(f"{where}: rise over the first 15 mm, degrees", chord, 15.0 if half < 40.0 else 12.0, narrow=narrow)
    least = max(22.0, allowance(draft, piece, "armhole") + 5.0)
    yield Eye(f"{where}: tightest bend, mm", up.tightest(), least, at_least=True, narrow=narrow)
    yield Eye(f"{where}: share of its turning in 40 mm", up.most_turning(_WINDOW), 0.6, narrow=narrow)
    corner = np.array([low[:, 0].min(), under[1]])
    clear = float(np.hypot(*(up.places - corner).T).min())
    yield Eye(f"{where}: clear of its corner, mm", clear, 14.0, at_least=True, narrow=narrow)
    yield Eye(f"{where}: turned the other way, degrees (ours)", up.wavering(), 2.0)


def _neck(draft: Draft, piece: str) -> Iterator[Eye]:
    places = draft.points(piece, "neck")
    places = places if abs(places[0, 0]) < abs(places[-1, 0]) else places[::-1]
    places = np.abs(places)
    neck = line(places)
    where = f"{piece.rsplit(maxsplit=1)[-1]} neck"
    least = allowance(draft, piece, "neck") + 3.0
    yield Eye(f"{where}: tightest bend, mm", neck.tightest(), least, at_least=True)
    yield Eye(f"{where}: turned the other way, degrees", neck.wavering(), 0.01)
    if piece == BACK:
        rise = np.interp(2.0 / 3.0 * places[-1, 0], places[:, 0], places[:, 1]) - places[0, 1]
        # one even curve rises from the centre on; 1.5 mm was the limit of the line that lay level and then turned up
        yield Eye(f"{where}: rise over the middle two thirds, mm (ours)", float(rise), 3.0)
        half = np.interp(0.5 * places[-1, 0], places[:, 0], places[:, 1]) - places[0, 1]
        yield Eye(f"{where}: has left the level by half its width, mm (ours)", float(half), 0.4, at_least=True)


def _crown(draft: Draft) -> Iterator[Eye]:
    front = line(draft.points(SLEEVE, "cap front")[::-1])
    back = line(draft.points(SLEEVE, "cap back"))
    if abs(front.headings[0]) > abs(front.headings[-1]):
        front, back = line(front.places[::-1]), line(back.places[::-1])
    for reach in (20.0, 40.0):
        one, other = front.turned_within(reach), back.turned_within(reach)
        even = min(one, other) / max(one, other)
        yield Eye(f"crown: bending before and behind, the less by the more, over {reach:.0f} mm", even, 2.0 / 3.0, True)
    yield Eye("crown: tightest bend, mm (ours)", min(front.tightest(), back.tightest()), 25.0, at_least=True)
