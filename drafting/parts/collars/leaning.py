r"""A strip that leans: an arc of a ring, as the side of a cone is when it is laid flat.

upper edge ____                  The base is as long as the neck. Raised at the front the strip is a part of a
____|    \___              ring, its upper edge is shorter, and it leans to the neck: by height times the
|    base  ___\             angle psi that it turns through. Rise = (n / psi) (1 - cos psi), about n psi / 2.
|____------   rise
"""

from __future__ import annotations

import math
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Curve, Line, Point, arc, run_reversed
from drafting.geometry.outline import starting_at
from drafting.geometry.solve import root_between

__all__ = ["Ring", "ring_of_rise", "ring_of_top"]

_STRAIGHT: Final = 1e-9  # radians: a strip that turns by less is straight
_STEEPEST: Final = 2.0  # radians that a collar may turn through on the half


@dataclass(frozen=True, slots=True)
class Ring:
    """Half a strip from its fold at x = 0, mm: its base from the origin to the right, what it turns through, radians;
    above zero it bends up, and its upper edge is the shorter one.
    """

    base: float
    psi: float

    @property
    def rise(self) -> float:
        """How far its base rises at the front, mm."""
        return 0.5 * self.base * self.psi if abs(self.psi) < 1e-4 else self.base / self.psi * (1.0 - math.cos(self.psi))

    def at_height(self, height: float, long: float | None = None) -> tuple[Curve, ...]:
        """The line so many mm above the base, from the fold on. long: how far along the base, mm; None for all of it"""
        along = self.base if long is None else long
        if abs(self.psi) < _STRAIGHT:
            return (Line(Point(0.0, height), Point(along, height)),)
        radius = self.base / self.psi
        turned = self.psi * along / self.base
        if self.psi > 0.0:
            run = arc(Point(0.0, radius), radius - height, -0.5 * math.pi, turned)
        else:
            run = arc(Point(0.0, radius), height - radius, 0.5 * math.pi, turned)
        return starting_at(run[0], Point(0.0, height)), *run[1:]

    def back_at(self, height: float, long: float | None = None) -> tuple[Curve, ...]:
        """The line so many mm above the base, travelled to the fold; `long` as for `at_height`."""
        return run_reversed(self.at_height(height, long))

    def length_at(self, height: float) -> float:
        """How long the strip is so many mm above its base."""
        return self.base - height * self.psi


def ring_of_rise(name: str, base: float, rise: float) -> Ring:
    """The strip whose base rises by so many mm at the front; NotAPattern where no strip can rise so."""
    if not rise:
        return Ring(base, 0.0)
    most = Ring(base, _STEEPEST).rise
    if abs(rise) >= most:
        raise NotAPattern(
            name, reason=f"it cannot rise by {abs(rise):.0f} mm over {base:.0f} mm; {most:.0f} mm is the most"
        )
    psi = root_between(lambda turned: Ring(base, turned).rise - abs(rise), _STRAIGHT, _STEEPEST, near=1e-12)
    return Ring(base, math.copysign(psi, rise))


def ring_of_top(base: float, height: float, top: float) -> Ring:
    """The strip that measures `top` mm so far above its base."""
    return Ring(base, (base - top) / height)
