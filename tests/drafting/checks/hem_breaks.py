"""Ways to break the hems of a sound pattern, each in one respect."""

from __future__ import annotations

from dataclasses import replace

from drafting.geometry import Vec
from drafting.geometry.offset import parallel_run
from drafting.pattern import Level, MarkLine, Pattern, Role, with_edges, with_pieces
from tests.drafting.checks.breaks import redrawn


def hem_deeper(pattern: Pattern) -> Pattern:
    """The hem of the back turned up deeper than that of the front."""
    piece = pattern.piece("back")
    hems = (edge.with_allowance(34.0) for edge in piece.edges if edge.role is Role.HEM)
    return with_pieces(pattern, with_edges(piece, *hems))


def let_down_in_front_only(pattern: Pattern) -> Pattern:
    """A line in the hem of the front to let it down to, and none in that of the back."""
    piece = pattern.piece("front")
    lines = []
    for hem in (edge for edge in piece.edges if edge.role is Role.HEM):
        run = parallel_run(hem.curves, 15.0)
        lines.append(MarkLine(f"let down {hem.name}", run[0].start, run[-1].end, run, Level.LET_DOWN))
    return with_pieces(pattern, replace(piece, lines=(*piece.lines, *lines)))


def hem_peaked_at_the_side(pattern: Pattern) -> Pattern:
    return redrawn(pattern, "front", "hem, side part", Vec(170.0, 10.0), Vec(200.0, 30.0))
