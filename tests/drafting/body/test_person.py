"""People as they write themselves down."""

from __future__ import annotations

import datetime
import pickle
from pathlib import Path

import pytest

from drafting.body.person import Person, person, read_person
from drafting.errors import InputProblems, UnknownName

ODA = """
name = "Oda"
body = "woman"
unit = "cm"
measured = 2026-09-12
[measurements]
hip_girth = 107
stature = 171
bust_girth = 98.5
upper_chest_girth = "36 1/2 in"
waist_girth = "79 cm"
"""
BASICS_MM = {"stature": 1710.0, "bust_girth": 985.0, "waist_girth": 790.0, "hip_girth": 1070.0}


def test_a_person_file_may_mix_centimetres_inches_and_fractions(tmp_path: Path) -> None:
    path = tmp_path / "oda.toml"
    path.write_text(ODA, encoding="utf-8")
    oda = read_person(path)
    assert (oda.name, oda.body, oda.unit, oda.measured) == ("Oda", "woman", "cm", datetime.date(2026, 9, 12))
    assert oda.measurements == (
        ("stature", 1710.0),
        ("bust_girth", 985.0),
        ("waist_girth", 790.0),
        ("hip_girth", 1070.0),
        ("upper_chest_girth", pytest.approx(36.5 * 25.4)),
    )


def test_everything_wrong_in_a_file_is_said_at_once() -> None:
    with pytest.raises(InputProblems) as caught:
        read_person(
            {
                "name": "",
                "body": "womn",
                "unit": "cm",
                "born": datetime.date(2026, 9, 13),
                "measured": datetime.date(2026, 9, 12),
                "measurements": {
                    "bust_girth": 985,
                    "waist_girth": float("nan"),
                    "hip_girth": -107,
                    "arm_lenght": 57,
                    "arm_length": "long",
                    "wrist_girth": 1e9,
                },
                "notes": "none",
            },
            place="oda.toml",
        )
    places = [problem.where for problem in caught.value.problems]
    assert sorted(places) == sorted(
        [
            "oda.toml, name",
            "oda.toml, body",
            "oda.toml, born",
            "oda.toml, notes",
            *(
                f"oda.toml, [measurements] {key}"
                for key in (
                    "bust_girth",
                    "waist_girth",
                    "hip_girth",
                    "arm_lenght",
                    "arm_length",
                    "wrist_girth",
                    "height",
                )
            ),
        ]
    )


def test_each_missing_basic_says_how_to_take_it() -> None:
    with pytest.raises(InputProblems) as caught:
        read_person({"name": "Oda", "body": "woman"}, place="oda.toml")
    sentences = caught.value.sentences()
    assert len(sentences) == 4
    assert sentences[0] == (
        "oda.toml, [measurements] height: read nothing, expected a length: it cannot be estimated. "
        "From the floor to the top of the head."
    )


def test_a_childs_lengths_are_held_to_a_childs_ranges() -> None:
    table: dict[str, object] = {
        "name": "Tove",
        "unit": "cm",
        "measurements": {"stature": 108, "bust_girth": 65, "waist_girth": 63, "hip_girth": 66},
    }
    assert read_person({**table, "body": "girl"}).body == "girl"
    with pytest.raises(InputProblems, match=r"120\.0 cm to 215\.0 cm"):
        read_person({**table, "body": "woman"})


def test_a_person_made_in_code_is_put_in_order_and_refuses_nonsense() -> None:
    backwards = dict(reversed(BASICS_MM.items()))
    assert person(backwards, name="Oda") == person(BASICS_MM, name="Oda")
    named = {"height": BASICS_MM["stature"], "full bust": BASICS_MM["bust_girth"], "waist": BASICS_MM["waist_girth"]}
    assert person({**named, "hip_girth": BASICS_MM["hip_girth"]}, name="Oda") == person(BASICS_MM, name="Oda")
    with pytest.raises(InputProblems, match=r"Oda, bust: read 985\.0, expected each measurement once"):
        person({**BASICS_MM, "bust": 985.0}, name="Oda")
    with pytest.raises(InputProblems, match=r"Oda, chest: .* Round the fullest part is bust"):
        person({**BASICS_MM, "chest": 985.0}, name="Oda")
    with pytest.raises(UnknownName, match='Did you mean "wrist"'):
        person({**BASICS_MM, "wirst": 160.0})
    with pytest.raises(UnknownName, match='Did you mean "woman"'):
        Person("Oda", "womn", tuple(BASICS_MM.items()))  # type: ignore[arg-type]
    for nonsense in (0.0, -1.0, float("nan"), float("inf")):
        with pytest.raises(InputProblems, match="arm_length"):
            person({**BASICS_MM, "arm_length": nonsense}, name="Oda")
    with pytest.raises(InputProblems, match="Oda, hip:"):
        person({key: mm for key, mm in BASICS_MM.items() if key != "hip_girth"}, name="Oda")


def test_a_person_survives_pickling() -> None:
    oda = person(BASICS_MM, name="Oda", measured=datetime.date(2026, 9, 12))
    assert pickle.loads(pickle.dumps(oda)) == oda
