"""The addresses of the page: what is asked of each, and what is answered.

The page itself is given before the engine is loaded; what is asked meanwhile waits for it.
"""

from __future__ import annotations

import asyncio
import math
import mimetypes
import os
import sys
import time
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, Response, StreamingResponse
from starlette.routing import Mount, Route
from starlette.types import ASGIApp

from output.api import TrueseamError
from output.page.behind_door import behind
from output.page.edits import CannotEdit
from output.page.events import Teller, watch
from output.page.file_jobs import Jobs
from output.page.folder import Folder, NotInFolder
from output.page.listing import listed
from output.page.open_log import OpenedLog
from output.page.request import read_request
from output.page.safety import Door
from output.page.texts import NoText
from output.page.undo_log import NotYetWritten

if TYPE_CHECKING:
    from output.page.answers import Answers

__all__ = ["page_app"]

_STATIC: Final = Path(__file__).parent / "static"

_BETWEEN: Final = 0.2
"""Seconds of drawing pictures before another question is answered (our figure)."""

_QUIET: Final = 2.0
"""Seconds since the last question until pictures are drawn: no change waits for them (our figure)."""

_GIVES_WAY: Final = 0.0003
"""Seconds that a thread works while another waits, as long as the engine is loaded: a tenth sooner on the screen."""

_FAULT: Final = 500

Given = dict[str, Any]


def page_app(folder: Folder, opened: OpenedLog, door: Door, teller: Teller) -> ASGIApp:
    """The whole page of one folder, behind its door. teller: tells the pages what they did not ask for"""
    inner = _Page(folder, opened, teller)
    routes = [*_shipped(), Mount("/api", routes=inner.routes())]
    return behind(door, Starlette(routes=[Mount(f"/{door.token}", routes=routes)], lifespan=inner.lifespan))


def _shipped() -> list[Route]:
    """The page and all that belongs to it, kept ready: no name that is asked for is looked up on the disk."""
    scripts = sorted(path.relative_to(_STATIC).as_posix() for path in _STATIC.rglob("*.js"))
    early = "".join(f'<link rel="modulepreload" href="static/{name}">\n' for name in scripts)
    index = (_STATIC / "index.html").read_text(encoding="utf-8").replace("</head>", f"{early}</head>")
    files = {path.relative_to(_STATIC).as_posix(): path for path in _STATIC.rglob("*") if path.is_file()}
    given = [Route("/", _giving(index.encode(), "text/html"))]
    for name, path in files.items():
        kind = mimetypes.guess_type(name)[0] or "text/plain"
        given.append(Route(f"/static/{name}", _giving(path.read_bytes(), kind)))
    return given


def _giving(content: bytes, kind: str) -> Callable[[Request], Awaitable[Response]]:
    async def give(_request: Request) -> Response:
        return Response(content, media_type=kind)

    return give


class _Page:
    """What stands behind the addresses. Questions are answered one by one, in a thread beside the server's."""

    def __init__(self, folder: Folder, opened: OpenedLog, teller: Teller) -> None:
        self.folder, self.opened, self.teller = folder, opened, teller
        self._alone = asyncio.Lock()
        self._drawing: asyncio.Task[None] | None = None
        self._asked_last = -math.inf

    @asynccontextmanager
    async def lifespan(self, _app: object) -> AsyncIterator[None]:
        """While the server runs, files are watched and jobs may run."""
        self.loading = asyncio.create_task(asyncio.to_thread(self._load))
        self.jobs = Jobs(self.folder, self.teller)
        watching = asyncio.create_task(watch(self.folder, self.teller))
        try:
            yield
        finally:
            watching.cancel()
            with suppress(asyncio.CancelledError):
                await watching
            await self.jobs.close()

    def _load(self) -> Answers:
        """Loads the engine, and gives way to the server often: the page itself is asked for meanwhile."""
        usual = sys.getswitchinterval()
        sys.setswitchinterval(_GIVES_WAY)
        try:
            from output.page.answers import load_answers
        finally:
            sys.setswitchinterval(usual)

        return load_answers(self.folder, self.opened)

    async def _answers(self) -> Answers:
        """What answers, once it is loaded; whoever asked and has gone does not end the loading."""
        return await asyncio.shield(self.loading)

    def routes(self) -> list[Route]:
        """The addresses below api/."""
        return [
            Route("/folder", self._folder),
            Route("/events", self._events),
            Route("/make", self._taking(self._make), methods=["POST"]),
            Route("/stop", self._taking(self._stop), methods=["POST"]),
            Route("/made/{number}", self._made),
            Route("/{address}", self._asked, methods=["POST"]),
        ]

    async def _asked(self, request: Request) -> Response:
        """A question whose answer is worked out, one after another."""
        address = request.path_params["address"]

        async def worked(given: Given) -> Response:
            answers = await self._answers()
            if address not in answers:
                return _sentence_response(404, "There is nothing here to ask for.")
            async with self._alone:
                body = await asyncio.to_thread(answers.to, address, given)
            self._asked_last = time.monotonic()
            return Response(body, media_type="application/json")

        return await self._taking(worked)(request)

    def _taking(self, take: Callable[[Given], Awaitable[Response]]) -> Callable[[Request], Awaitable[Response]]:
        """An address that is given an object in JSON; what cannot be done is answered in a sentence."""

        async def endpoint(request: Request) -> Response:
            given = read_request(await request.body())
            if isinstance(given, str):
                return _sentence_response(400, given)
            try:
                return await take(given)
            except Exception as wrong:
                status, sentence = _why_not(wrong)
                if status == _FAULT and os.environ.get("TRUESEAM_TRACEBACK"):
                    raise
                return _sentence_response(status, sentence)

        return endpoint

    async def _folder(self, _request: Request) -> Response:
        told = await asyncio.to_thread(listed, self.folder)
        whole = False
        if self.loading.done():
            answers = await self._answers()
            async with self._alone:
                whole = await asyncio.to_thread(answers.add_pictures, told["garments"], within=0.0)
        if not whole and (self._drawing is None or self._drawing.done()):
            self._drawing = asyncio.create_task(self._draw_all())
        return JSONResponse(told | {"notes": [self.opened.told] if self.opened.told else []})

    async def _draw_all(self) -> None:
        """Draw the pictures that are not there yet, and tell of them when they are."""
        answers, whole = await self._answers(), False
        while not whole:
            while (busy := self._asked_last + _QUIET - time.monotonic()) > 0.0:
                await asyncio.sleep(busy)
            garments = (await asyncio.to_thread(listed, self.folder))["garments"]
            async with self._alone:  # what she asks meanwhile is answered between two pictures
                whole = await asyncio.to_thread(answers.add_pictures, garments, within=_BETWEEN)
        self.teller.tell({"changed": [each["file"] for each in garments]})

    async def _events(self, _request: Request) -> Response:
        return StreamingResponse(self.teller.heard(), media_type="text/event-stream")

    async def _make(self, given: Given) -> Response:
        return JSONResponse({"job": self.jobs.start(given)})

    async def _stop(self, given: Given) -> Response:
        self.jobs.stop(given.get("job"))
        return JSONResponse({})

    async def _made(self, request: Request) -> Response:
        made = self.jobs.made(request.path_params["number"])
        if made is None or not made.path.is_file():
            return _sentence_response(404, "That file is not kept any more: make it again.")
        return FileResponse(made.path, filename=made.name, content_disposition_type="attachment")


def _why_not(wrong: Exception) -> tuple[int, str]:
    """The HTTP status and the sentence for what kept a question from being answered."""
    match wrong:
        case NotInFolder():
            return 404, "There is no such file in this folder."
        case CannotEdit():
            return 400, wrong.sentence
        case TrueseamError():
            return 409, " ".join(wrong.sentences())
        case NotYetWritten():
            return 409, str(wrong)
        case OSError():
            return 404, f"The file cannot be read or written: {wrong.strerror or 'it is gone'}."
        case NoText():
            return 404, str(wrong)
    return (
        _FAULT,
        f"This is a fault of trueseam, not of what you did; nothing is half written ({type(wrong).__name__}).",
    )


def _sentence_response(status: int, sentence: str) -> Response:
    return JSONResponse({"sentence": sentence}, status_code=status)
