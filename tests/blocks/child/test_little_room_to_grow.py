"""What a baby's skirt and sleeves hold is left in them, no more, and promises no day it does not reach."""

from __future__ import annotations

from pathlib import Path

from blocks.from_file.garment_file import read_garment
from drafting.alterations.whole_garment.room_to_grow import AT_HEM, TUCK, RoomToGrow

_BABY = """name = "Mira"
body = "girl"
unit = "cm"
measured = 2026-11-01
born = 2026-04-10
[measurements]
height = 62
chest = 42.6
waist = 42.2
hip = 42.8
"""
_DRESS = """title = "Frock"
wearer = "mira.toml"
date = 2026-11-20
[[block]]
name = "child's bodice"
[[block]]
name = "child's sleeve"
[[block]]
name = "child's skirt"
length = "17 cm"
[grow]
until = 2027-11-20
"""


def test_no_more_is_left_for_a_baby_than_a_short_skirt_and_sleeve_hold(tmp_path: Path) -> None:
    (tmp_path / "mira.toml").write_text(_BABY)
    (tmp_path / "frock.toml").write_text(_DRESS)
    garment = read_garment(tmp_path / "frock.toml")
    steps = [each for each in garment.steps if isinstance(each, RoomToGrow)]
    (hem,) = (each for each in steps if each.at == AT_HEM and each.piece.startswith("skirt"))
    (tuck,) = (each for each in steps if each.at == TUCK)
    assert (hem.by, hem.until) == (55.0, "")  # a third of 17 cm, in half centimetres
    assert 0.0 < tuck.by <= 0.1 * 200.0
    assert tuck.until == ""
