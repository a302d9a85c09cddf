"""An app behind its door: whoever may not come in is told so, and every answer carries the headers of `safety`."""

from __future__ import annotations

import json
from collections.abc import MutableMapping
from typing import Any, Final

from starlette.types import ASGIApp, Receive, Scope, Send

from output.page.safety import Door, Refused, headers, largest

__all__ = ["behind"]

_HEADERS: Final = [(name.encode(), value.encode()) for name, value in headers.items()]
_TOO_MUCH: Final = Refused(413, "That is more than a change takes.")


def behind(door: Door, inner: ASGIApp) -> ASGIApp:
    """The app, asked only by whom the door lets in, and with no more than the door lets through."""

    async def app(scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request if the door lets it in; say why where it does not."""
        if scope["type"] == "lifespan":
            await inner(scope, receive, send)
            return
        if scope["type"] != "http":
            return

        async def send_safely(message: MutableMapping[str, Any]) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", ()), *_HEADERS]
            await send(message)

        given = [(name.decode("latin-1").lower(), value.decode("latin-1")) for name, value in scope["headers"]]
        refused = door.judge(scope["method"], scope["path"], dict(given)) or door.judge_twice(given)
        if refused is None and scope["method"] == "POST":
            body = await _body(receive, largest(scope["path"]))
            if body is not None:
                await inner(scope, _giving(body, receive), send_safely)
                return
            refused = _TOO_MUCH
        if refused is not None:
            await _tell(refused, send_safely)
        else:
            await inner(scope, receive, send_safely)

    return app


async def _body(receive: Receive, most: int) -> bytes | None:
    """What a page sends, whole; None where it is more than may be, whatever length it said."""
    body = b""
    while True:
        message = await receive()
        if message["type"] != "http.request":
            return None
        part: bytes = message.get("body", b"")
        body += part
        if len(body) > most:
            return None
        if not message.get("more_body", False):
            return body


def _giving(body: bytes, receive: Receive) -> Receive:
    """Gives a body that was received already, and then whatever comes."""
    waiting = [body]

    async def receive_again() -> MutableMapping[str, Any]:
        if waiting:
            return {"type": "http.request", "body": waiting.pop(), "more_body": False}
        return await receive()

    return receive_again


async def _tell(refused: Refused, send: Send) -> None:
    body = json.dumps({"sentence": refused.why}).encode()
    about = [(b"content-type", b"application/json"), (b"content-length", str(len(body)).encode())]
    await send({"type": "http.response.start", "status": refused.status, "headers": about})
    await send({"type": "http.response.body", "body": body})
