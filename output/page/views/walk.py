"""The seams that can be walked, and one of them walked: one edge laid on the other and rolled along it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from output.api import Draft
from output.api.asking import SewnTo, edges
from output.api.screen_lines import LaidEdge, SeamFrame, SeamFrames, piece_lines, seam_frames
from output.api.wording import length_text
from output.page.views.data import Data
from output.page.views.shown import Shown

__all__ = ["walk", "walked"]

_SHOWS: Final = 0.5
"""mm that a length in centimetres shows."""


def walk(shown: Shown) -> Data:
    """The seams in the order of sewing: name, a and b (the pieces of both sides), words (how long, eased in)."""
    found: dict[str, list[tuple[str, SewnTo]]] = {}
    for each in edges(shown.draft):
        for sewn in each.sewn:
            found.setdefault(sewn.seam, []).append((each.piece, sewn))
    seams = []
    for seam in shown.draft.pattern.seams:
        a, b = (" and ".join(dict.fromkeys(ref.piece for ref in run)) for run in (seam.a, seam.b))
        sewn = max((each for _, each in found[seam.name]), key=lambda each: each.own)
        seams.append({"name": seam.name, "a": a, "b": b, "words": _lengths(sewn, shown.unit)})
    return {"seams": seams}


def _lengths(sewn: SewnTo, unit: str) -> str:
    own, other = length_text(sewn.own, unit), length_text(sewn.other, unit)
    if not sewn.held:
        return f"{own} on both pieces"
    return f"{own} on {other}: {length_text(sewn.own - sewn.other, unit)} {sewn.held} in"


def walked(drafted: Draft, seam: str) -> Data:
    """A seam walked. Raises UnknownName for one that is not there.

    a, b:   the pieces of each side (name, matrix, outline, sewing line, darts) and its edges (piece, d, begins, length)
    frames: for each place of the walk the matrix that lays side a on side b, the place, how far along each side in mm,
            what is said there, and whether two notches meet in it
    """
    found = seam_frames(drafted, seam)
    unit = drafted.unit
    return {
        "seam": seam,
        "a": _side(drafted, found.a, found.laid_a),
        "b": _side(drafted, found.b, found.laid_b),
        "frames": [
            {
                "m": list(frame.matrix),
                "x": frame.x,
                "y": frame.y,
                "a": round(frame.along_a, 3),
                "b": round(frame.along_b, 3),
                "meets": all(frame.marks),
                "words": _walk_sentence(found, frame, unit),
            }
            for frame in found.frames
        ],
        "left": _left(found, unit),
    }


def _side(drafted: Draft, run: tuple[LaidEdge, ...], laid: Mapping[str, tuple[float, ...]]) -> Data:
    """One side of a seam that is walked, as data: its pieces, where each lies, and its edges."""
    shapes = []
    for name in dict.fromkeys(edge.piece for edge in run):
        lines = piece_lines(drafted, name)
        shapes.append(
            {
                "name": name,
                "m": list(laid[name]),
                "outline": lines.outline,
                "sewing": lines.lines.get("sewing line", ""),
                "darts": lines.lines.get("dart leg", ""),
                "notches": lines.lines.get("notch", ""),
                "box": list(lines.box),
            }
        )
    return {
        "pieces": shapes,
        "edges": [
            {"piece": edge.piece, "d": edge.path, "begins": round(edge.begins, 3), "length": round(edge.length, 3)}
            for edge in run
        ],
    }


def _walk_sentence(found: SeamFrames, frame: SeamFrame, unit: str) -> str:
    """In words: where the walk along a seam is, and what meets what there."""
    one, other = found.a[0].piece, found.b[0].piece
    names = ("the one edge", "the other") if one == other else (f"the {one}", f"the {other}")
    if frame is found.frames[0]:
        return f"Here {names[0]} and {names[1]} begin together."
    where = f"{length_text(frame.along_a, unit)} along {names[0]}, {length_text(frame.along_b, unit)} along {names[1]}"
    more = abs(frame.along_a - frame.along_b)
    held = "" if more < _SHOWS else f": {length_text(more, unit)} taken in so far"
    mark, there = frame.marks
    if mark and there:
        met = f"The {mark} meets the {there}" if mark != there else f"Both {mark}es meet"
        return f"{met}, {where}{held}."
    if mark or there:
        return f"The {mark or there} meets nothing here: {where}{held}."
    ends = " Both end together." if frame is found.frames[-1] and not _left(found, unit) else ""
    return f"{where[0].upper()}{where[1:]}{held}.{ends}"


def _left(found: SeamFrames, unit: str) -> str:
    """What is left over where the shorter edge ends; "" where both end together."""
    last = found.frames[-1]
    for along, run in ((last.along_a, found.a), (last.along_b, found.b)):
        more = run[-1].begins + run[-1].length - along
        if more >= _SHOWS:
            return f"{length_text(more, unit)} of the {run[-1].piece} is left over at the end."
    return ""
