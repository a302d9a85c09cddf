"""The table of parts walked: at its defaults every part passes on whatever has a place for it, or is refused in a
sentence with a line that can be typed.
"""

from __future__ import annotations

import pytest

from drafting.parts.part_table import PARTS
from tests.sampling import some
from tests.sweep import End
from tests.sweep_parts import Case, cases, end_of, has_line_to_type


@pytest.mark.parametrize("case", some(cases(), every=23, first=4))
def test_a_part_passes_at_its_defaults_or_says_what_to_write(case: Case) -> None:
    ended = end_of(case)
    assert ended.end in (End.PASSES, End.REFUSED), ended.said


def test_every_part_is_tried() -> None:
    assert {case.part for case in cases()} == {part.name for part in PARTS}


def test_what_counts_as_a_line_to_type() -> None:
    assert has_line_to_type('refused: alter = "opening", at = "centre front"')
    assert has_line_to_type('cut it longer, share = "87 %"')
    assert not has_line_to_type("make the sleeve 5 mm wider there")
