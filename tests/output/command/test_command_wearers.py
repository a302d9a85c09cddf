"""`trueseam draft GARMENT --for PEOPLE`."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote

import pytest

from output.command import main

SKIRT = """
title = "Quay skirt"
wearer = "mia.toml"
[[block]]
name = "skirt"
length = "60 cm"
[paper]
size = "A0"
"""
WOMAN = """
name = "{0}"
body = "woman"
unit = "{1}"
[measurements]
height = "168 cm"
bust = "92 cm"
waist = "74 cm"
hip = "{2} cm"
"""


class Cells(HTMLParser):
    """The cells of a page's table, row by row; the links in it."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.rows: list[list[str]] = []
        self.links: list[str] = []
        self.inside = False
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "tr":
            self.rows.append([])
        if tag in ("td", "th"):
            self.rows[-1].append("")
            self.inside = True
        self.links += [value or "" for name, value in attrs if tag == "a" and name == "href"]

    def handle_endtag(self, tag: str) -> None:
        self.inside = self.inside and tag not in ("td", "th")

    def handle_data(self, data: str) -> None:
        if self.inside:
            self.rows[-1][-1] += data


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    people = tmp_path / "people"
    people.mkdir()
    Path("skirt.toml").write_text(SKIRT, encoding="utf-8")
    (people / "mia.toml").write_text(WOMAN.format("Mia", "cm", 99), encoding="utf-8")
    (people / "tor.toml").write_text(WOMAN.format("Tor", "in", 104), encoding="utf-8")
    (people / "skirt.toml").write_text(SKIRT, encoding="utf-8")
    return tmp_path


def test_one_table_stands_side_by_side_as_text_as_json_and_as_a_page(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "people" / "una.toml").write_text("name = \n", encoding="utf-8")
    assert main(["draft", "skirt.toml", "--for", "people", "--to", "out"]) == 1
    text = capsys.readouterr().out
    assert "Drafted for 2 of 3 people; all checks pass for 2." in text
    (hip,) = (line for line in text.splitlines() if line.split()[:1] == ["hip"])
    assert hip.split() == ["hip", "105.0", "cm", "43", "1/4", "in"]
    page = (folder / "out" / "index.html").read_text(encoding="utf-8")
    read = Cells(page)
    assert read.links == ["mia/report.html", "tor/report.html"]
    assert all((folder / "out" / link).is_file() for link in read.links)
    at = read.rows[0].index("hip")
    assert [row[at] for row in read.rows[1:]] == ["105.0 cm", "43 1/4 in", ""]
    assert [row[:2] for row in read.rows[1:]] == [["Mia", "pass"], ["Tor", "pass"], ["una", "not drafted"]]
    before = (folder / "out" / "mia" / "pattern.json").read_bytes()
    assert main(["draft", "skirt.toml", "--for", "people/mia.toml", "--to", "out", "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert [(each["name"], each["verdict"], each["folder"]) for each in data["wearers"]] == [
        ("Mia", "pass", "out/mia"),
    ]
    assert (folder / "out" / "mia" / "pattern.json").read_bytes() == before


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["skirt.toml", "--for", "people/mia.toml", "people/../people/mia.toml"], "mia.toml again, expected each"),
        (["skirt.toml", "--for", "gone.toml"], "no such file"),
        (["skirt.toml", "--for", "empty"], "a folder without people"),
        (["--for", "people/mia.toml", "skirt.toml"], "Put GARMENT.toml first"),
        (["skirt.toml", "--for"], "nothing after it"),
        (["skirt.toml", "--for", "people/mia.toml", "--sizes", "92"], "--for drafts it to the measurements"),
        (["skirt.toml", "--for", "people/mia.toml", "--paper", "A17"], "A17"),
        (["skirt.toml", "--for", "people/mia.toml", "--to", "taken"], "choose another folder"),
    ],
)
def test_what_cannot_be_used_is_told_and_nothing_is_written(
    words: list[str], told: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "empty").mkdir()
    (folder / "taken").mkdir()
    (folder / "taken" / "index.html").write_text("<p>My own page</p>", encoding="utf-8")
    there = sorted(folder.rglob("*"))
    assert main(["draft", *words]) == 2
    assert told in capsys.readouterr().err
    assert sorted(folder.rglob("*")) == there


@pytest.mark.skipif(sys.platform == "win32", reason="process groups are had on Unix only")
def test_stopped_it_leaves_whole_folders_only(folder: Path) -> None:
    for count in range(12):
        (folder / "people" / f"p{count}.toml").write_text(WOMAN.format(f"P{count}", "cm", 95 + count), encoding="utf-8")
    command = [sys.executable, "-m", "output.command", "draft", "skirt.toml", "--for", "people", "--to", "out"]
    where = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[3])}
    run = subprocess.Popen(
        command,
        cwd=folder,
        env=where,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    try:
        last = time.monotonic() + 60
        while time.monotonic() < last and not list((folder / "out").glob("*/report.html")):
            time.sleep(0.02)
        os.killpg(run.pid, signal.SIGINT)  # as Ctrl-C does: to the command and to all that work for it
        _, said = run.communicate(timeout=60)
    finally:
        run.kill()
        run.wait()
    assert run.returncode == 130
    assert said == "Stopped. Nothing is left half written.\n"
    made = sorted((folder / "out").iterdir())
    assert 1 <= len(made) < 14
    for each in made:
        listed = json.loads((each / "trueseam-files.json").read_text(encoding="utf-8"))
        assert all((each / name).is_file() for name in listed["files"])
        assert (each / "report.html").is_file()


@pytest.mark.skipif(sys.platform != "linux", reason="other systems have no file names that are no text")
def test_a_file_whose_name_is_no_text_stops_nobody(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "people" / os.fsdecode(b"\xff\xfe.toml")).write_text(WOMAN.format("Ada", "cm", 99), encoding="utf-8")
    (folder / "people" / os.fsdecode(b"\xff.toml")).write_text("name =", encoding="utf-8")
    (folder / "people" / "index.html.toml").write_text(WOMAN.format("Eli", "cm", 99), encoding="utf-8")
    assert main(["draft", "skirt.toml", "--for", "people", "--to", "all", "--json"]) == 1
    told = json.loads(capsys.readouterr().out)
    json.dumps(told, ensure_ascii=False).encode()
    page = Cells((folder / "all" / "index.html").read_text(encoding="utf-8"))
    assert {"Ada", "Eli", "Mia", "Tor"} <= {cell for row in page.rows for cell in row}
    assert all((folder / "all" / unquote(link)).is_file() for link in page.links)


def test_a_refusal_says_for_whom_and_in_her_unit(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    step = '[[step]]\nalter = "lengthen"\npiece = "skirt front"\nby = "-55 cm"\n'
    (folder / "short.toml").write_text(SKIRT.replace("[paper]", step + "[paper]"), encoding="utf-8")
    assert main(["draft", "short.toml", "--for", "people/mia.toml", "people/tor.toml", "--to", "short"]) == 2
    mia, tor = (line for line in capsys.readouterr().err.splitlines() if "lengthen" in line)
    assert mia.startswith("people/mia.toml: ")
    assert tor.startswith("people/tor.toml: ")
    assert " mm" not in mia + tor
    assert " cm" in mia
    assert " in " in tor
