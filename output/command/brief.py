"""What is told of a garment on one screen: verdict, failures, what was estimated, how large it comes out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from drafting.body.plausible import Doubt
from drafting.body.terms import measurement
from drafting.checks import Result, Verdict, worst
from drafting.dataclass import dataclass
from drafting.fit.ease import Ease
from drafting.pattern import BodyLength, Pattern, finished
from drafting.reading.units import length_text, sentence_in
from output.report.tables import Passage, Said, counted, ease_notes, fault_lines, finished_table

__all__ = ["Summary", "finished_in_a_line", "least_certain", "named", "summaries"]

_WORTH: Final = 6
"""Estimates that are named: more would not be measured in one go."""

_FAULTS: Final = (99, 4, 2, 1, 0)
"""How many failures and warnings are told in full; the others are named."""

_NAMES: Final = 24
"""Failures that are named in the shortest telling of all."""

_TOLD: Final = (Verdict.ERROR, Verdict.FAIL, Verdict.WARN)


@dataclass(frozen=True, slots=True)
class Summary:
    """What there is to tell of a pattern.

    about:   what stands behind its title: for whom, when, how many pieces
    doubts:  the measured lengths that look wrong
    drawn_out: a sentence where estimates reach beyond the bodies measured
    ease:    the ease at each place, of which only what is not usual is told
    measure: the command that tells how each estimated length is measured; "" for none
    written: where the files are
    """

    pattern: Pattern
    results: Sequence[Result]
    unit: str
    about: str = ""
    doubts: Sequence[Doubt] = ()
    drawn_out: Sequence[str] = ()
    ease: Sequence[Ease] = ()
    measure: str = ""
    written: tuple[Said, ...] = ()


def summaries(told: Summary) -> tuple[tuple[Said, ...], ...]:
    """The same told in fewer and fewer lines: first in full, at last by names alone."""
    ways = [(many, worth, True, True) for many in _FAULTS for worth in (_WORTH, 3)]
    ways += [(many, worth, True, False) for many in _FAULTS for worth in (_WORTH, 3)]
    ways += [(0, 3, False, False), (0, 0, False, False)]
    return tuple(tuple(_passages(told, many, worth, ease=ease, way=way)) for many, worth, way, ease in ways)


def _passages(told: Summary, many: int, worth: int, *, ease: bool, way: bool) -> Iterator[Said]:
    """What is told of a garment on one screen, passage by passage.

    many: how many faults are told; worth: how many estimates; ease, way: whether these are told as well
    """
    results, unit = told.results, told.unit
    title = ", ".join(part for part in (told.pattern.title, told.about) if part)
    sentences = [counted(results), *_faults(results, unit, many, names=None if way else _NAMES)]
    yield Passage(title, tuple(sentences), worst(results))
    if told.doubts:
        looks = [doubt.sentence for doubt in told.doubts[: 2 if many else 1]]
        more = [measurement(doubt.key).name for doubt in told.doubts[len(looks) :]]
        rest = [f"As well: {', '.join(more)}."] if more else []
        yield Passage("A slip of the tape?", (*looks, *rest), Verdict.WARN)
    if told.drawn_out:
        yield Passage("Estimated from afar", tuple(told.drawn_out), Verdict.WARN)
    gave_way = [sentence_in(unit, sentence) for origin in told.pattern.origin for sentence in origin.gave_way]
    if gave_way:
        kept = gave_way if ease else gave_way[:1]
        others = len(gave_way) - len(kept)
        yield Passage("What gave way", (*kept, *([f"And {others} more: --all tells them."] if others else [])))
    if way:
        yield from ease_notes(told.ease, unit)
    estimated = least_certain(told.pattern.wearer.lengths, unit, worth)
    if estimated:
        how = f"`{told.measure}` says how to take each." if told.measure and worth else ""
        yield Passage("Estimated, the least certain first", (" ".join(part for part in (estimated, how) if part),))
    if told.pattern.measures:
        yield finished_table(told.pattern, [unit]) if way else finished_in_a_line(told.pattern, unit)
    yield from told.written


def _faults(results: Sequence[Result], unit: str, many: int, *, names: int | None) -> Iterator[str]:
    """The first few of what failed and was warned of in full, the rest by name; at most so many names."""
    sentences = fault_lines(results, unit)
    yield from sentences[:many]
    rest = len(sentences) - many
    if rest > 0:
        by_name = named(results, len(sentences[:many]), most=names)
        yield f"{'As well' if many else 'It is'}: {by_name}. --all tells what to do about each."


def named(results: Sequence[Result], told: int, *, most: int | None = None) -> str:
    """What failed and was warned of, without the first so many of it, by check and place: "notches: neck, side"."""
    gravest = [result for verdict in _TOLD for result in results if result.verdict is verdict][told:]
    kept = gravest if most is None else gravest[:most]
    places: dict[str, dict[str, None]] = {}
    for result in kept:
        places.setdefault(result.check, {})[result.where] = None
    names = "; ".join(f"{check}: {', '.join(where)}" for check, where in places.items())
    return f"{names}; and {len(gravest) - len(kept)} more" if len(kept) < len(gravest) else names


def least_certain(lengths: Iterable[BodyLength], unit: str, most: int) -> str:
    """The estimated lengths, the least certain first, the first few with how far off each may be; "" for none."""
    estimated = [length for length in lengths if length.source == "estimated"]
    estimated.sort(key=lambda length: (-(length.sd or 0.0) / length.mm, length.key))
    if not estimated:
        return ""
    told = [
        f"{measurement(each.key).name} {length_text(each.mm, unit)} (give or take {length_text(each.sd or 0.0, unit)})"
        for each in estimated[:most]
    ]
    rest = len(estimated) - len(told)
    if not told:
        return f"{rest} lengths: --all names them."
    return f"{', '.join(told)}{f', and {rest} more' if rest else ''}."


def finished_in_a_line(pattern: Pattern, unit: str) -> Passage:
    """The finished measurements one behind the other."""
    told = (f"{each.name} {length_text(each.finished, unit)}" for each in finished(pattern))
    return Passage("Finished measurements", (f"{', '.join(told)}.",))
