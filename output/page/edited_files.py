"""The two files of a garment with edits done to them: as tables, as texts, and what is made of them."""

from __future__ import annotations

from collections.abc import Sequence

from output.page.editing import edited_text
from output.page.edits import CannotEdit, Edit, Tables, edited
from output.page.files import Files
from output.page.folder import Folder
from output.page.texts import tables_of
from output.page.workshop import Made, make

__all__ = ["both_tables", "made_with", "new_texts"]


def both_tables(files: Files) -> dict[str, Tables]:
    """What stands in both files. Raises CannotEdit where that cannot be read."""
    garment, person = tables_of(files.garment_text), tables_of(files.person_text)
    if garment is None or person is None:
        name = files.garment if garment is None else files.person
        raise CannotEdit(f"{name} holds a line that cannot be read. Mend it first, with the program it was written in.")
    return {"garment": garment, "person": person}


def made_with(
    folder: Folder, files: Files, edits: Sequence[Edit], after: Made | None, *, unchecked: bool = False
) -> Made:
    """What comes of the files with the edits (`make`). Raises NotMade, and CannotEdit."""
    tables, person = both_tables(files).values()
    tables = edited(tables, [each for each in edits if each.where == "garment"])
    person = edited(person, [each for each in edits if each.where == "person"])
    return make(folder, files, tables, person, after, unchecked=unchecked)


def new_texts(files: Files, edits: Sequence[Edit]) -> dict[str, str]:
    """The texts of both files with the edits. Raises CannotEdit."""
    new: dict[str, str] = {}
    for where, name in (("garment", files.garment), ("person", files.person)):
        ours = [each for each in edits if each.where == where]
        if ours and not name:
            raise CannotEdit("This garment is made in the sizes of a chart: there is no person to measure.")
        if ours:
            new[name] = edited_text(files.texts[name], ours)
    return new
