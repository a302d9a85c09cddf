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
    met: list[tuple[float, float, str]] = []
    marks: list[tuple[str, str]] = []
    for pair in seam.get("notches", ()):
        ways = (pair, pair[::-1])
        told = ((way, [_along(seam[run], way[k], pieces, lengths) for k, run in enumerate("ab")]) for way in ways)
        way, at = next((each for each in told if None not in each[1]), (pair, [None]))
        if None in at:
            yield f"{seam['name']}: {pair[0]} and {pair[1]} are said to meet, and lie on neither run"
            continue
        met.append((float(at[0] or 0.0), float(at[1] or 0.0), f"{pair[0]}"))
        marks.append((f"{way[0]}", f"{way[1]}"))
    # a stretch whose ends both meet one mark is drawn up to it before the rest is laid together
    up_a, up_b = (
        _drawn_up([each[side] for each in met], [pair[1 - side] for pair in marks], [pair[side] for pair in marks])
        for side in (0, 1)
    )
    walked = sorted((round(_left(up_a, at), 2), round(_left(up_b, to), 2), one) for at, to, one in met)
    a, b, shorter = _left(up_a, a), _left(up_b, b), _left(up_a, a) - a - (_left(up_b, b) - b)
    least, most = min(0.0, ease["low"] + shorter) - _MEETS, max(0.0, ease["high"] + shorter) + _MEETS
    for (a0, b0, before), (a1, b1, after) in pairwise([(0.0, 0.0, "the start"), *walked, (a, b, "the end")]):
        if b1 < b0 - _ON_EDGE or not least <= (a1 - a0) - (b1 - b0) <= most:
            between = f"from {before} to {after} {a1 - a0:.1f} on {b1 - b0:.1f} mm"
            yield f"{seam['name']}: {between}, for {least:.1f} to {most:.1f}"


def _drawn_up(at: list[float], partners: list[str], own: list[str]) -> list[tuple[float, float]]:
    """The stretches of a run of which both ends, two marks of it, meet one mark of the other run: from and to, mm."""
    found: dict[str, dict[str, float]] = {}
    for mm, partner, mark in zip(at, partners, own, strict=True):
        found.setdefault(partner, {})[mark] = mm
    return [(min(ends.values()), max(ends.values())) for ends in found.values() if len(ends) > 1]


def _left(drawn_up: list[tuple[float, float]], at: float) -> float:
    """How far along a run a place lies when these stretches of it are drawn up to nothing, mm."""
    return at - sum(max(0.0, min(at, end) - start) for start, end in drawn_up)


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
