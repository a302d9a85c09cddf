"""Moving a dart: to another seam, to another place on its own, into another dart, or a part of it.

The trade's way (common practice; the longer dart that is wider at the edge is in Erwin, Practical Dress Design,
1954): the piece is cut from the bust point to the new place of the dart, and the part between is turned about the bust
point until the dart is closed, or closed as far as asked. The dart keeps its angle at the bust point, and at the radius
r it takes up 2 r sin(angle / 2) (plane geometry). Its point ends as far short of the bust point as before. How it is
drawn, and why everything else keeps its length to the last digit: see `pivot.py`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import total_changes
from drafting.alterations.techniques.cutting.split_edges import edges_of_same_cloth, with_edges_split
from drafting.alterations.techniques.marks.levels_over_darts import Swing, with_levels_bent
from drafting.alterations.techniques.pivoting.dart_target import DartPlan, DartTarget, planned
from drafting.alterations.techniques.pivoting.pivot import angle_about
from drafting.alterations.techniques.pivoting.swing_dart import with_dart_moved
from drafting.geometry import Point
from drafting.pattern import Pattern, Place, dart_mouth

__all__ = ["MoveDart"]

_CLEAR_OF_NECK: Final = 30.0
"""mm. A neck wider by more than this may come to a dart in the shoulder, which lies about half way along (ours)."""


@alteration_class
class MoveDart(DartTarget):
    """Move a dart of a piece, or a part of it, to another place on the outline or into another dart."""

    name = "move a dart"
    layer = Layer.STYLE
    about = "Move a dart, or a part of it, to another place or into another dart."
    leaves = "the angle of the dart at the point it is turned about; the length of every edge, darts folded"
    carries = "the seams that the dart leaves and enters, whose edges are joined and parted"

    part: float = option("percent", "how much of the dart is moved", 0.01, 1.0, default=1.0)
    beyond: float = option(
        "length",
        "for a dart that is drawn towards no marked point: how far past its own point it is turned about",
        0.0,
        100.0,
        default=0.0,
    )

    def comes_before(self, step: Alteration) -> bool:
        # a neck that is cut wide comes to a dart in the shoulder, unless that is gone
        wide = step.name == "neckline" and getattr(step, "width", 0.0) > _CLEAR_OF_NECK
        return wide and self.to != Place.NECK

    def apply(self, pattern: Pattern) -> Pattern:
        plan = self._planned(pattern)
        after, made = with_dart_moved(self.name, plan)
        altered = with_edges_split(pattern, plan.piece, after, made)
        mouths = [plan.first[-1].edge.end, plan.second[0].edge.start]
        far, near = mouths if plan.first_moves else reversed(mouths)
        return with_levels_bent(
            altered, plan.piece, Swing(plan.turning.pivot, near, far, plan.part.holds, plan.part.move)
        )

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        plan = self._planned(pattern)
        piece, made = with_dart_moved(self.name, plan)
        darts = {self.dart, *(dart.name for dart in piece.darts if dart.name in (self.to, plan.made))}
        what = f"the angle of the darts on {piece.name} at the point they are turned about, radians"
        yield Promise(what, partial(_angles, piece.name, tuple(sorted(darts)), plan.turning.pivot))
        for names in edges_of_same_cloth(made):
            what = f"the length of {' and '.join(f'{name!r}' for name in sorted(names))} on {piece.name}"
            yield total_changes(what.replace("'", '"'), piece, names)

    def _planned(self, pattern: Pattern) -> DartPlan:
        return planned(self, pattern, part=self.part, beyond=self.beyond)


def _angles(piece: str, darts: Sequence[str], pivot: Point, pattern: Pattern) -> float:
    there = pattern.piece(piece)
    return sum(angle_about(*dart_mouth(there, dart), pivot) for dart in there.darts if dart.name in darts)
