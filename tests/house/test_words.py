"""Every sentence a person can meet: in words of the trade or of every day, and in inches for whoever writes inches."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from drafting.alterations import ALTERATIONS
from drafting.body.terms import MEASUREMENTS
from tests.house import parsed
from tests.output.running import ran

Capsys = pytest.CaptureFixture[str]

ROOT = Path(__file__).parents[2]

BANNED = {
    r"\bkeys?\b": "a word, a name",
    r"\btables?\b": "a line [name] and what stands below it",
    r"\btoml\b(?<!\.toml)": "a file",
    r"\bvalue error\b": "what is wrong",
    r"\bbool(ean)?\b": "true or false",
    r"\bsyntax\b": "how it is written",
    r"\bparse[rd]?\b": "read",
    r"\binvalid\b": "what was expected",
    r"\breliability\b": "how far to trust it",
    r"\bstature\b": "height",
    r"\bscye\b": "armhole",
    r"\binterscye": "across the back",
    r"\bbiacromial": "shoulder to shoulder",
    r"\bcervicale\b": "nape to floor",
    r"\baxilla\b": "armpit",
    r"\bneck pit\b": "the hollow of the neck",
    r"\band \d+ more: see the report": "their names",
    r"\bdocument\b": "a file",
    r"\bexception\b": "what is wrong",
    r"\bvertices\b|\bpolygon\b|\bpolyline\b|\bcubic\b": "a line",
}
"""Words of programs and of anthropometry that a person has no use for, each with what is said in its place."""

NOT_FOR_HER = {
    # for programs and developers: documents of JSON and DXF, sources, tables of data
    *(
        "drafting/pattern/text.py",
        "drafting/pattern/text_read.py",
        "drafting/pattern/text_read_origin.py",
        "drafting/reading/read_json.py",
        "output/dxf/dxf_writer.py",
    ),
    "output/page/undo_log.py",  # what is asked of SQLite
    *("output/dxf/dxf_reader.py", "output/dxf/dxf_layers.py"),
    *("drafting/body/refit.py", "drafting/body/rechart.py", "output/dxf/close_outlines.py"),
    *(
        "output/drawings/svg.py",
        "output/report/page_style.py",
        "output/dxf/smooth_polylines.py",
        "output/dxf/close_outlines.py",
    ),
}


@cache
def sentences(path: Path) -> tuple[tuple[int, str], ...]:
    """Every text of a module that reads like something said: words with spaces between, no docstring."""
    return tuple(_sentences(path))


def _sentences(path: Path) -> Iterator[tuple[int, str]]:
    nodes = parsed.nodes(path)
    silent = {id(part) for node in nodes if isinstance(node, ast.Expr) for part in ast.walk(node)}
    for node in nodes:
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Yield | ast.Call):
            silent -= {id(part) for part in ast.walk(node)}
        elif isinstance(node, ast.Raise):
            parts = list(ast.walk(node))
            if any(isinstance(part, ast.Name) and part.id == "ValueError" for part in parts):
                silent |= {id(part) for part in parts}
    for node in nodes:
        said = isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in silent
        if said and re.search(r"[a-z]+ [a-z]+", node.value):
            yield node.lineno, node.value


def known_words() -> set[str]:
    """Words that a person may write, of the standard and of others; what is told to her is in hers."""
    words = {word for each in MEASUREMENTS for word in (each.key, each.term, *each.also)}
    return {*words, "neck pit", "scye line", "end of document"}


def modules() -> list[Path]:
    return [
        path
        for package in ("drafting", "blocks", "output")
        for path in sorted((ROOT / package).rglob("*.py"))
        if str(path.relative_to(ROOT)) not in NOT_FOR_HER
    ]


def test_no_sentence_holds_a_word_that_only_the_program_knows() -> None:
    any_banned = re.compile("|".join(BANNED), re.IGNORECASE)
    found = [
        f"{path.relative_to(ROOT)}:{line}: {match[0]!r} in {text[:80]!r}; say: {better}"
        for path in modules()
        for line, text in sentences(path)
        if any_banned.search(text) and text not in known_words() and "<" not in text
        for word, better in BANNED.items()
        if (match := re.search(word, text, re.IGNORECASE))
    ]
    assert found == []


def test_the_sentences_are_found_at_all() -> None:
    assert sum(1 for path in modules() for _ in sentences(path)) > 500


METRIC = re.compile(r"\d ?(?:cm|mm)\b|\b(?:cm|mm)\b|centimet|millimet", re.IGNORECASE)
SQUARES = re.compile(r"\b10 cm\b|100 mm each side")
"""What is drawn at true scale and stands beside its inches: the square of ten centimetres."""

WREN = """\
name = "Wren"
body = "woman"
unit = "in"
[measurements]
height = "65 1/2"
bust = 36
waist = "29 1/2"
hip = 39
nape_to_waist = "15 3/4"
wrist = 9
"""
DRESS = """\
title = "Marsh dress"
wearer = "wren.toml"
[[block]]
name = "bodice"
[[block]]
name = "sleeve"
[[block]]
name = "skirt"
[[step]]
alter = "let out"
waist = "1 in"
[[step]]
alter = "shorten"
piece = "sleeve"
by = "2 1/2 in"
[[step]]
alter = "take in"
hip = "3 in"
[paper]
size = "Letter"
"""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "wren.toml").write_text(WREN, encoding="utf-8")
    (tmp_path / "dress.toml").write_text(DRESS, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def metric(text: str) -> list[str]:
    """The lines of a text in which a length is told in centimetres or millimetres."""
    return [line for line in text.splitlines() if METRIC.search(SQUARES.sub("", line))]


def seen(path: Path) -> str:
    """What a person reads in a page or a drawing, a line to each element."""
    text = re.sub(r"<style.*?</style>", "", path.read_text(encoding="utf-8"), flags=re.S)
    return re.sub(r"<[^>]*>", "\n", text)


def test_whoever_writes_inches_is_told_inches(folder: Path, capsys: Capsys) -> None:
    told = [
        ran(capsys, "draft", "dress.toml", "--to", "out", "--all", "--explain").out,
        ran(capsys, "check", "dress.toml").out,
        ran(capsys, "measure", "wren.toml").out,
        ran(capsys, "measure", "wren.toml", "--all").out,
        ran(capsys, "check", "out/pattern.json", "--unit", "in", "--all").out,
        ran(capsys, "check", "out/pattern.dxf", "--unit", "in", "--all").out,
    ]
    assert all(told)
    assert [line for text in told for line in metric(text)] == []
    files = [folder / "out" / "report.html", *(folder / "out").glob("*/*.svg")]
    assert len(files) > 10
    assert [f"{path.name}: {line}" for path in files for line in metric(seen(path))] == []


def test_every_list_can_be_had_in_inches(capsys: Capsys) -> None:
    lists = ("blocks", "alterations", "checks", "measurements", "sizes", "papers")
    names = (*(entry.name for entry in ALTERATIONS), "bodice", "sleeve", "skirt", "waist", "92", "Letter")
    for what in (*lists, *names):
        result = ran(capsys, "list", what, "--unit", "in")
        assert result.status == 0
        assert metric(result.out) == [], what


@pytest.mark.parametrize(
    ("line", "instead"),
    [
        ('waist = "1 in"', 'waist = "90 in"'),
        ('by = "2 1/2 in"', 'by = "60 in"'),
        ('by = "2 1/2 in"', 'by = "20 in"'),
        ('by = "2 1/2 in"', "by = 2 1/2"),
        ('by = "2 1/2 in"', "by = 2.5"),
        ('hip = "3 in"', 'hip = "30 in"'),
        ('size = "Letter"', 'size = "Letter"\nseam_allowance = "9 in"'),
        ('name = "skirt"', 'name = "skirt"\nlength = "2 in"'),
        ('name = "skirt"', 'name = "skirt"\nease = { hip = "90 in" }'),
        ('name = "skirt"', 'name = "skirt"\nlength = "long"'),
        ('title = "Marsh dress"', 'title = "Marsh dress"\n[cloth]\nkind = "knit"'),
    ],
)
def test_a_refusal_in_inches_speaks_of_inches(line: str, instead: str, folder: Path, capsys: Capsys) -> None:
    assert line in DRESS
    (folder / "dress.toml").write_text(DRESS.replace(line, instead), encoding="utf-8")
    result = ran(capsys, "check", "dress.toml")
    assert result.status == 2, result.out
    told = result.err.replace('unit = "cm", "mm" or "in"', "")
    assert metric(told) == []
