"""Cloth left to be let down: what the garment measures now stays, and what is marked is where it comes to lie."""

import pytest
from shapely.geometry import LineString

from drafting.alterations import Armhole, FlareSkirt, FullSleeve, Hem, RoomToGrow, apply_step
from drafting.checks import Verdict, worst
from drafting.errors import StepRefused
from drafting.geometry import polyline
from drafting.pattern import Level, Pattern, finished, line_at
from drafting.pattern.cutting import cutting_line
from drafting.pattern.let_down import let_down_by, let_down_edges, tuck_by, usual_allowance
from output.api import Garment, block, draft
from tests.alteration_samples import SAMPLES, sample
from tests.drafting.dress import dress
from tests.drafting.growth.children import wren
from tests.quick_checks import run_checks
from tests.wardrobe import a_garment

CHILDS = ("child's bodice", "child's sleeve", "child's skirt")


def girls_dress() -> Pattern:
    return draft(Garment("Slope dress", wren(), [block(name) for name in CHILDS])).pattern


def measured(pattern):
    return {each.name: each.finished for each in finished(pattern)}


def let_down(pattern):
    return {each.name: round(by, 3) for each in pattern.measures if (by := let_down_by(pattern, each))}


@pytest.mark.parametrize(
    ("step", "longer"),
    [
        (RoomToGrow("skirt front", 40.0), {"skirt length": 40.0}),
        (RoomToGrow("bodice front", 13.0, "waist"), {"centre back": 13.0, "centre front": 13.0}),
        (RoomToGrow("sleeve", 20.0, "tuck"), {"shoulder to wrist": 20.0, "shoulder to elbow": 20.0}),
        (RoomToGrow("sleeve", 10.0), {"shoulder to wrist": 10.0}),
    ],
)
def test_now_it_measures_what_it_did_and_let_down_it_is_longer(step, longer):
    before = girls_dress()
    after = apply_step(before, step)
    now, was = measured(after), measured(before)
    assert now == pytest.approx(was, abs=1e-6)
    assert let_down(before) == {}
    assert let_down(after) == longer
    assert worst(run_checks(after)) is Verdict.PASS


def test_a_strangers_eye_finds_the_line_where_the_hem_comes_to_lie_and_cloth_below_it():
    after = apply_step(girls_dress(), RoomToGrow("skirt front", 40.0, until="2027-08-01"))
    for name in ("skirt front", "skirt back"):
        piece = after.piece(name)
        (line,) = (each for each in piece.lines if each.level is Level.LET_DOWN)
        assert line.name == "let down to here, to last until 2027-08-01"
        hem = next(edge for edge in piece.edges if edge.name == "hem")
        ((edge, by),) = let_down_edges(piece)
        assert (edge.name, by) == ("hem", pytest.approx(40.0))
        marked = LineString([(p.x, p.y) for p in polyline(line.drawn, 0.05)])
        turned = LineString([(p.x, p.y) for p in polyline(hem.curves, 0.05)])
        assert marked.distance(turned) == pytest.approx(40.0, abs=0.1)
        cut = LineString([(p.x, p.y) for p in polyline(cutting_line(piece), 0.05)])
        # as deep a hem can be turned up there as before
        assert marked.distance(cut) <= 40.0 + 0.1
        assert usual_allowance(piece, hem) == pytest.approx(hem.allowance - 40.0)


def test_a_tuck_takes_up_what_the_piece_was_lengthened_by():
    before = girls_dress()
    after = apply_step(before, RoomToGrow("sleeve", 20.0, "tuck"))
    sleeve = after.piece("sleeve")
    first, second = (line for line in sleeve.lines if line.level is Level.TUCK)
    assert tuck_by(sleeve) == pytest.approx(20.0)
    assert abs(first.start.y - second.start.y) == pytest.approx(20.0)
    assert abs(first.start.y - first.end.y) < 1e-9  # square to the grain
    for line in (first, second):
        ends = [min(_off(edge, end) for edge in sleeve.edges) for end in (line.start, line.end)]
        assert max(ends) < 0.1  # from edge to edge
    grown = sleeve.edge("underarm seam, front").length - before.piece("sleeve").edge("underarm seam, front").length
    assert grown == pytest.approx(20.0, abs=1.0)


def _off(edge, point):
    return LineString([(p.x, p.y) for p in polyline(edge.curves, 0.01)]).distance(
        LineString([(point.x, point.y), (point.x, point.y + 1e-9)])
    )


def test_a_tuck_of_a_bodice_goes_on_round_the_back():
    after = apply_step(dress(), RoomToGrow("bodice front", 13.0, "tuck"))
    assert [piece.name for piece in after.pieces if line_at(piece, Level.TUCK)] == ["bodice front", "bodice back"]
    assert worst(run_checks(after)) is Verdict.PASS
    assert let_down(after)["centre back"] == 13.0


def test_where_darts_end_at_the_waist_it_cannot_be_let_down_and_a_tuck_is_named():
    with pytest.raises(StepRefused, match='at = "tuck"'):
        apply_step(dress(), RoomToGrow("bodice front", 13.0, "waist"))


def test_what_has_no_waist_and_what_has_no_hem_is_refused_in_a_sentence():
    with pytest.raises(StepRefused, match="no waist seam"):
        apply_step(girls_dress(), RoomToGrow("sleeve", 13.0, "waist"))
    with pytest.raises(StepRefused, match="no hem"):
        apply_step(girls_dress(), RoomToGrow("bodice front", 13.0))


def test_the_waist_of_the_bodice_alone_is_left_wider():
    before = girls_dress()
    after = apply_step(before, RoomToGrow("bodice front", 13.0, "waist"))
    wider = {
        (piece.name, edge.name)
        for piece in after.pieces
        for edge in piece.edges
        if edge.allowance != before.piece(piece.name).edge(edge.name).allowance
    }
    assert wider == {("bodice front", "waist"), ("bodice back", "waist")}
    # and no notch is lost for it
    assert [len(piece.notches) for piece in after.pieces] == [len(piece.notches) for piece in before.pieces]


def test_a_hem_that_bends_too_much_is_refused_with_what_can_be_had():
    flared = apply_step(dress(), FlareSkirt(hem=1500.0, how="slashes"))
    with pytest.raises(StepRefused, match="lie flat"):
        apply_step(flared, RoomToGrow("skirt front", 150.0))


def test_a_hem_asked_for_afterwards_is_turned_up_besides():
    both = apply_step(apply_step(dress(), RoomToGrow("skirt front", 40.0)), Hem("skirt front", depth=50.0))
    front = both.piece("skirt front")
    assert front.edge("hem").allowance == 90.0
    assert usual_allowance(front, front.edge("hem")) == 50.0


def test_two_let_downs_of_one_place_have_two_names():
    twice = apply_step(apply_step(girls_dress(), RoomToGrow("sleeve", 5.0)), RoomToGrow("sleeve", 5.0))
    names = [line.name for line in twice.piece("sleeve").lines]
    assert len(names) == len(set(names))


def test_a_full_sleeve_with_room_in_its_curved_hem_takes_a_tuck_as_well() -> None:
    """Where the hem comes to lie when it is let down there is no cloth yet, and no width to be kept."""
    full = apply_step(dress(), FullSleeve(hem=240.0, cuts=12.0))
    roomy = apply_step(full, RoomToGrow("sleeve", 10.0))
    after = apply_step(roomy, RoomToGrow("sleeve", 13.0, "tuck"))
    assert measured(after) == pytest.approx(measured(roomy), abs=1e-6)
    assert let_down(after)["shoulder to wrist"] == pytest.approx(23.0, abs=0.05)  # the hem is curved


def test_a_tuck_above_a_side_dart_leaves_the_sides_meeting_at_the_hem() -> None:
    """Below the dart the side seam is not cut, yet its end follows the other side's where the two slant unequally."""
    darted = apply_step(a_garment("shirt"), sample("move a dart", SAMPLES["move a dart"][0]))
    lowered = apply_step(darted, Armhole(lower=10.0))
    after = apply_step(lowered, RoomToGrow("bodice front", 13.0, "tuck"))
    assert measured(after) == pytest.approx(measured(lowered), abs=1e-6)
    assert worst(run_checks(after)) is not Verdict.FAIL


def test_a_tuck_moves_the_folds_of_pleats_along_where_a_godet_leads_the_hem() -> None:
    pleated = apply_step(dress(), sample("pleat skirt", {"pleats": "inverted"}))
    set_in = apply_step(pleated, sample("godet", {"at": "centre back"}))
    after = apply_step(set_in, RoomToGrow("skirt back", 20.0, "tuck"))
    assert measured(after) == pytest.approx(measured(set_in), abs=1e-6)
    assert worst(run_checks(after)) is not Verdict.FAIL
