from __future__ import annotations

import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from blocks.block_table import BLOCKS
from drafting.alterations import ALTERATIONS
from drafting.alterations.alteration_table import OPTION_WORDS
from drafting.body.charts import CHARTS, chart_named
from drafting.body.terms import MEASUREMENTS, measurement
from drafting.checks import CHECKS
from drafting.fit.cloth_table import cloth_table
from drafting.fit.ease import EASE_WORDS
from drafting.pattern import Piece
from output import __version__
from output.command import main
from output.sheets.papers import PAPERS
from tests.drafting.sizes import sized
from tests.output.running import FERRY, ODA, PERSON, SKIRT, everything_in, ran, written

Capsys = pytest.CaptureFixture[str]

TIGHT = SKIRT + 'ease = { hip = "1 cm" }\n'


def test_the_example_dress_is_drafted_checked_and_written(tmp_path: Path, capsys: Capsys) -> None:
    result = ran(capsys, "draft", FERRY, "--to", tmp_path / "dress")
    files = everything_in(tmp_path / "dress")
    assert (result.status, result.err) == (0, "")
    assert {"report.html", "pattern.json", "pattern.dxf"} <= files.keys()
    pieces = ("bodice-front", "bodice-back", "sleeve", "skirt-front", "skirt-back")
    assert {f"pieces/{name}.svg" for name in pieces} <= files.keys()
    sheets = [name for name in files if name.startswith("sheets/")]
    assert len(sheets) > 10
    said = " ".join(result.out.split())
    assert f"{len(sheets)} sheets of A4" in said
    for told in ("Ferry dress", "Oda", "2026-10-03", "checks passed", "Finished measurements", "Estimated, the least"):
        assert told in said
    assert "104.5 cm" in said  # bust 98.5 and the 6 that the file asks for


def test_everything_is_written_to_a_folder_named_after_the_garment_where_none_is_given(
    tmp_path: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    written(tmp_path)
    monkeypatch.chdir(tmp_path)
    result = ran(capsys, "draft", "skirt.toml", "--json")
    assert result.status == 0
    assert result.data["folder"] == "skirt"
    assert set(result.data["files"]) < everything_in(tmp_path / "skirt").keys()


def test_drafting_twice_gives_the_same_files(tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path)
    for folder in ("one", "two", "one"):
        assert ran(capsys, "draft", path, "--to", tmp_path / folder, "--paper", "A0").status == 0
    assert everything_in(tmp_path / "one") == everything_in(tmp_path / "two")


def test_another_paper_than_the_files_can_be_asked_for_in_small_letters_too(tmp_path: Path, capsys: Capsys) -> None:
    result = ran(capsys, "draft", written(tmp_path), "--to", tmp_path / "out", "--paper", "letter")
    assert "sheets of Letter" in result.out
    assert 'width="215.9mm"' in (tmp_path / "out" / "sheets" / "01.svg").read_text()


def test_a_failed_check_gives_status_1_and_stands_on_the_first_sheet(tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path, TIGHT)
    result = ran(capsys, "draft", path, "--to", tmp_path / "out", "--paper", "A0")
    assert (result.status, result.err) == (1, "")
    assert "1 failed. Do not cut before this is mended." in " ".join(result.out.split())
    assert "1.5 cm too small" in " ".join(result.out.split())
    first = (tmp_path / "out" / "sheets" / "01.svg").read_text()
    assert "A check failed. Do not cut before this is mended." in first
    assert "ease, hip:" in first
    assert "too small to move in" in (tmp_path / "out" / "report.html").read_text()


def test_what_failed_is_told_in_the_unit_that_was_asked_for(tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path, TIGHT)
    assert "1.5 cm too small" in " ".join(ran(capsys, "check", path).out.split())
    assert "9/16 in too small" in " ".join(ran(capsys, "check", path, "--unit", "in").out.split())


def test_what_a_program_gets_is_json_and_nothing_else(tmp_path: Path, capsys: Capsys) -> None:
    result = ran(capsys, "draft", written(tmp_path, TIGHT), "--to", tmp_path / "out", "--paper", "A0", "--json")
    assert (result.status, result.err) == (1, "")
    assert result.data["verdict"] == "fail"
    hip = next(found for found in result.data["finished"] if found["name"] == "hip")
    assert (hip["body"], round(hip["finished"], 1)) == (1040.0, 1050.0)
    failed = [check for check in result.data["checks"] if check["verdict"] == "fail"]
    assert [check["code"] for check in failed] == ["ease-to-move"]


@pytest.mark.parametrize("name", ["skirt.toml", "out/pattern.json"])
def test_checking_a_garment_and_its_pattern_finds_the_same(name: str, tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path, TIGHT)
    drafted = ran(capsys, "draft", path, "--to", tmp_path / "out", "--paper", "A0", "--json")
    before = everything_in(tmp_path)
    checked = ran(capsys, "check", tmp_path / name, "--json")
    assert checked.status == drafted.status == 1
    assert checked.data["checks"] == drafted.data["checks"]
    assert checked.data["finished"] == drafted.data["finished"]
    assert everything_in(tmp_path) == before


def test_checking_a_dxf_looks_at_its_pieces_and_says_what_it_could_not_look_at(tmp_path: Path, capsys: Capsys) -> None:
    assert ran(capsys, "draft", written(tmp_path), "--to", tmp_path / "out", "--paper", "A0").status == 0
    result = ran(capsys, "check", tmp_path / "out" / "pattern.dxf", "--json")
    assert result.status == 0
    verdicts = {check["code"]: check["verdict"] for check in result.data["checks"]}
    assert verdicts["seam-length"] == "pass"
    assert verdicts["ease-to-move"] == "nothing"  # it holds no measurement


def test_a_person_who_works_in_inches_reads_inches_to_the_eighth(tmp_path: Path, capsys: Capsys) -> None:
    person = PERSON.replace('"cm"', '"in"').replace("168", "66").replace("96", "38").replace("78", '"30 1/2"')
    path = written(tmp_path, person=person.replace("104", "41"))
    result = ran(capsys, "draft", path, "--to", tmp_path / "out", "--paper", "A0")
    finished = result.out.partition("Finished measurements")[2].partition("Checks")[0]
    assert "30 1/2 in" in finished
    assert " cm" not in finished
    in_cm = ran(capsys, "check", path, "--unit", "cm").out.partition("Finished measurements")[2]
    assert "77.5 cm" in in_cm


def test_measuring_tells_what_was_measured_and_what_was_guessed_the_least_certain_first(capsys: Capsys) -> None:
    result = ran(capsys, "measure", ODA, "--all")
    data = ran(capsys, "measure", ODA, "--json").data
    assert result.status == 0
    by_key = {found["key"]: found for found in data["measurements"]}
    assert by_key["hip_girth"] | {"mm": 1070.0, "from": "measured"} == by_key["hip_girth"]
    shares = [by_key[key]["sd"] / by_key[key]["mm"] for key in data["least_certain_first"]]
    assert shares == sorted(shares, reverse=True)
    told = result.out.partition("Estimated lengths")[2]
    places = [told.index(f"\n  {measurement(key).name[:15]}") for key in data["least_certain_first"]]
    assert places == sorted(places)


def test_measuring_doubts_a_slip_of_the_tape_and_says_how_to_take_it_again(tmp_path: Path, capsys: Capsys) -> None:
    path = tmp_path / "inga.toml"
    path.write_text(PERSON + "wrist_girth = 22\n", encoding="utf-8")
    result = ran(capsys, "measure", path)
    assert result.status == 0
    said = " ".join(result.out.partition("looks like a slip of the tape:")[2].split())
    assert said.startswith("wrist: 22.0 cm was measured")
    assert "Measure it again: Round the wrist over its bone." in said


def test_measurements_that_cannot_go_together_give_status_1(tmp_path: Path, capsys: Capsys) -> None:
    path = tmp_path / "inga.toml"
    path.write_text(PERSON + "scye_depth = 30\nback_waist_length = 33\n", encoding="utf-8")
    result = ran(capsys, "measure", path, "--json")
    assert result.status == 1
    assert [odds["measurements"] for odds in result.data["contradictions"]] == [["scye_depth", "back_waist_length"]]


@pytest.mark.parametrize(
    ("what", "names"),
    [
        ("blocks", [block.name for block in BLOCKS]),
        ("alterations", [entry.name for entry in ALTERATIONS]),
        ("checks", [check.code for check in CHECKS]),
        ("measurements", [each.word for each in MEASUREMENTS]),
        ("sizes", [str(size) for name in CHARTS for size in chart_named(name).sizes]),
        ("papers", list(PAPERS)),
        ("cloths", [row.word for row in cloth_table()]),
    ],
)
def test_everything_there_is_is_listed(what: str, names: list[str], capsys: Capsys) -> None:
    told, data = ran(capsys, "list", what), ran(capsys, "list", what, "--json")
    assert told.status == data.status == 0
    assert [name for name in names if name not in told.out] == []
    for name in names:
        assert f'"{name}"' in data.out or f'"size": {name}' in data.out or f'"ease.{name}"' in data.out
    assert list(data.data) == [what]


def test_the_terms_of_the_standard_stand_in_the_data_of_the_list(capsys: Capsys) -> None:
    data = ran(capsys, "list", "measurements", "--json").data["measurements"]
    assert [(each["key"], each["term"]) for each in data] == [(each.key, each.term) for each in MEASUREMENTS]


@pytest.mark.parametrize(
    ("name", "told"),
    [
        *((block.name, [*(o.name for o in block.options), *map(EASE_WORDS.called, block.places)]) for block in BLOCKS),
        *((entry.name, [OPTION_WORDS.get(o.name, o.name) for o in entry.options]) for entry in ALTERATIONS),
        ("shorten", ['alter = "lengthen"', '"shorten"']),
        ("the take in", ['alter = "take in"', '"let out"']),
        ("waist", ["Round the natural waist"]),
        ("nape to waist", ["back_waist_length"]),
        ("seam length", ["seam-length"]),
        ("92", ["92.0 cm"]),
        ("letter", ["21.6 by 27.9 cm"]),
        ("denim", ['kind = "denim"', "0.9 mm thick", "shrinks by 6 %", "Robinson", "1.3 mm more ease"]),
        ("cotton elastane", ['kind = "stretch jersey"', "stretches by 50 % across", "-2.5 %"]),
    ],
)
def test_all_about_one_is_listed_by_any_of_its_names(name: str, told: list[str], capsys: Capsys) -> None:
    result = ran(capsys, "list", *name.split())
    assert result.status == 0
    assert [word for word in told if word not in result.out] == []


@pytest.mark.parametrize("what", ["alterations", "blocks"])
@pytest.mark.parametrize("width", [60, 80, 120])
def test_what_there_is_to_choose_from_is_listed_in_a_line_each(
    what: str, width: int, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", str(width))
    lines = ran(capsys, "list", what).out.splitlines()
    named = {"alterations": ALTERATIONS, "blocks": BLOCKS}[what]
    rows = [line for line in lines if any(line.startswith(f"  {each.name} ") for each in named)]
    assert len(rows) == len(named)
    assert max(map(len, lines)) <= width


def test_a_list_that_is_not_there_is_refused_with_those_that_are(capsys: Capsys) -> None:
    hints = {"alteratoins": 'Did you mean "alterations"?', "slit": "not made here yet", "pleats": "pleat skirt"}
    hints |= {"collar": '"turn-over collar"', "xyz": "papers"}
    for word, told in hints.items():
        result = ran(capsys, "list", word)
        assert result.status == 2
        assert told in result.err


def test_an_option_is_listed_with_its_range_and_what_stands_when_it_is_left_out(capsys: Capsys) -> None:
    blocks = {block["name"]: block for block in ran(capsys, "list", "blocks", "--json").data["blocks"]}
    length = next(option for option in blocks["skirt"]["options"] if option["name"] == "length")
    assert (length["kind"], length["low"], length["high"], length["required"]) == ("length", 150.0, 1400.0, False)
    assert all(piece["darts"] == [] for name in ("bodice", "skirt") for piece in blocks[f"child's {name}"]["named"])
    told = ran(capsys, "list", "lengthen").out
    assert "must be given" in told
    assert "-60.0 cm to 120.0 cm" in told
    assert "-23 1/2 in to 47 1/8 in" in ran(capsys, "list", "lengthen", "--unit", "in").out


def test_what_is_worked_out_when_it_is_left_out_is_said(capsys: Capsys) -> None:
    for what in ("blocks", "alterations"):
        for entry in ran(capsys, "list", what, "--json").data[what]:
            for option in entry["options"]:
                if not option["required"] and option["default"] is None:
                    assert "left out" in option["about"], (entry["name"], option["name"])


def test_what_a_step_may_name_of_a_piece_is_listed_as_it_is_drawn(capsys: Capsys) -> None:
    blocks = ran(capsys, "list", "blocks", "--json").data["blocks"]
    women = [block for block in blocks if block["name"] in ("bodice", "sleeve", "skirt")]
    named = {named["piece"]: named for block in women for named in block["named"]}
    for piece in sized(92).pieces:
        assert named[piece.name]["darts"] == [dart.name for dart in piece.darts]
        assert named[piece.name]["lines"] == [line.name for line in piece.lines]
        assert set(named[piece.name]["edges"]) == {edge.name for edge in piece.edges} - legs_of(piece)
    assert 'darts "waist dart", "bust dart"' in " ".join(ran(capsys, "list", "bodice").out.split())


def legs_of(piece: Piece) -> set[str]:
    return {leg for dart in piece.darts for leg in dart.legs}


def test_the_version_is_the_one_of_the_project(capsys: Capsys) -> None:
    project = tomllib.loads((Path(__file__).parents[3] / "pyproject.toml").read_text(encoding="utf-8"))
    stated = project["project"].get("version", __version__)
    assert stated == __version__
    assert ran(capsys, "--version").out == f"trueseam {__version__}\n"
    assert "draft" in ran(capsys, "--help").out
    assert ran(capsys).status == 0


def test_a_fault_of_ours_is_one_sentence_that_says_so(
    tmp_path: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_stages: object, **_told: object) -> None:
        raise ZeroDivisionError("a fault\nof ours")

    path = written(tmp_path)
    before = everything_in(tmp_path)
    monkeypatch.delenv("TRUESEAM_TRACEBACK", raising=False)
    monkeypatch.setattr("output.command.draft.checked_after", broken)
    result = ran(capsys, "draft", path, "--to", tmp_path / "out")
    assert (result.status, result.out) == (3, "")
    assert len(result.err.splitlines()) == 1
    assert "a fault of trueseam" in result.err
    assert "ZeroDivisionError: a fault of ours" in result.err
    assert everything_in(tmp_path) == before
    monkeypatch.setenv("TRUESEAM_TRACEBACK", "1")
    with pytest.raises(ZeroDivisionError):
        main(["check", str(path)])


@pytest.mark.parametrize("at", ["output.command.draft.checked_after", "output.files.write_folder.os.rename"])
def test_a_person_who_stops_it_finds_nothing_half_written(
    at: str, tmp_path: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = written(tmp_path)
    before = everything_in(tmp_path)

    def stopped(*_given: object, **_told: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(at, stopped)
    result = ran(capsys, "draft", path, "--to", tmp_path / "out", "--paper", "A0")
    assert (result.status, result.out) == (130, "")
    assert result.err == "Stopped. Nothing is left half written.\n"
    assert everything_in(tmp_path) == before
    assert not (tmp_path / "out").exists()


def test_a_reader_that_goes_away_is_no_fault(tmp_path: Path) -> None:
    words = [sys.executable, "-m", "output.command", "check", str(written(tmp_path))]
    root = Path(__file__).parents[3]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=root) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        running.stdout.close()
        assert running.stderr.read() == b""
        assert running.wait() == 0


def test_a_name_is_never_taken_for_markup(tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path, SKIRT.replace("Quay skirt", "[bold]Quay[/bold] :smile: skirt"))
    assert "[bold]Quay[/bold] :smile: skirt" in ran(capsys, "check", path).out


def test_no_bar_is_shown_where_nobody_watches(tmp_path: Path) -> None:
    words = [sys.executable, "-m", "output.command", "draft", str(written(tmp_path)), "--to", str(tmp_path / "out")]
    words += ["--paper", "A0"]
    done = subprocess.run(words, capture_output=True, text=True, check=True, cwd=Path(__file__).parents[3])
    assert done.stderr == ""
    assert "\x1b" not in done.stdout


def test_long_work_shows_a_bar_to_a_person_who_watches(capsys: Capsys, monkeypatch: pytest.MonkeyPatch) -> None:
    from output.command import progress

    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    monkeypatch.setattr(progress, "_PATIENCE", 0.0)
    with progress.progress(watched=True) as tell:
        tell("drawing the sheets", 0.5)
    out, err = capsys.readouterr()
    assert "drawing the sheets" in err
    assert out == ""
    with progress.progress(watched=False) as tell:
        tell("drawing the sheets", 0.5)
    assert capsys.readouterr().err == ""


SLIPPED = """\
name = "Inga"
body = "woman"
unit = "cm"
[measurements]
height = 165
bust = {bust}
waist = {waist}
hip = {hip}
back_waist_length = {back}
front_waist_length = 33
upper_arm = 29
shoulder_length = 14.5
"""


@pytest.mark.parametrize(
    ("slip", "named"),
    [
        ({"waist": 97, "hip": 73}, "waist"),
        ({"back": 27}, "back waist length"),
        ({"bust": 132}, "bust"),
    ],
)
def test_a_slip_stands_in_the_first_lines_of_what_measure_says(
    slip: dict[str, int], named: str, tmp_path: Path, capsys: Capsys
) -> None:
    sound = {"bust": 92, "waist": 73, "hip": 97, "back": 37}
    path = tmp_path / "inga.toml"
    path.write_text(SLIPPED.format(**sound), encoding="utf-8")
    right = ran(capsys, "measure", path)
    assert right.status == 0
    assert "Nothing looks wrong" in right.out
    path.write_text(SLIPPED.format(**{**sound, **slip}), encoding="utf-8")
    told = " ".join(ran(capsys, "measure", path).out.split()[:120])
    assert named in told
    assert "Nothing looks wrong" not in told


def test_estimates_beyond_the_bodies_measured_say_so_in_the_first_lines(tmp_path: Path, capsys: Capsys) -> None:
    path = tmp_path / "inga.toml"
    path.write_text(
        PERSON.replace("= 96", "= 140").replace("= 78", "= 128").replace("= 104", "= 142"), encoding="utf-8"
    )
    told = " ".join(ran(capsys, "measure", path).out.split()[:80])
    assert "cannot be drafted" not in told
    assert "Beyond the bodies that were measured: bust 140.0 cm (71.1 cm to 115.9 cm)" in told
    assert "less sure" in told
