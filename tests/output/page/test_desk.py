"""A folder that is worked in: changes, what could not be had, two hands on one file, what is made anew and what not."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from output.api import Draft
from output.page.desk import Desk
from output.page.edits import CannotEdit, read_edits
from output.page.folder import Folder, NotInFolder
from output.page.undo_log import BY_HAND
from tests.output.page.hands import Hands
from tests.output.page.running_page import FERRY, copy_of_examples, set_to
from tests.sampling import some

ODA = "people/oda.toml"
BY: list[str | int] = ["step", 0, "by"]


@pytest.fixture
def hands(tmp_path: Path) -> Iterator[Hands]:
    made = Hands(copy_of_examples(tmp_path))
    yield made
    made.desk.close()


def test_a_change_is_written_and_only_what_changed_is_told(hands: Hands) -> None:
    state = hands.change(set_to(BY, "1 1/2 in"), words="a longer sleeve")
    assert state["written"]
    assert 'by = "1 1/2 in"\n' in hands.text()
    assert "piece sleeve" in state["parts"]
    assert not {"who", "figure", "cloth", "piece bodice back", "more"} & state["parts"].keys()
    assert hands.parts["head"]["undo"] == "a longer sleeve"


def test_what_is_tried_is_not_written(hands: Hands) -> None:
    before = hands.text(), hands.text(ODA)
    tried = hands.attempt(set_to(BY, "5 cm"))
    assert "piece sleeve" in tried["parts"]
    assert not tried["written"]
    assert (hands.text(), hands.text(ODA)) == before
    assert {"more", "order"} <= hands.parts.keys()  # what rests stays on the page
    assert hands.look()["parts"].keys() >= {"piece sleeve"}


def test_a_try_tells_the_pieces_first_and_with_the_rest_it_is_what_it_is_at_once(hands: Hands) -> None:
    verdict, far = hands.parts["head"]["verdict"], set_to(["block", 0, "ease", "bust"], "2 cm")
    first = hands.attempt(far, soon=True)
    assert first["more"]
    assert {name.partition(" ")[0] for name in first["parts"]} <= {"piece", "table"}
    assert "piece bodice front" in first["parts"]
    assert hands.parts["head"]["verdict"] == verdict  # not looked at yet
    rest = hands.attempt(far)
    assert not rest["more"]
    in_two = dict(hands.parts)
    assert in_two["head"]["verdict"] != verdict
    hands.restart()
    hands.attempt(far)
    assert hands.parts == in_two
    hands.attempt(set_to(["block", 0, "ease", "bust"], "3 cm"), soon=True)
    hands.change(set_to(["block", 0, "ease", "bust"], "3 cm"))  # written before the rest was asked for
    written = dict(hands.parts)
    hands.restart()
    assert {**hands.parts, "head": 0} == {**written, "head": 0}


def test_one_drag_is_taken_back_at_once(hands: Hands) -> None:
    before = hands.text()
    for mm in range(31, 40):
        hands.change(set_to(BY, f"{mm} mm"), run="one", words=f"sleeve {mm}")
    hands.undo()
    assert hands.text() == before
    assert hands.redo()["written"]
    assert 'by = "39 mm"' in hands.text()


def test_her_and_the_dress_are_changed_in_one(hands: Hands) -> None:
    before = hands.text(), hands.text(ODA)
    hands.change(set_to(["measurements", "bust"], 99.5, "person"), set_to(["fit"], "close"), words="both")
    assert "bust = 99.5\n" in hands.text(ODA)
    assert 'fit = "close"\n' in hands.text()
    hands.restart()
    hands.undo()
    assert (hands.text(), hands.text(ODA)) == before


@pytest.mark.parametrize(
    ("edit", "at", "said"),
    [
        (set_to(BY, "-52 cm"), ["step", 0], "52 cm are to go"),
        (set_to(BY, "a bit"), BY, "a bit"),
        (set_to(["measurements", "hip"], "abc", "person"), ["measurements", "hip"], "abc"),
        (set_to(["cloth", "kind"], "iron"), ["cloth", "kind"], "woven"),
    ],
)
def test_what_cannot_be_had_is_kept_and_not_written(hands: Hands, edit: Any, at: Any, said: str) -> None:
    before = hands.text(), hands.text(ODA)
    hands.change(edit)
    hands.restart()
    assert not hands.state["written"]
    (problem,) = hands.state["problems"]
    assert (problem["in"], problem["at"]) == (edit["in"], at)
    assert said in problem["sentences"][0]
    assert (hands.text(), hands.text(ODA)) == before
    assert "piece sleeve" in hands.parts
    hands.undo()
    assert hands.state["problems"] == []
    assert hands.parts["head"]["undo"] is None


def test_a_refused_value_is_shown_until_another_can_be_had(hands: Hands) -> None:
    hands.change(set_to(BY, "-52 cm"))
    assert hands.asked() == "-52 cm"
    hands.change(set_to(["cloth", "width"], "150 cm"))
    assert hands.asked() == "-52 cm"
    assert 'width = "150 cm"' in hands.text()
    assert "-52" not in hands.text()
    (offer,) = hands.state["problems"][0]["offers"]
    hands.change(*offer["edits"])
    assert hands.state["problems"] == []
    assert hands.asked() is None
    assert 'by = "-11.2 cm"' in hands.text()


def test_what_waited_for_another_change_is_written_with_it(hands: Hands) -> None:
    def take_out(*at: str | int) -> dict[str, object]:
        return {"in": "garment", "do": "remove", "at": list(at)}

    hands.change(take_out("step", 0))
    assert not hands.change(take_out("block", 0))["written"]
    assert "without" not in hands.text()
    assert "a sleeve" in hands.state["problems"][0]["sentences"][0].lower()
    assert hands.change(take_out("block", 1))["written"]
    assert hands.state["problems"] == []
    assert [line for line in hands.text().splitlines() if line.startswith("name")] == ['name = "skirt"']


def test_an_edit_is_merged_with_what_an_editor_wrote(hands: Hands) -> None:
    old = hands.state["version"]
    hands.write('bust = "6 cm"', 'bust = "7 cm"')
    hands.write("[paper]", "# mine\n[paper]")
    state = hands.change(set_to(BY, "5 cm"), version=old)
    assert state["written"]
    assert state["asks"] is None
    assert 'bust = "7 cm"' in hands.text()
    assert 'by = "5 cm"' in hands.text()
    assert "# mine\n[paper]" in hands.text()
    hands.undo()
    assert hands.parts["head"]["undo"] == BY_HAND


def test_an_edit_finds_its_step_where_an_editor_has_moved_it(hands: Hands) -> None:
    old = hands.state["version"]
    hands.write("[[step]]", '[[step]]\nalter = "hem"\npiece = "sleeve"\ndepth = "3 cm"\n\n[[step]]')
    hands.change(set_to(BY, "5 cm"), version=old)
    assert 'depth = "3 cm"' in hands.text()
    assert 'alter = "lengthen"\npiece = "sleeve"\nby = "5 cm"' in hands.text()


def test_where_both_changed_one_value_she_is_asked(hands: Hands) -> None:
    old = hands.state["version"]
    hands.write('by = "3 cm"', 'by = "2 cm"')
    hands.restart()
    state = hands.change(set_to(BY, "5 cm"), version=old)
    assert not state["written"]
    assert (state["asks"]["at"], state["asks"]["here"], state["asks"]["there"]) == (BY, "5 cm", "2 cm")
    assert 'by = "2 cm"' in hands.text()
    assert hands.change(set_to(BY, "5 cm"))["written"]  # with the version that was answered: hers is to stand
    assert 'by = "5 cm"' in hands.text()


def test_two_pages_do_not_overwrite_each_other(hands: Hands) -> None:
    other = Hands(hands.folder)
    hands.change(set_to(BY, "5 cm"))
    state = other.change(set_to(BY, "6 cm"))
    assert state["asks"]["there"] == "5 cm"
    assert other.change(set_to(["cloth", "width"], "150 cm"))["written"]
    assert hands.look()["parts"].keys() >= {"cloth"}
    assert 'by = "5 cm"' in hands.text()
    other.desk.close()


def test_a_step_that_is_gone_is_said(hands: Hands) -> None:
    old = hands.state["version"]
    hands.write('[[step]]\nalter = "lengthen"\npiece = "sleeve"\nby = "3 cm"\n', "")
    with pytest.raises(CannotEdit, match="step 1 by"):
        hands.change(set_to(BY, "5 cm"), version=old)


def test_a_line_that_cannot_be_read_is_said_and_the_pieces_stay(hands: Hands) -> None:
    hands.write('by = "3 cm"', "by = 3 cm")
    hands.look()
    assert "line 24" in hands.state["problems"][0]["sentences"][0]
    assert "piece sleeve" in hands.parts
    with pytest.raises(CannotEdit, match="cannot be read"):
        hands.change(set_to(["fit"], "close"))
    hands.restart()
    assert hands.state["problems"]
    hands.undo()
    assert hands.state["problems"] == []
    assert 'by = "3 cm"' in hands.text()


def test_a_step_refused_in_the_file_leaves_the_rest_and_can_be_mended(hands: Hands) -> None:
    hands.write('by = "3 cm"', 'by = "-60 cm"')
    hands.restart()
    assert hands.state["problems"][0]["at"] == ["step", 0]
    assert hands.asked() is None or hands.asked() == "-60 cm"
    assert hands.change(set_to(["cloth", "width"], "150 cm"))["written"]
    assert hands.change(set_to(BY, "2 cm"))["written"]
    assert hands.state["problems"] == []


def test_a_step_is_switched_off_and_keeps_its_place(hands: Hands) -> None:
    long = hands.desk.drafted(FERRY).pattern.piece("sleeve")
    hands.change(set_to(["step", 0, "in_use"], False))
    assert 'by = "3 cm"\nin_use = false\n' in hands.text()
    assert hands.desk.drafted(FERRY).pattern.piece("sleeve") != long
    assert hands.parts["changed"]["cards"][0]["in_use"] is False
    hands.change({"in": "garment", "do": "remove", "at": ["step", 0, "in_use"]})
    assert hands.desk.drafted(FERRY).pattern.piece("sleeve") == long


def test_what_is_before_the_changed_step_is_not_made_again(hands: Hands) -> None:
    def stages(draft: Draft) -> tuple[object, ...]:
        return draft.stages

    hem = {
        "in": "garment",
        "do": "insert",
        "at": ["step", 1],
        "value": {"alter": "hem", "piece": "sleeve", "depth": "3 cm"},
    }
    hands.change(hem)
    before = stages(hands.desk.drafted(FERRY))
    hands.change(set_to(["step", 1, "depth"], "4 cm"))
    after = stages(hands.desk.drafted(FERRY))
    assert [one is other for one, other in zip(before, after, strict=True)] == [True, True, False]


def test_a_wearer_outside_the_folder_is_not_read(tmp_path: Path) -> None:
    folder = copy_of_examples(tmp_path) / "garments"
    hands = Hands(folder.parent)
    hands.desk.close()
    desk = Desk(Folder.at(folder))
    state = json.loads(desk.look("ferry-dress.toml", {}))
    assert "lies elsewhere" in state["problems"][0]["sentences"][0]
    assert state["parts"] == {}
    desk.close()


def test_names_that_would_be_markup_stay_words(hands: Hands) -> None:
    title = '<img src=x onerror="alert(1)">&amp;'
    hands.change(set_to(["title"], title))
    assert hands.parts["head"]["title"] == title
    hands.restart()
    assert hands.parts["head"]["title"] == title


PLACES: list[list[str | int]] = [
    *(
        ["title"],
        ["wearer"],
        ["fit"],
        ["like"],
        ["unit"],
        ["cloth", "width"],
        ["cloth", "x y"],
        ["measurements", "hip"],
    ),
    *(["block", 0, "length"], ["block", 1, "name"], ["step", 0, "by"], ["step", 0, "in_use"], ["step", 2, "hem"]),
    *(["block", 0, "ease", "waist"], ["sizes", "nest"], ["paper", "hem"], ["block", 0], ["step", 0], ["part", 0]),
]
VALUES = ["3 cm", "1 1/2 in", "abc", "", -1, 4.5, True, "knit", "../../etc/passwd", {"bust": "5 cm"}, [1], "1e9", 1e12]


@pytest.mark.parametrize(("seed", "often"), some([(1, 30), (2, 60)], every=2))
def test_whatever_is_asked_a_sentence_comes_of_it_and_undo_goes_back_to_the_first_letter(
    tmp_path: Path, seed: int, often: int
) -> None:
    chosen, name = random.Random(seed), "garments/slipway-skirt.toml"
    desk = Desk(Folder.at(copy_of_examples(tmp_path)))
    before = {path: path.read_bytes() for path in tmp_path.rglob("*.toml")}
    version, told = json.loads(desk.look(name, {}))["version"], list[str]()
    for number in range(often):
        at = chosen.choice(PLACES)
        act = chosen.choice(["set", "set", "set", "remove", "insert", "move"])
        edit = {"in": chosen.choice(["garment", "person"]), "do": act, "at": at, "value": chosen.choice(VALUES)}
        if act == "insert":
            edit |= {"at": ["step", chosen.randrange(2)], "value": {"alter": chosen.choice(["hem", "lengthen", "no"])}}
        try:
            if chosen.random() < 0.2:
                state = json.loads(desk.undo(name, {}, again=chosen.random() < 0.5))
            elif chosen.random() < 0.3:
                state = json.loads(desk.attempt(name, version, read_edits([edit]), {}))
            else:
                state = json.loads(desk.change(name, version, read_edits([edit]), f"change {number}", "", {}))
        except CannotEdit as refused:
            told.append(refused.sentence)
            continue
        assert all(each["sentences"] for each in state["problems"])
        version = state["version"] if chosen.random() < 0.8 else version
    while desk.log.asked(name) or desk.log.words(name)[0]:
        desk.undo(name, {}, again=False)
    assert {path: path.read_bytes() for path in before} == before
    assert all(sentence.endswith(".") for sentence in told)
    desk.close()


def test_a_file_that_leads_out_of_the_folder_does_not_keep_the_others_from_opening(tmp_path: Path) -> None:
    hands = Hands(copy_of_examples(tmp_path / "in"))
    log, text = hands.desk.log, hands.text()
    with log._transaction():  # as a kill leaves it between putting down and moving
        row = (FERRY, log._kept(text), log._kept(text + "\n"))
        log._open.execute("insert into to_write values (?, ?, ?)", row)
    hands.desk.close()
    (tmp_path / "out.toml").write_text(text)
    (hands.folder / FERRY).unlink()
    (hands.folder / FERRY).symlink_to(tmp_path / "out.toml")
    desk = Desk(Folder.at(hands.folder))
    assert json.loads(desk.look("garments/slipway-skirt.toml", {}))["problems"] == []
    with pytest.raises(NotInFolder):
        desk.look(FERRY, {})
    desk.close()
    (hands.folder / FERRY).unlink()
    (hands.folder / FERRY).write_text(text, encoding="utf-8")
    desk = Desk(Folder.at(hands.folder))
    desk.look(FERRY, {})
    assert hands.text() == text + "\n"
    desk.close()


def test_a_change_of_the_file_that_another_is_like_is_noticed(tmp_path: Path) -> None:
    folder = copy_of_examples(tmp_path)
    like = "garments/like.toml"
    (folder / like).write_text('like = "ferry-dress.toml"\ntitle = "Like it"\n')
    desk = Desk(Folder.at(folder))
    first = json.loads(desk.look(like, {}))
    assert first["parts"]["head"]["followed"] == [FERRY]
    assert first["parts"]["head"]["files"] == [like, "people/oda.toml"]
    text = (folder / FERRY).read_text(encoding="utf-8")
    (folder / FERRY).write_text(text.replace('length = "62 cm"', 'length = "72 cm"'), encoding="utf-8")
    second = json.loads(desk.look(like, first["hashes"]))
    assert (folder / FERRY).read_text(encoding="utf-8") != text
    assert second["version"] != first["version"]
    assert "piece skirt front" in second["parts"]
    edits = read_edits([set_to(["title"], "New")])
    third = json.loads(desk.change(like, first["version"], edits, "title", "", {}))
    assert third["written"]
    assert third["asks"] is None
    desk.close()
