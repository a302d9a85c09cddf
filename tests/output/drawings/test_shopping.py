"""What has to be bought, as far as the pattern itself shows it."""

from __future__ import annotations

from pathlib import Path

import pytest

from blocks.garment import finish
from blocks.garment_file import read_garment
from drafting.pattern import Pattern
from output.drawings.shopping import things_to_buy

GARMENTS = Path(__file__).parents[3] / "examples" / "garments"


def made(folder: Path, name: str, more: str = "") -> Pattern:
    path = folder / "garment.toml"
    path.write_text(f'title = "Trial"\nlike = "{(GARMENTS / name).as_posix()}"\n{more}', encoding="utf-8")
    return finish(read_garment(path, papers=("A4",)))


def test_an_opening_behind_asks_for_a_fastening_as_long_as_it_is_open(tmp_path: Path) -> None:
    pattern = made(tmp_path, "ferry-dress.toml")
    edges = [edge for piece in pattern.pieces for edge in piece.edges if edge.role == "opening"]
    long = sum(edge.length for edge in edges)  # of the bodice back and of the skirt back, one below the other
    assert things_to_buy([pattern], "cm") == (
        f"a zip (or another fastening) for the centre back: it is open for {long / 10:.1f} cm",
    )


def test_at_a_side_front_and_back_share_one_zip(tmp_path: Path) -> None:
    closed = '[[step]]\nalter = "opening"\nat = "centre back"\nfasten = "closed"\n'
    pattern = made(
        tmp_path, "towpath-skirt.toml", f'{closed}[[step]]\nalter = "opening"\nat = "side"\nlength = "20 cm"\n'
    )
    (interfacing, zip_line) = things_to_buy([pattern], "cm")
    assert zip_line == "a zip (or another fastening) for the side seam: it is open for 20.0 cm"
    assert interfacing == "interfacing for waistband"


@pytest.mark.parametrize("button", [15, 22])
def test_buttons_are_counted_and_take_the_place_of_a_zip(tmp_path: Path, button: int) -> None:
    closed = '[[step]]\nalter = "opening"\nat = "centre back"\nfasten = "closed"\n'
    asked = f'[[step]]\nalter = "opening"\nat = "centre front"\nfasten = "buttons"\nbutton = "{button} mm"\n'
    pattern = made(tmp_path, "ferry-dress.toml", closed + asked)
    count = sum(point.name.startswith("button ") for piece in pattern.pieces for point in piece.points)
    assert count > 5
    assert f"{count} buttons of {button / 10:.1f} cm" in things_to_buy([pattern], "cm")
    assert not any("zip" in line for line in things_to_buy([pattern], "cm"))


def test_of_several_sizes_the_shortest_and_the_longest_are_told(tmp_path: Path) -> None:
    short = made(tmp_path, "ferry-dress.toml")
    other = made(tmp_path, "signal-dress.toml")
    (line,) = things_to_buy([short, other], "cm")
    lengths = sorted(things_to_buy([each], "cm")[0].rsplit(" ", 2)[1] for each in (short, other))
    assert line.endswith(f"open for {lengths[0]} to {lengths[1]} cm")
