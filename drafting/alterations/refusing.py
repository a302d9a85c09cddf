"""Turning "this cannot be drawn" into the refusal of the step that asked for it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager

from drafting.errors import NotAPattern, Remedy, Setting, StepRefused
from drafting.geometry.tolerance import SAME_PLACE

__all__ = ["accept_change", "instead", "not_to_be_had", "refusing"]


def accept_change(step: str, say: str, *amounts: float) -> None:
    """Raise StepRefused where all these amounts are zero, mm. say: what she has to say: 'by how much: by = "1 cm"'."""
    if max(map(abs, amounts)) < SAME_PLACE:
        raise StepRefused(step, reason=f"nothing is to change; say {say}")


def instead(step: str, option: str, value: str | float, unit: str = "") -> tuple[Remedy, ...]:
    """What can be had in place of what is refused: the same step, one option of it set to this value, mm or degrees."""
    return (Remedy("change", step, (Setting(option, value, unit),)),)


@contextmanager
def refusing(
    step: str, sentence: Callable[[NotAPattern], str] = str, remedies: tuple[Remedy, ...] = ()
) -> Iterator[None]:
    """Within it a NotAPattern becomes StepRefused for that step, in the sentence made of it, with what else can be had.

    By itself a NotAPattern is refused in its own words by `apply_step`, so this is for words that say more.
    """
    try:
        yield
    except NotAPattern as error:
        raise StepRefused(step, reason=sentence(error), remedies=(*error.remedies, *remedies)) from error


def not_to_be_had(step: str, amount: float, mend: str = "") -> AbstractContextManager[None]:
    """The same, for an amount of so many mm that cannot be had. mend: what else she can do, in words."""
    more = f"; {mend}" if mend else ""
    return refusing(step, lambda error: f"{amount:+.0f} mm is not to be had: {error}{more}")
