"""For a program that shows garments on a screen while they are changed: what `output.api` leaves out.

It is offered to whoever writes such a program, as the page of this project is one.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from drafting.body.terms import BASICS, BODY_KINDS, BodyKind, measurement, measurement_for
from drafting.errors import CannotDraft, CannotWrite, InputProblems, Problem, Setting, Way, offered
from drafting.reading.files import LoadTables, load_toml, refuse_too_many
from drafting.reading.units import FILE_UNITS
from output.files.write_folder import stage, write_new

if TYPE_CHECKING:
    from blocks.garment import Garment

__all__ = [
    "BASICS",
    "BODY_KINDS",
    "FILE_UNITS",
    "BodyKind",
    "CannotDraft",
    "CannotWrite",
    "InputProblems",
    "Problem",
    "Setting",
    "Way",
    "load_toml",
    "measurement",
    "measurement_for",
    "offered",
    "read_tables",
    "refuse_too_many",
    "stage",
    "write_new",
]


def read_tables(path: Path, load: LoadTables) -> Garment:
    """The garment that a file orders, as `read_garment` reads it, where files do not come from the disk as they are.

    load: gives the tables of each file that is read, by its path; raises InputProblems
    """
    from blocks.from_file import garment_file  # the engine: whoever opens a page is not kept waiting for it

    return garment_file.read_garment(path, load=load)
