"""Tucks that are sewn last and let out later: each in a step of its own, round a sleeve or a body that is closed."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.pattern import Pattern, line_at
from drafting.pattern.let_down import tuck_by
from drafting.pattern.places import BodyPart, Level
from drafting.sewing.sewing_step import Act, SewingStep

__all__ = ["tuck_steps"]


def tuck_steps(pattern: Pattern) -> Iterator[SewingStep]:
    """A step for the tuck of each part of the body; its depth is the cloth that the tuck takes up, mm."""
    found: dict[BodyPart | None, list[str]] = {}
    for piece in pattern.pieces:
        if line_at(piece, Level.TUCK) is not None:
            found.setdefault(piece.identity.part, []).append(piece.name)
    for part, names in found.items():
        depth = tuck_by(pattern.piece(names[0]))
        yield SewingStep(Act.TUCK, part=part, pieces=tuple(names), depth=depth, in_the_round=True)
