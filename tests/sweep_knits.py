"""A knit top with its sleeve for every woman of the open 1988 survey in knits of 20 to 100 % stretch, as tables.

    python -m tests.sweep_knits                 all 1,104 of them, in every knit and every fit
    python -m tests.sweep_knits --every 12      every twelfth of them
    python -m tests.sweep_knits --girths        with stature and the three girths only, the rest estimated
    python -m tests.sweep_knits --stretch 0.4   in one knit; --cardigan open in front

Exit status 1 when a pattern failed a check, anything crashed, or fewer than 98 % passed.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Final

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.body.person import Person
from drafting.checks import Verdict, run_checks
from drafting.errors import CannotDraft, TrueseamError
from drafting.fit.cloth import Cloth
from drafting.fit.ease import FITS, Fit
from drafting.parts.part_table import find_part, part_of
from tests.bodies import women
from tests.sweep import End, Outcome, plain

__all__ = ["STRETCHES", "end_of", "top_for"]

STRETCHES: Final = (0.2, 0.25, 0.4, 0.5, 0.75, 1.0)
_ENOUGH: Final = 0.98


def top_for(who: Person, stretch: float, fit: Fit = "regular", *, cardigan: bool = False) -> Garment:
    """A knit top with sleeves and a neck band, or a cardigan with its front band."""
    options = {"front": "open", "sides": "straight"} if cardigan else {}
    blocks = (BlockOrder(find_block("knit top"), options), BlockOrder(find_block("knit sleeve")))
    cloth = Cloth("knit", stretch=stretch, stretch_along=0.5 * stretch)
    parts = (part_of(find_part("front band" if cardigan else "neck band"), {}),)
    return Garment("knit top", who, blocks, cloth=cloth, fit=fit, parts=parts)


def end_of(who: Person, stretch: float, fit: Fit = "regular", *, cardigan: bool = False) -> Outcome:
    """What comes out for one body. Never raises: that is what it is to find out."""
    garment = top_for(who, stretch, fit, cardigan=cardigan)
    try:
        pattern = draft(garment, prepare(garment))
        results = run_checks(pattern)
    except CannotDraft as refusal:
        end = End.REFUSED if refusal.measurements or "knit" in refusal.reason else End.OTHERWISE
        return Outcome(who.name, end, (refusal.reason,), refusal.measurements)
    except TrueseamError as refusal:
        return Outcome(who.name, End.OTHERWISE, refusal.sentences())
    except Exception as error:  # whatever it is, it is counted
        return Outcome(who.name, End.CRASHED, (f"{type(error).__name__}: {error}",))
    failed = tuple(f"{r.check}: {r.where}" for r in results if r.verdict in (Verdict.FAIL, Verdict.ERROR))
    warned = tuple(f"{r.check}: {r.where}" for r in results if r.verdict is Verdict.WARN)
    gave_way = tuple(sentence for origin in pattern.origin for sentence in origin.gave_way)
    return Outcome(who.name, End.FAILED if failed else End.PASSES, failed, (), gave_way, warned)


def table(name: str, outcomes: Sequence[Outcome]) -> Iterator[str]:
    """How many ended how, and why, numbers left out so that like falls to like."""
    yield f"{name}: {len(outcomes)} women"
    for end in End:
        mine = [outcome for outcome in outcomes if outcome.end is end]
        if mine:
            yield f"    {end.value:44}{len(mine):6}{len(mine) / len(outcomes):8.1%}"
        for sentence, times in Counter(plain(said) for each in mine for said in set(each.said)).most_common(8):
            first = next(o for o in mine if sentence in {plain(said) for said in o.said})
            yield f"        {times:4}  {sentence}  (first: {first.who})"
    for title in ("gave_way", "warned"):
        told = Counter(plain(said) for each in outcomes for said in set(getattr(each, title)))
        yield from (f"        {title}: {times:4}  {sentence}" for sentence, times in told.most_common(12))


def main(words: Sequence[str] | None = None) -> int:
    """Sweep as the words ask for, print the tables; the exit status."""
    parser = argparse.ArgumentParser(prog="python -m tests.sweep_knits")
    parser.add_argument("--girths", action="store_true", help="stature and the three girths only")
    parser.add_argument("--every", type=int, default=1, metavar="N", help="every Nth woman")
    parser.add_argument("--stretch", type=float, help="one knit, as a fraction")
    parser.add_argument("--cardigan", action="store_true", help="open in front, with its band")
    parser.add_argument("--fit", choices=FITS, help="one fit")
    asked = parser.parse_args(words)
    people = women(girths_only=asked.girths)[:: asked.every]
    wrong = False
    for stretch in (asked.stretch,) if asked.stretch else STRETCHES:
        for fit in (asked.fit,) if asked.fit else FITS:
            outcomes = [end_of(who, stretch, fit, cardigan=asked.cardigan) for who in people]
            print("\n".join(table(f"{stretch:.0%}, {fit}", outcomes)), flush=True)
            passed = sum(outcome.end is End.PASSES for outcome in outcomes)
            wrong |= any(each.end in (End.FAILED, End.OTHERWISE, End.CRASHED) for each in outcomes)
            wrong |= passed < _ENOUGH * len(outcomes)
    return int(wrong)


if __name__ == "__main__":
    sys.exit(main())
