"""The knit top: girths by stretch and closeness, never beyond the cloth, against the numbers of the trade."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.body.person import Person
from drafting.checks import Verdict
from drafting.checks.giving import worn_stretched
from drafting.errors import CannotDraft
from drafting.fit.cloth import Cloth
from drafting.fit.least_ease import least_ease
from drafting.pattern import Level, Pattern, Place, across, finished, require_edge, require_line, walk
from drafting.reading.options import Value
from tests.bodies import women
from tests.quick_checks import run_checks
from tests.sweep import End
from tests.sweep_knits import end_of, top_for

FRONT, BACK = "top front", "top back"


def made(garment: Garment) -> Pattern:
    return draft(garment, prepare(garment))


def like(who: Person, **mm: float) -> Person:
    return replace(who, measurements=tuple({**dict(who.measurements), **mm}.items()))


def top(who: Person, stretch: float = 0.4, *, ease: dict[str, float] | None = None, **options: Value) -> Garment:
    garment = top_for(who, stretch)
    return replace(garment, blocks=(BlockOrder(find_block("knit top"), options), garment.blocks[1]), ease=ease or {})


@pytest.mark.parametrize(
    ("stretch", "least"),
    [(0.18, 0.943), (0.25, 0.923), (0.4, 0.882), (0.5, 0.857), (0.75, 0.800), (1.0, 0.750)],
)
def test_a_knit_is_worn_at_a_third_of_its_stretch_at_the_most(stretch: float, least: float) -> None:
    """1 / (1 + stretch / 3) by arithmetic; that it is a third is common practice, from memory."""
    body = prepare(top_for(women()[0], stretch)).body
    limits = {each.place: each.fails_below for each in least_ease(Cloth("knit", stretch=stretch), body)}
    assert 1.0 + limits["bust"] / body.mm("bust_girth") == pytest.approx(least, abs=5e-4)


def test_a_top_smaller_than_the_body_by_four_hundredths_is_worn_stretched_by_4_2() -> None:
    """Bust 92, - 4 %: 88.3 round, 22.08 a quarter, a strain of 4.2 % (arithmetic)."""
    who = like(women()[40], bust_girth=920.0, interscye_mid_distance=340.0, upper_arm_girth=270.0)
    pattern = made(top(who, ease={"bust": -0.04 * 920.0}))
    (bust,) = [each for each in finished(pattern) if each.name == "bust"]
    assert bust.finished == pytest.approx(883.2, abs=0.05)
    quarters = [
        across(pattern.piece(name), require_line(pattern.piece(name), Level.BUST).name) for name in (FRONT, BACK)
    ]
    assert 0.5 * sum(quarters) == pytest.approx(220.8, abs=0.05)
    assert quarters[0] - quarters[1] == pytest.approx(5.0, abs=0.01)  # half a centimetre for the bust: common practice
    assert worn_stretched(pattern)["bust"] == pytest.approx(0.0417, abs=5e-4)


@pytest.mark.parametrize("place", ["bust", "waist", "hip"])
def test_a_girth_beyond_what_the_cloth_gives_is_refused_and_the_cloth_named(place: str) -> None:
    with pytest.raises(CannotDraft, match=f"The {place} would be .* a knit that stretches 40 % is worn at a third"):
        made(top(women()[0], ease={place: -150.0}))
    with pytest.raises(CannotDraft, match="take a knit"):
        made(replace(top(women()[0]), cloth=Cloth("cotton")))


def test_shoulder_neck_and_lengths_do_not_become_smaller_with_the_girths() -> None:
    loose, close = (made(replace(top_for(women()[0], 0.9), fit=fit)) for fit in ("loose", "close"))
    for name in (FRONT, BACK):
        lengths = [require_edge(pattern.piece(name), Place.SHOULDER).length for pattern in (loose, close)]
        assert lengths[1] == pytest.approx(lengths[0], abs=4.0)
    # one that is pulled wide is cut longer, by 2.5 % (common practice, 2 to 3 %)
    told = " ".join(close.origin[0].gave_way)
    assert "cut 1" in told or "cut 2" in told
    assert "gets shorter as it is worn" in told


@pytest.mark.parametrize("fit", ["close", "regular", "loose"])
def test_the_sleeve_goes_in_with_next_to_no_ease(fit: str) -> None:
    """A knit cap is set in with 0 to 1 cm of ease (common practice)."""
    pattern = made(replace(top_for(women()[12], 0.5), fit=fit))  # type: ignore[arg-type]
    eased = [walk(pattern, pattern.seam(f"{half} armhole")) for half in ("front", "back")]
    assert -1e-6 <= sum(each.a - each.b for each in eased) <= 10.0


def test_what_a_full_bust_asks_for_in_front_is_told_in_mm() -> None:
    who = women()[0]
    long = like(who, front_waist_length_from_neck_pit=dict(who.measurements)["front_waist_length_from_neck_pit"] + 40.0)
    (said,) = [each for each in made(top(long)).origin[0].gave_way if "more length in front" in each]
    assert '"full bust"' in said
    mm = float(said.split("asks for ")[1].split(" mm")[0])
    assert mm == pytest.approx(
        float(
            dict(long.measurements)["front_waist_length_from_neck_pit"] - _front_length(made(top(long, band_width=0.0)))
        ),
        abs=1.0,
    )


def _front_length(pattern: Pattern) -> float:
    """From the foot of the neck to the waist as the front has it: the scooped neck put back."""
    piece, back = pattern.piece(FRONT), pattern.piece(BACK)
    scooped = 2.0 * (_nape(pattern) - require_edge(back, Place.NECK).end.y)
    return (
        max(
            p.y for p in (require_edge(piece, Place.NECK).start, require_edge(piece, Place.NECK).end) if abs(p.x) < 1e-6
        )
        + scooped
    )


def _nape(pattern: Pattern) -> float:
    return next(each.mm for each in pattern.wearer.lengths if each.key == "back_waist_length")


def test_a_cardigan_ends_half_its_band_short_of_the_centre_and_is_as_wide_with_it() -> None:
    """The front edge is the centre less half the band, which is buttoned on the centre (geometry)."""
    pattern = made(top_for(women()[3], 0.5, cardigan=True))
    front = pattern.piece(FRONT)
    edge = require_edge(front, Place.CENTRE_FRONT)
    assert max(abs(at.x) for at in (edge.start, edge.end)) >= 15.0
    assert min(abs(at.x) for at in (edge.start, edge.end)) == pytest.approx(15.0)
    (bust,) = [each for each in finished(pattern) if each.name == "bust"]
    widths = sum(
        2.0 * across(pattern.piece(name), require_line(pattern.piece(name), Level.BUST).name) for name in (FRONT, BACK)
    )
    assert bust.finished == pytest.approx(widths + 30.0, abs=1e-3)


@pytest.mark.parametrize(("stretch", "cardigan"), [(0.2, False), (0.5, True), (1.0, False)])
def test_a_sample_of_women_is_drafted_and_passes_every_check(stretch: float, cardigan: bool) -> None:
    found = [end_of(who, stretch, cardigan=cardigan) for who in women()[::370]]
    assert [(each.who, each.end, each.said) for each in found if each.end is not End.PASSES] == []


def test_no_side_seam_is_steeper_than_a_knit_is_cut() -> None:
    pattern = made(top_for(women()[0], 0.4))
    side = require_edge(pattern.piece(BACK), Place.SIDE)
    directions = [curve.end - curve.start for curve in side.curves]
    assert all(abs(math.atan2(each.x, each.y)) < math.radians(30.0) for each in directions if each.y)
    assert not [r for r in run_checks(pattern) if r.verdict is Verdict.FAIL]
