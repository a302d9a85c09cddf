"""One folder that is worked in: looked at, tried, changed, undone; what was made of each garment is kept here."""

from __future__ import annotations

import json
from collections import OrderedDict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any, Final

from output.api import Draft
from output.page.drawing_questions import MOST_CHANGES
from output.page.edited_files import both_tables, made_with, new_texts
from output.page.edits import MOST_EDITS, CannotEdit, Edit, edited, read_edits
from output.page.files import Files, read_files, version_of
from output.page.folder import Folder
from output.page.merging import Both, asked_which, edits_for_now, value_at, without_places
from output.page.open_log import OpenedLog, open_log
from output.page.state import State, parts_of, state_json
from output.page.texts import tables_of
from output.page.views import ALL, CHANGING, MOVING
from output.page.views.data import Data
from output.page.views.shown import Shown
from output.page.workshop import Made, NotMade, make

__all__ = ["Desk"]

_MOST_KEPT: Final = 8
"""Garments whose drafts are kept at once (our figure)."""

_MOST_TRIES: Final = 5
"""How often a change is begun again where another hand was quicker (our figure)."""

_NOT_HAD: Final = "what was asked for and could not be had"

Have = Mapping[str, str]


class _Kept:
    """What was made of a garment.

    standing: of its files, or as much of them as can be made; problems: why not all can
    tried:    of the last edits that were tried on them
    before:   of the texts before the last change, whose number is before_of
    """

    def __init__(self) -> None:
        self.version = ""
        self.standing: Made | None = None
        self.problems: tuple[Data, ...] = ()
        self.tried: Made | None = None
        self.before: Made | None = None
        self.before_of = 0


class Desk:
    """A folder and what was made of it. Its methods are called by one thread at a time.

    opened: its log; left out, it is opened here, which raises CannotWrite where nothing can be written down
    """

    def __init__(self, folder: Folder, opened: OpenedLog | None = None) -> None:
        self.folder = folder
        opened = opened or open_log(folder)
        self.log = opened.log
        self._kept: OrderedDict[str, _Kept] = OrderedDict()
        self._noticed: dict[str, Mapping[str, str]] = {}

    def look(self, name: str, have: Have, *, soon: bool = False) -> bytes:
        """The state of a garment as its files stand. Raises NotInFolder, OSError, NoText.

        soon: whether the parts that take longer are left out, so that the pieces are there sooner
        """
        return self._state(self._files(name), have, soon=soon)

    def attempt(self, name: str, version: str, edits: Sequence[Edit], have: Have, *, soon: bool = False) -> bytes:
        """The state as it would be with these edits; nothing is written. Raises as `look`, and CannotEdit.

        soon: whether only the pieces are told, as they move under her hand; the rest is asked for when it pauses
        """
        files = self._files(name)
        kept = self._keep(files)
        try:
            edits = self._now(files, version, edits)
            kept.tried = made_with(self.folder, files, edits, kept.tried or kept.standing, unchecked=soon)
        except NotMade as refused:
            return self._state(files, have, refused=refused.problems, asked=edits)
        except Both:
            return self._state(files, have)
        return self._answer(files, kept.tried, kept.standing, have, problems=kept.problems, trying=True, soon=soon)

    def change(self, name: str, version: str, edits: Sequence[Edit], words: str, run: str, have: Have) -> bytes:
        """The edits written to the files, and the state after them. Raises as `attempt`.

        version: that of the files for which the edits were made
        words:   what they do; run: the same for all the changes of one drag
        """
        for _ in range(_MOST_TRIES):
            files = self._files(name)
            kept = self._keep(files)
            try:
                now = self._now(files, version, edits)
            except Both as both:
                return self._state(files, have, asks=asked_which(both))
            asked = self._asked(files)
            wanted = self._with_asked(files, asked, now)
            made = self._first_made(files, kept, [wanted, now] if asked else [now])
            if made is None:
                self._ask(name, wanted[-MOST_EDITS:])
                return self._state(files, have)
            done, state = made
            if self.log.done(name, files.texts, new_texts(files, done), words, run):
                self._ask(name, () if done == wanted else self._left(files, asked, done))
                return self._after(name, files, state, have)
        raise CannotEdit("The files are being changed by another program. Try again when it is done.")

    def undo(self, name: str, have: Have, *, again: bool) -> bytes:
        """The last change taken back, or the one that was taken back done again; the state after it.

        What was asked for and could not be had is the last of all, and goes first.
        """
        files = self._files(name)
        if not again and self._asked(files):
            self._ask(name, ())
            return self._state(files, have)
        done = (self.log.redo if again else self.log.undo)(name, files.texts)
        return self._state(self._files(name), have, written=done is not None)

    def standing(self, name: str) -> tuple[str, Made | None, tuple[Data, ...]]:
        """A garment as its files stand: their version, what was made of them, why not all. Raises as `look`."""
        files = self._files(name)
        kept = self._keep(files)
        return kept.version, kept.standing, kept.problems

    def drafted(self, name: str) -> Draft:
        """The draft of a garment as its files stand. Raises as `look`, and CannotEdit where there is none."""
        _, standing, _ = self.standing(name)
        if standing is None:
            raise CannotEdit("It cannot be drafted as its file stands.")
        return standing.draft

    def earlier(self, name: str, back: int) -> Draft:
        """The garment as it was before its last so many changes. Raises CannotEdit where it could not be drafted."""
        files = self._files(name)
        older = replace(files, texts={**files.texts, **self.log.earlier(name, back)})
        try:
            return made_with(self.folder, older, (), self._keep(files).standing).draft
        except NotMade:
            raise CannotEdit("It could not be drafted as it was then.") from None

    def changes(self, name: str) -> list[str]:
        """What the changes that stand did, in words, the newest first."""
        return self.log.standing(name, MOST_CHANGES)

    def close(self) -> None:
        """End the work; all that was put down stays."""
        self.log.close()

    def _files(self, name: str) -> Files:
        files = read_files(self.folder, name)
        if self._noticed.get(name) != files.texts:
            self.log.notice(name, files.texts)
            self._noticed[name] = files.texts
        return files

    def _keep(self, files: Files) -> _Kept:
        """What is kept of a garment, made again where its files have changed."""
        kept = self._kept.setdefault(files.garment, _Kept())
        self._kept.move_to_end(files.garment)
        while len(self._kept) > _MOST_KEPT:
            self._kept.popitem(last=False)
        if kept.version != version_of(files):
            kept.version, kept.tried = version_of(files), None
            kept.standing, kept.problems = self._as_far_as_it_goes(files, kept.standing)
        return kept

    def _as_far_as_it_goes(self, files: Files, last: Made | None) -> tuple[Made | None, tuple[Data, ...]]:
        """What can be made of two files without the steps that are refused, else what was made last; why not all."""
        problems: tuple[Data, ...] = ()
        tables, person = tables_of(files.garment_text), tables_of(files.person_text)
        while True:
            try:
                return make(self.folder, files, tables, person, last), problems
            except NotMade as wrong:
                problems = (*problems, *wrong.problems)
                if wrong.without_step is None:
                    return last or self._made_once(files), problems
                tables = wrong.without_step

    def _made_once(self, files: Files) -> Made | None:
        """What was made of the texts before the last change; None where nothing can be."""
        last = self.log.last(files.garment)
        if last is None:
            return None
        try:
            return made_with(self.folder, replace(files, texts={**files.texts, **last.before}), (), None)
        except (NotMade, CannotEdit):
            return None

    def _now(self, files: Files, version: str, edits: Sequence[Edit]) -> Sequence[Edit]:
        """The edits as they are done to the files as they stand. Raises Both, CannotEdit."""
        if version in ("", version_of(files)):
            return edits
        hashes = dict(zip(files.texts, version.split("."), strict=False))
        was = {name: self.log.text(hash_) for name, hash_ in hashes.items()}
        older = replace(files, texts={name: was.get(name) or text for name, text in files.texts.items()})
        return edits_for_now(edits, both_tables(older), both_tables(files))

    def _first_made(
        self, files: Files, kept: _Kept, ways: Sequence[Sequence[Edit]]
    ) -> tuple[Sequence[Edit], Made | None] | None:
        """The first of several lots of edits of which something can be made, and that; None where nothing can.

        Where the files cannot be used as they stand, edits that bring no new problem are taken too.
        """
        known = {_place(problem) for problem in kept.problems}
        for edits in ways:
            try:
                return edits, made_with(self.folder, files, edits, kept.tried or kept.standing)
            except NotMade as refused:
                if known and {_place(problem) for problem in refused.problems} <= known:
                    return edits, None
        return None

    def _after(self, name: str, before: Files, made: Made | None, have: Have) -> bytes:
        """The state after a change was written."""
        files = self._files(name)
        kept, last = self._kept[name], self.log.last(name)
        old = kept.standing
        if made is not None:
            kept.version, kept.standing, kept.problems, kept.tried = version_of(files), made, (), None
        if last is not None and kept.before_of != last.number and last.before.items() <= before.texts.items():
            kept.before, kept.before_of = old, last.number
        return self._state(files, have, written=True)

    def _asked(self, files: Files) -> tuple[Edit, ...]:
        """What was asked for and could not be had, as far as the files still have a place for it."""
        told = self.log.asked(files.garment)
        try:
            edits = read_edits(json.loads(told)) if told else ()
            for which, tables in both_tables(files).items():
                edited(tables, [each for each in edits if each.where == which])
        except (CannotEdit, ValueError):
            return ()
        return edits

    def _with_asked(self, files: Files, asked: Sequence[Edit], now: Sequence[Edit]) -> tuple[Edit, ...]:
        """What was asked for before, and these edits after it, each at its place then."""
        kept = without_places(asked, now)
        was = both_tables(files)
        then = {which: edited(was[which], [each for each in kept if each.where == which]) for which in was}
        try:
            return (*kept, *edits_for_now(now, was, then))
        except (Both, CannotEdit):
            return tuple(now)

    def _ask(self, name: str, edits: Sequence[Edit]) -> None:
        self.log.ask(name, json.dumps([each.data() for each in edits]) if edits else "")

    def _left(self, files: Files, asked: Sequence[Edit], done: Sequence[Edit]) -> tuple[Edit, ...]:
        """What is still asked for once other edits are done: all but what was asked for at their places."""
        was = both_tables(files)
        now = {which: edited(was[which], [each for each in done if each.where == which]) for which in was}
        try:
            return edits_for_now(without_places(asked, done), was, now)
        except (Both, CannotEdit):
            return ()

    def _state(
        self,
        files: Files,
        have: Have,
        *,
        refused: Sequence[Data] | None = None,
        asked: Sequence[Edit] = (),
        written: bool = False,
        asks: Data | None = None,
        soon: bool = False,
    ) -> bytes:
        """The state of the files.

        refused: why edits that were tried cannot be had; asked: these edits. Where they are left out, it is said of
                 what was asked for last
        """
        kept = self._keep(files)
        if refused is None:
            asked, refused = self._still_asked(files, kept)
        waits = [
            {"in": "garment" if each == files.garment else "person", "at": None, "sentences": said, "offers": []}
            for each in files.texts
            if (said := self.log.not_written([each]))
        ]
        problems = (*kept.problems, *refused, *waits)
        if kept.standing is None:
            state = State(files.garment, version_of(files), "cm", problems, written, asks)
            return state_json(state, {}, have)
        before = self._before(files, kept)
        return self._answer(
            files, kept.standing, before, have, problems=problems, asked=asked, written=written, asks=asks, soon=soon
        )

    def _still_asked(self, files: Files, kept: _Kept) -> tuple[tuple[Edit, ...], tuple[Data, ...]]:
        """What was asked for and could not be had, and why not."""
        asked = self._asked(files)
        if not asked:
            return (), ()
        try:
            made_with(self.folder, files, asked, kept.standing)
        except NotMade as refused:
            return asked, refused.problems
        return asked, ()

    def _before(self, files: Files, kept: _Kept) -> Made | None:
        """What stood before the last change; None where it could not be drafted."""
        last = self.log.last(files.garment)
        if last is None:
            return None
        if kept.before_of != last.number:
            older = replace(files, texts={**files.texts, **last.before})
            try:
                kept.before = made_with(self.folder, older, (), kept.standing)
            except (NotMade, CannotEdit):
                kept.before = None
            kept.before_of = last.number
        return kept.before

    def _answer(
        self,
        files: Files,
        made: Made,
        before: Made | None,
        have: Have,
        *,
        problems: Sequence[Data],
        asked: Sequence[Edit] = (),
        written: bool = False,
        asks: Data | None = None,
        trying: bool = False,
        soon: bool = False,
    ) -> bytes:
        """What the page is told: the state of the files, and the parts of the page that changed, as JSON."""
        undo, redo = self.log.words(files.garment)
        shown = Shown(
            garment=made.garment,
            draft=made.draft,
            checks=made.checks,
            before=before.draft if before else None,
            tables=made.tables,
            person=made.person,
            files=(files.garment, files.person),
            followed=tuple(files.followed),
            asked=_asked_by_place(files, problems, asked),
            undo=_not_had(asked) if asked and not trying else undo,
            redo=redo,
            pending=bool(asked) and not trying,
        )
        state = State(files.garment, version_of(files), shown.unit, tuple(problems), written, asks, trying and soon)
        looked_at = MOVING if trying and soon else CHANGING if trying or soon else ALL
        return state_json(state, parts_of(shown, looked_at), have, trying=trying)


def _not_had(asked: Sequence[Edit]) -> str:
    """What was asked for and could not be had, by its name where it was to be put in, else by what was to be set."""
    put_in = [each.value.get("alter") or each.value.get("name") for each in asked if each.do == "insert"]
    set_to = [str(each.at[-1]).replace("_", " ") for each in asked if each.do == "set"]
    names = list(dict.fromkeys(str(each) for each in put_in + set_to if each))
    return f"{', '.join(names)}, which could not be had" if names else _NOT_HAD


def _place(problem: Data) -> tuple[object, ...]:
    return problem["in"], *(problem["at"] or ())


def _asked_by_place(files: Files, problems: Sequence[Data], asked: Sequence[Edit]) -> dict[tuple[str | int, ...], Any]:
    """What was asked for by its place, and what stands in the files and cannot be used."""
    found: dict[tuple[str | int, ...], Any] = {}
    places = [problem for problem in problems if problem["at"]]
    tables = {"garment": tables_of(files.garment_text), "person": tables_of(files.person_text)}
    for problem in places:
        if (stands := tables[problem["in"]]) is not None:
            value = value_at(stands, tuple(problem["at"]))
            if isinstance(value, str | int | float):
                found[(problem["in"], *problem["at"])] = value
    return found | {(each.where, *each.at): each.value for each in asked if each.do == "set"}
