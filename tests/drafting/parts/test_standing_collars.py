"""Stand, shirt, turn-over and sailor collars: their numbers against those of books, their edges against the neck."""

from __future__ import annotations

from functools import cache
from types import SimpleNamespace

import pytest

from drafting.alterations import Neckline, Opening, apply_step
from drafting.errors import NotAPattern
from drafting.geometry import Curve, Point, arc, distance, run_length, split
from drafting.parts.collars.collar_neck import neck_edges
from drafting.parts.collars.leaning import Ring, ring_of_rise, ring_of_top
from drafting.parts.collars.shirt_collar import ring_over
from drafting.parts.collars.two_layers import MOST_TURN, turn_of_cloth
from drafting.parts.part_amounts import part_remedies
from drafting.parts.part_table import find_part, part_of
from drafting.parts.redraw import PartRefused
from drafting.pattern import Landmark, NotchMark, Pattern, Piece, PieceKind, Place, edges_at, pieces_of, points_at, walk
from tests.drafting.dresses import dresses, failed
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import sized

COLLARS = ("stand collar", "shirt collar", "turn-over collar", "sailor collar")


@cache
def buttoned() -> Pattern:
    return in_front(sized(92))


def in_front(pattern: Pattern) -> Pattern:
    closed = apply_step(pattern, Opening("centre back", "closed"))
    return apply_step(closed, Opening("centre front", "buttons", button=15.0))


def drawn(name: str, pattern: Pattern, **options: float | str) -> Pattern:
    return with_part(pattern, part_of(find_part(name), options))


def long(piece: Piece, *places: Place) -> float:
    return sum(edge.length for edge in edges_at(piece, *places))


@pytest.mark.parametrize(
    ("rise", "shorter", "psi"),
    [(10.0, 3.16, 0.105), (15.0, 4.75, 0.158), (20.0, 6.34, 0.211), (30.0, 9.55, 0.319)],
)
def test_a_strip_that_rises_is_a_ring_and_shorter_above(rise: float, shorter: float, psi: float) -> None:
    """Half neck 19, height 3 cm: worked by hand from rise = (n / psi) (1 - cos psi)."""
    ring = ring_of_rise("collar", 190.0, rise)
    assert ring.psi == pytest.approx(psi, abs=6e-4)
    assert 190.0 - ring.length_at(30.0) == pytest.approx(shorter, abs=0.03)
    assert ring.at_height(0.0)[-1].end.y == pytest.approx(rise, abs=1e-6)
    assert sum(distance(c.start, c.end) for c in ring.at_height(0.0)) <= 190.0 + 1e-9


@pytest.mark.parametrize(("top", "rise"), [(185.0, 15.8), (181.0, 28.29), (178.0, 37.5)])
def test_a_top_that_is_asked_for_gives_the_rise(top: float, rise: float) -> None:
    """The same the other way round, half neck 19 and height 3 cm; the base of a top of 18.1 has a radius of 63.33."""
    ring = ring_of_top(190.0, 30.0, top)
    assert ring.rise == pytest.approx(rise, abs=0.1)
    assert ring.at_height(0.0)[-1].end.y == pytest.approx(rise, abs=0.1)
    if top == 181.0:
        assert run_length(ring.at_height(0.0)) / abs(ring.psi) == pytest.approx(633.3, abs=0.1)


def test_the_cone_of_a_collar_of_1914_asks_for_less_than_its_draft_gives() -> None:
    """M. Ingalls, Text-Book on Domestic Art, collar to fasten at the back: base 13, top 12, height 2 1/2 in. The cone
    of the two girths rises by 0.648 in on the half; she draws 1 in, and slants the ends to the top measure.
    """
    assert ring_of_top(6.5, 2.5, 6.0).rise == pytest.approx(0.648, abs=0.002)


def test_more_rise_makes_a_shorter_top() -> None:
    tops = [ring_of_rise("collar", 190.0, rise).length_at(30.0) for rise in (0.0, 5.0, 15.0, 30.0)]
    assert tops == sorted(tops, reverse=True)
    with pytest.raises(NotAPattern, match="cannot rise by 300 mm"):
        ring_of_rise("collar", 190.0, 300.0)


def test_a_fall_goes_round_the_garment_below_the_neck_seam() -> None:
    """Stand 3, fall 4.5, turn 0.3 cm, the back neck turning by 1 radian: 1.8 cm over the base on the half."""
    fall = ring_over(180.0, 175.0, 45.0, 45.0 - 30.0 + 3.0, 1.0)
    assert fall.length_at(45.0) - 180.0 == pytest.approx(18.0, abs=1e-9)
    assert fall.rise < 0.0
    assert ring_over(180.0, 180.0, 45.0, -10.0, 1.0) == Ring(180.0, -0.0)


def test_a_stand_collar_is_as_long_as_the_neck_to_the_edge_of_the_stand_and_has_a_button() -> None:
    pattern = buttoned()
    collar = drawn("stand collar", pattern, height=32.0, rise=12.0).piece("collar")
    front, back = pattern.piece("bodice front"), pattern.piece("bodice back")
    stand = next(edge for edge in edges_at(front, Place.STAND) if front.beside(edge.name)[1].place is Place.NECK)
    neck = long(front, Place.NECK) + long(back, Place.NECK)
    assert long(collar, Place.NECK) == pytest.approx(neck + stand.length, abs=0.01)
    (button,) = points_at(collar, Landmark.BUTTON)
    centre = next(edge for edge in edges_at(collar, Place.NECK) if edge.length == pytest.approx(stand.length, abs=0.01))
    assert distance(button.at, centre.start) == pytest.approx(16.0, abs=0.5)
    behind = drawn("stand collar", sized(92)).piece("collar")
    assert long(behind, Place.NECK) == pytest.approx(
        sum(long(sized(92).piece(f"bodice {half}"), Place.NECK) for half in ("front", "back")), abs=0.01
    )
    assert [edge.place for edge in behind.edges][-1] is Place.CENTRE_FRONT  # its fold, as it closes behind


def test_a_shirt_collar_is_sewn_from_centre_to_centre_and_hides_its_seam() -> None:
    pattern = drawn("shirt collar", buttoned(), stand=30.0, point=75.0)
    collar, stand = pattern.piece("collar"), pattern.piece("collar stand")
    assert long(collar, Place.COLLAR_SEAM) == pytest.approx(long(stand, Place.COLLAR_SEAM), abs=0.01)
    whole = sum(edge.length for edge in edges_at(stand, Place.COLLAR_SEAM, Place.COLLAR_EDGE))
    assert long(collar, Place.COLLAR_SEAM) < whole  # not to the end of the stand
    behind = edges_at(collar, Place.CENTRE_BACK)[0].length
    assert behind - edges_at(stand, Place.CENTRE_BACK)[0].length == pytest.approx(12.0, abs=0.01)
    assert long(collar, Place.COLLAR_END) == pytest.approx(75.0, abs=0.01)
    assert {piece.cut.interfacing for piece in (stand, pattern.piece("inner collar stand"))} == {1}
    with pytest.raises(NotAPattern, match="buttoned in front"):
        drawn("shirt collar", sized(92))


def test_a_turn_over_collar_with_more_stand_is_straighter() -> None:
    pattern = buttoned()
    bends = [drawn("turn-over collar", pattern, stand=stand).piece("collar") for stand in (15.0, 25.0, 35.0)]
    drops = [-min(edge.start.y for edge in piece.edges) for piece in bends]
    assert drops == sorted(drops, reverse=True)
    assert drops[-1] > 0.0


def test_a_sailor_collar_that_would_cross_its_neck_is_answered_with_the_least_width() -> None:
    with pytest.raises(PartRefused, match="cross the neck") as refused:
        drawn("sailor collar", sized(92), width=20.0)
    wider = part_remedies(refused.value.pattern, refused.value.part)[0]
    (least,) = wider.settings
    assert (wider.act, wider.alteration, least.option, least.unit) == ("set in part", "sailor collar", "width", "mm")
    assert wider.typed() == f'width = "{least.value:.0f} mm" in the part "sailor collar"'
    assert drawn("sailor collar", sized(92), width=float(least.value)).piece("collar")
    with pytest.raises(PartRefused):
        drawn("sailor collar", sized(92), width=float(least.value) - 1.0)


def test_a_sailor_collar_runs_from_its_depth_behind_to_the_point_of_the_v() -> None:
    pattern = apply_step(sized(92), Neckline(depth=80.0, shape="V"))
    collar = drawn("sailor collar", pattern, depth=150.0, width=90.0).piece("collar")
    assert edges_at(collar, Place.COLLAR_END)[0].length == pytest.approx(150.0, abs=0.01)
    lower, side = edges_at(collar, Place.COLLAR_EDGE)
    assert side.end == edges_at(collar, Place.NECK)[0].start
    neck = sum(long(pattern.piece(f"bodice {half}"), Place.NECK) for half in ("front", "back"))
    assert long(collar, Place.NECK) == pytest.approx(neck - 3.0, abs=0.01)
    assert lower.start.y == lower.end.y


@pytest.mark.parametrize("name", COLLARS)
def test_every_woman_gets_one_that_passes_its_checks_and_whose_seams_meet(name: str) -> None:
    for pattern in dresses()[::2]:
        base = in_front(pattern) if name == "shirt collar" else pattern
        collared = drawn(name, base)
        assert failed(collared, base) == []
        for seam in collared.derived[-1].seams:
            walked = walk(collared, collared.seam(seam))
            assert walked.a - walked.b == pytest.approx(collared.seam(seam).ease.wanted, abs=1e-3)


@pytest.mark.parametrize("name", COLLARS)
def test_the_under_layer_is_smaller_by_the_turn_of_the_cloth_and_as_long_at_the_neck(name: str) -> None:
    collared = drawn(name, buttoned(), turn=4.0)
    top, under = pieces_of(collared, PieceKind.COLLAR)[:2]
    joined = (Place.NECK, Place.COLLAR_SEAM)
    assert long(top, *joined) == pytest.approx(long(under, *joined), abs=0.01)
    assert long(under, Place.COLLAR_EDGE) < long(top, Place.COLLAR_EDGE)
    for place in (Place.COLLAR_END, Place.CENTRE_BACK):
        assert long(under, place) <= long(top, place) + 0.1


def test_a_shirt_collar_is_marked_where_its_fall_ends_and_over_the_shoulder() -> None:
    pattern = drawn("shirt collar", buttoned())
    stand, fall = pattern.piece("collar stand"), pattern.piece("collar")
    marks = {notch.name: notch.marks for notch in stand.notches}
    assert marks["the collar ends here"] is NotchMark.CENTRE
    for seam in (seam for seam in pattern.seams if seam.a[0].edge == "fall seam" and seam.a[0].piece == fall.name):
        (pair,) = walk(pattern, seam).notches
        assert pair.along_a == pytest.approx(pair.along_b, abs=0.05)


@pytest.mark.parametrize("name", ["flat collar", "stand collar", "shirt collar", "turn-over collar", "sailor collar"])
def test_the_largest_turn_that_can_be_asked_for_can_be_sewn(name: str) -> None:
    (turn,) = (each for each in find_part(name).options if each.name == "turn")
    assert turn.high == MOST_TURN
    pattern = drawn(name, buttoned(), turn=MOST_TURN)
    assert not [each for each in failed(pattern) if "collar" in each.where]
    assert turn_of_cloth(6.0) == MOST_TURN


def test_a_neck_parted_beside_the_joint_of_two_curves_leaves_no_sliver() -> None:
    # read from a file with hundredths of a millimetre, a curve a tenth long bends as it happens
    whole: tuple[Curve, ...] = arc(Point(0.0, 0.0), 60.0, 0.0, 1.5)
    for _ in range(4):  # in short curves, as the neck of a collar is drawn
        whole = tuple(half for curve in whole for half in split(curve, 0.5))
    cut = run_length(whole[:1]) - 0.1
    parts = [SimpleNamespace(name="front", length=cut), SimpleNamespace(name="back", length=run_length(whole) - cut)]
    made = neck_edges(whole, parts, 6.0)  # type: ignore[arg-type]
    assert min(run_length((curve,)) for edge in made for curve in edge.curves) > 1.0
    assert sum(edge.length for edge in made) == pytest.approx(run_length(whole), abs=0.01)
