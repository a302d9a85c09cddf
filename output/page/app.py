"""The addresses of the page: what is asked of each, and what is answered."""

from __future__ import annotations

import asyncio
import os
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager, suppress
from pathlib import Path
from typing import Any, Final

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, Response, StreamingResponse
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp

from output.api import TrueseamError
from output.page.beginning import begin
from output.page.behind_door import behind
from output.page.desk import Desk
from output.page.drawing_questions import drawing_answers
from output.page.earlier_lengths import lengths_before
from output.page.edits import CannotEdit, read_edits
from output.page.events import Teller, watch
from output.page.folder import NotInFolder
from output.page.listing import Listing
from output.page.making import Jobs
from output.page.request import as_json, read_request, text_of
from output.page.safety import Door
from output.page.undo_log import NotYetWritten
from output.page.workshop import NoText

__all__ = ["page_app"]

_STATIC: Final = Path(__file__).parent / "static"

_SOON: Final = 0.2
"""Seconds for the pictures of the first answer; the others come after it (our figure)."""

_FAULT: Final = 500

Given = dict[str, Any]
Answer = Callable[[Given], bytes]


def page_app(desk: Desk, door: Door, teller: Teller) -> ASGIApp:
    """The whole page of one folder, behind its door. teller: tells the pages what they did not ask for"""
    inner = _Page(desk, teller)
    routes = [
        Route("/", _index),
        Mount("/static", StaticFiles(directory=_STATIC)),
        Mount("/api", routes=inner.routes()),
    ]
    return behind(door, Starlette(routes=[Mount(f"/{door.token}", routes=routes)], lifespan=inner.lifespan))


async def _index(_request: Request) -> Response:
    return Response((_STATIC / "index.html").read_bytes(), media_type="text/html")


class _Page:
    """What stands behind the addresses. Questions are answered one by one, in a thread beside the server's."""

    def __init__(self, desk: Desk, teller: Teller) -> None:
        self.desk, self.listing, self.teller = desk, Listing(desk), teller
        self._alone = asyncio.Lock()
        self._drawing: asyncio.Task[None] | None = None

    @asynccontextmanager
    async def lifespan(self, _app: object) -> AsyncIterator[None]:
        """While the server runs, files are watched and jobs may run."""
        self.jobs = Jobs(self.desk.folder, self.teller)
        watching = asyncio.create_task(watch(self.desk.folder, self.teller))
        try:
            yield
        finally:
            watching.cancel()
            with suppress(asyncio.CancelledError):
                await watching
            await self.jobs.close()

    def routes(self) -> list[Route]:
        """The addresses below api/."""
        desk = self.desk
        answers: dict[str, Answer] = {
            "look": lambda given: desk.look(_file(given), _have(given)),
            "try": lambda given: desk.attempt(_file(given), text_of(given, "version"), _edits(given), _have(given)),
            "change": lambda given: desk.change(
                _file(given),
                text_of(given, "version"),
                _edits(given),
                text_of(given, "words"),
                text_of(given, "run"),
                _have(given),
            ),
            "undo": lambda given: desk.undo(_file(given), _have(given), again=False),
            "redo": lambda given: desk.undo(_file(given), _have(given), again=True),
            "new": lambda given: as_json({"file": begin(desk.folder, self.listing.tell(), given)}).encode(),
            "lengths": lambda given: as_json({"earlier": lengths_before(desk.folder, desk.log, _file(given))}).encode(),
            **drawing_answers(desk),
        }
        asked = [Route(f"/{name}", self._answering(answer), methods=["POST"]) for name, answer in answers.items()]
        return [
            *asked,
            Route("/folder", self._folder),
            Route("/events", self._events),
            Route("/make", self._taking(self._make), methods=["POST"]),
            Route("/stop", self._taking(self._stop), methods=["POST"]),
            Route("/made/{number}", self._made),
        ]

    def _answering(self, answer: Answer) -> Callable[[Request], Awaitable[Response]]:
        """An address whose answer is worked out, one after another."""

        async def worked(given: Given) -> Response:
            async with self._alone:
                body = await asyncio.to_thread(answer, given)
            return Response(body, media_type="application/json")

        return self._taking(worked)

    def _taking(self, take: Callable[[Given], Awaitable[Response]]) -> Callable[[Request], Awaitable[Response]]:
        """An address that is given an object in JSON; what cannot be done is answered in a sentence."""

        async def endpoint(request: Request) -> Response:
            given = read_request(await request.body())
            if isinstance(given, str):
                return _said(400, given)
            try:
                return await take(given)
            except Exception as wrong:
                status, sentence = _why_not(wrong)
                if status == _FAULT and os.environ.get("TRUESEAM_TRACEBACK"):
                    raise
                return _said(status, sentence)

        return endpoint

    async def _folder(self, _request: Request) -> Response:
        async with self._alone:
            told = await asyncio.to_thread(self.listing.tell, within=_SOON)
        if not self.listing.whole and (self._drawing is None or self._drawing.done()):
            self._drawing = asyncio.create_task(self._draw_all())
        return JSONResponse(told)

    async def _draw_all(self) -> None:
        """Draw the pictures that the first answer did not wait for, and tell that they are there."""
        while not self.listing.whole:
            async with self._alone:  # what she asks meanwhile is answered between two pictures
                told = await asyncio.to_thread(self.listing.tell, within=_SOON)
        self.teller.tell({"changed": [each["file"] for each in told["garments"]]})

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
            return _said(404, "That file is not kept any more: make it again.")
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


def _said(status: int, sentence: str) -> Response:
    return JSONResponse({"sentence": sentence}, status_code=status)


def _file(given: Given) -> str:
    return text_of(given, "file")


def _edits(given: Given) -> Any:
    return read_edits(given.get("edits"))


def _have(given: Given) -> dict[str, str]:
    have = given.get("have")
    return {k: v for k, v in have.items() if isinstance(v, str)} if isinstance(have, dict) else {}
