"""One equation with one unknown, or two with two: the root finding that drafting needs."""

from __future__ import annotations

from collections.abc import Callable

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry.point import Vec
from drafting.geometry.tolerance import SOLVED

__all__ = ["Rates", "root_between", "solve", "solve_both"]

_CLOSE = SOLVED / 100


@dataclass(frozen=True, slots=True)
class Rates:
    """How fast two values grow with a step of two unknowns: each by the dot product of its rate and the step.

    Broyden's method for two equations: a step is taken by the rates as they are known, and what it really did corrects
    them along it.
    """

    one: Vec
    other: Vec

    def step(self, one: float, other: float, *, least: float = 0.0) -> Vec | None:
        """The step in both unknowns by which the two values grow by these amounts.

        None where the rates run so nearly the same way that their cross product is no more than `least`.
        """
        a, b = self.one, self.other
        area = a.cross(b)
        if abs(area) <= least:
            return None
        return Vec((one * b.y - other * a.y) / area, (other * a.x - one * b.x) / area)

    def learnt(self, step: Vec, one: float, other: float) -> Rates:
        """The rates corrected by a step after which the two values have grown by so much."""
        size = step.dot(step)
        return Rates(
            self.one + step * ((one - self.one.dot(step)) / size),
            self.other + step * ((other - self.other.dot(step)) / size),
        )


def solve(surplus: Callable[[float], float], guess: float, step: float) -> float:
    """The x at which `surplus`, in mm, is zero within 1e-8, sought from `guess` with a first step of `step`.

    Lengths answer to widths and angles almost in proportion, so the secant through the last two tries mostly ends in
    four or five; where it strays, a change of sign is sought outward from the guess and closed in on (`root_between`).
    Raises NotAPattern when none is found within 40 steps, each half as long again as the last. What `surplus` raises
    itself counts as the end of the search on that side.
    """
    try:
        found = _secant(surplus, guess, step)
    except NotAPattern:
        found = None
    return _bracketed(surplus, guess, step) if found is None else found


def root_between(value: Callable[[float], float], low: float, high: float, *, near: float = 1e-14) -> float:
    """The x between low and high at which a value is zero, to `near` of their distance; the nearer end where none is.

    The secant through the last two tries gives the next; where that leaves what is left of the range, its middle does.
    From the tenth try on every second one is the middle, so what is left is halved whatever the values are.
    """
    x_before, before, x, now = low, value(low), high, value(high)
    rising = before < 0.0  # and now > 0.0, or the other way round
    if rising == (now < 0.0):
        return low if abs(before) <= abs(now) else high
    rising = rising == (low < high)
    low, high = min(low, high), max(low, high)
    near *= high - low
    for tries in range(110):
        if now == 0.0:
            break
        if (now < 0.0) == rising:
            low = max(low, x)
        else:
            high = min(high, x)
        following = x - now * (x - x_before) / (now - before) if now != before else low
        if not low < following < high or (tries >= 10 and tries % 2):
            following = 0.5 * (low + high)
        if abs(following - x) <= near:
            break
        x_before, before, x, now = x, now, following, value(following)
    return x


def solve_both(
    surplus: Callable[[float, float], tuple[float, float]], x: float, y: float
) -> tuple[float, float] | None:
    """The x and y, mm, at which both surpluses, in mm, are zero within 1e-8; None when 20 strides find none.

    The rates at which they grow are measured once, by steps of a tenth of a millimetre, and corrected by each try. A
    first guess may be far off, so no stride is longer than a quarter of y.
    """
    tenth = 0.1
    u, v = surplus(x, y)
    ux, vx = ((got - was) / tenth for got, was in zip(surplus(x + tenth, y), (u, v), strict=True))
    uy, vy = ((got - was) / tenth for got, was in zip(surplus(x, y + tenth), (u, v), strict=True))
    rates = Rates(Vec(ux, uy), Vec(vx, vy))
    for _ in range(20):
        if max(abs(u), abs(v)) <= _CLOSE:
            return x, y
        step = rates.step(-u, -v)
        if step is None:
            break
        step *= min(1.0, 0.25 * abs(y) / max(abs(step.x), abs(step.y), 1e-12))
        x, y = x + step.x, y + step.y
        was_u, was_v = u, v
        u, v = surplus(x, y)
        rates = rates.learnt(step, u - was_u, v - was_v)
    return None


def _secant(surplus: Callable[[float], float], guess: float, step: float) -> float | None:
    x, before = guess, surplus(guess)
    if abs(before) <= _CLOSE:
        return x
    following = x + step
    for _ in range(9):
        value = surplus(following)
        if abs(value) <= _CLOSE:
            return following
        if abs(value) > 2.0 * abs(before) + 10.0 or value == before:
            return None
        x, before, following = following, value, following - value * (following - x) / (value - before)
    return None


def _bracketed(surplus: Callable[[float], float], guess: float, step: float) -> float:
    """A root of `surplus`: it is looked for in growing strides on both sides of the guess until the sign changes.

    Raises NotAPattern where the sign changes nowhere near.
    """
    at_guess = surplus(guess)
    for direction in (1.0, -1.0):
        x, value, stride = guess, at_guess, step
        for _ in range(40):
            following = x + direction * stride
            try:
                ahead = surplus(following)
            except NotAPattern:
                break
            if (ahead < 0.0) != (at_guess < 0.0):
                return root_between(surplus, x, following)
            if abs(ahead) > 4.0 * abs(value) + 1.0:
                break
            x, value, stride = following, ahead, stride * 1.5
    raise NotAPattern("its outline", reason="no line can be drawn that is as long as it has to be")
