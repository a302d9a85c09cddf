"""Random garments of all blocks, parts and steps: is any sentence told in words of the program?

    python -m tests.sentences               a thousand garments
    python -m tests.sentences --count 200   fewer of them
    python -m tests.sentences --seed 7      other ones

Blocks, parts, steps and every option are drawn at random, whether they make sense or not. Each garment is finished and
checked, and everything that would be told is read: a refusal, what gave way, what a check says and where. No person
is to meet a value as Python writes it ("Point(x=", "None", a tuple, 1e-14), an empty name or an empty list. The same
seed gives the same garments. Exit status 1 when one is found, or anything crashed.
"""

from __future__ import annotations

import argparse
import random
import re
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Final

from blocks.block_table import BLOCKS, find_block
from blocks.garment import BlockOrder, Garment, finish
from drafting.alterations import ALTERATIONS
from drafting.alterations.alteration import Alteration
from drafting.body.person import Person
from drafting.checks import Verdict, run_checks
from drafting.errors import BrokenPromise, TrueseamError
from drafting.parts.part_table import PARTS, part_of
from drafting.reading.options import Option, Required, Value
from tests.alteration_samples import SAMPLES, TROUSER_SAMPLES, Options
from tests.wardrobe import KINDS, links_of, wearers

__all__ = ["in_words_of_the_program", "random_garment", "told_of"]

PROGRAMS: Final = {
    r"\b(Point|Vec|Edge|Piece|Line|Cubic|Seam|Notch|EdgeRef|Station)\(": "a value of Python",
    r"\d[eE][-+]\d": "a number in powers of ten",
    r"\bNone\b|\bTrue\b|\bFalse\b": "a word of Python",
    r"\('|', '|\"\]|\['": "a tuple or a list",
    r"\bnan\b|\binf\b": "no number",
    r"\b[A-Za-z]+Error\b|Traceback": "an error of Python",
    r"\b0x[0-9a-f]+|<[a-z_.]+ (object|at)": "an object of Python",
    r"\"\"": "an empty name",
    r"\w ,|(^|[,;:]) *[,.]|\b(the|and|or|a) [,.]": "an empty place in a list",
    r"\bgap of\b|no edges\b|(edges|lines|notches) have one name|there is no notch \"|have them all": "words of our own",
}
"""What no sentence may hold, and what it is."""

_WITH: Final = 0.2
"""How likely an option is to be given."""


_SENSIBLE: Final = 0.8
"""How many of the garments are of a kind that makes sense."""

_ANY: Final = tuple((name, given) for name, each in {**SAMPLES, **TROUSER_SAMPLES}.items() for given in each)


def in_words_of_the_program(said: str) -> str:
    """What of a sentence no person is to meet, in words; "" for nothing."""
    return next((what for words, what in PROGRAMS.items() if re.search(words, said)), "")


def random_garment(rng: random.Random) -> Garment:
    """A garment of a kind that makes sense, or of whatever there is. Raises TrueseamError for what cannot be asked."""
    kind = rng.choice(KINDS)
    who: Person = rng.choice(wearers(kind)[::20])
    sensible = rng.random() < _SENSIBLE
    names = [find_block(name) for name in kind.blocks] if sensible else rng.sample(BLOCKS, rng.choice([1, 2, 3]))
    orders = tuple(
        BlockOrder(block, {**kind.blocks.get(block.name, {}), **_options(rng, block.options)}) for block in names
    )
    fitting = [part for part in PARTS if part.fits(site for block in names for site in block.sites)]
    parts = rng.sample(fitting, min(len(fitting), rng.choice([0, 0, 1, 2]))) if sensible else [rng.choice(PARTS)]
    told = links_of(kind) if sensible else _ANY
    steps = tuple(_step(rng, *rng.choice(told)) for _ in range(rng.choice([0, 1, 2, 3])))
    derived = tuple(part_of(part, _options(rng, part.options)) for part in parts)
    return Garment("random", who, orders, cloth=kind.cloth, parts=derived, steps=steps)


def _step(rng: random.Random, name: str, given: Options) -> Alteration:
    """An alteration at one of its samples, or with options at random besides."""
    kind = ALTERATIONS.named(name)
    return kind(**{**given, **(_options(rng, kind.options) if rng.random() < _WITH else {})})  # type: ignore[arg-type]


def _options(rng: random.Random, options: Sequence[Option]) -> dict[str, Value]:
    """Some of these options, each at random between its bounds; all of those that must be given."""
    given: dict[str, Value] = {}
    for option in options:
        if isinstance(option.default, Required) or rng.random() < _WITH:
            value = _value(rng, option)
            if value is not None:
                given[option.name] = value
    return given


def _value(rng: random.Random, option: Option) -> Value:
    if option.kind == "choice":
        return rng.choice(option.choices)
    if option.kind == "flag":
        return rng.random() < 0.5
    if option.kind == "text":
        return "skirt front" if isinstance(option.default, Required) else None
    low, high = option.low or 0.0, 500.0 if option.high is None else option.high
    return rng.choice([low, high, round(rng.uniform(low, high), 2)])


def told_of(garment: Garment) -> Iterator[str]:
    """Every sentence that a person would be told of a garment."""
    try:
        pattern = finish(garment)
    except TrueseamError as refused:
        if isinstance(refused.__cause__, BrokenPromise):
            raise refused.__cause__ from refused
        yield from refused.sentences()
        return
    for origin in pattern.origin:
        yield from origin.gave_way
    for result in run_checks(pattern):
        if result.verdict not in (Verdict.PASS, Verdict.NOTHING):
            yield f"{result.check}, {result.where}: {result.remedy}"


def found(count: int, seed: int) -> Iterator[tuple[str, str]]:
    """What is wrong with the sentences of so many garments: what it is, and the sentence."""
    rng = random.Random(seed)
    for number in range(count):
        try:
            for said in told_of(random_garment(rng)):
                if what := in_words_of_the_program(said):
                    yield what, f"garment {number}: {said}"
        except TrueseamError as error:
            if isinstance(error, BrokenPromise):
                yield "a broken promise", f"garment {number}: {error}"
            for said in error.sentences():
                if what := in_words_of_the_program(said):
                    yield what, f"garment {number}: {said}"
        except Exception as error:  # whatever it is, it is counted
            yield "crashed", f"garment {number}: {type(error).__name__}: {error}"


def main(words: Sequence[str] | None = None) -> int:
    """Read the sentences of as many garments as the words ask for; the exit status."""
    parser = argparse.ArgumentParser(prog="python -m tests.sentences")
    parser.add_argument("--count", type=int, default=1000, help="how many garments")
    parser.add_argument("--seed", type=int, default=1, help="which ones")
    asked = parser.parse_args(words)
    kinds: Counter[str] = Counter()
    for what, said in found(asked.count, asked.seed):
        kinds[what] += 1
        print(f"{what}: {said}", flush=True)
    print(
        f"{asked.count} garments: " + (", ".join(f"{what} {n}" for what, n in kinds.items()) or "every sentence plain")
    )
    return int(bool(kinds))


if __name__ == "__main__":
    sys.exit(main())
