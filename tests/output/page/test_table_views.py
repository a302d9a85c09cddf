"""What the table is told: pure data, read here without a browser by a stranger's reader of path data."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from output.api import Draft, TrueseamError, alter
from output.page.desk import Desk
from output.page.drawing_questions import drawing_answers
from output.page.edits import read_edits
from output.page.folder import Folder
from output.page.views.compared import compared
from output.page.views.flat import flat
from output.page.views.pieces import folded, pieces
from output.page.views.slip import slip
from output.page.views.table import Groups, arrangements, table
from output.page.views.walk import walk, walked
from tests.examples import NAMES, example
from tests.output.page.shown_garments import shown_draft
from tests.outside.read_svg import path_lines
from tests.sampling import some

GARMENTS = Path(__file__).parents[3] / "examples" / "garments"
FILE = "garments/ferry-dress.toml"


def garment(name: str = "ferry-dress") -> Draft:
    return example(name)


@cache
def lengthened() -> Draft:
    return alter(garment(), "lengthen", piece="sleeve", by=40)


@cache
def after_lengthening() -> dict[str, Any]:
    return dict(pieces(shown_draft(lengthened(), garment())))


@pytest.mark.parametrize("name", some(NAMES, every=6))
def test_everything_is_data_that_json_can_hold(name: str) -> None:
    state = shown_draft(garment(name))
    everything = {**dict(pieces(state)), "table": table(state), "slip": slip(state), "walk": walk(state)}
    assert json.loads(json.dumps(everything, allow_nan=False)) == everything


def test_only_the_piece_that_changed_has_a_state_before() -> None:
    told = after_lengthening()
    assert [name for name, data in told.items() if data["before"]] == ["piece sleeve"]
    unmoved = dict(pieces(shown_draft(garment())))
    assert {name for name, data in told.items() if data != unmoved[name]} == {"piece sleeve"}


def test_what_is_hatched_is_what_was_added() -> None:
    told = after_lengthening()["piece sleeve"]
    before, after = (Polygon(path_lines(told[key])[0].coords) for key in ("before", "outline"))
    assert after.area - before.area == pytest.approx(after.symmetric_difference(before).area, rel=0.05)
    assert after.area > before.area


def test_the_box_holds_the_state_before_as_well() -> None:
    shorter = alter(garment(), "lengthen", piece="sleeve", by=-60)
    told = dict(pieces(shown_draft(shorter, garment())))["piece sleeve"]
    left, top, width, height = told["box"]
    (line,) = path_lines(told["before"])
    assert left - 0.01 <= line.bounds[0] <= line.bounds[2] <= left + width + 0.01
    assert top - 0.01 <= line.bounds[1] <= line.bounds[3] <= top + height + 0.01


def test_a_piece_that_was_not_there_is_new() -> None:
    state = shown_draft(garment("towpath-skirt"), garment("slipway-skirt"))
    new = {name for name, data in pieces(state) if data["new"]}
    assert new == {"piece waistband"}
    assert not any(data["new"] for _, data in pieces(shown_draft(garment())))


def test_an_edge_says_how_long_it_is_and_what_it_is_sewn_to() -> None:
    told = dict(pieces(shown_draft(garment())))
    said = {edge["name"]: edge["sewn"] for edge in told["piece sleeve"]["edges"]}
    assert said["wrist"] == "turned up for the hem"
    assert said["cap front"] == "sewn to the bodice front, 1.0 cm eased in"
    assert said["underarm seam, front"] == "sewn to another edge of this piece"
    armhole = next(edge for edge in told["piece bodice front"]["edges"] if edge["name"] == "armhole")
    assert armhole["sewn"] == "sewn to the sleeve, of which 1.0 cm is eased in"
    assert armhole["seams"] == ["front armhole"]
    fold = next(edge for edge in told["piece skirt front"]["edges"] if edge["name"] == "centre front")
    assert fold["sewn"] == "on the fold of the cloth"


def test_the_edges_of_a_seam_that_fails_are_marked() -> None:
    odd = alter(garment(), "lengthen", piece="skirt front", by=20, only="skirt front")
    told = dict(pieces(shown_draft(odd, garment())))
    marked = {(name, edge["name"]) for name, data in told.items() for edge in data["edges"] if edge["fails"]}
    assert marked == {("piece skirt front", "side seam"), ("piece skirt back", "side seam")}


@pytest.mark.parametrize("name", some(NAMES, every=6, first=1))
def test_every_piece_lies_once_in_every_arrangement(name: str) -> None:
    told = table(shown_draft(garment(name)))
    assert told["arrangements"]
    for each in told["arrangements"]:
        assert sorted(piece for group in each["names"] for piece in group) == sorted(told["pieces"])


def test_what_is_worn_above_lies_above() -> None:
    told = table(shown_draft(garment()))
    columns = [each["names"] for each in told["arrangements"] if each["by"] == "columns"]
    assert [["bodice front", "skirt front"], ["bodice back", "skirt back"], ["sleeve"]] in columns


_SIZES = st.dictionaries(
    st.text("abcdefgh", min_size=1, max_size=3),
    st.tuples(st.floats(5.0, 2000.0), st.floats(5.0, 2000.0)),
    min_size=1,
    max_size=14,
)


@settings(deadline=None)  # a busy machine decides how long one takes
@given(_SIZES)
def test_a_room_of_any_shape_has_an_arrangement_of_all_the_pieces(sizes: dict[str, tuple[float, float]]) -> None:
    kinds = dict.fromkeys(sizes, "front")
    found = arrangements(sizes, kinds)
    assert found
    assert all(isinstance(each, Groups) and all(each.names) for each in found)
    assert all(sorted(name for group in each.names for name in group) == sorted(sizes) for each in found)
    assert len(set(found)) == len(found) <= 11


def test_the_note_names_what_moved_most_first_and_what_is_hatched() -> None:
    told = slip(shown_draft(lengthened(), garment()))
    assert told["moved"] == [{"name": "shoulder to wrist", "before": "61.0 cm", "after": "65.0 cm"}]
    assert told["hatched"] == "Hatched: what the last change added to or took away from the sleeve."
    assert slip(shown_draft(garment())) == {"state": "calm", "hatched": "", "moved": []}


@pytest.mark.parametrize("name", some(NAMES, every=6, first=2))
def test_every_seam_can_be_walked_and_says_at_its_notches_that_they_meet(name: str) -> None:
    for seam in walk(shown_draft(garment(name)))["seams"]:
        told = walked(garment(name), seam["name"])
        json.dumps(told, allow_nan=False)
        assert told["left"] == ""
        assert all(frame["words"].endswith(".") for frame in told["frames"])
        assert sum(frame["meets"] for frame in told["frames"]) >= len(garment(name).pattern.seam(seam["name"]).notches)


def test_what_is_left_over_at_the_end_is_said() -> None:
    odd = alter(garment(), "lengthen", piece="skirt front", by=20, only="skirt front")
    assert walked(odd, "skirt side seam")["left"] == "2.0 cm of the skirt front is left over at the end."


def test_a_folded_piece_and_the_flat_garment_can_be_drawn() -> None:
    shape = folded(garment(), "bodice front")
    assert path_lines(shape["outline"])
    assert len(path_lines(shape["lines"]["dart leg"])) == 2
    assert [view["side"] for view in flat(garment())["views"]] == ["front", "back"]


def test_two_versions_are_compared_on_the_pieces_and_in_lengths() -> None:
    told = compared(lengthened(), garment())
    assert [name for name, data in told["pieces"].items() if data["before"]] == ["sleeve"]
    assert told["moved"] == [{"name": "shoulder to wrist", "before": "61.0 cm", "after": "65.0 cm"}]
    assert told["gone"] == []
    other = compared(garment("towpath-skirt"), garment("slipway-skirt"))
    assert {name for name, data in other["pieces"].items() if data["new"]} == {"waistband"}
    assert other["gone"] == ["skirt front facing"]


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    for part in ("people", "garments"):
        shutil.copytree(GARMENTS.parent / part, tmp_path / part)
    found = Desk(Folder.at(tmp_path))
    yield found
    found.log.close()


def _ask(desk: Desk, address: str, **given: object) -> dict[str, Any]:
    return json.loads(drawing_answers(desk)[address]({"file": FILE, **given}))


def test_one_can_look_back_over_changes_that_were_written(desk: Desk) -> None:
    for by, words in (("4 cm", "four"), ("6 cm", "six")):
        edit = {"in": "garment", "do": "set", "at": ["step", 0, "by"], "value": by}
        desk.change(FILE, "", read_edits([edit]), words, "", {})
    assert _ask(desk, "changes")["changes"] == ["six", "four"]
    assert [_ask(desk, "compare", back=back)["moved"][0]["before"] for back in (1, 2)] == ["62.0 cm", "61.0 cm"]
    other = _ask(desk, "compare", other="garments/signal-dress.toml")
    assert len(other["moved"]) > 5


def test_what_is_drawn_when_it_is_looked_at_is_answered_as_json(desk: Desk) -> None:
    assert _ask(desk, "walk", seam="front armhole")["frames"]
    assert _ask(desk, "folded", piece="bodice front")["outline"]
    assert len(_ask(desk, "flat")["views"]) == 2
    for wrong in ({"seam": "no such seam"}, {"seam": 7}, {}):
        with pytest.raises(TrueseamError):
            _ask(desk, "walk", **wrong)


def test_while_a_value_is_tried_only_the_piece_that_changes_is_sent(desk: Desk) -> None:
    looked = json.loads(desk.look(FILE, {}))
    assert {f"piece {name}" for name in looked["parts"]["table"]["pieces"]} <= set(looked["parts"])
    edit = {"in": "garment", "do": "set", "at": ["step", 0, "by"], "value": "7 cm"}
    tried = json.loads(desk.attempt(FILE, looked["version"], read_edits([edit]), looked["hashes"]))
    sent = set(tried["parts"])
    assert {name for name in sent if name.startswith("piece ")} == {"piece sleeve"}
    assert not sent & {"walk", "what", "figure", "who"}
    again = json.loads(desk.attempt(FILE, looked["version"], read_edits([edit]), tried["hashes"]))
    assert again["parts"] == {}
