"""Whether a sleeve for an arm can be set into an armhole at all, and an armhole made deep enough for it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TypeVar

from drafting.body.complete import Body
from drafting.errors import CannotDraft

__all__ = ["biceps_for_cap", "deep_enough", "sleeve_goes_in"]

Drawn = TypeVar("Drawn")


def biceps_for_cap(cap: float, height: float) -> float:
    """How wide a sleeve is whose cap is so long and stands so high, mm (the sleeve triangle)."""
    diagonal = 0.5 * cap / 1.03  # a cap curve is about 3 % longer than its diagonal
    return 2.0 * float(max(diagonal**2 - height**2, 0.0) ** 0.5)


def sleeve_goes_in(cap: float, biceps: float) -> bool:
    """Whether a cap `cap` mm long can stand at least a quarter of the biceps high over it (the sleeve triangle)."""
    least_height = 0.25 * biceps
    return cap >= 2.0 * float((0.25 * biceps**2 + least_height**2) ** 0.5) * 1.02


def deep_enough(
    draw: Callable[[float], tuple[Drawn, float]],
    body: Body,
    ease: Mapping[str, float],
    *,
    step: float,
    most: float,
    for_sleeve: bool = True,
    since: float = 0.0,
) -> Drawn:
    """What is drawn with the armhole no deeper than a sleeve for the arm needs it, mm.

    draw:       from how much deeper the armhole is, to what is drawn and how long the armhole is then
    ease:       mm for "upper_arm", and "cap_ease": how much longer the cap is than the armhole
    step, most: by how much it is deepened at a time, and at the most
    for_sleeve: whether a sleeve is to go in; else it is drawn as it comes
    since:      by how much it has to be deeper at the least, where that is known
    Raises CannotDraft where even the deepest is too small.
    """
    more, arm = since, body.mm("upper_arm_girth") if for_sleeve else 0.0
    while True:
        drawn, hole = draw(more)
        if not for_sleeve or sleeve_goes_in(hole + ease["cap_ease"], arm + ease["upper_arm"]):
            return drawn
        more += step
        if more > most:
            raise CannotDraft(
                ("upper_arm_girth", "scye_depth"),
                f"The upper arm is {arm:.0f} mm round and the armhole {hole:.0f} mm: "
                "no sleeve for this arm can be set into it.",
            )
