"""A garment with two openings where one is enough is warned of, with the line that closes one of them."""

from __future__ import annotations

from drafting.alterations import Opening, apply_step
from drafting.checks import CHECKS, Result, Verdict, named, run_checks
from drafting.pattern import Pattern
from tests.drafting.sizes import sized
from tests.remedies import typed


def _ways_in(pattern: Pattern) -> list[Result]:
    results = run_checks(pattern, checks=named(CHECKS, ["closings-meet"]))
    return [each for each in results if each.where == "one way in"]


def test_buttons_in_front_of_a_zip_behind_are_warned_of_until_the_zip_is_closed_as_the_remedy_says() -> None:
    zipped = sized(92, "skirt")
    buttoned = apply_step(zipped, Opening("centre front", "buttons"))
    (warned,) = _ways_in(buttoned)
    assert (warned.verdict, warned.measured) == (Verdict.WARN, 2)
    step = typed(warned.remedy)
    assert step == Opening("centre back", "closed")
    assert _ways_in(zipped) == _ways_in(apply_step(buttoned, step)) == []


def test_a_zip_at_the_side_is_left_out_and_no_step_is_said_to_close_it() -> None:
    (warned,) = _ways_in(apply_step(sized(92), Opening("side", length=300.0, below=180.0)))
    assert "Leave out the step that opens the side" in warned.remedy
    assert (warned.remedies, typed(warned.remedy)) == ((), None)


def test_a_bodice_that_opens_behind_and_a_skirt_at_its_side_do_not_meet() -> None:
    dress = apply_step(sized(92), Opening("centre back", "closed", only="skirt back"))
    (warned,) = _ways_in(apply_step(dress, Opening("side", length=180.0, below=180.0)))
    assert "the bodice at the centre back and the skirt at the side" in warned.remedy
    assert warned.remedy.endswith(
        'the waist seam stays closed. Open both at one. To open the skirt behind: fastening = "back" in the block.'
    )
