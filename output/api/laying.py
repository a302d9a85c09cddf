"""A draft laid on cloth: how it lies, how much to buy, and what would make it less."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from typing import Final

from drafting.alterations import Alteration
from drafting.dataclass import dataclass
from drafting.errors import InputProblems, Problem, TrueseamError, UnknownName
from drafting.fit.cloth import Cloth
from drafting.pattern import Pattern
from drafting.reading.given import number_problem
from drafting.reading.units import length_text
from output.api.making import Draft, accept, accept_draft, draft
from output.lay.how_much import ENDS, length_to_buy
from output.lay.lay_drawing import lay_svg
from output.lay.lay_pieces import MATERIALS, Material, cut_from
from output.lay.lay_values import FOLDS, Fold, Lay, Spread
from output.lay.lay_widths import usual_width
from output.lay.savings import Saving, best_savings, least_changes_to_fit, try_changes
from output.lay.search_lay import search_lay
from output.lay.shopping_list import ToBuy, shopping_list

__all__ = [
    "ENDS",
    "FOLDS",
    "Fold",
    "LaidCloth",
    "cloth_of",
    "cloths_of",
    "fitting",
    "lay",
    "lay_and_savings",
    "materials_of",
    "to_buy",
    "what_saves_cloth",
]

_FULLNESS: Final = {"full sleeve": ("cap", "hem"), "flare skirt": ("hem",)}
"""Alterations that give fullness, and their options for how much."""

_MOST_SECONDS: Final = 3600.0
"""Nobody waits longer for a lay (our figure)."""

_LESS: Final = 60.0  # mm of fullness less, tried as a saving


@dataclass(frozen=True, slots=True, repr=False)
class LaidCloth:
    """One material with everything that is cut from it laid on it. In a notebook it draws itself.

    to_buy: mm, with the ends and what the wash takes, in steps as a shop cuts it
    """

    title: str
    material: Material
    cloth: Spread
    lay: Lay
    to_buy: float
    unit: str

    @property
    def length(self) -> float:
        """How much of the cloth the pieces take, mm, once it is washed."""
        return self.lay.length

    @property
    def used(self) -> float:
        """The share of the cloth that ends up in pieces, from 0 to 1."""
        return self.lay.used

    def _repr_svg_(self) -> str:
        return lay_svg(self.lay, f"{self.title}: {self.material}", self.unit)

    def __repr__(self) -> str:
        wide = length_text(self.cloth.width, self.unit)
        return f"<{self.material} {wide} wide: {length_text(self.length, self.unit)}, {100 * self.used:.0f} % used>"


def materials_of(drafted: Draft) -> tuple[Material, ...]:
    """What the pieces are cut from: the shell, and lining or interfacing where there is any."""
    pieces = drafted.pattern.pieces
    return tuple(each for each in MATERIALS if any(cut_from(piece, each).count for piece in pieces))


def to_buy(drafted: Draft) -> tuple[ToBuy, ...]:
    """Everything that is bought for a garment: its cloths, then what is used up in sewing."""
    ordered = drafted.garment.cloth
    return shopping_list(drafted.pattern, cloths_of(drafted), ordered.shrinkage, drafted.unit, knit=ordered.knit)


def cloths_of(drafted: Draft) -> dict[Material, Spread]:
    """How each material that the pieces are cut from lies on the table."""
    return {material: cloth_of(drafted, material) for material in materials_of(drafted)}


def cloth_of(
    drafted: Draft, material: Material = "shell", *, width: float | None = None, fold: Fold = "lengthwise"
) -> Spread:
    """How a material lies on the table: as wide as asked, else as the garment says, else as is usual.

    Direction and repeat are those of the garment's cloth; lining and interfacing have neither.
    """
    if fold not in FOLDS:
        raise UnknownName("fold", str(fold), FOLDS)
    if material not in MATERIALS:
        raise UnknownName("material", str(material), MATERIALS)
    ordered = drafted.garment.cloth
    widths = {"lining": ordered.lining_width, "interfacing": ordered.interfacing_width}
    cloth = ordered if material == "shell" else Cloth(width=widths[material])
    if width is not None:
        cloth = replace(cloth, width=width)
    return Spread(
        cloth.width or usual_width(material, drafted.unit),
        fold,
        one_way=cloth.one_way,
        repeat=cloth.repeat or 0.0,
        repeat_across=cloth.repeat_across or 0.0,
    )


def lay(
    drafted: Draft,
    material: Material = "shell",
    *,
    width: float | None = None,
    fold: Fold = "lengthwise",
    seconds: float = 0.0,
    tell: Callable[[float], None] = lambda _share: None,
) -> LaidCloth:
    """Everything that is cut from a material laid on cloth, as the report shows it; shorter where it is looked for.

    width, fold: of the cloth, mm; "lengthwise", "double", "single" or "across"
    seconds:     how long to look for a shorter lay
    tell:        is called with the share of the time that is over
    Raises InputProblems for a piece that is too wide for the cloth, and where nothing is cut from the material.
    """
    _accept(drafted, seconds, tell)
    cloth = cloth_of(drafted, material, width=width, fold=fold)
    if material not in materials_of(drafted):
        where = f"{drafted.pattern.title}, {material}"
        raise InputProblems(
            [Problem(where, "no piece that is cut from it", f"one of {', '.join(materials_of(drafted))}")]
        )
    found = search_lay(drafted.pattern, cloth, material, seconds=seconds, unit=drafted.unit, tell=tell)
    return _laid(drafted, material, cloth, found)


def _accept(drafted: object, seconds: object, tell: object) -> None:
    accept_draft(drafted)
    if problem := number_problem("lay, seconds", "number", seconds, 0.0, _MOST_SECONDS):
        raise InputProblems([problem])
    if not callable(tell):
        accept("lay, tell", tell, (), "a function of one number")


def _laid(drafted: Draft, material: Material, cloth: Spread, found: Lay) -> LaidCloth:
    shrinkage = drafted.garment.cloth.shrinkage if material == "shell" else 0.0
    to_buy = length_to_buy(found.length, shrinkage, drafted.unit)
    return LaidCloth(drafted.pattern.title, material, cloth, found, to_buy, drafted.unit)


def lay_and_savings(
    drafted: Draft,
    *,
    fold: Fold = "lengthwise",
    seconds: float = 0.0,
    tell: Callable[[float], None] = lambda _share: None,
) -> tuple[LaidCloth, tuple[Saving, ...]]:
    """The shell laid as `lay` does, and meanwhile each change that may save cloth tried; what saves most first.

    Ctrl-C ends both with the best so far.
    """
    _accept(drafted, seconds, tell)
    ended = threading.Event()
    pattern, cloth, stopped = drafted.pattern, cloth_of(drafted, fold=fold), ended.is_set
    others = tuple(_less_full(drafted))
    with ThreadPoolExecutor(2) as lanes:
        searched = lanes.submit(
            search_lay, pattern, cloth, seconds=seconds, unit=drafted.unit, tell=tell, stopped=stopped
        )
        trying = lanes.submit(
            try_changes, pattern, cloth, unit=drafted.unit, others=others, seconds=seconds, stopped=stopped
        )
        try:
            searched.result(), trying.result()
        except KeyboardInterrupt:
            ended.set()
        found, tried = searched.result(), trying.result()
    return _laid(drafted, "shell", cloth, found), best_savings(found, tried)


def what_saves_cloth(drafted: Draft, *, fold: Fold = "lengthwise", seconds: float = 0.0) -> tuple[Saving, ...]:
    """Each change that makes the shell shorter, tried by itself, what saves most first."""
    return lay_and_savings(drafted, fold=fold, seconds=seconds)[1]


def fitting(drafted: Draft, cloth: Spread, have: float) -> Saving | None:
    """Changes that together make the shell fit on so many mm of unwashed cloth; None where none were found."""
    most = have * (1.0 - drafted.garment.cloth.shrinkage) - ENDS
    return least_changes_to_fit(drafted.pattern, cloth, most, unit=drafted.unit)


def _less_full(drafted: Draft) -> Iterator[tuple[str, Pattern]]:
    """The garment drafted again with less of each fullness that a step gives it."""
    garment = drafted.garment
    for place, step in enumerate(garment.steps):
        for option in _FULLNESS.get(step.name, ()):
            less = _less(step, option)
            if less is None:
                continue
            try:
                other = draft(replace(garment, steps=(*garment.steps[:place], less, *garment.steps[place + 1 :])))
            except TrueseamError:
                continue
            words = f"{length_text(_LESS, drafted.unit)} less at the {option}"
            yield f"{step.name}: {words}", other.pattern


def _less(step: Alteration, option: str) -> Alteration | None:
    full = getattr(step, option)
    return replace(step, **{option: full - _LESS}) if isinstance(full, float) and full > _LESS else None
