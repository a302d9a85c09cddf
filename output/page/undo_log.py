"""What was done in a folder, each change with the texts of the files before and after it: kept in one SQLite file.

The new texts are put beside the files, the change is put down, and then they are moved there. Whoever opens the folder
next writes what was put down and not moved; so a kill at any moment loses no change that was put down, and a disk that
is full changes nothing. A file that cannot be written keeps what was put down for it waiting, and nothing else. A file
that was changed by another hand is put down as a change of its own, so that undo and redo always go from one text to
another that is known to the last letter.
"""

from __future__ import annotations

import hashlib
import sqlite3
import time
import zlib
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from threading import RLock
from typing import Final

from output.api import TrueseamError
from output.api.showing import CannotWrite
from output.page.folder import NotInFolder

__all__ = ["BY_HAND", "Change", "NotYetWritten", "Texts", "UndoLog", "hash_of"]

Move = Callable[[], None]

Texts = Mapping[str, str]
"""The text of each file by its name in the folder."""

BY_HAND: Final = "what was changed in the file by hand"

_TABLES: Final = """
create table if not exists text (hash text primary key, body blob not null);
create table if not exists change (
    id integer primary key, garment text not null, at real not null, words text not null, run text not null,
    undone integer not null default 0
);
create index if not exists of_garment on change (garment, undone, id);
create table if not exists touched (change integer not null, file text not null, before text, after text);
create index if not exists of_change on touched (change);
create table if not exists known (garment text not null, file text not null, hash text, primary key (garment, file));
create table if not exists to_write (file text primary key, before text, after text not null);
create table if not exists asked (garment text primary key, edits text not null);
"""

_TEXTS_OF_NOTHING: Final = """
delete from text where hash not in (
    select before from touched where before is not null union select after from touched where after is not null
    union select hash from known where hash is not null
    union select before from to_write where before is not null union select after from to_write
)
"""
"""The texts in the middle of a drag: they are only kept for the pages that are open, which know them as a version."""


@dataclass(frozen=True, slots=True)
class Change:
    """A change that was done. words: what it did; before, after: the files' texts"""

    number: int
    words: str
    before: dict[str, str]
    after: dict[str, str]


class NotYetWritten(Exception):
    """A change that was put down and whose file cannot be written now; its words are a sentence that says why."""


def hash_of(text: str) -> str:
    """A short name for a text that no other text has."""
    return hashlib.blake2b(text.encode(), digest_size=12).hexdigest()


class UndoLog:
    """The changes of the garments of one folder.

    read:  gives the text of a file by its name; "" where there is none
    stage: puts a new text beside a file, and gives what moves it there

    The file of the log is for its owner alone. Raises sqlite3.DatabaseError for one that is damaged.
    """

    def __init__(self, file: Path, read: Callable[[str], str], stage: Callable[[str, str], Move]) -> None:
        self._read, self._stage, self._lock = read, stage, RLock()
        self._staged: dict[tuple[str, str], Move] = {}
        self._waiting: dict[str, str] = {}
        file.touch(mode=0o600)
        self._open = sqlite3.connect(file, timeout=10.0, isolation_level=None, check_same_thread=False)
        try:
            self._open.execute("pragma journal_mode = wal")
            self._open.execute("pragma synchronous = normal")
            self._open.executescript(_TABLES)
            file.chmod(0o600)
            with self._alone():
                self._open.execute(_TEXTS_OF_NOTHING)
        except BaseException:
            self._open.close()
            raise

    def close(self) -> None:
        """Close the file; what was put down stays."""
        with self._lock:
            self._open.close()

    def notice(self, garment: str, texts: Texts) -> bool:
        """Put down what has changed in a garment's files without this log; whether anything has."""
        with self._alone():
            return self._notice(garment, texts)

    def done(self, garment: str, texts: Texts, new: Texts, words: str, run: str) -> bool:
        """Put a change down, and write it. False, with nothing done, where the files hold other texts than `texts`.

        run: changes of the same run that follow each other are one; "" for a change of its own

        Raises NotYetWritten where it was put down and the file cannot be written now; where it could not be put beside
        the file, what `stage` raises, with nothing done.
        """
        with self._alone():
            if any(self._read(name) != text for name, text in texts.items()):
                return False
            self._notice(garment, texts)
            changed = {name: text for name, text in new.items() if texts.get(name, "") != text}
            if not changed:
                return True
            self._forget_undone(garment)
            last = self._last(garment, undone=False)
            number = last[0] if run and last is not None and last[2] == run else None
            if number is None:
                number = self._open.execute(
                    "insert into change (garment, at, words, run) values (?, ?, ?, ?)",
                    (garment, time.time(), words, run),
                ).lastrowid
            else:
                self._open.execute("update change set words = ?, at = ? where id = ?", (words, time.time(), number))
            for name, text in changed.items():
                before, after = self._kept(texts.get(name, "")), self._kept(text)
                went_on = self._open.execute(
                    "update touched set after = ? where change = ? and file = ?", (after, number, name)
                ).rowcount
                if not went_on:
                    self._open.execute("insert into touched values (?, ?, ?, ?)", (number, name, before, after))
                self._to_write(garment, name, before, after)
        self._accept_written(changed)
        return True

    def undo(self, garment: str, texts: Texts) -> str | None:
        """Take the last change back; its words, None where there is none. Raises NotYetWritten as `done` does."""
        return self._step(garment, texts, undone=False)

    def redo(self, garment: str, texts: Texts) -> str | None:
        """Do again what was taken back last; its words, None for none. Raises NotYetWritten as `done` does."""
        return self._step(garment, texts, undone=True)

    def not_written(self, files: Iterable[str]) -> list[str]:
        """Of which of these files a change was put down that cannot be written now, and why: a sentence for each."""
        with self._lock:
            return [self._waiting[name] for name in files if name in self._waiting]

    def words(self, garment: str) -> tuple[str | None, str | None]:
        """What undo would take back, and what redo would do again; None for nothing."""
        with self._lock:
            last, next_ = self._last(garment, undone=False), self._last(garment, undone=True)
        return (last[1] if last else None), (next_[1] if next_ else None)

    def last(self, garment: str) -> Change | None:
        """The last change that stands; None where there is none."""
        with self._lock:
            found = self._last(garment, undone=False)
            if found is None:
                return None
            rows = self._touched(found[0])
            before = {name: self._text(hash_) for name, hash_, _ in rows}
            return Change(found[0], found[1], before, {name: self._text(hash_) for name, _, hash_ in rows})

    def standing(self, garment: str, most: int) -> list[str]:
        """What the changes that stand did, in words, the newest first."""
        with self._lock:
            rows = self._open.execute(
                "select words from change where garment = ? and undone = 0 order by id desc limit ?", (garment, most)
            ).fetchall()
        return [words for (words,) in rows]

    def earlier(self, garment: str, back: int) -> dict[str, str]:
        """The texts of the files that the last so many changes touched, as they were before them."""
        with self._lock:
            numbers = self._open.execute(
                "select id from change where garment = ? and undone = 0 order by id desc limit ?", (garment, back)
            ).fetchall()
            hashes = {name: before for (number,) in numbers for name, before, _ in self._touched(number)}
            return {name: self._text(hash_) for name, hash_ in hashes.items()}

    def states(self, file: str) -> list[tuple[float, str]]:
        """The texts of a file before each change of it that stands, the oldest first, with the time of the change."""
        with self._lock:
            rows = self._open.execute(
                "select at, before from change join touched on change = id where file = ? and undone = 0 order by id",
                (file,),
            ).fetchall()
            return [(at, self._text(before)) for at, before in rows if before is not None]

    def asked(self, garment: str) -> str:
        """The edits that were asked for and could not be had, as they were put down; "" for none."""
        with self._lock:
            row = self._open.execute("select edits from asked where garment = ?", (garment,)).fetchone()
        return row[0] if row else ""

    def ask(self, garment: str, edits: str) -> None:
        """Put down edits that were asked for and cannot be had; "" for none any more."""
        with self._alone():
            self._open.execute("delete from asked where garment = ?", (garment,))
            if edits:
                self._open.execute("insert into asked values (?, ?)", (garment, edits))

    def text(self, hash_: str) -> str | None:
        """A text by its hash; None for one that was never put down."""
        with self._lock:
            row = self._open.execute("select body from text where hash = ?", (hash_,)).fetchone()
        return zlib.decompress(row[0]).decode() if row else None

    @contextmanager
    def _alone(self) -> Iterator[None]:
        """Nobody else puts anything down meanwhile; what was put down by then is written before and after."""
        with self._lock:
            self._staged.clear()
            with self._transaction():
                self._write_all()
                yield
            if self._staged:
                with self._transaction():
                    self._write_all()

    @contextmanager
    def _transaction(self) -> Iterator[None]:
        self._open.execute("begin immediate")
        try:
            yield
        except BaseException:
            self._open.execute("rollback")
            raise
        self._open.execute("commit")

    def _write_all(self) -> None:
        """Write what was put down, where the file is as it was then: by this log, or by one that was ended too soon."""
        self._waiting.clear()
        for name, before, after in self._open.execute("select file, before, after from to_write").fetchall():
            try:
                if hash_of(self._read(name)) == before:
                    move = self._staged.get((name, after)) or self._stage(name, self._text(after))
                    move()
            except (TrueseamError, NotInFolder, OSError, ValueError) as wrong:
                self._waiting[name] = (
                    f"What you changed is put down, but {name} cannot be written now ({_reason(wrong)}). "
                    "It is written as soon as it can be; undo takes the change back."
                )
            else:
                self._open.execute("delete from to_write where file = ?", (name,))

    def _accept_written(self, files: Iterable[str]) -> None:
        """Raise NotYetWritten for the first of the files that could not be written."""
        for sentence in self.not_written(files):
            raise NotYetWritten(sentence)

    def _forget_undone(self, garment: str) -> None:
        """Forget what was taken back: it cannot be done again after another change."""
        of_it = "change where garment = ? and undone = 1"
        self._open.execute(f"delete from touched where change in (select id from {of_it})", (garment,))
        self._open.execute(f"delete from {of_it}", (garment,))

    def _step(self, garment: str, texts: Texts, *, undone: bool) -> str | None:
        with self._alone():
            self._notice(garment, {name: self._read(name) for name in texts})
            found = self._last(garment, undone=undone)
            if found is None:
                return None
            number, words, _ = found
            rows = self._touched(number)
            for name, before, after in rows:
                self._to_write(garment, name, *((before, after) if undone else (after, before)))
            self._open.execute("update change set undone = ? where id = ?", (0 if undone else 1, number))
        self._accept_written(name for name, _, _ in rows)
        return words

    def _notice(self, garment: str, texts: Texts) -> bool:
        """Note files that were changed by hand since; whether there were any."""
        known = dict(self._open.execute("select file, hash from known where garment = ?", (garment,)).fetchall())
        waiting = dict(self._open.execute("select file, before from to_write").fetchall())
        new = {name: self._kept(text) for name, text in texts.items()}
        new = {name: hash_ for name, hash_ in new.items() if waiting.get(name) != hash_}  # not by hand: not yet written
        changed = {name: hash_ for name, hash_ in new.items() if name in known and known[name] != hash_}
        if changed:
            self._forget_undone(garment)
            number = self._open.execute(
                "insert into change (garment, at, words, run) values (?, ?, ?, '')", (garment, time.time(), BY_HAND)
            ).lastrowid
            rows = [(number, name, known[name], hash_) for name, hash_ in changed.items()]
            self._open.executemany("insert into touched values (?, ?, ?, ?)", rows)
        for name, hash_ in new.items():
            if known.get(name) != hash_:
                self._open.execute("insert or replace into known values (?, ?, ?)", (garment, name, hash_))
        return bool(changed)

    def _to_write(self, garment: str, name: str, before: str, after: str) -> None:
        self._waiting.pop(name, None)
        if hash_of(self._read(name)) == after:  # what is taken back was never written
            self._open.execute("delete from to_write where file = ?", (name,))
        else:
            self._staged[name, after] = self._stage(name, self._text(after))
            self._open.execute("insert or replace into to_write values (?, ?, ?)", (name, before, after))
        self._open.execute("insert or replace into known values (?, ?, ?)", (garment, name, after))

    def _last(self, garment: str, *, undone: bool) -> tuple[int, str, str] | None:
        """Number, words and run of the last change that stands, or of the next that was taken back."""
        order = "asc" if undone else "desc"
        found: tuple[int, str, str] | None = self._open.execute(
            f"select id, words, run from change where garment = ? and undone = ? order by id {order} limit 1",
            (garment, int(undone)),
        ).fetchone()
        return found

    def _touched(self, number: int) -> list[tuple[str, str, str]]:
        """The files of a change, with the hashes of their texts before and after it."""
        return self._open.execute("select file, before, after from touched where change = ?", (number,)).fetchall()

    def _kept(self, text: str) -> str:
        """The hash of a text that is kept from now on."""
        name = hash_of(text)
        self._open.execute("insert or ignore into text values (?, ?)", (name, zlib.compress(text.encode(), 6)))
        return name

    def _text(self, hash_: str) -> str:
        (body,) = self._open.execute("select body from text where hash = ?", (hash_,)).fetchone()
        return zlib.decompress(body).decode()


def _reason(wrong: Exception) -> str:
    match wrong:
        case CannotWrite():
            return wrong.reason
        case NotInFolder():
            return "it leads out of the folder"
        case OSError():
            return (wrong.strerror or "it is gone").lower()
    return str(wrong).rstrip(".")
