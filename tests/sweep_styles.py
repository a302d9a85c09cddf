"""Style lines on knit tops of women and on what children wear: what came out of each, as a table.

    python -m tests.sweep_styles                    every woman and every child, each garment, each amount
    python -m tests.sweep_styles --every 40         every fortieth of them
    python -m tests.sweep_styles --only raglan      one style line
    python -m tests.sweep_styles --garment "child's dress"   one garment

The dresses of women are swept by `python -m tests.sweep_alterations`. Everything is checked after each step; what was
failed before the step is not counted against it; bodies for whom the garment itself is refused are told. Exit status
1 where less than 98 % pass, anything crashed, or nobody was found to try it on.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Final

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.alterations import ALTERATIONS, apply_step, make_step
from drafting.body.person import Person
from drafting.checks import Verdict, run_checks
from drafting.errors import TrueseamError
from drafting.fit.cloth import Cloth
from drafting.pattern import Pattern, Step
from tests.alteration_samples import Options
from tests.bodies import women
from tests.sweep import End, Outcome, plain
from tests.sweep_children import children
from tests.sweep_knits import top_for

__all__ = ["GARMENTS", "STYLES", "end_of", "garment_for"]

_ENOUGH: Final = 0.98

STYLES: Final[dict[str, tuple[Options, ...]]] = {
    "raglan": ({}, {"front": 20.0, "back": 15.0}),
    "saddle shoulder": ({"front": 20.0, "back": 20.0},),
    "yoke": ({"on": "both", "depth": 70.0}, {"on": "back", "depth": 80.0}),
    "empire seam": ({},),
    "dropped shoulder": ({"by": 10.0}, {"by": 20.0}, {"by": 30.0}),
    "smock": ({},),
    "kimono": ({},),
}
"""Each style line, and the amounts it is tried with."""

_CHILDS: Final[dict[str, tuple[str, ...]]] = {
    "child's dress": ("child's bodice", "child's sleeve", "child's skirt"),
    "child's top": ("child's bodice", "child's sleeve"),
}
GARMENTS: Final = ("knit top", *_CHILDS)


def garment_for(who: Person, name: str) -> Garment:
    """One of the garments, before any step."""
    if name in _CHILDS:
        blocks = tuple(BlockOrder(find_block(block)) for block in _CHILDS[name])
        return Garment(name, who, blocks, cloth=Cloth("woven"))
    return top_for(who, 0.5)


def end_of(who: Person, pattern: Pattern, known: frozenset[tuple[str, str]], name: str, options: Options) -> Outcome:
    """What comes out of one step. Never raises: that is what it is to find out. known: what failed before."""
    try:
        after = apply_step(pattern, make_step(Step(name, tuple(options.items())), ALTERATIONS))
        failed = _failed(after) - known
    except TrueseamError as refusal:
        return Outcome(who.name, End.REFUSED, refusal.sentences())
    except Exception as error:  # whatever it is, it is counted
        return Outcome(who.name, End.CRASHED, (f"{type(error).__name__}: {error}",))
    return Outcome(who.name, End.FAILED if failed else End.PASSES, tuple(f"{one}: {where}" for one, where in failed))


def _failed(pattern: Pattern) -> frozenset[tuple[str, str]]:
    return frozenset((r.check, r.where) for r in run_checks(pattern) if r.verdict in (Verdict.FAIL, Verdict.ERROR))


Outcomes = dict[tuple[str, int], list[Outcome]]
"""By style line and the number of its amount."""


def outcomes(people: Sequence[Person], garment: str, styles: Sequence[str]) -> tuple[Outcomes, list[Outcome]]:
    """What came out on every body for whom the garment itself is drafted; and the bodies for whom it is refused."""
    found: Outcomes = {(name, k): [] for name in styles for k in range(len(STYLES[name]))}
    refused: list[Outcome] = []
    for who in people:
        order = garment_for(who, garment)
        try:
            pattern = draft(order, prepare(order))
        except TrueseamError as refusal:
            refused.append(Outcome(who.name, End.REFUSED, refusal.sentences()))
            continue
        known = _failed(pattern)
        for name in styles:
            for k, options in enumerate(STYLES[name]):
                found[name, k].append(end_of(who, pattern, known, name, options))
    return found, refused


def table(garment: str, found: Outcomes, refused: Sequence[Outcome]) -> Iterator[str]:
    """How many ended how, and why, numbers left out so that like falls to like."""
    if refused:
        yield f"{garment}: {len(refused)} bodies not tried, the garment itself is refused:"
        yield from _said(refused)
    for (name, k), mine in found.items():
        counts = Counter(outcome.end for outcome in mine)
        told = ", ".join(f"{times} {end.value}" for end, times in counts.items())
        yield f"{garment}, {name} {STYLES[name][k]}: {len(mine)}: {told}"
        yield from _said(mine)


def _said(outcomes: Sequence[Outcome]) -> Iterator[str]:
    """The eight sentences that were said most often, each with how often, and to whom first."""
    for sentence, times in Counter(plain(said) for each in outcomes for said in set(each.said)).most_common(8):
        first = next(each for each in outcomes if sentence in {plain(said) for said in each.said})
        yield f"    {times:4}  {sentence}  (first: {first.who})"


def main(words: Sequence[str] | None = None) -> int:
    """Sweep as the words ask for, print the tables; the exit status."""
    parser = argparse.ArgumentParser(prog="python -m tests.sweep_styles")
    parser.add_argument("--every", type=int, default=1, metavar="N", help="every Nth body")
    parser.add_argument("--only", action="append", choices=list(STYLES), help="a style line")
    parser.add_argument("--garment", action="append", choices=list(GARMENTS), help="a garment")
    asked = parser.parse_args(words)
    wrong = False
    for garment in asked.garment or GARMENTS:
        people = (children() if garment in _CHILDS else women())[:: asked.every]
        found, refused = outcomes(people, garment, asked.only or list(STYLES))
        print("\n".join(table(garment, found, refused)), flush=True)
        for mine in found.values():
            passed = sum(outcome.end is End.PASSES for outcome in mine)
            wrong |= not mine or passed < _ENOUGH * len(mine) or any(outcome.end is End.CRASHED for outcome in mine)
    return int(wrong)


if __name__ == "__main__":
    sys.exit(main())
