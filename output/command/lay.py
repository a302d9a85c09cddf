"""`trueseam lay`: the pieces on the cloth, how much to buy, what would save some, whether what there is is enough."""

from __future__ import annotations

import re
from argparse import Namespace
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from blocks.garment import Garment
from drafting.dataclass import dataclass
from drafting.errors import InputProblems, Problem, meant
from drafting.fit.cloth import CLOTH_REPEATS, CLOTH_WIDTHS
from drafting.reading.files import load_toml
from drafting.reading.read_table import Reader, refuse
from drafting.reading.units import NotRead, length_text, length_unit, parse_length, percent, printable
from drafting.reading.values import between_lengths
from output.api.cloth_enough import cloth_enough
from output.api.laying import LaidCloth, lay, lay_and_savings, materials_of
from output.api.making import Draft
from output.command.answer import Answer
from output.command.draft import make_garment, read_order
from output.command.progress import progress
from output.command.streams import print_error
from output.files.write_folder import write_all
from output.lay.how_much import ENDS, length_to_buy, shop_length
from output.lay.lay_drawing import lay_svg
from output.lay.lay_values import FOLDS, Fold, Lay
from output.lay.lay_widths import known_lay, width_table
from output.lay.lay_words import lies_words, width_text
from output.lay.savings import CUT_SINGLY, Saving, changes_the_bill
from output.report.cloth_tables import places_table, savings_table, widths_table
from output.report.tables import Passage, Said

__all__ = ["Wishes", "garment_to_lay", "laid", "read_wishes"]

_LESSER = 2.0  # seconds for lining and interfacing
_MOST_SECONDS = 3600
_HAD = (10.0, 100_000.0)
"""mm: the least and the most cloth there can be; no bolt is longer (ours)."""


@dataclass(frozen=True, slots=True)
class Wishes:
    """What the command line says of the cloth; lengths in mm, None for what the garment file says.

    have:    how much cloth there is; None where that is not told
    seconds: how long to look for a shorter lay than the one that is found at once
    """

    fold: Fold = "lengthwise"
    width: float | None = None
    one_way: bool = False
    repeat: float | None = None
    repeat_across: float | None = None
    have: float | None = None
    seconds: float = 0.0


def laid(path: Path, wishes: Wishes, *, to: Path | None, unit: str | None, quiet: bool) -> Answer:
    """Lay a garment on cloth, and write the drawing of every lay to a folder. Raises TrueseamError.

    to: the folder; None for one named after the garment file and "lay", in the current folder
    """
    folder = to if to is not None else Path(f"{path.stem}-lay")
    with progress(watched=not quiet) as tell:
        drafted = make_garment(garment_to_lay(path, wishes, unit)).draft
        materials = materials_of(drafted)
        found: list[LaidCloth] = []
        saving: tuple[Saving, ...] = ()
        for place, material in enumerate(materials):

            def told(share: float, place: int = place, material: str = material) -> None:
                tell(f"laying the {material}", (place + share) / len(materials))

            if material == "shell":
                shell, saving = lay_and_savings(drafted, fold=wishes.fold, seconds=wishes.seconds, tell=told)
                found.append(shell)
            else:
                found.append(lay(drafted, material, seconds=min(_LESSER, wishes.seconds), tell=told))
    enough, wanting = list[Said](), False
    if wishes.have is not None:
        found[0], passage, wanting = cloth_enough(
            drafted, found[0], saving, wishes.have, fold=wishes.fold, seconds=wishes.seconds
        )
        enough.append(passage)
    drawings = {f"{each.material}.svg": lay_svg(each.lay, _title(each), drafted.unit).encode() for each in found}
    written = write_all(folder, drawings, print_error)
    said: list[Said] = [*enough]
    singly = next((tried.lay for tried in saving if tried.changes == (CUT_SINGLY,)), None)
    for each, file in zip(found, written, strict=True):
        said += _passages(drafted, each, file, singly)
    worth = changes_the_bill(saving, found[0].lay, _shrinkage(drafted, found[0]), drafted.unit)
    said.append(savings_table(worth, _shrinkage(drafted, found[0]), drafted.unit))
    return Answer(1 if wanting else 0, tuple(said), lambda: _data(found, worth, folder))


def read_wishes(options: Namespace, garment: Path) -> Wishes:
    """What the options of the command line say of the cloth; a plain number is in the unit the garment file states.

    Raises InputProblems with all that is wrong.
    """
    problems: list[Problem] = []
    unit = _stated_unit(garment)

    def length(option: str, least: float, most: float) -> float | None:
        text = getattr(options, option.replace("-", "_"))
        if text is None:
            return None
        where, read = f"the command line, lay --{option}", f'"{printable(text)}"'
        try:
            mm = parse_length(text, unit=unit)
        except NotRead as wrong:
            problems.append(Problem(where, read, wrong.expected, _with_unit(option, text) or wrong.mend))
            return None
        if not least <= mm <= most:
            problems.append(Problem(where, read, between_lengths(least, most, length_unit(text) or unit or "mm")))
        return mm

    width, repeat = length("width", *CLOTH_WIDTHS), length("repeat", *CLOTH_REPEATS)
    across = length("repeat-across", *CLOTH_REPEATS)
    have = length("have", *_HAD)
    fold: Fold = "lengthwise"
    if options.fold in FOLDS:
        fold = options.fold
    elif options.fold is not None:
        read, mend = f'"{printable(options.fold)}"', meant(options.fold, FOLDS)
        problems.append(Problem("the command line, lay --fold", read, "lengthwise, double, single or across", mend))
    seconds = 0.0
    if options.time is not None:
        try:
            seconds = float(options.time)
        except ValueError:
            seconds = -1.0
        if not 0.0 <= seconds <= _MOST_SECONDS:
            expected = f"seconds, from 0 to {_MOST_SECONDS}"
            problems.append(Problem("the command line, lay --time", f'"{printable(options.time)}"', expected))
    refuse(problems)
    return Wishes(fold, width, options.one_way, repeat, across, have, seconds)


def _stated_unit(garment: Path) -> str | None:
    """The unit that a garment file states for its plain numbers; None where it states none or cannot be read."""
    try:
        return Reader(load_toml(garment), place=str(garment), problems=[]).file_unit()
    except InputProblems:
        return None


def _with_unit(option: str, text: str) -> str:
    """How to write a length, where a number stands alone or is a word."""
    if re.fullmatch(r"[\d.,/ ]*\d", text):
        return f'Write its unit as well: --{option} "{text.strip()} cm" or --{option} "{text.strip()} in".'
    units = {"yard": "1 yd", "inch": "36 in", "foot": "3 ft", "feet": "3 ft"}
    example = next((example for word, example in units.items() if word in text.casefold()), "1.5 m")
    return f'Write the number in figures: --{option} "{example}".'


def garment_to_lay(path: Path, wishes: Wishes, unit: str | None) -> Garment:
    """The garment of a file, with what the command line says of its cloth."""
    garment = read_order(path, None, unit)
    cloth = replace(garment.cloth, one_way=garment.cloth.one_way or wishes.one_way)
    for name in ("width", "repeat", "repeat_across"):
        if getattr(wishes, name) is not None:
            cloth = replace(cloth, **{name: getattr(wishes, name)})
    return replace(garment, cloth=cloth)


def _title(each: LaidCloth) -> str:
    return f"{each.title}: {each.material}"


def _shrinkage(drafted: Draft, each: LaidCloth) -> float:
    return drafted.garment.cloth.shrinkage if each.material == "shell" else 0.0


def _passages(drafted: Draft, each: LaidCloth, file: Path, singly: Lay | None) -> Iterator[Said]:
    """What is told of one cloth: how much to buy, how the pieces lie, and what other widths would take."""
    unit, lost = drafted.unit, _shrinkage(drafted, each)
    wide = width_text(each.cloth.width, unit)
    washed = f" Of what you buy the wash takes {percent(lost)}; wash it before you cut." if lost else ""
    ends = f"{length_text(ENDS, unit)} more straighten its ends."
    yield Passage(
        f"{_title(each)}, {wide} wide: buy {shop_length(each.to_buy, unit)}",
        (
            *_laid_otherwise(each),
            *lies_words(each.lay, unit),
            f"{percent(each.used)} of it ends up in pieces. {ends}{washed}",
            *_longer_search(drafted, each),
            f"{file}: the drawing to follow while you cut",
        ),
    )
    yield places_table(each.lay, unit)
    known = {each.cloth.fold: each.lay}
    if singly is not None and each.material == "shell":
        known["single"] = singly
    lays = width_table(drafted.pattern, each.cloth, each.material, unit, known=known)
    yield widths_table(lays, lost, unit)


def _laid_otherwise(each: LaidCloth) -> Iterator[str]:
    """A sentence where the cloth does not lie as it was asked for in any part."""
    if each.cloth.fold not in {stretch.cloth.fold for stretch in each.lay.stretches}:
        yield "So folded, the pieces are too wide for it, or it takes more cloth than this:"


def _longer_search(drafted: Draft, each: LaidCloth) -> Iterator[str]:
    """A sentence where the search found less to buy than the report and the first sheet say."""
    at_once = known_lay(drafted.pattern, each.cloth, each.material, drafted.unit)
    bought = length_to_buy(at_once.length, _shrinkage(drafted, each), drafted.unit)
    if bought > each.to_buy:
        told = shop_length(bought, drafted.unit)
        yield f"The report and the first sheet tell the lay found at once: it takes {told}."


def _data(found: list[LaidCloth], saving: tuple[Saving, ...], folder: Path) -> dict[str, object]:
    """The lays and what could be saved as data for --json, lengths in mm."""
    return {
        "cloths": [
            {
                "material": each.material,
                "width": each.cloth.width,
                "length": round(each.length, 3),
                "to_buy": each.to_buy,
                "used": round(each.used, 4),
                "file": str(folder / f"{each.material}.svg"),
                "stretches": [
                    {
                        "fold": stretch.cloth.fold,
                        "length": round(stretch.length, 3),
                        "pieces": [
                            {
                                "piece": placed.piece.name,
                                "x": round(placed.x, 3),
                                "y": round(placed.y, 3),
                                "turned": placed.turned,
                                "flipped": placed.flipped,
                                "on_fold": placed.piece.on_fold,
                                "layers": placed.piece.layers,
                                "outline": [(round(p.x, 3), round(p.y, 3)) for p in placed.outline],
                            }
                            for placed in stretch.placements
                        ],
                    }
                    for stretch in each.lay.stretches
                ],
            }
            for each in found
        ],
        "savings": [
            {"changes": list(each.changes), "saved": round(each.saved, 3), "length": round(each.lay.length, 3)}
            for each in saving
        ],
    }
