"""One folder that is worked in: looked at, tried, changed, undone; what was made of each garment is kept here."""

from __future__ import annotations

import tomllib
from collections import OrderedDict
from collections.abc import Mapping, Sequence
from typing import Any, Final

from output.api import Draft
from output.api.showing import write_over
from output.page.editing import edited_text
from output.page.edits import Edit, Tables, edited
from output.page.folder import HIDDEN, Folder
from output.page.state import State, parts_of, state_json
from output.page.undo_log import UndoLog, hash_of
from output.page.views.shown import Shown
from output.page.workshop import Files, Made, NotMade, make, read_files, read_text

__all__ = ["Desk"]

_MOST_KEPT: Final = 8
"""Garments whose drafts are kept at once (our figure)."""


class _Kept:
    """What was made of a garment. standing: of its files; tried: of the last edits that were tried on them"""

    def __init__(self) -> None:
        self.version = ""
        self.standing: Made | None = None
        self.tried: Made | None = None
        self.before: Made | None = None
        self.before_of = 0


class Desk:
    """A folder and what was made of it. All of its methods may be called from one thread at a time."""

    def __init__(self, folder: Folder) -> None:
        self.folder = folder
        (folder.path / HIDDEN).mkdir(exist_ok=True)
        self.log = UndoLog(folder.path / HIDDEN / "undo.sqlite", self._read, self._write)
        self._kept: OrderedDict[str, _Kept] = OrderedDict()

    def listing(self) -> dict[str, Any]:
        """The people and the garments of the folder."""
        people: list[dict[str, Any]] = []
        garments: list[dict[str, Any]] = []
        for name in self.folder.files():
            try:
                tables = _tables(read_text(self.folder.file(name)))
            except (OSError, ValueError):
                garments.append(_garment_row(name, {}) | {"problem": "It cannot be read."})
                continue
            if "measurements" in tables:
                people.append({"file": name, "name": str(tables.get("name", name)), "unit": tables.get("unit", "cm")})
            elif {"block", "wearer", "like", "title"} & tables.keys():
                garments.append(_garment_row(name, tables))
        lacks = "people" if not people else None if garments else "garments"
        return {"folder": str(self.folder.path), "people": people, "garments": garments, "lacks": lacks}

    def look(self, name: str, have: Mapping[str, str]) -> bytes:
        """The state of a garment as its files stand."""
        return self._state(self._files(name), have)

    def attempt(self, name: str, edits: Sequence[Edit], have: Mapping[str, str]) -> bytes:
        """The state as it would be with these edits; nothing is written."""
        files = self._files(name)
        kept = self._keep(files)
        try:
            kept.tried = _made(self.folder, files, edits, kept.tried or kept.standing)
        except NotMade as refused:
            return self._state(files, have, refused=refused.problems)
        return self._answer(files, kept.tried, kept.standing, have, trying=True)

    def change(
        self, name: str, version: str, edits: Sequence[Edit], words: str, run: str, have: Mapping[str, str]
    ) -> bytes:
        """The edits written to the files, and the state after them."""
        files = self._files(name)
        kept = self._keep(files)
        try:
            made = _made(self.folder, files, edits, kept.tried or kept.standing)
            new = _new_texts(files, edits)
        except NotMade as refused:
            return self._state(files, have, refused=refused.problems)
        if not self.log.done(name, files.texts, new, words, run):
            return self.change(name, version, edits, words, run, have)
        after = self._files(name)
        kept.version, kept.standing = _version(after), made
        return self._state(after, have, written=True)

    def undo(self, name: str, have: Mapping[str, str], *, again: bool) -> bytes:
        """The last change taken back, or the one that was taken back done again; the state after it."""
        files = self._files(name)
        done = (self.log.redo if again else self.log.undo)(name, files.texts)
        return self._state(self._files(name), have, written=done is not None)

    def draft(self, name: str) -> Draft:
        """The garment as its files stand. Raises NotMade."""
        standing = self._keep(self._files(name)).standing
        assert standing is not None
        return standing.draft

    def _files(self, name: str) -> Files:
        files = read_files(self.folder, name)
        self.log.notice(name, files.texts)
        return files

    def _keep(self, files: Files) -> _Kept:
        """What is kept of a garment, made anew where its files have changed. Raises NotMade."""
        kept = self._kept.setdefault(files.garment, _Kept())
        self._kept.move_to_end(files.garment)
        while len(self._kept) > _MOST_KEPT:
            self._kept.popitem(last=False)
        if kept.version != _version(files):
            kept.standing = _made(self.folder, files, (), kept.standing)
            kept.version, kept.tried = _version(files), None
        return kept

    def _state(
        self,
        files: Files,
        have: Mapping[str, str],
        *,
        refused: Sequence[Mapping[str, Any]] = (),
        written: bool = False,
    ) -> bytes:
        try:
            kept = self._keep(files)
        except NotMade as wrong:
            state = State(files.garment, _version(files), "cm", (*wrong.problems, *refused), written)
            return state_json(state, {}, have)
        assert kept.standing is not None
        return self._answer(files, kept.standing, self._before(files, kept), have, refused=refused, written=written)

    def _before(self, files: Files, kept: _Kept) -> Made | None:
        """What stood before the last change; None where it could not be drafted."""
        last = self.log.last(files.garment)
        if last is None:
            return None
        if kept.before_of != last.number or kept.before is None:
            older = Files(files.garment, files.person, {**files.texts, **last.before})
            try:
                kept.before = _made(self.folder, older, (), kept.standing)
            except NotMade:
                kept.before = None
            kept.before_of = last.number
        return kept.before

    def _answer(
        self,
        files: Files,
        made: Made,
        before: Made | None,
        have: Mapping[str, str],
        *,
        refused: Sequence[Mapping[str, Any]] = (),
        written: bool = False,
        trying: bool = False,
    ) -> bytes:
        undo, redo = self.log.words(files.garment)
        shown = Shown(
            garment=made.garment,
            draft=made.draft,
            checks=made.checks,
            before=before.draft if before else None,
            tables=made.tables,
            person=made.person,
            files=(files.garment, files.person),
            asked={},
            undo=undo,
            redo=redo,
        )
        state = State(files.garment, _version(files), shown.unit, tuple(refused), written)
        return state_json(state, parts_of(shown, trying=trying), have, trying=trying)

    def _read(self, name: str) -> str:
        try:
            return read_text(self.folder.file(name))
        except FileNotFoundError:
            return ""

    def _write(self, name: str, text: str) -> None:
        write_over(self.folder.file(name), text.encode())


def _garment_row(name: str, tables: Tables) -> dict[str, Any]:
    title, wearer = str(tables.get("title", name)), str(tables.get("wearer", ""))
    return {"file": name, "title": title, "for": wearer, "picture": None}


def _version(files: Files) -> str:
    return ".".join(hash_of(text) for text in files.texts.values())


def _made(folder: Folder, files: Files, edits: Sequence[Edit], after: Made | None) -> Made:
    tables = edited(_tables(files.garment_text), [each for each in edits if each.where == "garment"])
    person = edited(_tables(files.person_text), [each for each in edits if each.where == "person"])
    return make(folder, files, tables, person, after)


def _tables(text: str) -> Tables:
    return tomllib.loads(text.removeprefix("\ufeff"))


def _new_texts(files: Files, edits: Sequence[Edit]) -> dict[str, str]:
    new: dict[str, str] = {}
    for where, name in (("garment", files.garment), ("person", files.person)):
        ours = [each for each in edits if each.where == where]
        if ours:
            new[name] = edited_text(files.texts[name], ours)
    return new
