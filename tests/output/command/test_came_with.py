"""A step that brings a failed check is told wherever the check is: with its place and what to type in its stead."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from tests.output.running import FERRY, ran
from tests.sampling import some

Capsys = pytest.CaptureFixture[str]

STEPS = """\
like = "{like}"
[[step]]
alter = "neckline"
depth = "1 cm"
[[step]]
alter = "take in"
waist = "{waist}"
darts = "50 %"
centre_back = "20 %"
"""
"""The waist taken in so far that nothing is left of the back where its notch was."""

PASSES = re.compile(
    r'notches, back waist: .* It came with \[\[step\]\] 2 of far.toml, take in; waist = "([^"]+)" passes\.'
)


def far(folder: Path, waist: str = "24 cm") -> Path:
    path = folder / "far.toml"
    path.write_text(STEPS.format(like=FERRY.as_posix(), waist=waist), encoding="utf-8")
    return path


@pytest.mark.parametrize("unit", some(["in", "cm", "mm"], every=3))
def test_what_is_told_in_her_unit_passes_when_it_is_typed(unit: str, tmp_path: Path, capsys: Capsys) -> None:
    told = PASSES.search(" ".join(ran(capsys, "check", far(tmp_path), "--unit", unit, "--all").out.split()))
    assert told is not None
    assert told[1].endswith(f" {unit}")
    again = ran(capsys, "check", far(tmp_path, told[1]), "--json").data
    assert {each["verdict"] for each in again["checks"] if each["code"] == "notches-meet"} == {"pass"}


def test_it_stands_on_the_first_sheet_in_the_report_and_in_pattern_json(tmp_path: Path, capsys: Capsys) -> None:
    result = ran(capsys, "draft", far(tmp_path), "--to", tmp_path / "out", "--paper", "A0")
    assert result.status == 1
    (remedy,) = (
        each["remedy"]
        for each in json.loads((tmp_path / "out" / "pattern.json").read_text())["checks"]
        if each["code"] == "notches-meet" and each["verdict"] == "fail"
    )
    assert re.search(r'It came with \[\[step\]\] 2 of far.toml, take in; waist = "\d+ mm" passes\.$', remedy)
    for file in ("report.html", "sheets/01.svg"):
        plain = re.sub(r"<[^>]*>", " ", (tmp_path / "out" / file).read_text()).replace("&quot;", '"')
        assert re.search(
            r'It came with \[\[step\]\] 2 of far\.toml, take in; waist = "[\d.]+ cm"', " ".join(plain.split())
        )
