"""Ways to break a sound pattern for a hand: one that does not pass, one that has nothing to gather by."""

from __future__ import annotations

from dataclasses import replace

from drafting.pattern import BodyLength, NotchRef, Pattern


def wrist_of(pattern: Pattern, mm: float) -> Pattern:
    """A wearer with such a wrist, whatever the sleeve was drafted for."""
    others = [each for each in pattern.wearer.lengths if each.key != "wrist_girth"]
    lengths = (*others, BodyLength("wrist_girth", mm, "measured"))
    return replace(pattern, wearer=replace(pattern.wearer, lengths=lengths))


def seam_unmarked(pattern: Pattern, name: str) -> Pattern:
    """A seam without its notches, and whatever else meets them."""
    gone = {mark for pair in pattern.seam(name).notches for mark in pair}
    pieces = [
        replace(piece, notches=tuple(n for n in piece.notches if NotchRef(piece.name, n.name) not in gone))
        for piece in pattern.pieces
    ]
    seams = [
        replace(seam, notches=tuple(pair for pair in seam.notches if gone.isdisjoint(pair))) for seam in pattern.seams
    ]
    return replace(pattern, pieces=tuple(pieces), seams=tuple(seams))
