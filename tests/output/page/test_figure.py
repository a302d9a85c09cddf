"""The drawing of a body: it follows its numbers on every body of the survey, and holds together on each."""

from __future__ import annotations

import math
import re

import pytest

from drafting.body.complete import complete
from drafting.body.person import person
from drafting.body.terms import KEYS
from output.figure.draw_figure import draw_figure
from output.figure.silhouette import Silhouette, silhouette, trunk_outline
from output.figure.tape_lines import tape_line
from output.page.views.body_picture import figure
from tests.bodies import women
from tests.output.page.shown_garments import example

SHAPES = {
    "small": {"height": 1480, "bust": 780, "waist": 600, "hip": 840},
    "tall": {"height": 1860, "bust": 900, "waist": 720, "hip": 980},
    "heavy": {"height": 1620, "bust": 1300, "waist": 1180, "hip": 1350},
    "with child": {"height": 1660, "bust": 1020, "waist": 1060, "hip": 1050},
}


def of(lengths: dict[str, float]) -> Silhouette:
    return silhouette({each.key: each.mm for each in complete(person(lengths, name="Oda")).known()})


@pytest.mark.parametrize("lengths", SHAPES.values(), ids=SHAPES)
def test_a_larger_girth_is_drawn_broader(lengths: dict[str, float]) -> None:
    drawn = of(lengths)
    wider = of({**lengths, "waist": lengths["waist"] + 30})
    assert wider.half["waist"] > drawn.half["waist"]
    assert of({**lengths, "hip": lengths["hip"] + 30}).half["hip"] > drawn.half["hip"]
    assert of({**lengths, "height": lengths["height"] + 40}).height == pytest.approx(drawn.height + 4.0)


@pytest.mark.parametrize("lengths", SHAPES.values(), ids=SHAPES)
def test_breadths_are_those_of_ovals_of_these_girths(lengths: dict[str, float]) -> None:
    """No oval of a girth is broader than half of it, and none of a body narrower than a circle of it."""
    drawn = of(lengths)
    for place in ("waist", "hip"):
        girth = lengths[place] / 10.0
        assert girth / math.pi <= 2.0 * drawn.half[place] < girth / 2.0


@pytest.mark.parametrize("side", ["front", "back"])
def test_the_outline_goes_down_the_side_and_up_again_on_bodies_of_the_survey(side: str) -> None:
    for woman in women()[::100]:
        body = silhouette({each.key: each.mm for each in complete(woman).known()})
        outline = trunk_outline(body)
        lowest = max(range(len(outline)), key=lambda place: outline[place][1])
        down = [y for _, y in outline[:lowest]]
        assert down == sorted(down), woman.name
        assert all(x >= 0.0 for x, _ in outline), woman.name
        drawn = draw_figure(body, "front" if side == "front" else "back")
        numbers = [float(each) for path in drawn["paths"] for each in re.findall(r"-?\d+\.?\d*", path["d"])]
        assert all(math.isfinite(each) and abs(each) < 400.0 for each in numbers)


def child(height: float, kind: str) -> Silhouette:
    """A child of that height, cm, with girths as children have them for it (ours)."""
    lengths = {"stature": 10.0, "bust_girth": 5.7, "waist_girth": 5.3, "hip_girth": 6.0, "head_girth": 4.0}
    return silhouette({key: share * height for key, share in lengths.items()}, kind)


@pytest.mark.parametrize(("height", "heads"), [(60, 4.0), (75, 4.15), (102, 5.0), (140, 6.5), (165, 7.3)])
@pytest.mark.parametrize("kind", ["girl", "boy"])
def test_a_child_is_so_many_heads_tall_and_its_levels_follow_each_other(height: int, heads: float, kind: str) -> None:
    """Four heads as a baby, five at four years, over seven when grown: common practice of those who draw."""
    body = child(height, kind)
    assert body.height / body.head == pytest.approx(heads, abs=0.1)
    levels = [body.y[name] for name in ("nape", "side neck", "shoulder", "armpit", "bust", "waist", "hip", "crotch")]
    assert levels == sorted(levels)
    assert body.head < body.y["pit"] < body.y["armpit"]
    assert 0.6 < 2.0 * body.half["head"] / body.head < 0.9  # a woman's is 0.65


def test_boy_girl_baby_and_woman_have_each_their_own_hair() -> None:
    bodies = (child(110, "girl"), child(110, "boy"), child(70, "girl"), of(SHAPES["small"]))
    hair = {
        next(each["d"] for each in draw_figure(body, "front")["paths"] if each["kind"] == "hair") for body in bodies
    }
    assert len(hair) == len(bodies)


def test_every_measurement_has_its_tape() -> None:
    body = of(SHAPES["tall"])
    assert [key for key in KEYS if tape_line(key, body) is None] == []
    assert tape_line("tail_girth", body) is None


def test_a_tape_down_the_back_is_seen_from_behind_and_as_long_as_its_length() -> None:
    body = of(SHAPES["small"])
    tape = tape_line("back_waist_length", body)
    assert tape is not None
    assert tape["side"] == "back"
    ys = [float(each) for each in re.findall(r"-?\d+\.\d+", tape["near"])][1::2]
    assert max(ys) - min(ys) == pytest.approx(body.y["waist"] - body.y["nape"], abs=0.02)


def test_the_figure_of_a_garment_is_drawn_for_its_wearer() -> None:
    data = figure(example("ferry-dress"))
    assert {"front", "back", "tapes"} == set(data)
    assert data is figure(example("ferry-dress"))  # drawn once
