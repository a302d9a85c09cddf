"""An empire seam against plane geometry: what a dart takes up there, and that front and back still meet."""

from __future__ import annotations

import math

import pytest

from drafting.alterations import Empire, Kimono, Lengthen, MoveDart, Opening, PointedWaist, SidePocket, apply_step
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.pattern import (
    Level,
    Pattern,
    PieceKind,
    Place,
    Role,
    dart_mouth,
    darts_at,
    edges_at,
    finished,
    run_total,
    seam_places,
)
from tests.drafting.alterations.styles.test_raglan import drafted
from tests.drafting.dress import dress
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks

BODIES = (dress, lambda: sized(84), lambda: sized(100))


def seams(pattern: Pattern) -> list:  # type: ignore[type-arg]
    return [s for s in pattern.seams if Place.EMPIRE in seam_places(pattern, s)[0] & seam_places(pattern, s)[1]]


@pytest.mark.parametrize("body", BODIES)
def test_the_waist_and_the_side_are_as_they_were_and_the_new_seams_meet(body) -> None:  # type: ignore[no-untyped-def]
    before, after = body(), apply_step(body(), Empire())
    was, now = ({m.name: m.finished for m in finished(each)} for each in (before, after))
    assert now["waist"] == pytest.approx(was["waist"], abs=1e-4)
    assert len(seams(after)) == 2
    for seam in seams(after):
        assert run_total(after, seam.a) - run_total(after, seam.b) == pytest.approx(seam.ease.wanted, abs=1e-3)
    for half in ("front", "back"):  # the side, in two parts, is as long as it was
        parts = [e for p in after.pieces if p.name.startswith(f"bodice {half}") for e in edges_at(p, Place.SIDE)]
        (whole,) = edges_at(before.piece(f"bodice {half}"), Place.SIDE)
        assert sum(edge.length for edge in parts) == pytest.approx(whole.length, abs=1e-4)


@pytest.mark.parametrize("below", [60.0, 70.0, 80.0])
def test_what_is_left_of_the_waist_dart_above_is_what_plane_geometry_says(below: float) -> None:
    # 2 q sin(a / 2) at the distance q from the bust point, about which the dart is turned (derived)
    before = dress()
    front = before.piece("bodice front")
    dart = front.dart("waist dart")
    bust = front.point("bust point")
    one, other = (end - bust for end in dart_mouth(front, dart))
    after = apply_step(before, Empire(below=below, rise=0.0)).piece("bodice front")
    (left,) = darts_at(after, Place.EMPIRE)
    first, second = dart_mouth(after, left)
    far = 0.5 * ((first - bust).norm() + (second - bust).norm())
    assert (second - first).norm() == pytest.approx(2.0 * far * math.sin(0.5 * abs(one.angle_to(other))), abs=0.05)


def test_below_the_seam_nothing_is_left_of_the_waist_darts() -> None:
    after = apply_step(dress(), Empire())
    midriffs = [piece for piece in after.pieces if piece.identity.kind is PieceKind.YOKE]
    assert {piece.name for piece in midriffs} == {"bodice front midriff", "bodice back midriff"}
    assert not any(piece.darts for piece in midriffs)


def test_too_low_a_seam_is_refused_with_the_most_that_can_be_had() -> None:
    with pytest.raises(StepRefused) as refused:
        apply_step(dress(), Empire(below=200.0))
    (remedy,) = refused.value.remedies
    most = float(str(remedy.settings[0].value))
    apply_step(dress(), Empire(below=most))
    with pytest.raises(StepRefused):
        apply_step(dress(), Empire(below=most + 1.0))


@pytest.mark.parametrize("below", [None, 30.0, 200.0])
def test_under_a_sleeve_cut_in_one_that_leaves_too_little_of_the_side_it_says_how_little(below: float | None) -> None:
    """73 mm below the bust line would be the least, below the armhole, and 61 the most, above the waist."""
    low = apply_step(sized(92), Kimono())
    with pytest.raises(
        StepRefused, match='the side seam of "bodice front" is 12 mm too short for a seam under the bust'
    ):
        apply_step(low, Empire(below=below))


def test_over_a_pointed_waist_it_is_refused_in_words() -> None:
    with pytest.raises(StepRefused, match='leave out the "pointed waist"'):
        apply_step(apply_step(dress(), PointedWaist()), Empire())


@pytest.mark.parametrize(("name", "nth"), [("knit top", 10), ("child's dress", 40)])
def test_it_can_be_had_without_darts_as_well(name: str, nth: int) -> None:
    before = drafted(name, nth)
    failed = {r.where for r in run_checks(before) if r.verdict is Verdict.FAIL}
    assert {r.where for r in run_checks(apply_step(before, Empire())) if r.verdict is Verdict.FAIL} <= failed


def test_a_dart_in_the_side_seam_stays_above_it_and_the_seam_lies_as_without() -> None:
    moved = apply_step(dress(), MoveDart("bodice front", "bust dart", "side seam", share=0.4, measured_from="armhole"))
    after, without = apply_step(moved, Empire()), apply_step(dress(), Empire())
    (dart,) = darts_at(after.piece("bodice front"), Place.SIDE)
    assert dart.name == "bust dart"
    sides = [
        sum(edge.length for edge in edges_at(pattern.piece("bodice front midriff"), Place.SIDE))
        for pattern in (after, without)
    ]
    assert sides[0] == pytest.approx(sides[1], abs=1e-3)
    assert not [r.where for r in run_checks(after) if r.verdict is Verdict.FAIL]


def test_a_zip_in_the_side_seam_runs_over_it() -> None:
    after = apply_step(apply_step(dress(), Opening("side", length=350.0)), Empire())
    opened = {
        p.name for p in after.pieces for e in edges_at(p, Place.SIDE) if e.role is Role.OPENING and "bodice" in p.name
    }
    assert {"bodice front", "bodice front midriff"} <= opened
    assert not [r.where for r in run_checks(after) if r.verdict is Verdict.FAIL]


def test_a_pocket_in_the_side_seam_stays_sewn_to_its_mouth_below_it() -> None:
    after = apply_step(apply_step(drafted("knit top", 10), SidePocket()), Empire())
    assert not [r.where for r in run_checks(after) if r.verdict is Verdict.FAIL]


@pytest.mark.parametrize("below", [25.0, 60.0])
def test_a_midriff_is_lengthened_at_a_line_square_to_the_grain(below: float) -> None:
    """The waist dart closed below the seam would leave it slanted by 9 degrees, too flat for the seam above."""
    made = apply_step(dress(), Empire(below=below))
    for name in ("bodice front midriff", "bodice back midriff"):
        (line,) = (line for line in made.piece(name).lines if line.level is Level.LENGTHEN)
        assert line.start.y == pytest.approx(line.end.y, abs=1e-9)
        longer = apply_step(made, Lengthen(name, 10.0))
        assert {each.verdict for each in run_checks(longer)} <= {Verdict.PASS, Verdict.NOTHING, Verdict.WARN}
