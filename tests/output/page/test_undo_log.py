"""Undo and redo without end, over restarts, kills and changes by another hand."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from output.page.undo_log import BY_HAND, NotYetWritten, UndoLog, hash_of

DRESS = "dress.toml"


class Files:
    """Files in memory, with the log beside them on the disk."""

    def __init__(self, place: Path, texts: dict[str, str]) -> None:
        self.place, self.texts = place, texts

    def open(self) -> UndoLog:
        return UndoLog(
            self.place / "undo.sqlite",
            lambda name: self.texts.get(name, ""),
            lambda name, text: lambda: self.texts.__setitem__(name, text),
        )


def test_changes_are_taken_back_and_done_again_after_a_restart(tmp_path: Path) -> None:
    files = Files(tmp_path, {DRESS: "0"})
    log = files.open()
    for number in range(1, 4):
        assert log.done(DRESS, {DRESS: files.texts[DRESS]}, {DRESS: str(number)}, f"to {number}", "")
    assert log.words(DRESS) == ("to 3", None)
    log.close()
    log = files.open()
    assert [log.undo(DRESS, files.texts) for _ in range(4)] == ["to 3", "to 2", "to 1", None]
    assert files.texts[DRESS] == "0"
    log.close()
    log = files.open()
    assert [log.redo(DRESS, files.texts) for _ in range(4)] == ["to 1", "to 2", "to 3", None]
    assert files.texts[DRESS] == "3"
    log.undo(DRESS, files.texts)
    assert log.done(DRESS, dict(files.texts), {DRESS: "another"}, "elsewhere", "")
    assert log.words(DRESS) == ("elsewhere", None)


def test_what_was_taken_back_leaves_nothing_to_a_change_of_the_same_number(tmp_path: Path) -> None:
    files = Files(tmp_path, {DRESS: "0", "her": "0"})
    log = files.open()
    log.done(DRESS, dict(files.texts), {DRESS: "1", "her": "1"}, "both", "")
    log.undo(DRESS, files.texts)
    log.done(DRESS, dict(files.texts), {DRESS: "2"}, "one", "")
    last = log.last(DRESS)
    assert last is not None
    assert last.after == {DRESS: "2"}
    log.undo(DRESS, files.texts)
    log.redo(DRESS, files.texts)
    assert files.texts == {DRESS: "2", "her": "0"}


def test_a_file_that_cannot_be_written_keeps_only_its_own_change_waiting(tmp_path: Path) -> None:
    texts = {DRESS: "0", "other": "0"}
    locked = True

    def stage(name: str, text: str) -> Callable[[], None]:
        def move() -> None:
            if locked and name == DRESS:
                raise PermissionError(13, "Permission denied")
            texts[name] = text

        return move

    def opened() -> UndoLog:
        return UndoLog(tmp_path / "undo.sqlite", lambda name: texts.get(name, ""), stage)

    log = opened()
    with pytest.raises(NotYetWritten, match=r"is put down, but dress\.toml cannot be written now \(permission denied"):
        log.done(DRESS, {DRESS: "0"}, {DRESS: "1"}, "to 1", "")
    log.close()
    log = opened()
    assert len(log.not_written([DRESS, "other"])) == 1
    assert log.done("other", {"other": "0"}, {"other": "1"}, "to 1", "")
    assert not log.notice(DRESS, {DRESS: "0"})  # nobody has changed it by hand
    assert log.undo(DRESS, texts) == "to 1"
    assert log.not_written([DRESS]) == []
    with pytest.raises(NotYetWritten):
        log.redo(DRESS, texts)
    locked = False
    log.notice("other", {"other": "1"})
    assert log.not_written([DRESS]) == []
    assert texts == {DRESS: "1", "other": "1"}
    assert log.words(DRESS) == ("to 1", None)


def test_the_log_is_for_its_owner_and_forgets_the_middle_of_a_drag(tmp_path: Path) -> None:
    files = Files(tmp_path, {DRESS: "0"})
    log = files.open()
    for number in range(1, 61):
        log.done(DRESS, dict(files.texts), {DRESS: str(number)}, f"to {number}", "drag")
    log.close()
    log = files.open()
    assert [number for number in range(61) if log.text(hash_of(str(number))) is not None] == [0, 60]
    assert log.undo(DRESS, files.texts) == "to 60"
    assert files.texts == {DRESS: "0"}
    if os.name != "nt":
        assert (tmp_path / "undo.sqlite").stat().st_mode & 0o077 == 0


def test_one_drag_is_one_change(tmp_path: Path) -> None:
    files = Files(tmp_path, {DRESS: "0"})
    log = files.open()
    for number in range(1, 9):
        assert log.done(DRESS, dict(files.texts), {DRESS: str(number)}, f"to {number}", "drag 1")
    assert log.done(DRESS, dict(files.texts), {DRESS: "9"}, "to 9", "drag 2")
    last = log.last(DRESS)
    assert last is not None
    assert (last.before, last.after) == ({DRESS: "8"}, {DRESS: "9"})
    assert [log.undo(DRESS, files.texts), files.texts[DRESS]] == ["to 9", "8"]
    assert [log.undo(DRESS, files.texts), files.texts[DRESS]] == ["to 8", "0"]


def test_a_change_by_another_hand_can_be_taken_back_too(tmp_path: Path) -> None:
    files = Files(tmp_path, {DRESS: "0"})
    log = files.open()
    log.done(DRESS, dict(files.texts), {DRESS: "1"}, "to 1", "")
    files.texts[DRESS] = "by hand"
    assert not log.done(DRESS, {DRESS: "1"}, {DRESS: "2"}, "to 2", "")
    assert files.texts[DRESS] == "by hand"
    assert log.undo(DRESS, files.texts) == BY_HAND
    assert files.texts[DRESS] == "1"
    assert log.redo(DRESS, files.texts) == BY_HAND
    assert files.texts[DRESS] == "by hand"


@settings(max_examples=15, deadline=None)
@given(st.lists(st.sampled_from(["change", "run", "hand", "undo", "redo", "restart"]), max_size=40))
def test_whatever_is_done_every_text_comes_back(tmp_path_factory: pytest.TempPathFactory, acts: list[str]) -> None:
    """Against a list of texts and a place in it."""
    files = Files(tmp_path_factory.mktemp("log"), {DRESS: "0"})
    log = files.open()
    log.notice(DRESS, files.texts)
    texts, place, run = ["0"], 0, False
    for number, act in enumerate(acts, start=1):
        if act in ("change", "run", "hand"):
            del texts[place + 1 :]
            if not (act == "run" and run):
                place += 1
            texts[place:] = [str(number)]
            if act == "hand":
                files.texts[DRESS] = str(number)
                log.notice(DRESS, files.texts)
            else:
                log.done(DRESS, dict(files.texts), {DRESS: str(number)}, act, "run" if act == "run" else "")
            run = act == "run"
        elif act == "restart":
            log.close()
            log = files.open()
        else:
            done = (log.undo if act == "undo" else log.redo)(DRESS, files.texts)
            to = place + (-1 if act == "undo" else 1)
            assert (done is not None) == (0 <= to < len(texts))
            if done is not None:
                place = to
                run = place > 0 and log.words(DRESS)[0] == "run"
        assert files.texts[DRESS] == texts[place]
    log.close()


def test_what_was_put_down_and_not_written_is_written_by_whoever_opens_next(tmp_path: Path) -> None:
    texts = {DRESS: "0", "oda.toml": "a"}

    def broken(_name: str, _text: str) -> Callable[[], None]:
        def move() -> None:
            raise KeyboardInterrupt

        return move

    log = UndoLog(tmp_path / "undo.sqlite", texts.__getitem__, broken)
    with pytest.raises(KeyboardInterrupt):
        log.done(DRESS, dict(texts), {DRESS: "1", "oda.toml": "b"}, "both", "")
    log.close()
    assert texts == {DRESS: "0", "oda.toml": "a"}
    log = Files(tmp_path, texts).open()
    assert texts == {DRESS: "1", "oda.toml": "b"}
    assert log.words(DRESS) == ("both", None)


def test_a_file_that_cannot_be_written_leaves_all_as_it_was(tmp_path: Path) -> None:
    texts = {DRESS: "0", "oda.toml": "a"}

    def full(name: str, text: str) -> Callable[[], None]:
        if name != DRESS:
            raise OSError("the disk is full")
        return lambda: texts.__setitem__(name, text)

    log = UndoLog(tmp_path / "undo.sqlite", texts.__getitem__, full)
    with pytest.raises(OSError, match="full"):
        log.done(DRESS, dict(texts), {DRESS: "1", "oda.toml": "b"}, "both", "")
    assert texts == {DRESS: "0", "oda.toml": "a"}
    assert log.words(DRESS) == (None, None)
    assert log.done(DRESS, dict(texts), {DRESS: "2"}, "one", "")
    assert log.undo(DRESS, texts) == "one"
    assert texts == {DRESS: "0", "oda.toml": "a"}


WRITER = """
import sys
from pathlib import Path
from output.api.showing import stage
from output.page.undo_log import UndoLog
place = Path(sys.argv[1])
read = lambda name: (place / name).read_text()
log = UndoLog(place / "undo.sqlite", read, lambda name, text: stage(place / name, text.encode()))
print("ready", flush=True)
for number in range(10**6):
    both = {name: read(name) for name in ("dress.toml", "oda.toml")}
    new = {name: f"{number} " * 500 for name in both}
    log.done("dress.toml", both, new, str(number), "")
    print(number, flush=True)
"""


@pytest.mark.skipif(os.name == "nt", reason="kills as only POSIX has them")
def test_killed_in_the_middle_nothing_that_was_answered_is_lost(tmp_path: Path) -> None:
    """Killed again and again while two files are written: both hold the last change that was answered, or the next."""
    for name in ("dress.toml", "oda.toml"):
        (tmp_path / name).write_text("begin")
    for pause in (0.0, 0.013, 0.031):
        writing = subprocess.Popen([sys.executable, "-c", WRITER, str(tmp_path)], stdout=subprocess.PIPE, text=True)
        assert writing.stdout is not None
        assert writing.stdout.readline() == "ready\n"
        writing.stdout.readline()
        time.sleep(pause)
        writing.send_signal(signal.SIGKILL)
        answered = ([0, *(int(line) for line in writing.stdout.read().split() if line.isdecimal())])[-1]
        writing.wait()

        def read(name: str) -> str:
            return (tmp_path / name).read_text()

        log = UndoLog(
            tmp_path / "undo.sqlite", read, lambda name, text: lambda: (tmp_path / name).write_text(text) and None
        )
        both = {name: read(name) for name in ("dress.toml", "oda.toml")}
        assert len(set(both.values())) == 1
        last = log.words("dress.toml")[0]
        assert last is not None
        assert int(last) in (answered, answered + 1)
        assert both["dress.toml"] == f"{last} " * 500
        log.undo("dress.toml", both)
        assert {read(name) for name in both} == {read("dress.toml")} != {f"{last} " * 500}
        log.redo("dress.toml", both)
        log.close()
