"""A page's part at a desk: it looks, tries, changes and undoes, and keeps what it is told."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from output.page.desk import Desk
from output.page.edits import read_edits
from output.page.folder import Folder
from tests.output.page.running_page import FERRY

__all__ = ["Hands"]


class Hands:
    """A desk, and what a page would do at it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.desk = Desk(Folder.at(folder))
        self.state: dict[str, Any] = {}
        self.parts: dict[str, Any] = {}
        self.look()

    def take(self, answer: bytes) -> dict[str, Any]:
        self.state = json.loads(answer)
        for name in self.state["gone"]:
            del self.parts[name]
        self.parts.update(self.state["parts"])
        assert self.parts.keys() == self.state["hashes"].keys()
        return self.state

    @property
    def have(self) -> dict[str, str]:
        return self.state.get("hashes", {})

    def look(self) -> dict[str, Any]:
        return self.take(self.desk.look(FERRY, self.have))

    def attempt(self, *edits: Any, soon: bool = False) -> dict[str, Any]:
        asked = read_edits(list(edits))
        return self.take(self.desk.attempt(FERRY, self.state["version"], asked, self.have, soon=soon))

    def change(self, *edits: Any, version: str = "", words: str = "a change", run: str = "") -> dict[str, Any]:
        named = version or self.state["version"]
        return self.take(self.desk.change(FERRY, named, read_edits(list(edits)), words, run, self.have))

    def undo(self) -> dict[str, Any]:
        return self.take(self.desk.undo(FERRY, self.have, again=False))

    def redo(self) -> dict[str, Any]:
        return self.take(self.desk.undo(FERRY, self.have, again=True))

    def restart(self) -> None:
        self.desk.close()
        self.desk = Desk(Folder.at(self.folder))
        self.state, self.parts = {}, {}
        self.look()

    def text(self, name: str = FERRY) -> str:
        return (self.folder / name).read_text(encoding="utf-8")

    def write(self, old: str, new: str, name: str = FERRY) -> None:
        """What an editor does."""
        assert old in self.text(name)
        (self.folder / name).write_text(self.text(name).replace(old, new), encoding="utf-8")

    def asked(self) -> str | None:
        fields = {each["key"]: each for each in self.parts["changed"]["cards"][0]["fields"]}
        asked: str | None = fields["by"]["asked"]
        return asked
