"""Whoever moves things about while a folder is written or cleared: nothing outside it is written, moved or removed."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from drafting.errors import CannotWrite
from output.files import file_list, open_folder, write_folder
from output.files.mounted_disks import mounts_at
from output.files.open_folder import OpenFolder
from output.files.write_folder import LISTED_IN, write_all
from tests.output.files.test_write_folder import shown

SHEETS = {f"sheets/{n}.svg": b"ours" for n in range(6)}
HERS = {f"{n}.svg": b"hers" for n in range(6)}

BY_DESCRIPTOR = pytest.mark.skipif(not open_folder._TO_BE_HAD, reason="names are found by their paths there")


@pytest.fixture
def letters(tmp_path: Path) -> Path:
    """A folder of hers whose files have the names of ours."""
    folder = tmp_path / "letters"
    folder.mkdir()
    for name, content in HERS.items():
        (folder / name).write_bytes(content)
    return folder


def a_link(sheets: Path, letters: Path) -> None:
    sheets.rename(sheets.with_name("aside"))
    sheets.symlink_to(letters, target_is_directory=True)


def her_folder_itself(sheets: Path, letters: Path) -> None:
    sheets.rename(sheets.with_name("aside"))
    letters.rename(sheets)


def after(calls: int, deed: Callable[[], None]) -> Callable[[], None]:
    """Does the deed when it is called for the n-th time."""
    count = 0

    def called() -> None:
        nonlocal count
        count += 1
        if count == calls:
            deed()

    return called


def hers_in(tmp_path: Path) -> bool:
    """Whether all of hers still stands, wherever it was moved."""
    found = {path.name: path.read_bytes() for path in tmp_path.rglob("*.svg") if path.read_bytes() == b"hers"}
    return found == HERS


@BY_DESCRIPTOR
@pytest.mark.parametrize("swap", [a_link, her_folder_itself])
@pytest.mark.parametrize("calls", [2, 4, 6])
def test_a_folder_put_in_the_place_of_ours_while_it_is_written_is_not_written_into(
    calls: int,
    swap: Callable[[Path, Path], None],
    letters: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    sheets = tmp_path / "work" / ".trueseam-out.new" / "sheets"
    now = after(calls, lambda: swap(sheets, letters))
    move = OpenFolder.move

    def moved(one: OpenFolder, name: str, into: OpenFolder, new: str) -> None:
        if into.path.name == "sheets":
            now()
        move(one, name, into, new)

    monkeypatch.setattr(OpenFolder, "move", moved)
    try:
        write_all(tmp_path / "work" / "out", SHEETS)
    except CannotWrite:
        assert not (tmp_path / "work" / "out").exists()
    assert hers_in(tmp_path)


@BY_DESCRIPTOR
@pytest.mark.parametrize("swap", [a_link, her_folder_itself])
@pytest.mark.parametrize("calls", [1, 3, 6])
def test_a_folder_put_in_the_place_of_ours_while_it_is_cleared_is_not_cleared(
    calls: int,
    swap: Callable[[Path, Path], None],
    letters: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    out = tmp_path / "work" / "out"
    write_all(out, SHEETS)
    now = after(calls, lambda: swap(tmp_path / "work" / ".trueseam-out.new" / "sheets", letters))
    remove = OpenFolder.remove

    def removed(folder: OpenFolder, name: str) -> None:
        now()
        remove(folder, name)

    monkeypatch.setattr(OpenFolder, "remove", removed)
    said: list[str] = []
    write_all(out, {"a.svg": b"new"}, said.append)
    assert shown(out) == {"a.svg": b"new"}
    assert hers_in(tmp_path)
    assert len(said) == 1
    assert ".trueseam-out.new" in said[0]


def test_where_there_are_no_descriptors_a_folder_is_written_and_cleared_by_its_path(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(open_folder, "_TO_BE_HAD", False)
    for files in (SHEETS, {"a.svg": b"new", "size-92/a.svg": b"92"}):
        write_all(tmp_path / "out", files)
        assert shown(tmp_path / "out") == files
    assert os.listdir(tmp_path) == ["out"]


def test_what_cannot_be_removed_is_told_and_the_next_run_names_what_stands_in_the_way(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "out"
    write_all(out, SHEETS)
    remove = OpenFolder.remove

    def immutable(folder: OpenFolder, name: str) -> None:
        if name == "3.svg":
            raise PermissionError(1, os.strerror(1))  # as of a file with chattr +i
        remove(folder, name)

    said: list[str] = []
    with monkeypatch.context() as patched:
        patched.setattr(OpenFolder, "remove", immutable)
        write_all(out, {"a.svg": b"new"}, said.append)
        assert shown(out) == {"a.svg": b"new"}
        (told,) = said
        assert f'The new files stand in "{out}"' in told
        assert str(tmp_path / ".trueseam-out.new") in told
        with pytest.raises(CannotWrite, match=r"\.trueseam-out\.new.* stands in the way and cannot be removed") as way:
            write_all(out, SHEETS, said.append)
        assert str(tmp_path / ".trueseam-out.new") in str(way.value)
        assert shown(out) == {"a.svg": b"new"}
    write_all(out, SHEETS, said.append)  # it can be removed again
    assert len(said) == 1
    assert os.listdir(tmp_path) == ["out"]


def test_what_is_mounted_in_a_folder_is_seen_and_left_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = tmp_path / "out"
    write_all(out, SHEETS)
    table = tmp_path / "mountinfo"
    # a line as proc_pid_mountinfo(5) shows it
    line = "36 35 98:0 /mnt1 {} rw,noatime master:1 - ext3 /dev/root rw,errors=continue\n"
    table.write_text(line.format(str(out / "a b").replace(" ", "\\040")) + line.format(tmp_path) + "\n")
    assert mounts_at(out, table=table) == ("a b",)
    assert mounts_at(tmp_path, table=table) == ("", "out/a b")
    assert mounts_at(tmp_path / "ou", table=table) == ()
    assert mounts_at(tmp_path, table=tmp_path / "none") == ()
    for module in (write_folder, file_list):
        monkeypatch.setattr(module, "mounts_at", lambda folder: mounts_at(folder, table=table))
    with pytest.raises(CannotWrite, match=r'"a b" in it is a disk of its own'):
        write_all(out, {"a.svg": b"new"})
    assert shown(out) == SHEETS


@pytest.mark.parametrize(
    ("name", "content", "hers"),
    [
        (".DS_Store", b"\x00\x00\x00\x01Bud1\x00\x00", False),
        ("Thumbs.db", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1\x00", False),
        ("desktop.ini", b"[ViewState]\r\nMode=\r\nVid=\r\nFolderType=Pictures\r\n", False),
        ("desktop.ini", "[.ShellClassInfo]\r\n".encode("utf-16"), False),
        ("desktop.ini", b"[.ShellClassInfo]\r\nInfoTip=take in 2 cm at the waist\r\n", True),
        ("desktop.ini", b"my notes", True),
        (".DS_Store", b"my notes", True),
        ("Thumbs.db", b"my notes", True),
        (".DS_Store", b"\x00\x00\x00\x01Bud1" + bytes(1_000_000), True),
    ],
)
def test_what_only_has_the_name_of_what_a_file_browser_leaves_is_hers(
    name: str, content: bytes, hers: bool, tmp_path: Path
) -> None:
    write_all(tmp_path / "out", SHEETS)
    (tmp_path / "out" / name).write_bytes(content)
    if hers:
        with pytest.raises(CannotWrite, match=name):
            write_all(tmp_path / "out", SHEETS)
        assert (tmp_path / "out" / name).read_bytes() == content
    else:
        write_all(tmp_path / "out", SHEETS)
        assert shown(tmp_path / "out") == SHEETS


@pytest.mark.parametrize("end", ["new", "old"])
@pytest.mark.parametrize("name", ["letter.txt", ".partly-written", "Thumbs.db"])
def test_a_folder_with_the_name_of_our_work_but_no_list_is_hers(end: str, name: str, tmp_path: Path) -> None:
    beside = tmp_path / f".trueseam-out.{end}"
    beside.mkdir()
    (beside / name).write_bytes(b"hers")
    with pytest.raises(CannotWrite, match="which trueseam did not write; move it away"):
        write_all(tmp_path / "out", SHEETS)
    assert (beside / name).read_bytes() == b"hers"
    assert os.listdir(tmp_path) == [beside.name]


def test_a_list_of_which_a_part_was_written_is_cleared(tmp_path: Path) -> None:
    beside = tmp_path / ".trueseam-out.new"
    listed = file_list.list_of(SHEETS)
    for long in (0, 1, 20, 60, len(listed)):
        beside.mkdir()
        (beside / file_list.PARTLY).write_bytes(listed[:long])
        write_all(tmp_path / "out", SHEETS)
        assert os.listdir(tmp_path) == ["out"]


@pytest.mark.parametrize("name", [".trueseam-out.new", ".trueseam-out.old", ".trueseam-out.new/below"])
def test_a_draft_into_a_folder_that_is_worked_in_is_refused(name: str, tmp_path: Path) -> None:
    with pytest.raises(CannotWrite, match="choose another name"):
        write_all(tmp_path / name, SHEETS)
    assert not os.listdir(tmp_path)
    assert LISTED_IN not in os.listdir(tmp_path)
