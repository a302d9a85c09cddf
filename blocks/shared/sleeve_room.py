"""Whether a sleeve for an arm can be set into an armhole at all."""

from __future__ import annotations

__all__ = ["sleeve_goes_in"]


def sleeve_goes_in(cap: float, biceps: float) -> bool:
    """Whether a cap `cap` mm long can stand at least a quarter of the biceps high over it (the sleeve triangle)."""
    least_height = 0.25 * biceps
    return cap >= 2.0 * float((0.25 * biceps**2 + least_height**2) ** 0.5) * 1.02
