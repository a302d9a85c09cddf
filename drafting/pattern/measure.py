"""What the finished garment measures: where the tape lies on the pieces, so that every alteration shows in it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from drafting.dataclass import dataclass
from drafting.geometry import distance
from drafting.pattern.locate import across, has_sleeve, reach
from drafting.pattern.piece import Piece
from drafting.pattern.places import CENTRES, BodyPart

__all__ = [
    "Across",
    "Along",
    "Bent",
    "Between",
    "Curved",
    "Finished",
    "Measure",
    "Tape",
    "finished_of",
    "hangs_from",
    "length_on",
    "relaid",
]


@dataclass(frozen=True, slots=True)
class Across:
    """The width of a piece at a marked line, open darts left out, counted `times`."""

    piece: str
    line: str
    times: float = 1.0


@dataclass(frozen=True, slots=True)
class Along:
    """The length of an edge, counted `times`."""

    piece: str
    edge: str
    times: float = 1.0


@dataclass(frozen=True, slots=True)
class Between:
    """The straight distance between two marked points of a piece, counted `times`."""

    piece: str
    one: str
    other: str
    times: float = 1.0


@dataclass(frozen=True, slots=True)
class Bent:
    """The width at a marked line that a dart has bent, counted `times`.

    `line` runs from where the piece begins to the dart, `onward` from the dart to where the piece ends.
    """

    piece: str
    line: str
    onward: str
    times: float = 1.0


@dataclass(frozen=True, slots=True)
class Curved:
    """How much further the tape lies across a piece than straight at a marked line, `by` mm, counted `times`.

    Where slashes have fanned the cloth, what was level lies in an arc, and the line is its chord.
    """

    piece: str
    line: str
    by: float
    times: float = 1.0


Tape = Across | Along | Between | Bent | Curved
"""One stretch of tape, and where it is laid."""


@dataclass(frozen=True, slots=True)
class Measure:
    """One measurement of the finished garment: where the tape lies, and what it is compared with.

    key:   the body measurement it goes round or along, "" for none
    body:  that measurement in mm, None where there is none
    ease:  what was asked to be added to it, mm
    least: the least ease with which one can get in and move, mm; None where it does not matter
    round: whether it goes round the body
    snug:  the ease below which it is tighter than is usual, mm; None where nobody says
    beyond: what a part goes on beyond the pieces, mm: a band at the end of a sleeve
    """

    name: str
    tape: tuple[Tape, ...]
    key: str = ""
    body: float | None = None
    ease: float = 0.0
    least: float | None = None
    round: bool = False
    snug: float | None = None
    beyond: float = 0.0


@dataclass(frozen=True, slots=True)
class Finished:
    """A measurement of the finished garment against the body, mm."""

    name: str
    finished: float
    body: float | None
    ease: float | None
    least: float | None = None


def finished_of(pieces: Iterable[Piece], measures: Iterable[Measure]) -> tuple[Finished, ...]:
    """These measurements as these pieces give them, among them every one that the tape is laid on."""
    named = {piece.name: piece for piece in pieces}
    out = []
    for measure in measures:
        value = length_on(named, measure)
        ease = None if measure.body is None else value - measure.body
        out.append(Finished(measure.name, value, measure.body, ease, measure.least))
    return tuple(out)


def length_on(pieces: Mapping[str, Piece], measure: Measure) -> float:
    """What these pieces, by name, give for one measurement with what goes on beyond them, mm."""
    return measure.beyond + sum(_tape_length(part, pieces) for part in measure.tape)


def hangs_from(pieces: Mapping[str, Piece], measure: Measure) -> BodyPart | None:
    """Where a length down the centre to the hem begins: on the bodice, at the neck, or on the skirt, at the waist.

    None for every other measurement: one that goes along the body or round it, or that does not run down a centre.
    """
    laid = [part for part in measure.tape if not isinstance(part, Curved)]
    if measure.key or measure.round or measure.body is not None or not all(_down_centre(part, pieces) for part in laid):
        return None
    # a waist that runs to a point goes on down the bodice before the skirt begins
    found = {pieces[part.piece].identity.part for part in laid}
    return next((part for part in (BodyPart.SKIRT, BodyPart.BODICE) if part in found), None)


def _down_centre(part: Tape, pieces: Mapping[str, Piece]) -> bool:
    """Whether a stretch of tape lies along a centre, or straight from a point to another well below it."""
    piece = pieces[part.piece]
    if isinstance(part, Along):
        return piece.edge(part.edge).place in CENTRES
    if not isinstance(part, Between):
        return False
    way = piece.point(part.other) - piece.point(part.one)
    return abs(way.y) > abs(way.x)


def relaid(
    measures: Iterable[Measure], piece: str, lay: Callable[[Measure, Tape], Iterable[Tape]]
) -> tuple[Measure, ...]:
    """The measurements with what of their tape lies on a piece laid as `lay` says, no stretch of it twice."""
    out = []
    for measure in measures:
        tape = list[Tape]()
        for part in measure.tape:
            new = lay(measure, part) if part.piece == piece else (part,)
            tape += [each for each in new if part.piece != piece or each not in tape]
        out.append(replace(measure, tape=tuple(tape)))
    return tuple(out)


def _tape_length(part: Tape, pieces: Mapping[str, Piece]) -> float:
    """What one part of a tape measures on its piece, mm, as often as it counts."""
    piece = pieces[part.piece]
    if isinstance(part, Across):
        return part.times * across(piece, part.line)
    if isinstance(part, Along):
        return part.times * piece.edge(part.edge).length
    if isinstance(part, Curved):
        return part.times * part.by
    if isinstance(part, Bent):
        level, onward = piece.line(part.line), piece.line(part.onward)
        if has_sleeve(piece):  # the lines themselves end where the body does, a slit for a gusset before that
            return part.times * (distance(level.start, level.end) + distance(onward.start, onward.end))
        first = reach(piece, level.end, level.start - level.end)
        return part.times * (first + reach(piece, onward.start, onward.end - onward.start))
    return part.times * distance(piece.point(part.one), piece.point(part.other))
