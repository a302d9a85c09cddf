"""The server of the page: it runs until Ctrl-C, and ends what the pages listen to."""

from __future__ import annotations

from types import FrameType

import uvicorn

from output.page.app import page_app
from output.page.events import Teller
from output.page.folder import Folder
from output.page.open_log import OpenedLog
from output.page.safety import Door

__all__ = ["PageServer", "page_server"]


class PageServer(uvicorn.Server):
    """A server that, once it is to end, ends what the pages listen to: they would never end it themselves."""

    def __init__(self, config: uvicorn.Config, teller: Teller) -> None:
        super().__init__(config)
        self._teller = teller

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        super().handle_exit(sig, frame)
        self._teller.end()

    def end(self) -> None:
        """End it as Ctrl-C does. May be called from any thread."""
        self.should_exit = True
        self._teller.end()


def page_server(folder: Folder, opened: OpenedLog, door: Door) -> PageServer:
    """What answers whoever the door lets in. It runs on a socket that listens already, `run(sockets=[...])`, until
    Ctrl-C.
    """
    teller = Teller()
    config = uvicorn.Config(
        page_app(folder, opened, door, teller),
        log_level="warning",
        access_log=False,
        lifespan="on",
        ws="none",
        server_header=False,
        timeout_graceful_shutdown=2,
    )
    return PageServer(config, teller)
