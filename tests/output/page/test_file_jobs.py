"""Jobs end, whatever the process says that works on them."""

from __future__ import annotations

import asyncio
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

from output.page.edits import CannotEdit
from output.page.events import Teller
from output.page.file_jobs import _LONGEST_LINE, Jobs
from output.page.folder import Folder
from output.page.job_process import _some

ASKED = {"file": "dress.toml", "what": "dxf"}


class Heard(Teller):
    """Keeps what is told."""

    def __init__(self) -> None:
        super().__init__()
        self.jobs: list[dict[str, Any]] = []

    def tell(self, told: dict[str, Any]) -> None:
        self.jobs.append(told["job"])


async def ended(folder: Path, count: int = 1) -> Heard:
    heard = Heard()
    jobs = Jobs(Folder.at(folder), heard)
    for _ in range(count):
        jobs.start(ASKED)
    async with asyncio.timeout(60):
        while jobs._running:
            await asyncio.sleep(0.01)
    await jobs.close()
    return heard


def python_that(place: Path, script: str) -> str:
    """A program that says what it wants to in the place of the process."""
    program = place / "python"
    program.write_text(f"#!/bin/sh\n{script}\n")
    program.chmod(0o755)
    return str(program)


@pytest.mark.skipif(sys.platform == "win32", reason="a script of the shell stands in for the process")
@pytest.mark.parametrize(
    "script",
    ["echo no JSON", "echo 3", "exit 7", "kill -9 $$", "head -c 5000000 /dev/zero", "head -c 5000000 /dev/zero; echo"],
    ids=["no JSON", "a number", "status", "killed", "a line of 5 MB", "such a line that ends"],
)
def test_a_job_that_goes_wrong_is_told_to_have_failed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, script: str
) -> None:
    (tmp_path / "dress.toml").write_text("")
    monkeypatch.setattr(sys, "executable", python_that(tmp_path, script))
    with ThreadPoolExecutor() as beside:  # a browser of other tests may have a loop in this thread
        heard = beside.submit(asyncio.run, ended(tmp_path)).result()
    assert [each["state"] for each in heard.jobs] == ["failed"]
    assert heard.jobs[0]["sentences"][0].startswith("It could not be made")


def test_more_than_anybody_waits_for_is_not_begun(tmp_path: Path) -> None:
    (tmp_path / "dress.toml").write_text("")
    jobs = Jobs(Folder.at(tmp_path), Heard())
    jobs._running |= dict.fromkeys(map(str, range(60)), None)  # type: ignore[arg-type]
    with pytest.raises(CannotEdit, match="So much is being made"):
        jobs.start(ASKED)


def test_of_many_problems_no_more_are_told_than_anybody_reads() -> None:
    told = _some([f"{number} {'x' * 5000}" for number in range(9000)])
    assert len(told) < 30
    assert sum(map(len, told)) < _LONGEST_LINE / 10
    assert told[-1] == "And 8980 more of these."
    assert _some(["one", "two"]) == ["one", "two"]
