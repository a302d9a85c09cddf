"""The chart of a garment that is drafted here: what it measures in every size of a built-in chart."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from typing import Final

from blocks.garment import Garment
from drafting.alterations.whole_garment.blend_sizes import Blend
from drafting.body.charts import chart_body, chart_named
from drafting.body.sizes import Sizes, sizes_body
from drafting.errors import InputProblems, Problem, TrueseamError
from drafting.pattern import finished
from drafting.sizing.pattern_chart import ChartRow, PatternChart, chart_rows
from output.api.making import draft

__all__ = ["garment_chart"]

_GIRTHS: Final = ("bust", "waist", "hip", "upper_arm")

_FEWEST: Final = 2
"""Sizes to choose between."""


def garment_chart(garment: Garment) -> PatternChart:
    """The chart of a garment that is made in sizes: it is drafted and altered in every size, and measured.

    A size that cannot be drafted is left out. Raises InputProblems for a garment that is made to a person's own
    measurements, or of which fewer than two sizes can be drafted.
    """
    if garment.sizes is None:
        expected = "a garment with [sizes] of a built-in chart: one made to measure has no sizes to choose from"
        raise InputProblems([Problem(garment.title, f"made for {garment.wearer.name}", expected)])
    chart, height = garment.sizes.chart, garment.sizes.height
    steps = tuple(step for step in garment.steps if not isinstance(step, Blend))
    made: dict[str, dict[str, float]] = {}
    for size in chart_named(chart).sizes:
        one = Sizes(bust=size, chart=chart, height=height)
        wearer = replace(sizes_body(one).person, unit=garment.wearer.unit)
        with suppress(TrueseamError):
            pattern = draft(replace(garment, sizes=one, wearer=wearer, steps=steps, sources=())).pattern
            made[str(size)] = {each.name.replace(" ", "_"): each.finished for each in finished(pattern)}
    if len(made) < _FEWEST:
        expected = "a garment that can be drafted in two sizes or more"
        raise InputProblems([Problem(garment.title, f"{len(made)} sizes that can be drafted", expected)])
    bodies = [chart_body(int(size), chart=chart, height=height) for size in made]
    words = [word for word in _GIRTHS if all(word in each for each in made.values())]
    rows = tuple(ChartRow(word, tuple(each[word] for each in made.values())) for word in words)
    return PatternChart(
        garment.title,
        tuple(made),
        chart_rows(bodies),
        rows,
        garment.cloth.kind,
        _kind(garment),
        body_kind=garment.wearer.body,
        unit=garment.wearer.unit,
        place=garment.title,
    )


def _kind(garment: Garment) -> str:
    """What kind of garment its blocks make."""
    places = {place for order in garment.blocks for place in order.block.places}
    if "bust" not in places:
        return "skirt"
    return "dress" if "hip" in places else "fitted top"
