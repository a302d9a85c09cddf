"""What alterations come to one after the other where each alone is well: the shortest chains that once failed."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, partial, reduce

import pytest

from drafting.alterations import (
    Alteration,
    BackWidth,
    Blend,
    DartIntoGathers,
    DartIntoSeam,
    FlareSkirt,
    ForwardShoulder,
    FullSleeve,
    GatherSkirt,
    Hem,
    Lengthen,
    MoveDart,
    Neckline,
    RoundedBack,
    ShoulderSlope,
    ShoulderWidth,
    SwayBack,
    TakeIn,
    Wrap,
    apply_step,
)
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.geometry import run_hits
from drafting.pattern import Pattern, finished, walk
from tests.drafting.dress import dress
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks

EASED = DartIntoGathers("bodice back", "shoulder dart", "ease")
BUST_GATHERED = DartIntoGathers("bodice front", "bust dart")
WAIST_GATHERED = DartIntoGathers("bodice back", "waist dart")
TO_NECK = MoveDart("bodice back", "shoulder dart", "neck", beyond=38.0)
LENGTHEN = "lengthen or shorten line"
TO_HEM = DartIntoSeam("skirt front", "waist dart", "hem")

CHAINS: list[tuple[Alteration, ...]] = [
    # an eased shoulder is not straight: it is drawn anew in its shape, and the mark on the front goes with the ease
    (EASED, ShoulderSlope(20.0)),
    (EASED, ShoulderSlope(pad=20.0)),
    # 20 would turn the armhole back by more than a cutter signs, and is refused
    (EASED, ShoulderWidth(15.0)),
    (EASED, ShoulderWidth(-15.0)),
    (EASED, ForwardShoulder(15.0)),
    (EASED, ForwardShoulder(-10.0)),
    (EASED, Neckline(110.0, 10.0, shape="V")),
    (EASED, Neckline(80.0, 30.0, 20.0)),
    (EASED, RoundedBack(2.0, "ease")),
    (EASED, BackWidth(3.0, "ease")),
    # gathers on both sides of a seam, and a seam that is gathered as a whole
    (BUST_GATHERED, EASED),
    (EASED, BUST_GATHERED),
    (GatherSkirt(2.0), WAIST_GATHERED),
    (WAIST_GATHERED, GatherSkirt(3.0)),
    (DartIntoGathers("skirt back", "waist dart 1"), GatherSkirt(2.0)),
    (DartIntoGathers("skirt front", "waist dart"), DartIntoGathers("bodice front", "waist dart"), GatherSkirt(1.5)),
    (GatherSkirt(1.25),),
    (WAIST_GATHERED, SwayBack(12.0)),
    # the legs of a moved dart are bent; they stay so
    (TO_NECK, ShoulderSlope(5.0)),
    (RoundedBack(10.0), TO_NECK, ShoulderWidth(-15.0)),
    (RoundedBack(10.0), TO_NECK, RoundedBack(5.0, "ease")),
    # a neck drawn anew in one sweep over such a dart: its legs are as straight as they then have to be
    (RoundedBack(10.0), TO_NECK, Neckline(110.0, 10.0, shape="V")),
    # a centre back that is shaped already
    (SwayBack(20.0, "seam"), SwayBack(25.0)),
    # a skirt slashed twice: what is marked goes with its own strip
    (FlareSkirt(500.0, "slashes"), FlareSkirt(100.0, "slashes"), TO_HEM),
    (FlareSkirt(600.0, "slashes"), FlareSkirt(100.0, "slashes"), Hem("skirt front", grow=35.0, level=True)),
    (FlareSkirt(100.0, "slashes"), Lengthen("skirt front", 200.0), Hem("skirt front", grow=60.0, level=True)),
    (Wrap(120.0, 60.0), TO_HEM, FlareSkirt(900.0, "slashes", 5.0)),
    # straight edges turned a little, often
    (*(Lengthen("bodice front", -6.0) for _ in range(3)),),
    (*(Lengthen("skirt front", 100.0) for _ in range(5)),),
]


def taken(pattern: Pattern, steps: Sequence[Alteration]) -> Pattern:
    return reduce(partial(apply_step, as_written=True), steps, pattern)


@cache
def bases() -> tuple[Pattern, ...]:
    return dress(), sized(92)


@pytest.mark.parametrize("steps", CHAINS, ids=lambda steps: ", ".join(step.name for step in steps))
def test_a_chain_goes_together(steps: tuple[Alteration, ...]) -> None:
    for base in bases():
        assert [each for each in run_checks(taken(base, steps)) if each.verdict in (Verdict.FAIL, Verdict.ERROR)] == []


def test_the_mark_lies_where_what_is_eased_begins() -> None:
    for step in (ShoulderWidth(20.0), Neckline(width=12.0), ShoulderSlope(15.0)):
        after = apply_step(apply_step(dress(), EASED), step, as_written=True)
        walked = walk(after, after.seam("shoulder"))
        mouth = [pair for pair in walked.notches if pair.a.notch.endswith(("begin", "end"))]
        begins = [pair.along_a for pair in mouth]
        (mark,) = {pair.along_b for pair in mouth}
        assert mark == pytest.approx(min(at for at in begins if at is not None), abs=1e-3)
        assert walked.sewn[0] == pytest.approx(walked.sewn[1], abs=0.01)


def test_a_seam_that_is_gathered_twice_is_laid_together_without_what_is_drawn_up() -> None:
    after = apply_step(apply_step(dress(), BUST_GATHERED), EASED)
    walked = walk(after, after.seam("shoulder"))
    assert min(walked.up_a.total, walked.up_b.total) > 5.0
    for pair in walked.notches:
        assert pair.along_a is not None
        assert walked.met(pair.along_a, from_a=True) == pytest.approx(pair.along_b, abs=0.01) or (
            walked.up_b.before(pair.along_b or 0.0) > 5.0
        )


def test_a_gathered_skirt_measures_at_its_waist_what_it_is_gathered_into() -> None:
    before = {made.name: made.finished for made in finished(dress())}
    for own in ("skirt back", "bodice back"):
        dart = "waist dart 1" if own == "skirt back" else "waist dart"
        pattern = apply_step(dress(), DartIntoGathers(own, dart))
        now = {made.name: made.finished for made in finished(apply_step(pattern, GatherSkirt(2.0), as_written=True))}
        assert now["waist"] == pytest.approx(before["waist"], abs=1e-3)


def test_the_hip_line_of_a_skirt_slashed_twice_ends_on_its_side_seam() -> None:
    pattern = taken(dress(), [FlareSkirt(hem, "slashes") for hem in (600.0, 100.0)])
    for name in ("skirt front", "skirt back"):
        piece = pattern.piece(name)
        hip = piece.line("hip line")
        hits = run_hits(piece.edge("side seam").curves, hip.start, hip.end - hip.start)
        assert any(hit.point.near(hip.end, 1e-6) for _, hit in hits)


REFUSED: list[tuple[tuple[Alteration, ...], str]] = [
    ((EASED, ForwardShoulder(20.0)), "mm to be eased in, and 12 mm is the most that will go; this can be had"),
    ((GatherSkirt(1.5), Blend(waist=100.0)), "is gathered or eased; put this step before that one"),
    (
        (SwayBack(5.0), Lengthen("bodice front", -20.0), TakeIn(waist=20.0, darts=0.5, centre_back=0.2)),
        r'reaches over the bust line, which would become narrower with it; let the side seams .* darts = "0 %"',
    ),
]


@pytest.mark.parametrize(("steps", "reason"), REFUSED)
def test_a_chain_that_would_break_a_promise_is_refused_in_a_sentence(
    steps: tuple[Alteration, ...], reason: str
) -> None:
    pattern = taken(sized(92), steps[:-1])
    with pytest.raises(StepRefused, match=reason):
        apply_step(pattern, steps[-1], as_written=True)


@pytest.mark.parametrize(
    ("spread", "piece"),
    [
        (FlareSkirt(500.0, "slashes"), "skirt front"),
        (FlareSkirt(), "skirt front"),
        (GatherSkirt(), "skirt back"),
        (FullSleeve(hem=100.0), "sleeve"),
        (FullSleeve(cap=80.0, hem=80.0), "sleeve"),
    ],
    ids=str,
)
@pytest.mark.parametrize("by", [-50.0, 60.0])
def test_what_was_spread_is_lengthened_and_shortened_after_it(spread: Alteration, piece: str, by: float) -> None:
    """The line of the cut slants since, and lies on both sides of the cut; it keeps its slant."""
    before = apply_step(dress(), spread)
    after = apply_step(before, Lengthen(piece, by), as_written=True)
    assert not any(each.verdict in (Verdict.FAIL, Verdict.ERROR) for each in run_checks(after))
    slants = [(line.end - line.start).unit() for line in (each.piece(piece).line(LENGTHEN) for each in (before, after))]
    assert (slants[0] - slants[1]).norm() < 1e-9
