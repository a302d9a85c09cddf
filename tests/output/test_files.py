"""Files are written whole or not at all, and nothing of a person's is touched."""

from __future__ import annotations

import errno
import json
import os
import shutil
from pathlib import Path

import pytest

from drafting.errors import CannotWrite
from output.files import LISTED_IN, write_all

ONE = {"a.svg": b"first", "report.html": b"report"}


def shown(folder: Path) -> dict[str, bytes]:
    """Every file in a folder but the list, by name."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.name != LISTED_IN
    }


def full_disk(*_: object, **__: object) -> None:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def fails_at(nth: int, real: object) -> object:
    """The function, but raising for want of room at its nth call only."""
    calls = 0

    def call(*args: object, **kwargs: object) -> object:
        nonlocal calls
        calls += 1
        if calls == nth:
            full_disk()
        return real(*args, **kwargs)  # type: ignore[operator]

    return call


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


def test_a_second_run_overwrites_its_own_files_and_removes_those_no_longer_wanted(tmp_path: Path) -> None:
    write_all(tmp_path, {**ONE, "sheets/9.svg": b"9"})
    write_all(tmp_path, {"a.svg": b"second"})
    assert shown(tmp_path) == {"a.svg": b"second"}
    assert not (tmp_path / "sheets").exists()


def test_a_stale_file_that_was_changed_since_is_left_alone(tmp_path: Path) -> None:
    write_all(tmp_path, ONE)
    (tmp_path / "report.html").write_bytes(b"with my notes")
    write_all(tmp_path, {"a.svg": b"second"})
    assert shown(tmp_path) == {"a.svg": b"second", "report.html": b"with my notes"}


def test_a_file_that_was_not_written_here_is_refused_by_name(tmp_path: Path) -> None:
    (tmp_path / "a.svg").write_bytes(b"hers")
    with pytest.raises(CannotWrite, match=r'"a\.svg" in it were not written by trueseam'):
        write_all(tmp_path, ONE)
    assert shown(tmp_path) == {"a.svg": b"hers"}


def test_a_file_of_ours_that_was_changed_since_is_refused(tmp_path: Path) -> None:
    write_all(tmp_path, ONE)
    (tmp_path / "a.svg").write_bytes(b"changed by hand")
    with pytest.raises(CannotWrite, match=r"a\.svg"):
        write_all(tmp_path, {"a.svg": b"second"})
    assert (tmp_path / "a.svg").read_bytes() == b"changed by hand"


def test_the_same_content_may_be_written_again_without_a_list(tmp_path: Path) -> None:
    write_all(tmp_path, ONE)
    (tmp_path / LISTED_IN).unlink()
    write_all(tmp_path, ONE)
    assert shown(tmp_path) == ONE


def test_a_folder_or_a_dangling_link_in_the_way_of_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "a.svg").mkdir()
    (tmp_path / "b.svg").symlink_to(tmp_path / "nowhere")
    with pytest.raises(CannotWrite, match=r'"a\.svg", "b\.svg"'):
        write_all(tmp_path, {"a.svg": b"", "b.svg": b""})


def test_a_list_that_does_not_read_is_refused(tmp_path: Path) -> None:
    for broken in (b"[", b"[]", b'{"format": "other", "files": {}}', b'{"files": 3}', b"\xff\xfe\x00"):
        (tmp_path / LISTED_IN).write_bytes(broken)
        with pytest.raises(CannotWrite, match=LISTED_IN):
            write_all(tmp_path, ONE)
        assert shown(tmp_path) == {}


def test_a_list_cannot_make_us_remove_files_outside_the_folder(tmp_path: Path) -> None:
    outside = tmp_path / "letter.txt"
    outside.write_bytes(b"")
    inner = tmp_path / "inner"
    write_all(inner, {"empty": b""})
    listed = (inner / LISTED_IN).read_text().replace('"empty"', '"../letter.txt"')
    (inner / LISTED_IN).write_text(listed)
    write_all(inner, ONE)
    assert outside.exists()


def test_a_folder_under_a_file_is_refused_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    for folder in (tmp_path / "file", tmp_path / "file" / "below"):
        with pytest.raises(CannotWrite) as caught:
            write_all(folder, ONE)
        assert "cannot be written" in str(caught.value)
    assert (tmp_path / "file").read_bytes() == b""


@pytest.mark.parametrize("nth", [1, 2, 3])
def test_a_disk_that_fills_while_writing_changes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, nth: int
) -> None:
    write_all(tmp_path, ONE)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    with monkeypatch.context() as patch:
        patch.setattr(os, "fdopen", fails_at(nth, os.fdopen))
        with pytest.raises(CannotWrite, match="no space left"):
            write_all(tmp_path, {"a.svg": b"second", "b.svg": b"new"})
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before


def test_a_disk_too_full_to_keep_the_old_files_changes_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_all(tmp_path, ONE)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    with monkeypatch.context() as patch:
        patch.setattr(shutil, "copy2", full_disk)
        with pytest.raises(CannotWrite):
            write_all(tmp_path, {"a.svg": b"second"})
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before


@pytest.mark.parametrize("nth", [1, 2, 3])
def test_a_rename_that_fails_half_way_takes_the_earlier_ones_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, nth: int
) -> None:
    write_all(tmp_path, ONE)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    with monkeypatch.context() as patch:
        patch.setattr(os, "replace", fails_at(nth, os.replace))
        with pytest.raises(CannotWrite):
            write_all(tmp_path, {"a.svg": b"second", "b.svg": b"new"})
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before


def test_folders_made_for_a_run_that_failed_are_gone_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(os, "replace", fails_at(2, os.replace))
        with pytest.raises(CannotWrite):
            write_all(tmp_path / "new" / "deeper", ONE)
    assert list(tmp_path.iterdir()) == []


def test_an_interruption_leaves_everything_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_all(tmp_path, ONE)

    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(os, "replace", interrupted)
        with pytest.raises(KeyboardInterrupt):
            write_all(tmp_path, {"a.svg": b"second"})
    assert shown(tmp_path) == ONE


def test_an_old_file_that_cannot_be_put_back_is_not_thrown_away(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_all(tmp_path, {"a.svg": b"first", "b.svg": b"old"})
    replace, calls = os.replace, 0

    def only_once(*args: str) -> None:
        nonlocal calls
        calls += 1
        if calls > 1:
            full_disk()
        replace(*args)

    with monkeypatch.context() as patch:
        patch.setattr(os, "replace", only_once)
        with pytest.raises(CannotWrite):
            write_all(tmp_path, {"a.svg": b"second", "b.svg": b"new"})
    assert b"first" in shown(tmp_path).values()


@pytest.mark.parametrize("name", ["/etc/x", "../x", "a/../b", "", ".", "a\\b", LISTED_IN])
def test_a_name_that_leads_elsewhere_is_our_mistake(tmp_path: Path, name: str) -> None:
    with pytest.raises(ValueError, match="not a name"):
        write_all(tmp_path, {name: b""})


def test_names_that_differ_in_capitals_only_are_our_mistake(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="one name"):
        write_all(tmp_path, {"a.svg": b"", "A.svg": b""})
