"""The interface for scripts: it gives what the command gives, and what cannot be had says so in plain errors."""

from __future__ import annotations

import dataclasses
import json
import os
import re
import runpy
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import pytest

import drafting.dataclass
from output import api
from output.api import (
    Draft,
    Garment,
    StepRefused,
    TrueseamError,
    alter,
    block,
    check,
    compare,
    draft,
    dxf,
    edges,
    measurements,
    part,
    person,
    read_garment,
    read_pattern,
    report,
    sheets,
    svg,
    to_json,
    undo,
    write,
)
from tests.output.running import everything_in, ran

ROOT = Path(__file__).parents[3]
FERRY = ROOT / "examples" / "garments" / "ferry-dress.toml"
PATH = "{http://www.w3.org/2000/svg}path"
Capsys = pytest.CaptureFixture[str]


@cache
def dress() -> Draft:
    return draft(read_garment(FERRY))


def run(*words: str, cwd: Path) -> str:
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [sys.executable, *words], cwd=cwd, env=environment, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_it_is_small_and_every_name_is_there_and_says_what_it_is() -> None:
    assert len(api.__all__) <= 41
    for name in api.__all__:
        value = getattr(api, name)
        # the docstring of a tuple would be that of every tuple: what a table holds says what it is
        assert says_what_it_is(value) if callable(value) else all(each.about for each in value), name


def says_what_it_is(value: Callable[..., object]) -> bool:
    """Whether somebody wrote a docstring for it: a dataclass without one shows its signature in its place."""
    said = vars(value).get("__doc__") if isinstance(value, type) else value.__doc__
    return isinstance(said, str) and not said.startswith(f"{value.__name__}(")


def test_a_dataclass_that_says_nothing_of_itself_is_seen() -> None:
    for made in (drafting.dataclass.dataclass, dataclasses.dataclass):

        @made(frozen=True, slots=True)
        class Silent:
            x: int

        @made(frozen=True, slots=True)
        class Told(Silent):
            """A value."""

        assert (says_what_it_is(Silent), says_what_it_is(Told)) == (False, True)


def test_no_module_takes_the_name_of_what_is_offered() -> None:
    """A module that is loaded takes the place of the name: what a script gets would hang on what was loaded before."""
    assert {path.stem for path in (ROOT / "output" / "api").glob("*.py")} & set(api.__all__) == set()


def test_every_alteration_can_be_imported_by_its_class() -> None:
    for entry in api.ALTERATIONS:
        assert getattr(api, entry.__name__) is entry
    with pytest.raises(AttributeError, match="Widen"):
        _ = api.Widen


def test_importing_it_loads_nothing_before_it_is_asked_for(tmp_path: Path) -> None:
    said = run("-c", "import sys, output.api; print('blocks' in sys.modules, 'drafting' in sys.modules)", cwd=tmp_path)
    assert said.split() == ["False", "False"]


def test_the_lines_in_the_readme_draft_alter_and_draw_a_dress(tmp_path: Path) -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    (lines,) = [each for each in re.findall(r"```python\n(.*?)```", readme, re.DOTALL) if "output.api" in each]
    assert len(lines.splitlines()) <= 10
    run("-c", lines, cwd=tmp_path)
    (drawing,) = tmp_path.glob("*.svg")
    assert len(ElementTree.parse(drawing).getroot().findall(f".//{PATH}")) > 3


@pytest.mark.parametrize(
    ("example", "told", "written"),
    [
        ("draw_a_dress.py", "Finished measurements", "report.html"),
        ("table_of_bodies.py", "If 99 cm was meant, give 990.", ""),
        ("compare_an_alteration.py", 'this can be had: by = "-142 mm"', ""),
        ("chart_of_armholes.py", "front", ""),
    ],
)
def test_the_examples_run(
    example: str, told: str, written: str, tmp_path: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In this process, as the lines of the README run in one of their own."""
    to = tmp_path / ("out" if written else "out.svg")
    monkeypatch.setattr(sys, "argv", [example, str(to)])
    monkeypatch.chdir(tmp_path)
    runpy.run_path(str(ROOT / "examples" / example), run_name="__main__")
    assert told in capsys.readouterr().out
    for drawing in tmp_path.glob("*.svg"):
        assert ElementTree.parse(drawing).getroot().tag.endswith("svg")
    if written:
        assert (to / written).is_file()


def test_a_step_by_name_and_by_class_are_the_same_and_undone_it_is_as_it_was() -> None:
    by_name = alter(dress(), "neckline", depth=20)
    assert by_name.pattern == alter(dress(), api.Neckline(depth=20.0)).pattern
    assert undo(by_name).pattern == dress().pattern
    assert undo(by_name).garment.steps == dress().garment.steps
    with pytest.raises(StepRefused, match="no step"):
        undo(draft(Garment("skirt", dress().garment.wearer, (block("skirt"),))))


def test_a_part_is_ordered_as_in_a_file_and_judged_where_it_is_made() -> None:
    towpath = read_garment(FERRY.with_name("towpath-skirt.toml"))
    assert (part("waistband", height=35),) == towpath.parts
    wearer = dress().garment.wearer
    blocks = (block("bodice"), block("skirt"))
    faced = draft(Garment("Quay dress", wearer, blocks, parts=(part("neck facing"),)))
    assert faced.piece("front neck facing").name == "front neck facing"
    with pytest.raises(TrueseamError, match=r'(?s)wastband.*"waistband"'):
        part("wastband")
    with pytest.raises(TrueseamError, match=r'(?s)hight.*"height"'):
        part("waistband", hight=35)
    with pytest.raises(TrueseamError, match=r"If 3\.5 cm was meant, give 35"):
        part("waistband", height=3.5)
    with pytest.raises(TrueseamError, match="sewn to the bodice"):
        draft(Garment("Quay dress", wearer, blocks, parts=(part("waistband"),)))
    with pytest.raises(TrueseamError, match='read "waistband" twice, expected each part once'):
        Garment("Quay skirt", wearer, (block("skirt"),), parts=(part("waistband"), part("waistband")))
    with pytest.raises(TrueseamError, match="no bodice with a neck"):
        draft(Garment("Quay skirt", wearer, (block("skirt"),), parts=(part("neck facing"),)))


def test_a_step_is_taken_where_it_belongs_whenever_it_is_given() -> None:
    one = alter(alter(dress(), "neckline", depth=20), "take in", waist=10)
    other = alter(alter(dress(), "take in", waist=10), "neckline", depth=20)
    assert one.pattern == other.pattern
    assert len(one.stages) == len(dress().stages) + 2


@pytest.mark.parametrize(
    ("name", "options", "told"),
    [
        ("lenghten", {}, 'Did you mean "lengthen"'),
        ("shorten", {"piece": "sleeve", "by": 10}, 'Write "lengthen", with by below zero.'),
        ("V neck", {"depth": 50}, 'Write "neckline", with shape="V".'),
        ("lengthen", {"pice": "sleeve", "by": 10}, 'Did you mean "piece"'),
        ("lengthen", {"piece": "sleeve"}, "lengthen, by: read nothing"),
        ("lengthen", {"piece": "sleeve", "by": "3 cm"}, "Give the number alone: 30"),
        ("lengthen", {"piece": "sleve", "by": 10}, 'Did you mean "sleeve"'),
        ("lengthen", {"piece": "sleeve", "by": float("nan")}, "lengthen, by: read nan"),
    ],
)
def test_what_cannot_be_had_is_a_plain_error(name: str, options: dict[str, object], told: str) -> None:
    with pytest.raises(TrueseamError) as refused:
        alter(dress(), name, **options)
    assert told in " ".join(refused.value.sentences())


def test_a_block_and_a_person_are_judged_where_they_are_made() -> None:
    with pytest.raises(TrueseamError, match='Did you mean "skirt"'):
        block("skrit")
    with pytest.raises(TrueseamError, match="If 60 cm was meant, give 600"):
        block("skirt", length=60)
    with pytest.raises(TrueseamError, match="If 168 cm was meant, give 1680"):
        person({"height": 168, "bust": 920, "waist": 740, "hip": 990})


def test_what_is_measured_is_got_by_name_and_shows_as_a_table() -> None:
    made = measurements(dress())
    assert made["waist"].finished == made[[each.name for each in made].index("waist")].finished
    assert "waist" in repr(made)
    assert "<td>waist</td>" in made._repr_html_()
    with pytest.raises(TrueseamError, match='Did you mean "waist"'):
        made["wiast"]
    hem = edges(dress())["skirt front, hem"]
    assert hem.length == dress().pattern.piece("skirt front").edge("hem").length


def test_checks_show_as_a_table_and_name_what_is_wrong() -> None:
    found = check(dress())
    assert (found.verdict, found.faults) == ("pass", ())
    assert found._repr_html_().count("<table") > 10
    tight = check(alter(dress(), "take in", waist=55))
    assert tight.verdict == "fail"
    (remedy,) = tight["ease, waist"].remedies
    assert remedy.typed() in tight["ease, waist"].remedy
    (setting,) = remedy.settings
    mended = alter(alter(dress(), "take in", waist=55), remedy.alteration, **{setting.option: setting.value})
    assert check(mended)["ease, waist"].verdict != "fail"


def test_a_draft_a_piece_and_a_comparison_draw_themselves() -> None:
    longer = alter(dress(), "lengthen", piece="sleeve", by=30)
    for drawn, names in (
        (longer, [piece.name for piece in longer.pieces]),
        (longer.piece("sleeve"), ["sleeve"]),
        (compare(dress(), longer), ["sleeve"]),
    ):
        page = ElementTree.fromstring(drawn._repr_svg_())
        assert page.attrib["width"] == "100%"
        words = [each.text for each in page.iter("{http://www.w3.org/2000/svg}text")]
        assert words == names
        assert page.findall(f".//{PATH}")
    assert "+30.0 mm" in repr(compare(dress(), longer))
    assert "<svg" in compare(dress(), longer)._repr_html_()
    assert repr(longer).startswith("<Draft")


def test_what_is_written_is_what_the_command_writes(tmp_path: Path, capsys: Capsys) -> None:
    towpath = FERRY.with_name("towpath-skirt.toml")
    ran(capsys, "draft", str(towpath), "--to", str(tmp_path / "command"), "--paper", "A0")
    skirt = draft(read_garment(towpath))
    write(skirt, tmp_path / "script", paper="A0")
    by_command, by_script = everything_in(tmp_path / "command"), everything_in(tmp_path / "script")
    assert by_command == by_script
    folder = tmp_path / "command"
    assert dxf(skirt) == (folder / "pattern.dxf").read_bytes()
    assert to_json(skirt, check(skirt)) == (folder / "pattern.json").read_text(encoding="utf-8")
    assert svg(skirt.piece("waistband")) == (folder / "pieces" / "waistband.svg").read_text(encoding="utf-8")
    drawn = [path.read_text("utf-8") for path in sorted((folder / "sheets").glob("*.svg"))]
    assert list(sheets(skirt, paper="A0")) == drawn
    assert "<h1>" in report(skirt)


def test_a_refusal_gives_a_program_what_can_be_had(tmp_path: Path, capsys: Capsys) -> None:
    step = '[[step]]\nalter = "shorten"\npiece = "sleeve"\nby = "52 cm"\n'
    (tmp_path / "short.toml").write_text(f'like = "{FERRY}"\n{step}', encoding="utf-8")
    told = json.loads(ran(capsys, "check", str(tmp_path / "short.toml"), "--json").out)
    (problem,) = told["problems"]
    (remedy,) = problem["remedies"]
    assert (remedy["act"], remedy["alter"], remedy["step"]) == ("change", "lengthen", problem["step"])
    (setting,) = remedy["settings"]
    assert (setting["option"], setting["unit"]) == ("by", "mm")
    assert f'by = "{-setting["value"] / 10:g} cm"' in problem["sentence"]


def test_a_check_after_another_finds_what_it_finds_by_itself() -> None:
    found = check(dress())
    for by in (10.0, 11.0, -60.0):
        longer = alter(dress(), "lengthen", piece="sleeve", by=by)
        found = check(longer, after=found)
        alone = check(longer)
        assert tuple(found) == tuple(alone)
        assert repr(found) == repr(alone)


def test_a_failed_check_gives_a_program_what_would_mend_it(tmp_path: Path, capsys: Capsys) -> None:
    step = '[[step]]\nalter = "take in"\nwaist = "6 cm"\n'
    (tmp_path / "tight.toml").write_text(f'like = "{FERRY}"\n{step}', encoding="utf-8")
    told = json.loads(ran(capsys, "check", str(tmp_path / "tight.toml"), "--json").out)
    failed = next(each for each in told["checks"] if (each["code"], each["where"]) == ("ease-to-move", "waist"))
    assert failed["remedies"][0]["act"] == "add"
    assert failed["remedies"][0]["settings"][0]["option"] == "waist"


@pytest.mark.parametrize("made", [lambda: block(None), lambda: block(["skirt"]), lambda: part(None)])  # type: ignore[arg-type]
def test_what_is_no_name_is_refused_in_a_sentence(made: Callable[[], object]) -> None:
    with pytest.raises(TrueseamError) as refused:
        made()
    assert (all(refused.value.sentences()) and "skirt" in str(refused.value)) or "waistband" in str(refused.value)


def test_a_folder_is_written_for_a_roll_of_the_copy_shop(tmp_path: Path) -> None:
    oda = api.read_person("examples/people/oda.toml")
    drafted = api.draft(api.Garment("Quay skirt", oda, [api.block("skirt", length=550)]))
    for folder, paper in (("sheets", ""), ("roll", "roll 36 in")):
        api.write(drafted, tmp_path / folder, paper=paper)
    on_roll, on_sheets = ((tmp_path / folder / "report.html").read_text() for folder in ("roll", "sheets"))
    assert "91.4 cm" in on_roll
    assert "91.4 cm" not in on_sheets


def test_a_pattern_that_was_read_is_checked_altered_measured_and_written_as_a_draft(tmp_path: Path) -> None:
    inches = replace(dress().garment, wearer=replace(dress().garment.wearer, unit="in"))
    (tmp_path / "pattern.json").write_text(to_json(draft(inches)))
    read = read_pattern(tmp_path / "pattern.json")
    assert (read.unit, read_pattern(tmp_path / "pattern.json", unit="cm").unit) == ("in", "cm")
    assert repr(read) == f"<Pattern{repr(dress())[len('<Draft') :]}"
    assert ElementTree.fromstring(read.piece("sleeve")._repr_svg_()).tag.endswith("svg")
    longer = alter(alter(read, "lengthen", piece="sleeve", by=20), "take in", waist=20)
    assert [step.name for step in longer.taken] == ["lengthen", "take in"]
    found = check(longer, after=check(read))
    assert (found.verdict, len(found)) == ("pass", len(check(dress())))
    assert measurements(longer)["waist"].finished == pytest.approx(measurements(read)["waist"].finished - 20.0)
    assert compare(read, longer)["shoulder to wrist"].after == measurements(longer)["shoulder to wrist"].finished
    assert edges(longer)["sleeve, wrist"].length == pytest.approx(edges(read)["sleeve, wrist"].length)
    assert undo(undo(longer)) == read
    with pytest.raises(StepRefused, match="since it was read"):
        undo(read)
    assert json.loads(to_json(longer))["wearer"]["unit"] == "in"
    assert b"wrist" in dxf(longer)
    with pytest.raises(TrueseamError, match="expected a draft"):
        report(read)  # type: ignore[arg-type]
    with pytest.raises(TrueseamError, match="no unit"):
        read_pattern(tmp_path / "pattern.json", unit="ell")
