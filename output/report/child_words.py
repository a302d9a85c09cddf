"""Cautions for what may be worn by a child. They are reminders: the rules in force where she lives decide."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.pattern import Pattern
from drafting.sewing import Act, SewingStep

__all__ = ["child_caution", "may_be_a_child", "nightwear_caution"]

_GROWN: Final = 1450.0
"""mm of height from which on a wearer is taken for grown: nearly all women of the survey that the estimates come from
are taller (ours)."""

_RULES: Final = "Read the rules in force where you live."


def may_be_a_child(pattern: Pattern) -> bool:
    """Whether the wearer is small enough for a child, or not known at all."""
    height = next((each.mm for each in pattern.wearer.lengths if each.key == "stature"), 0.0)
    return height < _GROWN


def child_caution(pattern: Pattern, step: SewingStep) -> Iterator[str]:
    """What to beware of in a step where the wearer may be a child: small parts, ties."""
    if not may_be_a_child(pattern):
        return
    if step.act in (Act.BUTTONS, Act.LAP):
        yield (
            "For a child: sew every button and snap on so that it cannot be pulled off, and give none to one under "
            f"three, who could swallow it. {_RULES}"
        )
    if step.act is Act.LAP:
        yield f"For a child: no long ties or cords; they catch and can strangle. {_RULES}"


def nightwear_caution(pattern: Pattern) -> str:
    """What to beware of if a child is to sleep in it; "" where the wearer is grown."""
    if not may_be_a_child(pattern):
        return ""
    return f"For a child to sleep in there are rules on how easily the cloth may burn and how close it fits. {_RULES}"
