"""The checks of trousers on halves of straight lines, where every figure they tell can be worked out beside them."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import reduce

import pytest

from drafting.alterations import CrotchLength, Lengthen, apply_step
from drafting.checks import CHECKS, Result, Verdict, named, run_checks
from drafting.geometry import Line, Point, Vec, mirror
from drafting.pattern import (
    Along,
    BodyLength,
    Edge,
    Identity,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Measure,
    Notch,
    NotchMark,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Station,
    Wearer,
    move_piece,
)
from drafting.pattern.places import BodyPart
from tests.bodies import women
from tests.remedies import mends, typed
from tests.wardrobe import jumpsuit_for

PASS, WARN, FAIL = Verdict.PASS, Verdict.WARN, Verdict.FAIL


def half(
    kind: PieceKind = PieceKind.FRONT,
    *,
    lean: float = 0.0,
    dip: float = 0.0,
    fork: float = 700.0,
    wide: float = 160.0,
    knee: tuple[float, float] = (400.0, 400.0),
    crease: float = 120.0,
    hem: Role = Role.HEM,
) -> Piece:
    """Half of a pair of trousers, the inside leg at the left.

    lean: degrees of the centre, which the crotch goes on from straight down to `dip` below its fork
    fork: how high its fork lies; wide: its hem; knee: how far from the hem the knee is marked, inside and outside
    """
    top, low = Point(200.0 * math.tan(math.radians(lean)), 1000.0), Point(0.0, 800.0)
    turning, end, inner, outer = Point(0.0, fork - dip), Point(-60.0, fork), Point(40.0, 0.0), Point(40.0 + wide, 0.0)
    upper = Point(40.0 + wide, 1000.0)

    def edge(name: str, place: Place, *points: Point, role: Role = Role.SEAM) -> Edge:
        return Edge(name, tuple(map(Line, points[:-1], points[1:])), role, 10.0, place)

    level = fork + 20.0
    return Piece(
        str(kind),
        (
            edge("hem", Place.HEM, inner, outer, role=hem),
            edge("side", Place.SIDE, outer, upper),
            edge("waist", Place.WAIST, upper, top),
            edge("centre", Place.CENTRE_FRONT if kind is PieceKind.FRONT else Place.CENTRE_BACK, top, low),
            edge("crotch", Place.CROTCH, low, turning, end),
            edge("inseam", Place.INSEAM, end, inner),
        ),
        notches=(
            Notch("knee inside", Station("inseam", knee[0], "end"), marks=NotchMark.KNEE),
            Notch("knee outside", Station("side", knee[1]), marks=NotchMark.KNEE),
        ),
        lines=(
            MarkLine("crease", Point(crease, 950.0), Point(crease, 0.0), level=Level.CREASE),
            MarkLine("knee line", Point(30.0, 400.0), Point(200.0, 400.0), level=Level.KNEE),
            MarkLine("crotch line", Point(-50.0, level), Point(200.0, level), level=Level.CROTCH),
        ),
        identity=Identity(kind, BodyPart.TROUSERS),
    )


def back(**how: object) -> Piece:
    return half(PieceKind.BACK, **{"fork": 690.0, **how})  # type: ignore[arg-type]


def legs(*pieces: Piece, stretch: float = 0.0, **body: float) -> Pattern:
    lengths = tuple(BodyLength(key, mm, "measured") for key, mm in body.items())
    return Pattern("Legs", Wearer("Inga", lengths), pieces, stretch=stretch)


def the(code: str, whole: Pattern, where: str) -> Result:
    (result,) = (each for each in run_checks(whole, checks=named(CHECKS, [code])) if where in each.where)
    return result


def found(code: str, whole: Pattern, where: str) -> tuple[float, Verdict]:
    result = the(code, whole, where)
    assert result.measured is not None
    return round(result.measured, 6), result.verdict


@pytest.mark.parametrize(("turn", "verdict"), [(0.0, PASS), (4.9, PASS), (5.1, WARN), (9.9, WARN), (10.1, FAIL)])
def test_the_curve_of_the_crotch_begins_in_the_way_of_the_centre(turn: float, verdict: Verdict) -> None:
    for sign in (1.0, -1.0):
        assert found("crotch-curve", legs(half(lean=sign * turn)), "where the curve begins") == (turn, verdict)


@pytest.mark.parametrize(("dip", "verdict"), [(0.0, PASS), (1.0, PASS), (1.1, WARN), (10.0, WARN), (10.1, FAIL)])
def test_a_crotch_that_dips_below_its_fork_is_a_hook(dip: float, verdict: Verdict) -> None:
    assert found("crotch-curve", legs(half(dip=dip)), "hook") == (dip, verdict)


@pytest.mark.parametrize(
    ("lean", "verdict"),
    [(-0.6, FAIL), (-0.4, PASS), (0.0, PASS), (11.9, PASS), (12.1, WARN), (14.9, WARN), (15.1, FAIL)],
)
def test_the_seat_leans_in_by_so_many_degrees_whichever_way_round_the_piece_lies(lean: float, verdict: Verdict) -> None:
    piece = back(lean=lean)
    for each in (piece, move_piece(piece, mirror(Point(0.0, 0.0), Vec(0.0, 1.0)))):
        assert found("crotch-curve", legs(each), "lean of the seat") == (lean, verdict)
    assert len(run_checks(legs(half(lean=lean)), checks=named(CHECKS, ["crotch-curve"]))) == 2  # a front has no seat


def test_the_crotch_is_longer_behind_and_its_fork_no_higher() -> None:
    """Centre and crotch are 200 + 100 + 60 in front; the back's fork lies so much lower."""
    for lower, more, drop in (
        (10.0, PASS, PASS),
        (0.0, FAIL, PASS),
        (-0.9, FAIL, PASS),
        (-1.1, FAIL, WARN),
        (-20.0, FAIL, WARN),
    ):
        whole = legs(half(), back(fork=700.0 - lower))
        assert found("crotch-curve", whole, "crotch, back and front") == (pytest.approx(lower), more)
        # the line of each is drawn 20 mm above its fork
        marked = replace(whole.pieces[1], lines=half().lines)
        assert found("crotch-curve", legs(half(), marked), "fork, back and front") == (pytest.approx(lower), drop)
    bibbed = replace(back(), edges=tuple(replace(e, place=Place.BIB) if e.name == "waist" else e for e in back().edges))
    assert found("crotch-curve", legs(half(), bibbed), "crotch, back and front")[0] == pytest.approx(170.0 - 360.0)


@pytest.mark.parametrize(
    ("short", "verdict"),
    [(-0.6, FAIL), (-0.4, PASS), (0.0, PASS), (4.9, PASS), (5.1, WARN), (9.9, WARN), (10.1, FAIL)],
)
def test_the_inside_leg_of_the_back_is_a_little_shorter(short: float, verdict: Verdict) -> None:
    front = half()
    fork = math.sqrt((front.edge("inseam").length - short) ** 2 - 100.0**2)
    assert found("inseams-meet", legs(front, back(fork=fork)), "inside legs") == (pytest.approx(short), verdict)


@pytest.mark.parametrize(("off", "verdict"), [(0.0, PASS), (0.4, PASS), (-0.5, PASS), (0.6, FAIL), (-0.6, FAIL)])
def test_below_the_knee_both_seams_are_as_long_in_front_as_behind(off: float, verdict: Verdict) -> None:
    inside, outside = (legs(half(), back(knee=each)) for each in ((400.0 + off, 400.0), (400.0, 400.0 + off)))
    for whole, places in ((inside, (abs(off), 0.0)), (outside, (0.0, abs(off)))):
        told = [found("inseams-meet", whole, f"below the knee, {place}") for place in ("inseam", "side seam")]
        assert told == [(pytest.approx(mm), verdict if mm else PASS) for mm in places]


def test_a_crease_runs_down_the_middle_of_hem_and_leg() -> None:
    """The hem is from 40 to 200 wide, and the leg at the crotch from -60 to 200: their middles are 120 and 70."""
    for at, hem, crotch in (
        (120.0, (0.0, PASS), (50.0, WARN)),
        (118.0, (2.0, PASS), (48.0, WARN)),
        (117.9, (2.1, WARN), (47.9, WARN)),
        (95.1, (24.9, WARN), (25.1, WARN)),
        (95.0, (25.0, WARN), (25.0, PASS)),
        (45.1, (74.9, WARN), (24.9, PASS)),
        (44.9, (75.1, WARN), (25.1, WARN)),
    ):
        whole = legs(half(crease=at))
        assert found("crease-middle", whole, "crease at the hem") == (pytest.approx(hem[0]), hem[1])
        assert found("crease-middle", whole, "crease at the crotch") == (pytest.approx(crotch[0]), crotch[1])
    bare = legs(replace(half(), lines=half().lines[:1]))
    assert [each.verdict for each in run_checks(bare, checks=named(CHECKS, ["crease-middle"]))] == [Verdict.NOTHING]


@pytest.mark.parametrize(("wide", "verdict"), [(160.0, FAIL), (166.7, FAIL), (166.75, PASS), (200.0, PASS)])
def test_heel_and_instep_go_through_the_hem(wide: float, verdict: Verdict) -> None:
    """An ankle of 230 makes 333.5 round heel and instep."""
    whole = legs(half(wide=wide), back(wide=wide), ankle_girth=230.0)
    assert found("leg-room", whole, "heel and instep") == (pytest.approx(2.0 * wide - 333.5), verdict)
    stretchy = replace(whole, stretch=0.3)
    assert found("leg-room", stretchy, "heel and instep")[0] == pytest.approx(2.2 * wide - 333.5)


@pytest.mark.parametrize(
    ("knee_height", "calf", "what", "need"),
    [
        (450.0, 400.0, "heel and instep", 333.5),  # its hem hangs 50 mm above the floor
        (1300.0, 400.0, "heel and instep", 333.5),  # 900: less than 0.7 of the knee's height
        (1340.0, 400.0, "calf", 400.0),  # 940: more than that
        (1340.0, 300.0, "heel and instep", 333.5),
    ],
)
def test_a_leg_that_ends_above_the_calf_has_to_let_it_through(
    knee_height: float, calf: float, what: str, need: float
) -> None:
    whole = legs(half(), back(), ankle_girth=230.0, knee_height=knee_height, calf_girth=calf)
    assert found("leg-room", whole, f"hem over the {what}")[0] == pytest.approx(320.0 - need)


def test_a_leg_that_opens_at_its_inside_need_not_let_a_foot_through() -> None:
    opened = tuple(replace(e, role=Role.OPENING) if e.name == "inseam" else e for e in half().edges)
    whole = legs(replace(half(), edges=opened), back(), ankle_girth=230.0)
    for code in ("leg-room", "inseams-meet"):
        assert [each.measured for each in run_checks(whole, checks=named(CHECKS, [code]))] == [None]


LENGTHS = ("front_waist_length_from_neck_pit", "back_waist_length", "crotch_length")


def bodied(ease: float, *points: MarkPoint, stretch: float = 0.0, keys: tuple[str, ...] = LENGTHS) -> Pattern:
    """Trousers with a bodice, so that shoulders, crotch and back measure so much more than the body's 400, 420, 700."""
    body = dict(zip(LENGTHS, (400.0, 420.0, 700.0), strict=True))
    bodice = replace(half(), name="bodice", identity=Identity(PieceKind.FRONT, BodyPart.BODICE), points=points)
    long = bodice.edge("side").length
    measures = tuple(
        Measure(
            key, (Along("bodice", "side", (body[key] + (ease if key == LENGTHS[1] else 0.0)) / long),), key, body[key]
        )
        for key in keys
    )
    return replace(legs(half(), bodice, stretch=stretch), measures=measures)


@pytest.mark.parametrize(
    ("ease", "verdict", "knit"),
    [
        (40.01, PASS, PASS),
        (39.9, WARN, PASS),
        (10.1, WARN, PASS),
        (9.9, FAIL, PASS),
        (0.1, FAIL, PASS),
        (-0.1, FAIL, FAIL),
    ],
)
def test_a_body_in_one_piece_is_long_enough_to_sit_in(ease: float, verdict: Verdict, knit: Verdict) -> None:
    where = "from shoulder to shoulder"
    assert found("body-length", bodied(ease), where) == (pytest.approx(ease), verdict)
    assert found("body-length", bodied(ease, stretch=0.4), where) == (pytest.approx(ease), knit)
    # a neck cut lower takes the tape down with it
    pit, nape = (
        MarkPoint(str(landmark), Point(0.0, 0.0), landmark, lowered=by)
        for landmark, by in ((Landmark.NECK_PIT, 15.0), (Landmark.NAPE, 5.0))
    )
    assert found("body-length", bodied(ease - 20.0, pit, nape), where) == (pytest.approx(ease), verdict)
    assert found("body-length", bodied(ease - 15.0, pit), where)[0] == pytest.approx(ease)


def test_a_body_shortened_twice_is_offered_the_length_that_it_wants() -> None:
    steps = (Lengthen("bodice front", -20.0), CrotchLength(front=-8.0, back=-10.0))
    shortened = reduce(apply_step, steps, jumpsuit_for(women()[17]))
    (short,) = (each for each in run_checks(shortened) if each.code == "body-length")
    assert short.verdict is FAIL
    assert [each.data()["alter"] for each in short.remedies] == ["lengthen"]
    assert mends(shortened, short)
    lengthened = apply_step(shortened, typed(short.remedy) or steps[0])
    (mended,) = (each for each in run_checks(lengthened) if each.code == "body-length")
    assert 40.0 <= (mended.measured or 0.0) < 42.0


def test_without_a_bodice_or_with_a_length_unknown_no_body_is_looked_at() -> None:
    for whole in (
        replace(bodied(0.0), pieces=(half(),), measures=()),
        bodied(0.0, keys=LENGTHS[:2]),
        replace(bodied(0.0), pieces=bodied(0.0).pieces[1:]),
    ):
        assert [each.measured for each in run_checks(whole, checks=named(CHECKS, ["body-length"]))] == [None]
