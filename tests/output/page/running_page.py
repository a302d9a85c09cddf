"""The real server of the page, started as she starts it, on a copy of the examples."""

from __future__ import annotations

import http.client
import json
import shutil
import subprocess
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

EXAMPLES = Path(__file__).parents[3] / "examples"
FERRY = "garments/ferry-dress.toml"


@dataclass(frozen=True)
class Answer:
    """What was answered: the HTTP status, the headers in small letters, what is in it."""

    status: int
    headers: Mapping[str, str]
    body: bytes

    @property
    def data(self) -> Any:
        return json.loads(self.body)


@dataclass(frozen=True)
class RunningPage:
    """A server that runs."""

    process: subprocess.Popen[str]
    folder: Path
    address: str

    @property
    def host(self) -> str:
        return self.address.split("/")[2]

    @property
    def token(self) -> str:
        return self.address.split("/")[3]

    def send(self, method: str, path: str, body: bytes | None = None, **headers: str) -> Answer:
        """Ask as anybody may, with these headers and no others; "_" stands for "-" in their names."""
        to = http.client.HTTPConnection("127.0.0.1", int(self.host.split(":")[1]), timeout=60)
        try:
            named = {name.replace("_", "-"): value for name, value in headers.items()}
            to.putrequest(method, path, skip_host="host" in named, skip_accept_encoding=True)
            for name, value in named.items():
                to.putheader(name, value)
            if body is not None and not {"content-length", "transfer-encoding"} & named.keys():
                to.putheader("content-length", str(len(body)))
            to.endheaders(body)
            got = to.getresponse()
            return Answer(got.status, {name.lower(): value for name, value in got.getheaders()}, got.read())
        finally:
            to.close()

    def ask(self, address: str, given: object | None = None, **headers: str) -> Answer:
        """Ask as the page does."""
        path = f"/{self.token}/api/{address}"
        if given is None:
            return self.send("GET", path, **headers)
        with_these = {"origin": f"http://{self.host}", "content_type": "application/json"} | headers
        return self.send("POST", path, json.dumps(given).encode(), **with_these)

    def look(self, file: str = FERRY) -> Any:
        return self.ask("look", {"file": file}).data

    def change(self, version: str, *edits: Any, file: str = FERRY, words: str = "a change") -> Any:
        return self.ask("change", {"file": file, "version": version, "edits": list(edits), "words": words}).data


@contextmanager
def opened(folder: Path) -> Iterator[RunningPage]:
    """`trueseam open` on a folder."""
    words = [sys.executable, "-m", "output.command", "open", str(folder), "--no-browser", "--json"]
    process = subprocess.Popen(words, stdout=subprocess.PIPE, text=True)
    try:
        assert process.stdout is not None
        yield RunningPage(process, folder, json.loads(process.stdout.readline())["address"])
    finally:
        process.terminate()
        process.communicate(timeout=30)


def copy_of_examples(place: Path, *garments: str) -> Path:
    """The people and garments of the examples, or only some of the garments, copied to a folder."""
    for name in ("people", "garments"):
        shutil.copytree(EXAMPLES / name, place / name)
    for path in (place / "garments").iterdir():
        if garments and f"garments/{path.name}" not in garments:
            path.unlink()
    return place


def set_to(at: list[str | int], value: object, where: str = "garment") -> dict[str, object]:
    """An edit that sets a value."""
    return {"in": where, "do": "set", "at": at, "value": value}
