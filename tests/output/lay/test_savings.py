"""What would save cloth: each change is a whole lay, counted from the lay that is shown."""

from __future__ import annotations

from pathlib import Path

import pytest

from drafting.pattern import Cut, Role
from output.lay.find_lay import find_lay
from output.lay.how_much import length_to_buy
from output.lay.lay_pieces import pieces_to_lay
from output.lay.lay_values import Spread
from output.lay.lay_widths import known_lay
from output.lay.savings import best_savings, changes_the_bill, changes_to_try, least_changes_to_fit, try_changes
from output.lay.verify_lay import faults_in_lay
from tests.examples import example_pattern
from tests.sampling import some

GARMENTS = {path.stem: path for path in sorted((Path(__file__).parents[3] / "examples" / "garments").glob("*.toml"))}


def test_every_saving_is_a_whole_lay_and_counted_right() -> None:
    pattern, cloth = example_pattern("slipway-skirt"), Spread(900.0)
    words = " ".join(change.words for change in changes_to_try(pattern, cloth, "cm"))
    for said in ("cut singly", "fold the cloth across", "facings", "hems of", "skirt back"):
        assert said in words
    best = find_lay(pattern, cloth, tries=40)
    found = best_savings(best, try_changes(pattern, cloth, unit="cm"))
    assert found
    for each in found:
        assert faults_in_lay(each.lay) == ()
        assert each.saved == pytest.approx(best.length - each.lay.length)
    assert [each.saved for each in found] == sorted((each.saved for each in found), reverse=True)


def test_what_is_no_shorter_than_the_lay_shown_saves_nothing() -> None:
    pattern, cloth = example_pattern("slipway-skirt"), Spread(900.0)
    tried = try_changes(pattern, cloth, unit="cm")
    shortest = min((each.quick for each in tried), key=lambda lay: lay.length)
    assert best_savings(shortest, tried) == ()


def test_what_makes_it_fit_is_found_or_said_not_to_be() -> None:
    pattern, cloth = example_pattern("ferry-dress"), Spread(1120.0)
    before = find_lay(pattern, cloth, tries=40)
    fits = least_changes_to_fit(pattern, cloth, before.length - 300.0, unit="cm")
    assert fits is not None
    assert fits.lay.length <= before.length - 300.0
    assert faults_in_lay(fits.lay) == ()
    assert least_changes_to_fit(pattern, cloth, 500.0, unit="cm") is None


def test_a_seam_in_place_of_a_fold_adds_its_allowance_on_both_sides() -> None:
    pattern = example_pattern("towpath-skirt")
    change = next(each for each in changes_to_try(pattern, Spread(1400.0), "cm") if "seam in place" in each.words)
    name = next(piece.name for piece in pattern.pieces if piece.cut.fold)
    seamed = change.alter(pattern).piece(name)
    assert seamed.cut == Cut(2, mirror=True)
    assert not any(edge.role is Role.FOLD for edge in seamed.edges)
    wide = {
        each.name: each.across for each in pieces_to_lay(change.alter(pattern), Spread(1400.0)) if each.name == name
    }
    was = next(each.across for each in pieces_to_lay(pattern, Spread(1400.0)) if each.name == name)
    assert wide[name] == pytest.approx(was + 15.0, abs=0.1)


@pytest.mark.parametrize("name", some([*GARMENTS][::2], every=6))
def test_only_what_changes_the_bill_is_told(name: str) -> None:
    pattern, cloth = example_pattern(name), Spread(1400.0)
    best = known_lay(pattern, cloth, "shell", "cm")
    tried = best_savings(best, try_changes(pattern, cloth, unit="cm"))
    told = changes_the_bill(tried, best, 0.03, "cm")
    for each in tried:
        less = length_to_buy(each.lay.length, 0.03, "cm") < length_to_buy(best.length, 0.03, "cm")
        assert (each in told) is less
