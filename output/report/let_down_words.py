"""What is said of cloth that is left to be let down later: in the step in which it is turned up, sewn or tucked."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.errors import listed
from drafting.pattern import Edge, Pattern
from drafting.pattern.let_down import let_down_edges, tuck_by
from drafting.reading.units import length_text
from drafting.sewing import Act
from output.report.step_text import StepText, StepWords

__all__ = ["left_to_let_down", "let_down_words", "tuck_words"]


def let_down_words(text: StepText) -> Iterator[str]:
    """What is to be known of a seam or a hem that can be let down, now and then."""
    for names, by in _let_down_in(text).items():
        whose, more = listed(f"the {name}" for name in names), text.long(by)
        if text.step.act is Act.HEM:
            yield (
                f"{more} of it is there to be let down: when it has grown too short, unpick the hem, press the old "
                f"fold out with a damp cloth, and turn up {text.long(text.step.depth - by)} on the line “let down to "
                "here”."
            )
        else:
            yield (
                f"{whose[:1].upper()}{whose[1:]} {'has' if len(names) == 1 else 'have'} {more} more allowance here, "
                "to be let down: lay sewing line on sewing line, not edge on edge, and do not trim it. When the waist "
                "sits too high, undo this seam and sew it on the line “let down to here”."
            )


def _let_down_in(text: StepText) -> dict[tuple[str, ...], float]:
    """By how much what is sewn in a step can be let down, by the pieces that all can by so much, mm."""
    seams = [text.pattern.seam(name) for name in text.step.seams]
    sewn = {(ref.piece, ref.edge) for seam in seams for ref in (*seam.a, *seam.b)}
    sewn |= {(ref.piece, ref.edge) for ref in text.step.edges}
    found: dict[float, list[str]] = {}
    for name in text.step.pieces:
        for edge, by in let_down_edges(text.pattern.piece(name)):
            if (name, edge.name) in sewn and name not in found.setdefault(round(by, 3), []):
                found[round(by, 3)].append(name)
    return {tuple(names): by for by, names in found.items() if names}


def tuck_words(text: StepText) -> StepWords:
    """How a tuck is sewn, and let out."""
    part = str(text.step.part or "garment")
    return StepWords(
        f"Growing tuck in the {part}{'s' if part == 'sleeve' else ''}",
        (
            "Fold along the middle between the two lines marked “tuck”, right side in, all round, so that the tuck "
            "lies inside; pin the lines on each other.",
            "Sew on the lines with a long stitch, easy to take out, and press the tuck up. It takes up "
            f"{text.long(text.step.depth)}.",
            "Let it out when it has grown too short: unpick it and press the folds out.",
        ),
    )


def left_to_let_down(pattern: Pattern, unit: str) -> tuple[str, ...]:
    """Where cloth is left, a sentence for each place: "Skirt front and skirt back, hem: 4.0 cm to be let down."."""
    found: dict[tuple[str, float], list[str]] = {}
    for piece in pattern.pieces:
        for edge, by in let_down_edges(piece):
            found.setdefault((_place(edge), round(by, 3)), []).append(piece.name)
        if tucked := tuck_by(piece):
            found.setdefault(("tuck", round(tucked, 3)), []).append(piece.name)
    return tuple(
        f"{listed(dict.fromkeys(names)).capitalize()}, {place}: {length_text(by, unit)} to be let "
        f"{'out' if place == 'tuck' else 'down'}."
        for (place, by), names in found.items()
    )


def _place(edge: Edge) -> str:
    return str(edge.place) if edge.place else edge.name
