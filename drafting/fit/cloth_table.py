"""Cloths by the words people use: what each usually is like. What is worn beneath, and how thick it lies."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Final, Literal, get_args

from drafting.dataclass import dataclass
from drafting.reading.key_words import file_word

__all__ = [
    "CLOTH_SOURCE",
    "WEIGHTS",
    "WEIGHT_THICKNESS",
    "ClothRow",
    "LayerRow",
    "Structure",
    "Weight",
    "cloth_meant",
    "cloth_table",
    "layer_meant",
    "layer_table",
]

Structure = Literal["woven", "knit"]
Weight = Literal["light", "medium", "heavy"]
WEIGHTS: tuple[Weight, ...] = get_args(Weight)

CLOTH_SOURCE: Final = "common practice, from memory"
"""Whose the figures of both tables are: cloths of one name differ, and her own figure goes before them."""

WEIGHT_THICKNESS: Final[Mapping[tuple[str, str], float]] = MappingProxyType(
    {
        ("woven", "light"): 0.3,
        ("woven", "medium"): 0.5,
        ("woven", "heavy"): 1.5,
        ("knit", "light"): 0.4,
        ("knit", "medium"): 0.6,
        ("knit", "heavy"): 1.5,
    }
)
"""mm, by structure and weight, where the thickness itself was not told. Common practice, from memory."""


_WHERE: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "torso": ("bust", "upper_chest", "waist", "hip", "across_back", "scye_depth"),
        "arms": ("upper_arm", "elbow"),
        "wrists": ("wrist",),
        "neck": ("neck",),
        "seat": ("waist", "hip", "crotch_depth", "crotch_length"),
        "legs": ("thigh", "knee"),
        "nappy": ("hip", "crotch_depth", "crotch_length"),
    }
)
"""Where on the body a layer lies, as places of the ease table."""


@dataclass(frozen=True, slots=True)
class ClothRow:
    """What a cloth of that name usually is like.

    thickness: mm; stretch, stretch_along, shrinkage: fractions; stretch is None where it cannot be told from the name
    nap:  whether all pieces have to lie with their tops one way
    also: other words for it
    """

    word: str
    structure: Structure
    weight: Weight
    thickness: float
    stretch: float | None
    stretch_along: float
    shrinkage: float
    nap: bool
    also: tuple[str, ...]
    about: str


@dataclass(frozen=True, slots=True)
class LayerRow:
    """Something worn beneath: what it is called, how thick it lies, mm, and at which places of the ease table."""

    word: str
    thickness: float
    places: frozenset[str]
    also: tuple[str, ...]


@cache
def cloth_table() -> tuple[ClothRow, ...]:
    """Every cloth there is a word for, "woven" and "knit" first."""
    return tuple(
        ClothRow(
            word=row["cloth"],
            structure="knit" if row["structure"] == "knit" else "woven",
            weight=next(weight for weight in WEIGHTS if weight == row["weight"]),
            thickness=float(row["thickness_mm"]),
            stretch=float(row["stretch"]) / 100.0 if row["stretch"] else None,
            stretch_along=float(row["stretch_along"]) / 100.0,
            shrinkage=float(row["shrinkage"]) / 100.0,
            nap=bool(row["nap"]),
            also=_words(row["also"]),
            about=row["about"],
        )
        for row in _read("cloths.csv")
    )


@cache
def layer_table() -> tuple[LayerRow, ...]:
    """Everything that may be worn beneath."""
    return tuple(
        LayerRow(row["layer"], float(row["thickness_mm"]), _places(row["where"]), _words(row["also"]))
        for row in _read("layers.csv")
    )


def cloth_meant(word: str) -> ClothRow | None:
    """The cloth of that name, or of another word for it, however it is spelt; None for no cloth."""
    return _cloths_by_word().get(file_word(word))


def layer_meant(word: str) -> LayerRow | None:
    """What is called so and worn beneath; any cloth of the table will do; None for a word that is neither."""
    found = _layers_by_word().get(file_word(word))
    if found is None and (cloth := cloth_meant(word)) is not None:
        found = LayerRow(cloth.word, cloth.thickness, _places(" ".join(_WHERE)), cloth.also)
    return found


def _places(where: str) -> frozenset[str]:
    return frozenset(place for part in where.split() for place in _WHERE[part])


@cache
def _cloths_by_word() -> Mapping[str, ClothRow]:
    return MappingProxyType({file_word(word): row for row in cloth_table() for word in (row.word, *row.also)})


@cache
def _layers_by_word() -> Mapping[str, LayerRow]:
    return MappingProxyType({file_word(word): row for row in layer_table() for word in (row.word, *row.also)})


def _read(name: str) -> Iterator[dict[str, str]]:
    with (Path(__file__).parent / "tables" / name).open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


def _words(written: str) -> tuple[str, ...]:
    return tuple(word for word in written.split("|") if word)
