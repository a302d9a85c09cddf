"""The pieces as they lie on the table: lines, edges to point at, and the state before the last change under them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from output.api import Draft
from output.api.asking import EdgeLength, SewnTo, edges
from output.api.screen_lines import PieceLines, piece_folded, piece_lines
from output.api.wording import length_text
from output.page.views.data import Data
from output.page.views.shown import Shown

__all__ = ["folded", "lines_of", "pieces"]

_ALONE: Final = {
    "fold": "on the fold of the cloth",
    "hem": "turned up for the hem",
    "opening": "left open, to be fastened",
    "dart leg": "sewn to the other leg of the dart",
    "seam": "sewn to nothing yet",
}
"""What is done with an edge that is in no seam, by its role."""


def pieces(shown: Shown) -> Iterator[tuple[str, Data]]:
    """A part "piece NAME" for each piece. Path data is in mm, y down, in the piece's own place.

    name:    what it is called; cut: how many are cut, in words; cut_short: the same in few words
    box:     left, top, width, height of all that is drawn, of the state before as well
    outline: where it is cut, closed; lines: the other lines, by kind
    before:  its outline before the last change, "" where that was the same; new: whether it was not there before
    edges:   name, d, length, sewn (in words), seams (their names), fails (whether a check of that seam failed)
    notches: x, y, number
    darts:   whether it has any that can be folded
    """
    rows = edges(shown.draft)
    bad = _failing_seams(shown)
    was = {piece.name for piece in shown.before.pieces} if shown.before else set()
    for piece in shown.draft.pieces:
        now = lines_of(shown, piece.name)
        before = piece_lines(shown.before, piece.name) if shown.before and piece.name in was else None
        own = [each for each in rows if each.piece == piece.name]
        yield f"piece {piece.name}", _piece(now, before, own, bad, shown) | {"new": bool(was) and before is None}


def lines_of(shown: Shown, name: str) -> PieceLines:
    """The lines of a piece, those of the state before where it has not changed since."""
    return piece_lines(shown.draft, name, after=shown.before)


def _piece(
    now: PieceLines, before: PieceLines | None, own: list[EdgeLength], bad: frozenset[str], shown: Shown
) -> Data:
    """A piece as data for the page, with what it was before where it moved."""
    moved = before is not None and before.outline != now.outline
    return {
        "name": now.name,
        "cut": " ".join(now.cut),
        "cut_short": now.cut_short,
        "box": _around(now, before if moved else None),
        "outline": now.outline,
        "lines": dict(now.lines),
        "before": before.outline if before is not None and moved else "",
        "edges": [_edge(each, now.edges, bad, shown.unit) for each in own],
        "notches": [{"x": notch.x, "y": notch.y, "number": notch.number} for notch in now.notches],
        "darts": any(each.role == "dart leg" for each in own),
    }


def _around(now: PieceLines, before: PieceLines | None) -> list[float]:
    boxes = [each.box for each in (now, before) if each is not None]
    left, top = min(box[0] for box in boxes), min(box[1] for box in boxes)
    right, bottom = max(box[0] + box[2] for box in boxes), max(box[1] + box[3] for box in boxes)
    return [round(each, 2) for each in (left, top, right - left, bottom - top)]


def _edge(each: EdgeLength, drawn: Mapping[str, str], bad: frozenset[str], unit: str) -> Data:
    return {
        "name": each.edge,
        "d": drawn[each.edge],
        "length": length_text(each.length, unit),
        "sewn": "; ".join(sewn_words(each, sewn, unit) for sewn in each.sewn) or _ALONE[each.role],
        "seams": [sewn.seam for sewn in each.sewn],
        "fails": any(sewn.seam in bad for sewn in each.sewn),
    }


def sewn_words(each: EdgeLength, sewn: SewnTo, unit: str) -> str:
    """What an edge is sewn to and what is eased or gathered in there: "sewn to the bodice front, 1.0 cm eased in"."""
    others = [name for name in sewn.pieces if name != each.piece]
    to = f"sewn to the {' and the '.join(others)}" if others else "sewn to another edge of this piece"
    more = sewn.own - sewn.other
    if not sewn.held:
        return to
    if more > 0.0:
        return f"{to}, {length_text(more, unit)} {sewn.held} in"
    return f"{to}, of which {length_text(-more, unit)} is {sewn.held} in"


def _failing_seams(shown: Shown) -> frozenset[str]:
    """The seams whose length does not agree."""
    names = {seam.name for seam in shown.draft.pattern.seams}
    return frozenset(each.where for each in shown.checks.faults if each.verdict == "fail" and each.where in names)


def folded(drafted: Draft, name: str) -> Data:
    """One piece with its darts folded away: outline, lines by kind, box. Raises UnknownName."""
    shape = piece_folded(drafted, name)
    return {"name": name, "outline": shape.outline, "lines": dict(shape.lines), "box": list(shape.box)}
