"""Moving a dart: to another seam, to another place on its own, into another dart, or a part of it.

The trade's way (common practice; the longer dart that is wider at the edge is in Erwin, Practical Dress Design,
1954): the piece is cut from the bust point to where the dart is to be, and the part between is turned about the bust
point until the dart is closed, or as far closed as asked for. The angle of the dart at the bust point is then what it
was, and at the radius r it takes up 2 r sin(angle / 2) (plane geometry). Its point is pulled back as far as it was
before. How it is drawn, and why everything else keeps its length to the last digit: see `pivot`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import ClassVar, Final

from drafting.alterations.alteration import Alteration, Promise
from drafting.alterations.alteration_table import Entry, Layer
from drafting.alterations.promises import total_changes
from drafting.alterations.techniques.cutting.split_edges import together, with_edges_split
from drafting.alterations.techniques.marks.bent_levels import Swing, bent_levels
from drafting.alterations.techniques.pivoting.dart_target import PLACE_OPTIONS, planned
from drafting.alterations.techniques.pivoting.pivot import angle_about
from drafting.alterations.techniques.pivoting.swing_dart import with_dart_moved
from drafting.geometry import Point
from drafting.pattern import Pattern, dart_mouth
from drafting.reading.options import Option

__all__ = ["MOVE_DART", "MoveDart"]


@dataclass(frozen=True, slots=True)
class MoveDart(Alteration):
    """Move a dart of a piece, or a part of it, to another place on the outline or into another dart.

    to:            an edge, or another dart that is drawn towards the same point
    at, share:     where on the edge: `at` mm, or that share of its length, from the end beside the edge `measured_from`
    part:          how much of the dart's angle is moved, above 0 to 1
    beyond:        for a dart that is drawn towards no marked point: how far past its own point it is turned about, mm
    """

    name: ClassVar[str] = "move a dart"

    piece: str
    dart: str
    to: str
    at: float | None = None
    share: float = 0.5
    measured_from: str = ""
    part: float = 1.0
    beyond: float = 0.0

    def apply(self, pattern: Pattern) -> Pattern:
        plan = planned(self, pattern)
        after, made = with_dart_moved(self, plan)
        altered = with_edges_split(pattern, plan.piece, after, made)
        mouths = [plan.first[-1].edge.end, plan.second[0].edge.start]
        far, near = mouths if plan.first_moves else reversed(mouths)
        return bent_levels(altered, plan.piece, Swing(plan.turning.pivot, near, far, plan.part.holds, plan.part.move))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        plan = planned(self, pattern)
        piece, made = with_dart_moved(self, plan)
        darts = {self.dart, *(dart.name for dart in piece.darts if dart.name in (self.to, plan.made))}
        what = f"the angle of the darts on {piece.name} at the point they are turned about, radians"
        yield Promise(what, partial(_angles, piece.name, tuple(sorted(darts)), plan.turning.pivot))
        for names in together(made):
            what = f"the length of {' and '.join(f'{name!r}' for name in sorted(names))} on {piece.name}"
            yield total_changes(what.replace("'", '"'), piece, names)


MOVE_DART: Final = Entry(
    MoveDart,
    Layer.STYLE,
    "Move a dart, or a part of it, to another place or into another dart.",
    "the angle of the dart at the point it is turned about; the length of every edge, darts folded",
    "the seams that the dart leaves and enters, whose edges are joined and parted",
    (
        Option("piece", "text", "the piece the dart is on"),
        Option("dart", "text", "the dart to move"),
        Option("to", "text", "the edge it goes to, or the dart it goes into"),
        *PLACE_OPTIONS,
        Option("part", "percent", "how much of the dart is moved", 0.01, 1.0, default=1.0),
        Option(
            "beyond",
            "length",
            "for a dart that is drawn towards no marked point: how far past its own point it is turned about",
            0.0,
            100.0,
            default=0.0,
        ),
    ),
)


def _angles(piece: str, darts: Sequence[str], pivot: Point, pattern: Pattern) -> float:
    there = pattern.piece(piece)
    return sum(angle_about(*dart_mouth(there, dart), pivot) for dart in there.darts if dart.name in darts)
