"""A shaped band, a hip yoke, a pointed waist, and pleats below a yoke."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from drafting.alterations import ALTERATIONS, Alteration, GatherSkirt, Seat, apply_step, make_step
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.geometry import distance, run_ends, tangent
from drafting.pattern import CENTRES, Pattern, Piece, Place, Step, edges_at, finished
from tests.drafting.alterations.test_laid_elsewhere import mirrored
from tests.drafting.alterations.trousers.test_trousers_alterations import plain
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks
from tests.wardrobe import a_garment


def step(name: str, **options: float | str) -> Alteration:
    return make_step(Step(name, tuple(options.items())), ALTERATIONS)


def failed(pattern: Pattern) -> list[str]:
    return [f"{r.check}: {r.where}" for r in run_checks(pattern) if r.verdict in (Verdict.FAIL, Verdict.ERROR)]


def along(pattern: Pattern, name: str, place: Place) -> float:
    return sum(edge.length_within(1e-7) for edge in edges_at(pattern.piece(name), place))


@pytest.mark.parametrize("depth", [30.0, 40.0, 60.0])
def test_the_lower_edge_of_a_band_is_as_long_as_what_is_left_with_its_darts_closed(depth: float) -> None:
    banded = apply_step(sized(92, "skirt"), step("shaped band", depth=depth))
    for half in ("front", "back"):
        band, left = (along(banded, f"skirt {half}{word}", Place.YOKE) for word in (" band", ""))
        assert band == pytest.approx(left, abs=1e-5)
    assert not failed(banded)


def test_a_band_keeps_the_waist_and_follows_the_cone_of_the_skirt() -> None:
    """Plane geometry: on a cone the girth grows by the same amount with every millimetre down: theta = (B - T) / b."""
    plain = sized(92, "skirt")
    angles = []
    for depth in (30.0, 40.0, 50.0):
        banded = apply_step(plain, step("shaped band", depth=depth))
        top, low = (along(banded, "skirt front band", place) for place in (Place.WAIST, Place.YOKE))
        assert top == pytest.approx(along(plain, "skirt front", Place.WAIST), abs=1e-5)
        angles.append((low - top) / depth)
    assert max(angles) - min(angles) < 0.03


def test_a_dart_keeps_what_a_band_leaves_of_it_and_one_that_is_too_short_ends_on_a_yoke() -> None:
    """Plane geometry: at depth d a dart of width w and length l is w (1 - d / l) wide."""
    plain = sized(92, "skirt")
    dart = plain.piece("skirt front").darts[0]
    long = math.hypot(
        *(getattr(dart.apex, c) - getattr(plain.piece("skirt front").edge(dart.legs[0]).start, c) for c in "xy")
    )
    banded = apply_step(plain, step("shaped band", depth=40.0)).piece("skirt front")
    left = banded.edge(banded.darts[0].legs[0]).length
    assert left == pytest.approx(long - 40.0, abs=1.0)
    yoked = apply_step(plain, step("skirt yoke", depth=120.0))
    assert not yoked.piece("skirt front").darts
    for half, style in (("front", "single"), ("back", "double")):  # as on every seam, so that none is taken for another
        for piece in (yoked.piece(f"skirt {half}"), yoked.piece(f"skirt {half} yoke")):
            assert {n.style for n in piece.notches if n.name.startswith(f"skirt {half} yoke notch")} == {style}


def test_between_a_bodice_and_a_skirt_the_seams_still_meet_and_the_tape_says_the_same() -> None:
    plain = sized(92, "bodice", "skirt")
    banded = apply_step(plain, step("shaped band"))
    assert [round(each.finished, 4) for each in finished(banded)] == [
        round(each.finished, 4) for each in finished(plain)
    ]
    assert not failed(banded)
    band = banded.piece("skirt front band")
    assert (band.cut.count, band.cut.interfacing) == (2, 1)


def test_a_pointed_waist_comes_to_its_point_and_the_band_below_keeps_it() -> None:
    """Plane geometry: half a seam is sqrt(w^2 + p^2) long; upper and lower piece fill 360 degrees at the point."""
    plain = sized(92, "bodice", "skirt")
    pointed = apply_step(plain, step("pointed waist", depth=60.0))
    lower = edges_at(pointed.piece("skirt front"), Place.WAIST)
    before, top = (
        max(max(edge.start.y, edge.end.y) for edge in edges_at(each.piece("skirt front"), Place.CENTRE_FRONT))
        for each in (plain, pointed)
    )
    assert before - top == pytest.approx(60.0)
    at_point = next(edge for edge in lower if any(abs(p.y - top) < 1e-6 for p in (edge.start, edge.end)))
    way = tangent(at_point.curves[0], 0.0) if at_point.start.y < at_point.end.y else tangent(at_point.curves[-1], 1.0)
    waist = edges_at(pointed.piece("bodice front"), Place.WAIST)
    upper = next(edge for edge in waist if min(abs(edge.start.x), abs(edge.end.x)) < 1e-6)
    its = tangent(upper.curves[0], 0.0) if abs(upper.start.x) < 1e-6 else tangent(upper.curves[-1], 1.0)
    below, above = (math.degrees(math.atan2(abs(v.x), abs(v.y))) for v in (way, its))
    assert 2.0 * (180.0 - below) + 2.0 * above == pytest.approx(360.0, abs=0.1)
    assert not failed(pointed)
    assert not failed(apply_step(pointed, step("shaped band", depth=50.0)))


def test_a_point_wants_one_dart_above_and_one_below_and_no_buttons_on_it() -> None:
    with pytest.raises(StepRefused, match="no bodice"):
        apply_step(sized(92, "skirt"), step("pointed waist"))
    pointed = apply_step(sized(92, "bodice", "skirt"), step("pointed waist"))
    with pytest.raises(StepRefused, match="comes to a point"):
        apply_step(pointed, step("opening", at="centre front", fasten="buttons"))


def test_below_a_yoke_a_skirt_is_gathered_or_pleated_and_measures_what_it_did() -> None:
    yoked = apply_step(sized(92, "skirt"), step("skirt yoke", depth=100.0))
    gathered = apply_step(yoked, GatherSkirt(ratio=1.8))
    assert not failed(gathered)
    for kind in ("knife", "box", "inverted"):
        pleated = apply_step(yoked, step("pleat skirt", pleats=kind, wide=60.0))
        assert not failed(pleated)
        for was, now in zip(finished(yoked), finished(pleated), strict=True):
            assert now.finished == pytest.approx(was.finished, abs=1e-5), kind


def test_a_yoke_ends_above_the_hip() -> None:
    with pytest.raises(StepRefused, match="ends above it"):
        apply_step(sized(92, "skirt"), step("skirt yoke", depth=250.0))


def test_folds_that_would_lap_over_are_refused() -> None:
    with pytest.raises(StepRefused, match="lap over"):
        apply_step(sized(92, "skirt"), step("pleat skirt", wide=40.0, depth=90.0))


def test_a_yoke_that_leaves_little_of_the_centre_seam_meets_what_is_below() -> None:
    yoked = apply_step(apply_step(plain(), Seat(-20.0)), step("skirt yoke", depth=164.0))
    (left,) = edges_at(yoked.piece("trousers back"), Place.CENTRE_BACK)[:1]
    assert left.length < 5.0
    for half in ("front", "back"):
        one, other = (along(yoked, f"trousers {half}{word}", Place.YOKE) for word in (" yoke", ""))
        assert one == pytest.approx(other, abs=1e-5)


@pytest.mark.parametrize(("depth", "seat"), [(25.0, 0.0), (80.0, 0.0), (40.0, 25.0)])
def test_a_band_of_trousers_comes_square_to_its_slanting_centres(depth: float, seat: float) -> None:
    """Opened out at the centre seam its lower edge runs straight on (common practice); with more room for the seat the
    line below the waist has to be led there by a fifth of a degree."""
    before = apply_step(plain(), Seat(seat)) if seat else plain()
    banded = apply_step(before, step("shaped band", depth=depth))
    for half, place in (("front", Place.CENTRE_FRONT), ("back", Place.CENTRE_BACK)):
        band = banded.piece(f"trousers {half} band")
        (low,), (centre,) = edges_at(band, Place.YOKE), edges_at(band, place)
        first, second = (low, centre) if low.end == centre.start else (centre, low)
        assert first.end == second.start
        corner = run_ends(first.curves)[1].angle_to(run_ends(second.curves)[0])
        assert corner == pytest.approx(math.pi / 2, abs=1e-5)
        if not seat:  # else the waist itself lies aslant there
            assert distance(centre.start, centre.end) == pytest.approx(depth, abs=0.06 * depth)


@pytest.mark.parametrize("kind", ["dress", "fly trousers", "jumpsuit", "circle skirt", "gored skirt", "tiered skirt"])
@pytest.mark.parametrize(("name", "depth"), [("shaped band", 45.0), ("skirt yoke", 90.0)])
def test_its_lower_edge_comes_square_to_every_centre_whichever_way_it_is_drawn(
    kind: str, name: str, depth: float
) -> None:
    for pattern in (a_garment(kind), mirrored(a_garment(kind))):
        cut = apply_step(pattern, step(name, depth=depth))
        found = [turn for piece in cut.pieces for turn in turns_at_centre(piece)]
        assert found == pytest.approx([0.0] * 4, abs=math.radians(0.11))  # yoke and skirt, front and back


def turns_at_centre(piece: Piece) -> list[float]:
    """How far from square the edge of a yoke meets each centre of the piece, in radians."""
    found = []
    for one, other in pairwise((*piece.edges, piece.edges[0])):
        if Place.YOKE in (one.place, other.place) and not {one.place, other.place}.isdisjoint(CENTRES):
            found.append(math.asin(run_ends(one.curves)[1].dot(run_ends(other.curves)[0])))
    return found
