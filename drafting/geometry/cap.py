"""The cap of a set-in sleeve over its biceps line, and the sleeve triangle it follows.

A cap is given by its width (the biceps line), its height and the lengths of its front and its back; any two of width,
height and lengths give the third. It keeps its shape when it is drawn again: both sides are stretched across and up,
and leave the underarm at the angle that is asked for.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry.curve import Cubic, Curve, Line
from drafting.geometry.fair import fair
from drafting.geometry.outline import run_length
from drafting.geometry.point import Point, Vec, lerp
from drafting.geometry.solve import solve, solve_both
from drafting.geometry.tolerance import MEASURED

__all__ = ["Cap", "cap_of_height", "cap_of_width", "fair_cap", "redrawn_cap", "triangle_height"]

_FLATTEST: Final = 0.12
"""A cap lower than this share of its width is no cap: the sleeve would stand straight out."""

_OFF_CENTRE: Final = 0.25
"""The crown lies no nearer to either end of the biceps line than this share of it."""

_DEEPER: Final = 1.05
"""The front is hollowed deeper at the underarm than the back (from memory): its handle there is so much longer than
that of the fairest line and the back's as much shorter (our figure)."""


@dataclass(frozen=True, slots=True)
class Cap:
    """A cap: its back and its front, each as curves from the underarm up to the crown they share."""

    back: tuple[Curve, ...]
    front: tuple[Curve, ...]

    @property
    def crown(self) -> Point:
        """Its highest place, where front and back meet."""
        return self.back[-1].end

    @property
    def origin(self) -> Point:
        """Its back underarm end."""
        return self.back[0].start

    @property
    def width(self) -> float:
        """The width of the sleeve at the biceps line, mm."""
        return self.front[0].start.x - self.origin.x

    @property
    def back_width(self) -> float:
        """How far the crown lies from the back end of the biceps line, mm."""
        return self.crown.x - self.origin.x

    @property
    def height(self) -> float:
        """How far the crown lies above the biceps line, mm."""
        return self.crown.y - self.origin.y


def triangle_height(front: float, back: float, width: float) -> float:
    """The height of a cap of this width over straight diagonals of these lengths, all mm: the sleeve triangle.

    Plane geometry. Raises NotAPattern where the diagonals do not span the width.
    """
    foot = 0.5 * (width + (front**2 - back**2) / width)
    if front + back < width or abs(foot) > front:
        raise NotAPattern("cap", reason=f"so short an armhole does not reach over a sleeve {width:.0f} mm wide")
    return math.sqrt(front**2 - foot**2)


def fair_cap(*, back: float, front: float, width: float, lean: float, height: float) -> Cap:
    """The fairest cap on a biceps line of this width whose back and front are so long, mm within 1e-8.

    lean:   how much steeper than level both sides leave the underarm, radians
    height: about how high it will be, mm
    Both sides are fair curves from the underarm into a level crown; the handles at the crown are both as long as the
    mean of the two, so that it bends alike in front and behind. Its height and the place of its crown are solved for.
    Raises NotAPattern where no such cap stands on this line.
    """
    leaving, coming = Vec(math.cos(lean), math.sin(lean)), Vec(-math.cos(lean), math.sin(lean))
    here, there, level = Point(0.0, 0.0), Point(width, 0.0), Vec(1.0, 0.0)

    def drawn(back_width: float, height: float) -> Cap:
        crown = Point(back_width, height)
        one, other = fair(here, leaving, crown, level), fair(there, coming, crown, -level)
        even = level * (0.5 * ((crown - one.c2).norm() + (crown - other.c2).norm()))
        return Cap(
            (Cubic(here, here + (one.c1 - here) * (1.0 / _DEEPER), crown - even, crown),),
            (Cubic(there, there + (other.c1 - there) * _DEEPER, crown + even, crown),),
        )

    return _solved(drawn, back=back, front=front, back_width=0.5 * width, height=height)


def redrawn_cap(cap: Cap, *, back_width: float, width: float, height: float, turned: float = 0.0) -> Cap:
    """The cap in other measures, its back underarm end where it was.

    turned: how much steeper both sides leave the underarm than before, radians, apart from the stretching, which
            leaves that direction alone
    """
    size = (cap.back_width, cap.width - cap.back_width, cap.height)
    end = Point(cap.origin.x + back_width, cap.origin.y + height)
    far = Point(cap.origin.x + width, cap.origin.y)
    back = _stretched(cap.back, cap.origin, back_width / size[0], height / size[2], end, turned)
    front = _stretched(cap.front, far, (width - back_width) / size[1], height / size[2], end, -turned)
    return Cap(back, front)


def cap_of_width(cap: Cap, *, back: float, front: float, width: float, turned: float = 0.0) -> Cap:
    """The cap redrawn on a biceps line of this width so that its back and its front are so long, mm within 1e-8.

    Its height and the place of its crown are solved for, from those it has. Raises NotAPattern where no such cap
    stands on this line.
    """

    def drawn(back_width: float, height: float) -> Cap:
        return redrawn_cap(cap, back_width=back_width, width=width, height=height, turned=turned)

    return _solved(drawn, back=back, front=front, back_width=cap.back_width * width / cap.width, height=cap.height)


def cap_of_height(cap: Cap, *, back: float, front: float, height: float, turned: float = 0.0) -> Cap:
    """The cap redrawn at this height so that its back and its front are so long, mm within 1e-8.

    Its width is solved for on each side. Raises NotAPattern where a side cannot be so short.
    """

    def drawn(back_width: float, front_width: float) -> Cap:
        width = back_width + front_width
        return redrawn_cap(cap, back_width=back_width, width=width, height=height, turned=turned)

    front_width = cap.width - cap.back_width
    for side, wanted in (("back", back), ("front", front)):
        if wanted < 1.01 * height:
            raise NotAPattern(
                "cap", reason=f"its {side} of {wanted:.0f} mm is too short for a height of {height:.0f} mm"
            )

    def back_surplus(x: float) -> float:
        return run_length(drawn(max(x, 1.0), front_width).back, MEASURED) - back

    def front_surplus(x: float) -> float:
        return run_length(drawn(cap.back_width, max(x, 1.0)).front, MEASURED) - front

    found = drawn(solve(back_surplus, cap.back_width, 1.0), solve(front_surplus, front_width, 1.0))
    if not _central(found):
        raise NotAPattern("cap", reason="its crown would lie too far to one side")
    return found


def _solved(
    drawn: Callable[[float, float], Cap], *, back: float, front: float, back_width: float, height: float
) -> Cap:
    """The cap that is drawn where back and front are so long, sought from a place of its crown."""

    def surplus(back_width: float, height: float) -> tuple[float, float]:
        tried = drawn(back_width, height)
        return run_length(tried.back, MEASURED) - back, run_length(tried.front, MEASURED) - front

    solved = solve_both(surplus, back_width, height)
    found = None if solved is None else drawn(*solved)
    if found is None or not _central(found) or found.height < _FLATTEST * found.width:
        raise NotAPattern("cap", reason="none so long, or so short, can be drawn over a sleeve so wide")
    return found


def _central(cap: Cap) -> bool:
    return _OFF_CENTRE * cap.width < cap.back_width < (1.0 - _OFF_CENTRE) * cap.width


def _stretched(
    run: tuple[Curve, ...], origin: Point, across: float, up: float, crown: Point, turned: float
) -> tuple[Curve, ...]:
    """One side, stretched across and up from where its underarm end was to `origin`, ending in the crown exactly."""
    was = run[0].start

    def place(p: Point) -> Point:
        return Point(origin.x + (p.x - was.x) * across, origin.y + (p.y - was.y) * up)

    out: list[Curve] = []
    for k, curve in enumerate(run):
        start = out[-1].end if out else origin
        end = crown if k == len(run) - 1 else place(curve.end)
        if isinstance(curve, Line) and k:
            out.append(Line(start, end))
            continue
        handles = (curve.c1, curve.c2) if isinstance(curve, Cubic) else _thirds(curve)
        first = origin + ((handles[0] - was) * across).turned(turned) if k == 0 else place(handles[0])
        out.append(Cubic(start, first, place(handles[1]), end))
    return tuple(out)


def _thirds(line: Line) -> tuple[Point, Point]:
    return lerp(line.start, line.end, 1.0 / 3.0), lerp(line.start, line.end, 2.0 / 3.0)
