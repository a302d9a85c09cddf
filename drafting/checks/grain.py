"""Does each piece say how it lies on the cloth: a grain line, inside it, along its centre line."""

from __future__ import annotations

import math
from collections.abc import Iterator

from drafting.checks.base import Check, Look, Result, Verdict, look, verdict_on
from drafting.geometry import Line, Point, Vec, run_hits
from drafting.pattern import CENTRES, BodyPart, Grain, Level, Pattern, Piece, Place, Role, line_at

__all__ = ["ALONG", "look_at_grain"]

ALONG = 0.5
"""degrees by which the grain line may lean from the centre line: 5 mm on 60 cm, what can be seen against a woven
stripe (our figure; that centre front and back lie on the lengthwise grain is the trade's rule, Conover 1922)."""

_UNIT = "degrees"


def look_at_grain(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """The grain line of every piece; measured is how many degrees it leans from the fold or the centre line.

    A piece without either (a sleeve) only has to have a grain line inside its outline.
    """
    for piece in pattern.pieces:
        yield look(_grain, piece)


def _grain(check: Check, piece: Piece) -> Iterator[Result]:
    """Measured is by how much the grain line leans from the straight edge beside it, degrees."""
    if piece.grain is None:
        remedy = "It has no grain line: draw one along the lengthwise grain."
        yield check.result(piece.name, Verdict.FAIL, unit=_UNIT, remedy=remedy)
        return
    lean, beside = _greatest_lean(piece, piece.grain)
    inside = all(_inside(piece, end) for end in (piece.grain.start, piece.grain.end))
    remedies = []
    if lean is not None and lean > ALONG:
        remedies.append(f"The grain line leans {lean:.1f} degrees from the {beside}: draw it parallel.")
    if not inside:
        remedies.append("The grain line runs out of the piece: move it inside.")
    yield check.result(
        piece.name,
        verdict_on(lean or 0.0, passing=ALONG) if inside else Verdict.FAIL,
        measured=lean,
        wanted=None if lean is None else 0.0,
        allowed=None if lean is None else ALONG,
        unit=_UNIT,
        remedy=" ".join(remedies),
    )


def _greatest_lean(piece: Piece, grain: Grain) -> tuple[float | None, str]:
    along = grain.end - grain.start
    crease = line_at(piece, Level.CREASE)
    if crease is not None:  # a leg hangs by its crease; the centres lean to the waist
        return _lean(along, crease.end - crease.start), crease.name
    if piece.identity.part is BodyPart.TROUSERS and not any(edge.role is Role.FOLD for edge in piece.edges):
        return None, ""
    leans = [(_lean(along, line.end - line.start), name) for line, name in _straight_centres(piece)]
    return max(leans, default=(None, ""))


def _straight_centres(piece: Piece) -> Iterator[tuple[Line, str]]:
    """What of a piece has to lie on the grain: each whole fold, else the longest straight of each centre line.

    A centre seam may be shaped in at the waist, where a zip lies straight in it; its longest straight is on the grain.
    """
    centres: dict[Place, list[tuple[float, Line, str]]] = {}
    for edge in piece.edges:
        if edge.role is Role.FOLD:
            yield Line(edge.start, edge.end), edge.name
        elif edge.role is not Role.DART_LEG and edge.place in CENTRES:
            lines = (curve for curve in edge.curves if isinstance(curve, Line))
            found = [((line.end - line.start).norm(), line, edge.name) for line in lines]
            centres.setdefault(edge.place, []).extend(found)
    for found in centres.values():
        if found:
            _, line, name = max(found, key=lambda each: each[0])
            yield line, name


def _lean(one: Vec, other: Vec) -> float:
    return math.degrees(math.atan2(abs(one.cross(other)), abs(one.dot(other))))


def _inside(piece: Piece, point: Point) -> bool:
    """Whether a point lies inside the outline: a line through it leaves the outline an odd number of times ahead."""
    # a slant that no drawn edge has, so that it neither runs along one nor through a corner
    hits = run_hits(piece.outline, point, Vec(0.8191, 0.5736))
    return sum(hit.along > 0.0 for _, hit in hits) % 2 == 1
