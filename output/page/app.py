"""The addresses of the page: what is asked of each, and what is answered."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from threading import Lock
from typing import Any, Final

from anyio import to_thread
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp, Receive, Scope, Send

from output.api import TrueseamError
from output.page.desk import Desk
from output.page.drawing_questions import drawing_answers
from output.page.edits import CannotEdit, read_edits
from output.page.folder import NotInFolder
from output.page.safety import Door, headers
from output.page.workshop import NotMade

__all__ = ["page_app"]

_STATIC: Final = Path(__file__).parent / "static"
_HEADERS: Final = [(name.encode(), value.encode()) for name, value in headers.items()]


def page_app(desk: Desk, door: Door) -> ASGIApp:
    """The whole page of one folder, behind its door."""
    lock = Lock()

    def answering(answer: Callable[[dict[str, Any]], bytes]) -> Callable[[Request], Any]:
        """An address that is given JSON and answers with JSON, one request after another."""

        async def endpoint(request: Request) -> Response:
            try:
                given = await request.json()
            except ValueError:
                return _said(400, "That is no JSON.")
            if not isinstance(given, dict):
                return _said(400, "An object was expected.")

            def work() -> bytes:
                with lock:
                    return answer(given)

            try:
                body = await to_thread.run_sync(work)
            except NotInFolder:
                return _said(404, "There is no such file in this folder.")
            except FileNotFoundError:
                return _said(404, "That file is gone.")
            except CannotEdit as refused:
                return _said(400, refused.sentence)
            except TrueseamError as unknown:
                return _said(404, " ".join(unknown.sentences()))
            except NotMade:
                return _said(409, "It cannot be drawn as its file stands.")
            return Response(body, media_type="application/json")

        return endpoint

    def look(given: dict[str, Any]) -> bytes:
        return desk.look(given.get("file", ""), _have(given))

    def attempt(given: dict[str, Any]) -> bytes:
        return desk.attempt(given.get("file", ""), read_edits(given.get("edits")), _have(given))

    def change(given: dict[str, Any]) -> bytes:
        edits = read_edits(given.get("edits"))
        version, words, run = (_text(given, key) for key in ("version", "words", "run"))
        return desk.change(given.get("file", ""), version, edits, words, run, _have(given))

    def undo(given: dict[str, Any]) -> bytes:
        return desk.undo(given.get("file", ""), _have(given), again=False)

    def redo(given: dict[str, Any]) -> bytes:
        return desk.undo(given.get("file", ""), _have(given), again=True)

    async def folder(_request: Request) -> Response:
        return JSONResponse(desk.listing())

    async def index(_request: Request) -> Response:
        return Response((_STATIC / "index.html").read_bytes(), media_type="text/html")

    api = [
        Route("/folder", folder),
        *(Route(f"/{answer.__name__}", answering(answer), methods=["POST"]) for answer in (look, change, undo, redo)),
        Route("/try", answering(attempt), methods=["POST"]),
        *(Route(f"/{name}", answering(drawn), methods=["POST"]) for name, drawn in drawing_answers(desk.draft).items()),
    ]
    routes = [Route("/", index), Mount("/static", StaticFiles(directory=_STATIC)), Mount("/api", routes=api)]
    return _behind(door, Starlette(routes=[Mount(f"/{door.token}", routes=routes)]))


def _behind(door: Door, inner: ASGIApp) -> ASGIApp:
    """The app, asked only by whom the door lets in; every answer carries the headers of `safety`."""

    async def app(scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return

        async def send_safely(message: Any) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", ()), *_HEADERS]
            await send(message)

        given = {name.decode("latin-1"): value.decode("latin-1") for name, value in scope["headers"]}
        refused = door.judge(scope["method"], scope["path"], given)
        if refused is not None:
            await _said(refused.status, refused.why)(scope, receive, send_safely)
        else:
            await inner(scope, receive, send_safely)

    return app


def _said(status: int, sentence: str) -> Response:
    return JSONResponse({"sentence": sentence}, status_code=status)


def _have(given: dict[str, Any]) -> dict[str, str]:
    have = given.get("have")
    return have if isinstance(have, dict) else {}


def _text(given: dict[str, Any], key: str) -> str:
    value = given.get(key)
    return value[:200] if isinstance(value, str) else ""
