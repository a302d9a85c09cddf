"""The papers that sheets are made for, and how much of each may be drawn on.

Sizes: A0, A3 and A4 from ISO 216; Letter is 8 1/2 by 11 inches (ANSI/ASME Y14.1). Home printers leave a blank
border; a quarter of an inch (6.35 mm) is the safe assumption (common practice). The drawn area of A4 and Letter is
what both of them have inside that border, 197.3 by 266.7 mm, so that sheets made for the one lose nothing when they
are printed on the other; "A4 or Letter" is a page as wide as A4 and as high as Letter, which is whole on both. A0 and
a roll are for a plotter, whose border is wider (15 mm is assumed: from memory).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import UnknownName
from drafting.reading.units import length_text

__all__ = [
    "PAPERS",
    "Paper",
    "cut_to_length",
    "number_words",
    "page_ranges",
    "paper_named",
    "roll",
    "sheet_count_words",
]

_HOME_PRINTER = 6.35
_PLOTTER = 15.0
_LARGE = 800.0  # mm; our figure, between A1 and A0
_LONGEST = 5080.0  # mm: a page of a PDF is at most 14,400 points long (ISO 32000-1, annex C)
_SHARED = 21.0  # mm of what is drawn on two strips of a roll, or on two sheets of A0


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper, upright, all in mm.

    margin:          the blank border at the left and the top, and at least as much at the right and the bottom
    area_width, area_height: what may be drawn on
    step_width, step_height: how far apart neighbouring sheets lie; the rest of the area is drawn on both
    endless:         whether it comes from a roll and is cut off below the drawing; `height` is then the most
    """

    name: str
    width: float
    height: float
    margin: float
    area_width: float
    area_height: float
    step_width: float
    step_height: float
    endless: bool = False

    @property
    def large(self) -> bool:
        """Whether it comes from a plotter: what one sheet of it holds is then not to be cut and joined."""
        return self.endless or self.width > _LARGE

    @property
    def overlap_x(self) -> float:
        """How much two sheets side by side both show, mm."""
        return self.area_width - self.step_width

    @property
    def overlap_y(self) -> float:
        """How much two sheets one above the other both show, mm."""
        return self.area_height - self.step_height


PAPERS: Final[Mapping[str, Paper]] = MappingProxyType(
    {
        paper.name: paper
        for paper in (
            Paper("A4", 210.0, 297.0, _HOME_PRINTER, 197.3, 266.7, 185.0, 254.0),
            Paper("Letter", 215.9, 279.4, _HOME_PRINTER, 197.3, 266.7, 185.0, 254.0),
            Paper("A4 or Letter", 210.0, 279.4, _HOME_PRINTER, 197.3, 266.7, 185.0, 254.0),
            Paper("A3", 297.0, 420.0, _HOME_PRINTER, 284.3, 407.3, 272.0, 395.0),
            Paper("A0", 841.0, 1189.0, _PLOTTER, 811.0, 1159.0, 790.0, 1138.0),
        )
    }
)
"""Every paper by its name."""


def roll(width: float, unit: str = "cm") -> Paper:
    """A roll of paper `width` mm wide, as long as a page can be; `unit` is for its name, "roll 91.4 cm"."""
    across, down = width - 2.0 * _PLOTTER, _LONGEST - 2.0 * _PLOTTER
    name = f"roll {length_text(width, unit)}"
    return Paper(name, width, _LONGEST, _PLOTTER, across, down, across - _SHARED, down - _SHARED, endless=True)


def cut_to_length(paper: Paper, length: float) -> Paper:
    """The roll cut off where its drawing ends: `length` mm of it are drawn on, from the top of a sheet's own part."""
    step = min(paper.step_height, length)
    shorter = paper.step_height - step
    return replace(paper, height=paper.height - shorter, area_height=paper.area_height - shorter, step_height=step)


def paper_named(name: str) -> Paper:
    """The paper of that name, capitals or not; UnknownName names what there is."""
    for paper in PAPERS.values():
        if paper.name.casefold() == str(name).strip().casefold():
            return paper
    raise UnknownName("paper", str(name), PAPERS)


def sheet_count_words(count: int) -> str:
    """How many sheets, in words: "1 sheet", "26 sheets"."""
    return f"{count} sheet" if count == 1 else f"{count} sheets"


def page_ranges(numbers: Sequence[int]) -> str:
    """Numbers as a print window takes them: "2-5, 9"."""
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]}-{run[-1]}" for run in _runs(numbers))


def _runs(numbers: Sequence[int]) -> list[list[int]]:
    """The numbers in order, those that follow each other together."""
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return runs


def number_words(numbers: Sequence[int]) -> str:
    """Numbers in words: "2 to 5", "1, 3 and 5 to 8"."""
    runs = _runs(numbers)
    said = [str(run[0]) if len(run) == 1 else f"{run[0]} {'and' if len(run) == 2 else 'to'} {run[-1]}" for run in runs]
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}" if said else ""
