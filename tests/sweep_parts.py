"""Every part at its defaults on every block that has a place for it, for a woman and a child, as a table.

    python -m tests.sweep_parts                     all of them
    python -m tests.sweep_parts --only "neck band"  one of the parts
    python -m tests.sweep_parts --told              and what is said of each that does not pass

Each is drafted, with the blocks that it goes with, and checked. Exit status 1 when one failed a check, crashed, or was
refused without a word of what to write instead.
"""

from __future__ import annotations

import argparse
import re
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import Final

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, finish
from drafting.body.person import Person
from drafting.checks import Verdict, run_checks
from drafting.errors import TrueseamError
from drafting.fit.cloth import Cloth
from drafting.parts.part_table import PARTS, part_of
from tests.bodies import women
from tests.sweep import End, Outcome
from tests.sweep_children import children

__all__ = ["GARMENTS", "Case", "cases", "end_of", "has_line_to_type"]


@dataclass(frozen=True, slots=True)
class Made:
    """A garment that parts are tried on: its cloth, its blocks with what is asked of them, and whether for a child."""

    cloth: str
    blocks: tuple[tuple[str, tuple[tuple[str, str | float], ...]], ...]
    child: bool = False


def _made(cloth: str, *blocks: str, child: bool = False, **options: str | float) -> Made:
    """Of these blocks, the first with the options."""
    given = tuple(options.items())
    return Made(cloth, tuple((name, given if at == 0 else ()) for at, name in enumerate(blocks)), child)


GARMENTS: Final = {
    "bodice": _made("woven", "bodice"),
    "bodice and sleeve": _made("woven", "bodice", "sleeve"),
    "dress": _made("woven", "bodice", "sleeve", "skirt"),
    "dress without sleeves": _made("woven", "bodice", "skirt"),
    "jumpsuit": _made("woven", "bodice", "trousers"),
    "skirt": _made("woven", "skirt"),
    "circle skirt": _made("woven", "circle skirt"),
    "gored skirt": _made("woven", "gored skirt"),
    "tiered skirt": _made("woven", "tiered skirt"),
    "pleated skirt": _made("woven", "pleated skirt"),
    "trousers": _made("woven", "trousers"),
    "knit top": _made("jersey", "knit top", "knit sleeve"),
    "top of fleece": _made("fleece", "knit top", "knit sleeve"),
    "top of sweatshirt fleece": _made("sweatshirt fleece", "knit top", "knit sleeve"),
    "knit vest": _made("jersey", "knit top"),
    "cardigan": _made("jersey", "knit top", "knit sleeve", front="open", sides="straight"),
    "child's dress": _made("woven", "child's bodice", "child's sleeve", "child's skirt", child=True),
    "child's pinafore": _made("woven", "child's bodice", "child's skirt", child=True),
    "child's smock": _made("woven", "child's bodice", "child's sleeve", child=True, below_waist=300.0, flare=60.0),
    "child's knit top": _made("jersey", "child's bodice", "child's sleeve", child=True, below_waist=120.0),
    "child's skirt": _made("woven", "child's skirt", child=True),
    "child's circle skirt": _made("woven", "circle skirt", child=True),
    "romper": _made("woven", "romper", "child's sleeve", child=True),
    "knit romper": _made("jersey", "romper", child=True),
    "dungarees": _made("woven", "dungarees", child=True),
}
"""What parts are tried on."""

_WOMEN: Final = (0, 300, 700)
_CHILDREN: Final = (60, 400, 1100)


@dataclass(frozen=True, slots=True)
class Case:
    """A part on a garment for a body."""

    part: str
    garment: str
    body: int

    @property
    def wearer(self) -> Person:
        """Whom it is for."""
        return children()[_CHILDREN[self.body]] if GARMENTS[self.garment].child else women()[_WOMEN[self.body]]


@cache
def cases() -> tuple[Case, ...]:
    """Every part on every garment that has a place for it, on some bodies."""
    found = []
    for part in PARTS:
        for name, made in GARMENTS.items():
            sites = {site for block, _ in made.blocks for site in find_block(block).sites}
            if part.fits(sites) and not part.in_place_of(sites):
                found += [Case(part.name, name, body) for body in range(len(_WOMEN))]
    return tuple(found)


def garment_of(case: Case) -> Garment:
    """The order of a case."""
    made = GARMENTS[case.garment]
    orders = tuple(BlockOrder(find_block(name), dict(options)) for name, options in made.blocks)
    part = part_of(next(each for each in PARTS if each.name == case.part), {})
    return Garment(case.garment, case.wearer, orders, cloth=Cloth(made.cloth), parts=(part,))


def has_line_to_type(sentence: str) -> bool:
    """Whether a refusal holds a line that can be put into a garment file."""
    return re.search(r'\b[a-z_]+ = ("|\d|true|\[)', sentence) is not None


def end_of(case: Case) -> Outcome:
    """What comes out of one. Never raises: that is what it is to find out."""
    who = f"{case.part} on {case.garment}, {case.wearer.name}"
    try:
        results = run_checks(finish(garment_of(case)))
    except TrueseamError as refusal:
        said = " ".join(refusal.sentences())
        return Outcome(who, End.REFUSED if has_line_to_type(said) else End.OTHERWISE, (said,))
    except Exception as error:  # whatever it is, it is counted
        return Outcome(who, End.CRASHED, (f"{type(error).__name__}: {error}",))
    told = {
        each: tuple(f"{r.check}: {r.where}: {r.remedy}" for r in results if r.verdict in each)
        for each in ((Verdict.FAIL, Verdict.ERROR), (Verdict.WARN,))
    }
    failed, warned = told.values()
    if failed:  # what fails without the part is not its fault
        alone = run_checks(finish(replace(garment_of(case), parts=())))
        there = {(r.check, r.where) for r in alone if r.verdict in (Verdict.FAIL, Verdict.ERROR)}
        failed = tuple(said for said in failed if not any(said.startswith(f"{c}: {w}: ") for c, w in there))
    return Outcome(who, End.FAILED if failed else End.PASSES, failed, (), (), warned)


def table(outcomes: Sequence[Outcome], *, told: bool) -> Iterator[str]:
    """How many ended how, and which did not pass."""
    for end, times in Counter(each.end for each in outcomes).items():
        yield f"{end.value if end is not End.REFUSED else 'refused, with what to write instead':44}{times:6}"
    for each in outcomes:
        if each.end is not End.PASSES or each.warned:
            yield f"    {each.end.name:10} {each.who}"
            yield from (f"        {said}" for said in (*each.said, *each.warned) if told)


def main(words: Sequence[str] | None = None) -> int:
    """Try the parts, print the table; the exit status."""
    about = (__doc__ or "").partition("\n")[0]
    parser = argparse.ArgumentParser(prog="python -m tests.sweep_parts", description=about)
    parser.add_argument("--only", choices=[part.name for part in PARTS], help="one of the parts")
    parser.add_argument("--every", type=int, default=1, metavar="N", help="every Nth of them")
    parser.add_argument("--told", action="store_true", help="what is said of each that does not pass")
    asked = parser.parse_args(words)
    tried = [case for case in cases() if asked.only in (None, case.part)][:: asked.every]
    outcomes = [end_of(case) for case in tried]
    print("\n".join(table(outcomes, told=asked.told)))
    return int(any(each.end in (End.FAILED, End.OTHERWISE, End.CRASHED) for each in outcomes))


if __name__ == "__main__":
    sys.exit(main())
