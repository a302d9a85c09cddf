r"""The centre back of trousers raised at the waist, which rises with it from nothing at the side.

____--- centre      The rise is t^2 (3 - 2t), t from 0 at the side to 1 at the centre along the
side -----.    .-----'    |               waist with its darts closed: level at both ends, so that the corners there
\    /          |               stay as they were. A dart is drawn up along its middle line, so that its
\  /           |               legs stay alike and its mouth as wide.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import takewhile

from drafting.alterations.earlier_steps import top_cut_off
from drafting.alterations.trousers.halves import end_moved
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Cubic, Curve, Line, Vec, handles, length, run_length, run_reversed
from drafting.geometry.solve import solve
from drafting.pattern import CENTRES, Edge, Pattern, Piece, Place, Role, closed, with_pieces

__all__ = ["raised_behind"]


def raised_behind(pattern: Pattern, back: Piece, by: float) -> Pattern:
    """The pattern with the centre back so much higher at the waist, mm; every edge of the waist keeps its length.

    The straight of the centre is made longer; where it is open, so is the opening. Raises NotAPattern where the centre
    does not end at the waist.
    """
    edges, count = back.edges, len(back.edges)
    for k, edge in enumerate(edges):
        if edge.place in CENTRES and Place.WAIST in (edges[k - 1].place, edges[(k + 1) % count].place):
            from_side = edges[k - 1].place is Place.WAIST
            inward = (edges[k - 1 - i] if from_side else edges[(k + 1 + i) % count] for i in range(count - 1))
            chain = tuple(takewhile(lambda e: e.place is Place.WAIST or e.role is Role.DART_LEG, inward))[::-1]
            return with_pieces(pattern, _raised(back, edge, chain, by, from_side=from_side))
    bib = "its centre goes on above the waist, as below a bib, so that it cannot be raised there"
    cut = top_cut_off(pattern, back)
    raise NotAPattern(back.name, reason=cut.said if cut else bib, remedies=cut.remedies if cut else ())


@dataclass(frozen=True, slots=True)
class _End:
    """How an end of a stretch of the waist moves: the whole step, and which way it rises."""

    step: Vec
    up: Vec


def _raised(back: Piece, centre: Edge, chain: Sequence[Edge], by: float, *, from_side: bool) -> Piece:
    """The back with its waist raised; chain: its waist edges with the legs of the darts between, from the side on.

    from_side: whether the edges run from the side to the centre
    """
    waists = [edge for edge in chain if edge.place is Place.WAIST]
    whole = sum(edge.length for edge in waists)
    first = centre.curves[0] if from_side else centre.curves[-1]
    upward = (first.start - first.end).unit() if from_side else (first.end - first.start).unit()
    changed: list[Edge] = []
    darts = {dart.name: dart for dart in back.darts}
    gone, begin = 0.0, _End(Vec(0.0, 0.0), upward)
    for edge in waists:
        run = edge.curves if from_side else run_reversed(edge.curves)
        stretch = _Stretch(run, gone / whole, (gone + edge.length) / whole, by, whole)
        legs = [leg for leg in chain[chain.index(edge) + 1 :][:2] if leg.role is Role.DART_LEG]
        dart = next((each for each in back.darts if legs and legs[0].name in each.legs), None)
        up, along = upward, Vec(upward.y, -upward.x)
        if dart is not None:
            mouth = [at - dart.apex for leg in legs for at in (leg.start, leg.end) if at != dart.apex]
            up, along = (mouth[0] + mouth[1]).unit(), (run[-1].end - run[0].start).unit()
        made, end, aside = stretch.fitted(edge.length, begin, up, along)
        changed.append(replace(edge, curves=made if from_side else run_reversed(made)))
        if dart is not None:
            changed += [_leg_led(leg, end.step, aside, from_mouth=leg.start != dart.apex) for leg in legs]
            darts[dart.name] = replace(dart, apex=dart.apex + aside)
        gone, begin = gone + edge.length, end
    changed.append(end_moved(centre, at_end=not from_side, step=begin.step))
    by_name = {edge.name: edge for edge in changed}
    edges = closed(back.name, tuple(by_name.get(edge.name, edge) for edge in back.edges))
    return replace(back, edges=edges, darts=tuple(darts.values()))


def _leg_led(leg: Edge, mouth: Vec, apex: Vec, *, from_mouth: bool) -> Edge:
    """A leg of a dart with its two ends moved."""
    return end_moved(end_moved(leg, at_end=not from_mouth, step=mouth), at_end=from_mouth, step=apex)


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A waist edge on the way from the side to the centre.

    begin, end: between which shares of that way it lies; by: how far the centre is raised, mm
    whole:      how long the waist is, mm
    """

    run: tuple[Curve, ...]
    begin: float
    end: float
    by: float
    whole: float

    def fitted(self, long: float, begin: _End, up: Vec, along: Vec) -> tuple[tuple[Curve, ...], _End, Vec]:
        """The edge raised, so many mm long, how its end moves, and how much of that lies along the waist."""
        risen = up * (self.by * _rise(self.end))

        def off(mm: float) -> float:
            return run_length(self.led(begin, _End(risen + along * mm, up))) - long

        aside = along * solve(off, 0.0, 0.1)
        end = _End(risen + aside, up)
        return self.led(begin, end), end, aside

    def led(self, begin: _End, end: _End) -> tuple[Curve, ...]:
        """The edge with its ends moved so, what lies between them raised as the waist rises there."""
        long, gone = run_length(self.run), 0.0
        begin_more = begin.step - begin.up * (self.by * _rise(self.begin))
        end_more = end.step - end.up * (self.by * _rise(self.end))

        def raised(share: float) -> tuple[Vec, Vec]:
            """The step of a place, and how steeply the waist rises there."""
            at = self.begin + share * (self.end - self.begin)
            up = begin.up * (1.0 - share) + end.up * share
            step = up * (self.by * _rise(at)) + begin_more * (1.0 - share) + end_more * share
            return step, up * (self.by * _slope(at) / self.whole)

        curves: list[Curve] = []
        for curve in self.run:
            (one, steep), gone = raised(gone / long), gone + length(curve)
            other, steeper = raised(gone / long)
            c1, c2 = ((curve.end - curve.start) * (1 / 3),) * 2 if isinstance(curve, Line) else handles(curve)
            start, stop = curve.start + one, curve.end + other
            curves.append(Cubic(start, start + c1 + steep * c1.norm(), stop - c2 - steeper * c2.norm(), stop))
        return tuple(curves)


def _rise(share: float) -> float:
    return share * share * (3.0 - 2.0 * share)


def _slope(share: float) -> float:
    return 6.0 * share * (1.0 - share)
