"""What is estimated for girls and boys, against the means of the whole survey by bands of height."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from drafting.body.complete import complete, uncertain_first
from drafting.body.estimate import line_mm, lines
from drafting.body.person import person
from drafting.body.plausible import contradictions, doubts
from drafting.body.terms import BASICS, BodyKind

# Snyder and others 1977, the whole survey: tests/data/SOURCES.md. The lines were fitted to every second child.
with (Path(__file__).parents[2] / "data" / "children_1977_bands.csv").open(encoding="utf-8", newline="") as _file:
    BANDS = [
        (
            {key: float(mm) for key, mm in row.items() if mm and key != "body"},
            "girl" if row["body"] == "girl" else "boy",
        )
        for row in csv.DictReader(_file)
    ]


@pytest.mark.parametrize("body", ["girl", "boy"])
def test_lines_pass_through_the_mean_child_of_each_height(body: BodyKind) -> None:
    # A straight line cannot follow all of growing up: it misses the smallest and the tallest by more.
    compared = 0
    for means, kind in BANDS:
        if kind != body or not all(basic in means for basic in BASICS):
            continue
        allowed = 0.7 if 980 <= means["stature"] <= 1640 else 1.25
        for key, line in lines(body).items():
            if key in means:
                compared += 1
                assert abs(line_mm(line, means) - means[key]) <= allowed * line.sd * 10, (means["stature"], key)
    assert compared > 140


def test_a_mean_child_raises_no_doubt_and_no_contradiction() -> None:
    for means, kind in BANDS:
        if all(basic in means for basic in BASICS):
            child = complete(person(means, body="girl" if kind == "girl" else "boy"))
            assert doubts(child) == ()
            assert contradictions(child) == ()


def test_a_child_of_four_measurements_has_every_length_that_a_garment_is_drawn_from() -> None:
    child = complete(
        person({"stature": 1080.0, "bust_girth": 650.0, "waist_girth": 630.0, "hip_girth": 660.0}, body="boy")
    )
    estimated = {value.key for value in uncertain_first(child)}
    assert estimated == {
        "biacromial_breadth",
        "head_girth",
        "neck_base_girth",
        "shoulder_length",
        "interscye_mid_distance",
        "back_waist_length",
        "front_waist_length_from_neck_pit",
        "scye_depth",
        "elbow_girth",
        "waist_to_hip",
        "waist_height",
        "knee_height",
        "upper_arm_girth",
        "wrist_girth",
        "arm_length",
        "shoulder_to_elbow",
        "neck_pit_height",
        "axilla_height",
        "hip_height",
        "crotch_height",
        "crotch_length",
        "thigh_girth",
        "calf_girth",
        "ankle_girth",
    }
