"""What an alteration is: a value that makes a new pattern of an old one, and keeps the promises it makes.

A promise is a number that must come out as said. It is measured before and after every use; a broken one is a refusal.
"""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import fields, replace
from enum import StrEnum
from typing import ClassVar, Final

from drafting.alterations.earlier_steps import cut_in_two, refused_after, taken_up, was_there
from drafting.alterations.notch_spacing import notches_spaced
from drafting.dataclass import dataclass
from drafting.errors import BrokenPromise, NotAPattern, Remedy, Setting, StepRefused, TrueseamError, UnknownName, meant
from drafting.geometry.tolerance import PROMISE
from drafting.parts.part_amounts import ways_to_draw
from drafting.parts.part_table import PARTS
from drafting.parts.redraw import PartRefused, drawn_again
from drafting.parts.undraw import without_derived
from drafting.pattern import BodyPart, Dart, Pattern, Piece, Place, Step, is_named_for, is_part_name
from drafting.pattern.pattern import with_measures_left
from drafting.reading.given import Given, option_problems, plain_number
from drafting.reading.options import Option, Value
from drafting.reading.possible_amounts import Amounts, larger_amounts, most_that, settings_of, smaller_amounts
from drafting.reading.read_table import refuse

__all__ = [
    "Alteration",
    "Layer",
    "Promise",
    "accept_piece",
    "apply_to",
    "bare_step",
    "find_dart",
    "find_piece",
    "parts_drawn",
    "step_of",
    "with_remedies",
]

_ROUNDED_AWAY: Final = 1.6
"""mm: a sixteenth of an inch, by which an amount may be less when it is told."""


class Layer(StrEnum):
    """What an alteration is about, in words; they stand in the order in which steps are taken.

    Sizes come before lengths, the fit before the style, and what is drawn at an edge after whatever moves that edge.
    A piece is cut in two last, so that every other step finds it whole.
    """

    SIZES = "sizes"
    LENGTHS = "lengths and girths"
    FIT = "bust, back, armhole, shoulder and sleeve"
    STYLE = "neckline and darts"
    FULLNESS = "fullness and wrap"
    OPENINGS = "openings"
    HEMS = "hems"
    SEAMS = "seams in place of darts"


@dataclass(frozen=True, slots=True)
class Promise:
    """A number that an alteration answers for.

    what:    the number in words: "the width of the front at the hip line"
    measure: how it is read off a pattern, mm or radians
    change:  how much it is to change, exactly; zero for what is left alone
    """

    what: str
    measure: Callable[[Pattern], float]
    change: float = 0.0


@dataclass(frozen=True, slots=True)
class Alteration(Given, ABC):
    """What every alteration is: a frozen dataclass whose fields are its options, lengths in mm (`option_fields.py`).

    name:    what it is called in a garment file and in a pattern's history
    layer:   when it is taken where the engine chooses the order; see `step_order.py`
    about:   what it does
    leaves:  what it leaves exactly alone, in words; the numbers of it are its promises, verified after every use
    carries: what it carries to other pieces, so that the seams still meet
    options: what each of its options can be
    or_less: the lengths among its options of which less may do where so much cannot be drawn or fails a check
    needs:   what of the garment has to be there for it: of each of these at least one
    instead: the alteration that does the nearest to it where it can do nothing; "" for none
    new_piece: for what it cuts off or adds a piece, the word its name ends in; "" where it makes none
    redraws: the places whose seams it takes away or draws anew, so that what is put into them comes after it
    asks:    the options of blocks that it is drawn on, taken where the person left them out

    Raises UnknownName, with the nearest, for an option that is not there, and InputProblems for a value it cannot have.
    """

    name: ClassVar[str]
    layer: ClassVar[Layer]
    about: ClassVar[str]
    leaves: ClassVar[str]
    carries: ClassVar[str]
    options: ClassVar[tuple[Option, ...]] = ()
    or_less: ClassVar[tuple[str, ...]] = ()
    needs: ClassVar[tuple[tuple[BodyPart, ...], ...]] = ()
    instead: ClassVar[str] = ""
    new_piece: ClassVar[str] = ""
    redraws: ClassVar[tuple[Place, ...]] = ()
    asks: ClassVar[tuple[tuple[str, Value], ...]] = ()

    def __post_init__(self) -> None:
        values = {option.name: getattr(self, option.name) for option in self.options}
        refuse([*option_problems(self.name, self.options, values)])
        for name, value in values.items():
            object.__setattr__(
                self, name, plain_number(value)
            )  # so that 30 and 30.0 are the same step, and the same text

    @abstractmethod
    def apply(self, pattern: Pattern) -> Pattern:
        """The altered pattern, its history as before. Raises StepRefused for what makes no sense on this pattern."""

    @abstractmethod
    def promises(self, pattern: Pattern) -> Iterable[Promise]:
        """What it answers for on this pattern, never nothing. Raises StepRefused as `apply` does."""

    @classmethod
    def not_here(cls, pattern: Pattern) -> str:
        """Why it can do nothing for this pattern, whatever its options are; "" where it may."""
        there = {piece.identity.part for piece in pattern.pieces}
        missing = [one for one in cls.needs if there.isdisjoint(one)]
        if missing:
            return f"it has no {' and no '.join(' or '.join(one) for one in missing)}"
        names_dart = any(option.name == "dart" and option.kind == "text" for option in cls.options)
        return "no piece has a dart" if names_dart and not any(piece.darts for piece in pattern.pieces) else ""

    def came_to(self, before: Pattern, after: Pattern) -> Mapping[str, float]:  # noqa: ARG002
        """What stands for the options that were left out and that it worked out: mm, or a number; {} for none.

        before, after: the pattern before the step and after it
        """
        return {}

    @property
    def deepest_hem(self) -> float:
        """How deep at most it leaves the hem of a skirt, mm; infinite where it leaves it as it is."""
        return math.inf

    @property
    def cuts_apart(self) -> str:
        """The piece that it cuts into others, which are named after that piece; "" where it cuts none apart."""
        return ""

    @property
    def puts_in(self) -> str:
        """The piece in the place of which it puts another of that name; "" where it puts none in."""
        return ""

    def makes(self, typed: str) -> bool:
        """Whether it makes the piece that was typed in another step, so that this other step comes after it."""
        adds = self.new_piece != "" and is_named_for(typed, self.new_piece)
        return adds or (self.cuts_apart != "" and is_part_name(typed, self.cuts_apart)) or typed == self.puts_in

    def comes_after(self, step: Alteration) -> bool:  # noqa: ARG002
        """Whether it waits for that one, though the table has it earlier: for a seam which that one draws anew."""
        return False

    def comes_before(self, step: Alteration) -> bool:  # noqa: ARG002
        """Whether it is to be taken before that one, though the table has it later."""
        return False


def apply_to(pattern: Pattern, alteration: Alteration, *, offers: bool = True) -> Pattern:
    """The pattern as it is now, altered, with the step added to its history; every promise was measured.

    It is taken on the pattern without its derived pieces, which are then drawn to it again.
    offers: whether to look, where it is refused, for what can be had in its place; whoever tries steps need not know
    Raises StepRefused for what makes no sense here, with what can be had in its place, which was tried; and
    BrokenPromise when a promised number is off by more than 1e-6 mm. Either way the given pattern is as it was.
    """
    accept_piece(alteration, pattern)

    def taken(step: Alteration) -> Pattern:
        return replace(parts_drawn(step, bare_step(without_derived(pattern), step), pattern), unfinished=None)

    return with_remedies(alteration, taken, pattern.history) if offers else taken(alteration)


def with_remedies(alteration: Alteration, taken: Callable[[Alteration], Pattern], history: Sequence[Step]) -> Pattern:
    """The pattern that `taken` makes with the alteration. If refused, what can be had is tried and offered.

    history: the steps taken before it: it is put before none but these
    """

    def is_of_use(remedy: Remedy) -> bool:
        # a block is drafted again, a part drawn, and another step taken by whoever has them all
        if remedy.act == "put before":
            return any(remedy.alteration in ("", step.alter) for step in history)
        return remedy.act != "change" or _can_be_had(alteration, taken, remedy.settings)

    try:
        return taken(alteration)
    except NotAPattern as error:
        had = [each for each in error.remedies if is_of_use(each)]
        less = _less_offered(alteration, taken, alteration.or_less)
        raise StepRefused(alteration.name, reason=str(error), remedies=[*had, *less]) from error
    except StepRefused as refused:
        remedies = [each for each in refused.remedies if is_of_use(each)]
        less = (
            _less_offered(alteration, taken, refused.too_much)
            or _more_offered(alteration, taken, refused.too_much)
            or _less_offered(alteration, taken, alteration.or_less)
        )
        cause = refused.__cause__
        parts = ways_to_draw(cause) if isinstance(cause, PartRefused) else ()
        remedies = list(dict.fromkeys((*remedies, *less, *parts)))
        raise StepRefused(refused.alteration, reason=refused.reason, remedies=remedies) from refused.__cause__


def bare_step(bare: Pattern, alteration: Alteration) -> Pattern:
    """The altered pattern with the step in its history, for one of which no part is drawn.

    Of two pairs of notches that come too near to each other one is left out.
    """
    return replace(notches_spaced(_applied(alteration, bare)), history=(*bare.history, step_of(alteration)))


def parts_drawn(alteration: Alteration, bare: Pattern, before: Pattern) -> Pattern:
    """The altered pattern with its parts drawn. Raises StepRefused where one cannot be drawn."""
    try:
        return drawn_again(bare, before)
    except NotAPattern as error:
        raise StepRefused(
            alteration.name, reason=f'the "{error.where}" cannot be drawn to it: {error.reason}'
        ) from error


def _applied(alteration: Alteration, pattern: Pattern) -> Pattern:
    """The altered pattern, every promise kept, and nothing else done to it."""
    promises = [(promise, promise.measure(pattern)) for promise in alteration.promises(pattern)]
    if not promises and not getattr(alteration, "only", ""):
        raise TypeError(f'"{alteration.name}" answers for nothing: name in `promises` what it leaves alone')
    altered = with_measures_left(alteration.apply(pattern))
    for promise, before in promises:
        after = promise.measure(altered)
        if not math.isclose(after, before + promise.change, rel_tol=0.0, abs_tol=PROMISE):
            raise BrokenPromise(alteration.name, promise.what, before + promise.change, after)
    return altered


def accept_piece(alteration: Alteration, pattern: Pattern) -> None:
    """Raise StepRefused for an alteration of a derived piece: drawn again, it would not keep what was altered."""
    named = {getattr(alteration, option, "") for option in ("piece", "only")}
    for part in pattern.derived:
        for name in named & set(part.pieces):
            options = " or ".join(option for option, _ in part.options)
            asked_for = any(each.name == part.part for each in PARTS)
            raise StepRefused(
                alteration.name,
                reason=f'"{name}" is drawn to the garment and follows it: alter the piece it is sewn to, or '
                + (f"give its [[part]] another {options}" if asked_for else "the step that made it"),
            )


def _less_offered(
    alteration: Alteration, taken: Callable[[Alteration], Pattern], options: Sequence[str]
) -> tuple[Remedy, ...]:
    """The most of these options that can be had, to a millimetre, as a remedy; none where less does not help."""

    def can_be_had(amounts: Amounts) -> bool:
        return _can_be_had(alteration, taken, settings_of(amounts))

    most = most_that(can_be_had, smaller_amounts(alteration, options, 1.0))
    return (Remedy("change", alteration.name, settings_of(most)),) if most else ()


def _more_offered(
    alteration: Alteration, taken: Callable[[Alteration], Pattern], options: Sequence[str]
) -> tuple[Remedy, ...]:
    """The least amount above the one asked for that can be had of the option, as a remedy; none where there is none.

    A sixteenth of an inch less can be had too, because the amount may be rounded by that when it is told.
    """

    def can_be_had(amounts: Amounts) -> bool:
        near = ({name: mm - _ROUNDED_AWAY for name, mm in amounts.items()}, amounts)
        return all(_can_be_had(alteration, taken, settings_of(each)) for each in near)

    least = most_that(can_be_had, larger_amounts(alteration, options[0])) if len(options) == 1 else {}
    return (Remedy("change", alteration.name, settings_of(least)),) if least else ()


def _can_be_had(alteration: Alteration, taken: Callable[[Alteration], Pattern], settings: Iterable[Setting]) -> bool:
    """Whether the alteration can be taken with these options set."""
    try:
        taken(replace(alteration, **{each.option: each.value for each in settings}))
    except TrueseamError:
        return False
    return True


def step_of(alteration: Alteration) -> Step:
    """The alteration as a step of a history: its name and its options, enough to make it again."""
    return Step(alteration.name, tuple((field.name, getattr(alteration, field.name)) for field in fields(alteration)))


def find_dart(alteration: str, piece: Piece, name: str, option: str = "", pattern: Pattern | None = None) -> Dart:
    """The dart of that name. Raises StepRefused for none: with the step that took it up, where the pattern is given and
    tells of one, else with the nearest name and the option it was given in.
    """
    try:
        return piece.dart(name)
    except UnknownName as error:
        why = taken_up(pattern, piece.name, name) if pattern and not meant(name, error.known) else ""
        said = f'"{piece.name}" has no dart "{name}" any more: {why}' if why else str(error)
        raise StepRefused(alteration, reason=f"{option}: {said}" if option else said) from error


def find_piece(alteration: str, pattern: Pattern, name: str) -> Piece:
    """The piece of that name. Raises StepRefused, with the nearest name, where there is none."""
    try:
        return pattern.piece(name)
    except UnknownName as error:
        why = taken_up(pattern, name, "") if was_there(pattern, name) else ""
        gone = f'There is no "{name}" any more: {why}. There is: {", ".join(error.known)}' if why else str(error)
        raise refused_after(alteration, cut_in_two(pattern, name, alteration), gone) from error
