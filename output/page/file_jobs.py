"""Files made of a garment: each is a job in a process of its own, told while it goes on, stopped when asked, kept."""

from __future__ import annotations

import asyncio
import json
import logging
import secrets
import shutil
import sys
import tempfile
from collections import OrderedDict
from collections.abc import AsyncIterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final, TypeGuard

from output.page.edits import CannotEdit
from output.page.events import Teller
from output.page.folder import Folder
from output.page.job_process import BROUGHT, SAID, THINGS

__all__ = ["Jobs", "MadeFile"]

_MOST_AT_ONCE: Final = 2
_MOST_KEPT: Final = 20
_MOST_ASKED: Final = 12
_GRACE: Final = 3.0
"""Jobs that run at once, the others wait; files that are kept; jobs that run or wait; seconds a stopped job has to end
(our figures)."""

_LONGEST_LINE: Final = 1_000_000
"""Bytes of a line that a job says and that is listened to (our figure; `job_process.py` says less)."""

_LONGEST_NAME: Final = 400
"""Letters of a name or a length that is listened to (our figure)."""

_log: Final = logging.getLogger(__name__)

_OUR_FAULT: Final = "It could not be made: this is a fault of trueseam. `trueseam draft` may still make it."


@dataclass(frozen=True, slots=True)
class MadeFile:
    """A file that was made, to be kept. name: what it is saved as"""

    path: Path
    name: str


class Jobs:
    """The jobs of one folder. All of it happens in the thread of the server."""

    def __init__(self, folder: Folder, teller: Teller) -> None:
        self._folder, self._teller = folder, teller
        self._place = Path(tempfile.mkdtemp(prefix="trueseam-"))
        self._turns = asyncio.Semaphore(_MOST_AT_ONCE)
        self._running: dict[str, asyncio.Task[None]] = {}
        self._made: OrderedDict[str, MadeFile] = OrderedDict()

    def start(self, given: Mapping[str, Any]) -> str:
        """Begin a job, and give its number. Raises CannotEdit for what cannot be made, NotInFolder."""
        what, options = given.get("what"), given.get("options", {})
        options = options if isinstance(options, Mapping) else {"pieces": None}
        pieces, sizes = (options.get(key, []) for key in ("pieces", "sizes"))
        said = {key: options.get(key, "") for key in SAID}
        if what not in THINGS or not _are_names(pieces) or not _are_names(sizes) or not _are_names([*said.values()]):
            raise CannotEdit(f"What can be made: {', '.join(THINGS)}.")
        of_a_pattern = what == BROUGHT
        if not (self._folder.pattern if of_a_pattern else self._folder.file)(given.get("file")).is_file():
            raise CannotEdit(f"There is no such {'pattern' if of_a_pattern else 'garment'} in this folder.")
        if len(self._running) >= _MOST_ASKED:
            raise CannotEdit("So much is being made already: wait until some of it is done, or stop it.")
        number = secrets.token_urlsafe(9)
        asked = {
            "folder": str(self._folder.path),
            "file": given["file"],
            "what": what,
            "options": {
                "pieces": pieces[:200],
                "sizes": sizes[:200],
                **{key: text[:100] for key, text in said.items()},
            },
            "to": str(self._place / number),
        }
        self._running[number] = asyncio.create_task(self._run(number, what, asked))
        return number

    def stop(self, number: object) -> None:
        """Stop a job; one that has ended stays as it is."""
        task = self._running.get(number) if isinstance(number, str) else None
        if task is not None:
            task.cancel()

    def made(self, number: str) -> MadeFile | None:
        """The file that a job made; None where there is none, or it is not kept any more."""
        return self._made.get(number)

    async def close(self) -> None:
        """Stop all jobs, and throw away what was made."""
        tasks = list(self._running.values())
        for task in tasks:
            task.cancel()
        await asyncio.gather(*tasks, return_exceptions=True)
        shutil.rmtree(self._place, ignore_errors=True)

    async def _run(self, number: str, what: str, asked: Mapping[str, Any]) -> None:
        """Make one file; tell how far it is, and at the end that it is done, has failed or was stopped."""

        def tell(**told: object) -> None:
            self._teller.tell({"job": {"id": number, "what": what, **told}})

        try:
            async with self._turns:
                ended = await self._worked(asked, tell)
            if "name" in ended:
                self._keep(number, MadeFile(Path(asked["to"]), ended["name"]))
                tell(state="done", share=1.0, name_of=ended["name"])
            else:
                tell(state="failed", sentences=ended.get("sentences", [_OUR_FAULT]))
        except asyncio.CancelledError:
            Path(asked["to"]).unlink(missing_ok=True)
            tell(state="stopped")
        except Exception:
            _log.exception("%s of %s could not be made", what, asked["file"])
            Path(asked["to"]).unlink(missing_ok=True)
            tell(state="failed", sentences=[_OUR_FAULT])
        finally:
            del self._running[number]

    async def _worked(self, asked: Mapping[str, Any], tell: Any) -> Mapping[str, Any]:
        """What the process said last. Where this is cancelled, the process is ended too."""
        process = await asyncio.create_subprocess_exec(
            sys.executable,
            *("-m", "output.page.job_process"),
            stdin=asyncio.subprocess.PIPE,
            stdout=asyncio.subprocess.PIPE,
            start_new_session=True,  # Ctrl-C is the server's to answer
        )
        assert process.stdin is not None
        assert process.stdout is not None
        told: Mapping[str, Any] = {}
        try:
            process.stdin.write(json.dumps(asked).encode())
            process.stdin.close()
            async for line in _lines(process.stdout):
                told = json.loads(line)
                if "doing" in told:
                    tell(state="working", **told)
            await process.wait()
        finally:
            if process.returncode is None:
                await asyncio.shield(_ended(process))
        return told

    def _keep(self, number: str, made: MadeFile) -> None:
        self._made[number] = made
        while len(self._made) > _MOST_KEPT:
            _, old = self._made.popitem(last=False)
            old.path.unlink(missing_ok=True)


def _are_names(given: object) -> TypeGuard[list[str]]:
    return isinstance(given, list) and all(isinstance(each, str) and len(each) <= _LONGEST_NAME for each in given)


async def _lines(said: asyncio.StreamReader) -> AsyncIterator[bytes]:
    """What a job says, a line at a time. One that is far too long is an empty object, and is read to its end all the
    same: a job that nobody listens to would wait for ever.
    """
    line, is_too_long = b"", False
    while part := await said.read(_LONGEST_LINE):
        *whole, line = (line + part).split(b"\n")
        for each in whole:
            yield b"{}" if is_too_long or len(each) > _LONGEST_LINE else each
            is_too_long = False
        if len(line) > _LONGEST_LINE:
            line, is_too_long = b"", True


async def _ended(process: asyncio.subprocess.Process) -> None:
    """End a process: it is asked first, and made to where it does not."""
    with suppress(ProcessLookupError):
        process.terminate()
    try:
        await asyncio.wait_for(process.wait(), _GRACE)
    except TimeoutError:
        with suppress(ProcessLookupError):
            process.kill()
        await process.wait()
