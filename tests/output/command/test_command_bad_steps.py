"""What a person can get wrong in the steps of a garment file: met with plain sentences, all of them at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from blocks.from_file.garment_file import read_garment
from tests.output.running import ran, written

Capsys = pytest.CaptureFixture[str]

HEAD = 'title = "Quay dress"\nwearer = "inga.toml"\n'
BLOCKS = {name: f'[[block]]\nname = "{name}"\n' for name in ("bodice", "sleeve", "skirt")}
DRESS = HEAD + "".join(BLOCKS.values())
BODICE = HEAD + BLOCKS["bodice"]
NEST = 'title = "Quay skirt"\n[sizes]\nnest = [92, 96]\n' + BLOCKS["skirt"]


def step(alter: str, **options: str) -> str:
    return f'[[step]]\nalter = "{alter}"\n' + "".join(f"{key} = {value}\n" for key, value in options.items())


def said(capsys: Capsys, folder: Path, garment: str) -> list[str]:
    """The sentences with which a check is refused, without the name of the file they begin with."""
    path = written(folder, garment)
    result = ran(capsys, "check", path)
    assert result.status == 2, result.out
    assert "Traceback" not in result.err
    return [line.removeprefix(f"{path}, ") for line in result.err.splitlines()]


def test_everything_wrong_in_several_steps_is_told_at_once_and_nothing_twice(tmp_path: Path, capsys: Capsys) -> None:
    steps = (
        step("take in", waist='"3"', hip='"x cm"', darts="0.5", wasit='"2 cm"')
        + step("tak in", waist='"2 cm"', foo="1")
        + step("lengthen", piece='"sleave"', by='"90 m"')
    )
    wrong = ("1 waist", "1 hip", "1 darts", "2 alter", "3 by", "3 piece", "1 wasit")
    sentences = said(capsys, tmp_path, DRESS + steps)
    assert [sentence.partition(":")[0] for sentence in sentences] == [f"[[step]] {where}" for where in wrong]
    for near, at in (("take in", 3), ("sleeve", 5), ("waist", 6)):
        assert f'Did you mean "{near}"?' in sentences[at]


def test_what_belongs_at_the_top_and_stands_below_a_step_is_told_so(tmp_path: Path, capsys: Capsys) -> None:
    sentences = said(capsys, tmp_path, step("take in", waist='"2 cm"') + DRESS)
    for key in ("title", "wearer"):
        assert any(f"[[step]] 1 {key}: " in each and "at the top of the file" in each for each in sentences), sentences


def test_a_step_on_a_piece_that_its_blocks_do_not_make_says_which_block_does(tmp_path: Path, capsys: Capsys) -> None:
    (sentence,) = said(capsys, tmp_path, BODICE + step("upper arm", by='"1 cm"'))
    assert 'piece: read nothing, which stands for "sleeve"' in sentence
    assert 'It comes with the block "sleeve"' in sentence


def test_a_piece_made_by_a_step_can_be_named_by_the_next(tmp_path: Path, capsys: Capsys) -> None:
    cut = step("dart into seam", piece='"bodice back"', dart='"waist dart"', to='"armhole"')
    onward = step("lengthen", piece='"bodice back, side"', by='"1 cm"')
    assert ran(capsys, "check", written(tmp_path, BODICE + cut + onward)).status == 0
    (sentence,) = said(capsys, tmp_path, BODICE + cut + onward.replace(", side", " side"))
    assert sentence.startswith("[[step]] 2, lengthen: ")
    assert 'Did you mean "bodice back, side"?' in sentence


def test_a_refused_step_is_told_where_it_is_written(tmp_path: Path, capsys: Capsys) -> None:
    (tmp_path / "first.toml").write_text(DRESS + step("lengthen", piece='"sleeve"', by='"-55 cm"'), encoding="utf-8")
    path = written(tmp_path, 'like = "first.toml"\n' + step("lengthen", piece='"sleeve"', by='"1 cm"'))
    assert ran(capsys, "check", path).err.startswith(f"{tmp_path / 'first.toml'}, [[step]] 1, lengthen: ")
    sizes = DRESS.replace('wearer = "inga.toml"\n', "[sizes]\nbust = 128\nwaist = 76\n")
    assert said(capsys, tmp_path, sizes)[0].startswith("[sizes], blend: ")
    (sentence,) = said(capsys, tmp_path, NEST + step("lengthen", piece='"skirt front"', by='"-60 cm"'))
    assert sentence.startswith("[[step]] 1, size 92, lengthen: ")


def test_so_many_steps_that_no_cloth_is_as_long_are_refused(tmp_path: Path, capsys: Capsys) -> None:
    (sentence,) = said(capsys, tmp_path, DRESS + step("lengthen", piece='"sleeve"', by='"120 cm"') * 30)
    assert sentence.startswith('[[step]] 8, lengthen: "sleeve" would be 10.')
    assert sentence.endswith(" m long, and 10 m is the most; ask for less")


@pytest.mark.parametrize(
    ("other", "told"),
    [
        (None, "no such file"),
        (BODICE, 'no piece "sleeve"'),
        (NEST, "ordered in sizes 92 and 96"),
        ("title = \n", "other.toml, line 1"),
        (DRESS.replace('"bodice"', '"bodise"') + step("take in", waist="5"), "[[step]] 1 waist"),
        (DRESS + step("take in", waist='"39 cm"'), "other.toml, [[step]] 1, take in: "),
        (DRESS + step("put sleeve in", garment='"skirt.toml"'), "It is this garment itself"),
        ('like = "skirt.toml"\n', "skirt.toml -> other.toml -> skirt.toml"),
        (DRESS.replace("inga", "ingo"), "ingo.toml, no such file"),
        (DRESS + "[sizes]\nbust = 92\n", "either a wearer or [sizes]"),
    ],
)
def test_a_sleeve_that_cannot_be_had_from_another_file_says_why(
    other: str | None, told: str, tmp_path: Path, capsys: Capsys
) -> None:
    if other is not None:
        (tmp_path / "other.toml").write_text(other, encoding="utf-8")
    own = DRESS + step("put sleeve in", garment='"other.toml"') + step("take in", waist='"3"')
    sleeve, waist = said(capsys, tmp_path, own)
    assert sleeve.startswith(
        '[[step]] 1 garment: read "other.toml", expected a garment file whose sleeve can be put in.'
    )
    assert told in sleeve
    assert waist.startswith('[[step]] 2 waist: read "3"')


def test_a_nest_is_checked_in_every_size(tmp_path: Path, capsys: Capsys) -> None:
    result = ran(capsys, "check", written(tmp_path, NEST), "--json")
    assert result.status == 0
    assert {size: each["verdict"] for size, each in result.data["sizes"].items()} == {"92": "pass", "96": "pass"}
    assert "Size 96" in ran(capsys, "check", written(tmp_path, NEST), "--unit", "in").out


@pytest.mark.parametrize(
    ("head", "told"),
    [
        ("block = []\n", "[[block]] or more"),
        ('[[block]]\nname = "skrit"\nlength = "50 cm"\n', 'Did you mean "skirt"?'),
        ('[[block]]\nlength = "50 cm"\n', "It cannot be left out."),
    ],
)
def test_a_block_that_is_none_is_one_problem(head: str, told: str, tmp_path: Path, capsys: Capsys) -> None:
    (sentence,) = said(capsys, tmp_path, HEAD + head)
    assert told in sentence


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        (step("full bust", by='"2 cm"', bust_girth='"110 cm"'), "either by, or bust_girth and upper_chest_girth"),
        (step("opening", at='"centre back"', below='"10 cm"'), "below is for a zip at the"),
        (step("opening", at='"centre back"', fasten='"closed"', length='"30 cm"'), "length is that of a zip"),
        (
            step("move a dart", piece='"bodice front"', dart='"bust dart"', to='"waist dart"', at='"3 cm"'),
            "leave at, share and measured_from out",
        ),
        (
            step("move a dart", piece='"bodice front"', dart='"bust dart"', to='"waist dart"', beyond='"3 cm"'),
            "leave beyond out",
        ),
        (
            step(
                "dart into seam", piece='"bodice back"', dart='"waist dart"', to='"armhole"', at='"9 cm"', share='"9 %"'
            ),
            "both at and share",
        ),
    ],
)
def test_an_option_that_would_have_no_effect_is_not_passed_over(
    asked: str, told: str, tmp_path: Path, capsys: Capsys
) -> None:
    (sentence,) = said(capsys, tmp_path, DRESS + asked)
    assert sentence.startswith("[[step]] 1, ")
    assert told in sentence


def test_a_refused_step_is_told_in_the_unit_she_works_in(tmp_path: Path, capsys: Capsys) -> None:
    wide = BODICE + step("neckline", width='"9 cm"')
    (sentence,) = said(capsys, tmp_path, wide)
    assert "cannot give 9 cm" in sentence
    result = ran(capsys, "check", written(tmp_path, wide), "--unit", "in")
    assert "cannot give 3 9/16 in" in result.err
    assert " mm" not in sentence + result.err


@pytest.mark.parametrize("word", ["shorten", "crop", "Take up"])
def test_what_is_told_to_type_does_as_the_word_says(word: str, tmp_path: Path, capsys: Capsys) -> None:
    far = step(word, piece='"sleeve"', by='"40 cm"')
    (sentence,) = said(capsys, tmp_path, DRESS + far)
    most = sentence.rpartition('by = "')[2].rstrip('"')
    assert not most.startswith("-")
    assert ran(capsys, "check", written(tmp_path, DRESS + far.replace("40 cm", most))).status in (0, 1)


@pytest.mark.parametrize(
    ("hers", "plain"),
    [
        (step("shorten the sleeves", by='"3 cm"'), step("shorten", piece='"sleeve"', by='"3 cm"')),
        (step("shorten", piece='"sleeves"', by='"3 cm"'), step("shorten", piece='"sleeve"', by='"3 cm"')),
        (step("longer skirt", by='"3 cm"'), step("lengthen", piece='"skirt front"', by='"3 cm"')),
        (step("lengthen", piece='"bodice"', by='"3 cm"'), step("lengthen", piece='"bodice front"', by='"3 cm"')),
        (step("hem", piece='"skirt"', depth='"5 cm"'), step("hem", piece='"skirt front"', depth='"5 cm"')),
    ],
)
def test_a_piece_is_known_by_the_words_of_whoever_sews_it(hers: str, plain: str, tmp_path: Path) -> None:
    made = [read_garment(written(tmp_path, DRESS + each)).steps for each in (hers, plain)]
    assert made[0] == made[1]


def test_a_step_without_its_piece_is_told_which_there_are(tmp_path: Path, capsys: Capsys) -> None:
    for alter in ("shorten", "hem it longer"):
        (sentence,) = said(capsys, tmp_path, DRESS + step(alter, by='"3 cm"'))
        assert "[[step]] 1 piece: read nothing, expected which piece, one of these" in sentence
        assert '"sleeve"' in sentence
    (sentence,) = said(capsys, tmp_path, DRESS + step("neckline", depth='"1 cm"', piece='"bodice front"'))
    assert "which piece" not in sentence


def test_a_sleeve_too_short_to_be_stretched_is_told_how_it_is_cut_off(tmp_path: Path, capsys: Capsys) -> None:
    (sentence,) = said(capsys, tmp_path, DRESS + step("shorten", piece='"sleeve"', by='"36 cm"'))
    assert 'can be cut off; this can be had: hem = "as tapered"' in sentence
    assert "; or by = " in sentence
    (sentence,) = said(capsys, tmp_path, DRESS + step("short sleeve"))
    assert "by: read nothing, expected a length" in sentence
    assert 'about "14 cm" for three-quarter' in sentence


def test_a_file_of_the_other_kind_or_half_a_name_is_told_in_one_sentence(
    tmp_path: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = written(tmp_path, DRESS)
    person = path.with_name("inga.toml")
    assert "read a garment file, expected a person's file" in ran(capsys, "measure", path).err
    told = ran(capsys, "check", person).err
    assert "read a person's file, expected a garment file" in told
    assert len(told.splitlines()) == 1
    (tmp_path / "people").mkdir()
    person.rename(tmp_path / "people" / "inga.toml")
    monkeypatch.chdir(tmp_path)
    assert "Is it people/inga.toml?" in ran(capsys, "measure", "inga").err
