"""Trousers and jumpsuits for every woman of the open 1988 survey: what came out of each, as a table.

    python -m tests.sweep_trousers                    each of eleven garments for all 1,104 of them (minutes)
    python -m tests.sweep_trousers --every 12         every twelfth of them
    python -m tests.sweep_trousers --girths           with stature and the three girths only, the rest estimated
    python -m tests.sweep_trousers --stranger         and lets a stranger lay a tape on the plain ones
    python -m tests.sweep_trousers --alterations      and takes every alteration of trousers at each of its amounts

Exit status 1 when a pattern failed a check, a promise was broken, anything crashed or a stranger found fault.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, finish, prepare
from drafting.alterations import (
    Alteration,
    Neckline,
    PointedWaist,
    ShapedBand,
    SidePocket,
    SlantedPocket,
    apply_step,
)
from drafting.body.person import Person
from drafting.checks import Verdict
from drafting.errors import CannotDraft, StepRefused
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Pattern
from drafting.pattern.text import to_json
from drafting.reading.options import Value
from tests.alteration_samples import TROUSER_SAMPLES, sample
from tests.bodies import women
from tests.outside import stranger
from tests.outside.trousers_table import table
from tests.quick_checks import run_checks
from tests.sweep import plain

__all__ = ["GARMENTS", "altered", "ends", "found_by_a_stranger", "trousers_for"]

Options = Mapping[str, Value]

GARMENTS: Final[Mapping[str, tuple[tuple[str, ...], Options]]] = {
    "straight": ((), {}),
    "wide": ((), {"leg": "wide"}),
    "tapered": ((), {"leg": "tapered", "fastening": "side"}),
    "cropped": ((), {"leg": "wide", "ends": "cropped"}),
    "shorts": ((), {"ends": "shorts"}),
    "fly": ((), {"fastening": "fly"}),
    "jumpsuit": (("bodice", "sleeve"), {"leg": "wide", "ends": "cropped"}),
    "elastic": ((), {}),
    "fly and pockets": ((), {"fastening": "fly"}),
    "band and fly": ((), {"fastening": "fly"}),
    "jumpsuit, V, pointed band": (("bodice",), {"leg": "wide", "ends": "cropped", "front_darts": "one"}),
}
"""By name: the blocks that trousers are drafted with, and their options."""

_PARTS: Final[Mapping[str, tuple[str, ...]]] = {"elastic": ("waist elastic",), "fly and pockets": ("waistband",)}
_STEPS: Final[Mapping[str, tuple[Alteration, ...]]] = {
    "fly and pockets": (SlantedPocket(),),
    "band and fly": (ShapedBand(), SidePocket()),
    "jumpsuit, V, pointed band": (
        Neckline(depth=70.0, shape="V"),
        PointedWaist(depth=30.0),
        ShapedBand(depth=45.0),
    ),
}
"""What is ordered and altered beside, by the name of the garment."""


def trousers_for(who: Person, name: str) -> Garment:
    """One of the garments for somebody."""
    with_, options = GARMENTS[name]
    darts = {"front_darts": options["front_darts"]} if "front_darts" in options else {}
    orders = (*(BlockOrder(find_block(each), darts) for each in with_), BlockOrder(find_block("trousers"), options))
    parts = tuple(part_of(find_part(part), {}) for part in _PARTS.get(name, ()))
    return Garment(name, who, orders, parts=parts, steps=_STEPS.get(name, ()))


def ends(people: Iterable[Person], name: str) -> Iterator[tuple[str, str]]:
    """For each body what came out, in a word ("passes", "failed", "refused", "crashed"), and what was said."""
    for who in people:
        garment = trousers_for(who, name)
        try:
            pattern = finish(garment)
            failed = [r for r in run_checks(pattern) if r.verdict in (Verdict.FAIL, Verdict.ERROR)]
        except CannotDraft as refusal:
            yield ("refused" if refusal.measurements else "refused without naming them"), refusal.reason
        except StepRefused as refusal:
            yield "step refused", refusal.reason
        except Exception as error:  # whatever it is, it is counted
            yield "crashed", f"{type(error).__name__}: {error}"
        else:
            yield ("failed", "; ".join(f"{r.check}: {r.where}" for r in failed)) if failed else ("passes", "")


def found_by_a_stranger(who: Person) -> tuple[str, ...]:
    """The lines of the table that do not hold on the plain trousers of somebody, in words."""
    garment = trousers_for(who, "straight")
    try:
        prepared = prepare(garment)
        pattern = draft(garment, prepared)
    except CannotDraft:
        return ()
    body = {value.key: value.mm for value in prepared.body.known()}
    lines = table(stranger.read(to_json(pattern)), body, prepared.ease.by_place())
    return tuple(f"{line.what}: {line.found:.2f} for {line.wanted:.2f}" for line in lines if not line.holds)


def altered(pattern: Pattern) -> Iterator[tuple[str, str]]:
    """For every amount of every alteration of trousers what came out, and what was said."""
    for name, amounts in TROUSER_SAMPLES.items():
        for options in amounts:
            try:
                results = run_checks(apply_step(pattern, sample(name, options)))
                failed = [r for r in results if r.verdict in (Verdict.FAIL, Verdict.ERROR)]
            except StepRefused as refusal:
                yield f"{name} refused", " ".join(refusal.sentences())
            except Exception as error:  # a broken promise is one, and counted
                yield f"{name} crashed", f"{type(error).__name__}: {error}"
            else:
                said = "; ".join(f"{r.check}: {r.where}" for r in failed)
                yield (f"{name} failed" if failed else f"{name} passes"), said


def _told(title: str, found: Iterable[tuple[str, str]]) -> Counter[str]:
    counted: Counter[str] = Counter()
    said: Counter[tuple[str, str]] = Counter()
    for end, words in found:
        counted[end] += 1
        if words:
            said[end, plain(words)] += 1
    print(f"{title:12}" + ", ".join(f"{end} {times}" for end, times in sorted(counted.items())))
    for (end, words), times in said.most_common(6):
        print(f"    {times:4}  {end}: {words}")
    return counted


def main(words: Sequence[str] | None = None) -> int:
    """Sweep as the words ask for, print the tables; the exit status."""
    parser = argparse.ArgumentParser(prog="python -m tests.sweep_trousers")
    parser.add_argument("--every", type=int, default=1, metavar="N", help="every Nth body")
    parser.add_argument("--girths", action="store_true", help="stature and the three girths only")
    parser.add_argument("--stranger", action="store_true", help="let a stranger measure the plain ones as well")
    parser.add_argument("--alterations", action="store_true", help="take every alteration of trousers as well")
    parser.add_argument("--only", action="append", choices=list(GARMENTS), help="these garments")
    asked = parser.parse_args(words)
    people = women(girths_only=asked.girths)[:: asked.every]
    bad: Counter[str] = Counter()
    for name in asked.only or GARMENTS:
        bad += _told(name, ends(people, name))
    if asked.stranger:
        bad += _told(
            "stranger",
            (
                (("finds fault", "; ".join(f)) if (f := found_by_a_stranger(who)) else ("finds none", ""))
                for who in people
            ),
        )
    if asked.alterations:
        for who in people:
            garment = trousers_for(who, "straight")
            try:
                pattern = draft(garment, prepare(garment))
            except CannotDraft:
                continue
            bad += _told(who.name, altered(pattern))
    grave = ("failed", "crashed", "fault", "without")
    return int(any(any(word in end for word in grave) for end in bad))


if __name__ == "__main__":
    sys.exit(main())
