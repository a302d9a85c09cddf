"""What a check of a seam looks at: the pieces that the seam joins, and the steps that altered only one of them.

Where such a seam fails, such a step is the likely cause, and the remedy says how the other side can follow.
"""

from __future__ import annotations

from itertools import chain

from drafting.checks.base import OneSided
from drafting.pattern import Pattern, Piece, Place, Seam, Step, seam_places

__all__ = ["one_sided", "pieces_and_steps", "seam_parts"]

_ONLY = "only"  # the option as it stands in a history: checks read what was done, and know no alteration


def seam_parts(pattern: Pattern, seam: Seam) -> tuple[Piece | Step, ...]:
    """The pieces that a seam joins, and the steps that altered one of them without the other."""
    pieces = (pattern.piece(name) for name in dict.fromkeys(ref.piece for ref in chain(seam.a, seam.b)))
    held = [step for step in pattern.history if _piece_across(seam, step) and not _has_followed(pattern, seam, step)]
    if held and Place.CAP in frozenset().union(*seam_places(pattern, seam)):
        return tuple(pieces)  # a cap has an alteration of its own that draws it to its armhole
    return (*pieces, *held)


def pieces_and_steps(parts: tuple[Piece | Step, ...]) -> tuple[tuple[Piece, ...], tuple[Step, ...]]:
    """The pieces and the steps apart."""
    pieces = tuple(each for each in parts if isinstance(each, Piece))
    return pieces, tuple(each for each in parts if isinstance(each, Step))


def one_sided(seam: Seam, held: tuple[Step, ...]) -> tuple[OneSided, ...]:
    """What was held to one side of a seam."""
    return tuple(OneSided(step.alter, _held_to_piece(step), _piece_across(seam, step)) for step in held)


def _held_to_piece(step: Step) -> str:
    return str(dict(step.options).get(_ONLY) or "")


def _piece_across(seam: Seam, step: Step) -> str:
    """A piece on the other side of the seam from the piece that a step altered; "" where the step altered neither."""
    held = _held_to_piece(step)
    if not held:
        return ""
    for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
        if any(ref.piece == held for ref in run):
            return next((ref.piece for ref in other if ref.piece != held), "")
    return ""


def _has_followed(pattern: Pattern, seam: Seam, step: Step) -> bool:
    """Whether a step like it was held to another piece of the seam."""
    pieces = {ref.piece for ref in chain(seam.a, seam.b)} - {_held_to_piece(step)}
    return any(
        each.alter == step.alter and _held_to_piece(each) in pieces and _without_only(each) == _without_only(step)
        for each in pattern.history
    )


def _without_only(step: Step) -> dict[str, object]:
    return {option: value for option, value in step.options if option != _ONLY}
