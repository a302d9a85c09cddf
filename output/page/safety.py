"""Who may ask the server: a page that came from it, on this machine, by the address with the token.

Another site that is open in the same browser can send requests to this machine. It does not know the token; its
requests carry its own Origin; and a name of its own that it lets stand for 127.0.0.1 shows in Host.
"""

from __future__ import annotations

import hmac
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

__all__ = ["LARGEST_BODY", "LARGEST_BROUGHT", "Door", "Refused", "headers", "largest"]

LARGEST_BODY: Final = 200_000
"""Bytes in what a page sends: a hundred times what a change takes (our figure)."""

LARGEST_BROUGHT: Final = 20_000_000
"""Bytes in what a page brings in: a pattern from elsewhere (our figure)."""

_BRINGS: Final = "/api/bring"

headers: Final[Mapping[str, str]] = {
    "content-security-policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
        "form-action 'none'; frame-ancestors 'none'; base-uri 'none'"
    ),
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-resource-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cache-control": "no-store",
}
"""What every answer carries: nothing from elsewhere, no script in the markup, and no address told to anyone."""


@dataclass(frozen=True, slots=True)
class Refused:
    """Why a request is not answered: an HTTP status, and a line for whoever looks."""

    status: int
    why: str


@dataclass(frozen=True, slots=True)
class Door:
    """What a request must have to come in. port: that of the server; token: the first part of each path"""

    port: int
    token: str

    @property
    def address(self) -> str:
        """What is opened in the browser."""
        return f"http://127.0.0.1:{self.port}/{self.token}/"

    def judge(self, method: str, path: str, given: Mapping[str, str]) -> Refused | None:
        """Why a request may not come in; None where it may. given: its headers, named in small letters"""
        hosts = (f"127.0.0.1:{self.port}", f"localhost:{self.port}")
        if given.get("host") not in hosts:
            return Refused(421, "This is not the address that the page was opened with.")
        token = path.split("/")[1] if path.startswith("/") else ""
        if not hmac.compare_digest(token.encode(), self.token.encode()):
            return Refused(404, "There is nothing here. Open the address that trueseam told.")
        if method in ("GET", "HEAD"):
            return None
        if method != "POST":
            return Refused(405, "Only pages are given here, and changes taken.")
        if given.get("origin") not in tuple(f"http://{host}" for host in hosts):
            return Refused(403, "This came from another page.")
        if given.get("content-type", "").partition(";")[0].strip() != "application/json":
            return Refused(415, "Changes are sent as JSON.")
        length = given.get("content-length", "")
        if length and (not length.isdecimal() or len(length) > len("10000000") or int(length) > largest(path)):
            return Refused(413, "That is more than a change takes.")
        return None

    def judge_twice(self, given: Iterable[tuple[str, str]]) -> Refused | None:
        """Why a request may not come in that says twice who asks, so that it is not known which is meant."""
        names = [name for name, _ in given if name in ("host", "origin", "content-type")]
        return Refused(400, "Said twice who asks.") if len(names) > len(set(names)) else None


def largest(path: str) -> int:
    """Bytes that a page may send to a path."""
    return LARGEST_BROUGHT if path.endswith(_BRINGS) else LARGEST_BODY
