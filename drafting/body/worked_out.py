"""Lengths of a child that no survey holds, worked out from those it holds, each with an honest spread.

The survey of 1977 has no tape along a child's back, shoulder or armhole. What is worked out here stands between a chart
of babies and small children (W. Aldrich, Metric Pattern Cutting for Children's Wear and Babywear, 5th edition, as a
sewing page gives it: second hand) and the women of the 1988 survey; at 92 and at 163 cm it agrees with both
(`tests/drafting/body/test_worked_out.py`). Centimetres.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import Final

from drafting.dataclass import dataclass

__all__ = ["OLDER_FROM", "TOGETHER", "WORKED_OUT", "YOUNGER_TO", "WorkedOut"]

YOUNGER_TO: Final = 80.0
OLDER_FROM: Final = 92.0
"""cm of height: below the first the chart of babies alone counts, above the second the survey, between them both."""


@dataclass(frozen=True, slots=True)
class WorkedOut:
    """constant + stature * height + bust * chest + each part times its weight, cm.

    parts: other lengths, measured or estimated themselves
    sd:    how far off it may be for its own sake, cm, beside what its parts may be off
    share: the same as a share of the length
    why:   the rest of a sentence that begins with "worked out from"
    """

    key: str
    why: str
    constant: float = 0.0
    stature: float = 0.0
    bust: float = 0.0
    parts: tuple[tuple[str, float], ...] = ()
    sd: float = 0.0
    share: float = 0.0


_ALL: Final = (
    WorkedOut(
        "neck_base_girth",
        "",  # the line of the survey stands; what turning the one neck into the other adds to its spread is here
        share=0.03,
    ),
    WorkedOut(
        "shoulder_length",
        "the breadth of the shoulders and the neck, as a chart of children and women of 1988 have them",
        parts=(("biacromial_breadth", 0.5), ("neck_base_girth", -0.147)),
        sd=0.7,
    ),
    WorkedOut(
        "interscye_mid_distance",
        "the breadth of the shoulders and the chest, of which women of 1988 and small children have like shares",
        bust=0.2075,
        parts=(("biacromial_breadth", 0.5175),),
        share=0.05,
    ),
    WorkedOut(
        "back_waist_length",
        "the height: a fifth of it and 46 mm, on which a chart of small children and women of 1988 agree",
        constant=4.6,
        stature=0.2,
        share=0.055,
    ),
    WorkedOut(
        "front_waist_length_from_neck_pit",
        "the back waist length, less what the hollow of the neck lies lower than the nape, as women of 1988 have it",
        constant=0.52,
        stature=-0.0548,
        parts=(("back_waist_length", 1.034),),
        share=0.045,
    ),
    WorkedOut(
        "scye_depth",
        "height and chest, between a chart of small children and women of 1988",
        constant=4.28,
        stature=0.0406,
        bust=0.085,
        share=0.07,
    ),
    WorkedOut(
        "waist_height",
        "the height of the hollow of the neck and the back waist length",
        constant=-0.48,
        stature=0.0507,
        parts=(("neck_pit_height", 1.0), ("back_waist_length", -0.957)),
        sd=1.2,
    ),
    WorkedOut(
        "waist_to_hip",
        "the heights of waist and hip",
        parts=(("waist_height", 1.0), ("hip_height", -1.0)),
    ),
    WorkedOut(
        "crotch_height",
        "the height of the waist and the hip: the body is as deep between the legs as 0.317 of its hip, as children of "
        "1977 have it",
        parts=(("waist_height", 1.0), ("hip_girth", -0.317)),
        sd=1.0,
    ),
    WorkedOut(
        "crotch_length",
        "the hip: 0.8 of it, between small children of a chart and the women of 1988",
        parts=(("hip_girth", 0.8),),
        share=0.06,
    ),
    WorkedOut(
        "knee_height",
        "the height of the waist, as women of 1988 and small children have it",
        parts=(("waist_height", 0.45),),
        sd=1.2,
    ),
    WorkedOut(
        "elbow_girth",
        "upper arm and wrist",
        parts=(("upper_arm_girth", 0.6), ("wrist_girth", 0.45)),
        sd=0.9,
    ),
)

WORKED_OUT: Final = MappingProxyType({each.key: each for each in _ALL})

TOGETHER: Final = (
    ("back_waist_length", "scye_depth", 0.406),
    ("shoulder_length", "interscye_mid_distance", 0.465),
)
"""What goes together, and how closely: the correlations of the women of 1988 (tables/women_1988_pairs.csv)."""
