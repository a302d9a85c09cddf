"""Whether a sleeve for an arm can be set into an armhole at all."""

from __future__ import annotations

__all__ = ["biceps_for_cap", "sleeve_goes_in"]


def biceps_for_cap(cap: float, height: float) -> float:
    """How wide a sleeve is whose cap is so long and stands so high, mm (the sleeve triangle)."""
    diagonal = 0.5 * cap / 1.03  # a cap curve is about 3 % longer than its diagonal
    return 2.0 * float(max(diagonal**2 - height**2, 0.0) ** 0.5)


def sleeve_goes_in(cap: float, biceps: float) -> bool:
    """Whether a cap `cap` mm long can stand at least a quarter of the biceps high over it (the sleeve triangle)."""
    least_height = 0.25 * biceps
    return cap >= 2.0 * float((0.25 * biceps**2 + least_height**2) ** 0.5) * 1.02
