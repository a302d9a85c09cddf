"""Patterns from elsewhere: a DXF or a pattern.json brought into the folder, looked at, checked, named, put on paper.

What stands beside a DXF names its places and seams, and the steps that it is altered by (README).
"""

from __future__ import annotations

import base64
import binascii
import os
from collections.abc import Callable, Mapping
from pathlib import Path, PurePosixPath
from typing import Any, Final

from output.api import TrueseamError
from output.api.beginning import file_named
from output.api.brought_pattern import look_at_pattern
from output.api.showing import FILE_UNITS, stage, write_new
from output.page.edits import CannotEdit
from output.page.folder import Folder, NotInFolder
from output.page.request import as_json, text_of
from output.page.texts import NoText, is_order, read_text, tables_of
from output.page.views.data import Data
from output.page.views.head import state_of_verdict

__all__ = ["brought_answers"]

Given = Mapping[str, Any]

_FOLDER: Final = "patterns"  # that they are brought into
_MOST_OF_A_NAME: Final = 99  # files of one name, which are numbered (ours)


def brought_answers(folder: Folder) -> Mapping[str, Callable[[Given], bytes]]:
    """By address: what answers each with JSON. They raise CannotEdit and NotInFolder.

    bring {name, content, names}: a file, its content in base64, and the text beside it; answers its new name in the
          folder, `file`
    brought {file, unit}: title, state, said (passages and tables), picture (SVG), names: the text that stands beside
          it, None where there can be none; problems: why it cannot be used, sentences
    names {file, was, text}: the text beside a DXF written again; was: what she saw there
    """
    answers: dict[str, Callable[[Given], object]] = {
        "bring": lambda given: {"file": _bring_in(folder, given)},
        "brought": lambda given: _looked_at(folder, given),
        "names": lambda given: _write_names(folder, given),
    }
    return {name: _as_json(answer) for name, answer in answers.items()}


def _as_json(answer: Callable[[Given], object]) -> Callable[[Given], bytes]:
    return lambda given: as_json(answer(given)).encode()


def _bring_in(folder: Folder, given: Given) -> str:
    """Write the file into the folder, under a name that no other has there; which. Raises CannotEdit for no pattern."""
    name = PurePosixPath(text_of(given, "name").replace("\\", "/")).name
    ending = PurePosixPath(name).suffix.casefold()
    if ending not in (".dxf", ".json"):
        raise CannotEdit("A pattern from elsewhere is a DXF of pieces (.dxf) or a pattern.json.")
    content, names = given.get("content"), given.get("names")
    try:
        raw = base64.b64decode(content if isinstance(content, str) else "", validate=True)
    except (binascii.Error, ValueError):
        raw = b""
    if not raw:
        raise CannotEdit("There is nothing in that file.")
    if not folder.holds(folder.path / _FOLDER):
        raise CannotEdit(f"The folder “{_FOLDER}” leads out of this one: nothing is written there.")
    stem = file_named(PurePosixPath(name).stem).removesuffix(".toml")
    for number in range(1, _MOST_OF_A_NAME + 1):
        file = f"{_FOLDER}/{stem}{f'-{number}' if number > 1 else ''}{ending}"
        path = folder.path / file
        if not any(os.path.lexists(each) for each in (path, path.with_suffix(".toml"))):
            _write(write_new, path, raw)
            if isinstance(names, str) and names.strip():
                _write(write_new, path.with_suffix(".toml"), names.encode())
            return file
    raise CannotEdit("There are many of that name already: give the file another name first.")


def _looked_at(folder: Folder, given: Given) -> Data:
    """What is shown of a pattern in the folder: its picture and what the checks say, or why it cannot be read."""
    path = folder.pattern(text_of(given, "file"))
    unit = next((each for each in FILE_UNITS if each == given.get("unit")), "cm")
    names = _names_beside(folder, text_of(given, "file"))
    told: Data = {"title": path.stem, "state": "failed", "said": [], "picture": "", "names": names, "problems": []}
    try:
        found = look_at_pattern(path, unit)
    except TrueseamError as refused:
        begins = f"{folder.path}/"
        return told | {"problems": [each.replace(begins, "") for each in refused.sentences()]}
    return told | {
        "title": found.title or path.stem,
        "state": state_of_verdict(found.verdict),
        "said": list(found.said),
        "picture": found.picture,
    }


def _names_beside(folder: Folder, file: str) -> str | None:
    """The text beside a DXF, "" where none is there yet; None where there can be none.

    There is none beside a pattern.json, which names all that it has; and what is a person's or a garment's file is
    changed elsewhere, where it can be undone.
    """
    beside = _file_beside(folder, file)
    if beside is None:
        return None
    try:
        text = read_text(beside)
    except FileNotFoundError:
        return ""
    except (OSError, NoText):
        return None
    return None if is_order(tables_of(text) or {}) else text


def _file_beside(folder: Folder, file: str) -> Path | None:
    """Where the names of a DXF of the folder stand; None where that leads out of it, and for what is no DXF there."""
    path = PurePosixPath(file)
    try:
        if path.suffix.casefold() != ".dxf" or not folder.pattern(file).is_file():
            return None
        return folder.file(str(path.with_suffix(".toml")))
    except NotInFolder:
        return None


def _write_names(folder: Folder, given: Given) -> Data:
    """Write the text beside a DXF. Raises CannotEdit where it is not as she saw it, or is a garment or a person."""
    file, was, text = text_of(given, "file"), given.get("was"), given.get("text")
    stands, beside = _names_beside(folder, file), _file_beside(folder, file)
    if stands is None or beside is None or not isinstance(text, str):
        raise CannotEdit("Nothing can be written beside that file.")
    if stands != was:
        raise CannotEdit("The file beside it was changed meanwhile: look at it again before you write over it.")
    if is_order(tables_of(text) or {}):
        raise CannotEdit("That is a garment or a person: they are begun from the wardrobe, in files of their own.")
    _write(lambda place, content: stage(place, content)(), beside, text.encode())
    return {}


def _write(write: Callable[[Path, bytes], None], path: Path, content: bytes) -> None:
    try:
        path.parent.mkdir(exist_ok=True)
        write(path, content)
    except TrueseamError as refused:
        raise CannotEdit(" ".join(refused.sentences())) from None
