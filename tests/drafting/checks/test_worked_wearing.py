"""Ease and the way to get in, worked out on pieces of a few straight lines."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.checks import Verdict
from drafting.errors import Setting
from drafting.geometry import Point
from drafting.pattern import (
    Across,
    Along,
    Level,
    MarkLine,
    Measure,
    Pattern,
    Piece,
    Place,
    Role,
)
from tests.drafting.checks.worked import WAIST, panel, pattern, the, told, with_edge


@pytest.mark.parametrize(
    ("body", "verdict", "write"),
    [
        (340.0, Verdict.PASS, None),
        (360.0, Verdict.PASS, None),
        (370.1, Verdict.WARN, 11.0),
        (380.0, Verdict.WARN, 20.0),
        (391.5, Verdict.FAIL, 12.0),
    ],
)
def test_ease_fails_below_the_least_and_is_warned_of_below_what_is_usual(
    body: float, verdict: Verdict, write: float | None
) -> None:
    """A waist of 400 mm that has to have 20 mm of ease, 40 as is usual; what is short is to be let out there."""
    front = replace(
        panel("front"), lines=(MarkLine("waist", Point(0.0, 100.0), Point(200.0, 100.0), level=Level.WAIST),)
    )
    waist = Measure("waist", (Across("front", "waist", 2.0),), "waist_girth", body, 40.0, 20.0, True, 40.0)
    result = the("ease-to-move", replace(pattern(front), measures=(waist,)), "waist")
    assert (result.verdict, result.measured, result.wanted) == (verdict, pytest.approx(400.0 - body), 20.0)
    settings = [each.settings for each in result.remedies]
    assert settings == ([] if write is None else [(Setting("waist", -write, "mm"),)])
    assert [(each.alteration, each.lead) for each in result.remedies] == [("take in", "To let it out there")] * len(
        settings
    )


def test_what_is_short_of_more_than_can_be_written_at_once_came_with_a_step() -> None:
    front = replace(
        panel("front"), lines=(MarkLine("waist", Point(0.0, 100.0), Point(200.0, 100.0), level=Level.WAIST),)
    )
    for body, said in ((780.0, 1), (780.5, 0)):
        waist = Measure("waist", (Across("front", "waist", 2.0),), "waist_girth", body, 40.0, 20.0, True)
        result = the("ease-to-move", replace(pattern(front), measures=(waist,)), "waist")
        assert (result.verdict, len(result.remedies)) == (Verdict.FAIL, said)


BODY = {"head_girth": 560.0, "neck_base_girth": 380.0, "bust_girth": 900.0, "waist_girth": 700.0, "hip_girth": 950.0}


def ringed(piece: Piece, *, stretch: float = 0.0, **rings: float) -> Pattern:
    """A garment that goes round the body at these girths, by their keys, as large as said, mm."""
    measures = tuple(
        Measure(
            key.removesuffix("_girth"), (Along(piece.name, "side", mm / 300.0),), key, round=key != "neck_base_girth"
        )
        for key, mm in rings.items()
    )
    return replace(pattern(piece, **BODY), measures=measures, stretch=stretch)


@pytest.mark.parametrize(
    ("rings", "room", "way", "over"),
    [
        ({"waist_girth": 960.0}, 60.0, "over the head", ""),  # past a bust of 900; past the hips only 10
        ({"waist_girth": 720.0}, -180.0, "over the head", "bust"),
        ({"waist_girth": 940.0, "hip_girth": 1000.0}, 40.0, "over the head", ""),
        ({"hip_girth": 1000.0}, 100.0, "over the head", ""),  # a hip has nothing larger below it: no other way
        ({"bust_girth": 930.0}, 370.0, "over the head", ""),  # 560 of the head
        # a neck that is closed is stepped into only where the hips pass it; over the head it is for another check
        ({"bust_girth": 930.0, "neck_base_girth": 400.0}, 370.0, "over the head", ""),
    ],
)
def test_one_gets_in_the_better_of_two_ways(rings: dict[str, float], room: float, way: str, over: str) -> None:
    result = the("room-to-get-in", ringed(panel("front"), **rings))
    assert (result.measured, result.where) == (pytest.approx(room), f"{way}, without an opening")
    assert result.verdict is (Verdict.PASS if room >= 0.0 else Verdict.FAIL)
    assert over in result.remedy
    if over:
        assert f"{-room:.1f} mm larger: give it an opening, or add {-room:.1f} mm there" in result.remedy
        assert [each.settings for each in result.remedies] == [(Setting("at", "centre front"),)]


def test_what_has_legs_goes_on_over_the_feet() -> None:
    legged = with_edge(panel("front"), "top", place=Place.INSEAM)
    result = the("room-to-get-in", ringed(legged, waist_girth=960.0))
    assert (result.measured, result.where) == (pytest.approx(10.0), "over the feet, without an opening")
    closed = the("room-to-get-in", ringed(legged, waist_girth=960.0, neck_base_girth=400.0))
    assert closed.measured == pytest.approx(400.0 - 950.0)
    opened = with_edge(legged, "top", role=Role.OPENING)
    assert the("room-to-get-in", ringed(opened, waist_girth=960.0)).measured is None  # free


def test_the_step_that_opens_it_is_asked_for_where_there_is_a_place() -> None:
    for place, at in ((Place.CENTRE_FRONT, "centre front"), (Place.CENTRE_BACK, "centre back"), (Place.NECK, "side")):
        result = the("room-to-get-in", ringed(with_edge(panel("front"), "centre", place=place), waist_girth=720.0))
        assert [each.settings for each in result.remedies] == [(Setting("at", at),)]
    both = with_edge(panel("front"), "top", place=Place.CENTRE_BACK)  # behind, where there is a choice
    result = the("room-to-get-in", ringed(both, waist_girth=720.0))
    assert [each.settings for each in result.remedies] == [(Setting("at", "centre back"),)]


def sleeved(round_it: float, long: float, **bodies: float) -> Pattern:
    """A sleeve so wide where it ends and so long, for an arm 600 long, 350 to its elbow, 260 round there, 160 below."""
    arm = {"elbow_girth": 260.0, "wrist_girth": 160.0, "arm_length": 600.0, "shoulder_to_elbow": 350.0} | bodies
    sizes = {"elbow_girth": 320.0, "wrist_girth": round_it, "arm_length": long, "shoulder_to_elbow": 350.0}
    eases = {"elbow_girth": (30.0, 10.0, 40.0), "wrist_girth": (20.0, 5.0, None)}
    measures = tuple(
        Measure(key, (Along("sleeve", "side", sizes[key] / 300.0),), key, mm, *_ease(eases.get(key)))
        for key, mm in arm.items()
    )
    return replace(pattern(panel("sleeve")), measures=measures)


def _ease(known: tuple[float, float, float | None] | None) -> tuple[float, float | None, bool, float | None]:
    return (0.0, None, False, None) if known is None else (known[0], known[1], False, known[2])


@pytest.mark.parametrize(
    ("long", "arm"),
    [(500.0, 200.0), (450.0, 220.0), (350.0, 260.0), (300.0, 260.0), (579.0, 168.4)],
)
def test_a_sleeve_that_ends_on_the_forearm_is_held_to_the_arm_there(long: float, arm: float) -> None:
    """The arm grows evenly from 160 at the wrist to 260 at the elbow, 250 mm above it; 20 mm are wanted to move."""
    for round_it, verdict in ((arm + 20.0, Verdict.PASS), (arm + 19.5, Verdict.WARN)):
        result = the("ease-to-move", sleeved(round_it, long), "where it ends on the forearm")
        assert (result.measured, result.wanted) == (pytest.approx(round_it - arm), 20.0)
        assert result.verdict is verdict
        assert [each.settings for each in result.remedies] == (
            [(Setting("hem", "as tapered"),), (Setting("hem", 1.0, "mm"),)] if verdict is Verdict.WARN else []
        )


def test_a_sleeve_that_ends_near_the_wrist_or_of_an_arm_that_is_not_known_is_held_to_nothing_more() -> None:
    for whole in (
        sleeved(150.0, 581.0),
        sleeved(150.0, 450.0, elbow_girth=160.0),
        sleeved(150.0, 300.0, shoulder_to_elbow=600.0),
        replace(sleeved(150.0, 450.0), measures=sleeved(150.0, 450.0).measures[:3]),
    ):
        assert not [each for each in told("ease-to-move", whole) if "forearm" in each.where]


def test_a_place_that_no_alteration_gives_room_is_told_without_one() -> None:
    front = replace(panel("front"), lines=(WAIST,))
    thigh = Measure("thigh", (Across("front", "waist", 1.0),), "thigh_girth", 190.0, 40.0, 20.0, round=False)
    result = the("ease-to-move", replace(pattern(front), measures=(thigh,)), "thigh")
    assert (result.verdict, result.measured, result.remedies) == (Verdict.FAIL, pytest.approx(10.0), ())
