"""Values that never change, and so can keep what was measured on them."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import field
from typing import Final, TypeVar, cast

from drafting.dataclass import dataclass

__all__ = ["Remembering"]

T = TypeVar("T")

_NOT_ASKED: Final = object()  # None is an answer too


@dataclass(frozen=True, slots=True)
class Remembering:
    """A frozen value that keeps what was measured on it; a changed copy begins with nothing."""

    _remembered: dict[Hashable, object] = field(default_factory=dict, init=False, repr=False, compare=False)

    def remembered(self, what: Hashable, measure: Callable[[], T]) -> T:
        """What `measure` finds on this value: found once for each `what`, since the value never changes.

        what: the kind of measure and all that it goes by beside the value. Two threads that ask at once may both
              measure; they find the same.
        """
        found = self._remembered.get(what, _NOT_ASKED)
        if found is _NOT_ASKED:
            found = self._remembered[what] = measure()
        return cast(T, found)
