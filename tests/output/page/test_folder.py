"""What is found in a folder, and what never is."""

from __future__ import annotations

import json
import os
import tomllib
from pathlib import Path
from typing import Any

import pytest

from output.api import BLOCKS, TrueseamError
from output.page.beginning import begin, kinds_to_begin
from output.page.desk import Desk
from output.page.edits import CannotEdit, read_edits
from output.page.folder import Folder, NotInFolder
from output.page.garment_pictures import GarmentPictures
from output.page.listing import UNREAD, listed
from output.page.open_log import open_log
from output.page.texts import NoText
from output.page.views.block_picture import picture_of_kind
from tests.output.page.running_page import FERRY, copy_of_examples

LENGTHS = {"height": 66, "bust": "36 1/2", "waist": 29, "hip": "39,5"}


@pytest.mark.parametrize(
    ("chart", "size", "kind"), [("women", 96, "dress"), ("girls", 104, "child's dress"), ("babies", 72, "romper")]
)
def test_a_garment_begun_in_a_size_of_a_chart_is_drafted_in_it(
    tmp_path: Path, chart: str, size: int, kind: str
) -> None:
    folder = Folder.at(tmp_path)
    asked = {"kind": "garment", "title": "First", "as": kind, "sizes": {"chart": chart, "size": size}}
    file = begin(folder, listed(folder), asked)
    state = json.loads(Desk(folder).look(file, {}))
    assert state["problems"] == []
    who = state["parts"]["who"]
    assert who["chart"].startswith(f"size {size}")
    assert size in who["choices"]
    assert who["sizes"][0]["at"] == ["sizes", "bust" if chart == "women" else "height"]


@pytest.mark.parametrize(
    "sizes", [{}, {"chart": "men", "size": 92}, {"chart": "women", "size": 93}, {"chart": "women", "size": "92"}]
)
def test_a_size_that_is_not_there_begins_nothing(tmp_path: Path, sizes: dict[str, object]) -> None:
    folder = Folder.at(tmp_path)
    with pytest.raises(CannotEdit, match="which size it is"):
        begin(folder, listed(folder), {"kind": "garment", "title": "First", "as": "dress", "sizes": sizes})
    assert list(tmp_path.iterdir()) == []


def test_a_garment_made_for_somebody_can_be_made_in_the_nearest_size_and_back(tmp_path: Path) -> None:
    folder = Folder.at(copy_of_examples(tmp_path))
    desk = Desk(folder)
    state = json.loads(desk.look(FERRY, {}))
    before = (tmp_path / FERRY).read_text()
    [offer] = state["parts"]["who"]["charts"]
    assert offer["words"] == "size 100 for women"
    state = json.loads(desk.change(FERRY, "", read_edits(offer["edits"]), "size 100", "", {}))
    assert state["problems"] == []
    assert state["parts"]["who"]["chart"] == "size 100"
    assert state["parts"]["who"]["charts"] == []
    assert not any(row["hers"] for row in state["parts"]["who"]["rows"])
    assert next(row["mm"] for row in state["parts"]["who"]["rows"] if row["key"] == "bust_girth") == 1000.0
    desk.undo(FERRY, {}, again=False)
    assert (tmp_path / FERRY).read_text() == before
    desk.close()


def test_links_out_of_the_folder_are_not_followed(tmp_path: Path) -> None:
    inside = tmp_path / "inside"
    inside.mkdir()
    (tmp_path / "out.toml").write_text("")
    (inside / "in.toml").write_text("")
    (inside / "to_out.toml").symlink_to(tmp_path / "out.toml")
    (inside / "to_in.toml").symlink_to(inside / "in.toml")
    (inside / "round").symlink_to(inside, target_is_directory=True)
    (inside / "loop.toml").symlink_to(inside / "loop.toml")
    (inside / "place.toml").mkdir()
    folder = Folder.at(inside)
    assert folder.files() == ("in.toml", "to_in.toml")
    for name in ("to_out.toml", "loop.toml", "round/../../out.toml", "../out.toml", str(tmp_path / "out.toml")):
        with pytest.raises(NotInFolder):
            folder.file(name)


def test_a_home_full_of_folders_is_looked_at_no_longer_than_it_takes(tmp_path: Path) -> None:
    for number in range(300):
        (tmp_path / f"{number:03}" / "deep" / "deeper" / "deepest").mkdir(parents=True)
    (tmp_path / "z.toml").write_text("")
    (tmp_path / "000" / "deep" / "deeper" / "deepest" / "far.toml").write_text("")
    assert Folder.at(tmp_path).files() == ("z.toml",)


def test_a_folder_whose_hidden_folder_leads_elsewhere_is_refused(tmp_path: Path) -> None:
    inside = tmp_path / "inside"
    inside.mkdir()
    (inside / ".trueseam").symlink_to(tmp_path, target_is_directory=True)
    with pytest.raises(TrueseamError, match="leads out"):
        Desk(Folder.at(inside))
    assert sorted(path.name for path in tmp_path.iterdir()) == ["inside"]


@pytest.mark.parametrize("name", ["undo.sqlite", "undo.sqlite-wal", "undo.sqlite-shm"])
def test_a_log_that_is_a_link_to_elsewhere_is_refused(tmp_path: Path, name: str) -> None:
    (tmp_path / "inside" / ".trueseam").mkdir(parents=True)
    (tmp_path / "inside" / ".trueseam" / name).symlink_to(tmp_path / "cookies.sqlite")
    with pytest.raises(TrueseamError, match="leads out"):
        Desk(Folder.at(tmp_path / "inside"))
    assert not (tmp_path / "cookies.sqlite").exists()


def test_more_names_than_a_hand_writes_are_not_read(tmp_path: Path) -> None:
    (tmp_path / "bomb.toml").write_text("".join(f"[a{number}.b.c.d]\n" for number in range(3000)), encoding="utf-8")
    folder = Folder.at(tmp_path)
    assert listed(folder)["garments"] == [
        {"file": "bomb.toml", "title": "bomb.toml", "for": "", "chart": False, "problem": UNREAD}
    ]
    desk = Desk(folder)
    told = desk.look("bomb.toml", {})
    assert len(told) < 2000
    (problem,) = json.loads(told)["problems"]
    assert "2,999 names and headings" in problem["sentences"][0]
    desk.close()


def test_a_damaged_log_is_put_aside(tmp_path: Path) -> None:
    (tmp_path / ".trueseam").mkdir()
    (tmp_path / ".trueseam" / "undo.sqlite").write_bytes(b"nothing that was ever a log " * 100)
    (tmp_path / ".trueseam" / "undo.sqlite-wal").write_bytes(b"what waited for it")
    opened = open_log(Folder.at(tmp_path))
    opened.log.close()
    assert "set aside as .trueseam/undo.damaged" in opened.told
    again = open_log(Folder.at(tmp_path))
    again.log.close()
    assert again.told == ""
    assert (tmp_path / ".trueseam" / "undo.damaged").is_file()
    assert not (tmp_path / ".trueseam" / "undo.sqlite-wal").exists()


def shown(desk: Desk) -> list[dict[str, Any]]:
    """The garments of a folder, with all pictures."""
    garments: list[dict[str, Any]] = listed(desk.folder)["garments"]
    assert GarmentPictures(desk).add_to(garments, within=60.0)
    return garments


def test_whose_a_garment_is_is_told_by_the_file_that_says_so(tmp_path: Path) -> None:
    folder = copy_of_examples(tmp_path)
    (folder / "more").mkdir()
    (folder / "more" / "oda.toml").write_bytes((folder / "people" / "oda.toml").read_bytes())
    (folder / "garments" / "like.toml").write_text('like = "ferry-dress.toml"\ntitle = "Like it"\n')
    (folder / "garments" / "other.toml").write_text('title = "Other"\nwearer = "../more/oda.toml"\n')
    told = {each["file"]: each for each in listed(Folder.at(folder))["garments"]}
    assert told["garments/like.toml"]["for"] == told[FERRY]["for"] == "people/oda.toml"
    assert told["garments/other.toml"]["for"] == "more/oda.toml"
    chart = told["garments/tollhouse-dress.toml"]
    assert (chart["for"], chart["chart"]) == ("", True)


def test_first_files_are_written_and_can_be_drafted(tmp_path: Path) -> None:
    desk = Desk(Folder.at(tmp_path))
    assert listed(desk.folder)["lacks"] == "people"
    person = begin(
        desk.folder,
        listed(desk.folder),
        {"kind": "person", "name": 'Ines "the <b>quick</b>"', "unit": "in"} | {"body": "woman", "lengths": LENGTHS},
    )
    assert listed(desk.folder)["lacks"] == "garments"
    told = {"kind": "garment", "title": "../../Tea\ndress", "wearer": person, "blocks": ["bodice", "skirt"]}
    first = begin(desk.folder, listed(desk.folder), told)
    second = begin(desk.folder, listed(desk.folder), told)
    assert (first, second) == ("garments/tea-dress.toml", "garments/tea-dress-2.toml")
    state = json.loads(desk.look(first, {}))
    assert state["problems"] == []
    assert state["unit"] == "in"
    assert state["parts"]["head"]["verdict"]
    garments, pictures = listed(desk.folder)["garments"], GarmentPictures(desk)
    assert not pictures.add_to(garments, within=0.0)
    assert [each["picture"] for each in garments] == [None, None]
    assert pictures.add_to(garments, within=60.0)
    assert all(each["picture"].startswith("<svg") for each in garments)
    assert pictures.add_to(listed(desk.folder)["garments"], within=0.0)  # they are kept
    desk.close()


@pytest.mark.parametrize(
    ("told", "said"),
    [
        ({"kind": "person", "name": "A", "unit": "cm", "body": "woman", "lengths": {}}, "Height: It is needed"),
        ({"kind": "person", "name": "", "unit": "cm", "body": "woman", "lengths": LENGTHS}, "A name"),
        ({"kind": "person", "name": "A", "unit": "ell", "body": "woman", "lengths": LENGTHS}, "unit"),
        ({"kind": "person", "name": "A", "unit": "cm", "body": "woman", "lengths": LENGTHS}, "That would be"),
        ({"kind": "garment", "title": "A", "wearer": "../out.toml", "blocks": ["skirt"]}, "whose it is"),
        ({"kind": "garment", "title": "A", "wearer": "people/oda.toml", "blocks": ["cape"]}, "made of"),
        ({"kind": "garment", "title": "A", "wearer": "people/oda.toml", "blocks": []}, "made of"),
    ],
)
def test_what_cannot_be_begun_is_said(tmp_path: Path, told: dict[str, object], said: str) -> None:
    desk = Desk(Folder.at(copy_of_examples(tmp_path)))
    before = desk.folder.files()
    with pytest.raises(CannotEdit, match=said):
        begin(desk.folder, listed(desk.folder), told)
    assert desk.folder.files() == before
    desk.close()


def test_files_that_cannot_be_read_are_named(tmp_path: Path) -> None:
    folder = copy_of_examples(tmp_path, FERRY)
    (folder / "garments" / "latin.toml").write_bytes('title = "Gr\xf6\xdfe"\n'.encode("latin-1"))
    (folder / "garments" / "broken.toml").write_text("title = ")
    (folder / "notes.toml").write_text("a = 1")
    desk = Desk(Folder.at(folder))
    told = {each["file"]: each.get("problem") for each in shown(desk)}
    assert told["garments/latin.toml"] == "It cannot be read as it stands."
    assert told["garments/broken.toml"].startswith("garments/broken.toml, line 1: read")
    assert told[FERRY] is None
    assert "notes.toml" not in told
    with pytest.raises(ValueError, match=r"latin.toml holds letters"):
        desk.look("garments/latin.toml", {})
    desk.close()


def test_a_wearer_that_is_no_text_keeps_no_other_garment_from_being_listed(tmp_path: Path) -> None:
    folder = copy_of_examples(tmp_path, FERRY)
    (folder / "people" / "latin.toml").write_bytes('name = "Gr\xf6\xdfe"\n'.encode("latin-1"))
    (folder / "garments" / "hers.toml").write_text('title = "Hers"\nwearer = "../people/latin.toml"\n')
    (folder / "garments" / "deep.toml").write_text("a = " + "[" * 9000)
    (folder / "garments" / "like-deep.toml").write_text('like = "deep.toml"\n')
    desk = Desk(Folder.at(folder))
    told = {each["file"]: each.get("problem") for each in shown(desk)}
    assert told["garments/hers.toml"] == "It cannot be read as it stands."
    assert told["garments/deep.toml"].startswith("garments/deep.toml")
    assert told["garments/like-deep.toml"]
    assert told[FERRY] is None
    desk.close()


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no such files on this system")
def test_a_file_that_never_ends_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.toml")
    (tmp_path / "like.toml").write_text('like = "pipe.toml"\n')
    desk = Desk(Folder.at(tmp_path))
    told = {each["file"]: each.get("problem") for each in shown(desk)}
    assert told["pipe.toml"] == "It cannot be read as it stands."
    with pytest.raises(NoText, match="no file that text can be read from"):
        desk.look("pipe.toml", {})
    desk.close()


@pytest.mark.parametrize(("wearer", "body"), [("people/runa.toml", "woman"), ("people/sanne.toml", "girl")])
def test_a_garment_may_begin_as_any_kind_and_stands_at_once(tmp_path: Path, wearer: str, body: str) -> None:
    """Of what cloth too: a top for a knit is not begun of a woven. Nothing that it begins as is warned of."""
    place = copy_of_examples(tmp_path)
    desk, folder = Desk(Folder.at(place)), Folder.at(place)
    rows = kinds_to_begin(body)
    assert {name for row in rows for name in row["blocks"]} == {each.name for each in BLOCKS if body in each.bodies}
    for row in rows:
        given = {"kind": "garment", "title": row["name"], "wearer": wearer, "as": row["name"]}
        file = begin(folder, listed(folder), given)
        told = json.loads(desk.look(file, {}))
        assert told["problems"] == [], row["name"]
        assert told["parts"]["together"]["faults"] == [], row["name"]
        written = [table["name"] for table in tomllib.loads((place / file).read_text())["block"]]
        assert set(written) == set(row["blocks"])
    desk.close()


def test_what_a_reader_calls_a_garment_is_what_it_may_begin_as() -> None:
    rows = kinds_to_begin("woman")
    words = {word for row in rows for word in (row["name"], *row["also"])}
    assert words >= {"dress", "smock dress", "jumpsuit", "shirt", "T-shirt", "cardigan", "button skirt", "trousers"}
    assert all(picture_of_kind(row["name"], "woman")["paths"] for row in rows)


@pytest.mark.parametrize(
    ("name", "blocks"),
    [
        ("circle skirt", ["bodice", "sleeve", "circle skirt"]),
        ("trousers", ["bodice", "sleeve", "trousers"]),
        ("knit sleeve", ["skirt", "knit top", "knit sleeve"]),
    ],
)
def test_a_block_put_in_brings_what_it_needs_and_takes_out_what_is_in_its_way(
    tmp_path: Path, name: str, blocks: list[str]
) -> None:
    place = copy_of_examples(tmp_path)
    desk, file = Desk(Folder.at(place)), "garments/plain.toml"
    (place / file).write_text(
        'title = "Plain"\nwearer = "../people/oda.toml"\n# kept\n'
        + "".join(f'[[block]]\nname = "{each}"\n' for each in ("bodice", "sleeve", "skirt"))
        + '[[part]]\nname = "neck facing"\n',
        encoding="utf-8",
    )
    told = json.loads(desk.look(file, {}))
    row = next(each for each in told["parts"]["what"]["blocks"] if each["name"] == name)
    after = json.loads(desk.change(file, told["version"], read_edits(row["put_in"]), f"{name} put in", "", {}))
    assert after["problems"] == []
    there = [each for each in after["parts"]["what"]["blocks"] if each["there"]]
    assert sorted(each["name"] for each in there) == sorted(blocks)
    text = (place / file).read_text(encoding="utf-8")
    assert "# kept" in text
    assert ('kind = "jersey"' in text) == (name == "knit sleeve")
    # and out again: what is drawn to it goes too
    top = next(each for each in there if each["name"] in ("bodice", "knit top"))
    left = json.loads(desk.change(file, after["version"], read_edits(top["take_out"]), "out", "", {}))
    assert [each["name"] for each in left["parts"]["what"]["blocks"] if each["there"]] == [
        blocks[-1] if "knit" not in name else "skirt"
    ]
    assert left["problems"] == []
    desk.close()
