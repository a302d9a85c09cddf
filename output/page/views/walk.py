"""The seams that can be walked, and one of them walked: one edge laid on the other and rolled along it."""

from __future__ import annotations

from output.api import Draft
from output.api.asking import SewnTo, edges
from output.api.drawn import LaidEdge, SeamFrames, piece_lines, seam_frames
from output.api.wording import length_text
from output.page.views.data import Data
from output.page.views.shown import Shown

__all__ = ["walk", "walked"]


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
    ends = [run[-1].begins + run[-1].length for run in (found.a, found.b)]
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
                "words": _said(found, frame.along_a, frame.along_b, frame.marks, unit),
            }
            for frame in found.frames
        ],
        "left": _left(found, ends, unit),
    }


def _side(drafted: Draft, run: tuple[LaidEdge, ...], laid: object) -> Data:
    matrices = dict(laid)  # type: ignore[call-overload]
    shapes = []
    for name in dict.fromkeys(edge.piece for edge in run):
        lines = piece_lines(drafted, name)
        shapes.append(
            {
                "name": name,
                "m": list(matrices[name]),
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


def _said(found: SeamFrames, a: float, b: float, marks: tuple[str, str], unit: str) -> str:
    one, other = found.a[0].piece, found.b[0].piece
    names = ("the one edge", "the other") if one == other else (f"the {one}", f"the {other}")
    where = f"{length_text(a, unit)} along {names[0]}, {length_text(b, unit)} along {names[1]}"
    more = a - b
    held = "" if abs(more) < 0.05 else f": {length_text(abs(more), unit)} taken in so far"
    if all(marks):
        met = f"The {marks[0]} meets the {marks[1]}" if marks[0] != marks[1] else f"Both {marks[0]}es meet"
        return f"{met}, {where}{held}."
    alone = next((mark for mark in marks if mark), "")
    if alone:
        return f"The {alone} meets nothing here: {where}{held}."
    return f"{where[0].upper()}{where[1:]}{held}."


def _left(found: SeamFrames, ends: list[float], unit: str) -> str:
    """What is left over where the shorter edge ends; "" where both end together."""
    last = found.frames[-1]
    over = ends[0] - last.along_a, ends[1] - last.along_b
    for more, run in zip(over, (found.a, found.b), strict=True):
        if more >= 0.05:
            return f"{length_text(more, unit)} of the {run[-1].piece} is left over at the end."
    return ""
