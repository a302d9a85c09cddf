"""Which length is worth measuring for a garment: by how much it moves the draft."""

from __future__ import annotations

import pytest

from blocks.garment import draft, prepare
from drafting.body.complete import complete
from drafting.body.person import Person
from drafting.pattern import finished
from output.api import Garment, block, person, worth_measuring
from output.api import draft as drafted
from tests.bodies import women

BASICS = {"height": 1680.0, "bust": 920.0, "waist": 740.0, "hip": 990.0}
ODA = person(BASICS, name="Oda")
DRESS = Garment("Quay dress", ODA, (block("bodice"), block("sleeve"), block("skirt", length=600)))
SKIRT = Garment("Quay skirt", ODA, (block("skirt", length=600),))


def test_a_skirt_of_given_length_hangs_on_the_depth_of_the_hip_alone() -> None:
    found = worth_measuring(drafted(SKIRT))
    assert [each.key for each in found if each.moved_mm > 0] == ["waist_to_hip"]
    first = found[0]
    # its hip line lies at the depth of the hip: so much lower it lies when the hip is so much lower
    assert first.moved_mm == pytest.approx(first.sd_mm, abs=0.5)
    estimated = complete(ODA)["waist_to_hip"]
    assert (first.mm, first.sd_mm) == (estimated.mm, estimated.sd_mm)


def test_what_is_measured_is_no_longer_worth_measuring_and_never_moves_more_than_what_is_told() -> None:
    found = worth_measuring(drafted(DRESS))
    assert [each.moved_mm for each in found] == sorted((each.moved_mm for each in found), reverse=True)
    worst = found[0]
    taken = person({**BASICS, worst.key: worst.mm + worst.sd_mm}, name="Oda")
    again = Garment("Quay dress", taken, DRESS.blocks)
    assert worst.key not in {each.key for each in worth_measuring(drafted(again))}
    before, after = (draft(each, prepare(each)) for each in (DRESS, again))
    sizes = {each.name: each.finished for each in finished(before)}
    assert all(abs(each.finished - sizes[each.name]) <= worst.moved_mm + 1e-6 for each in finished(after))


@pytest.mark.parametrize("woman", women(girths_only=True)[::400], ids=lambda woman: woman.name)
def test_a_few_real_bodies_each_have_something_worth_measuring(woman: Person) -> None:
    dress = Garment("Quay dress", woman, DRESS.blocks)
    first = worth_measuring(drafted(dress))[:3]
    assert all(each.moved_mm > 1.0 and each.where for each in first)


def test_nothing_is_worth_measuring_where_all_was_measured_or_nobody_is() -> None:
    assert worth_measuring(drafted(Garment("Quay skirt", women()[0], SKIRT.blocks))) == ()


def test_what_is_only_marked_inside_a_piece_does_not_count() -> None:
    pim = person({"height": 1120, "chest": 580, "waist": 540, "hip": 600}, body="girl")
    gathered = Garment("Quay skirt", pim, (block("child's skirt", length=400, waist="gathered"),))
    found = {each.key: each.moved_mm for each in worth_measuring(drafted(gathered))}
    assert found.get("waist_to_hip", 0.0) == 0.0  # it moves the hip line, which is not sewn
