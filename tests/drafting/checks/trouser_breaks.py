"""Ways to break sound trousers, each in one respect."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from drafting.geometry import Cubic, Line, Vec
from drafting.pattern import Level, Pattern, Place, edges_at, with_edges, with_pieces

FRONT, BACK = "trousers front", "trousers back"
Break = Callable[[Pattern], Pattern]


def crotch_hooked(pattern: Pattern) -> Pattern:
    """The back's crotch led below the end of its fork before it comes up to it."""
    piece = pattern.piece(BACK)
    (crotch,) = edges_at(piece, Place.CROTCH)
    curve = crotch.curves[-1]
    assert isinstance(curve, Cubic)
    dipped = replace(curve, c2=curve.c2 + Vec(0.0, -50.0))
    return with_pieces(pattern, with_edges(piece, replace(crotch, curves=(*crotch.curves[:-1], dipped))))


def crease_aside(pattern: Pattern) -> Pattern:
    """The crease of the front 3 cm off the middle of the leg."""
    piece = pattern.piece(FRONT)
    step = Vec(30.0, 0.0)
    lines = [
        replace(line, start=line.start + step, end=line.end + step) if line.level is Level.CREASE else line
        for line in piece.lines
    ]
    return with_pieces(pattern, replace(piece, lines=tuple(lines)))


def foot_too_large(pattern: Pattern) -> Pattern:
    """A wearer whose foot does not go through the hem."""
    lengths = [replace(each, mm=420.0) if each.key == "ankle_girth" else each for each in pattern.wearer.lengths]
    return replace(pattern, wearer=replace(pattern.wearer, lengths=tuple(lengths)))


def inseam_short(pattern: Pattern) -> Pattern:
    """The back cut off at its hem by 2 cm, both seams of the leg."""
    piece = pattern.piece(BACK)
    (hem,), (inseam,) = edges_at(piece, Place.HEM), edges_at(piece, Place.INSEAM)
    side = edges_at(piece, Place.SIDE)[0]
    up = Vec(0.0, 20.0)
    hem_ = replace(hem, curves=(Line(hem.start + up, hem.end + up),))
    inner = replace(inseam, curves=(*inseam.curves[:-1], Line(inseam.curves[-1].start, hem.start + up)))
    outer = replace(side, curves=(Line(hem.end + up, side.curves[0].end), *side.curves[1:]))
    return with_pieces(pattern, with_edges(piece, hem_, inner, outer))


def body_longer(pattern: Pattern) -> Pattern:
    """A back that is 6 cm longer than the bodice was drafted for."""
    grown = [
        replace(each, body=(each.body or 0.0) + 60.0) if each.key == "back_waist_length" else each
        for each in pattern.measures
    ]
    return replace(pattern, measures=tuple(grown))


BREAKS: Final[tuple[tuple[str, Break], ...]] = (
    ("crotch-curve", crotch_hooked),
    ("crease-middle", crease_aside),
    ("leg-room", foot_too_large),
    ("inseams-meet", inseam_short),
    ("body-length", body_longer),
)
