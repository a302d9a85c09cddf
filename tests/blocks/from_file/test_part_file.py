"""The parts of a garment file: each is read once, with what it belongs to; what cannot be is said in one sentence."""

from __future__ import annotations

from pathlib import Path

import pytest

from blocks.block_table import BLOCKS
from blocks.from_file.garment_file import read_garment
from blocks.garment import Garment
from blocks.rows.asked import UPPER
from drafting.errors import InputProblems
from drafting.parts.part_table import PARTS

PERSON = 'name = "Inga"\nbody = "woman"\nunit = "cm"\n[measurements]\nheight = 168\nbust = 96\nwaist = 78\nhip = 104\n'
TWICE = '[[part]]\nname = "waistband"\n' * 2
NECKED = " or ".join(f'"{b.name}"' for b in BLOCKS if "woman" in b.bodies and UPPER[0] in b.sites)
_NAMES = [f'"{part.name}"' for part in PARTS]
EVERY = f"{', '.join(_NAMES[:-1])} or {_NAMES[-1]}"
BAND = '[[part]]\nname = "waistband"\n'


def read(folder: Path, parts: str, *blocks: str, top: str = "") -> Garment:
    (folder / "inga.toml").write_text(PERSON, encoding="utf-8")
    named = "".join(f'[[block]]\nname = "{name}"\n' for name in blocks)
    text = f'title = "Quay skirt"\nwearer = "inga.toml"\n{top}{named}{parts}'
    (folder / "quay.toml").write_text(text, encoding="utf-8")
    return read_garment(folder / "quay.toml")


def refused(folder: Path, parts: str, *blocks: str, top: str = "") -> list[str]:
    with pytest.raises(InputProblems) as caught:
        read(folder, parts, *blocks, top=top)
    return [sentence.partition("quay.toml, ")[2] for sentence in caught.value.sentences()]


def test_a_part_is_read_with_what_is_said_of_it_and_what_is_usual_for_the_rest(tmp_path: Path) -> None:
    (band,) = read(tmp_path, f'{BAND}height = "35 mm"\n', "skirt").parts
    assert (band.part, dict(band.options)) == ("waistband", {"height": 35.0, "underlap": None})
    parts = read(tmp_path, '[[part]]\nname = "neck facing"\ndepth = 3\n', "bodice", top='unit = "in"\n').parts
    assert [dict(part.options) for part in parts] == [{"depth": pytest.approx(76.2)}]  # 25.4 mm to the inch
    assert read(tmp_path, "", "skirt").parts == ()


@pytest.mark.parametrize(
    ("blocks", "parts", "said"),
    [
        (
            ("skirt",),
            '[[part]]\nname = "neck facing"\n',
            '[[part]] 1 name: read "neck facing", expected a part of what is made: skirt. '
            f"Add the block {NECKED}, or leave this part out.",
        ),
        (
            ("trousers",),
            '[[part]]\nname = "leg elastic"\n',
            '[[part]] 1 name: read "leg elastic", expected a part of what is made: trousers. '
            'Leave this part out: it is sewn to "romper" or "dungarees".',
        ),
        (
            ("bodice", "skirt"),
            BAND,
            '[[part]] 1 name: read "waistband", expected no waistband where there is a bodice. '
            'The skirt is sewn to the bodice: leave this part out, or the block "bodice".',
        ),
        (("skirt",), TWICE, '[[part]] 2 name: read "waistband", expected each part once.'),
        (
            ("skirt",),
            '[[part]]\nname = "wastband"\n',
            f'[[part]] 1 name: read "wastband", expected {EVERY}. Did you mean "waistband"?',
        ),
        (
            ("skirt",),
            '[[part]]\nheight = "3 cm"\n',
            f"[[part]] 1 name: read nothing, expected {EVERY}. It cannot be left out.",
        ),
        (
            ("skirt",),
            f'{BAND}hight = "3 cm"\n',
            "[[part]] 1 hight: read a word that is not known here, expected one of name, height, underlap. "
            'Did you mean "height"?',
        ),
        (
            ("skirt",),
            f'{BAND}height = "9 cm"\n',
            '[[part]] 1 height: read "9 cm", expected a length from 1.5 cm to 8.0 cm.',
        ),
        (
            ("skirt",),
            f"{BAND}height = 3\n",
            '[[part]] 1 height: read 3, expected a length with its unit, such as "95.5 cm". '
            'Write "3 cm", or unit = "cm" at the top of the file.',
        ),
    ],
)
def test_what_cannot_be_is_said_in_one_sentence(blocks: tuple[str, ...], parts: str, said: str, tmp_path: Path) -> None:
    assert refused(tmp_path, parts, *blocks) == [said]


def test_two_parts_that_take_up_the_same_are_refused_and_a_facing_goes_under_a_collar(tmp_path: Path) -> None:
    faced = '[[part]]\nname = "neck facing"\n[[part]]\nname = "flat collar"\n'
    assert [part.name for part in read(tmp_path, faced, "bodice").parts] == ["neck facing", "flat collar"]
    (said,) = refused(tmp_path, '[[part]]\nname = "flat collar"\n', "skirt")
    assert said.startswith('[[part]] 1 name: read "flat collar", expected a part of what is made: skirt.')


def test_a_range_is_told_in_the_unit_of_whoever_wrote(tmp_path: Path) -> None:
    (said,) = refused(tmp_path, f"{BAND}height = 40\n", "skirt", top='unit = "in"\n')
    assert said == (
        '[[part]] 1 height: read 40, expected a length from 5/8 in to 3 1/8 in. If 40 mm was meant, write "40 mm".'
    )


def test_everything_wrong_in_all_the_parts_is_told_at_once(tmp_path: Path) -> None:
    parts = f'{BAND}height = "9 cm"\n[[part]]\nname = "neck facing"\ndepth = "1 cm"\n'
    places = [sentence.partition(":")[0] for sentence in refused(tmp_path, parts, "skirt")]
    assert places == ["[[part]] 1 height", "[[part]] 2 name", "[[part]] 2 depth"]


def test_a_file_changes_a_part_of_the_one_it_follows_and_leaves_one_out(tmp_path: Path) -> None:
    read(tmp_path, f'{BAND}height = "35 mm"\nunderlap = "2 cm"\n', "skirt")
    like = 'like = "quay.toml"\ntitle = "Lock skirt"\n'
    for more, options in (
        (f'{BAND}height = "5 cm"\n', [{"height": 50.0, "underlap": 20.0}]),
        ("", [{"height": 35.0, "underlap": 20.0}]),
        ('without = ["waistband"]\n', []),
    ):
        (tmp_path / "lock.toml").write_text(like + more, encoding="utf-8")
        parts = read_garment(tmp_path / "lock.toml").parts
        assert [dict(part.options) for part in parts] == options
