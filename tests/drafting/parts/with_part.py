"""A pattern with a further part, as a garment that orders it has it."""

from __future__ import annotations

from dataclasses import replace

from drafting.parts.redraw import drawn_again
from drafting.parts.undraw import without_derived
from drafting.pattern import Derived, Pattern

__all__ = ["with_part"]


def with_part(pattern: Pattern, part: Derived) -> Pattern:
    """The pattern with a further part. Raises NotAPattern where it cannot be drawn."""
    bare = without_derived(pattern)
    return drawn_again(replace(bare, derived=(*bare.derived, part)), pattern)
