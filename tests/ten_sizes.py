"""What `trueseam size` says for ten women of the open survey, and why, on the chart of the examples.

`python -m tests.ten_sizes [--every N]` prints for every Nth woman (120 when left out) her girths, what to take and the
reasons, for a dress as the pattern is drawn; then in how many of all the women one size does, and how far the ease in
the sizes that were chosen lies from what is wanted.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from statistics import median
from typing import Final

from drafting.body.person import Person
from drafting.fit.cloth import Cloth
from drafting.reading.units import cm
from drafting.sizing.choose_size import SizeChoice, choose_size
from drafting.sizing.garment_kinds import garment_kind
from drafting.sizing.pattern_chart import PatternChart
from drafting.sizing.read_chart import read_chart
from output.report.size_words import size_passages, take_sentence
from output.report.tables import Passage
from tests.bodies import women

__all__ = ["choices", "main"]

CHART: Final = Path(__file__).parents[1] / "examples" / "charts" / "landing-dress.toml"


def choices(people: Sequence[Person], chart: PatternChart) -> list[SizeChoice]:
    """What is chosen for each."""
    kind, cloth = garment_kind("dress"), Cloth()
    return [choose_size(chart, who, kind, cloth) for who in people]


def main(arguments: Sequence[str]) -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--every", type=int, default=120)
    every = parser.parse_args(arguments).every
    chart = read_chart(CHART)
    for choice in choices([replace(who, unit="cm") for who in women()[::every]], chart):
        _told(choice)
    made = choices(women(), chart)
    print(f"Of all {len(made)} women:")
    blends = Counter(len(choice.blends) for choice in made)
    print(f"  one size does for {blends[0]}, a blend at one level for {blends[1]}, at two for {blends[2]}")
    by_chest = sum(choice.rules == "upper chest" for choice in made)
    print(f"  {by_chest} go by the high bust, because the bust is fuller than the pattern is drawn for")
    for place in ("bust", "waist", "hip"):
        off = [abs(_ease(choice, place) - _wanted(choice, place)) for choice in made if not _beyond(choice, place)]
        print(
            f"  {place}: {len(off)} lie in the chart; the ease in the size of that level is off what is wanted by "
            f"{median(off) / 10:.1f} cm at the median, {max(off) / 10:.1f} cm at most"
        )
    return 0


def _told(choice: SizeChoice) -> None:
    girths = dict(choice.person.measurements)
    names = {"upper_chest_girth": "high bust", "bust_girth": "bust", "waist_girth": "waist", "hip_girth": "hip"}
    told = ", ".join(f"{name} {cm(girths[key])}" for key, name in names.items())
    print(f"{choice.person.name}: {told}")
    print(f"  {take_sentence(choice)} Next best: {choice.runner_up}.")
    for said in size_passages(choice):
        if isinstance(said, Passage) and said.title != "Next best":
            for sentence in said.sentences[2:] if said.sentences[0] == take_sentence(choice) else said.sentences:
                if not sentence.startswith("Draw one even"):
                    print(f"    {sentence}")
    print()


def _pick(choice: SizeChoice, place: str) -> str:
    level = choice.level(place)
    return (level.pick if level else None) or choice.size


def _ease(choice: SizeChoice, place: str) -> float:
    return choice.ease_in(_pick(choice, place), place) or 0.0


def _wanted(choice: SizeChoice, place: str) -> float:
    level = choice.level(place)
    return level.wanted if level else 0.0


def _beyond(choice: SizeChoice, place: str) -> bool:
    level = choice.level(place)
    return level is not None and level.by_body is not None and level.by_body.is_beyond


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
