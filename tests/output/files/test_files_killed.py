"""Killed, stopped or out of room before any call of the system: the old result or the new one, whole, and no rubbish.

The kills are real (SIGKILL). `python -m tests.kills` does the same to the command, 200 times, at random moments.
"""

from __future__ import annotations

import itertools
import os
import random
import signal
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

import output.files.write_folder
from drafting.errors import CannotWrite
from output.files.write_folder import write_all
from tests.kills import count_kills
from tests.output.files.test_write_folder import shown
from tests.output.moments import DONE, REFUSED, STOPPED, UNMET, Deed, done_to
from tests.sampling import some

OLD = {"a.svg": b"first" * 5000, "sheets/1.svg": b"one"}
NEW = {"a.svg": b"second" * 5000, "size-92/report.html": b"report"}
THIRD = {"c.svg": b"third"}
ONE_FILE = {"a.svg": b"a"}

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="a child to kill is made with fork")


@pytest.fixture(params=["at once", "in two"])
def route(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """How two folders change places: at once, or the one aside and the other in, as where that is not to be had."""
    if request.param == "in two":
        monkeypatch.setattr(output.files.write_folder, "exchanged", lambda _one, _other: False)
    return str(request.param)


def met(folder: Path, old: dict[str, bytes] | None, deed: Deed, moment: int) -> int:
    """How a run over the old result ends that meets the deed at its n-th call."""
    for path in (folder, *folder.parent.glob(".trueseam-*")):
        if path.exists():
            os.rename(path, folder.parent.parent / f"gone-{len(os.listdir(folder.parent.parent))}-{path.name}")
    if old is not None:
        write_all(folder, old)
    return done_to(lambda: write_all(folder, NEW), deed, moment)


def moments(folder: Path, old: dict[str, bytes] | None, deed: Deed, step: int) -> Iterator[tuple[int, int]]:
    """A run over the old result for every so many-th call, and for each call of those between which the result changes,
    until there is no such call any more; the call, and how it ended.
    """
    before = old
    for moment in itertools.count(1, step):
        ended = met(folder, old, deed, moment)
        if ended == UNMET:
            assert shown(folder) == NEW
            assert moment > 15  # so many calls were there
            return
        there = shown(folder) if folder.exists() else None
        if there != before and step > 1:
            for between in range(max(moment - step + 1, 1), moment):
                yield between, met(folder, old, deed, between)
            ended = met(folder, old, deed, moment)
        before = there
        yield moment, ended


step = pytest.mark.parametrize("step", [3, pytest.param(1, marks=pytest.mark.whole)])
"""Each call is a child that is made and killed, which is what these tests cost."""


def cleared_by_the_next_run(folder: Path) -> None:
    write_all(folder, THIRD)
    assert shown(folder) == THIRD
    assert os.listdir(folder.parent) == [folder.name]


@step
def test_killed_before_any_call_it_leaves_the_old_result_or_the_new_one(tmp_path: Path, route: str, step: int) -> None:
    folder = tmp_path / "work" / "out"
    seen = set()
    for _moment, _ended in moments(folder, OLD, "kill", step):
        if folder.exists():
            found = shown(folder)
            assert found in (OLD, NEW)
            seen.add("old" if found == OLD else "new")
        else:
            # only where both cannot change places at once, and then the old one lies aside, whole
            assert route == "in two"
            assert shown(folder.with_name(".trueseam-out.old")) == OLD
            seen.add("aside")
        cleared_by_the_next_run(folder)
    assert seen == ({"old", "new"} if route == "at once" else {"old", "new", "aside"})


def test_the_old_result_that_lies_aside_is_put_back_by_a_run_that_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(output.files.write_folder, "exchanged", lambda _one, _other: False)
    folder = tmp_path / "work" / "out"
    for _moment, _ended in moments(folder, OLD, "kill", 3):
        if not folder.exists():
            (folder.parent / ".trueseam-out.old" / "notes.txt").write_bytes(b"hers")
            with pytest.raises(CannotWrite, match=r"notes\.txt"):
                write_all(folder, THIRD)
            assert shown(folder) == {**OLD, "notes.txt": b"hers"}
            return
    pytest.fail("it was never killed between the two")


@step
def test_killed_at_its_first_writing_it_leaves_nothing_or_the_whole(tmp_path: Path, step: int) -> None:
    folder = tmp_path / "work" / "out"
    for _moment, _ended in moments(folder, None, "kill", step):
        assert not folder.exists() or shown(folder) == NEW
        cleared_by_the_next_run(folder)


@step
@pytest.mark.parametrize("route", ["at once", pytest.param("in two", marks=pytest.mark.whole)], indirect=True)
@pytest.mark.usefixtures("route")
@pytest.mark.parametrize(("deed", "refusal"), some([("full disk", REFUSED), ("Ctrl-C", STOPPED)], every=2))
def test_out_of_room_or_stopped_at_any_call_it_leaves_no_mix_and_no_rubbish(
    deed: Deed, refusal: int, tmp_path: Path, step: int
) -> None:
    folder = tmp_path / "work" / "out"
    refused = 0
    for _moment, ended in moments(folder, OLD, deed, step):
        found = shown(folder)
        assert ended in (refusal, DONE)
        refused += ended == refusal
        if deed == "full disk":
            assert found == (OLD if ended == REFUSED else NEW)
        else:
            assert found in (OLD, NEW)
            assert os.listdir(folder.parent) == ["out"]
        cleared_by_the_next_run(folder)
    assert refused > 15 / step


def test_what_she_puts_there_while_it_is_written_is_kept_and_the_old_result_with_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, route: str
) -> None:
    folder = tmp_path / "work" / "out"
    write_all(folder, OLD)
    stage = output.files.write_folder._Place.stage

    def and_she_saves(place: object, files: object) -> None:
        stage(place, files)  # type: ignore[arg-type]
        (folder / "notes.txt").write_bytes(b"hers")

    monkeypatch.setattr(output.files.write_folder._Place, "stage", and_she_saves)
    with pytest.raises(CannotWrite, match=r"notes\.txt"):
        write_all(folder, NEW)
    assert shown(folder) == {**OLD, "notes.txt": b"hers"}, route
    assert os.listdir(folder.parent) == ["out"]


def child(work: Callable[[], object]) -> int:
    """A child process that does the work; its number."""
    number = os.fork()
    if number == 0:
        try:
            work()
        except BaseException:
            os._exit(1)
        os._exit(0)
    return number


def test_killed_at_random_moments_it_leaves_one_whole_result(tmp_path: Path) -> None:
    chance = random.Random(7)
    folder = tmp_path / "work" / "out"
    write_all(folder, OLD)

    def for_ever() -> None:
        while True:
            write_all(folder, NEW)
            write_all(folder, OLD)

    for _ in range(8):
        number = child(for_ever)
        time.sleep(chance.uniform(0.0, 0.03))
        os.kill(number, signal.SIGKILL)
        os.waitpid(number, 0)
        assert shown(folder) in (OLD, NEW)
    cleared_by_the_next_run(folder)


@pytest.mark.usefixtures("route")
def test_many_runs_at_once_leave_the_whole_result_of_one(tmp_path: Path) -> None:
    folder = tmp_path / "work" / "out"
    results = [{**NEW, "a.svg": str(n).encode()} for n in range(4)]

    def several(files: dict[str, bytes]) -> None:
        for _ in range(4):
            write_all(folder, files)

    running = [child(lambda files=files: several(files)) for files in results]  # type: ignore[misc]
    assert [os.waitstatus_to_exitcode(os.waitpid(number, 0)[1]) for number in running] == [0] * len(running)
    assert shown(folder) in results
    assert os.listdir(folder.parent) == ["out"]


def test_a_run_that_waits_too_long_for_another_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from output.files import swap_folders

    monkeypatch.setattr(swap_folders, "_PATIENCE", 0.05)
    with (
        swap_folders.alone_beside(tmp_path / "out"),
        pytest.raises(CannotWrite, match="another run of trueseam is writing there"),
    ):
        write_all(tmp_path / "out", ONE_FILE)
    write_all(tmp_path / "out", ONE_FILE)


@pytest.mark.parametrize("kills", [1, pytest.param(2, marks=pytest.mark.whole)])
def test_a_garment_and_then_a_nest_killed_at_random_moments_leave_one_whole_result(tmp_path: Path, kills: int) -> None:
    found = count_kills(kills, tmp_path, seed=5)
    assert found["old"] + found["new"] == kills
    assert found["a mix"] == found["not put right by the next run"] == 0
