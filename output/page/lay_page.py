"""How a garment lies on its cloth, as a page to print or to look at while cutting."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from html import escape
from typing import Any, Final

from output.api import Draft, lay
from output.api.cloth_enough import cloth_enough, savings_html
from output.api.laying import FOLDS, Fold, lay_and_savings, materials_of
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
    """The lay of every material, one below the other, then what would save cloth."""
    cloth = drafted.garment.cloth
    across = cloth.repeat_across if wishes.repeat_across is None else wishes.repeat_across
    cloth = replace(cloth, width=wishes.width or cloth.width, repeat_across=across)
    drafted = replace(drafted, garment=replace(drafted.garment, cloth=cloth))
    materials = materials_of(drafted)
    drawn, saved = [], ""
    for place, material in enumerate(materials):

        def told(share: float, place: int = place, material: str = material) -> None:
            tell(f"laying the {material}", (place + share) / len(materials))

        enough = ""
        if material == "shell":
            found, savings = lay_and_savings(drafted, fold=wishes.fold, seconds=wishes.seconds, tell=told)
            if wishes.have is not None:
                found, passage, _ = cloth_enough(
                    drafted, found, savings, wishes.have, fold=wishes.fold, seconds=wishes.seconds
                )
                enough = f"<p><b>{escape(passage.title)}.</b> {escape(' '.join(passage.sentences))}</p>"
            saved = savings_html(drafted, found, savings)
        else:
            found = lay(drafted, material, fold=wishes.fold, seconds=min(_LINING_SECONDS, wishes.seconds), tell=told)
        wide, takes, buy = (length_text(mm, drafted.unit) for mm in (found.cloth.width, found.length, found.to_buy))
        used = f"{100 * found.used:.0f} % of it ends up in pieces"
        words = f"{material}, {wide} wide: buy {buy}. The pieces take {takes}; {used}."
        drawn.append(f"<h2>{escape(words[:1].upper() + words[1:])}</h2>{enough}{found._repr_svg_()}")
    title = escape(f"{drafted.garment.title}: how it lies on the cloth")
    style = (
        "body{font-family:sans-serif;margin:2rem}svg{max-width:100%;height:auto}"
        "td,th{padding:.2rem 1rem .2rem 0;text-align:left;vertical-align:top}"
    )
    return (
        f'<!doctype html><html lang="en"><meta charset="utf-8"><title>{title}</title><style>{style}</style>'
        f"<h1>{title}</h1>{''.join(drawn)}{saved}</html>"
    )
