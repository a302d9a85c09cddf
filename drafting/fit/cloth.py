"""The cloth a garment is cut from, as far as it changes the cutting."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, Final

from drafting.dataclass import dataclass
from drafting.errors import UnknownName, meant
from drafting.fit.cloth_table import (
    WEIGHT_THICKNESS,
    WEIGHTS,
    ClothRow,
    Weight,
    cloth_meant,
    cloth_table,
    layer_meant,
    layer_table,
)
from drafting.pattern.stretch_used import MOST_STRETCH
from drafting.reading.given import Given, list_problems, number_problem, type_problem
from drafting.reading.read_table import Reader, refuse

__all__ = [
    "CLOTH_KINDS",
    "CLOTH_REPEATS",
    "CLOTH_WIDTHS",
    "MOST_BENEATH",
    "MOST_SHRINKAGE",
    "MOST_STRETCH",
    "MOST_THICKNESS",
    "Cloth",
    "read_cloth",
    "stretch_class",
]

CLOTH_KINDS: Final[tuple[str, ...]] = tuple(row.word for row in cloth_table())
"""The words for a cloth."""

CLOTH_WIDTHS = (200.0, 4000.0)
CLOTH_REPEATS = (5.0, 2000.0)
"""mm. The narrowest and the widest cloth, the shortest and the longest repeat (ours, against slips of the unit)."""

MOST_SHRINKAGE = 0.3
"""A fraction of one. Linen and viscose lose up to a tenth in the wash (common practice); no cloth loses a third."""

MOST_THICKNESS: Final = 20.0
MOST_BENEATH: Final = 40.0
"""mm. The thickest cloth, quilted, and the most that is worn beneath (ours, against slips of the unit)."""

# Upper bounds of the stretch classes, as fractions. Common practice (from memory).
_STRETCH_CLASSES = ((0.25, "stable knit"), (0.50, "moderate knit"), (0.75, "stretchy knit"))

_WEIGHT_WORDS: Final[Mapping[str, Weight]] = MappingProxyType(
    {"light": "light", "medium": "medium", "heavy": "heavy", "thin": "light", "thick": "heavy"}
)

_USUAL: Final[Any] = None  # left out: what a cloth of this kind usually has


@dataclass(frozen=True, slots=True)
class Cloth(Given):
    """One cloth. What is left out is what a cloth of its kind usually has (`cloth_table`).

    kind:    "woven", "knit", or any word of the table, "denim"
    stretch: how much longer it gets across when stretched, as a fraction of its relaxed length (0.4 is 40 %):
             (stretched - relaxed) / relaxed. The ease table counts on it in a knit only.
    width:     from selvedge to selvedge, mm; None where it is not known yet
    shrinkage: the fraction of its length that it loses when it is washed before it is cut
    one_way:   whether all pieces have to lie with their tops one way, for nap or a print with an up and a down
    repeat:    the length of a pattern in it that is to meet at the notches, mm; None for none
    repeat_across: the width of a pattern in it, on the middle of which the middle of every piece is to lie, mm
    lining_width, interfacing_width: those of the cloths that go with it, mm; None for what is usual
    stretch_along: as `stretch`, along the grain
    weight:    "light", "medium" or "heavy"
    thickness: mm
    over:      what is worn beneath, in words: ("shirt", "pullover")
    beneath:   how thick that lies, mm, everywhere; None where each layer lies as it usually does (`beneath_at`)
    Raises UnknownName for another kind or layer, InputProblems for a figure that no cloth has.
    """

    kind: str = "woven"
    stretch: float = _USUAL
    width: float | None = None
    shrinkage: float = _USUAL
    one_way: bool = _USUAL
    repeat: float | None = None
    repeat_across: float | None = None
    lining_width: float | None = None
    interfacing_width: float | None = None
    stretch_along: float = _USUAL
    weight: Weight = _USUAL
    thickness: float = _USUAL
    over: tuple[str, ...] = ()
    beneath: float | None = None

    def __post_init__(self) -> None:
        row = cloth_meant(self.kind) if isinstance(self.kind, str) else None
        if row is None:
            raise UnknownName("kind of cloth", str(self.kind), CLOTH_KINDS)
        refuse([*list_problems("cloth, over", self.over, str, 'words: ("shirt", "pullover")')])
        for word in self.over:
            if layer_meant(word) is None:
                raise UnknownName("layer", word, [layer.word for layer in layer_table()])
        if self.weight is not None and self.weight not in WEIGHTS:
            raise UnknownName("weight", str(self.weight), WEIGHTS)
        self._fill_in(row)
        problems = [
            number_problem("cloth, stretch", "percent", self.stretch, 0.0, MOST_STRETCH),
            number_problem("cloth, stretch_along", "percent", self.stretch_along, 0.0, MOST_STRETCH),
            number_problem("cloth, shrinkage", "percent", self.shrinkage, 0.0, MOST_SHRINKAGE),
            type_problem("cloth, one_way", self.one_way, bool, "True or False"),
        ]
        for name, mm, limits in (
            ("width", self.width, CLOTH_WIDTHS),
            ("repeat", self.repeat, CLOTH_REPEATS),
            ("repeat_across", self.repeat_across, CLOTH_REPEATS),
            ("lining_width", self.lining_width, CLOTH_WIDTHS),
            ("interfacing_width", self.interfacing_width, CLOTH_WIDTHS),
            ("thickness", self.thickness, (0.0, MOST_THICKNESS)),
            ("beneath", self.beneath, (0.0, MOST_BENEATH)),
        ):
            if mm is not None:
                problems.append(number_problem(f"cloth, {name}", "length", mm, *limits))
        refuse([*filter(None, problems)])

    @property
    def knit(self) -> bool:
        """Whether it is knitted."""
        return self.usual.structure == "knit"

    @property
    def usual(self) -> ClothRow:
        """What a cloth of its kind usually is like."""
        row = cloth_meant(self.kind)
        if row is None:  # refused when it was made
            raise UnknownName("kind of cloth", self.kind, CLOTH_KINDS)
        return row

    def beneath_at(self, place: str) -> float:
        """How thick what is worn beneath lies at a place of the ease table, mm; at the neck only the thickest layer."""
        if self.beneath is not None:
            return self.beneath
        layers = [layer for word in self.over if (layer := layer_meant(word)) is not None and place in layer.places]
        thick = [layer.thickness for layer in layers]
        return max(thick, default=0.0) if place == "neck" else sum(thick)

    def _fill_in(self, row: ClothRow) -> None:
        """Put in what was left out."""
        if self.thickness is None:
            thin = (
                row.thickness
                if self.weight in (None, row.weight)
                else WEIGHT_THICKNESS.get((row.structure, self.weight), row.thickness)
            )
            object.__setattr__(self, "thickness", thin)
        usual = {
            "stretch": row.stretch or 0.0,
            "stretch_along": row.stretch_along,
            "shrinkage": row.shrinkage,
            "one_way": row.nap,
            "weight": row.weight,
        }
        object.__setattr__(self, "kind", row.word)
        object.__setattr__(self, "over", tuple(self.over))
        for name, value in usual.items():
            if getattr(self, name) is None:
                object.__setattr__(self, name, value)


def read_cloth(reader: Reader) -> Cloth:
    """The cloth in a `[cloth]` table; what is wrong is noted by the reader. An empty table is a plain woven."""
    row = _kind_of(reader)
    stretch = reader.percent("stretch", default=None, low=0.0, high=MOST_STRETCH)
    if row.stretch is None and stretch is None and "stretch" not in reader:
        mend = "Fold the knit crosswise, mark 10 cm, stretch it along a ruler: 14 cm is 40 %."
        if reader.in_inches():
            mend = "Fold the knit crosswise, mark 5 in, stretch it along a ruler: 7 in is 40 %."
        reader.problem("stretch", 'a share in percent, such as "40 %": the ease of a knit rests on it', mend)
    weight = reader.choice("weight", _WEIGHT_WORDS, default="")
    return Cloth(
        kind=row.word,
        stretch=stretch if stretch is not None else _USUAL,
        width=reader.length("width", default=None, low=CLOTH_WIDTHS[0], high=CLOTH_WIDTHS[1]),
        shrinkage=reader.percent("shrinkage", default=_USUAL, low=0.0, high=MOST_SHRINKAGE),
        one_way=reader.flag("one_way", default=_USUAL),
        repeat=reader.length("repeat", default=None, low=CLOTH_REPEATS[0], high=CLOTH_REPEATS[1]),
        repeat_across=reader.length("repeat_across", default=None, low=CLOTH_REPEATS[0], high=CLOTH_REPEATS[1]),
        lining_width=reader.length("lining_width", default=None, low=CLOTH_WIDTHS[0], high=CLOTH_WIDTHS[1]),
        interfacing_width=reader.length("interfacing_width", default=None, low=CLOTH_WIDTHS[0], high=CLOTH_WIDTHS[1]),
        stretch_along=reader.percent("stretch_along", default=_USUAL, low=0.0, high=MOST_STRETCH),
        weight=_WEIGHT_WORDS.get(weight, _USUAL),
        thickness=reader.length("thickness", default=_USUAL, low=0.0, high=MOST_THICKNESS),
        over=_worn_beneath(reader),
        beneath=reader.length("beneath", default=None, low=0.0, high=MOST_BENEATH),
    )


def stretch_class(cloth: Cloth) -> str:
    """The row of the ease table this cloth belongs to: "woven", or a knit by how far it stretches."""
    if not cloth.knit:
        return "woven"
    return next((name for most, name in _STRETCH_CLASSES if cloth.stretch <= most), "very stretchy knit")


def _kind_of(reader: Reader) -> ClothRow:
    """The row of the cloth that is written under `kind`; plain woven where none is, or one that nobody knows."""
    written = reader.text("kind", default="woven")
    row = cloth_meant(written)
    if row is None:
        words = [word for row in cloth_table() for word in (row.word, *row.also)]
        known = f'"{CLOTH_KINDS[0]}", "{CLOTH_KINDS[1]}", or a cloth that `trueseam list cloths` names'
        mend = meant(written, words) or "Take woven or knit for a cloth that is not there, and say its figures."
        reader.problem("kind", known, mend)
        return cloth_table()[0]
    return row


def _worn_beneath(reader: Reader) -> tuple[str, ...]:
    """The layers under `over`, a list or words with commas between them; none that nobody knows."""
    listed = isinstance(reader.peek("over"), list)
    written = reader.written("over") if listed else reader.text("over", default="")
    texts = [str(each) for each in written] if isinstance(written, list) else [str(written)]
    words = [word for text in texts for word in re.split(r"\s*(?:[,+]|\band\b)\s*", text.strip()) if word]
    unknown = [word for word in words if layer_meant(word) is None]
    if unknown:
        layers = [layer.word for layer in layer_table()]
        known = f"what is worn beneath: {', '.join(layers[:-1])}, {layers[-1]}, or a cloth of the list"
        reader.problem("over", known, meant(unknown[0], layers) or 'Or say how thick it lies: beneath = "2 mm".')
    return tuple(word for word in words if word not in unknown)
