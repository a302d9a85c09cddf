"""Darts made wider or narrower about their points, so that the seam line they lie in is shorter or longer when sewn.

The legs are turned about the dart's point, both by the same, so they stay equal; the seam line is redrawn into each
end of the mouth, arriving turned by as much as the leg, so that it still runs on without a corner when the dart is
folded (common practice: fold the dart, redraw the line across it, unfold).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.refusing import instead, refusing
from drafting.alterations.techniques.sides.move_sides import curve_to_new_end
from drafting.errors import StepRefused
from drafting.geometry import Curve, moved_all, reverse, run_hits, run_length, turn
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import SAME_PLACE, SOLVED
from drafting.pattern import Dart, MarkLine, Piece, Place, dart_angle, dart_width, darts_at, with_edges

__all__ = ["accept_darts_short_of", "waist_taken_in"]

_LEAST_DART: Final = 4.0
"""mm. A dart narrower than this is not worth sewing (our figure): it is eased in or left out."""

_LEAST_PART: Final = 12.0
"""mm of seam line that must be left on either side of a dart (our figure)."""


def accept_darts_short_of(step: str, piece: Piece, mark: MarkLine) -> None:
    """Raise StepRefused where a waist dart reaches over a line at which the piece is to stay as wide as it is."""
    for dart in darts_at(piece, Place.WAIST):
        legs = [curve for leg in dart.legs for curve in piece.edge(leg).curves]
        across = [hit.along for _, hit in run_hits(legs, mark.start, mark.end - mark.start)]
        if across and max(across) - min(across) > SAME_PLACE:
            raise StepRefused(
                step,
                reason=f'"{dart.name}" of "{piece.name}" reaches over the {mark.name}, which would become narrower '
                "with it; "
                "let the side seams take all of it",
                remedies=instead(step, "darts", 0.0, "%"),
            )


def waist_taken_in(step: str, piece: Piece, by: float) -> Piece:
    """The piece with its waist shorter by exactly `by` mm (longer, below zero), its waist darts sharing it alike.

    Raises StepRefused where it has no waist dart, where one would vanish, or where they would meet.
    """
    darts = darts_at(piece, Place.WAIST)
    if not darts:
        reason = f'"{piece.name}" has no dart at its waist; let the side seams take all of it there'
        raise StepRefused(step, reason=reason, remedies=instead(step, "darts", 0.0, "%"))
    room = sum(max(0.0, dart_width(piece, dart) - _LEAST_DART) for dart in darts)
    if -by > room:
        raise StepRefused(
            step,
            reason=f'the waist darts of "{piece.name}" can give {room:.0f} mm, and they are to give {-by:.0f} mm; '
            "let the "
            "side seams give more of it",
        )
    parts = _parts(piece, darts)
    before = _total(_runs(piece), parts)

    def surplus(angle: float) -> float:
        return before - _total(_opened(piece, darts, angle), parts) - by

    reach = sum(piece.edge(dart.legs[0]).length for dart in darts)
    cannot = f'the waist darts of "{piece.name}" cannot take {by:.0f} mm'
    with refusing(step, lambda error: f"{cannot}: {error.reason}"):
        angle = solve(surplus, by / reach, 0.01 * by / reach)
        runs = _opened(piece, darts, angle)
        made = with_edges(
            piece, *(replace(e, curves=runs[e.name]) for e in piece.edges if runs[e.name] is not e.curves)
        )
    for dart in darts:
        if dart_angle(piece, dart) + angle <= 0.0:
            raise StepRefused(
                step, reason=f'"{dart.name}" of "{piece.name}" would vanish; let the side seams give more'
            )
    for part in parts:
        if made.edge(part).length < _LEAST_PART:
            raise StepRefused(
                step,
                reason=f'taken in by {by:.0f} mm at its darts, "{piece.name}" would have only '
                f'{made.edge(part).length:.0f} mm left at "{part}"; let the side seams take more of it',
            )
    return made


def _parts(piece: Piece, darts: Sequence[Dart]) -> tuple[str, ...]:
    """The edges on either side of the mouths of darts, each once."""
    return tuple(dict.fromkeys(edge.name for dart in darts for edge in piece.beside_dart(dart)))


def _total(runs: Mapping[str, tuple[Curve, ...]], parts: Sequence[str]) -> float:
    return sum(run_length(runs[part], SOLVED / 10) for part in parts)


def _runs(piece: Piece) -> dict[str, tuple[Curve, ...]]:
    return {edge.name: edge.curves for edge in piece.edges}


def _opened(piece: Piece, darts: Sequence[Dart], angle: float) -> dict[str, tuple[Curve, ...]]:
    """The curves of each edge of a piece with each dart opened by a further `angle`, radians."""
    runs = _runs(piece)
    order = list(runs)
    for dart in darts:
        into, out = dart.legs
        at = order.index(into)
        before, after = order[at - 1], order[(at + 2) % len(order)]
        # the legs turn about the dart's point, which stays where it is to the last digit
        *first, last = moved_all(runs[into], turn(dart.apex, -0.5 * angle))
        runs[into] = (*first, replace(last, end=dart.apex))
        head, *rest = moved_all(runs[out], turn(dart.apex, 0.5 * angle))
        runs[out] = (replace(head, start=dart.apex), *rest)
        arriving = curve_to_new_end(runs[before][-1], runs[into][0].start, -0.5 * angle)
        runs[before] = (*runs[before][:-1], arriving)
        leaving = reverse(curve_to_new_end(reverse(runs[after][0]), runs[out][-1].end, 0.5 * angle))
        runs[after] = (leaving, *runs[after][1:])
    return runs
