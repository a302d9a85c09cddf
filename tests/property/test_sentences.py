"""Law: whatever is asked for, nobody is told it in words of the program; `python -m tests.sentences` asks more."""

from __future__ import annotations

import pytest

from tests.sentences import found, in_words_of_the_program


def test_no_sentence_of_random_garments_is_told_in_words_of_the_program() -> None:
    assert list(found(16, seed=3)) == []


@pytest.mark.parametrize(
    "said",
    [
        "it ends at Point(x=73.16, y=-83.3), the next begins there",
        "a gap of -5.34e-14 mm",
        "a point is meant between ('waist at side', 'side seam'), which are no edges",
        "Add the block , or leave this part out.",
        "skirt front, tier 2: two edges have one name",
        'There is no piece "".',
        "it goes to None",
    ],
)
def test_such_a_sentence_is_found(said: str) -> None:
    """Each stood in a refusal once."""
    assert in_words_of_the_program(said)


@pytest.mark.parametrize(
    "said", ['alter = "hem", piece = "skirt front", depth = "1.3 cm"', "[[step]] 2, shaped band", "3-4 cm"]
)
def test_a_plain_one_is_not(said: str) -> None:
    assert not in_words_of_the_program(said)
