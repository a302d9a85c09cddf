"""Lengths, shares and angles as people write them. One inch is 25.4 mm exactly (agreement of 1959)."""

from __future__ import annotations

import pickle
import unicodedata

import pytest

from drafting.errors import TrueseamError
from drafting.reading.units import (
    NotRead,
    cm,
    inches,
    length_text,
    parse_angle,
    parse_length,
    parse_percent,
    percent,
    sentence_in,
    shown,
)


@pytest.mark.parametrize(
    ("written", "mm"),
    [
        ("95.5 cm", 955.0),
        ("95,5 cm", 955.0),
        ("955mm", 955.0),
        ("1.71 m", 1710.0),
        ("37 1/2 in", 952.5),
        ("37-1/2 in", 952.5),
        ("37½ in", 952.5),
        ("37 ½ inches", 952.5),
        ('37.5"', 952.5),
        ("37 1⁄2″", 952.5),
        ("3/8 in", 9.525),
        ("⅜ inch", 9.525),
        ("5 ft 6 1/2 in", 1689.1),
        ("5'6\"", 1676.4),
        ("5 ft", 1524.0),
        ("-1.5 cm", -15.0),
        ("−1.5 cm", -15.0),
        ("+2 cm", 20.0),
        ("  2 CM ", 20.0),
        (".5 cm", 5.0),
        (98.5, 985.0),
        (98, 980.0),
        ("98.5", 985.0),
    ],
)
def test_a_length_is_read_in_its_own_unit_or_the_files(written: object, mm: float) -> None:
    assert parse_length(written, unit="cm") == pytest.approx(mm, abs=1e-9)


@pytest.mark.parametrize(
    "written",
    ["", " ", "cm", "about 12 cm", "12 cn", "12 cm or so", "1e3 mm", "37 5/2 in", "1/0 in", "12..5 cm", "12 12 cm",
     "1,234.5 mm", "5 ft 13 in", "5 ft 2 cm", "40 %", "12 deg", "nan cm", "inf", "١٢ cm", "9" * 40 + " cm",
     True, False, None, [12], {"cm": 12}, float("nan"), float("inf"), -float("inf"), 10**400, b"12 cm"],
)  # fmt: skip
def test_what_is_no_length_is_refused_with_what_was_read_and_expected(written: object) -> None:
    with pytest.raises(NotRead) as caught:
        parse_length(written, unit="cm")
    assert caught.value.read
    assert "cm" in caught.value.expected
    assert len(caught.value.read) < 60


def test_a_bare_number_needs_a_unit_from_somewhere() -> None:
    for bare in (98.5, "98.5"):
        with pytest.raises(NotRead, match="Write the unit behind the number"):
            parse_length(bare, unit=None)
        with pytest.raises(NotRead, match=f'Write "{bare} in", or unit = "in" at the top'):
            parse_length(bare, unit=None, shows="in")
    assert parse_length("98.5 cm", unit=None) == 985.0


def test_a_misspelt_unit_is_told_which_one_comes_near() -> None:
    with pytest.raises(NotRead, match='Did you mean "inch" or "inches"'):
        parse_length("12 inchs", unit="cm")


def test_a_value_that_is_not_read_belongs_to_our_errors_and_survives_pickling() -> None:
    error = NotRead('"x"', "a length", "Write one.")
    assert isinstance(error, TrueseamError)
    assert isinstance(error, ValueError)
    again = pickle.loads(pickle.dumps(error))
    assert (again.read, again.expected, again.mend, str(again)) == ('"x"', "a length", "Write one.", str(error))


def test_a_share_needs_its_sign() -> None:
    assert parse_percent("40 %") == 0.4
    assert parse_percent("2,5%") == 0.025
    assert parse_percent("-3 percent") == -0.03
    for bad in (40, 0.4, "40", "40 cm", True, None, "", "%"):
        with pytest.raises(NotRead):
            parse_percent(bad)


def test_an_angle_is_in_degrees() -> None:
    assert parse_angle("12 deg") == parse_angle("12°") == parse_angle(12) == parse_angle("12") == 12.0
    for bad in ("12 rad", "12 %", True, None, float("nan")):
        with pytest.raises(NotRead):
            parse_angle(bad)


def test_lengths_are_shown_in_centimetres_and_in_eighths_of_an_inch() -> None:
    assert (cm(985.2), cm(-0.01), cm(12.34, places=2)) == ("98.5 cm", "0.0 cm", "1.23 cm")
    assert [inches(mm) for mm in (952.5, 25.4, 22.225, 3.175, 0.0, -6.35, -0.1, -38.1)] == [
        "37 1/2 in", "1 in", "7/8 in", "1/8 in", "0 in", "-1/4 in", "0 in", "-1 1/2 in",
    ]  # fmt: skip
    assert (length_text(25.4, "in"), length_text(25.4, "mm"), length_text(25.4, None)) == ("1 in", "25.4 mm", "2.5 cm")
    assert (percent(0.4), percent(0.025), percent(-0.0)) == ("40 %", "2.5 %", "0 %")


def test_inches_round_to_the_nearest_eighth_and_carry_into_the_whole() -> None:
    assert inches(25.4 * 0.95) == "1 in"
    assert inches(25.4 * 37.44) == "37 1/2 in"
    assert inches(25.4 * 37.43) == "37 3/8 in"


def test_whatever_was_read_is_shown_briefly_and_on_one_line() -> None:
    for value in ("x" * 10_000, "a\nb\x00c", 10**5000, [1] * 1000, {"a": 1}, None, 1.5, True, " "):
        text = shown(value)
        assert len(text) < 60
        assert text.isprintable()


@pytest.mark.parametrize(
    ("unit", "said"),
    [
        ("mm", 'It is to be 38.0 mm longer (1.5 to 12.3 mm will sew): shorten it by 104.5 mm, or by = "1.2 cm".'),
        ("cm", 'It is to be 3.8 cm longer (0.15 to 1.23 cm will sew): shorten it by 10.45 cm, or by = "1.2 cm".'),
        ("in", 'It is to be 1 1/2 in longer (1/16 to 1/2 in will sew): shorten it by 4 1/8 in, or by = "1/2 in".'),
    ],
)
def test_a_sentence_is_told_in_the_unit_a_person_works_in(unit: str, said: str) -> None:
    # 38 mm are 1.496 in and 104.5 mm 4.114 in; what is less than a sixteenth is told in sixty-fourths
    plain = 'It is to be 38.0 mm longer (1.5 to 12.3 mm will sew): shorten it by 104.5 mm, or by = "1.2 cm".'
    assert sentence_in(unit, plain) == said


@pytest.mark.parametrize(
    ("unit", "said"),
    [
        ("mm", 'waist = "-14 mm", hem = "25.4 mm", by = "1 mm".'),
        ("cm", 'waist = "-1.4 cm", hem = "2.54 cm", by = "0.1 cm".'),
        ("in", 'waist = "-9/16 in", hem = "1 in", by = "1/16 in".'),
    ],
)
def test_what_is_to_be_typed_is_never_rounded_to_less_than_enough(unit: str, said: str) -> None:
    # 14 mm are 0.551 in: between 8/16 and 9/16
    assert sentence_in(unit, 'waist = "-14 mm", hem = "25.4 mm", by = "1 mm".') == said


def test_the_most_that_can_be_had_is_never_rounded_to_more() -> None:
    # 19 mm are 11.97 sixteenths of an inch, 25.4 mm exactly 16
    assert sentence_in("in", 'by = "-19 mm", hem = "25.4 mm".', at_most=True) == 'by = "-11/16 in", hem = "1 in".'
    assert sentence_in("cm", 'by = "-19 mm".', at_most=True) == 'by = "-1.9 cm".'


@pytest.mark.parametrize("sign", "½¼¾⅓⅔⅛⅜⅝⅞")
def test_every_sign_of_a_fraction_is_read_as_what_it_is_in_unicode(sign: str) -> None:
    share = unicodedata.numeric(sign)
    assert parse_length(f"{sign} in", unit="cm") == pytest.approx(25.4 * share)
    assert parse_length(f"2{sign} in", unit="cm") == pytest.approx(25.4 * (2.0 + share))
