"""The cloths that have a name, and the ease each asks for, as `trueseam list` shows them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.dataclass import dataclass
from drafting.fit.cloth import Cloth
from drafting.fit.cloth_table import CLOTH_SOURCE, ClothRow, cloth_table, layer_table
from drafting.fit.ease import EASE_WORDS, FITS, PLACES, Fit, usual_ease
from drafting.fit.thickness import LEAST_TOLD, room_at, room_sentence
from drafting.reading.units import fine_text, length_text, percent
from output.report.tables import Column, Row, Table

__all__ = ["CLOTHS", "CLOTHS_ABOVE", "CLOTH_COLUMNS", "ClothLine", "cloth_lines", "cloths_below"]

CLOTHS: Final = "Cloths"

CLOTH_COLUMNS: Final = (
    Column("cloth"),
    Column("weight"),
    Column("thick", True),
    Column("stretch", True),
    Column("along", True),
    Column("shrinks", True),
    Column("tops"),
)
CLOTHS_ABOVE: Final = (
    'Under [cloth]: kind = "denim". What is left out there is as it stands here; any figure can be set: thickness, '
    "weight, stretch, stretch_along, shrinkage, one_way."
)


@dataclass(frozen=True, slots=True)
class ClothLine:
    """One cloth: what it may be asked for by, its cells, its own table, and the same for a program (mm, fractions)."""

    words: tuple[str, ...]
    cells: tuple[str, ...]
    whole: Table
    data: dict[str, object]


def cloth_lines(unit: str) -> Iterator[ClothLine]:
    """Every cloth, lengths shown in the unit."""
    for row in cloth_table():
        cloth = Cloth(row.word)
        yield ClothLine((row.word, *row.also), _cells(row, unit), _whole(row, cloth, unit), _data(row, cloth))


def cloths_below(unit: str) -> tuple[str, ...]:
    """What is said below the table."""
    layers = ", ".join(f"{layer.word} {fine_text(layer.thickness, unit)}" for layer in layer_table())
    return (
        f'What is worn beneath takes room too: over = ["shirt", "pullover"]. {layers}; any cloth will do as well.',
        f"All of it is {CLOTH_SOURCE}: measure your own where it matters.",
        "`trueseam list denim` tells the ease as well.",
    )


def _cells(row: ClothRow, unit: str) -> tuple[str, ...]:
    def share(value: float) -> str:
        return percent(value) if value else ""

    stretch = "measure it" if row.stretch is None else share(row.stretch)
    numbers = (fine_text(row.thickness, unit), stretch, share(row.stretch_along), share(row.shrinkage))
    return (row.word, row.weight, *numbers, "one way" if row.nap else "")


def _whole(row: ClothRow, cloth: Cloth, unit: str) -> Table:
    """All that is known of one cloth, as a table of the ease at each place in each fit."""
    columns = (Column("ease"), *(Column(fit, True) for fit in FITS), Column("whose figures"))
    about = f"{row.about[0].upper()}{row.about[1:]}."
    _, _, thick, _, along, shrinks, tops = _cells(row, unit)
    figures = (
        f"{thick} thick",
        *([f"stretches by {percent(cloth.stretch)} across"] if cloth.stretch else []),
        *([f"by {along} along the grain"] if along else []),
        *([f"shrinks by {shrinks}"] if shrinks else []),
        *(["all tops one way"] if tops else []),
    )
    unsaid = ("How far it stretches cannot be told from its name: shown is one that hardly does.",)
    below = (
        f"{row.weight.capitalize()}: {', '.join(figures)} ({CLOTH_SOURCE}).",
        *(unsaid if row.stretch is None else ()),
        *([f"Also called: {', '.join(row.also)}."] if row.also else []),
        *([said] if (said := room_sentence(cloth, unit)) else []),
        "A share is of the body's own girth. What is left out in a garment file is chosen from here.",
    )
    return Table(f'[cloth] kind = "{row.word}"', columns, tuple(_places(cloth, unit)), above=about, below=below)


def _places(cloth: Cloth, unit: str) -> Iterator[Row]:
    for place in PLACES:
        rows = [usual_ease(cloth, fit, place) for fit in FITS]
        sources = ", ".join(dict.fromkeys(row.source for row in rows))
        name = EASE_WORDS.called(place).replace("_", " ")
        yield Row((name, *(_ease_text(cloth, fit, place, unit) for fit in FITS), sources))


def _ease_text(cloth: Cloth, fit: Fit, place: str, unit: str) -> str:
    row = usual_ease(cloth, fit, place)
    mm = row.mm + room_at(place, cloth)
    if not row.share:
        return length_text(mm, unit)
    return f"{percent(row.share)} and {length_text(mm, unit)}" if abs(mm) >= LEAST_TOLD else percent(row.share)


def _data(row: ClothRow, cloth: Cloth) -> dict[str, object]:
    """All that is known of one cloth as data for --json, lengths in mm."""

    def ease(place: str, fit: Fit) -> dict[str, object]:
        found = usual_ease(cloth, fit, place)
        return {
            "mm": round(found.mm + room_at(place, cloth), 4),
            "share": found.share,
            "low_mm": found.low_mm,
            "high_mm": found.high_mm,
            "source": found.source,
            "reliability": found.reliability,
        }

    return {
        "name": row.word,
        "about": row.about,
        "structure": row.structure,
        "weight": row.weight,
        "thickness_mm": row.thickness,
        "stretch": row.stretch,
        "stretch_along": row.stretch_along,
        "shrinkage": row.shrinkage,
        "one_way": row.nap,
        "also": list(row.also),
        "source": CLOTH_SOURCE,
        "ease": {place: {fit: ease(place, fit) for fit in FITS} for place in PLACES},
    }
