"""Children's clothes for every child of the open 1977 survey: what came out of each, as a table.

    python -m tests.sweep_children                  all 1,855 of them, 2 to 19 years, with what was measured
    python -m tests.sweep_children --four           with stature, chest, waist and hip only
    python -m tests.sweep_children --every 12       every twelfth of them
    python -m tests.sweep_children --only "knit top" one of the garments
    python -m tests.sweep_children --babies         babies of 50 to 92 cm, on a chart of babies and off it
    python -m tests.sweep_children --stranger       and lets a stranger lay a tape on each

Every garment of `GARMENTS` is drafted for each and checked. Exit status 1 when one failed a check or anything crashed.
"""

from __future__ import annotations

import argparse
import csv
import sys
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.body.person import Person, person
from drafting.body.refit import child_rows
from drafting.body.terms import BASICS, BodyKind
from drafting.checks import Verdict, run_checks
from drafting.errors import CannotDraft, TrueseamError
from drafting.fit.cloth import Cloth
from drafting.pattern.text import to_json
from drafting.reading.options import Value
from tests.outside import child_table, stranger
from tests.outside.dress_table import Line
from tests.sweep import End, Outcome, plain

__all__ = ["GARMENTS", "babies", "children", "end_of", "found_by_a_stranger", "garment_for"]

_SURVEY = Path(__file__).parent / "data" / "children_1977.csv"
_TALLEST = 1760.0  # mm: what the blocks are drawn for ends there


@dataclass(frozen=True)
class Style:
    """A garment to be drafted for every child."""

    cloth: Cloth
    blocks: Mapping[str, Mapping[str, Value]]


WOVEN, KNIT = Cloth("woven"), Cloth("knit", stretch=0.5)
GARMENTS: Mapping[str, Style] = {
    "gathered dress": Style(WOVEN, {"child's bodice": {}, "child's sleeve": {}, "child's skirt": {}}),
    "flat dress": Style(WOVEN, {"child's bodice": {}, "child's skirt": {"waist": "flat"}}),
    "straight dress": Style(WOVEN, {"child's bodice": {"below_waist": 300.0, "flare": 60.0}, "child's sleeve": {}}),
    "knit top": Style(KNIT, {"child's bodice": {"below_waist": 120.0}, "child's sleeve": {}}),
    "romper": Style(WOVEN, {"romper": {}, "child's sleeve": {}}),
    "knit romper": Style(KNIT, {"romper": {"leg_length": 60.0}, "child's sleeve": {}}),
    "dungarees": Style(WOVEN, {"dungarees": {}}),
    "knit dungarees": Style(KNIT, {"dungarees": {"leg_length": 50.0, "leg_end": "elastic"}}),
}
_KINDS: tuple[BodyKind, ...] = ("girl", "boy")
_BABIES = ((560, 410, 410), (640, 440, 430), (720, 470, 450), (800, 500, 470), (860, 520, 490), (920, 540, 510))
"""Height, chest (as much as the hip) and waist of a chart of babies, mm: W. Aldrich, at second hand."""


@cache
def babies() -> tuple[Person, ...]:
    """Girls and boys of 50 to 92 cm on that chart, and 6 % rounder and slimmer than it; the first begins below it."""
    found = []
    for height in range(500, 921, 20):
        low, high = next((pair for pair in pairwise(_BABIES) if height <= pair[1][0]), _BABIES[-2:])
        share = (height - low[0]) / (high[0] - low[0])
        chest, waist = (one + share * (other - one) for one, other in zip(low[1:], high[1:], strict=True))
        for kind in _KINDS:
            for rounder in (0.94, 1.0, 1.06):
                girths = {"bust_girth": rounder * chest, "waist_girth": rounder * waist, "hip_girth": rounder * chest}
                name = f"{kind} of {height} mm, {rounder:.0%}"
                found.append(person({"stature": float(height), **girths}, name=name, body=kind))
    return tuple(found)


@cache
def children(*, four_only: bool = False) -> tuple[Person, ...]:
    """The children up to 176 cm with all that was measured of them, or with the four basics only."""
    with _SURVEY.open(encoding="utf-8", newline="") as file:
        table = list(csv.DictReader(file))
    found = []
    kinds: tuple[tuple[BodyKind, str], ...] = (("girl", "female"), ("boy", "male"))
    for kind, sex in kinds:
        mine = [row for row in table if row["sex"] == sex]
        for given, row in zip(mine, child_rows(mine, body=kind), strict=True):
            # the neck was measured elsewhere: what it comes to at its foot is an estimate, not a measurement
            taken = {key: 10.0 * cm for key, cm in row.items() if cm is not None and key != "neck_base_girth"}
            mm = {key: taken[key] for key in BASICS} if four_only else taken
            if mm["stature"] <= _TALLEST:
                place = f"children_1977.csv, row {given['row']}"
                found.append(person(mm, name=f"{kind} {given['row']}", body=kind, place=place))
    return tuple(found)


def garment_for(who: Person, name: str) -> Garment:
    """One of the garments for a child."""
    style = GARMENTS[name]
    orders = tuple(BlockOrder(find_block(block), options) for block, options in style.blocks.items())
    return Garment(name, who, orders, cloth=style.cloth)


def end_of(who: Person, name: str) -> Outcome:
    """What comes out for one child. Never raises: that is what it is to find out."""
    garment = garment_for(who, name)
    try:
        pattern = draft(garment, prepare(garment))
        results = run_checks(pattern)
    except CannotDraft as refusal:
        end = End.REFUSED if refusal.measurements else End.OTHERWISE
        return Outcome(who.name, end, (refusal.reason,), refusal.measurements)
    except TrueseamError as refusal:
        return Outcome(who.name, End.OTHERWISE, refusal.sentences())
    except Exception as error:  # whatever it is, it is counted
        return Outcome(who.name, End.CRASHED, (f"{type(error).__name__}: {error}",))
    failed = tuple(f"{r.check}: {r.where}" for r in results if r.verdict in (Verdict.FAIL, Verdict.ERROR))
    warned = tuple(f"{r.check}: {r.where}" for r in results if r.verdict is Verdict.WARN)
    gave_way = tuple(sentence for origin in pattern.origin for sentence in origin.gave_way)
    return Outcome(who.name, End.FAILED if failed else End.PASSES, failed, (), gave_way, warned)


def found_by_a_stranger(who: Person) -> tuple[Line, ...]:
    """What a stranger measures on the gathered dress of a child, against what was measured or estimated."""
    garment = garment_for(who, "gathered dress")
    prepared = prepare(garment)
    body = {value.key: value.mm for value in prepared.body.known()} | dict(who.measurements)
    return child_table.table(stranger.read(to_json(draft(garment, prepared))), body, prepared.ease.by_place())


def _stranger_table(people: Sequence[Person]) -> tuple[list[str], bool]:
    """Line by line the furthest that any dress was off, and whether all hold."""
    worst: dict[str, tuple[Line, str]] = {}
    for who in people:
        for line in found_by_a_stranger(who):
            if line.what not in worst or abs(line.found - line.wanted) > abs(
                worst[line.what][0].found - worst[line.what][0].wanted
            ):
                worst[line.what] = (line, who.name)
    told = [f"a stranger measured {len(people)} dresses; the furthest off, and what is allowed, mm:"]
    told += [
        f"    {line.what:40}{abs(line.found - line.wanted):9.4f}{line.within:7g}  ({who}){'' if line.holds else ' NOT'}"
        for line, who in worst.values()
    ]
    return told, all(line.holds for line, _ in worst.values())


def table(name: str, outcomes: Sequence[Outcome]) -> Iterator[str]:
    """How many ended how, and why, numbers left out so that like falls to like."""
    yield f"{name}: {len(outcomes)} children"
    for end in End:
        mine = [outcome for outcome in outcomes if outcome.end is end]
        if mine:
            yield f"    {end.value:44}{len(mine):6}{len(mine) / len(outcomes):8.1%}"
        for sentence, times in Counter(plain(said) for each in mine for said in each.said).most_common(8):
            first = next(o for o in mine if sentence in {plain(said) for said in o.said})
            yield f"        {times:4}  {sentence}  (first: {first.who})"
    for title in ("gave_way", "warned"):
        told = Counter(plain(said) for each in outcomes for said in set(getattr(each, title)))
        yield from (f"        {title}: {times:4}  {sentence}" for sentence, times in told.most_common(12))


def main(words: Sequence[str] | None = None) -> int:
    """Sweep as the words ask for, print the tables; the exit status."""
    parser = argparse.ArgumentParser(prog="python -m tests.sweep_children")
    parser.add_argument("--four", action="store_true", help="stature, chest, waist and hip only")
    parser.add_argument("--every", type=int, default=1, metavar="N", help="every Nth child")
    parser.add_argument("--only", choices=GARMENTS, help="one of the garments")
    parser.add_argument("--stranger", action="store_true", help="let a stranger measure each gathered dress as well")
    parser.add_argument("--babies", action="store_true", help="babies of 50 to 92 cm in place of the survey")
    asked = parser.parse_args(words)
    people = (babies() if asked.babies else children(four_only=asked.four))[:: asked.every]
    wrong = False
    for name in [asked.only] if asked.only else GARMENTS:
        outcomes = [end_of(who, name) for who in people]
        print("\n".join(table(name, outcomes)))
        wrong |= any(outcome.end in (End.FAILED, End.OTHERWISE, End.CRASHED) for outcome in outcomes)
    if asked.stranger:
        told, holds = _stranger_table(people)
        print("\n".join(told))
        wrong |= not holds
    return int(wrong)


if __name__ == "__main__":
    sys.exit(main())
