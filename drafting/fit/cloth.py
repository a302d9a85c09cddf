"""The cloth a garment is cut from, as far as it changes the cutting."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal, get_args

from drafting.errors import UnknownName
from drafting.reading.given import Given, number_problem
from drafting.reading.read_table import Reader, refuse

__all__ = ["CLOTH_KINDS", "UNUSED", "Cloth", "ClothKind", "read_cloth", "stretch_class"]

ClothKind = Literal["woven", "knit"]
CLOTH_KINDS: tuple[ClothKind, ...] = get_args(ClothKind)

UNUSED: Mapping[str, str] = MappingProxyType(
    {
        "width": "no plan of how the pieces lie on the cloth is made yet",
        "shrinkage": "wash the cloth before you cut it",
        "one_way": "lay all pieces the same way yourself",
    }
)
"""What earlier versions took of a cloth and drew nothing from, with what to do in its place."""

_MOST_STRETCH = 3.0
"""A fraction of one; no cloth gets four times as long (ours, against slips of the unit)."""

# Upper bounds of the stretch classes, as fractions. Common practice (from memory).
_STRETCH_CLASSES = ((0.25, "stable knit"), (0.50, "moderate knit"), (0.75, "stretchy knit"))


@dataclass(frozen=True, slots=True)
class Cloth(Given):
    """One cloth.

    stretch: how much longer it gets across when stretched, as a fraction of its relaxed length (0.4 is 40 %):
             (stretched - relaxed) / relaxed. The ease table counts on it in a knit only.
    Raises UnknownName for another kind, InputProblems for a stretch that no cloth has.
    """

    kind: ClothKind = "woven"
    stretch: float = 0.0

    def __post_init__(self) -> None:
        if self.kind not in CLOTH_KINDS:
            raise UnknownName("kind of cloth", str(self.kind), CLOTH_KINDS)
        problem = number_problem("cloth, stretch", "percent", self.stretch, 0.0, _MOST_STRETCH)
        refuse([problem] if problem else [])


def read_cloth(reader: Reader) -> Cloth:
    """The cloth in a `[cloth]` table; what is wrong is noted by the reader. An empty table is a plain woven.

    What `UNUSED` names is passed over; whoever reads the file says so.
    """
    kind: ClothKind = "knit" if reader.choice("kind", CLOTH_KINDS, default="woven") == "knit" else "woven"
    stretch = reader.percent("stretch", default=None, low=0.0, high=_MOST_STRETCH)
    if kind == "knit" and stretch is None and "stretch" not in reader:
        mend = "Fold the knit crosswise, mark 10 cm, stretch it along a ruler: 14 cm is 40 %."
        if reader.in_inches():
            mend = "Fold the knit crosswise, mark 5 in, stretch it along a ruler: 7 in is 40 %."
        reader.problem("stretch", 'a share in percent, such as "40 %": the ease of a knit rests on it', mend)
    for key in UNUSED:
        reader.written(key)
    return Cloth(kind=kind, stretch=stretch or 0.0)


def stretch_class(cloth: Cloth) -> str:
    """The row of the ease table this cloth belongs to: "woven", or a knit by how far it stretches."""
    if cloth.kind == "woven":
        return "woven"
    return next((name for most, name in _STRETCH_CLASSES if cloth.stretch <= most), "very stretchy knit")
