"""How a garment lies on its cloth, as a page to print or to look at while cutting."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from html import escape
from typing import Any, Final

from output.api import Draft, lay
from output.api.laying import ENDS, FOLDS, Fold, materials_of
from output.api.wording import NotRead, length_text, parse_length
from output.page.edits import CannotEdit

__all__ = ["LayWishes", "lay_page", "lay_wishes"]

Tell = Callable[[str, float], None]

_SECONDS, _MOST_SECONDS = 6.0, 600.0
"""How long a shorter lay is looked for where nothing is said, and at most (our figures)."""
_LINING_SECONDS: Final = 1.0


@dataclass(frozen=True, slots=True)
class LayWishes:
    """What she says of her cloth: lengths in mm, None for as the garment says; have: how much of it there is."""

    fold: Fold = "lengthwise"
    width: float | None = None
    repeat_across: float | None = None
    have: float | None = None
    seconds: float = _SECONDS


def lay_wishes(said: Mapping[str, Any], unit: str) -> LayWishes:
    """The wishes from what was typed, "" for nothing said. Raises CannotEdit with what cannot be read."""

    def length(key: str, what: str) -> float | None:
        text = str(said.get(key) or "").strip()
        try:
            return parse_length(text, unit=unit) if text else None
        except NotRead as wrong:
            raise CannotEdit(f"{what} cannot be read: {wrong}") from None

    fold: Fold = next((each for each in FOLDS if each == said.get("fold")), "lengthwise")
    try:
        seconds = float(said.get("seconds") or _SECONDS)
    except ValueError:
        seconds = -1.0
    if not 0.0 <= seconds <= _MOST_SECONDS:
        raise CannotEdit(f"A lay is looked for from 0 to {_MOST_SECONDS:.0f} seconds.")
    across = length("repeat_across", "The repeat across")
    return LayWishes(fold, length("width", "The width"), across, length("have", "How much there is"), seconds)


def lay_page(drafted: Draft, wishes: LayWishes, tell: Tell) -> str:
    """The lay of every material, one below the other."""
    if wishes.repeat_across is not None:
        cloth = replace(drafted.garment.cloth, repeat_across=wishes.repeat_across)
        drafted = replace(drafted, garment=replace(drafted.garment, cloth=cloth))
    materials = materials_of(drafted)
    drawn = []
    for place, material in enumerate(materials):

        def told(share: float, place: int = place, material: str = material) -> None:
            tell(f"laying the {material}", (place + share) / len(materials))

        shell = material == "shell"
        found = lay(
            drafted,
            material,
            width=wishes.width if shell else None,
            fold=wishes.fold,
            seconds=wishes.seconds if shell else min(_LINING_SECONDS, wishes.seconds),
            tell=told,
        )
        wide, takes, buy = (length_text(mm, drafted.unit) for mm in (found.cloth.width, found.length, found.to_buy))
        used = f"{100 * found.used:.0f} % of it ends up in pieces"
        words = f"{material}, {wide} wide: buy {buy}. The pieces take {takes}; {used}."
        if shell and wishes.have is not None:
            left = wishes.have * (1.0 - drafted.garment.cloth.shrinkage) - ENDS
            words += f" {_enough(wishes.have, found.length - left, drafted.unit)}"
        drawn.append(f"<h2>{escape(words[:1].upper() + words[1:])}</h2>{found._repr_svg_()}")
    title = escape(f"{drafted.garment.title}: how it lies on the cloth")
    style = "body{font-family:sans-serif;margin:2rem}svg{max-width:100%;height:auto}"
    return (
        f'<!doctype html><html lang="en"><meta charset="utf-8"><title>{title}</title><style>{style}</style>'
        f"<h1>{title}</h1>{''.join(drawn)}</html>"
    )


def _enough(have: float, wanting: float, unit: str) -> str:
    """Whether what she has is enough. wanting: mm, below zero for what is left over"""
    said = (
        "it is enough" if wanting <= 0.0 else f"{length_text(wanting, unit)} are wanting, the wash and the ends counted"
    )
    return f"You have {length_text(have, unit)}: {said}."
