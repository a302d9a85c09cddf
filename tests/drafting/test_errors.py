"""The errors raised on purpose: whatever a process or a list of them does with one, it says the same."""

from __future__ import annotations

import copy
import pickle
from collections.abc import Callable
from typing import Final

import pytest

from drafting.errors import (
    BrokenPromise,
    CannotDraft,
    CannotWrite,
    InputProblems,
    Lacking,
    NotAPattern,
    Problem,
    Remedy,
    Setting,
    StepRefused,
    TrueseamError,
    UnknownName,
    Way,
    listed,
)
from drafting.parts.redraw import PartRefused
from drafting.pattern import Derived, DrawnTo, Place
from drafting.reading.units import NotRead
from tests.drafting.sample import blouse

_LESS: Final = Remedy("instead", "take in", (Setting("waist", -15.0, "mm"),), step=2)
_COLLAR: Final = Derived("collar", (DrawnTo(Place.NECK, blouse().piece("front").identity),))

_EACH: Final[tuple[TrueseamError, ...]] = (
    InputProblems([Problem("oda.toml", "hip", "a length", "Write one.", ("hip", 1))]),
    CannotDraft(["bust_girth"], "too small", [Way("ease", "bust", 20.0)], "sleeve", [_LESS]),
    StepRefused("full cap", reason="too full", remedies=[_LESS], step=3, worded="too full for it", too_much=["by"]),
    BrokenPromise("full cap", "the wrist", 200.0, 201.0),
    NotAPattern("front", reason="its outline has a gap", remedies=[_LESS]),
    PartRefused("collar", "it crosses the neck", _COLLAR, blouse(), [_LESS]),
    UnknownName("edge", "shoulda", ["shoulder"], of="front", hint="Look at it."),
    Lacking("side seam", "front", ["hem"]),
    CannotWrite("paper.pdf", "the disk is full"),
    NotRead("12 x", "a length", "Write one."),
)


@pytest.mark.parametrize("error", _EACH, ids=lambda each: type(each).__name__)
@pytest.mark.parametrize("again", [copy.copy, copy.deepcopy, lambda each: pickle.loads(pickle.dumps(each))])
def test_an_error_copied_or_pickled_has_all_its_data(
    error: TrueseamError, again: Callable[[TrueseamError], TrueseamError]
) -> None:
    made = again(error)
    assert (type(made), vars(made), made.args) == (type(error), vars(error), error.args)
    assert (str(made), made.sentences()) == (str(error), error.sentences())


@pytest.mark.parametrize(("words", "told"), [("", ""), ("a", "a"), ("ab", "a and b"), ("abc", "a, b and c")])
def test_words_are_listed_with_an_and_before_the_last(words: str, told: str) -> None:
    assert listed(words) == told


def test_each_kind_of_error_of_the_engine_is_among_those_copied() -> None:
    waiting, kinds = [TrueseamError], set[type[TrueseamError]]()
    while waiting:
        found = waiting.pop().__subclasses__()
        waiting += found
        kinds |= {each for each in found if each.__module__.startswith("drafting.") and each.__name__[0] != "_"}
    assert kinds == {type(each) for each in _EACH}
