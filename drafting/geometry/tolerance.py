"""Every tolerance in the engine, in millimetres unless said, each with its reason.

Values are exact and `==` means equal; a tolerance is used only where its name says why.
"""

from __future__ import annotations

from typing import Final

LENGTH: Final = 1e-4
"""The error that `length` may have. A hundredth of what a sharp pencil shows; a hundred curves stay under 0.01."""

SOLVED: Final = 1e-6
"""How near a solved length comes to the one wanted: a hundred times finer than `LENGTH`, so solving adds nothing."""

MEASURED: Final = SOLVED / 4
"""The error of a length that is solved for or promised: so two of them differ by half of `SOLVED` at the most."""

SAME_PLACE: Final = 1e-6
"""Points nearer than this are one place when an outline is put together; well above rounding over a metre (1e-10)."""

PROMISE: Final = 1e-6
"""What an alteration leaves alone may differ by this after it: only the rounding of rigid moves."""

CROSSING: Final = 1e-7
"""How near the two curves are at a reported crossing."""

FLAT: Final = 0.01
"""A polyline drawn for a curve strays from it no more than this: a tenth of a printed hairline."""

TOUCH: Final = 0.5
"""Two curves that stay within `CROSSING` over less than this touch in one place; over more they run together."""

OFFSET: Final = 0.02
"""How far a parallel curve may be from its true distance: less than scissors follow, and few curves on the page."""
