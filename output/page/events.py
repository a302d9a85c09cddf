"""What the server tells the pages that are open without being asked: files that were changed, and how jobs go on."""

from __future__ import annotations

import asyncio
import json
import os
from collections.abc import AsyncIterator, Mapping
from typing import Final

from output.page.folder import Folder

__all__ = ["Teller", "watch"]

_PAUSE: Final = 0.5
"""Seconds between two looks at the files: about as long as a hand takes from the editor to the page (our figure)."""

_ALIVE: Final = 15.0
"""Seconds after which a line is sent that says nothing, so that a page that is gone is noticed."""

_MOST_WAITING: Final = 200


class Teller:
    """Tells every page that listens. All of it happens in the thread of the server."""

    def __init__(self) -> None:
        self._listening: set[asyncio.Queue[str | None]] = set()
        self._loop: asyncio.AbstractEventLoop | None = None

    def tell(self, told: Mapping[str, object]) -> None:
        """Tell all pages. May be called from any thread."""
        if self._loop is not None:
            self._loop.call_soon_threadsafe(self._put, json.dumps(told))

    def end(self) -> None:
        """End what all pages hear. May be called from any thread, and while a signal is answered."""
        if self._loop is not None:
            self._loop.call_soon_threadsafe(self._put, None)

    async def heard(self) -> AsyncIterator[bytes]:
        """What one page hears, as lines of an event stream."""
        self._loop = asyncio.get_running_loop()
        queue: asyncio.Queue[str | None] = asyncio.Queue(_MOST_WAITING)
        self._listening.add(queue)
        try:
            yield b": hello\n\n"
            while True:
                try:
                    told = await asyncio.wait_for(queue.get(), _ALIVE)
                    if told is None:
                        return
                    yield f"data: {told}\n\n".encode()
                except TimeoutError:
                    yield b": still here\n\n"
        finally:
            self._listening.discard(queue)

    def _put(self, told: str | None) -> None:
        for queue in self._listening:
            if not queue.full():
                queue.put_nowait(told)


async def watch(folder: Folder, teller: Teller) -> None:
    """Tell which TOML files have changed, come or gone, whoever changed them; until it is cancelled."""
    known = await asyncio.to_thread(_stamps, folder)
    while True:
        await asyncio.sleep(_PAUSE)
        now = await asyncio.to_thread(_stamps, folder)
        changed = sorted(name for name in known.keys() | now.keys() if known.get(name) != now.get(name))
        if changed:
            teller.tell({"changed": changed})
        known = now


def _stamps(folder: Folder) -> dict[str, tuple[int, int, int]]:
    """When each file was written last, how long it is, and which file it is."""
    found = {}
    for name in folder.files():
        try:
            about = os.stat(folder.path / name)
        except OSError:
            continue
        found[name] = about.st_mtime_ns, about.st_size, about.st_ino
    return found
