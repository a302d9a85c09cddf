"""Starts the page's server on this machine alone, and opens the browser."""

from __future__ import annotations

import secrets
import socket
import webbrowser
from collections.abc import Callable
from pathlib import Path

import uvicorn

from output.page.app import page_app
from output.page.desk import Desk
from output.page.folder import Folder
from output.page.safety import Door

__all__ = ["serve"]


def serve(path: Path, *, browse: bool, tell: Callable[[str], None]) -> None:
    """Show the folder until Ctrl-C.

    browse: whether the browser is opened; tell: is called with the address once it answers
    """
    listening = socket.create_server(("127.0.0.1", 0), backlog=128)
    door = Door(listening.getsockname()[1], secrets.token_urlsafe(24))
    desk = Desk(Folder.at(path))
    config = uvicorn.Config(
        page_app(desk, door),
        log_level="warning",
        access_log=False,
        lifespan="on",
        ws="none",
        server_header=False,
        timeout_graceful_shutdown=1,  # pages that listen for events never end by themselves
    )
    tell(door.address)
    if browse:
        webbrowser.open(door.address)
    try:
        uvicorn.Server(config).run(sockets=[listening])
    finally:
        desk.close()
