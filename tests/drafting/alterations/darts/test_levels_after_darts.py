"""Level lines of a bodice after its dart was moved: the underarm line still comes to the underarm."""

from __future__ import annotations

import pytest

from drafting.alterations import apply_step
from drafting.errors import StepRefused
from drafting.geometry import distance
from tests.alteration_samples import SAMPLES, Options, sample
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses


@pytest.mark.parametrize("options", [each for each in SAMPLES["move a dart"] if each["piece"] == "bodice front"])
def test_the_underarm_line_ends_where_the_armhole_does(options: Options) -> None:
    for base in (dress(), *dresses()[::2]):
        try:
            front = apply_step(base, sample("move a dart", options)).piece("bodice front")
        except StepRefused:
            continue  # on a few the place asked for lies beyond the armhole
        line, armhole = front.line("underarm line"), front.edge("armhole")
        assert min(distance(line.end, end) for end in (armhole.start, armhole.end)) < 1e-6
        assert line.end.y == pytest.approx(line.start.y, abs=1e-6)
