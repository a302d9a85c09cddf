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
    """A remedy for a refused step: the same step, with one option of it set to this value, mm or degrees."""
    return (Remedy("change", step, (Setting(option, value, unit),)),)


@contextmanager
def refusing(
    step: str, sentence: Callable[[NotAPattern], str] = str, remedies: tuple[Remedy, ...] = ()
) -> Iterator[None]:
    """Within this a NotAPattern becomes StepRefused for the step, with the sentence made of it and these remedies.

    By itself a NotAPattern is refused in its own words by `apply_step`, so this is for words that say more.
    """
    try:
        yield
    except NotAPattern as error:
        raise StepRefused(step, reason=sentence(error), remedies=(*error.remedies, *remedies)) from error


def not_to_be_had(step: str, amount: float, mend: str = "") -> AbstractContextManager[None]:
    """As `refusing`, for an amount of so many mm that is impossible. mend: in words, what she can do instead"""
    more = f"; {mend}" if mend else ""
    return refusing(step, lambda error: f"{amount:+.0f} mm is not to be had: {error}{more}")
