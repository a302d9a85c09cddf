r"""The pleat at the centre back of a lining, which lets it give where the back bends: cloth added beyond its fold.

neck ___                neck ___---.      the ends of the pleat are folded in: neck and waist are as long as
|   \                   |   \   |      those of the shell
fold |          ->      was   |       | fold
|______                  |_______|
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from drafting.geometry import Line, Point
from drafting.pattern import BodyPart, Edge, Level, MarkLine, Piece, Place, Role, closed, free_name

__all__ = ["with_back_pleat"]

_LINE: Final = "the pleat is folded to here"


def with_back_pleat(lining: Piece, deep: float) -> Piece:
    """The lining of a back of the bodice with a pleat so deep at its fold, mm; any other as it was."""
    fold = next((e for e in lining.edges if e.role is Role.FOLD and e.place is Place.CENTRE_BACK), None)
    if fold is None or lining.identity.part is not BodyPart.BODICE:
        return lining
    out = (fold.end - fold.start).unit().right() * deep
    before, after = lining.beside(fold.name)
    start, end = fold.start + out, fold.end + out
    names = [edge.name for edge in lining.edges]
    edges: list[Edge] = []
    for edge in lining.edges:
        if edge is fold:
            edges += [
                _end(names, before, fold.start, start),
                replace(fold, curves=(Line(start, end),)),
                _end(names, after, end, fold.end),
            ]
        else:
            edges.append(edge)
    line = MarkLine(_LINE, fold.start, fold.end, level=Level.CENTRE_BACK)
    return replace(lining, edges=closed(lining.name, tuple(edges)), lines=(*lining.lines, line))


def _end(names: list[str], beside: Edge, a: Point, b: Point) -> Edge:
    """What the edge beside the fold goes on as across the pleat: a hem, or an end that is folded in."""
    name = free_name(f"{beside.name} of the pleat", names)
    hem = beside.role is Role.HEM
    return Edge(
        name, (Line(a, b),), Role.HEM if hem else Role.SEAM, beside.allowance, beside.place if hem else Place.PLEAT_END
    )
