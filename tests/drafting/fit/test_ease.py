"""Ease: every figure within what its source gives, every choice said, every place to be asked for otherwise."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from pathlib import Path

import pytest

from drafting.body.complete import complete
from drafting.body.person import person
from drafting.errors import Problem, UnknownName
from drafting.fit.cloth import Cloth
from drafting.fit.ease import EASE_LIMITS, FITS, PLACES, EaseRow, choose_ease, ease_table, read_ease
from drafting.fit.least_ease import least_ease
from drafting.reading.read_table import Reader
from tests.bodies import women

BODY = complete(women()[7])
CLOTHS = (
    Cloth(),
    Cloth("knit", stretch=0.2),
    Cloth("knit", stretch=0.4),
    Cloth("knit", stretch=0.7),
    Cloth("knit", stretch=1.2),
)
INCH = 25.4

# What the sources give, read from them and not from our table: place, low and high in inches.
ROBINSON = {"bust": (1.5, 2.0), "waist": (0.75, 1.0), "hip": (2.0, 2.75)}  # Central Washington University, ch. 16
ENCYCLOPEDIA = {"bust": (2.0, 2.5), "hip": (2.0, 3.0)}  # Wikipedia, "Ease (sewing)", both of its lists


@pytest.mark.parametrize("row", ease_table(), ids=lambda row: f"{row.cloth}-{row.fit}-{row.place}")
def test_every_figure_lies_within_what_its_source_gives(row: EaseRow) -> None:
    assert row.place in PLACES
    assert row.fit in FITS
    assert re.fullmatch("[ABCDE]", row.reliability)
    assert row.note
    assert (row.reliability == "E") == (row.source == "common practice")
    if row.low_mm is not None:
        assert row.low_mm <= row.mm <= (math.inf if row.high_mm is None else row.high_mm)
    elif not row.share:
        assert row.reliability == "E", "a figure with a source says what the source gives"


@pytest.mark.parametrize(("named", "figures"), [("Robinson", ROBINSON), ("Wikipedia", ENCYCLOPEDIA)])
def test_ranges_are_those_of_the_source_named(named: str, figures: dict[str, tuple[float, float]]) -> None:
    rows = [row for row in ease_table() if row.source.startswith(named)]
    assert rows
    for row in rows:
        low, high = figures[row.place]
        assert row.low_mm is not None
        assert row.high_mm is not None
        assert low * INCH - 0.01 <= row.low_mm <= row.high_mm <= high * INCH + 0.01


def test_no_row_stands_twice_and_each_source_is_listed() -> None:
    keys = [(row.cloth, row.fit, row.place) for row in ease_table()]
    assert len(keys) == len(set(keys))
    listed = (Path(__file__).parents[3] / "drafting/fit/tables/SOURCES.md").read_text(encoding="utf-8")
    for source in {row.source for row in ease_table()} - {"common practice"}:
        assert f"| {re.split('[,(]| extension| magazine', source)[0].strip()} |" in listed, source


@pytest.mark.parametrize("cloth", CLOTHS, ids=lambda cloth: f"{cloth.kind} {cloth.stretch:.0%}")
def test_a_looser_fit_is_nowhere_closer_but_at_the_cap(cloth: Cloth) -> None:
    close, regular, loose = (choose_ease(cloth, BODY, fit=fit) for fit in FITS)
    for place in PLACES:
        if place != "cap_ease":
            assert close.mm(place) <= regular.mm(place) <= loose.mm(place)


def test_a_cap_in_a_woven_has_more_ease_the_closer_the_fit_and_never_less_than_none() -> None:
    caps = [choose_ease(Cloth(), BODY, fit=fit).mm("cap_ease") for fit in FITS]
    assert caps == sorted(caps, reverse=True)
    assert all(choose_ease(cloth, BODY, fit=fit).mm("cap_ease") >= 0 for cloth in CLOTHS for fit in FITS)


def test_a_stretchier_knit_is_cut_closer() -> None:
    busts = [choose_ease(cloth, BODY, fit="close").mm("bust") for cloth in CLOTHS]
    assert busts == sorted(busts, reverse=True)
    assert busts[2] == pytest.approx(-0.025 * BODY.mm("bust_girth"))  # 2 to 3 % at about 50 % stretch, from memory


def test_what_was_asked_for_goes_before_the_table() -> None:
    ease = choose_ease(Cloth(), BODY, given={"bust": 100.0, "waist": 0.0})
    assert (ease.mm("bust"), ease.mm("waist")) == (100.0, 0.0)
    assert ease["bust"].source == "as asked for"
    assert ease.mm("hip") == choose_ease(Cloth(), BODY).mm("hip")
    assert ease.by_place() == {place: ease.mm(place) for place in PLACES}


@pytest.mark.parametrize(
    ("place", "asked", "said"),
    [
        (
            "waist",
            18.0,
            "round the waist that was asked for, 18.0 mm, is less than is usual for a regular fit in a woven",
        ),
        ("waist", 18.1, ""),  # within a millimetre of 3/4 in
        ("waist", 26.3, ""),
        ("waist", 26.5, "round the waist that was asked for, 26.5 mm, is more than is usual"),
        ("cap_ease", 32.0, "in the cap of the sleeve that was asked for, 32.0 mm, is more"),
        ("elbow", 200.0, ""),  # nobody says what is usual there
    ],
)
def test_an_ease_outside_what_the_source_gives_is_told_with_what_it_gives(place: str, asked: float, said: str) -> None:
    note = choose_ease(Cloth(), BODY, given={place: asked})[place].note
    assert (said in note) if said else not note
    if place == "waist" and said:
        assert note.endswith(
            "19.1 to 25.4 mm (Robinson, costume-construction text ch. 16, Central Washington University)."
        )


def test_what_is_usual_goes_by_the_cloth_and_the_fit() -> None:
    loose = choose_ease(Cloth(), BODY, fit="loose", given={"hip": 60.0, "across_back": 40.0})
    assert "less than is usual for a loose fit in a woven: 76.2 mm (Wikipedia" in loose["hip"].note
    assert "across the back that was asked for" in loose["across_back"].note
    assert not choose_ease(Cloth("knit", stretch=0.4), BODY, given={"hip": 60.0})["hip"].note
    assert {ease.note for ease in choose_ease(Cloth(), BODY).values} == {""}


def test_each_choice_says_where_its_figure_comes_from() -> None:
    assert choose_ease(Cloth(), BODY)["hip"].source == (
        "woven, regular fit: 2 to 2 3/4 in "
        "(Robinson, costume-construction text ch. 16, Central Washington University; 50.8 to 69.8 mm there, a textbook "
        "or trade body)"
    )


def test_a_name_that_is_not_there_is_refused() -> None:
    with pytest.raises(UnknownName, match='Did you mean "bust"'):
        choose_ease(Cloth(), BODY, given={"busst": 1.0})
    with pytest.raises(UnknownName):
        choose_ease(Cloth(), BODY, fit="tight")  # type: ignore[arg-type]
    with pytest.raises(UnknownName):
        choose_ease(Cloth(), BODY).mm("cuff")


def test_a_share_of_a_girth_nobody_knows_is_left_out() -> None:
    child = complete(
        person({"stature": 1080.0, "bust_girth": 650.0, "waist_girth": 630.0, "hip_girth": 660.0}, body="girl")
    )
    unknown = ("upper_chest_girth", "elbow_girth")
    child = replace(child, values=tuple(None if v is None or v.key in unknown else v for v in child.values))
    chosen = choose_ease(Cloth("sweater knit"), child, fit="loose")
    assert "upper_chest" not in [ease.place for ease in chosen.values]
    assert chosen.mm("bust") > 0.2 * 650.0
    assert choose_ease(Cloth(), child).mm("elbow") == 45.0
    assert "elbow" not in [least.place for least in least_ease(Cloth("knit", stretch=0.6), child)]


def test_ease_is_read_in_its_units_and_slips_are_refused() -> None:
    problems: list[Problem] = []
    reader = Reader({"bust": "6 cm", "waist": '1"', "cap_ease": "-1 cm", "hip": "60 m"}, place="x", problems=problems)
    assert read_ease(reader) == {"bust": 60.0, "waist": 25.4}
    assert [problem.where for problem in problems] == ["x, hip", "x, cap_ease"]
    reader.finish()
    assert len(problems) == 2


def test_a_block_may_read_its_own_places_only() -> None:
    problems: list[Problem] = []
    reader = Reader({"bust": "6 cm", "wrist": "3 cm"}, place="x", problems=problems)
    assert read_ease(reader, places=("bust", "waist")) == {"bust": 60.0}
    reader.finish()
    assert [problem.where for problem in problems] == ["x, wrist"]


@pytest.mark.parametrize("cloth", CLOTHS, ids=lambda cloth: f"{cloth.kind} {cloth.stretch:.0%}")
def test_the_tables_own_choices_are_allowed_and_wearable_on_every_body(cloth: Cloth) -> None:
    for woman in women()[::23]:
        body = complete(woman)
        least = least_ease(cloth, body)
        assert [each.place for each in least] == list(PLACES)
        for fit in FITS:
            chosen = choose_ease(cloth, body, fit=fit)
            for place, (low, high) in EASE_LIMITS.items():
                assert low <= chosen.mm(place) <= high
            for each in least:
                assert each.fails_below <= each.warns_below <= chosen.mm(each.place)


def test_a_knit_stretched_by_a_third_of_its_stretch_just_goes_round_the_body() -> None:
    cloth = Cloth("knit", stretch=0.6)
    (bust,) = [each for each in least_ease(cloth, BODY) if each.place == "bust"]
    assert (BODY.mm("bust_girth") + bust.fails_below) * 1.2 == pytest.approx(BODY.mm("bust_girth"))
    assert bust.warns_below == bust.fails_below / 2


def test_a_knit_that_does_not_stretch_must_be_as_large_as_the_body() -> None:
    (bust,) = [each for each in least_ease(Cloth("knit", stretch=0.0), BODY) if each.place == "bust"]
    assert bust.fails_below == bust.warns_below == 0.0


def test_a_woven_warns_where_the_source_begins() -> None:
    least = {each.place: each for each in least_ease(Cloth(), BODY)}
    for place, inches in (("bust", 1.5), ("waist", 0.5), ("hip", 2.0)):  # Robinson; waist: her skirts, 1/2 to 3/4 in
        assert least[place].warns_below == pytest.approx(inches * INCH)
        assert "Robinson" in least[place].why
