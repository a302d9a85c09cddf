"""The cloth a garment is cut from, as far as it changes the cutting."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from drafting.errors import NotAPattern
from drafting.reading.table import Reader

__all__ = ["CLOTH_KINDS", "Cloth", "ClothKind", "read_cloth", "stretch_class"]

ClothKind = Literal["woven", "knit"]
CLOTH_KINDS: tuple[ClothKind, ...] = get_args(ClothKind)

# Upper bounds of the stretch classes, as fractions. Common practice (from memory).
_STRETCH_CLASSES = ((0.25, "stable knit"), (0.50, "moderate knit"), (0.75, "stretchy knit"))


@dataclass(frozen=True, slots=True)
class Cloth:
    """One cloth.

    stretch:   how much longer it gets across when stretched, as a fraction of its relaxed length (0.4 is 40 %):
               (stretched - relaxed) / relaxed. The ease table counts on it in a knit only.
    width_mm:  from selvedge to selvedge; None when not known
    shrinkage: how much shorter it gets in the wash, as a fraction of its length before
    one_way:   a nap or a pattern that makes every piece point the same way
    """

    kind: ClothKind = "woven"
    stretch: float = 0.0
    width_mm: float | None = None
    shrinkage: float = 0.0
    one_way: bool = False

    def __post_init__(self) -> None:
        if not (0.0 <= self.stretch <= 3.0 and 0.0 <= self.shrinkage <= 0.25):
            raise NotAPattern("cloth", "stretch lies from 0 to 3 and shrinkage from 0 to 0.25, as fractions of one")


def read_cloth(reader: Reader) -> Cloth:
    """The cloth in a `[cloth]` table; what is wrong is noted by the reader. An empty table is a plain woven."""
    kind: ClothKind = "knit" if reader.choice("kind", CLOTH_KINDS, default="woven") == "knit" else "woven"
    stretch = reader.percent("stretch", default=None, low=0.0, high=3.0)
    if kind == "knit" and stretch is None and "stretch" not in reader:
        mend = "Fold the knit crosswise, mark 10 cm, stretch it along a ruler: 14 cm is 40 %."
        reader.problem("stretch", 'a share in percent, such as "40 %": the ease of a knit rests on it', mend)
    return Cloth(
        kind=kind,
        stretch=stretch or 0.0,
        width_mm=reader.length("width", default=None, low=200.0, high=5000.0),
        shrinkage=reader.percent("shrinkage", default=0.0, low=0.0, high=0.25),
        one_way=reader.flag("one_way", default=False),
    )


def stretch_class(cloth: Cloth) -> str:
    """The row of the ease table this cloth belongs to: "woven", or a knit by how far it stretches."""
    if cloth.kind == "woven":
        return "woven"
    return next((name for most, name in _STRETCH_CLASSES if cloth.stretch <= most), "very stretchy knit")
