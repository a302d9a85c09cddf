"""Every alteration on the dress of every woman of the open 1988 survey: what came out of each, as a table.

    python -m tests.sweep_alterations                      every body whose dress passes (half an hour)
    python -m tests.sweep_alterations --every 12           every twelfth of them
    python -m tests.sweep_alterations --only "upper arm"   one alteration; may be given more than once
    python -m tests.sweep_alterations --processes 1        without a second process

Each alteration is taken alone, at its small, middle and largest sensible amount (`tests/alteration_samples.py`), and
everything is checked after it. Blending is tried on every size of the women's chart instead, since it is for patterns
that are drafted from it. Exit status 1 when a check failed, a promise was broken or anything crashed.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import partial
from multiprocessing import get_context

from blocks.garment import draft, prepare
from drafting.alterations import apply_step
from drafting.body.charts import SIZES, chart_mm
from drafting.body.person import Person
from drafting.checks import Checked, Result, Verdict, check_pattern, run_checks
from drafting.errors import BrokenPromise, TrueseamError
from drafting.pattern import Pattern
from tests.alteration_samples import SAMPLES, Options, at_size, sample
from tests.bodies import women
from tests.drafting.sizes import sized
from tests.sweep import dress_for, plain

__all__ = ["Case", "End", "Outcome", "after", "cases", "dresses", "sweep"]

_ON_CHART = "blend"
_WIDE = 84
_NO_WORSE = 0.5  # mm or degrees
_CURVES = ("bends-allowed", "curves-even")
_DARTS = ("dart-legs", "dart-wide", "dart-long")


class End(StrEnum):
    """How a dress came out of an alteration."""

    PASSES = "passes"
    FAILED = "failed"
    REFUSED = "refused"
    BROKEN = "promise broken"
    CRASHED = "crashed"


@dataclass(frozen=True, slots=True)
class Case:
    """An alteration and the options it is tried with."""

    name: str
    options: Options

    @property
    def label(self) -> str:
        """The options in a line: "by 30, keep cap height"."""
        return ", ".join(
            f"{key} {value:g}" if isinstance(value, float) else f"{key} {value}" for key, value in self.options.items()
        )


@dataclass(frozen=True, slots=True)
class Bent:
    """A line that the checks of curves warn of: which, by which check, how it measures, how it measured before.

    before: None where there was no such line, or where it was not warned of
    """

    where: str
    measured: float
    wanted: float
    before: float | None

    @property
    def worse(self) -> bool:
        """Whether it is further off than it was, or off at all where it was not."""
        return self.before is None or abs(self.measured - self.wanted) > abs(self.before - self.wanted) + _NO_WORSE


@dataclass(frozen=True, slots=True)
class Outcome:
    """How one dress came out of one case; what was said: the refusal, the error, the checks that failed or warned."""

    who: str
    case: int
    end: End
    said: tuple[str, ...] = ()
    warned: bool = False
    curves: tuple[Bent, ...] = ()


def cases(only: Sequence[str] = ()) -> tuple[Case, ...]:
    """Every alteration at each of its amounts; of those named only, where some are named."""
    return tuple(
        Case(name, options) for name, amounts in SAMPLES.items() if not only or name in only for options in amounts
    )


def after(who: str, pattern: Pattern, case: Case, number: int = 0, *, known: Checked | None = None) -> Outcome:
    """What one case makes of a dress. Never raises: that is what it is to find out.

    known: what the checks found on the dress before
    """
    try:
        altered = apply_step(pattern, sample(case.name, case.options))
        results = check_pattern(altered, known=known).results
    except BrokenPromise as broken:
        return Outcome(who, number, End.BROKEN, broken.sentences())
    except TrueseamError as refusal:
        return Outcome(who, number, End.REFUSED, refusal.sentences())
    except Exception as error:  # whatever it is, it is counted
        return Outcome(who, number, End.CRASHED, (f"{type(error).__name__}: {error}",))
    # a dress has something to look at for every check, so "nothing" would be a hole as well; but a smock has no darts
    empty = () if any(piece.darts for piece in altered.pieces) else _DARTS
    failed = tuple(
        f"{each.check}: {each.where}"
        for each in results
        if each.verdict in (Verdict.FAIL, Verdict.ERROR) or (each.verdict is Verdict.NOTHING and each.code not in empty)
    )
    warned = any(each.verdict is Verdict.WARN for each in results)
    return Outcome(who, number, End.FAILED if failed else End.PASSES, failed, warned, tuple(_bent(results, known)))


def _bent(results: Sequence[Result], known: Checked | None) -> Iterator[Bent]:
    """The lines that are warned of or failed as curves."""
    had = {(each.code, each.where): each for each in known.results} if known else {}
    for each in results:
        if each.code in _CURVES and each.verdict in (Verdict.WARN, Verdict.FAIL) and each.measured is not None:
            was = had.get((each.code, each.where))
            before = was.measured if was and was.verdict is not Verdict.PASS else None
            yield Bent(f"{each.check}: {each.where}", each.measured, each.wanted or 0.0, before)


def dresses(people: Iterable[Person]) -> Iterator[tuple[str, Pattern]]:
    """The dress of everybody for whom one can be drafted that passes all checks, before any step."""
    for who in people:
        garment = replace(dress_for(who), steps=())
        try:
            pattern = draft(garment, prepare(garment))
        except TrueseamError:
            continue
        if all(each.verdict in (Verdict.PASS, Verdict.WARN) for each in run_checks(pattern)):
            yield who.name, pattern


def sweep(people: Sequence[Person], tried: Sequence[Case], *, processes: int = 1) -> tuple[Outcome, ...]:
    """The outcome of every case on every dress, in the order of the people; blending on every size of the chart."""
    jobs = [*([None] if any(case.name == _ON_CHART for case in tried) else []), *people]
    work = partial(_outcomes, tuple(tried))
    if processes == 1:
        found = [work(job) for job in jobs]
    else:
        with get_context("spawn").Pool(processes) as pool:
            found = list(pool.imap(work, jobs, chunksize=4))
    return tuple(outcome for each in found for outcome in each)


def _outcomes(tried: Sequence[Case], job: Person | None) -> list[Outcome]:
    """Every case on the dress of one person; None for the sizes of the chart."""
    found = []
    for who, pattern in _chart_sizes() if job is None else dresses([job]):
        known = check_pattern(pattern)
        for number, case in enumerate(tried):
            if (case.name == _ON_CHART) == (job is None) and (fitting := _fitting(case, pattern)):
                found.append(after(who, pattern, fitting, number, known=known))
    return found


def _chart_sizes() -> Iterator[tuple[str, Pattern]]:
    for size in SIZES:
        yield f"size {size}", sized(size)


def _fitting(case: Case, pattern: Pattern) -> Case | None:
    """The case, where it is told in sizes, for the size nearest to this dress; None where the chart has none."""
    bust = pattern.wearer.length("bust_girth").mm
    nearest = min(SIZES, key=lambda size: abs(chart_mm(size, "bust_girth") - bust))
    options = at_size(case.name, case.options, nearest)
    return None if options is None else Case(case.name, options)


def _table(tried: Sequence[Case], outcomes: Sequence[Outcome]) -> Iterator[str]:
    """A line for each case, how many dresses came out how; beneath it why, like falling to like."""
    yield f"{'':{_WIDE}}{'dresses':>8}" + "".join(f"{end.value:>{len(end.value) + 2}}" for end in End) + "  warned"
    for number, case in enumerate(tried):
        mine = [outcome for outcome in outcomes if outcome.case == number]
        counts = Counter(outcome.end for outcome in mine)
        told = "".join(f"{counts[end] or '':>{len(end.value) + 2}}" for end in End)
        label = f"{case.name}: {case.label}"
        label = label if len(label) < _WIDE else label[: _WIDE - 4] + "..."
        yield f"{label:{_WIDE}}{len(mine):8}{told}{sum(outcome.warned for outcome in mine) or '':>8}"
        reasons = Counter(
            (outcome.end, sentence) for outcome in mine for sentence in {plain(each) for each in outcome.said}
        )
        for (end, sentence), times in reasons.most_common():
            first = next(o.who for o in mine if o.end is end and sentence in {plain(each) for each in o.said})
            yield f"    {times:5} {end.value}: {sentence}  (first: {first})"
        yield from _curves_told(mine)
    passed = sum(outcome.end is End.PASSES for outcome in outcomes)
    refused = sum(outcome.end is End.REFUSED for outcome in outcomes)
    share = passed / max(1, len(outcomes))
    yield f"{len(outcomes)} tried, {passed} passed ({share:.2%}), {refused} refused in a sentence"


def _curves_told(mine: Sequence[Outcome]) -> Iterator[str]:
    """The lines that are worse as curves than they were: on how many dresses, on how many of those they were none to be
    warned of before, and the worst of them.
    """
    lines: dict[str, list[tuple[Bent, str]]] = {}
    for outcome in mine:
        for bent in filter(lambda bent: bent.worse, outcome.curves):
            lines.setdefault(bent.where, []).append((bent, outcome.who))
    for where, found in sorted(lines.items(), key=lambda each: -len(each[1])):
        new = sum(bent.before is None for bent, _ in found)
        worst, who = max(found, key=lambda each: abs(each[0].measured - each[0].wanted))
        yield (
            f"    {len(found):5} worse as curves, {new} of them new: {where}  "
            f"(worst {worst.measured:.1f} for {worst.wanted:.1f}: {who})"
        )


def main(words: Sequence[str] | None = None) -> int:
    """Sweep as the words ask for, print the table; the exit status."""
    about = (__doc__ or "").partition("\n")[0]
    parser = argparse.ArgumentParser(prog="python -m tests.sweep_alterations", description=about)
    parser.add_argument("--every", type=int, default=1, metavar="N", help="every Nth body")
    parser.add_argument(
        "--only", action="append", default=[], choices=list(SAMPLES), metavar="NAME", help="an alteration"
    )
    parser.add_argument("--processes", type=int, default=2, help="how many at once")
    asked = parser.parse_args(words)
    tried = cases(asked.only)
    outcomes = sweep(women()[:: asked.every], tried, processes=asked.processes)
    print("\n".join(_table(tried, outcomes)))
    return int(any(outcome.end in (End.FAILED, End.BROKEN, End.CRASHED) for outcome in outcomes))


if __name__ == "__main__":
    sys.exit(main())
