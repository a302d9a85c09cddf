"""Starts the page's server on this machine alone, and opens the browser."""

from __future__ import annotations

import secrets
import socket
import webbrowser
from collections.abc import Callable
from pathlib import Path
from types import FrameType

import uvicorn

from output.page.app import page_app
from output.page.desk import Desk
from output.page.events import Teller
from output.page.folder import Folder
from output.page.safety import Door

__all__ = ["serve"]


class _Server(uvicorn.Server):
    """A server that, once it is to end, ends what the pages listen to: they would never end it themselves."""

    def __init__(self, config: uvicorn.Config, teller: Teller) -> None:
        super().__init__(config)
        self._teller = teller

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        super().handle_exit(sig, frame)
        self._teller.end()


def serve(path: Path, *, browse: bool, tell: Callable[[str], None]) -> None:
    """Show the folder until Ctrl-C.

    browse: whether the browser is opened; tell: is called with the address once it answers
    """
    listening = socket.create_server(("127.0.0.1", 0), backlog=128)
    door = Door(listening.getsockname()[1], secrets.token_urlsafe(24))
    desk = Desk(Folder.at(path))
    teller = Teller()
    config = uvicorn.Config(
        page_app(desk, door, teller),
        log_level="warning",
        access_log=False,
        lifespan="on",
        ws="none",
        server_header=False,
        timeout_graceful_shutdown=2,
    )
    tell(door.address)
    if browse:
        webbrowser.open(door.address)
    try:
        _Server(config, teller).run(sockets=[listening])
    finally:
        desk.close()
