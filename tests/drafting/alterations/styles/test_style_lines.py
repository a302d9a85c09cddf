"""Yokes, smocks, raglan, saddle and dropped shoulders against the figures of the trade and plane geometry."""

from __future__ import annotations

import math

import pytest

from blocks.garment import draft, prepare
from drafting.alterations import (
    ALTERATIONS,
    Alteration,
    DroppedShoulder,
    ShoulderSlope,
    ShoulderWidth,
    UpperArm,
    apply_step,
    make_step,
)
from drafting.alterations.sleeve.set_in_sleeve import cap_height
from drafting.alterations.techniques.redrawing.fair_armhole import turned_against
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.geometry import distance, tangent
from drafting.geometry.cap import triangle_height
from drafting.pattern import (
    Half,
    Level,
    Pattern,
    PieceKind,
    Place,
    Step,
    dart_mouth,
    darts_at,
    edges_at,
    finished,
    half_of,
    pieces_of,
    ref_edge,
    require_edge,
    run_total,
    seam_places,
)
from drafting.sewing import Act, sewing_order
from output.report.sewing_words import step_words
from tests.bodies import women
from tests.drafting.dress import dress
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks
from tests.sweep_styles import garment_for

BODIES = (dress, lambda: sized(84), lambda: sized(100))


def taken(pattern: Pattern, name: str, **options: object) -> Pattern:
    return apply_step(pattern, make_step(Step(name, tuple(options.items())), ALTERATIONS))  # type: ignore[arg-type]


def lengths(pattern: Pattern) -> dict[str, float]:
    return {each.name: each.finished for each in finished(pattern)}


def length_at(pattern: Pattern, place: Place, half: Half | None = None) -> float:
    return sum(edge.length for piece in pattern.pieces for edge in edges_at(piece, place, half=half))


@pytest.mark.parametrize("body", BODIES)
@pytest.mark.parametrize("name", ["yoke", "smock", "raglan", "saddle shoulder", "dropped shoulder"])
def test_the_neck_is_as_long_as_it_was(body, name: str) -> None:  # type: ignore[no-untyped-def]
    options = {"by": 12.0} if name == "dropped shoulder" else {"on": "both"} if name == "yoke" else {}
    before = body()
    after = taken(before, name, **options)
    assert length_at(after, Place.NECK) == pytest.approx(length_at(before, Place.NECK), abs=1e-4)
    assert lengths(after)["neck"] == pytest.approx(lengths(before)["neck"], abs=1e-4)


@pytest.mark.parametrize("depth", [90.0, 110.0, 135.0])
def test_what_is_left_of_the_bust_dart_below_a_yoke_is_what_plane_geometry_says(depth: float) -> None:
    # 2 q sin(a / 2): with a of 18.25 degrees 9.5, 15.9 and 25.4 mm at 3, 5 and 8 cm above the bust point (derived)
    before = dress()
    front = before.piece("bodice front")
    one, other = dart_mouth(front, front.dart("bust dart"))
    bust = front.point("bust point")
    angle = abs((one - bust).angle_to(other - bust))
    after = taken(before, "yoke", on="front", depth=depth)
    lower = after.piece("bodice front")
    found = darts_at(lower, Place.YOKE)
    if not found:
        pytest.fail("no dart goes on below")
    mouth = dart_mouth(lower, found[0])
    reach = 0.5 * (distance(mouth[0], bust) + distance(mouth[1], bust))
    assert distance(*mouth) == pytest.approx(2.0 * reach * math.sin(0.5 * angle), abs=0.02)


@pytest.mark.parametrize("depth", [55.0, 60.0])
def test_what_is_left_of_a_shoulder_dart_below_a_short_yoke_is_eased_into_its_seam(depth: float) -> None:
    """w (1 - y / l): of a dart 1 wide and 8 long 0.375 at 5 cm, eased in (plane geometry)."""
    back = dress().piece("bodice back")
    dart = back.dart("shoulder dart")
    one, other = dart_mouth(back, dart)
    top, level = 0.5 * (one.y + other.y), require_edge(back, Place.NECK).start.y - depth
    left = distance(one, other) * (level - dart.apex.y) / (top - dart.apex.y)
    after = taken(dress(), "yoke", on="back", depth=depth)
    (seam,) = (s for s in after.seams if Place.YOKE in seam_places(after, s)[0])
    assert run_total(after, seam.a) - run_total(after, seam.b) == pytest.approx(left, abs=0.1)
    assert seam.ease.wanted == pytest.approx(left, abs=0.1)


@pytest.mark.parametrize("body", BODIES)
def test_nothing_is_left_of_a_shoulder_dart_that_ends_above_the_yoke_and_the_armhole_is_the_sum_of_both(body) -> None:  # type: ignore[no-untyped-def]
    before = body()
    after = taken(before, "yoke", on="back", depth=120.0)
    (yoke,) = pieces_of(after, PieceKind.YOKE)
    lower = after.piece("bodice back")
    assert not yoke.darts
    assert not darts_at(lower, Place.YOKE, Place.SHOULDER)
    whole = require_edge(before.piece("bodice back"), Place.ARMHOLE).length
    assert sum(require_edge(p, Place.ARMHOLE).length for p in (yoke, lower)) == pytest.approx(whole, abs=1e-4)
    assert length_at(after, Place.SHOULDER, Half.BACK) == pytest.approx(
        length_at(before, Place.SHOULDER, Half.BACK), abs=1e-3
    )


@pytest.mark.parametrize("body", BODIES)
@pytest.mark.parametrize("on", ["front", "back"])
def test_a_yoke_ends_square_at_the_armhole_and_at_the_centre(body, on: str) -> None:  # type: ignore[no-untyped-def]
    yoke = next(p for p in taken(body(), "yoke", on=on).pieces if p.identity.kind is PieceKind.YOKE)
    (seam,) = edges_at(yoke, Place.YOKE)
    before, after = yoke.beside(seam.name)
    corners = [
        tangent(before.curves[-1], 1.0).angle_to(tangent(seam.curves[0], 0.0)),
        tangent(seam.curves[-1], 1.0).angle_to(tangent(after.curves[0], 0.0)),
    ]
    assert [math.degrees(abs(corner)) for corner in corners] == pytest.approx([90.0, 90.0], abs=0.5)


@pytest.mark.parametrize("body", BODIES)
@pytest.mark.parametrize("name", ["raglan", "saddle shoulder"])
def test_body_and_sleeve_have_one_seam_and_its_line_is_of_one_length(body, name: str) -> None:  # type: ignore[no-untyped-def]
    after = taken(body(), name)
    place = Place.RAGLAN if name == "raglan" else Place.SADDLE
    seams = [seam for seam in after.seams if place in seam_places(after, seam)[0] & seam_places(after, seam)[1]]
    assert len(seams) == 2
    for seam in seams:
        assert run_total(after, seam.a) - run_total(after, seam.b) == pytest.approx(seam.ease.wanted, abs=1e-3)
        assert 0.0 <= seam.ease.wanted <= 6.0  # what little is left of a shoulder dart, a quarter of an inch at most
        below = [
            [ref_edge(after.pieces, ref) for ref in run if ref_edge(after.pieces, ref).place is not place]
            for run in (seam.a, seam.b)
        ]
        if name == "raglan":  # below the place where the line leaves the armhole each for itself
            assert below[0][0].length == pytest.approx(below[1][0].length, abs=1e-3)


@pytest.mark.parametrize("body", BODIES)
def test_a_raglan_seam_runs_smoothly_out_of_armhole_and_cap(body) -> None:  # type: ignore[no-untyped-def]
    after = taken(body(), "raglan")
    for piece in after.pieces:
        for one, other in zip(piece.edges, (*piece.edges[1:], piece.edges[0]), strict=True):
            if {one.place, other.place} in ({Place.ARMHOLE, Place.RAGLAN}, {Place.CAP, Place.RAGLAN}):
                turned = tangent(one.curves[-1], 1.0).angle_to(tangent(other.curves[0], 0.0))
                assert abs(math.degrees(turned)) < 0.5, (piece.name, one.name, other.name)


def test_a_raglan_takes_as_much_of_the_neck_as_asked_and_its_shoulder_dart_has_equal_legs() -> None:
    after = taken(dress(), "raglan", front=35.0, back=20.0, dart=70.0)
    sleeve = after.piece("sleeve")
    necks = {half_of(sleeve, edge): edge.length for edge in edges_at(sleeve, Place.NECK)}
    assert necks == pytest.approx({Half.FRONT: 35.0, Half.BACK: 20.0}, abs=1e-3)
    one, other = (sleeve.edge(leg) for leg in sleeve.dart("shoulder dart").legs)
    assert one.length == pytest.approx(other.length, abs=1e-4)


def test_a_saddle_takes_its_width_of_neck_and_armhole_and_what_is_left_of_the_cap_keeps_its_ease() -> None:
    before, after = dress(), taken(dress(), "saddle shoulder", front=30.0, back=25.0)
    sleeve = after.piece("sleeve")
    assert sum(edge.length for edge in edges_at(sleeve, Place.NECK)) == pytest.approx(55.0, abs=1e-3)
    for half, wide in ((Half.FRONT, 30.0), (Half.BACK, 25.0)):
        name = f"bodice {half}"
        hole = require_edge(after.piece(name), Place.ARMHOLE).length
        assert require_edge(before.piece(name), Place.ARMHOLE).length - hole == pytest.approx(wide, abs=1e-3)
        ease = next(edge.length for edge in edges_at(sleeve, Place.CAP, half=half)) - hole
        was = next(e.length for e in edges_at(before.piece("sleeve"), Place.CAP, half=half))
        was -= require_edge(before.piece(name), Place.ARMHOLE).length
        assert was - 3.0 <= ease <= was + 0.1  # an arc of the crown is a little longer than its chord


def test_a_smock_is_as_full_as_asked_its_gathers_clear_of_the_armhole_and_its_sides_meet() -> None:
    after = taken(dress(), "smock", fullness=1.76)
    for half in Half:
        lower = after.piece(f"bodice {half}")
        yoke = next(p for p in pieces_of(after, PieceKind.YOKE) if p.identity.half is half)
        ratio = require_edge(lower, Place.YOKE).length / require_edge(yoke, Place.YOKE).length
        assert ratio == pytest.approx(1.76, abs=1e-6)  # 34 across, 60 below it: 1.76 (a worked figure of the trade)
        assert not lower.darts
        for piece in (lower, yoke):
            assert [n.station.at for n in piece.notches if n.station.edge == require_edge(piece, Place.YOKE).name] == [
                25.0
            ]
    sides = [require_edge(after.piece(f"bodice {half}"), Place.SIDE).length for half in Half]
    assert sides[0] == pytest.approx(sides[1], abs=1e-4)
    assert not pieces_of(after, PieceKind.FRONT)[0].name.startswith("skirt")


def test_a_dropped_shoulder_lowers_cap_and_armhole_and_shortens_the_sleeve_by_the_figures_of_the_trade() -> None:
    before, after = dress(), taken(dress(), "dropped shoulder", by=20.0)
    assert lengths(after)["shoulder"] - lengths(before)["shoulder"] == pytest.approx(20.0, abs=1e-4)
    assert lengths(before)["shoulder to wrist"] - lengths(after)["shoulder to wrist"] == pytest.approx(20.0, abs=1e-4)
    elbows = [next(line for line in p.piece("sleeve").lines if line.level is Level.ELBOW) for p in (before, after)]
    assert elbows[1].start.y - elbows[0].start.y == pytest.approx(20.0, abs=1e-4)  # it stays where it is on the arm
    sides = [require_edge(p.piece("bodice front"), Place.SIDE).length for p in (before, after)]
    assert sides[0] - sides[1] == pytest.approx(10.0, abs=1e-4)  # half of it
    assert lengths(after)["upper arm"] > lengths(before)["upper arm"]
    for seam in after.seams:
        if Place.CAP in seam_places(after, seam)[0]:
            assert run_total(after, seam.a) == pytest.approx(run_total(after, seam.b), abs=1e-3)  # no ease


@pytest.mark.parametrize(
    "before", [ShoulderWidth(20.0), ShoulderSlope(-15.0), UpperArm(-20.0)], ids=lambda each: each.name
)
def test_a_dropped_shoulder_leaves_the_arm_room_to_move_the_cap_flatter_for_it(before: Alteration) -> None:
    altered = apply_step(dress(), before)
    after = apply_step(altered, DroppedShoulder(by=6.0))
    assert not [r for r in run_checks(after) if r.verdict is Verdict.FAIL and r.where == "upper arm"]
    assert cap_height("sleeve", after) <= cap_height("sleeve", altered) - 6.0


@pytest.mark.parametrize(
    ("by", "cap", "chord", "biceps"), [(2.0, 13.0, 17.69, 33.77), (4.0, 11.0, 17.72, 36.58), (6.0, 9.0, 17.95, 39.22)]
)
def test_a_dropped_shoulder_widens_the_sleeve_as_worked_out(by: float, cap: float, chord: float, biceps: float) -> None:
    """Plane geometry, in cm: the shoulder slopes by 20 degrees, the underarm lies 5.5 out and 17 down from its end;
    that goes out by `by` and the underarm down by half of it, so that the chord of 17.87 changes little. The cap of 15
    falls by as much, over diagonals of 20.5 and 22.5 that change with the chord.
    """
    slope = math.radians(20.0)
    drawn = math.hypot(5.5 - by * math.cos(slope), 17.0 + 0.5 * by - by * math.sin(slope))
    assert drawn == pytest.approx(chord, abs=0.005)
    more = drawn - math.hypot(5.5, 17.0)
    assert cap == 15.0 - by
    wide = (20.5 + more, 22.5 + more)
    assert sum(math.sqrt(side**2 - cap**2) for side in wide) == pytest.approx(biceps, abs=0.02)
    assert triangle_height(10.0 * wide[0], 10.0 * wide[1], 10.0 * biceps) == pytest.approx(10.0 * cap, abs=0.2)


def test_what_a_cap_was_eased_by_above_a_raglan_is_gone() -> None:
    """The trade's case: armhole 20.5, cap 21.25, both cut at 8: (21.25 - 8) - (20.5 - 8) = 0.75 of ease is left above
    and goes into the V of the shoulder. Ours lays the part of the body there, so that the sleeve is as long as that.
    """
    before, after = dress(), taken(dress(), "raglan")
    eased = [run_total(before, s.a) - run_total(before, s.b) for s in before.seams if s.name.endswith("armhole")]
    assert min(eased) > 5.0
    raglan = [s for s in after.seams if Place.RAGLAN in seam_places(after, s)[0]]
    assert [run_total(after, s.a) - run_total(after, s.b) for s in raglan] == pytest.approx([0.0, 0.0], abs=1e-3)


@pytest.mark.parametrize("which", [0, 1000])
def test_a_dropped_armhole_in_a_knit_turns_one_way_only(which: int) -> None:
    # the second is broad above for her chest: let out at its notch, her armhole would turn back by 20 degrees
    order = garment_for(women()[which], "knit top")
    after = taken(draft(order, prepare(order)), "dropped shoulder", by=10.0)
    for half in (PieceKind.FRONT, PieceKind.BACK):
        armhole = require_edge(pieces_of(after, half)[0], Place.ARMHOLE)
        assert math.degrees(turned_against(armhole.curves)) < 1.0


def test_a_shoulder_cut_off_already_is_refused_in_a_sentence() -> None:
    with pytest.raises(StepRefused, match='sewn into no armhole: "raglan" does that; leave out one'):
        taken(taken(dress(), "raglan"), "saddle shoulder")
    with pytest.raises(StepRefused, match='cut in two above already: "yoke" does that; leave out one'):
        taken(taken(dress(), "yoke", on="back"), "yoke", on="back")


def test_a_smock_over_a_button_stand_is_refused_in_a_sentence() -> None:
    buttoned = taken(dress(), "opening", at="centre front", fasten="buttons", button=15.0)
    with pytest.raises(StepRefused, match="put on over the head"):
        taken(buttoned, "smock")


def test_a_saddle_is_sewn_while_the_sides_are_open() -> None:
    steps = sewing_order(taken(dress(), "saddle shoulder"))
    places = [(step.act, step.place) for step in steps]
    order = [(Act.JOIN, Place.SADDLE), (Act.SET_IN, Place.ARMHOLE), (Act.JOIN, Place.SIDE)]
    assert [places.index(each) for each in order] == sorted(places.index(each) for each in order)
    assert not next(step for step in steps if step.act is Act.SET_IN).in_the_round


def test_a_yoke_cut_twice_is_cut_once_more_and_sewn_over_the_seam() -> None:
    once, twice = (taken(dress(), "yoke", on="back", twice=both) for both in (False, True))
    yokes = [next(p for p in pattern.pieces if p.identity.kind is PieceKind.YOKE) for pattern in (once, twice)]
    assert yokes[1].cut.count == 2 * yokes[0].cut.count
    step = next(step for step in sewing_order(twice) if step.place is Place.YOKE)
    assert any("all three" in sentence for sentence in step_words(twice, step, "cm").sentences)
    assert not any("all three" in sentence for sentence in step_words(once, step, "cm").sentences)
