"""Bands of knit and elastic against what they are stretched to, worked out on straight lines."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.checks import Verdict
from drafting.pattern import (
    BodyLength,
    EdgeRef,
    Identity,
    Origin,
    Pattern,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    Wearer,
)
from drafting.pattern.derived import Derived, EdgeAs
from drafting.pattern.places import BodyPart
from tests.drafting.checks.worked import drawn, panel, pattern, the, told, with_edge


def banded(edge: float, *, stretch: float = 0.4, band: float | None = None) -> Pattern:
    """A band 200 long on an edge so long; its own knit stretches by `band`, where that is said."""
    strip = drawn(
        "band",
        ("seam", (0.0, 0.0), Place.BAND_EDGE, Role.SEAM),
        ("end", (200.0, 0.0), Place.BAND_END, Role.SEAM),
        ("fold", (200.0, 40.0), Place.BAND_EDGE, Role.FOLD),
        ("other end", (0.0, 40.0), Place.BAND_END, Role.SEAM),
        identity=Identity(PieceKind.BAND, BodyPart.BODICE),
    )
    seam = Seam("hem", (EdgeRef("front", "hem"),), (EdgeRef("band", "seam"),), SeamEase(edge - 200.0, 0.0, 100.0))
    whole = replace(pattern(panel("front", edge), strip, seams=(seam,)), stretch=stretch)
    part = Derived("hem band", (), (("share", 0.8),) + ((("stretch", band),) if band else ()), ("band",))
    return replace(whole, derived=(part,))


@pytest.mark.parametrize(
    ("edge", "stretch", "band", "verdict", "amounts"),
    [
        (240.0, 0.4, None, Verdict.PASS, []),  # a fifth: half of what the knit gives
        (242.0, 0.4, None, Verdict.FAIL, []),
        (242.0, 0.2, 0.5, Verdict.PASS, []),
        (242.0, 0.4, 0.1, Verdict.FAIL, [0.84, 0.42]),  # the further of the two; 1 / 1.2 of it, and twice 21 percent
        (260.0, 0.2, 0.5, Verdict.FAIL, [0.8, 0.6]),
    ],
)
def test_a_band_is_stretched_to_its_edge_by_half_of_what_its_knit_gives(
    edge: float, stretch: float, band: float | None, verdict: Verdict, amounts: list[float]
) -> None:
    result = the("stretch-enough", banded(edge, stretch=stretch, band=band), "hem: stretched by")
    most = 50.0 * max(stretch, band or 0.0)
    assert (result.measured, result.allowed) == (pytest.approx(edge / 2.0 - 100.0), (None, pytest.approx(most)))
    assert (result.verdict, [each.settings[0].value for each in result.remedies]) == (verdict, amounts)
    assert [(each.alteration, each.settings[0].option) for each in result.remedies] == (
        [("hem band", "share"), ("hem band", "stretch")] if amounts else []
    )


def test_a_band_of_no_knit_of_its_own_gives_as_the_garment_does() -> None:
    whole = banded(242.0)
    unsaid = replace(whole.derived[0], options=(("share", 0.8), ("stretch", None)))
    result = the("stretch-enough", replace(whole, derived=(unsaid,)), "hem: stretched by")
    assert (result.allowed, result.verdict) == ((None, pytest.approx(20.0)), Verdict.FAIL)
    # what is known of the neck band of a block counts for a neck band alone
    block = Origin("knit top", (("opening", "knit band"), ("band_width", 20.0), ("band_stretch", 0.6)))
    for part, origin, most in (("neck band", (), 20.0), ("neck band", (block,), 30.0), ("hem band", (block,), 20.0)):
        of_block = replace(whole, derived=(replace(unsaid, part=part),), origin=origin)
        assert the("stretch-enough", of_block, "hem: stretched by").allowed == (None, pytest.approx(most))


def test_a_band_of_a_cloth_that_nobody_described_is_not_judged() -> None:
    assert not [each for each in told("stretch-enough", banded(260.0, stretch=0.0)) if each.measured is not None]


def cased(
    part: str, place: Place, elastic: float, *, wide: float = 200.0, stretch: float = 0.0, **body: float
) -> Pattern:
    """An elastic so long in the lower edge of a front and a back, or of two sleeves, each so wide."""
    piece = with_edge(panel("front", wide), "hem", place=place)
    piece = replace(piece, cut=replace(piece.cut, count=2, mirror=True))
    options = (("width", 12.0), ("heading", 0.0), ("length", elastic))
    derived = Derived(part, (), options, edges=(EdgeAs("front", "hem", Role.HEM, 20.0),))
    lengths = tuple(BodyLength(key, mm, "measured") for key, mm in body.items())
    whole = Pattern("Cased", Wearer("Inga", lengths), (piece,), stretch=stretch)
    return replace(whole, derived=(derived,))


@pytest.mark.parametrize(
    ("elastic", "verdict"), [(700.0, Verdict.PASS), (595.0, Verdict.PASS), (594.9, Verdict.FAIL), (400.0, Verdict.FAIL)]
)
def test_elastic_is_no_shorter_than_85_percent_of_the_body(elastic: float, verdict: Verdict) -> None:
    whole = cased("waist elastic", Place.WAIST, elastic, wide=600.0, waist_girth=700.0)
    result = the("stretch-enough", whole, "round the body")
    assert (result.measured, result.wanted, result.verdict) == (elastic, 700.0, verdict)
    if verdict is Verdict.FAIL:
        assert "cut it at least 595 mm long" in result.remedy


@pytest.mark.parametrize(
    ("elastic", "wide", "measured", "wanted", "verdict", "said"),
    [
        (600.0, 600.0, 1080.0, 950.0, Verdict.PASS, ""),  # pulled to 1.8 of its length
        (525.0, 600.0, 945.0, 950.0, Verdict.FAIL, "cut the elastic longer."),
        (600.0, 485.0, 970.0, 970.0, Verdict.PASS, ""),  # the cloth: 20 mm more than what passes
        (600.0, 484.0, 968.0, 970.0, Verdict.FAIL, "make the edge at least 970.0 mm round"),
    ],
)
def test_what_passes_goes_through_the_elastic_pulled_out_and_through_its_cloth(
    elastic: float, wide: float, measured: float, wanted: float, verdict: Verdict, said: str
) -> None:
    whole = cased("waist elastic", Place.WAIST, elastic, wide=wide, hip_girth=950.0)
    result = the("stretch-enough", whole, "over the hips")
    assert (result.measured, result.wanted, result.verdict) == (pytest.approx(measured), pytest.approx(wanted), verdict)
    assert said in result.remedy
    if said:
        by = "the elastic, pulled as far as it lasts," if "elastic" in said else "the cloth of the casing"
        assert f"{by} opens to {measured:.1f} mm" in result.remedy
    assert result.remedies == ()


def test_a_sleeve_that_is_too_narrow_for_its_elastic_is_spread() -> None:
    """A wrist of 160: a hand of 209.6, 229.6 of cloth; of a knit of 40 percent a fifth less is spread."""
    for stretch, wide, more in ((0.0, 200.0, 30.0), (0.4, 180.0, 12.0)):
        whole = cased("wrist elastic", Place.WRIST, 165.0, wide=wide, stretch=stretch, wrist_girth=160.0)
        result = the("stretch-enough", whole, "over the hand")
        assert result.measured == pytest.approx(wide * (1.0 + 0.5 * stretch))
        ((setting,),) = (each.settings for each in result.remedies)
        assert (setting.option, setting.value) == ("hem", more)
    short = the(
        "stretch-enough", cased("wrist elastic", Place.WRIST, 110.0, wide=400.0, wrist_girth=160.0), "over the hand"
    )
    assert (short.verdict, short.remedies) == (Verdict.FAIL, ())


def test_elastic_longer_than_its_casing_draws_nothing_in() -> None:
    for elastic, told_of in ((200.0, False), (201.0, True)):
        whole = cased("wrist elastic", Place.WRIST, elastic, wrist_girth=100.0)
        found = [each for each in told("stretch-enough", whole) if "in its casing" in each.where]
        assert bool(found) is told_of
        if found:
            assert (found[0].verdict, found[0].measured, found[0].wanted) == (Verdict.FAIL, 201.0, 200.0)


def test_a_garment_with_neither_is_told_to_have_none() -> None:
    (none,) = told("stretch-enough", pattern(panel("front")))
    assert (none.verdict, none.measured) == (Verdict.PASS, None)
