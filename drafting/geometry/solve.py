"""One equation, one unknown: the bracketing and the root finding that drafting needs, on scipy's brentq."""

from __future__ import annotations

from collections.abc import Callable

from drafting.errors import NotAPattern

__all__ = ["solve"]


def solve(surplus: Callable[[float], float], guess: float, step: float, *, xtol: float = 1e-9) -> float:
    """The x at which `surplus` is nought, sought outward from `guess` in growing steps.

    Raises NotAPattern when no change of sign is found within 40 steps, each half as long again as the last. What
    `surplus` raises itself counts as the end of the search on that side.
    """
    from scipy.optimize import brentq

    at_guess = surplus(guess)
    if at_guess == 0.0:
        return guess
    for direction in _sides(surplus, guess, step, at_guess):
        x, value, stride = guess, at_guess, step
        for _ in range(40):
            following = x + direction * stride
            try:
                ahead = surplus(following)
            except NotAPattern:
                break
            if (ahead < 0.0) != (at_guess < 0.0):
                return float(brentq(surplus, x, following, xtol=xtol, rtol=1e-12))
            if abs(ahead) > 4.0 * abs(value) + 1.0:
                break
            x, value, stride = following, ahead, stride * 1.5
    raise NotAPattern("drafting", "no value makes the lengths agree")


def _sides(surplus: Callable[[float], float], guess: float, step: float, at_guess: float) -> tuple[float, float]:
    """Which way to look first: the side on which the surplus shrinks."""
    try:
        nearer = abs(surplus(guess + 0.01 * step)) < abs(at_guess)
    except NotAPattern:
        nearer = False
    return (1.0, -1.0) if nearer else (-1.0, 1.0)
