"""What a pattern is put on: the size of the paper, and the allowances that are drawn."""

from __future__ import annotations

from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import UnknownName
from drafting.reading import given
from drafting.reading.given import Given, number_problem, plain_number
from drafting.reading.read_table import refuse

__all__ = ["MOST_ALLOWANCE", "MOST_HEM", "PAPER_SIZES", "ROLL_WIDTHS", "Paper", "size_named"]

MOST_ALLOWANCE: Final = 60.0
MOST_HEM: Final = 250.0
"""mm. The widest allowance and the deepest hem that may be asked for (our figures, against slips of the unit)."""

ROLL_WIDTHS: Final = (300.0, 1650.0)
"""mm. The narrowest and the widest roll of paper; plotters take 24 to 64 inches (from memory)."""

PAPER_SIZES: Final = ("A4", "Letter", "A4 or Letter", "A3", "A0")
"""The papers there are sheets for; how large each is, and what of it may be drawn on, is known to whoever prints."""


def size_named(name: str) -> str:
    """The size of paper of that name, capitals or not. Raises UnknownName, with the nearest."""
    for size in PAPER_SIZES:
        if size.casefold() == name.strip().casefold():
            return size
    raise UnknownName("paper", name, PAPER_SIZES)


@dataclass(frozen=True, slots=True)
class Paper(Given):
    """What the pattern is put on, and the allowances drawn on it, mm.

    Raises UnknownName, with the nearest, for a paper that is not there, InputProblems for an amount that none has.

    hem:  None for what is usual for a wearer of that height (`usual_hem`)
    roll: the width of the roll of paper a copy shop prints on; None for sheets of A0
    by_unit, usual_seam: whether size, seam allowance were left out, and are the usual ones where her unit is written
    """

    size: str = "A4"
    seam_allowance: float = 15.0
    hem: float | None = None
    roll: float | None = None
    by_unit: bool = False
    usual_seam: bool = False

    def __post_init__(self) -> None:
        found = [given.text_problem("paper, size", self.size)]
        refuse([*filter(None, found)])
        object.__setattr__(self, "size", size_named(self.size))
        hem, roll = 0.0 if self.hem is None else self.hem, ROLL_WIDTHS[0] if self.roll is None else self.roll
        found.append(given.allowance_problem("paper, seam_allowance", self.seam_allowance, MOST_ALLOWANCE))
        found.append(given.allowance_problem("paper, hem", hem, MOST_HEM))
        found.append(number_problem("paper, roll", "length", roll, *ROLL_WIDTHS))
        refuse([*filter(None, found)])
        for name in ("seam_allowance", "hem", "roll"):
            object.__setattr__(self, name, plain_number(getattr(self, name)))
