"""The room that a thick cloth and what is beneath take: worked by hand, and where each layer lies."""

from __future__ import annotations

import math

import pytest

from drafting.body.complete import complete
from drafting.fit.cloth import Cloth
from drafting.fit.ease import FITS, PLACES, choose_ease
from drafting.fit.least_ease import least_ease
from drafting.fit.thickness import GIRTHS, room_at, room_sentence, taken_up
from tests.bodies import women

BODY = complete(women()[7])


@pytest.mark.parametrize(
    ("beneath", "thickness", "cm"),
    # 2 pi U + pi t, worked by hand: shirt and plain cloth, shirt and 1.5 mm, 1 and 2 mm, pullover and coat, quilted
    [(0.3, 0.5, 0.35), (0.3, 1.5, 0.66), (1.0, 2.0, 1.26), (3.3, 2.5, 2.86), (3.3, 5.0, 3.64)],
)
def test_a_cloth_takes_up_twice_pi_beneath_and_pi_times_its_own(beneath: float, thickness: float, cm: float) -> None:
    assert taken_up(beneath, thickness) / 10.0 == pytest.approx(cm, abs=0.006)


def test_the_ease_table_is_for_a_plain_cloth_and_nothing_changes_for_that() -> None:
    for cloth in (Cloth(), Cloth("woven", weight="medium"), Cloth("knit", stretch=0.4)):
        assert [room_at(place, cloth) for place in PLACES] == [0.0] * len(PLACES)
        assert room_sentence(cloth, "cm") == ""


def test_every_girth_gets_the_room_and_other_places_their_share() -> None:
    thick = Cloth(thickness=2.5, beneath=3.3)
    more = 2.0 * math.pi * 3.3 + math.pi * (2.5 - 0.5)
    plain, roomy = choose_ease(Cloth(), BODY), choose_ease(thick, BODY)
    for place in GIRTHS:
        assert roomy.mm(place) - plain.mm(place) == pytest.approx(more)
    assert roomy.mm("scye_depth") - plain.mm("scye_depth") == pytest.approx(more / 2)
    assert roomy.mm("across_back") - plain.mm("across_back") == pytest.approx(more / 4)
    assert roomy.mm("cap_ease") == plain.mm("cap_ease")
    assert "27.0 mm more for what lies under it" in roomy["bust"].source


def test_a_thin_cloth_takes_room_and_what_is_asked_for_stays() -> None:
    assert choose_ease(Cloth("lawn"), BODY).mm("bust") == pytest.approx(60.0 - 0.3 * math.pi)
    assert choose_ease(Cloth("wool coating"), BODY, given={"bust": 50.0}).mm("bust") == 50.0


def test_a_layer_takes_room_where_it_lies() -> None:
    nappy = Cloth(over=("nappy", "trousers"))
    assert room_at("hip", nappy) == pytest.approx(2.0 * math.pi * 10.9)
    assert room_at("waist", nappy) == pytest.approx(2.0 * math.pi * 0.9)
    assert room_at("knee", nappy) == pytest.approx(2.0 * math.pi * 0.9)
    assert [room_at(place, nappy) for place in ("wrist", "neck", "upper_arm", "bust")] == [0.0] * 4
    jumper = Cloth(over=("shirt", "pullover"))
    assert room_at("bust", jumper) == pytest.approx(2.0 * math.pi * 3.3)
    assert room_at("neck", jumper) == pytest.approx(2.0 * math.pi * 3.0)  # one collar lies in the other's neck
    assert room_at("thigh", jumper) == 0.0


@pytest.mark.parametrize("word", ["lawn", "denim", "wool coating", "jersey", "rib", "sweater knit"])
def test_the_least_ease_grows_with_the_room_so_that_the_tables_own_passes(word: str) -> None:
    cloth = Cloth(word, over=("shirt", "pullover"))
    for fit in FITS:
        chosen = choose_ease(cloth, BODY, fit=fit)
        for each in least_ease(cloth, BODY):
            assert each.fails_below <= each.warns_below + 1e-9
            assert each.warns_below <= chosen.mm(each.place) + 1e-9


def test_the_room_is_told_with_its_numbers_in_her_unit() -> None:
    coat = Cloth(thickness=2.5, over=("shirt", "pullover"))
    told = room_sentence(coat, "cm", ("bust", "neck", "across_back"))
    assert told == (
        "Over shirt and pullover, and in a cloth 2.5 mm thick, there is 27.0 mm more ease at the bust; 25.1 mm more "
        "ease at the neck than in a plain cloth of 0.5 mm: 2 pi times what lies beneath, and pi times the difference "
        "of the cloths."
    )
    assert "1 1/16 in more ease at the bust" in room_sentence(coat, "in", ("bust",))
    assert "0.9 mm" not in room_sentence(Cloth("lawn"), "cm"), "nobody marks it"
