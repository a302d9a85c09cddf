"""Random chains of alterations on garments of every kind: what came out of them, as a table.

    python -m tests.chains                  a thousand chains
    python -m tests.chains --count 200      fewer of them
    python -m tests.chains --seed 7         other ones
    python -m tests.chains --only romper    on one kind of garment; "dress of the chart" for those of the suite
    python -m tests.chains --as-written     each step when it comes, not when the engine would take it

A chain begins on a garment of a kind (`tests/wardrobe.py`), with parts or without, for a woman or a child of the open
surveys. It is three to eight alterations, each at one of its sensible amounts (`tests/alteration_samples.py`) or at a
share of it, taken in the order that the engine chooses. A step that is refused is left out and the chain goes on. Each
chain is taken once more as it comes out of a shuffle. The same seed gives the same chains. A stranger walks every seam
of the last pattern and looks for crossings (`tests/outside/walk_seams.py`). Exit status 1 when a promise was broken,
anything crashed, the stranger finds what no check tells, a refusal is told in words of the program, or the shuffled
chain gives another pattern.
"""

from __future__ import annotations

import argparse
import random
import re
import signal
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np

from blocks.remedies.step_at_fault import checked_after
from drafting.alterations import ALTERATIONS, Alteration, apply_step, make_step, order_of_steps
from drafting.alterations.alteration import bare_step
from drafting.checks import Result, Verdict
from drafting.errors import BrokenPromise, NotAPattern, StepRefused, TrueseamError
from drafting.geometry import polyline
from drafting.parts.redraw import require_drawn
from drafting.parts.undraw import undrawn
from drafting.pattern import Pattern, Piece
from drafting.pattern.text import to_json
from drafting.reading.options import Option, Value
from tests.alteration_samples import SAMPLES, Options, sample
from tests.bodies import women
from tests.drafting.dress import dress
from tests.drafting.sizes import sized
from tests.outside import stranger, walk_seams
from tests.remedies import mends, mends_instead
from tests.step_orders import asks_for_order, in_the_engines_order, senseless, shuffled
from tests.sweep import plain
from tests.sweep_alterations import dresses
from tests.wardrobe import KINDS, Kind, Link, a_garment, begun, links_of

__all__ = [
    "BASES",
    "LEAST_SHARE",
    "LINKS",
    "Chain",
    "Link",
    "bases",
    "scaled",
    "taken",
    "unnoticed_crossings",
]

BASES: Final = 6
"""How many dresses of the chart and of its kin the suite begins chains on."""

LINKS: Final = tuple((name, options) for name, amounts in SAMPLES.items() for options in amounts)
"""What a chain can be made of: every alteration at every amount."""

LEAST_SHARE: Final = 0.4
"""The least part of a sensible amount that is tried."""

_BAD: Final = (
    *("broke a promise", "crashed", "a stranger's fault, unnoticed", "another pattern when shuffled"),
    *("refused in words of the program", "steps refused in words of the program"),
)

_SEWN: Final = ("seam-length", "notches-meet", "outline-simple", "edges-sewn")

CHART: Final = "dress of the chart"

_FLAT: Final = 0.01

_INNER_WORDS: Final = re.compile(
    r"Point\(|has no edge \"|(lines|edges|notches|pieces|seams) have one name|have them all|\bNone\b|\('|are no edges"
    r"|a gap (between|of)|the next (edge )?begins|meets nothing|cannot be walked|''|\"\"|block ,|\de-\d"
)
"""What only the program knows of: a person can do nothing with it."""


@dataclass(frozen=True, slots=True)
class Chain:
    """What a chain came to.

    stages:  the pattern before the first step and after every one that was taken
    refused: why each of the others was not, with its place among the steps
    """

    stages: tuple[Pattern, ...]
    refused: tuple[tuple[int, TrueseamError], ...]

    @property
    def pattern(self) -> Pattern:
        """The pattern after the last step."""
        return self.stages[-1]


@cache
def bases() -> tuple[Pattern, ...]:
    """The dresses that chains begin on: the example, two sizes of the chart, and three women of the survey."""
    survey = tuple(pattern for _, pattern in dresses(women()[17::400]))
    return (dress(), sized(84), sized(92), *survey)[:BASES]


def scaled(name: str, options: Options, share: float) -> Alteration:
    """The alteration with these options, the amounts of which less may do multiplied by a share, from above 0 to 1, as
    far as it allows.
    """
    made = ALTERATIONS.named(name)
    lengths = {option.name: option for option in made.options if option.name in made.or_less}
    smaller: dict[str, Value] = {
        key: _within(lengths[key], value * share) if key in lengths and isinstance(value, float) else value
        for key, value in options.items()
    }
    return sample(name, smaller)


def _within(option: Option, value: float) -> float:
    """The value, or the nearest that the option may be."""
    low = value if option.low is None else max(value, option.low)
    return low if option.high is None else min(low, option.high)


def taken(pattern: Pattern, steps: Sequence[Alteration]) -> Chain:
    """The steps one after the other, refused ones left out. Raises BrokenPromise, and whatever is no refusal."""
    stages, refused = [pattern], []
    for place, step in enumerate(steps):
        try:
            stages.append(_after(stages[-1], step, last=place == len(steps) - 1))
        except BrokenPromise:
            raise
        except TrueseamError as refusal:
            refused.append((place, refusal))
    return Chain(tuple(stages), tuple(refused))


def _after(pattern: Pattern, step: Alteration, *, last: bool) -> Pattern:
    """The pattern after a step; a part that cannot be drawn to it waits for a further one, as in a garment file."""
    try:
        return apply_step(pattern, step, as_written=True)
    except StepRefused:
        if last or not pattern.derived:
            raise
        return apply_step(undrawn(pattern), step, as_written=True)


def unnoticed_crossings(pattern: Pattern, results: Sequence[Result]) -> list[str]:
    """The pieces whose outline crosses itself by the word of a stranger (shapely), while the check lets it pass."""
    passed = {each.where for each in results if each.code == "outline-simple" and each.verdict is Verdict.PASS}
    return [piece.name for piece in pattern.pieces if piece.name in passed and _crosses(piece)]


def _crosses(piece: Piece) -> bool:
    return walk_seams.crosses(np.array([(p.x, p.y) for p in polyline(piece.outline, _FLAT)]))


def unnoticed_faults(pattern: Pattern, results: Sequence[Result]) -> list[str]:
    """What a stranger finds who walks every seam of the pattern.json, where no check of seams or outlines tells it."""
    told = any(each.code in _SEWN and each.verdict in (Verdict.FAIL, Verdict.WARN) for each in results)
    return [] if told else walk_seams.faults(stranger.read(to_json(pattern)))


def sensible_links(chance: random.Random, kind: Kind | None, pattern: Pattern, first: Sequence[Link]) -> list[Link]:
    """The first steps and three to eight more, none of which makes no sense beside another, or on that kind of garment.

    What makes no sense on a kind is refused on a usual body of that kind, and on this one, though it is the only step.
    """
    among, usual = (links_of(kind), _usual(kind.name)) if kind else (LINKS, bases()[0])
    bare, found = undrawn(pattern), list(first)
    many = len(first) + chance.randint(3, 8)
    for each in chance.sample(among, len(among)):
        link: Link = (*each, chance.uniform(LEAST_SHARE, 1.0))
        apart = not any(senseless(each, other[:2]) for other in found)
        if apart and any(_can_be_had(on, link) for on in (bare, usual)):
            found.append(link)
        if len(found) == many:
            break
    return found


@cache
def _usual(kind: str) -> Pattern:
    return undrawn(a_garment(kind))


def _can_be_had(pattern: Pattern, link: Link) -> bool:
    """Whether a step is not refused where it is the only one."""
    try:
        bare_step(pattern, scaled(*link))  # what could be had in its place is not sought
    except TrueseamError:
        return False
    return True


def _shuffled_chain(pattern: Pattern, steps: Sequence[Alteration]) -> Chain:
    """The same steps as they come out of a shuffle, always the same one, taken in the engine's order."""
    return taken(pattern, in_the_engines_order(shuffled(steps, random.Random(len(steps)))))


def _why_refused(refused: TrueseamError, link: tuple[str, Options], others: Sequence[tuple[str, Options]]) -> str:
    sentence = " ".join(refused.sentences())
    if any(senseless(link, other) for other in others):
        return "refused beside one that asks for the same"
    if "not from a chart" in sentence:
        return "refused where there are no sizes to blend"
    if _INNER_WORDS.search(sentence):
        return "refused in words of the program"
    return "refused for order" if asks_for_order(refused) else "refused for cloth or body"


class _Tally:
    """What chains came to, each kind of end with the first chain that came to it."""

    def __init__(self, *, as_written: bool = False) -> None:
        self.as_written = as_written
        self.ends: Counter[str] = Counter()
        self.said: Counter[str] = Counter()
        self.first: dict[str, str] = {}
        self.chains = self.steps = 0

    def begin(self, kind: Kind | None, chance: random.Random) -> None:
        """A chain on a garment of a kind; on a dress of the chart for None."""
        self.chains += 1
        if kind is None:
            base = chance.choice(bases())
            self.add(CHART, base, sensible_links(chance, kind, base, ()))
            return
        try:
            pattern, first = begun(kind, chance)
        except TrueseamError as refused:
            said = plain(" ".join(refused.sentences()))
            inner = "refused in words of the program" if _INNER_WORDS.search(said) else "garment refused"
            self._end(inner, [said], kind.name)
        except Exception as error:  # whatever it is, it is counted
            self._end("crashed", [f"{type(error).__name__}: {error}"], kind.name)
        else:
            self.add(kind.name, pattern, sensible_links(chance, kind, pattern, first))

    def add(self, kind: str, pattern: Pattern, links: Sequence[Link]) -> None:
        parts = ", ".join(each.part for each in pattern.derived)
        told = f"{kind}, {pattern.wearer.name}, {parts or 'no part'}: " + "; ".join(
            f"{name} {dict(each)} x {share:.3f}" for name, each, share in links
        )
        self.steps += len(links)
        try:
            asked = [scaled(*link) for link in links]
            order = range(len(links)) if self.as_written else order_of_steps(asked, ALTERATIONS)
            chain = taken(pattern, [asked[place] for place in order])
            other = chain if self.as_written else _shuffled_chain(pattern, asked)
            steps = [make_step(step, ALTERATIONS) for step in chain.pattern.history]
            results = checked_after(chain.stages, steps)
            unnoticed = unnoticed_crossings(chain.pattern, results) or unnoticed_faults(chain.pattern, results)
        except BrokenPromise as broken:
            self._end("broke a promise", [plain(str(broken))], told)
        except Exception as error:  # whatever it is, it is counted
            self._end("crashed", [f"{type(error).__name__}: {error}"], told)
        else:
            if unnoticed:
                self._end("a stranger's fault, unnoticed", [plain(each) for each in unnoticed], told)
            elif not self._waits(chain.pattern, told):
                self._checked(pattern, chain.pattern, steps, results, told)
            self._end("another pattern when shuffled", [kind], told, int(other.pattern != chain.pattern))
            for place, refused in chain.refused:
                others = [link[:2] for count, link in enumerate(links) if count != order[place]]
                why = _why_refused(refused, links[order[place]][:2], others)
                self._end(f"steps {why}", [plain(" ".join(refused.sentences()))], told)

    def _checked(
        self, drafted: Pattern, altered: Pattern, steps: Sequence[Alteration], results: Sequence[Result], told: str
    ) -> None:
        """Count a chain by what its checks came to, and by whether a remedy mends every one that failed."""
        failed = [each for each in results if each.verdict in (Verdict.FAIL, Verdict.ERROR)]
        if not failed:
            self._end("passes every check", [], told)
        elif all(mends(altered, each) or mends_instead(drafted, steps, each) for each in failed):
            self._end("failed a check that its remedy mends", [f"{e.check}, {e.where}" for e in failed], told)
        else:
            self._end("failed a check", [plain(f"{e.check}, {e.where}: {e.remedy}") for e in failed], told)

    def _waits(self, pattern: Pattern, told: str) -> bool:
        """Whether a part still waits for a step, so that the garment would be refused."""
        try:
            require_drawn(pattern)
        except NotAPattern as refused:
            inner = "refused in words of the program" if _INNER_WORDS.search(str(refused)) else "part not drawn"
            self._end(inner, [plain(str(refused))], told)
            return True
        return False

    def _end(self, end: str, said: Sequence[str], told: str, times: int = 1) -> None:
        if not times:
            return
        self.ends[end] += 1
        for sentence in dict.fromkeys(said):
            self.said[f"{end}: {sentence}"] += 1
            self.first.setdefault(f"{end}: {sentence}", told)

    def lines(self) -> Iterator[str]:
        """The ends, how often each; beneath them why, and the first chain that ended so."""
        yield f"{'chains':38}{self.chains:6}"
        yield f"{'steps':38}{self.steps:6}"
        for end, times in self.ends.most_common():
            yield f"{end:38}{times:6}"
        for sentence, times in self.said.most_common():
            yield f"    {times:5} {sentence}"
            yield f"          first: {self.first[sentence]}"


def main(words: Sequence[str] | None = None) -> int:
    """Try as many chains as the words ask for, print the table; the exit status."""
    about = (__doc__ or "").partition("\n")[0]
    parser = argparse.ArgumentParser(prog="python -m tests.chains", description=about)
    parser.add_argument("--count", type=int, default=1000, help="how many chains")
    parser.add_argument("--as-written", action="store_true", help="each step when it comes")
    parser.add_argument("--seed", type=int, default=1, help="another number gives other chains")
    parser.add_argument("--only", choices=(CHART, *(kind.name for kind in KINDS)), help="one kind of garment")
    asked = parser.parse_args(words)
    chance, tally = random.Random(asked.seed), _Tally(as_written=asked.as_written)
    kinds = [kind for kind in (None, *KINDS) if asked.only in (None, kind.name if kind else CHART)]
    signal.signal(signal.SIGINT, signal.default_int_handler)  # in the background too
    with suppress(KeyboardInterrupt):  # stopped early it tells what it has
        for _ in range(asked.count):
            tally.begin(chance.choice(kinds), chance)
    print("\n".join(tally.lines()))
    return int(any(tally.ends[end] for end in _BAD))


if __name__ == "__main__":
    sys.exit(main())
