"""Everything that the command can do, the page can: each command and option has its place there, and it is there.

And everything there is to choose, each block, part and change, can be put in and set on the page.
"""

from __future__ import annotations

import json
import re
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final

import pytest

from output.api import ALTERATIONS
from output.api.order_options import PARTS, blocks_for
from output.page.desk import Desk
from output.page.edits import read_edits
from output.page.folder import Folder
from tests.output.page.running_page import copy_of_examples
from tests.sampling import some

STATIC: Final = Path(__file__).parents[3] / "output" / "page" / "static"

PLACES: Final[Mapping[str, Mapping[str, tuple[str, str]]]] = MappingProxyType(
    {
        "draft": {
            "": ("paper.js", "The pattern to print at home (PDF)"),
            "--to": ("paper.js", "All of it: sheets, pieces, drawings, report (ZIP)"),
            "--for": ("paper.js", "made-for"),
            "--paper": ("paper.js", "the copy shop's roll is wide"),
            "--sizes": ("paper.js", "Which sizes"),
            "--unit": ("sheet.js", "Lengths are shown in"),
            "--all": ("together.js", "Everything that was looked at"),
            "--explain": ("changed.js", "found.sentence"),
        },
        "check": {
            "": ("brought.js", "Patterns from elsewhere"),
            "--unit": ("brought.js", "brought-unit"),
            "--all": ("brought.js", "Every edge, and everything that was looked at"),
            "--explain": ("changed.js", "found.sentence"),
        },
        "lay": {
            "": ("paper.js", "How it lies on the cloth, and how much to buy"),
            "--to": ("paper.js", "api/made/"),
            "--width": ("paper.js", '"width"'),
            "--fold": ("paper.js", "lay-fold"),
            "--one-way": ("what.js", "all pieces lie with their tops one way"),
            "--repeat": ("what.js", "its pattern comes again after"),
            "--repeat-across": ("paper.js", '"repeat_across"'),
            "--have": ("paper.js", '"have"'),
            "--time": ("paper.js", '"seconds"'),
            "--unit": ("sheet.js", "Lengths are shown in"),
        },
        "measure": {
            "": ("who.js", "length-"),
            "--ask": ("who.js", "length-"),
            "--garment": ("who.js", '"worth"'),
            "--sheet": ("first.js", "Make the sheet"),
            "--body": ("first.js", "any woman"),
            "--unit": ("first.js", "Written in"),
            "--all": ("first.js", "every length there is"),
        },
        "grow": {
            "": ("growth.js", "How ${part.name} grows"),
            "--until": ("growth.js", "It is to fit until"),
            "--garment": ("growth.js", "what lasts until when"),
            "--to": ("growth.js", "A page of it, to print"),
            "--unit": ("sheet.js", "Lengths are shown in"),
        },
        "size": {
            "": ("bought.js", "Which size?"),
            "--for": ("bought.js", "size-kind"),
            "--cloth": ("bought.js", "size-cloth"),
            "--stretch": ("bought.js", "size-stretch"),
            "--fit": ("bought.js", "size-fit"),
            "--to": ("bought.js", "A page of it, to print"),
            "--unit": ("first.js", "measured in"),
        },
        "list": {"": ("find.js", "blocks_and_parts"), "--unit": ("sheet.js", "Lengths are shown in")},
        "new": {"": ("first.js", "Begin another garment"), "--unit": ("first.js", "measured in")},
        "open": {"": ("page.js", "openGarment")},
    }
)
"""Where each command and each of its options is on the page: a module, and words that stand in it."""

ELSEWHERE: Final = {"--json", "--help", "--no-browser", "--version"}
"""What is for programs and for the terminal alone."""


def told(*words: str) -> str:
    command = [sys.executable, "-m", "output.command", *words, "--help"]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def test_every_command_has_its_place_on_the_page() -> None:
    listed = told().partition("commands:")[2].partition("options:")[0]
    assert set(re.findall(r"^  (\w+) ", listed, re.MULTILINE)) == set(PLACES)


@pytest.mark.parametrize("command", PLACES)
def test_every_option_of_a_command_has_its_place_on_the_page(command: str) -> None:
    options = set(re.findall(r"^  (--[a-z-]+)", told(command), re.MULTILINE))
    assert options - ELSEWHERE == set(PLACES[command]) - {""}
    for module, words in PLACES[command].values():
        assert words in (STATIC / module).read_text(encoding="utf-8"), (command, module, words)


# each on the garment of the examples on which it makes most sense; all others on the dress
_JUMPSUIT: Final = "garments/breakwater-jumpsuit.toml"
_ON: Final = {
    **dict.fromkeys(("knit top", "neck band", "wrist band", "hem band"), "garments/quayside-tee.toml"),
    **dict.fromkeys(("front band",), "garments/quayside-cardigan.toml"),
    **dict.fromkeys(("waistband", "waist elastic", "hem binding"), "garments/towpath-skirt.toml"),
    **dict.fromkeys(
        ("crotch length", "seat", "full thigh", "crotch curve", "leg line"), "garments/breakwater-jumpsuit.toml"
    ),
    **dict.fromkeys(("leg elastic", "romper", "dungarees"), "garments/mooring-romper.toml"),
    "blend": "garments/bakehouse-bodice.toml",
}
_DRESS: Final = "garments/ferry-dress.toml"


def looked(desk: Desk, file: str) -> dict[str, Any]:
    state: dict[str, Any] = json.loads(desk.look(file, {}))
    return state


def changed(desk: Desk, file: str, edits: Any) -> dict[str, Any]:
    state: dict[str, Any] = json.loads(desk.change(file, "", read_edits(edits), "a test", "", {}))
    return state


def accept_answer(state: dict[str, Any], name: str) -> None:
    """It is drawn, or a plain sentence says why not."""
    said = [sentence for problem in state["problems"] for sentence in problem["sentences"]]
    assert state["parts"]["table"]["pieces"], name
    for sentence in said:
        assert sentence.strip().endswith((".", "!", "?")), (name, sentence)
        assert not re.search(r"Traceback|Point\(|\(\)|None\b|\bnan\b|\d_\d", sentence), (name, sentence)


def other_value(field: dict[str, Any]) -> Any:
    """Another value for a field than it has: one more notch of its slider, the next of its choices, yes for no."""
    if field["kind"] == "flag":
        return field["value"] is not True
    if field["choices"]:
        return next((each for each in field["choices"] if each != field["text"]), field["choices"][0])
    scale = field["scale"]
    at = field["value"] if isinstance(field["value"], int | float) else max(scale["low"], 0.0)
    value = at + scale["step"] if at + scale["step"] <= scale["high"] else at - scale["step"]
    return (
        f"{value:.2f} mm"
        if field["kind"] == "length"
        else f"{100 * value:.1f} %"
        if field["kind"] == "percent"
        else value
    )


def first_field(fields: list[dict[str, Any]]) -> dict[str, Any] | None:
    return next((each for each in fields if each["kind"] == "flag" or each["choices"] or each["scale"]), None)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return copy_of_examples(tmp_path_factory.mktemp("everything"))


@pytest.mark.parametrize("name", some([each.name for each in (*blocks_for("woman"), *PARTS)], every=18))
def test_every_block_and_part_can_be_put_in_and_set_on_the_page(folder: Path, name: str) -> None:
    desk, file = Desk(Folder.at(folder)), _ON.get(name, _DRESS)
    before = {kind: looked(desk, file)["parts"]["what"][kind] for kind in ("blocks", "parts")}
    row = next((each for kind in before.values() for each in kind if each["name"] == name), None)
    if row is None:  # no card: it has no place on this garment, and the search says where it would have one
        entries = looked(desk, file)["parts"]["more"]["blocks_and_parts"]
        assert next(each["not_here"] for each in entries if each["name"] == name).startswith("it is sewn to the ")
        return
    state = changed(desk, file, row["put_in"]) if not row["there"] else looked(desk, file)
    accept_answer(state, name)
    made = [each for kind in ("blocks", "parts") for each in state["parts"]["what"][kind] if each["name"] == name]
    if (field := first_field(made[0]["fields"])) is not None:
        edit = {"in": "garment", "do": "set", "at": field["at"], "value": other_value(field)}
        accept_answer(changed(desk, file, [edit]), f"{name}, {field['name']}")
        desk.undo(file, {}, again=False)
    if not row["there"]:
        desk.undo(file, {}, again=False)
    desk.close()


@pytest.mark.parametrize("name", some(ALTERATIONS.names, every=18))
def test_every_change_can_be_put_in_and_set_on_the_page(folder: Path, name: str) -> None:
    desk, file = Desk(Folder.at(folder)), _ON.get(name, _DRESS)
    parts = looked(desk, file)["parts"]
    entry = next(each for each in parts["more"]["more"] if each["alter"] == name)
    if entry["not_here"]:
        assert entry["not_here"].startswith(("it has no ", "no piece ", "every "))
        return
    value: dict[str, Any] = {"alter": name}
    for field in entry["fields"]:
        if field["required"]:
            value[field["key"]] = other_value(field) if field["choices"] or field["scale"] else "another"
    place = len(parts["changed"]["cards"])
    state = changed(desk, file, [{"in": "garment", "do": "insert", "at": ["step", place], "value": value}])
    accept_answer(state, name)
    cards = state["parts"]["changed"]["cards"]
    if len(cards) > place and (field := first_field(cards[place]["fields"])) is not None:
        edit = {"in": "garment", "do": "set", "at": ["step", place, field["key"]], "value": other_value(field)}
        accept_answer(changed(desk, file, [edit]), f"{name}, {field['name']}")
        desk.undo(file, {}, again=False)
    desk.undo(file, {}, again=False)
    desk.close()
