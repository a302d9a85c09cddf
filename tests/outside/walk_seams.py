"""A stranger walks every seam of a pattern.json: what does not go together, crosses itself or lies beside its edge.

Like `stranger.py`, which reads for it, it shares no code with the engine: chords for lengths, shapely for crossings.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import numpy as np
from shapely import LineString, Polygon, polygonize, unary_union

from tests.outside.stranger import Draft, Table

__all__ = ["faults"]

_MEETS = 1.5
"""mm that two runs of a seam may differ by, beyond the ease that is told: what a machine takes up (common practice)."""

_ON_EDGE = 0.05
_FACE = 0.01
"""mm2. A face as small as this comes of drawing curves as chords."""


def faults(draft: Draft) -> list[str]:
    """What is wrong with the pattern, in sentences: crossings, notches off their edges, seams that do not meet."""
    pieces = {piece["name"]: piece for piece in draft.table["pieces"]}
    lengths = {
        (name, edge["edge"]): draft.edge(name, edge["edge"])
        for name, piece in pieces.items()
        for edge in piece["outline"]
    }
    found = [fault for name in pieces for fault in _of_a_piece(draft, name, lengths)]
    for seam in draft.table["seams"]:
        found += _of_a_seam(seam, pieces, lengths)
    return found


def _of_a_piece(draft: Draft, name: str, lengths: dict[tuple[str, str], float]) -> Iterator[str]:
    piece = draft.piece(name)
    outline = np.vstack([draft.points(name, edge["edge"])[:-1] for edge in piece["outline"]])
    if crosses(np.vstack([outline, outline[:1]])):
        yield f"{name}: its sewing line crosses itself"
    elif not Polygon(outline).exterior.is_ccw:
        yield f"{name}: its sewing line runs clockwise"
    for notch in piece["notches"]:
        long = lengths[name, notch["edge"]]
        if not -_ON_EDGE <= notch["at"] <= long + _ON_EDGE:
            yield f"{name}: {notch['name']} lies at {notch['at']:.1f} on an edge of {long:.1f} mm"


def crosses(points: Any) -> bool:
    """Whether a closed line crosses itself: one that does not encloses one face and no more."""
    line = LineString(points)
    return not line.is_simple and sum(face.area > _FACE for face in polygonize([unary_union(line)]).geoms) > 1


def _of_a_seam(seam: Table, pieces: dict[str, Table], lengths: dict[tuple[str, str], float]) -> Iterator[str]:
    ease = seam.get("ease") or {"low": 0.0, "high": 0.0}
    a, b = (sum(lengths[ref["piece"], ref["edge"]] for ref in seam[run]) for run in "ab")
    if not ease["low"] - _MEETS <= a - b <= ease["high"] + _MEETS:
        yield f"{seam['name']}: {a:.1f} to {b:.1f} mm, for {ease['low']:.1f} to {ease['high']:.1f} of ease"
    met = []
    for one, other in seam.get("notches", ()):
        at = [_along(seam[run], each, pieces, lengths) for run, each in (("a", one), ("b", other))]
        at = (
            at
            if None not in at
            else [_along(seam[run], each, pieces, lengths) for run, each in (("a", other), ("b", one))]
        )
        if None in at:
            yield f"{seam['name']}: {one} and {other} are said to meet, and lie on neither run"
            continue
        met.append((float(at[0] or 0.0), float(at[1] or 0.0), one))
    least, most = min(0.0, ease["low"]) - _MEETS, max(0.0, ease["high"]) + _MEETS
    for (a0, b0, before), (a1, b1, after) in pairwise([(0.0, 0.0, "the start"), *sorted(met), (a, b, "the end")]):
        if b1 < b0 - _ON_EDGE or not least <= (a1 - a0) - (b1 - b0) <= most:
            between = f"from {before} to {after} {a1 - a0:.1f} on {b1 - b0:.1f} mm"
            yield f"{seam['name']}: {between}, for {least:.1f} to {most:.1f}"


def _along(
    run: list[Table], called: str, pieces: dict[str, Table], lengths: dict[tuple[str, str], float]
) -> float | None:
    """How far along a run a notch, told as piece/notch, lies from its start; None where it does not."""
    gone = 0.0
    for ref in run:
        long = lengths[ref["piece"], ref["edge"]]
        for notch in pieces[ref["piece"]]["notches"]:
            if called == f"{ref['piece']}/{notch['name']}" and notch["edge"] == ref["edge"]:
                at = notch["at"] if notch.get("from", "start") == "start" else long - notch["at"]
                return gone + (long - at if ref.get("backward") else at)
        gone += long
    return None
