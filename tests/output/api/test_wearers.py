"""The same garment for several people: in order, in folders of their own, one person's fault by itself."""

from __future__ import annotations

import json
import os
import sys
import threading
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from drafting.body.person import person
from drafting.checks import Verdict
from drafting.errors import InputProblems
from output.api import Garment, block, draft, draft_for, measurements
from output.api.wearers import folder_names

BASICS = {"height": 1680.0, "bust": 920.0, "waist": 740.0, "hip": 990.0}
ODA = person(BASICS, name="Oda", unit="in")
RUNA = person({**BASICS, "hip": 1040.0}, name="Runa")
NOBODY = person({**BASICS, "armhole_depth": 330.0, "back_waist_length": 300.0}, name="Nobody")
SKIRT = Garment("Quay skirt", RUNA, (block("skirt", length=600),))
DRESS = Garment("Quay dress", RUNA, (block("bodice"), block("skirt", length=600)))

SKIRT_FILE = """
title = "Quay skirt"
wearer = "nobody-has-this-file.toml"
[[block]]
name = "skirt"
length = "60 cm"
[paper]
size = "A0"
"""
WOMAN = '{0}body = "woman"\nunit = "cm"\n[measurements]\nheight = 168\nbust = 92\nwaist = 74\nhip = {1}\n'


def written(path: Path, text: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def test_each_is_drafted_to_her_own_measurements_and_told_in_their_order() -> None:
    told: list[tuple[str, float]] = []
    found = draft_for(DRESS, [ODA, NOBODY, RUNA], tell=lambda whose, share: told.append((whose, share)))
    assert [(each.name, each.verdict, each.unit) for each in found] == [
        ("Oda", Verdict.PASS, "in"),
        ("Nobody", None, "cm"),
        ("Runa", Verdict.PASS, "cm"),
    ]
    hips = {each.name: next((one.body for one in each.finished if one.name == "hip"), None) for each in found}
    assert hips == {"Oda": 990.0, "Nobody": None, "Runa": 1040.0}
    assert found[1].problems
    assert not found[0].problems
    assert sorted(whose for whose, _ in told) == ["Nobody", "Oda", "Runa"]
    assert [share for _, share in told] == pytest.approx([1 / 3, 2 / 3, 1.0])
    assert list(found[2].finished) == list(measurements(draft(DRESS)))


def test_any_executor_may_be_given_and_a_fault_of_ours_in_one_draft_stops_no_other(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    from output.api import wearers

    here, usual = set[str](), wearers.draft

    def breaks(garment: Garment) -> object:
        here.add(threading.current_thread().name)
        if garment.wearer.name == "Oda":
            raise ZeroDivisionError("nought")
        return usual(garment)

    monkeypatch.setattr(wearers, "draft", breaks)
    with ThreadPoolExecutor(2, "ours") as pool:
        oda, runa = draft_for(SKIRT, [ODA, RUNA], executor=pool)
    assert oda.problems == ("This is a fault of trueseam (ZeroDivisionError: nought): draft it by itself.",)
    assert runa.verdict is Verdict.PASS
    assert all(name.startswith("ours") for name in here)


def test_each_has_a_folder_of_her_own_even_where_names_clash_and_one_file_is_broken(tmp_path: Path) -> None:
    garment = written(tmp_path / "skirt.toml", SKIRT_FILE)
    mia = written(tmp_path / "mia.toml", WOMAN.format('name = "Mia"\n', 99))
    other = written(tmp_path / "cousins" / "Mia.toml", WOMAN.format('name = "Mia"\n', 104))
    broken = written(tmp_path / "tor.toml", "name = \n")
    found = draft_for(garment, [mia, other, broken, tmp_path / "gone.toml"], to=tmp_path / "out")
    assert sorted(each.name for each in (tmp_path / "out").iterdir()) == ["Mia-2", "mia"]
    hips = [json.loads((Path(each.folder) / "pattern.json").read_text())["finished"] for each in found[:2]]
    assert [next(one["body"] for one in each if one["name"] == "hip") for each in hips] == [990.0, 1040.0]
    assert [each.name for each in found] == ["Mia", "Mia", "tor", "gone"]
    assert all(each.problems and not each.folder for each in found[2:])


def test_folders_are_named_apart_in_any_spelling() -> None:
    names = folder_names([Path("a/mia.toml"), Path("b/MIA.toml"), Path("c/mia-2.toml"), person(BASICS, name="../Åse/")])
    assert names == ("mia", "MIA-2", "mia-2-2", "-Åse-")


def test_no_folder_has_the_name_of_the_page_beside_it() -> None:
    assert folder_names([Path("Index.html.toml"), Path("mia.toml")]) == ("Index.html-2", "mia")


@pytest.mark.skipif(sys.platform != "linux", reason="other systems have no file names that are no text")
def test_a_file_whose_name_is_no_text_is_drafted_and_told_of(tmp_path: Path) -> None:
    garment = written(tmp_path / "skirt.toml", SKIRT_FILE)
    nameless = written(tmp_path / os.fsdecode(b"\xff\xfe.toml"), WOMAN.format('name = "Mia"\n', 99))
    broken = written(tmp_path / os.fsdecode(b"\xffbad.toml"), "name = \n")
    found = draft_for(garment, [nameless, broken], to=tmp_path / "out")
    assert [each.verdict is None for each in found] == [False, True]
    "".join(text for each in found for text in (each.name, each.place, each.folder, *each.problems)).encode()
    assert (Path(found[0].folder) / "report.html").is_file()


def test_a_fault_of_the_garment_is_told_once_and_for_all(tmp_path: Path) -> None:
    garment = written(tmp_path / "skirt.toml", SKIRT_FILE.replace("length", "lenght"))
    mia = written(tmp_path / "mia.toml", WOMAN.format('name = "Mia"\n', 99))
    with pytest.raises(InputProblems, match="lenght"):
        draft_for(garment, [tmp_path / "gone.toml", mia], to=tmp_path / "out")
    assert not (tmp_path / "out").exists()
