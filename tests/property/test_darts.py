"""Laws of darts and of the bust, at random places, shares and amounts, on the example dress."""

from __future__ import annotations

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from drafting.alterations import Alteration, FullBust, MoveDart, SmallBust, apply_step
from drafting.alterations.techniques.pivoting.pivot import angle_about
from drafting.checks import Verdict, run_checks
from drafting.errors import StepRefused
from drafting.pattern import Pattern, Piece, dart_mouth
from tests.drafting.dress import dress
from tests.property.test_alterations import furthest

FRONT = "bodice front"
EDGES = ("side seam", "armhole", "neck", "waist at side", "waist at centre")
ENDS = {"side seam": "armhole", "armhole": "side seam", "neck": "centre front", "waist at centre": "centre front"}
shares = st.floats(0.08, 0.92)
parts = st.floats(0.15, 1.0)
amounts = st.floats(1.0, 45.0)
many = settings(deadline=None, max_examples=6)


def taken(pattern: Pattern, *steps: Alteration) -> Pattern:
    """The pattern after the steps; one that it refuses is another example's business."""
    try:
        for step in steps:
            pattern = apply_step(pattern, step)
    except StepRefused:
        assume(False)
    return pattern


def to(edge: str, share: float, part: float = 1.0) -> MoveDart:
    return MoveDart(FRONT, "bust dart", edge, share=share, measured_from=ENDS.get(edge, "side seam"), part=part)


def angles(piece: Piece) -> float:
    """The angles of the darts of the bust at the bust point, together."""
    aimed = [dart for dart in piece.darts if dart.aims_at]
    return sum(angle_about(*dart_mouth(piece, dart), piece.point("bust point")) for dart in aimed)


@many
@given(st.sampled_from(EDGES), shares, parts)
def test_the_angles_of_the_bust_stay_and_the_dress_goes_together(edge: str, share: float, part: float) -> None:
    after = taken(dress(), to(edge, share, part))
    assert abs(angles(after.piece(FRONT)) - angles(dress().piece(FRONT))) < 1e-9
    assert [r for r in run_checks(after) if r.verdict in (Verdict.FAIL, Verdict.ERROR)] == []


@many
@given(st.sampled_from(EDGES), shares, st.floats(0.15, 0.85))
def test_a_part_there_and_back_is_the_identity(edge: str, share: float, part: float) -> None:
    there = taken(dress(), to(edge, share, part))
    new = there.piece(FRONT).darts[-1].name
    assert furthest(apply_step(there, MoveDart(FRONT, new, "bust dart")), dress()) < 1e-6


@many
@given(st.sampled_from(EDGES), shares)
def test_the_whole_dart_there_and_back_is_the_identity(edge: str, share: float) -> None:
    at = dress().piece(FRONT).edge("shoulder at neck").length
    there = taken(dress(), to(edge, share))
    back = apply_step(there, MoveDart(FRONT, "bust dart", "shoulder", at=at, measured_from="neck"))
    assert furthest(back, dress()) < 1e-6


@many
@given(st.sampled_from(EDGES), shares, parts, amounts)
def test_full_then_small_bust_is_the_identity_wherever_the_dart_lies(
    edge: str, share: float, part: float, by: float
) -> None:
    moved = taken(dress(), to(edge, share, part))
    there = taken(moved, FullBust(by))
    assert [r for r in run_checks(there) if r.verdict in (Verdict.FAIL, Verdict.ERROR)] == []
    assert furthest(apply_step(there, SmallBust(by)), moved) < 1e-6
