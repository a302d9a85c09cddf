"""Necklines by their figures: how far the neck rises, and a V where nothing but the shape is asked for."""

from __future__ import annotations

import math

import pytest

from drafting.alterations import Neckline, apply_step
from drafting.errors import StepRefused
from drafting.geometry import run_at, tangent
from drafting.pattern import Place, edges_at
from tests.drafting.dress import dress

FRONT, BACK = "bodice front", "bodice back"


def test_a_v_is_drawn_where_no_depth_is_given() -> None:
    before, after = (
        edges_at(each.piece(FRONT), Place.NECK)[0] for each in (dress(), apply_step(dress(), Neckline(shape="V")))
    )
    assert (after.start, after.end) == (before.start, before.end)
    # the round neck leaves the centre square, the V goes up nearly along its chord
    chord = after.end - after.start
    turned = [abs(math.degrees(tangent(edge.curves[0], 0.0).angle_to(chord))) for edge in (before, after)]
    assert turned[0] > 40.0
    assert turned[1] < 10.0


def test_a_wide_back_neck_that_rises_too_little_is_told_with_its_rise() -> None:
    """From the raised centre to the place 30 mm along the shoulder, plane geometry."""
    back = dress().piece(BACK)
    neck, shoulder = edges_at(back, Place.NECK)[0], edges_at(back, Place.SHOULDER)
    beside = next(edge for edge in shoulder if neck.start in (edge.start, edge.end))
    at = run_at(beside.curves, beside.length - 30.0 if beside.end == neck.start else 30.0)
    rise = at.y - (neck.end.y + 10.0)
    with pytest.raises(StepRefused, match=f"rises {rise:.0f} mm from its centre") as refused:
        apply_step(dress(), Neckline(width=30.0, back=-10.0))
    assert refused.value.alteration == "neckline"
    assert rise < 0.0
