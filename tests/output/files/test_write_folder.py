"""Files are written whole or not at all, and nothing of a person's is touched."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from drafting.errors import CannotWrite
from output.files.write_folder import LISTED_IN, stage, write_all

ONE = {"a.svg": b"first", "report.html": b"report"}


def shown(folder: Path) -> dict[str, bytes]:
    """Every file in a folder but the list, by name."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path != folder / LISTED_IN
    }


def test_writes_every_file_and_gives_their_paths_in_order(tmp_path: Path) -> None:
    folder = tmp_path / "new" / "deeper"
    paths = write_all(folder, ONE)
    assert paths == (folder / "a.svg", folder / "report.html")
    assert shown(folder) == ONE


def test_a_name_may_lead_into_a_folder_below(tmp_path: Path) -> None:
    write_all(tmp_path, {"sheets/1.svg": b"1"})
    assert (tmp_path / "sheets" / "1.svg").read_bytes() == b"1"


def test_the_list_holds_the_sha256_of_each_file(tmp_path: Path) -> None:
    write_all(tmp_path, {"empty": b""})
    listed = json.loads((tmp_path / LISTED_IN).read_text())
    # the SHA-256 of nothing: NIST FIPS 180-4 example values
    assert listed["files"] == {"empty": "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"}


def test_a_second_run_replaces_its_own_files_and_removes_those_no_longer_wanted(tmp_path: Path) -> None:
    write_all(tmp_path / "out", {**ONE, "sheets/9.svg": b"9"})
    write_all(tmp_path / "out", {"a.svg": b"second"})
    assert shown(tmp_path / "out") == {"a.svg": b"second"}
    assert not (tmp_path / "out" / "sheets").exists()
    assert os.listdir(tmp_path) == ["out"]


def test_a_file_of_ours_that_she_removed_is_written_again(tmp_path: Path) -> None:
    write_all(tmp_path / "out", ONE)
    (tmp_path / "out" / "a.svg").unlink()
    write_all(tmp_path / "out", ONE)
    assert shown(tmp_path / "out") == ONE


def test_the_folder_keeps_who_may_look_into_it(tmp_path: Path) -> None:
    write_all(tmp_path / "out", ONE)
    (tmp_path / "out").chmod(0o700)
    write_all(tmp_path / "out", ONE)
    assert (tmp_path / "out").stat().st_mode & 0o777 == 0o700


def test_what_a_file_browser_leaves_in_a_folder_is_nobodys_work(tmp_path: Path) -> None:
    write_all(tmp_path / "out", {"sheets/1.svg": b"1"})
    for name in (".DS_Store", "sheets/.DS_Store", "Thumbs.db"):
        (tmp_path / "out" / name).write_bytes(b"")
    write_all(tmp_path / "out", ONE)
    assert shown(tmp_path / "out") == ONE


def her_file(folder: Path) -> None:
    (folder / "notes.txt").write_bytes(b"hers")


def her_sheet(folder: Path) -> None:
    (folder / "sheets" / "mine.svg").write_bytes(b"hers")


def her_folder(folder: Path) -> None:
    (folder / "photos").mkdir()


def a_changed_file(folder: Path) -> None:
    (folder / "report.html").write_bytes(b"with my notes")


def a_folder_for_a_file(folder: Path) -> None:
    (folder / "a.svg").unlink()
    (folder / "a.svg").mkdir()


def a_pipe_for_a_file(folder: Path) -> None:
    (folder / "a.svg").unlink()
    os.mkfifo(folder / "a.svg")


def a_link_for_a_file(folder: Path) -> None:
    (folder / "a.svg").rename(folder.parent / "letter.txt")
    (folder / "a.svg").symlink_to(folder.parent / "letter.txt")


def a_dangling_link(folder: Path) -> None:
    (folder / "b.svg").symlink_to(folder / "nowhere")


def a_linked_folder(folder: Path) -> None:
    (folder / "sheets").rename(folder.parent / "letters")
    (folder / "sheets").symlink_to(folder.parent / "letters", target_is_directory=True)


@pytest.mark.parametrize(
    ("put_there", "told"),
    [
        (her_file, '"notes.txt" in it'),
        (her_sheet, '"sheets/mine.svg" in it'),
        (her_folder, '"photos" in it'),
        (a_changed_file, '"report.html" in it'),
        (a_folder_for_a_file, '"a.svg" in it'),
        (a_pipe_for_a_file, '"a.svg" in it'),
        (a_link_for_a_file, '"a.svg" (a link) in it'),
        (a_dangling_link, '"b.svg" (a link) in it'),
        (a_linked_folder, '"sheets" (a link) in it'),
    ],
)
def test_a_folder_that_holds_what_is_not_ours_is_left_alone_and_named(
    put_there: Callable[[Path], None], told: str, tmp_path: Path
) -> None:
    folder = tmp_path / "out"
    write_all(folder, {**ONE, "sheets/1.svg": b"1"})
    put_there(folder)
    before = sorted((str(path), path.lstat().st_mtime_ns) for path in tmp_path.rglob("*"))
    with pytest.raises(CannotWrite) as caught:
        write_all(folder, {"a.svg": b"second"})
    assert told in str(caught.value)
    assert "Nothing was changed there" in str(caught.value)
    assert sorted((str(path), path.lstat().st_mtime_ns) for path in tmp_path.rglob("*")) == before


def test_a_folder_of_hers_is_left_alone_even_if_no_name_of_ours_stands_in_it(tmp_path: Path) -> None:
    people = tmp_path / "people"
    people.mkdir()
    (people / "marit.toml").write_bytes(b"hers")
    with pytest.raises(CannotWrite, match=r'"marit\.toml" in it were not written by trueseam'):
        write_all(people, ONE)
    assert shown(people) == {"marit.toml": b"hers"}


def test_at_most_five_of_what_is_not_ours_are_named(tmp_path: Path) -> None:
    for n in range(9):
        (tmp_path / f"{n}.txt").write_bytes(b"")
    with pytest.raises(CannotWrite, match=r'"4\.txt" and 4 more in it'):
        write_all(tmp_path, ONE)


def test_an_empty_folder_is_written_into_and_a_link_to_one_followed(tmp_path: Path) -> None:
    (tmp_path / "true").mkdir()
    (tmp_path / "out").symlink_to(tmp_path / "true")
    for _ in range(2):
        write_all(tmp_path / "out", ONE)
    assert (tmp_path / "out").is_symlink()
    assert shown(tmp_path / "true") == ONE


@pytest.mark.parametrize(
    "broken",
    [
        b"[",
        b"[]",
        b'{"format": "other", "version": 1, "files": {}}',
        b'{"format": "trueseam files", "version": 2, "files": {}}',
        b'{"files": 3}',
        b'{"format": "trueseam files", "version": 1, "files": {"a.svg": 3}}',
        b'{"format": "trueseam files", "version": 1, "files": {"a.svg": "00"}}',
        b"\xff\xfe\x00",
        b"[" * 100_000,
        b" " * 5_000_000,
    ],
    ids=range(10),
)
def test_a_list_that_does_not_read_is_refused(broken: bytes, tmp_path: Path) -> None:
    (tmp_path / LISTED_IN).write_bytes(broken)
    with pytest.raises(CannotWrite, match=f"its {LISTED_IN} does not read"):
        write_all(tmp_path, ONE)
    assert (tmp_path / LISTED_IN).read_bytes() == broken


def test_a_list_that_is_a_link_or_a_pipe_is_refused(tmp_path: Path) -> None:
    write_all(tmp_path / "other", ONE)
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / LISTED_IN).symlink_to(tmp_path / "other" / LISTED_IN)
    with pytest.raises(CannotWrite, match=LISTED_IN):
        write_all(tmp_path / "out", ONE)
    (tmp_path / "out" / LISTED_IN).unlink()
    os.mkfifo(tmp_path / "out" / LISTED_IN)
    with pytest.raises(CannotWrite, match=LISTED_IN):
        write_all(tmp_path / "out", ONE)


@pytest.mark.parametrize(
    "name",
    [
        *("{outside}/letter.txt", "../letter.txt", "../../letter.txt", "sheets/../../letter.txt", "sheets/../a.svg"),
        *("..", ".", "", "/", "./a.svg", "a.svg/", "sheets//1.svg", "..\\\\letter.txt", "C:\\\\letter.txt", "C:letter"),
        *("~/letter.txt", ".hidden", "a b.svg", "a.svg\\n", "\\u0000", "\\ud800", "\\u202e", "x" * 300, "a/b/c/d/e"),
        *("a.svg.", "A.SVG", "a.svg/below", LISTED_IN, "con:", "a*", "\\u00e9.svg"),
    ],
)
def test_a_list_with_an_odd_name_is_refused_and_nothing_removed(name: str, tmp_path: Path) -> None:
    """The digests are right, so a reader that trusted the names would remove what they lead to."""
    outside = tmp_path / "outside"
    folder = outside / "out"
    write_all(folder, {**ONE, "sheets/1.svg": b"1"})
    (outside / "letter.txt").write_bytes(b"first")
    (tmp_path / "letter.txt").write_bytes(b"first")
    listed = (folder / LISTED_IN).read_text()
    digest = json.loads(listed)["files"]["a.svg"]
    odd = f'"files": {{"{name.format(outside=outside)}": "{digest}",'
    (folder / LISTED_IN).write_text(listed.replace('"files": {', odd))
    before = shown(tmp_path)
    with pytest.raises(CannotWrite, match=LISTED_IN):
        write_all(folder, {"b.svg": b"new"})
    assert shown(tmp_path) == before


def test_a_listed_file_behind_a_link_is_not_removed(tmp_path: Path) -> None:
    folder = tmp_path / "out"
    write_all(folder, {"sheets/1.svg": b"1"})
    (tmp_path / "letters").mkdir()
    (tmp_path / "letters" / "1.svg").write_bytes(b"1")
    (folder / "sheets" / "1.svg").unlink()
    (folder / "sheets").rmdir()
    (folder / "sheets").symlink_to(tmp_path / "letters")
    with pytest.raises(CannotWrite, match=r'"sheets" \(a link\)'):
        write_all(folder, ONE)
    assert shown(tmp_path / "letters") == {"1.svg": b"1"}


@pytest.mark.parametrize("end", ["new", "old"])
def test_what_stands_where_the_work_is_done_and_is_not_ours_is_left_alone(end: str, tmp_path: Path) -> None:
    write_all(tmp_path / "out", ONE)
    beside = tmp_path / f".trueseam-out.{end}"
    beside.mkdir()
    (beside / "letter.txt").write_bytes(b"hers")
    with pytest.raises(CannotWrite, match=r'holds "letter\.txt", which trueseam did not write'):
        write_all(tmp_path / "out", {"a.svg": b"second"})
    (beside / "letter.txt").rename(tmp_path / "letter.txt")
    beside.rmdir()
    beside.symlink_to(tmp_path)
    with pytest.raises(CannotWrite, match="is no folder of trueseam"):
        write_all(tmp_path / "out", {"a.svg": b"second"})
    assert (tmp_path / "letter.txt").read_bytes() == b"hers"
    assert shown(tmp_path / "out") == ONE


def test_a_folder_under_a_file_is_refused_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    for folder in (tmp_path / "file", tmp_path / "file" / "below"):
        with pytest.raises(CannotWrite) as caught:
            write_all(folder, ONE)
        assert "cannot be written" in str(caught.value)
    assert (tmp_path / "file").read_bytes() == b""


@pytest.mark.parametrize("here", [".", "out", "below"])
def test_the_folder_one_stands_in_cannot_be_replaced(
    here: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "out" / "below").mkdir(parents=True)
    monkeypatch.chdir(tmp_path / "out" / "below")
    folder = {".": Path(), "out": tmp_path / "out", "below": tmp_path / "out" / "below"}[here]
    with pytest.raises(CannotWrite, match="you are in it just now"):
        write_all(folder, ONE)
    assert shown(tmp_path) == {}


def test_a_disk_of_its_own_cannot_be_replaced() -> None:
    with pytest.raises(CannotWrite, match="it is a disk of its own"):
        write_all(Path("/"), ONE)


def test_a_folder_that_was_made_read_only_is_left_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_all(tmp_path / "out", ONE)
    monkeypatch.setattr(os, "access", lambda *_: False)  # as the system answers anyone but the superuser
    with pytest.raises(CannotWrite, match="permission denied"):
        write_all(tmp_path / "out", ONE)


@pytest.mark.parametrize(
    "name", ["/etc/x", "../x", "a/../b", "", ".", "a\\b", LISTED_IN, ".hidden", "a//b", "a/", "C:x", "two words"]
)
def test_a_name_that_leads_elsewhere_is_our_mistake(tmp_path: Path, name: str) -> None:
    with pytest.raises(ValueError, match="not a name"):
        write_all(tmp_path, {name: b""})


def test_names_that_one_folder_cannot_hold_are_our_mistake(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="one name"):
        write_all(tmp_path, {"a.svg": b"", "A.svg": b""})
    with pytest.raises(ValueError, match="would lie in another"):
        write_all(tmp_path, {"a/b": b"", "a": b""})


def test_a_link_put_where_a_file_is_prepared_is_not_written_through(tmp_path: Path) -> None:
    theirs, file = tmp_path / "theirs.txt", tmp_path / "a.toml"
    theirs.write_bytes(b"theirs")
    file.write_bytes(b"old")
    (tmp_path / ".a.toml.new").symlink_to(theirs)
    stage(file, b"new")()
    assert (theirs.read_bytes(), file.read_bytes(), file.is_symlink()) == (b"theirs", b"new", False)
