"""What is gathered or eased, from where to where, on both pieces: read off the seams, so it is true of any pattern.

Between two places where a seam's runs are to meet (its ends, its notches, the end of a button stand) one run may be
longer than the other: that much is drawn in there. A stretch that would be drawn up to nothing, as the mouth of a dart
left unsewn is, takes the cloth beside it up to the next notches: no thread draws cloth up to a point.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Curve, cut_run, run_reversed
from drafting.geometry.offset import parallel_run
from drafting.pattern.locate import ref_curves
from drafting.pattern.pattern import Pattern
from drafting.pattern.places import Fullness, NotchMark, PieceKind, Place
from drafting.pattern.pleats import pleats_on
from drafting.pattern.seam import EdgeRef, Seam
from drafting.pattern.walk import Walked, walk

__all__ = [
    "Held",
    "Meeting",
    "beside_threads",
    "held_in",
    "is_drawn_evenly",
    "is_stretched_on",
    "meeting_places",
    "thread_lines",
]

_LEAST: Final = 3.0
"""mm. Less than that is held in by the hand without thinking (our figure)."""

_MUCH: Final = 0.25
"""The share by which a stretch may be longer than what it meets and still be eased in, where the seam as a whole is
(our figure: between the notch and the crown a cap takes up all the ease of its half)."""

_THREADS: Final = (3.0, 6.0)
"""mm in from the sewing line: two rows of long stitches, drawn up together (common practice)."""

_CLEAR_OF_THREADS: Final = 3.0
"""mm further in than the threads (ours)."""

_NOTHING: Final = 1.0
"""mm of seam to which nothing can be drawn up."""


@dataclass(frozen=True, slots=True)
class Held:
    """One stretch of a seam on one piece, gathered or eased in, or what is gathered or eased onto it.

    longer:      whether it is this piece that is gathered
    begin, end:  what it lies between on this piece: the name of a notch, or "" for the end of the seam line
    curves:      the stretch of the sewing line, anticlockwise round the piece
    to:          how long it is to be when it is sewn, mm; as long as it is on the piece it is sewn onto
    """

    seam: str
    piece: str
    kind: Fullness
    longer: bool
    begin: str
    end: str
    curves: tuple[Curve, ...]
    length: float
    to: float


@dataclass(frozen=True, slots=True)
class Meeting:
    """Where both runs of a seam meet, mm along each, and the notches that mark it."""

    a: float
    b: float
    mark_a: str = ""
    mark_b: str = ""


def held_in(pattern: Pattern) -> Iterator[Held]:
    """All that is gathered or eased in a pattern, in the order of its seams, on the longer piece first."""
    for seam in pattern.seams:
        if seam.plain or is_drawn_evenly(pattern, seam) or _in_pleats(pattern, seam):
            continue
        walked = walk(pattern, seam)
        for one, other in _stretches(walked):
            on_a = other.a - one.a > other.b - one.b
            long, short = (other.a - one.a, other.b - one.b)[:: 1 if on_a else -1]
            named = _unsewn(pattern, seam.a if on_a else seam.b, *((one.a, other.a) if on_a else (one.b, other.b)))
            much = walked.gathered or long > (1.0 + _MUCH) * short
            kind = named or (Fullness.GATHERED if much else Fullness.EASED)
            for run, longer, places, marks in (
                (seam.a, on_a, (one.a, other.a), (one.mark_a, other.mark_a)),
                (seam.b, not on_a, (one.b, other.b), (one.mark_b, other.mark_b)),
            ):
                yield from _on_pieces(pattern, seam, run, places, marks, kind, longer, short / long if longer else 1.0)


def is_stretched_on(pattern: Pattern, seam: Seam) -> bool:
    """Whether a seam sews a band of knit on, which is stretched to the edge: nothing is gathered there."""
    pieces = [(pattern.piece(ref.piece), ref.edge) for ref in seam.b]
    return all(
        piece.identity.kind is PieceKind.BAND and piece.edge(edge).place is Place.BAND_EDGE for piece, edge in pieces
    )


def is_drawn_evenly(pattern: Pattern, seam: Seam) -> bool:
    """Whether a seam sews on what is pulled to its edge evenly: a band of knit, or a bias strip."""
    strips = [pattern.piece(ref.piece).identity.kind is PieceKind.BINDING for ref in seam.b]
    return all(strips) or is_stretched_on(pattern, seam)


def _in_pleats(pattern: Pattern, seam: Seam) -> bool:
    """Whether what one side is longer is folded in pleats."""
    marks = (pattern.piece(one.piece).notch(one.notch).marks for one, _ in seam.notches)
    return any(mark is NotchMark.PLEAT_FOLD for mark in marks) or any(
        pleats_on(pattern.piece(ref.piece), ref.edge) for ref in (*seam.a, *seam.b)
    )


def _unsewn(pattern: Pattern, run: Sequence[EdgeRef], low: float, high: float) -> Fullness | None:
    """How a dart left unsewn in a stretch of a run is taken up, as the edge over its mouth says."""
    gone = 0.0
    for ref in run:
        edge = pattern.piece(ref.piece).edge(ref.edge)
        middle = gone + 0.5 * edge.length
        gone += edge.length
        if low < middle < high and edge.drawn_up is not None:
            return edge.drawn_up
    return None


def meeting_places(walked: Walked) -> list[Meeting]:
    """Where both runs of a seam are to meet, in the order of the walk: its ends, its notches, where it lies flat."""
    start, end = walked.flat
    places = [
        Meeting(pair.along_a, pair.along_b, pair.a.notch, pair.b.notch)
        for pair in walked.notches
        if pair.along_a is not None and pair.along_b is not None
    ]
    # the end of what lies flat may have a notch of its own
    flat = (Meeting(start, start), Meeting(walked.a - end, walked.b - end))
    places += [each for each in flat if all(abs(each.a - other.a) > _NOTHING for other in places)]
    places += [Meeting(0.0, 0.0), Meeting(walked.a, walked.b)]
    return sorted(places, key=lambda place: (place.a, place.b, not place.mark_a))


def _stretches(walked: Walked) -> list[tuple[Meeting, Meeting]]:
    """What one run has more of than the other, between places where they meet; neighbours of one kind as one."""
    places = meeting_places(walked)
    parts = [
        (one, other) for one, other in pairwise(places) if other.a - one.a > _NOTHING or other.b - one.b > _NOTHING
    ]
    held = [_kind(part) for part in parts]
    # what is drawn up to nothing takes the cloth on both sides of it along
    for k, (one, other) in enumerate(parts):
        if held[k] and min(other.a - one.a, other.b - one.b) < _NOTHING:
            for beside in (k - 1, k + 1):
                if 0 <= beside < len(parts):
                    held[beside] = held[k]
    joined: list[tuple[Meeting, Meeting]] = []
    last = 0
    for part, kind in zip(parts, held, strict=True):
        if kind and last == kind:
            joined[-1] = (joined[-1][0], part[1])
        elif kind:
            joined.append(part)
        last = kind
    return joined


def _kind(part: tuple[Meeting, Meeting]) -> int:
    """1 where the first run is longer by what shows, -1 where the second is, else 0."""
    one, other = part
    more = (other.a - one.a) - (other.b - one.b)
    return 0 if abs(more) < _LEAST else 1 if more > 0.0 else -1


def _on_pieces(
    pattern: Pattern,
    seam: Seam,
    run: Sequence[EdgeRef],
    places: tuple[float, float],
    marks: tuple[str, str],
    kind: Fullness,
    longer: bool,
    share: float,
) -> Iterator[Held]:
    """A stretch of a run, apart for each piece that it lies on."""
    gone = 0.0
    found: dict[str, tuple[list[Curve], float, bool]] = {}
    for ref in run:
        curves = ref_curves(pattern.pieces, ref)
        whole = pattern.piece(ref.piece).edge(ref.edge).length
        low, high = max(0.0, places[0] - gone), min(whole, places[1] - gone)
        if high - low > _NOTHING:
            before = cut_run(curves, high)[0] if high < whole else curves
            part = cut_run(before, low)[1] if low > 0.0 else before
            sofar, long, _ = found.setdefault(ref.piece, ([], 0.0, ref.backward))
            sofar.extend(part)
            found[ref.piece] = (sofar, long + high - low, ref.backward)
        gone += whole
    for piece, (stretch, long, backward) in found.items():
        notches = {notch.name for notch in pattern.piece(piece).notches}
        begin, end = (mark if mark in notches else "" for mark in marks)
        curves = run_reversed(stretch) if backward else tuple(stretch)
        ends = (end, begin) if backward else (begin, end)
        yield Held(seam.name, piece, kind, longer, *ends, curves, long, long * share)


def thread_lines(held: Held) -> tuple[Curve, ...]:
    """Two lines along a stretch that is gathered, inside the piece: where the threads run that draw it up."""
    return tuple(curve for inward in _THREADS for curve in parallel_run(held.curves, -inward))


def beside_threads(held: Held) -> tuple[Curve, ...]:
    """A line clear of the threads, further inside the piece: what is said of them stands along it."""
    return parallel_run(held.curves, -(max(_THREADS) + _CLEAR_OF_THREADS))
