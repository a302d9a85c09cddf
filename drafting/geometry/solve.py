"""One equation, one unknown: the root finding that drafting needs."""

from __future__ import annotations

from collections.abc import Callable

from drafting.errors import NotAPattern
from drafting.geometry.tolerance import SOLVED

__all__ = ["solve"]

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
    raise NotAPattern("drafting", "no value makes the lengths agree")
