"""A garment with two openings where one is enough is warned of, with the line that closes one of them."""

from __future__ import annotations

from drafting.alterations import Opening, apply_step
from drafting.checks import CHECKS, Result, Verdict, named, run_checks
from drafting.errors import Setting
from drafting.pattern import Pattern
from tests.drafting.sizes import sized


def _ways_in(pattern: Pattern) -> list[Result]:
    results = run_checks(pattern, checks=named(CHECKS, ["closings-meet"]))
    return [each for each in results if each.where == "one way in"]


def test_buttons_in_front_of_a_zip_behind_are_warned_of_until_the_zip_is_closed() -> None:
    buttoned = apply_step(sized(92, "skirt"), Opening("centre front", "buttons"))
    (warned,) = _ways_in(buttoned)
    assert warned.verdict is Verdict.WARN
    (remedy,) = warned.remedies
    assert remedy.settings == (Setting("at", "centre back"), Setting("fasten", "closed"))
    assert _ways_in(apply_step(buttoned, Opening("centre back", "closed"))) == []


def test_a_bodice_that_opens_behind_and_a_skirt_at_its_side_do_not_meet() -> None:
    dress = apply_step(sized(92), Opening("centre back", "closed", only="skirt back"))
    (warned,) = _ways_in(apply_step(dress, Opening("side", length=180.0, below=180.0)))
    assert "do not meet" in warned.remedy
    assert _ways_in(sized(92)) == []
