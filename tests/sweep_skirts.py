"""Skirts by flare, gore, tier and pleat for every woman of the open 1988 survey: what came out of each, as a table.

    python -m tests.sweep_skirts                     each skirt alone and on a bodice, for all 1,104 women (long)
    python -m tests.sweep_skirts --every 12          every twelfth of them
    python -m tests.sweep_skirts --with "skirt yoke" and "shaped band", "buttons", "pockets", "godets": taken as well
    python -m tests.sweep_skirts --stranger          and lets a stranger lay a tape on those drafted alone
    python -m tests.sweep_skirts --only gored        those whose name begins so

Exit status 1 when a pattern failed a check, anything crashed or a stranger found fault.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import partial
from typing import Final

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, finish, prepare
from drafting.alterations import ALTERATIONS
from drafting.body.person import Person
from drafting.checks import Verdict, run_checks
from drafting.errors import CannotDraft, StepRefused
from drafting.fit.cloth import Cloth
from drafting.pattern import Pattern
from drafting.pattern.text import to_json
from drafting.reading.options import Value
from tests.bodies import women
from tests.outside import stranger
from tests.outside.skirt_table import table
from tests.sweep import plain

__all__ = ["SKIRTS", "TAKEN", "alone", "ends", "skirt_for"]

CLOTH: Final = 1400.0  # mm

SKIRTS: Final[Mapping[str, tuple[str, Mapping[str, Value]]]] = {
    "circle, full": ("circle skirt", {"circle": "full"}),
    "circle, half": ("circle skirt", {}),
    **{f"gored {count}": ("gored skirt", {"gores": str(count)}) for count in range(4, 9)},
    "tiered": ("tiered skirt", {}),
    "tiered, five of twice": ("tiered skirt", {"tiers": "5", "ratio": 2.0, "length": 900.0}),
    **{f"pleated, {kind}": ("pleated skirt", {"pleats": kind}) for kind in ("knife", "box", "inverted")},
}
"""By name: the block and its options."""

TAKEN: Final[Mapping[str, tuple[str, Mapping[str, Value]]]] = {
    "skirt yoke": ("skirt yoke", {}),
    "shaped band": ("shaped band", {}),
    "buttons": ("opening", {"at": "centre front", "fasten": "buttons"}),
    "pockets": ("side pocket", {}),
    "godets": ("godet", {}),
}
"""By name: a step that is taken on each, and its options."""


def skirt_for(who: Person, name: str, with_: Sequence[str] = (), taken: str = "") -> Garment:
    """One of the skirts for somebody, below a bodice or alone, with a step taken or none."""
    block, options = SKIRTS[name]
    orders = (*(BlockOrder(find_block(each)) for each in with_), BlockOrder(find_block(block), options))
    steps = ()
    if taken:
        step, amounts = TAKEN[taken]
        steps = (ALTERATIONS.named(step)(**amounts),)
    return Garment(name, who, orders, cloth=Cloth(width=CLOTH), steps=steps)


def alone(who: Person, name: str) -> tuple[Pattern, Mapping[str, float], Mapping[str, float], float]:
    """A skirt drafted alone; what is known of the body, the ease by place and the width of the cloth, mm."""
    garment = skirt_for(who, name)
    prepared = prepare(garment)
    body = {value.key: value.mm for value in prepared.body.known()}
    return draft(garment, prepared), body, prepared.ease.by_place(), CLOTH


def ends(garments: Iterable[Garment]) -> Iterator[tuple[str, str]]:
    """For each garment what came out, in a word ("passes", "failed", "refused", "crashed"), and what was said."""
    for garment in garments:
        try:
            results = run_checks(finish(garment))
        except CannotDraft as refusal:
            yield ("refused" if refusal.measurements else "refused without naming them"), refusal.reason
        except StepRefused as refusal:
            yield "step refused", " ".join(refusal.sentences())
        except Exception as error:  # whatever it is, it is counted
            yield "crashed", f"{type(error).__name__}: {error}"
        else:
            failed = [r for r in results if r.verdict in (Verdict.FAIL, Verdict.ERROR)]
            yield ("failed", "; ".join(f"{r.check}: {r.where}" for r in failed)) if failed else ("passes", "")


def _by_a_stranger(people: Iterable[Person], name: str) -> Iterator[tuple[str, str]]:
    for who in people:
        try:
            pattern, body, ease, cloth = alone(who, name)
        except CannotDraft:
            continue
        lines = table(stranger.read(to_json(pattern)), body, ease, cloth)
        wrong = [f"{x.what}: {x.found:.2f} for {x.wanted:.2f}" for x in lines if not x.holds]
        yield ("a stranger finds fault", "; ".join(wrong)) if wrong else ("a stranger finds none", "")


def _told(title: str, found: Iterable[tuple[str, str]]) -> Counter[str]:
    counted: Counter[str] = Counter()
    said: Counter[tuple[str, str]] = Counter()
    for end, words in found:
        counted[end] += 1
        if words:
            said[end, plain(words)] += 1
    print(f"{title:40}" + ", ".join(f"{end} {times}" for end, times in sorted(counted.items())), flush=True)
    for (end, words), times in said.most_common(4):
        print(f"    {times:4}  {end}: {words[:300]}")
    return counted


def main(words: Sequence[str] | None = None) -> int:
    """Sweep as the words ask for, print the tables; the exit status."""
    parser = argparse.ArgumentParser(prog="python -m tests.sweep_skirts")
    parser.add_argument("--every", type=int, default=1, metavar="N", help="every Nth body")
    parser.add_argument("--with", dest="taken", action="append", choices=TAKEN, help="a step to take; again for more")
    parser.add_argument("--stranger", action="store_true", help="let a stranger measure those alone as well")
    parser.add_argument("--only", default="", metavar="NAME", help="the skirts whose name begins so")
    asked = parser.parse_args(words)
    people = women()[:: asked.every]
    bad: Counter[str] = Counter()
    for name in SKIRTS:
        if not name.startswith(asked.only):
            continue
        for with_ in ((), ("bodice",)):
            for taken in asked.taken or ("",):
                title = ", ".join(each for each in (name, *(f"below a {b}" for b in with_), taken) if each)
                made = partial(skirt_for, name=name, with_=with_, taken=taken)
                bad += _told(title, ends(map(made, people)))
        if asked.stranger:
            bad += _told(name, _by_a_stranger(people, name))
    grave = ("failed", "crashed", "fault", "without")
    return int(any(any(word in end for word in grave) for end in bad))


if __name__ == "__main__":
    sys.exit(main())
