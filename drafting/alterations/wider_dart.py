"""Darts made wider or narrower about their points, so that the seam line they lie in is shorter or longer when sewn.

The legs are turned about the dart's point, both by the same, so they stay equal; the seam line is drawn anew into each
end of the mouth, arriving turned by as much as the leg, so that it still runs on without a corner when the dart is
folded (common practice: fold the dart, redraw the line across it, unfold).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.sides import led_to
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Curve, Move, moved_all, run_hits, run_reversed, turn
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import SAME_PLACE, SOLVED
from drafting.pattern import Dart, Edge, MarkLine, Piece, closed, dart_angle, dart_width

__all__ = ["accept_darts_short_of", "waist_taken_in"]

_LEAST_DART: Final = 4.0
"""mm. A dart narrower than this is not worth sewing (our figure): it is eased in or left out."""

_LEAST_PART: Final = 12.0
"""mm of seam line that must be left on either side of a dart (our figure)."""


def accept_darts_short_of(step: str, piece: Piece, mark: MarkLine) -> None:
    """Raise StepRefused where a waist dart reaches over a line at which the piece is to stay as wide as it is."""
    for dart in _waist_darts(piece):
        legs = [curve for leg in dart.legs for curve in piece.edge(leg).curves]
        across = [hit.along for _, hit in run_hits(legs, mark.start, mark.end - mark.start)]
        if across and max(across) - min(across) > SAME_PLACE:
            raise StepRefused(
                step,
                f'"{dart.name}" of "{piece.name}" reaches over the {mark.name}, which would become narrower with it; '
                'let the side seams take all of it: darts = "0 %"',
            )


def waist_taken_in(step: str, piece: Piece, by: float) -> Piece:
    """The piece with its waist shorter by exactly `by` mm (longer, below nought), its waist darts sharing it alike.

    Raises StepRefused where it has no waist dart, where one would vanish, or where they would meet.
    """
    darts = _waist_darts(piece)
    if not darts:
        raise StepRefused(
            step, f'"{piece.name}" has no dart at its waist; let the side seams take all of it there: darts = "0 %"'
        )
    room = sum(max(0.0, dart_width(piece, dart) - _LEAST_DART) for dart in darts)
    if -by > room:
        raise StepRefused(
            step,
            f'the waist darts of "{piece.name}" can give {room:.0f} mm, and they are to give {-by:.0f}; let the side '
            "seams give more of it",
        )
    parts = _parts(piece, darts)
    before = _total({edge.name: edge for edge in piece.edges}, parts)

    def surplus(angle: float) -> float:
        return before - _total(_opened(piece, darts, angle), parts) - by

    reach = sum(piece.edge(dart.legs[0]).length for dart in darts)
    try:
        angle = solve(surplus, by / reach, 0.01 * by / reach)
        opened = _opened(piece, darts, angle)
        made = replace(piece, edges=closed(piece.name, tuple(opened[edge.name] for edge in piece.edges)))
    except NotAPattern as error:
        raise StepRefused(step, f'the waist darts of "{piece.name}" cannot take {by:.0f} mm: {error.reason}') from error
    for dart in darts:
        if dart_angle(piece, dart) + angle <= 0.0:
            raise StepRefused(step, f'"{dart.name}" of "{piece.name}" would vanish; let the side seams give more')
    for part in parts:
        if made.edge(part).length < _LEAST_PART:
            raise StepRefused(
                step,
                f'taken in by {by:.0f} mm at its darts, "{piece.name}" would have only {made.edge(part).length:.0f} mm '
                f'left at "{part}"; let the side seams take more of it',
            )
    return made


def _waist_darts(piece: Piece) -> tuple[Dart, ...]:
    return tuple(dart for dart in piece.darts if any(name.startswith("waist") for name in _parts(piece, (dart,))))


def _parts(piece: Piece, darts: Sequence[Dart]) -> tuple[str, ...]:
    """The edges on either side of the mouths of darts, each once."""
    edges, found = piece.edges, dict[str, None]()
    for dart in darts:
        at = next(k for k, edge in enumerate(edges) if edge.name == dart.legs[0])
        found.update({edges[at - 1].name: None, edges[(at + 2) % len(edges)].name: None})
    return tuple(found)


def _total(edges: Mapping[str, Edge], parts: Sequence[str]) -> float:
    return sum(edges[part].length_within(SOLVED / 10) for part in parts)


def _opened(piece: Piece, darts: Sequence[Dart], angle: float) -> dict[str, Edge]:
    """The edges of a piece with each dart opened by a further `angle`, radians."""
    edges = {edge.name: edge for edge in piece.edges}
    order = [edge.name for edge in piece.edges]
    for dart in darts:
        into, out = dart.legs
        at = order.index(into)
        before, after = edges[order[at - 1]], edges[order[(at + 2) % len(order)]]
        back, on = turn(dart.apex, -0.5 * angle), turn(dart.apex, 0.5 * angle)
        edges[into] = _turned(edges[into], back, dart, apex_last=True)
        edges[out] = _turned(edges[out], on, dart, apex_last=False)
        last = led_to(before.curves[-1], edges[into].start, -0.5 * angle)
        edges[before.name] = replace(before, curves=(*before.curves[:-1], last))
        first = run_reversed((led_to(run_reversed(after.curves)[-1], edges[out].end, 0.5 * angle),))
        edges[after.name] = replace(after, curves=(*first, *after.curves[1:]))
    return edges


def _turned(leg: Edge, move: Move, dart: Dart, *, apex_last: bool) -> Edge:
    """A leg turned about the dart's point, which stays where it is to the last digit."""
    curves = list[Curve](moved_all(leg.curves, move))
    if apex_last:
        curves[-1] = replace(curves[-1], end=dart.apex)
    else:
        curves[0] = replace(curves[0], start=dart.apex)
    return replace(leg, curves=tuple(curves))
