"""The flat collar: its numbers against those of books, its neck against the garment's, its edges against its width."""

from __future__ import annotations

import math

import pytest

from drafting.errors import NotAPattern
from drafting.geometry import distance, run_at, run_length
from drafting.parts.collars.flat_collar import beyond_shoulder, neck_laid, stand_of
from drafting.parts.collars.neck_line import lap_angle, neck_line, shoulder_length
from drafting.parts.collars.turning import direction_along
from drafting.parts.collars.two_layers import turn_of_cloth, turned_for
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Pattern, Piece, Place, edges_at
from output.report.sewing_words import sewing_data
from tests.drafting.dresses import dresses, failed
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import sized

FLAT = part_of(find_part("flat collar"), {})


def collars(pattern: Pattern, **options: float | str) -> tuple[Piece, Piece]:
    drawn = with_part(pattern, part_of(find_part("flat collar"), options))
    return drawn.piece("collar"), drawn.piece("under collar")


def long(piece: Piece, place: Place) -> float:
    return sum(edge.length for edge in edges_at(piece, place))


@pytest.mark.parametrize(
    ("lap", "degrees", "shorter", "stand"),
    [(15.0, 7.02, 7.35, 3.67), (25.0, 11.71, 12.24, 6.12), (50.0, 23.55, 24.49, 12.24), (101.6, 49.0, 49.76, 24.88)],
)
def test_a_lap_of_the_shoulders_shortens_the_outer_edge_and_makes_a_stand(
    lap: float, degrees: float, shorter: float, stand: float
) -> None:
    """Width 6, shoulder 12.25 cm, by the chord of a circle. A lap of 4 in is said to give a stand of about 1 in (a
    sewing page on the flat collar); 1 to 1.5 cm practically none (a German trade school's draft).
    """
    angle = lap_angle(lap, 122.5)
    assert math.degrees(angle) == pytest.approx(degrees, abs=0.01)
    assert 2.0 * 60.0 * math.sin(0.5 * angle) == pytest.approx(shorter, abs=0.01)
    assert stand_of(60.0, lap, 122.5) == pytest.approx(stand, abs=0.01)


@pytest.mark.parametrize(("thick", "turn"), [(0.3, 0.94), (1.0, 3.14), (2.0, 6.28)])
def test_the_turn_of_the_cloth_is_pi_times_its_thickness_and_a_millimetre(thick: float, turn: float) -> None:
    assert turn_of_cloth(thick) == pytest.approx(turn + 1.0, abs=0.005)
    assert dict(turned_for(FLAT, thick).options)["turn"] == turn_of_cloth(thick)
    assert turned_for(part_of(find_part("flat collar"), {"turn": 2.0}), thick).length("turn") == 2.0


def test_the_neck_turns_by_half_a_circle_less_the_slopes_of_the_shoulders() -> None:
    """Slopes of 20 and 20 degrees: 140. Seen on the block by its own slopes, laid with the shoulders closed."""
    pattern = sized(92)
    slopes = 0.0
    for half in ("front", "back"):
        edge = pattern.piece(f"bodice {half}").edge("shoulder at neck")
        slopes += math.atan2(abs(edge.end.y - edge.start.y), abs(edge.end.x - edge.start.x))
    line = neck_line(pattern, "collar")
    direction, whole = direction_along([[c for e in part.edges for c in e.edge.curves] for part in line.parts])
    assert whole == pytest.approx(line.length_to_centre(), abs=1e-6)
    assert direction(0.0) - direction(whole) == pytest.approx(math.pi - slopes, abs=math.radians(0.1))


def test_the_neck_of_the_collar_is_as_long_as_the_garments_less_its_ease_and_square_behind() -> None:
    pattern = sized(92)
    neck = sum(long(pattern.piece(f"bodice {half}"), Place.NECK) for half in ("front", "back"))
    for ease in (0.0, 3.0, 6.0):
        for piece in collars(pattern, ease=ease):
            assert long(piece, Place.NECK) == pytest.approx(neck - ease, abs=0.01)
    laid = neck_laid(neck_line(pattern, "collar"), neck)
    assert (laid[-1].end.x, laid[-1].end.y) == (0.0, 0.0)
    assert run_length(laid) == pytest.approx(neck, abs=1e-4)
    assert abs(run_at(laid, neck - 2.0).y) < 0.05


@pytest.mark.parametrize("lap", [0.0, 15.0, 50.0, 100.0])
def test_the_outer_edge_lies_a_width_from_the_neck_and_gets_shorter_by_the_lap(lap: float) -> None:
    pattern = sized(92)
    top, under = collars(pattern, lap=lap, ease=0.0, width=60.0, turn=2.0)
    (outer,), (inner,) = edges_at(top, Place.COLLAR_EDGE), edges_at(under, Place.COLLAR_EDGE)
    neck = [run_at(edge.curves, share * edge.length) for edge in edges_at(top, Place.NECK) for share in (0.1, 0.5, 0.9)]
    for share in (0.0, 0.2, 0.4, 0.6):
        at = run_at(outer.curves, share * outer.length)
        assert min(distance(at, place) for place in neck) >= 59.9
    # the whole line a width outside: neck + width times its turning, less by width times the lap's
    angle = lap_angle(lap, shoulder_length(pattern))
    line = neck_line(pattern, "collar", lapped=angle)
    direction, whole = direction_along([[c for e in part.edges for c in e.edge.curves] for part in line.parts])
    plain = neck_line(pattern, "collar")
    turns, _ = direction_along([[c for e in part.edges for c in e.edge.curves] for part in plain.parts])
    assert (turns(0.0) - turns(whole)) - (direction(0.0) - direction(whole)) == pytest.approx(angle, abs=1e-9)
    assert inner.length < outer.length


def test_it_is_cut_on_the_fold_where_the_back_is_closed_and_in_halves_where_it_opens() -> None:
    from drafting.alterations import Opening, apply_step

    top, under = collars(sized(92))
    assert (top.cut.count, top.cut.mirror, top.cut.fold) == (2, True, False)
    buttoned = apply_step(sized(92), Opening("centre back", "closed"))
    buttoned = apply_step(buttoned, Opening("centre front", "buttons"))
    top, under = collars(buttoned)
    assert (top.cut.count, top.cut.mirror, top.cut.fold) == (1, False, True)
    assert (top.cut.interfacing, under.cut.interfacing) == (0, 1)
    stood = buttoned.piece("bodice front")
    assert long(top, Place.NECK) == pytest.approx(
        long(stood, Place.NECK) + long(buttoned.piece("bodice back"), Place.NECK) - 3.0, abs=0.01
    )  # from centre to centre: what the stand has beyond is not counted


def test_every_woman_gets_a_collar_that_passes_its_checks() -> None:
    for pattern in dresses():
        for options in ({}, {"lap": 60.0, "width": 80.0, "ends": "pointed"}):
            drawn = with_part(pattern, part_of(find_part("flat collar"), options))
            assert failed(drawn, pattern) == []


def test_a_garment_without_a_neck_says_so() -> None:
    with pytest.raises(NotAPattern, match="no bodice with a neck"):
        with_part(sized(92, "skirt"), FLAT)


def test_a_collar_wider_than_the_shoulder_is_told_to_lie_over_the_arm_like_a_cape() -> None:
    plain = sized(92, "bodice")
    shoulder = shoulder_length(plain)
    for beyond, told in ((-20.0, ""), (60.0, "6.0 cm beyond the end of the shoulder")):
        drawn = with_part(plain, part_of(find_part("flat collar"), {"width": shoulder + beyond}))
        assert beyond_shoulder(drawn) == pytest.approx(max(0.0, beyond))
        words = str(sewing_data(drawn, "cm", knit=False))
        assert ("cape" in words) is bool(told)
        assert told in words
