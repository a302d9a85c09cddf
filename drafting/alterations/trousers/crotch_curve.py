"""The curve of a crotch drawn deeper or flatter: a low, round seat wants it deeper, a high, flat one flatter.

Nothing else moves: the curve leaves the straight of the centre and comes to the end of the fork as before (common
practice: 0.5 to 1 cm at a time).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, places_kept_but, seams_kept
from drafting.alterations.refusing import accept_change
from drafting.alterations.trousers.halves import halves_of, levels_redrawn
from drafting.errors import StepRefused
from drafting.geometry import Cubic, distance, handles, point_at
from drafting.geometry.solve import solve
from drafting.pattern import BodyPart, Edge, Measure, Pattern, Piece, Place, edges_at, with_edges, with_pieces

__all__ = ["CrotchCurve"]

_MOST: Final = 20.0
_FRONT, _BACK = "front", "back"


@alteration_class
class CrotchCurve(Alteration):
    """Draw the curve of the crotch deeper, or flatter below zero, by so much where it lies furthest from its chord."""

    name = "crotch curve"
    layer = Layer.FIT
    needs = ((BodyPart.TROUSERS,),)
    about = "Draw the curve of the crotch deeper or flatter."
    leaves = "where the curve begins and ends; every other edge; the girths but for the hip; how well every seam meets"
    carries = "nothing: the seam through the crotch becomes a little longer or shorter"

    by: float = option("length", "how much deeper; flatter below zero", -_MOST, _MOST, or_less=True)
    half: str = option("choice", "in front or behind", choices=(_FRONT, _BACK), default=_BACK)

    def apply(self, pattern: Pattern) -> Pattern:
        piece, crotch = self._found(pattern)
        accept_change(self.name, 'by how much: by = "5 mm"', self.by)
        goal = depth(crotch) + self.by
        factor = solve(lambda share: depth(_filled(crotch, share)) - goal, 1.0, 0.05)
        if not 0.0 < factor < _FULLEST:
            raise StepRefused(self.name, reason="the curve would run past its own ends; ask for less", too_much=("by",))
        return with_pieces(pattern, levels_redrawn(with_edges(piece, _filled(crotch, factor))))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        piece, crotch = self._found(pattern)
        yield Promise(f"the depth of {crotch.name}", partial(_depth_of, piece.name, crotch.name), self.by)
        yield from places_kept_but(pattern, {(piece.name, crotch.name)})
        yield from seams_kept(pattern)

        def kept(measure: Measure) -> bool:
            return measure.key == "waist_girth" or all(part.piece != piece.name for part in measure.tape)

        yield from finished_kept(pattern, kept)

    def _found(self, pattern: Pattern) -> tuple[Piece, Edge]:
        halves = halves_of(self.name, pattern)
        piece = halves.front if self.half == _FRONT else halves.back
        return piece, edges_at(piece, Place.CROTCH)[0]


_FULLEST: Final = 2.2  # times the handles that a curve was drawn with: beyond it the curve makes a hook (ours)


def depth(crotch: Edge) -> float:
    """How far the last curve of a crotch lies from its chord at the furthest, mm."""
    curve = _curve(crotch)
    chord = (curve.end - curve.start).unit()
    return max(abs(chord.cross(point_at(curve, k / 400.0) - curve.start)) for k in range(401))


def _depth_of(piece: str, edge: str, pattern: Pattern) -> float:
    return depth(pattern.piece(piece).edge(edge))


def _curve(crotch: Edge) -> Cubic:
    cubics = [curve for curve in crotch.curves if isinstance(curve, Cubic)]
    return max(cubics, key=lambda curve: distance(curve.start, curve.end))


def _filled(crotch: Edge, share: float) -> Edge:
    """The crotch with the handles of its curve so many times as long."""
    curve = _curve(crotch)
    c1, c2 = handles(curve)
    drawn = Cubic(curve.start, curve.start + c1 * share, curve.end - c2 * share, curve.end)
    return replace(crotch, curves=tuple(drawn if each is curve else each for each in crotch.curves))
