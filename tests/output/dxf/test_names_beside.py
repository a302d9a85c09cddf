"""A stranger's drawing with a file of names beside it: seams are walked, alterations keep their promises."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from drafting.alterations import Alteration, Hem, Lengthen, TakeIn, apply_step
from drafting.checks import run_checks
from drafting.errors import InputProblems
from drafting.pattern.place_words import place_called
from drafting.pattern.places import Place
from drafting.reading.files import load_toml
from output.dxf.names_beside import Named, names_of_a_drawing, read_named_dxf
from tests.output.dxf.test_dxf_of_others import Corner, drawing, raw
from tests.output.running import ran

Capsys = pytest.CaptureFixture[str]

# a straight skirt in halves, mm; the dart of the front is 20 wide and 110 long
FRONT = ((0, 0), (250, 0), (250, 400), (240, 600), (130, 590), (120, 480), (110, 590), (0, 590))
BACK = ((0, 0), (250, 0), (250, 585), (10, 600), (0, 400))

NAMES = """\
drawing_unit = "mm"
unit = "cm"

[[piece]]
name = "FRONT"
part = "skirt"
kind = "front"
edges = { "edge 1" = "hem", "edge 2" = "side seam", "edge 3" = "side seam", "edge 4" = "waist", "edge 7" = "waist" }
lines = { "line 1" = "hip line" }

[[piece.dart]]
name = "waist dart"
legs = ["edge 5", "edge 6"]

[[piece]]
name = "BACK"
part = "skirt"
kind = "back"
edges = { "edge 1" = "hem", "edge 3" = "waist", "edge 4" = "side seam", "edge 5" = "side seam" }
lines = { "line 1" = "hip line" }

[[seam]]
name = "side"
a = ["FRONT: edge 2"]
b = ["BACK: side seam"]
"""


def skirt(back: tuple[Corner, ...] = BACK) -> bytes:
    """Drawn in R12 without a unit: boundaries with their turn points, a mirror line, grain, a line, a notch each."""
    document = drawing("R12", 0)
    for name, corners, fold, notch in (("FRONT", FRONT, (0, 590), (250, 400)), ("BACK", back, (250, 585), (0, 400))):
        block = document.blocks.new(name)
        block.add_polyline2d(corners, close=True, dxfattribs={"layer": "1"})
        for corner in corners:
            block.add_point(corner, dxfattribs={"layer": "2"})
        block.add_line((fold[0], 0), fold, dxfattribs={"layer": "6"})
        block.add_line((100, 50), (100, 450), dxfattribs={"layer": "7"})
        block.add_line((0, 300), (250, 300), dxfattribs={"layer": "8"})
        block.add_point(notch, dxfattribs={"layer": "4"})
        document.modelspace().add_blockref(name, (0, 0))
    return raw(document)


def read(names: str = NAMES, data: bytes | None = None) -> Named:
    table = tomllib.loads(names)
    return read_named_dxf(skirt() if data is None else data, table, place="skirt.dxf", beside="skirt.toml")


def verdicts(named: Named, code: str) -> list[str]:
    return [str(result.verdict) for result in run_checks(named.pattern) if result.code == code]


def test_seams_are_walked_notches_paired_and_darts_measured() -> None:
    named = read()
    assert verdicts(named, "seam-length") == ["pass"]
    assert verdicts(named, "notches-meet") == ["pass"]
    assert verdicts(named, "dart-legs") == ["pass"]
    assert set(verdicts(named, "edges-sewn")) == {"pass"}


def test_a_side_that_is_too_long_and_a_notch_that_misses_are_found_by_how_much() -> None:
    longer = tuple((x, y + 8 if y == 600 else y) for x, y in BACK)
    (side,) = (result for result in run_checks(read(data=skirt(longer)).pattern) if result.code == "seam-length")
    assert side.verdict == "fail"
    assert side.measured == pytest.approx(-7.99, abs=0.02)  # the edge leans by 10 in 200


@pytest.mark.parametrize(
    "step", [Lengthen("FRONT", 30.0, line="line 1"), TakeIn(waist=20.0), TakeIn(hip=20.0), Hem("FRONT", depth=50.0)]
)
def test_alterations_work_on_it_and_keep_their_promises(step: Alteration) -> None:
    before = read().pattern
    altered = apply_step(before, step)  # raises BrokenPromise where a promised number is off by 1e-6 mm
    assert altered.pieces != before.pieces
    assert [result.verdict for result in run_checks(altered) if result.code == "seam-length"] == ["pass"]
    if isinstance(step, Lengthen):
        lengths = [pattern.piece("FRONT").edge("edge 2").length for pattern in (before, altered)]
        assert lengths[1] - lengths[0] == pytest.approx(30.0)


def test_the_command_takes_the_steps_of_the_file_beside_it(tmp_path: Path, capsys: Capsys) -> None:
    (tmp_path / "skirt.dxf").write_bytes(skirt())
    bare = ran(capsys, "check", tmp_path / "skirt.dxf")
    assert "drawing_unit" in bare.err
    step = '[[step]]\nalter = "shorten"\npiece = "FRONT"\nline = "line 1"\nby = 3\n'
    (tmp_path / "skirt.toml").write_text(NAMES + step, encoding="utf-8")
    told = ran(capsys, "check", tmp_path / "skirt.dxf", "--all")
    assert "FRONT, by 3.0 cm" in told.out
    (tmp_path / "skirt.toml").write_text('drawing_unit = "mm"\n', encoding="utf-8")
    unnamed = ran(capsys, "check", tmp_path / "skirt.dxf", "--all")
    assert "No seam is known" in unnamed.out
    assert "FRONT: edge 2" in unnamed.out
    assert "upper left" in unnamed.out


def test_a_garment_file_of_the_same_name_is_none_of_its_names() -> None:
    examples = Path(__file__).parents[3] / "examples" / "garments"
    assert not any(names_of_a_drawing(load_toml(path)) for path in examples.glob("*.toml"))


def test_a_file_that_holds_nothing_but_a_step_is_read() -> None:
    assert names_of_a_drawing({"step": [{"alter": "shorten"}]})
    assert not names_of_a_drawing({"step": [], "block": []})


@pytest.mark.parametrize(
    ("right", "wrong", "said"),
    [
        ('"edge 1" = "hem", "edge 2"', '"edge 1" = "hemm", "edge 2"', '[[piece]] 1 edges: read "hemm"'),
        ('"edge 1" = "hem", "edge 2"', '"edge 1" = "waisst", "edge 2"', 'Did you mean "waist"?'),
        ('edges = { "edge 1" = "hem", "edge 2"', 'edges = "x"\nroles = { "edge 2"', 'read "x", expected names in { }'),
        (
            '"edge 1" = "hem", "edge 2"',
            '"edge 91" = "hem", "edge 2"',
            'read "edge 91", expected names of what is drawn',
        ),
        ('name = "BACK"', 'name = "BACKK"', 'Did you mean "BACK"?'),
        ('legs = ["edge 5", "edge 6"]', 'legs = ["edge 5", "edge 8"]', "dart: read"),
        ('legs = ["edge 5", "edge 6"]', 'legs = ["edge 5"]', "[[piece]] 1 dart 1 legs"),
        ('b = ["BACK: side seam"]', 'b = ["BACK: edge 55"]', 'read "BACK: edge 55"'),
        ('b = ["BACK: side seam"]', "b = 3", '[[seam]] 1 b: read "3"'),
        ('kind = "back"', 'kind = "behind"', "kind"),
        ('drawing_unit = "mm"', 'drawing_unit = "m"', "drawing_unit"),
        ('name = "side"', 'nme = "side"', "nme"),
    ],
)
def test_what_is_wrong_in_the_file_is_said_with_its_place(right: str, wrong: str, said: str) -> None:
    assert right in NAMES
    with pytest.raises(InputProblems) as caught:
        read(NAMES.replace(right, wrong, 1))
    assert said in str(caught.value)


def test_a_place_may_be_called_by_another_word_of_the_trade() -> None:
    named = read(NAMES.replace('"hem"', '"Hemline"').replace("BACK: side seam", "BACK: side"))
    assert named.pattern == read().pattern


@pytest.mark.parametrize("word", [*Place, "SCYE", "center front", "sleeve head"])
def test_every_place_is_known_by_its_own_word_and_by_others(word: str) -> None:
    assert place_called(word) in Place
    assert place_called(f"{word} of nothing") is None
