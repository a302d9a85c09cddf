"""One equation with one unknown, or two with two: the root finding that drafting needs."""

from __future__ import annotations

from collections.abc import Callable

from drafting.errors import NotAPattern
from drafting.geometry.tolerance import SOLVED

__all__ = ["solve", "solve_both"]

_CLOSE = SOLVED / 100


def solve(surplus: Callable[[float], float], guess: float, step: float) -> float:
    """The x at which `surplus`, in mm, is nought within 1e-8, sought from `guess` with a first step of `step`.

    Lengths answer to widths and angles almost in proportion, so the secant through the last two tries mostly ends in
    four or five; where it strays, a change of sign is sought outward from the guess and closed in on by scipy's brentq.
    Raises NotAPattern when none is found within 40 steps, each half as long again as the last. What `surplus` raises
    itself counts as the end of the search on that side.
    """
    try:
        found = _secant(surplus, guess, step)
    except NotAPattern:
        found = None
    return _bracketed(surplus, guess, step) if found is None else found


def solve_both(
    surplus: Callable[[float, float], tuple[float, float]], x: float, y: float
) -> tuple[float, float] | None:
    """The x and y, mm, at which both surpluses, in mm, are nought within 1e-8; None when 20 strides find none.

    By Broyden's method: the slopes are measured once, by steps of a tenth of a millimetre, and mended from what each
    try shows. A first guess may be far off, so no stride is longer than a quarter of y.
    """
    step = 0.1
    u, v = surplus(x, y)
    ux, vx = ((got - was) / step for got, was in zip(surplus(x + step, y), (u, v), strict=True))
    uy, vy = ((got - was) / step for got, was in zip(surplus(x, y + step), (u, v), strict=True))
    for _ in range(20):
        if max(abs(u), abs(v)) <= _CLOSE:
            return x, y
        det = ux * vy - uy * vx
        if det == 0.0:
            break
        dx, dy = (uy * v - vy * u) / det, (vx * u - ux * v) / det
        short = min(1.0, 0.25 * abs(y) / max(abs(dx), abs(dy), 1e-12))
        dx, dy = short * dx, short * dy
        x, y = x + dx, y + dy
        new_u, new_v = surplus(x, y)
        size = dx * dx + dy * dy
        off_u, off_v = (new_u - u - ux * dx - uy * dy) / size, (new_v - v - vx * dx - vy * dy) / size
        ux, uy, vx, vy = ux + off_u * dx, uy + off_u * dy, vx + off_v * dx, vy + off_v * dy
        u, v = new_u, new_v
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
    from scipy.optimize import brentq

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
                return float(brentq(surplus, x, following, xtol=1e-13, rtol=1e-14))
            if abs(ahead) > 4.0 * abs(value) + 1.0:
                break
            x, value, stride = following, ahead, stride * 1.5
    raise NotAPattern("its lengths", "nothing can be drawn that has them all")
