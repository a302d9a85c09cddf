"""The curves of a bodice and its sleeve on many bodies, as a table: of each line the worst, and how many miss it.

    python -m tests.sweep_curves                 the 1,104 women of the survey in the tree, all measurements
    python -m tests.sweep_curves --girths        with stature and the three girths only
    python -m tests.sweep_curves --chart         every size of the chart
    python -m tests.sweep_curves --fit close     another fit; also loose
    python -m tests.sweep_curves --every 12      every twelfth body
    python -m tests.sweep_curves --csv FILE      the women of another file of the same survey, in centimetres

What is looked at is pattern.json, by a reader that shares no code with the drafting (`tests/outside/curves_table.py`).
Exit status 1 when a line is missed where the armhole is wide enough for it to be asked.
"""

from __future__ import annotations

import argparse
import csv
import sys
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from blocks.garment import BlockOrder, Garment, draft, prepare
from blocks.rows.fitted import FITTED
from drafting.body.charts import SIZES
from drafting.body.person import Person, person
from drafting.body.sizes import Sizes, sizes_body
from drafting.body.terms import KEYS
from drafting.errors import CannotDraft
from drafting.fit.ease import FITS, Fit
from drafting.pattern import Pattern
from drafting.pattern.text import to_json
from tests.bodies import women
from tests.outside import curves_table, stranger

__all__ = ["Worst", "dressed", "main", "on_the_chart", "ordered", "swept"]

_CURVED = ("bodice", "sleeve")


@dataclass
class Worst:
    """What a line came to on many bodies: the worst and whose, the middle one, how many missed it.

    narrow: how many missed it where the armhole is too narrow for it to be asked
    """

    line: curves_table.Eye
    who: str
    found: list[float] = field(default_factory=list)
    missed: list[str] = field(default_factory=list)
    narrow: list[str] = field(default_factory=list)


def ordered(who: Person, fit: Fit = "regular", sizes: Sizes | None = None) -> Garment:
    """A bodice and its sleeve for somebody."""
    blocks = tuple(BlockOrder(block) for block in FITTED if block.name in _CURVED)
    return Garment("curves", who, blocks, fit=fit, sizes=sizes)


def dressed(garments: Iterable[Garment]) -> Iterator[tuple[str, Pattern]]:
    """The patterns of those that can be drafted, with whose they are."""
    for garment in garments:
        try:
            yield garment.wearer.name, draft(garment, prepare(garment))
        except CannotDraft:
            continue


def on_the_chart(fit: Fit = "regular") -> Iterator[Garment]:
    """A garment in every size of the women's chart."""
    for size in SIZES:
        sizes = Sizes(bust=size)
        yield ordered(replace(sizes_body(sizes).person, name=f"size {size}"), fit, sizes)


def swept(patterns: Iterable[tuple[str, Pattern]]) -> tuple[int, dict[str, Worst]]:
    """How many there were, and each line's worst."""
    count, worst = 0, dict[str, Worst]()
    for count, (who, pattern) in enumerate(patterns, 1):  # noqa: B007
        for eye in curves_table.table(stranger.read(to_json(pattern))):
            mine = worst.setdefault(eye.what, Worst(eye, who))
            mine.found.append(eye.found)
            if eye.over > mine.line.over:
                mine.line, mine.who = eye, who
            if not eye.holds:
                (mine.narrow if eye.narrow else mine.missed).append(who)
    return count, worst


def _read(path: Path) -> tuple[Person, ...]:
    people = []
    with path.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            cm = {key: float(value) for key, value in row.items() if key in KEYS and value}
            cm["waist_to_hip"] = float(row["waist_height"]) - float(row["hip_height"])
            cm["shoulder_drop"] = float(row["neck_side_height"]) - float(row["shoulder_height"])
            given = {key: 10.0 * value for key, value in cm.items()}
            people.append(person(given, name=f"row {row['row']}", place=f"{path.name}, row {row['row']}"))
    return tuple(people)


def _table(count: int, worst: dict[str, Worst]) -> list[str]:
    lines = [f"{count} bodies", f"{'':68}{'limit':>7}{'middle':>9}{'worst':>9}  missed"]
    for what, mine in worst.items():
        middle = sorted(mine.found)[len(mine.found) // 2]
        narrow = f", and {len(mine.narrow)} with a narrow armhole" if mine.narrow else ""
        found = f"{what:68}{mine.line.limit:7.2f}{middle:9.2f}{mine.line.found:9.2f}"
        lines.append(f"{found}  {len(mine.missed)}{narrow} ({mine.who})")
    return lines


def main(words: Sequence[str] | None = None) -> int:
    """Sweep as the words ask for, print the table; the exit status."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.sweep_curves", description=(__doc__ or "").partition("\n")[0]
    )
    parser.add_argument("--girths", action="store_true", help="stature and the three girths only")
    parser.add_argument("--chart", action="store_true", help="every size of the chart")
    parser.add_argument("--fit", choices=FITS, default="regular")
    parser.add_argument("--every", type=int, default=1, metavar="N", help="every Nth body")
    parser.add_argument("--csv", type=Path, metavar="FILE", help="another file of the survey, in cm")
    asked = parser.parse_args(words)
    people = _read(asked.csv) if asked.csv else women(girths_only=asked.girths)
    garments = on_the_chart(asked.fit) if asked.chart else (ordered(who, asked.fit) for who in people[:: asked.every])
    count, worst = swept(dressed(garments))
    print("\n".join(_table(count, worst)))
    return int(any(mine.missed for mine in worst.values()))


if __name__ == "__main__":
    sys.exit(main())
