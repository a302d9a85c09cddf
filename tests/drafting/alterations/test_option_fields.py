from collections.abc import Iterator
from dataclasses import FrozenInstanceError
from typing import ClassVar

import pytest

from drafting.alterations import ALTERATIONS, Alteration, Promise
from drafting.alterations.alteration_table import OPTION_WORDS
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.refusing import refusing
from drafting.errors import InputProblems, NotAPattern, StepRefused
from drafting.pattern import Pattern
from drafting.reading.options import REQUIRED, Option


@alteration_class
class Tuck(Alteration):
    """Takes nothing, and says what it would."""

    name: ClassVar[str] = "tuck"

    depth: float = option("length", "how deep", 1.0, 20.0, or_less=True)
    way: str = option("choice", "which way", choices=("up", "down"), default="up")
    seen: int = 3

    def apply(self, pattern: Pattern) -> Pattern:
        return pattern

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        del pattern
        yield from ()


def test_the_options_are_those_of_the_fields_in_their_order() -> None:
    assert Tuck.options == (
        Option("depth", "length", "how deep", 1.0, 20.0, REQUIRED),
        Option("way", "choice", "which way", default="up", choices=("up", "down")),
    )
    assert Tuck.or_less == ("depth",)


def test_a_class_takes_its_options_from_its_fields_when_it_is_made() -> None:
    @alteration_class
    class Pleat(Tuck):
        """A tuck with an option more."""

        open_to: float = option("length", "how far open", 0.0, 9.0, default=2.0, or_less=True, seldom=True)
        kept: bool = option("flag", "whether", default=False, goes_with=("way", ("up",)))

    assert Pleat.options == (
        *Tuck.options,
        Option("open_to", "length", "how far open", 0.0, 9.0, 2.0, seldom=True),
        Option("kept", "flag", "whether", default=False, goes_with=("way", ("up",))),
    )
    assert Pleat.or_less == ("depth", "open_to")
    assert Pleat(5.0) == Pleat(5.0, "up", 3, 2.0, False)
    with pytest.raises(TypeError):
        Pleat()  # type: ignore[call-arg]


def test_a_value_is_frozen_has_its_defaults_and_is_judged_where_it_is_made() -> None:
    made = Tuck(5.0)
    assert (made.depth, made.way, made.seen) == (5.0, "up", 3)
    assert not hasattr(made, "__dict__")
    with pytest.raises(FrozenInstanceError):
        made.depth = 6.0  # type: ignore[misc]
    with pytest.raises(InputProblems, match="from 1 to 20"):
        Tuck(21.0)
    with pytest.raises(TypeError):
        Tuck()  # type: ignore[call-arg]


def test_what_cannot_be_drawn_is_refused_in_the_sentence_made_of_it() -> None:
    gap = NotAPattern("front", reason="a gap")
    with pytest.raises(StepRefused) as refused, refusing("tuck", lambda error: f"too deep: {error.reason}"):
        raise gap
    assert refused.value.reason == "too deep: a gap"
    assert refused.value.__cause__ is gap
    with pytest.raises(StepRefused, match="no tuck"), refusing("tuck"):
        raise StepRefused("tuck", reason="no tuck")


def test_a_file_calls_girths_by_what_they_go_round() -> None:
    assert dict(OPTION_WORDS) == {"bust_girth": "bust", "upper_chest_girth": "high_bust", "upper_chest": "high_bust"}
    assert {option.name for each in ALTERATIONS for option in each.options} >= set(OPTION_WORDS)
