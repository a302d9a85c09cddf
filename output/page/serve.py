"""Opens a folder in the browser: an address that waits is told at once, and all else is loaded meanwhile."""

from __future__ import annotations

import secrets
import socket
from collections.abc import Callable
from pathlib import Path
from threading import Thread

from output.page.folder import Folder
from output.page.open_log import open_log
from output.page.safety import Door

__all__ = ["serve"]


def serve(path: Path, *, browse: bool, tell: Callable[[str], None]) -> None:
    """Show the folder until Ctrl-C.

    browse: whether the browser is opened; tell: is called with the address. Whoever asks there is answered, though it
            be a moment later
    Raises CannotWrite for a folder in which nothing can be written down, OSError where there is none.
    """
    folder = Folder.at(path)
    opened = open_log(folder)
    listening = socket.create_server(("127.0.0.1", 0), backlog=128)
    door = Door(listening.getsockname()[1], secrets.token_urlsafe(24))
    tell(door.address)
    if browse:
        Thread(target=_browse, args=(door.address,), daemon=True).start()
    try:
        from output.page.server import page_server

        page_server(folder, opened, door).run(sockets=[listening])
    finally:
        opened.log.close()


def _browse(address: str) -> None:
    import webbrowser

    webbrowser.open(address)
