"""Every two alterations together, written both ways round, on a few bodies: what came out of them, as a table.

    python -m tests.pairs              every pair at every amount on three bodies (some minutes)
    python -m tests.pairs --every 12   every twelfth of those pairs
    python -m tests.pairs --every 12 --after 6    another twelfth
    python -m tests.pairs --write      and put the table of pairs into DEVELOPERS.md, with how many were tried

Each alteration is taken at each of its sensible amounts (`tests/alteration_samples.py`), on dresses; where one of the
two is for trousers alone, on jumpsuits. Two steps are written one way and the other, and taken in the order that the
engine chooses; that is one and the same, so they are taken once. Beside it stands what becomes of them from a script,
one `apply_step` after another, and as they are written.
What makes no sense together, and what is refused on that body alone, is not counted. Exit status 1 when the two ways
give different patterns, a step is refused for the sake of order, a promise was broken or anything crashed.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from itertools import combinations
from pathlib import Path
from typing import Final

from drafting.alterations import ALTERATIONS, Alteration, apply_step
from drafting.checks import Verdict, check_pattern
from drafting.errors import BrokenPromise, TrueseamError
from drafting.pattern import Pattern
from tests.alteration_samples import SAMPLES, TROUSER_SAMPLES, Options, sample
from tests.bodies import women
from tests.chains import bases
from tests.step_orders import asks_for_order, in_the_engines_order, senseless
from tests.sweep import plain
from tests.wardrobe import jumpsuit_for, told_for_jumpsuit

__all__ = ["End", "Pair", "pairs"]

_BODIES: Final = 3
_NAMES: Final = tuple(entry.name for entry in ALTERATIONS)
_BEGINS, _ENDS = "<!-- pairs: python -m tests.pairs --write -->", "<!-- end of pairs -->"
_PAGE: Final = Path(__file__).parents[1] / "DEVELOPERS.md"

Named = tuple[str, Options]

_Places = frozenset[tuple[str, str]]
"""What failed: the code of the check, and where."""


class End(StrEnum):
    """What two steps came to."""

    SAME = "same pattern both ways"
    ORDER = "refused for order"
    BODY = "refused for cloth or body"
    CHECK = "fails a check that neither fails alone"
    DIFFERENT = "another pattern the other way round"
    BROKEN = "promise broken or crashed"


@dataclass(frozen=True, slots=True)
class Pair:
    """Two alterations at one of their amounts each, in the order of the table."""

    one: Named
    other: Named


@cache
def pairs() -> tuple[Pair, ...]:
    """Every two different alterations that make sense together, at every amount."""
    samples = {**SAMPLES, **TROUSER_SAMPLES}
    links = sorted(((name, each) for name in samples for each in samples[name]), key=lambda link: _NAMES.index(link[0]))
    return tuple(
        Pair(one, other) for one, other in combinations(links, 2) if one[0] != other[0] and not senseless(one, other)
    )


@dataclass(frozen=True, slots=True)
class _Single:
    """One alteration by itself on a body, the pattern after it, and what fails then."""

    step: Alteration
    after: Pattern
    failed: _Places


class _Body:
    """A garment before any step, and each alteration alone on it."""

    def __init__(self, pattern: Pattern, told: Callable[[Options], Options] = dict) -> None:
        self.pattern = pattern
        self.told = told
        self.known = check_pattern(pattern)
        self.found: dict[str, _Single | None] = {}

    def alone(self, link: Named) -> _Single | None:
        """One alteration by itself; None where it is refused."""
        if f"{link}" not in self.found:
            step = sample(link[0], self.told(link[1]))
            try:
                after = apply_step(self.pattern, step)
            except TrueseamError:
                self.found[f"{link}"] = None
            else:
                self.found[f"{link}"] = _Single(step, after, self.failed(after))
        return self.found[f"{link}"]

    def failed(self, pattern: Pattern) -> _Places:
        """What fails, as check and place."""
        results = check_pattern(pattern, known=self.known).results
        return frozenset((each.code, each.where) for each in results if each.verdict in (Verdict.FAIL, Verdict.ERROR))

    def ended(self, one: _Single, other: _Single) -> tuple[End, str]:
        """What two steps written both ways came to, and what was said."""
        first, then = in_the_engines_order((one.step, other.step))
        if in_the_engines_order((other.step, one.step)) != [first, then]:
            return End.DIFFERENT, ""
        before = one.after if first is one.step else other.after
        try:
            found = apply_step(before, then)
        except BrokenPromise as broken:
            return End.BROKEN, str(broken)
        except TrueseamError as refused:
            return (End.ORDER if asks_for_order(refused) else End.BODY), str(refused)
        except Exception as error:  # whatever it is, it is counted
            return End.BROKEN, f"{type(error).__name__}: {error}"
        new = self.failed(found) - one.failed - other.failed
        return (End.CHECK, "; ".join(": ".join(each) for each in sorted(new))) if new else (End.SAME, "")


class _Tally:
    def __init__(self) -> None:
        self.ends: Counter[End] = Counter()
        self.as_written: Counter[str] = Counter()
        self.scripts: Counter[str] = Counter()
        self.cells: dict[tuple[str, str], Counter[End]] = {}
        self.said: Counter[str] = Counter()

    def add(self, body: _Body, pair: Pair) -> None:
        one, other = body.alone(pair.one), body.alone(pair.other)
        if one is None or other is None:
            return
        end, said = body.ended(one, other)
        self.ends[end] += 1
        self.cells.setdefault((pair.one[0], pair.other[0]), Counter())[end] += 1
        if end is not End.SAME:
            self.said[f"{end}: {one.step.name}, {other.step.name}: {plain(said)}"] += 1
        for first, then in ((one.after, other.step), (other.after, one.step)):
            try:
                apply_step(first, then, as_written=True)
            except TrueseamError as refused:
                self.as_written["refused for order" if asks_for_order(refused) else "refused otherwise"] += 1
        if any(ALTERATIONS.is_finishing(each.step.name) for each in (one, other)):
            self.scripts[_from_scripts(one, other)] += 1

    def lines(self) -> Iterator[str]:
        tried = self.ends.total()
        yield f"{tried} pairs written both ways, taken in the engine's order:"
        for end in End:
            yield f"  {end:40}{self.ends[end]:7}{self.ends[end] / max(1, tried):9.2%}"
        yield f"the same pairs taken as they are written, {2 * tried} ways:"
        for words, times in self.as_written.most_common():
            yield f"  {words:40}{times:7}{times / max(1, 2 * tried):9.2%}"
        yield f"the same pairs from a script, where one is a finishing step, both ways ({self.scripts.total()} pairs):"
        for words, times in self.scripts.most_common():
            yield f"  {words:40}{times:7}{times / max(1, self.scripts.total()):9.2%}"
        for sentence, times in self.said.most_common():
            yield f"  {times:5} {sentence}"

    def table(self) -> Iterator[str]:
        """A line for each alteration, a sign for each that comes before it in the table."""
        for row, name in enumerate(_NAMES):
            signs = "".join(f" {self._sign(_NAMES[column], name)}" for column in range(row))
            yield f"{row + 1:2} {name:18}{signs}"

    def _sign(self, one: str, other: str) -> str:
        ends = self.cells.get((one, other), Counter())
        if not ends:
            return " "
        if ends[End.ORDER] + ends[End.DIFFERENT] + ends[End.BROKEN]:
            return "!"
        if ends[End.BODY]:
            return "r" if ends[End.BODY] < ends.total() else "R"
        return "c" if ends[End.CHECK] else "."


def _from_scripts(one: _Single, other: _Single) -> str:
    """What two steps come to from a script, taken one way and the other."""
    found: list[Pattern | None] = []
    order = False
    for first, then in ((one.after, other.step), (other.after, one.step)):
        try:
            found.append(apply_step(first, then))
        except TrueseamError as refused:
            order = order or asks_for_order(refused)
            found.append(None)
    if order:
        return "refused for order"
    a, b = found
    if a is None or b is None:
        return "refused both ways" if a is b else "refused one way"
    same = (a.pieces, a.seams, a.measures) == (b.pieces, b.seams, b.measures)
    return "the same pattern" if same else "another pattern the other way round"


def _page(tally: _Tally, every: int) -> str:
    table, rest = (
        "\n".join(tally.table()),
        "\n".join(list(tally.lines())[: 3 + len(End) + len(tally.as_written) + len(tally.scripts)]),
    )
    sample = f"one pair in {every} tried:\n" if every > 1 else ""
    return f"{_BEGINS}\n\n```\n{table}\n\n{sample}{rest}\n```\n\n{_ENDS}"


def main(words: Sequence[str] | None = None) -> int:
    """Try the pairs, print the table; the exit status."""
    about = (__doc__ or "").partition("\n")[0]
    parser = argparse.ArgumentParser(prog="python -m tests.pairs", description=about)
    parser.add_argument("--every", type=int, default=1, metavar="N", help="every Nth pair")
    parser.add_argument("--after", type=int, default=0, metavar="N", help="of every so many the one after N others")
    parser.add_argument("--write", action="store_true", help="put the table into DEVELOPERS.md")
    asked = parser.parse_args(words)
    tally = _Tally()
    dresses = (bases()[2], *bases()[3:], bases()[0])[:_BODIES]
    for count, (dress, woman) in enumerate(zip(dresses, women()[17::400], strict=False)):
        skirted, legged = _Body(dress), _Body(jumpsuit_for(woman), told_for_jumpsuit)
        for pair in pairs()[(count + asked.after) % asked.every :: asked.every]:
            tally.add(legged if TROUSER_SAMPLES.keys() & {pair.one[0], pair.other[0]} else skirted, pair)
    print("\n".join((*tally.table(), *tally.lines())))
    if asked.write:
        text = _PAGE.read_text(encoding="utf-8")
        before, _, rest = text.partition(_BEGINS)
        _PAGE.write_text(f"{before}{_page(tally, asked.every)}{rest.partition(_ENDS)[2]}", encoding="utf-8")
    return int(any(tally.ends[end] for end in (End.ORDER, End.DIFFERENT, End.BROKEN)))


if __name__ == "__main__":
    sys.exit(main())
