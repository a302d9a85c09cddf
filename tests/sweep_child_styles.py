"""Style lines, collars, gathers and elastic on the clothes of children of the open 1977 survey, as a table.

    python -m tests.sweep_child_styles --every 20     every twentieth of them
    python -m tests.sweep_child_styles --odd          children whose chest, waist and hip do not go together (486)
    python -m tests.sweep_child_styles --only smock   one of the cases

Each step is taken alone, each part ordered alone, on a dress, a tunic and a romper, at what they are where nothing is
said of them. Exit status 1 when a check failed, a promise was broken or anything crashed.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import product
from typing import Final

from drafting.alterations import apply_step
from drafting.body.person import Person, person
from drafting.checks import Verdict, run_checks
from drafting.errors import BrokenPromise, TrueseamError
from drafting.parts.part_table import find_part
from drafting.parts.redraw import require_drawn
from drafting.pattern import Pattern
from tests.alteration_samples import Options, sample
from tests.sweep import plain
from tests.sweep_children import children
from tests.wardrobe import BUTTONED, OPENED, garment_of

__all__ = ["CASES", "end_of", "odd_children"]

_GARMENTS: Final = ("child's dress", "child's tunic", "romper")
_STEPS: Final[tuple[tuple[str, Options], ...]] = (
    ("yoke", {"on": "both"}),
    ("smock", {}),
    ("raglan", {}),
    ("saddle shoulder", {}),
    ("dropped shoulder", {"by": 9.0}),
    ("empire seam", {}),
    ("full sleeve", {"cap": 40.0, "hem": 40.0}),
)
_PARTS: Final = (
    *("flat collar", "stand collar", "turn-over collar", "shirt collar", "sailor collar"),
    *("wrist elastic", "cuff"),
)
CASES: Final = (
    *((garment, name) for name, _ in _STEPS for garment in _GARMENTS),
    *(("child's dress", name) for name in _PARTS),
)
"""What is tried: a garment, and the alteration or part."""

End = tuple[str, tuple[str, ...]]
"""How it ended, in a word, and what was said."""


@cache
def odd_children() -> tuple[Person, ...]:
    """Girls and boys of nine heights whose chest, waist and hip are each slimmer, as usual and rounder: 486."""
    found = []
    heights, shares = range(800, 1700, 100), (0.88, 1.0, 1.14)
    for high, body, chest, waist, hip in product(heights, ("girl", "boy"), shares, shares, shares):
        usual = 300.0 + 0.24 * high  # about the chest of the survey, mm (ours)
        mm = {"stature": float(high), "bust_girth": usual * chest}
        mm |= {"waist_girth": (usual - 0.06 * (high - 800)) * waist, "hip_girth": (usual + 0.03 * (high - 800)) * hip}
        name = f"{body} of {high} mm, {chest} {waist} {hip}"
        found.append(person(mm, name=name, body="girl" if body == "girl" else "boy"))
    return tuple(found)


def end_of(who: Person, garment: str, name: str) -> End:
    """What comes out. Never raises: that is what it is to find out."""
    try:
        results = run_checks(_made(who, garment, name))
    except TrueseamError as refusal:
        broken = any(isinstance(each, BrokenPromise) for each in (refusal, refusal.__cause__))
        return "promise broken" if broken else "refused", refusal.sentences()
    except Exception as error:  # whatever it is, it is counted
        return "crashed", (f"{type(error).__name__}: {error}",)
    failed = tuple(f"{r.check}: {r.where}" for r in results if r.verdict in (Verdict.FAIL, Verdict.ERROR))
    return ("failed" if failed else "passes"), failed


def _made(who: Person, garment: str, name: str) -> Pattern:
    steps = dict(_STEPS)
    if name in steps:
        return apply_step(garment_of(garment, who), sample(name, steps[name]))
    opened = BUTTONED if name == "shirt collar" else OPENED
    if "collar" not in name:
        return garment_of(garment, who, [find_part(name)])
    pattern = garment_of(garment, who, [find_part(name)], [opened])
    # below the waist as well, so that a waist smaller than the chest goes over it
    options = {key: value for key, value in opened[1].items() if key != "length"}
    opened_whole = apply_step(pattern, sample("opening", options), as_written=True)
    require_drawn(opened_whole)
    return opened_whole


def _told(ends: Sequence[tuple[tuple[str, str], Person, End]]) -> Iterator[str]:
    for case in dict.fromkeys(case for case, _, _ in ends):
        mine = [(who, end) for found, who, end in ends if found == case]
        counts = Counter(end for _, (end, _) in mine)
        yield f"{case[1]:18} {case[0]:16}" + ", ".join(f"{end} {times}" for end, times in sorted(counts.items()))
        said = Counter((end, plain(sentence)) for _, (end, told) in mine for sentence in set(told))
        for (end, sentence), times in said.most_common(4):
            first = next(who for who, (_, told) in mine if sentence in map(plain, told))
            yield f"    {times:5} {end}: {sentence}  (first: {first.name})"


def main(words: Sequence[str] | None = None) -> int:
    """Sweep as the words ask for, print the table; the exit status."""
    parser = argparse.ArgumentParser(prog="python -m tests.sweep_child_styles")
    parser.add_argument("--every", type=int, default=1, metavar="N", help="every Nth child")
    parser.add_argument("--odd", action="store_true", help="children whose girths do not go together")
    parser.add_argument("--only", choices=sorted({name for _, name in CASES}), help="one alteration or part")
    asked = parser.parse_args(words)
    people = (odd_children() if asked.odd else children())[:: asked.every]
    cases = [case for case in CASES if asked.only in (None, case[1])]
    ends = [(case, who, end_of(who, *case)) for who in people for case in cases]
    print("\n".join(_told(ends)))
    return int(any(end in ("failed", "promise broken", "crashed") for _, _, (end, _) in ends))


if __name__ == "__main__":
    sys.exit(main())
