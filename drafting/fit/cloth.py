"""The cloth a garment is cut from, as far as it changes the cutting."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from drafting.errors import UnknownName
from drafting.pattern.stretch_used import MOST_STRETCH
from drafting.reading.given import Given, number_problem, type_problem
from drafting.reading.read_table import Reader, refuse

__all__ = [
    "CLOTH_KINDS",
    "CLOTH_REPEATS",
    "CLOTH_WIDTHS",
    "MOST_SHRINKAGE",
    "MOST_STRETCH",
    "Cloth",
    "ClothKind",
    "read_cloth",
    "stretch_class",
]

ClothKind = Literal["woven", "knit"]
CLOTH_KINDS: tuple[ClothKind, ...] = get_args(ClothKind)

CLOTH_WIDTHS = (200.0, 4000.0)
CLOTH_REPEATS = (5.0, 2000.0)
"""mm. The narrowest and the widest cloth, the shortest and the longest repeat (ours, against slips of the unit)."""

MOST_SHRINKAGE = 0.3
"""A fraction of one. Linen and viscose lose up to a tenth in the wash (common practice); no cloth loses a third."""

# Upper bounds of the stretch classes, as fractions. Common practice (from memory).
_STRETCH_CLASSES = ((0.25, "stable knit"), (0.50, "moderate knit"), (0.75, "stretchy knit"))


@dataclass(frozen=True, slots=True)
class Cloth(Given):
    """One cloth.

    stretch: how much longer it gets across when stretched, as a fraction of its relaxed length (0.4 is 40 %):
             (stretched - relaxed) / relaxed. The ease table counts on it in a knit only.
    width:     from selvedge to selvedge, mm; None where it is not known yet
    shrinkage: the fraction of its length that it loses when it is washed before it is cut
    one_way:   whether all pieces have to lie with their tops one way, for nap or a print with an up and a down
    repeat:    the length of a pattern in it that is to meet at the notches, mm; None for none
    lining_width, interfacing_width: those of the cloths that go with it, mm; None for what is usual
    Raises UnknownName for another kind, InputProblems for a figure that no cloth has.
    """

    kind: ClothKind = "woven"
    stretch: float = 0.0
    width: float | None = None
    shrinkage: float = 0.0
    one_way: bool = False
    repeat: float | None = None
    lining_width: float | None = None
    interfacing_width: float | None = None

    def __post_init__(self) -> None:
        if self.kind not in CLOTH_KINDS:
            raise UnknownName("kind of cloth", str(self.kind), CLOTH_KINDS)
        problems = [
            number_problem("cloth, stretch", "percent", self.stretch, 0.0, MOST_STRETCH),
            number_problem("cloth, shrinkage", "percent", self.shrinkage, 0.0, MOST_SHRINKAGE),
            type_problem("cloth, one_way", self.one_way, bool, "True or False"),
        ]
        for name, mm, limits in (
            ("width", self.width, CLOTH_WIDTHS),
            ("repeat", self.repeat, CLOTH_REPEATS),
            ("lining_width", self.lining_width, CLOTH_WIDTHS),
            ("interfacing_width", self.interfacing_width, CLOTH_WIDTHS),
        ):
            if mm is not None:
                problems.append(number_problem(f"cloth, {name}", "length", mm, *limits))
        refuse([*filter(None, problems)])


def read_cloth(reader: Reader) -> Cloth:
    """The cloth in a `[cloth]` table; what is wrong is noted by the reader. An empty table is a plain woven."""
    kind: ClothKind = "knit" if reader.choice("kind", CLOTH_KINDS, default="woven") == "knit" else "woven"
    stretch = reader.percent("stretch", default=None, low=0.0, high=MOST_STRETCH)
    if kind == "knit" and stretch is None and "stretch" not in reader:
        mend = "Fold the knit crosswise, mark 10 cm, stretch it along a ruler: 14 cm is 40 %."
        if reader.in_inches():
            mend = "Fold the knit crosswise, mark 5 in, stretch it along a ruler: 7 in is 40 %."
        reader.problem("stretch", 'a share in percent, such as "40 %": the ease of a knit rests on it', mend)
    return Cloth(
        kind=kind,
        stretch=stretch or 0.0,
        width=reader.length("width", default=None, low=CLOTH_WIDTHS[0], high=CLOTH_WIDTHS[1]),
        shrinkage=reader.percent("shrinkage", default=0.0, low=0.0, high=MOST_SHRINKAGE),
        one_way=reader.flag("one_way", default=False),
        repeat=reader.length("repeat", default=None, low=CLOTH_REPEATS[0], high=CLOTH_REPEATS[1]),
        lining_width=reader.length("lining_width", default=None, low=CLOTH_WIDTHS[0], high=CLOTH_WIDTHS[1]),
        interfacing_width=reader.length("interfacing_width", default=None, low=CLOTH_WIDTHS[0], high=CLOTH_WIDTHS[1]),
    )


def stretch_class(cloth: Cloth) -> str:
    """The row of the ease table this cloth belongs to: "woven", or a knit by how far it stretches."""
    if cloth.kind == "woven":
        return "woven"
    return next((name for most, name in _STRETCH_CLASSES if cloth.stretch <= most), "very stretchy knit")
