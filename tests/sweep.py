"""The dress for every woman of the open 1988 survey: what came out of each, as a table.

    python -m tests.sweep                   all 1,104 of them with every measurement that was taken
    python -m tests.sweep --girths          with stature and the three girths only, the rest estimated
    python -m tests.sweep --every 12        every twelfth of them
    python -m tests.sweep --cloth denim     in that cloth of the table; --fit close, regular or loose
    python -m tests.sweep --stranger        and lets a stranger lay a tape on each drafted dress (minutes for all)

Each is drafted (bodice, sleeve, skirt; plain woven, regular fit), has her sleeve lengthened by 3 cm, and is checked.
Exit status 1 when a pattern failed a check or anything crashed.
"""

from __future__ import annotations

import argparse
import re
import sys
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from time import process_time
from typing import Final

from blocks.garment import BlockOrder, Garment, Prepared, draft, prepare
from blocks.rows.fitted import FITTED
from blocks.take_steps import alter
from drafting.alterations import Lengthen
from drafting.body.person import Person
from drafting.checks import Result, Verdict, run_checks
from drafting.errors import CannotDraft, TrueseamError
from drafting.fit.cloth import CLOTH_KINDS, Cloth
from drafting.fit.ease import FITS, Fit
from drafting.pattern.text import to_json
from tests.bodies import women
from tests.outside import dress_table, stranger

__all__ = ["End", "Outcome", "dress_for", "end_of", "found_by_a_stranger", "plain", "sweep"]


class End(StrEnum):
    """How a body came out."""

    PASSES = "passes every check"
    FAILED = "failed a check"
    REFUSED = "refused, with the measurements named"
    OTHERWISE = "refused without naming them"
    CRASHED = "crashed"


@dataclass(frozen=True, slots=True)
class Outcome:
    """How one body came out.

    said:     the refusal, the error, or the checks that failed; empty for a pass
    named:    the measurements a refusal names
    gave_way: what gave way in the draft, each as a sentence
    warned:   checks that warned
    """

    who: str
    end: End
    said: tuple[str, ...] = ()
    named: tuple[str, ...] = ()
    gave_way: tuple[str, ...] = ()
    warned: tuple[str, ...] = ()


_WOVEN: Final = Cloth()


def dress_for(who: Person, cloth: Cloth = _WOVEN, fit: Fit = "regular") -> Garment:
    """The dress of the examples for somebody else: every block there is, and one step."""
    blocks = tuple(BlockOrder(block) for block in FITTED)
    return Garment("dress", who, blocks, cloth=cloth, fit=fit, steps=(Lengthen("sleeve", 30.0),))


def end_of(who: Person, cloth: Cloth = _WOVEN, fit: Fit = "regular") -> Outcome:
    """What comes out for one body. Never raises: that is what it is to find out."""
    garment = dress_for(who, cloth, fit)
    try:
        pattern = alter(draft(garment, prepare(garment)), garment.steps)
        results = run_checks(pattern)
    except CannotDraft as refusal:
        end = End.REFUSED if refusal.measurements else End.OTHERWISE
        return Outcome(who.name, end, (refusal.reason,), refusal.measurements)
    except TrueseamError as refusal:
        return Outcome(who.name, End.OTHERWISE, refusal.sentences())
    except Exception as error:  # whatever it is, it is counted
        return Outcome(who.name, End.CRASHED, (f"{type(error).__name__}: {error}",))
    gave_way = tuple(sentence for origin in pattern.origin for sentence in origin.gave_way)
    # a dress has something to look at for every check, so "nothing" would be a hole as well
    failed = _told(results, (Verdict.FAIL, Verdict.ERROR, Verdict.NOTHING))
    warned = _told(results, (Verdict.WARN,))
    return Outcome(who.name, End.FAILED if failed else End.PASSES, failed, (), gave_way, warned)


def sweep(people: Iterable[Person], cloth: Cloth = _WOVEN, fit: Fit = "regular") -> tuple[Outcome, ...]:
    """The outcome of each."""
    return tuple(end_of(who, cloth, fit) for who in people)


def found_by_a_stranger(who: Person) -> tuple[dress_table.Line, ...]:
    """What a stranger measures on the dress of somebody who gave all measurements; nothing where it is refused."""
    garment = dress_for(who)
    try:
        prepared = prepare(garment)
        pattern = draft(garment, prepared)
    except CannotDraft:
        return ()
    return dress_table.table(stranger.read(to_json(pattern)), _lengths(who, prepared), prepared.ease.by_place())


def _lengths(who: Person, prepared: Prepared) -> dict[str, float]:
    """The lengths as the survey has them; an estimated one (none, for these women) is what the engine made of it."""
    return {value.key: value.mm for value in prepared.body.known()} | dict(who.measurements)


def plain(sentence: str) -> str:
    """The sentence with # for every number, so that like falls to like."""
    return re.sub(r"-?\d+(\.\d+)?", "#", sentence)


def _told(results: Iterable[Result], verdicts: Sequence[Verdict]) -> tuple[str, ...]:
    return tuple(f"{result.check}: {result.where}" for result in results if result.verdict in verdicts)


def _table(outcomes: Sequence[Outcome]) -> list[str]:
    """The outcomes as lines: how many ended how, and beneath it why, numbers left out so that like falls to like."""
    lines = [f"{'bodies':44}{len(outcomes):6}"]
    for end in End:
        mine = [outcome for outcome in outcomes if outcome.end is end]
        lines.append(f"{end.value:44}{len(mine):6}{len(mine) / len(outcomes):8.1%}")
        for sentence, times in _tally(outcome.said for outcome in mine):
            first = next(o for o in mine if sentence in {plain(said) for said in o.said})
            lines.append(f"    {times:4}  {sentence}  (first: {first.who})")
    whole = [outcome for outcome in outcomes if not outcome.gave_way and outcome.end is End.PASSES]
    lines.append(f"{'passes, and nothing gave way':44}{len(whole):6}{len(whole) / len(outcomes):8.1%}")
    for title, told in (("gave way", "gave_way"), ("warned", "warned")):
        found = _tally(getattr(outcome, told) for outcome in outcomes)
        lines += [f"{title}:", *(f"    {times:4}  {sentence}" for sentence, times in found)] if found else []
    return lines


def _tally(told: Iterable[Sequence[str]]) -> list[tuple[str, int]]:
    return Counter(sentence for sentences in told for sentence in {plain(each) for each in sentences}).most_common()


def _stranger_table(people: Iterable[Person]) -> tuple[list[str], bool]:
    """Line by line the furthest that any dress was off, and whether all hold."""
    worst: dict[str, tuple[dress_table.Line, str]] = {}
    dresses = 0
    for who in people:
        lines = found_by_a_stranger(who)
        dresses += bool(lines)
        for line in lines:
            if line.what not in worst or _off(line) > _off(worst[line.what][0]):
                worst[line.what] = (line, who.name)
    told = [f"a stranger measured {dresses} dresses; the furthest off, and what is allowed, mm:"]
    told += [
        f"    {line.what:40}{_off(line):9.4f}{line.within:7g}  ({who}){'' if line.holds else '  DOES NOT HOLD'}"
        for line, who in worst.values()
    ]
    return told, all(line.holds for line, _ in worst.values())


def _off(line: dress_table.Line) -> float:
    return abs(line.found - line.wanted)


def main(words: Sequence[str] | None = None) -> int:
    """Sweep as the words ask for, print the table; the exit status."""
    parser = argparse.ArgumentParser(prog="python -m tests.sweep", description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--girths", action="store_true", help="stature and the three girths only")
    parser.add_argument("--every", type=int, default=1, metavar="N", help="every Nth body")
    parser.add_argument("--cloth", choices=CLOTH_KINDS, default="woven", metavar="CLOTH", help="a cloth of the table")
    parser.add_argument("--fit", choices=FITS, default="regular", help="how close it is worn")
    parser.add_argument("--stranger", action="store_true", help="let a stranger measure each drafted dress as well")
    asked = parser.parse_args(words)
    people = women(girths_only=asked.girths)[:: asked.every]
    began = process_time()
    outcomes = sweep(people, Cloth(asked.cloth), asked.fit)
    given = "stature and three girths" if asked.girths else "all measurements"
    print(f"{given}, {(process_time() - began) / len(outcomes) * 1000:.1f} ms of processor time a body")
    print("\n".join(_table(outcomes)))
    holds = True
    if asked.stranger:
        told, holds = _stranger_table(people)
        print("\n".join(told))
    return int(not holds or any(outcome.end in (End.FAILED, End.OTHERWISE, End.CRASHED) for outcome in outcomes))


if __name__ == "__main__":
    sys.exit(main())
