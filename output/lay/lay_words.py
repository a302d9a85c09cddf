"""What is said of a lay: how each stretch lies, and where on it each piece begins."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.dataclass import dataclass
from drafting.reading.units import MM_PER_INCH, length_text
from output.lay.lay_values import LAP, Lay, LayPiece, Placement, Stretch

__all__ = ["PlacedWords", "lies_words", "placed_words", "width_text"]

_FOLDS = {
    "lengthwise": "folded lengthwise, selvedge on selvedge, right sides together",
    "single": "opened out in a single layer, right side up",
    "double": "folded double, both selvedges to the middle, right sides together",
    "across": "folded across, cut end on cut end, right sides together",
}


@dataclass(frozen=True, slots=True)
class PlacedWords:
    """Where a piece lies: its name, how far it begins from the cut end and from the fold or selvedge, and how."""

    piece: str
    along: str
    across: str
    how: str


def width_text(mm: float, unit: str) -> str:
    """The width of a bolt as it is told in a shop: "140 cm", "54 in"."""
    return f"{mm / MM_PER_INCH:.4g} in" if unit == "in" else f"{mm / 10.0:.4g} cm"


def lies_words(lay: Lay, unit: str) -> tuple[str, ...]:
    """A sentence for each stretch of cloth: how it lies, how long it is, and what to look out for."""
    out = []
    for number, each in enumerate(lay.stretches, start=1):
        part = f"Part {number}: the" if len(lay.stretches) > 1 else "The"
        out.append(f"{part} cloth lies {_FOLDS[each.cloth.fold]}, {length_text(each.length, unit)} long.")
        if each.cloth.fold == "across" and each.cloth.one_way:
            out.append("Cut it through at the fold and turn the upper layer round, so that both run one way.")
        if each.cloth.layers == 2 and any(placed.piece.layers == 1 for placed in each.placements):
            single = [placed for placed in each.placements if placed.piece.layers == 1]
            out.append(f"Cut through the upper layer only: {', '.join(sorted({_whole(each) for each in single}))}.")
            if down := sorted({_whole(placed) for placed in single if placed.flipped}):
                out.append(f"Lay the paper face down, as the cloth shows its wrong side: {', '.join(down)}.")
        joined = {_whole(placed): placed.piece for placed in each.placements if placed.piece.strips > 1}
        out += [_joined_words(name, strip, unit) for name, strip in joined.items()]
        if each.cloth.repeat:
            repeat = length_text(each.cloth.repeat, unit)
            out.append(f"Pieces that are sewn together lie alike in the repeat of {repeat} at their first notch.")
        if each.cloth.repeat_across:
            repeat = length_text(each.cloth.repeat_across, unit)
            begin = "Fold it on" if each.cloth.on_fold else "Count from"
            out.append(
                f"Across, the pattern comes again every {repeat}. {begin} a middle of it"
                f"{'' if each.cloth.on_fold else ' near the lower selvedge'}: the centre line of every piece, or its "
                "grain, lies on a middle."
            )
    return tuple(out)


def _joined_words(name: str, strip: LayPiece, unit: str) -> str:
    if strip.join == LAP:
        return (
            f"The {name} is cut in {strip.strips} strips: lay their ends over each other by {length_text(LAP, unit)}."
        )
    return (
        f"The {name} is longer than the cloth is wide, so it is cut in {strip.strips} strips: sew them together first, "
        f"{length_text(0.5 * strip.join, unit)} from their ends."
    )


def _whole(placed: Placement) -> str:
    """The name of what is cut, of a strip the name of the whole."""
    return placed.piece.whole or placed.piece.name


def placed_words(lay: Lay, unit: str) -> tuple[PlacedWords, ...]:
    """Every piece in the order in which it is met along the cloth."""
    return tuple(words for each in lay.stretches for words in _words(each, unit))


def _words(stretch: Stretch, unit: str) -> Iterator[PlacedWords]:
    edge = "fold" if stretch.cloth.on_fold else "selvedge"
    for placed in sorted(stretch.placements, key=lambda each: min(p.x for p in each.outline)):
        left, low = (min(values) for values in zip(*((p.x, p.y) for p in placed.outline), strict=True))
        across = "on the fold" if placed.piece.on_fold else f"{length_text(low, unit)} from the {edge}"
        yield PlacedWords(placed.piece.name, length_text(left, unit), across, _how(placed))


def _how(placed: Placement) -> str:
    top = "top to the left" if placed.turned else "top to the right"
    down = placed.flipped and not placed.piece.on_fold and placed.piece.layers == 1
    return f"{top}, face down" if down else top
