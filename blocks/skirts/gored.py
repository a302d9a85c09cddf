"""The gored skirt: four to eight panels, taken in from the hip up at the edges of their seams, flared below it.

Front and back are a quarter of the hip on each half. A half of three gores has a middle one on the fold, a third of it
wide, so a twelfth of the hip on the half pattern (a six-gore skirt of 1916); of two or four, a seam at the centre. What
is to be taken in from hip to waist is shared by place: least at the centre front, where it would leave a pouch over the
belly, most at the sides and behind (the order is that of the same skirt of 1916, the shares are ours); or by all seams
alike. Half of it lies at each edge, so that the two edges of every seam are one line. The flare begins at the hip, at
one level for every seam (the break). A seam at the centre has none: below the hip it runs straight along the grain, and
above it is straight as far as may be, so that a zip lies flat in it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Final, Literal

from blocks.handover import Drafted, Order, WaistHalf, WaistSeam
from blocks.skirts.making import Asked, asked_of, drafted_of, fitting
from blocks.skirts.panels import Panel, Quarter, Run
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft, NotAPattern
from drafting.geometry import Line, Point, Vec, bend, mirror, moved_all, run_ends, run_hits, run_length, run_reversed
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Grain, Half, Level, MarkLine

__all__ = ["FASTENINGS", "GORES", "SHARED", "corner_lift", "draft_gored_skirt", "taken_per_seam"]

GORES: Final = MappingProxyType({4: (2, 2), 5: (3, 2), 6: (3, 3), 7: (3, 4), 8: (4, 4)})
"""How many gores the front and the back have, by their number in all."""

BACK, SIDE = "back", "side"
FASTENINGS: Final = (BACK, SIDE)
"""Where it may open."""

BY_PLACE, ALIKE = "by place", "alike"
SHARED: Final = (BY_PLACE, ALIKE)
"""How what is taken in from hip to waist is shared by the seams."""

_Where = Literal["fold", "centre", "gore", "side"]
_SHARES: Final[Mapping[tuple[Half, _Where], float]] = MappingProxyType(
    {
        (Half.FRONT, "centre"): 0.4,
        (Half.FRONT, "gore"): 0.8,
        (Half.BACK, "gore"): 1.0,
        (Half.BACK, "centre"): 0.6,
    }
)
"""What an edge takes in, of what one at the side does (ours)."""

_ROUND: Final = 70.0  # mm above the hip in which a seam at the centre turns into the grain (ours)
_SHALLOW: Final = 0.35  # of the way from waist to hip: no more of it than that turns (ours)
_MOST_TAKEN: Final = 50.0  # mm that one edge takes in without being hollowed more than hips are round (ours)
_MIDDLE: Final = 1.0 / 3.0  # of a half of three gores: how wide its middle one is (1916)
_AT_DART: Final = (0.2, 0.6)  # of a quarter: where a dart of the bodice lies that the gore seam is led to (ours)
_LEAST_GORE: Final = 25.0  # mm of waist on the half of the middle gore, and on half of any other (ours)


def taken_per_seam(waist: float, hip: float, gores: int) -> float:
    """How much each seam takes in from hip to waist, mm; half of it at each edge."""
    return (hip - waist) / gores


def corner_lift(long: float, flare: float) -> float:
    """How much longer an edge that swings out by `flare` is than the middle, mm: so much its hem corner is raised."""
    return math.hypot(long, flare) - long


@dataclass(frozen=True, slots=True)
class _Edges:
    """The lines of the edges of all gores.

    taken: how far an edge at the side comes in at the waist, mm
    wide:  half of how wide a gore is at the waist, on the average of all, mm
    by_place: whether what is taken in is shared by place
    """

    asked: Asked
    taken: float
    flare: float
    wide: float
    by_place: bool

    def share(self, half: Half, where: _Where) -> float:
        """What an edge there takes in, of what one at the side does."""
        return 0.0 if where == "fold" else _SHARES.get((half, where), 1.0) if self.by_place else 1.0

    def at(self, half: Half, where: _Where) -> _Edge:
        """An edge there, its upper end so high above the middle of a gore that it is square to the waist."""
        flare = 0.0 if where in ("fold", "centre") else self.flare
        edge = _Edge(self.asked, self.share(half, where) * self.taken, flare, 0.0, straight=where == "centre")
        for _ in range(3):
            edge = replace(edge, rise=0.5 * self.wide * edge.slope)
        return edge


@dataclass(frozen=True, slots=True)
class _Edge:
    """The line of an edge, from where it lies at the hip: x outward, y up from the waist.

    taken:    how far it comes in at the waist, mm; rise: how far its upper end lies above the middle of the gore
    straight: whether it is straight from the waist to near the hip
    """

    asked: Asked
    taken: float
    flare: float
    rise: float
    straight: bool

    def run(self, hip: float) -> Run:
        """From the waist down to the hem, where at the hip it lies `hip` mm from the middle of the gore."""
        at_hip = Point(hip, -self.asked.depth)
        waist = Point(hip - self.taken, self.rise)
        below = self.asked.long - self.asked.depth
        along = Vec(self.flare, -below)
        hem = at_hip + along - along.unit() * corner_lift(below, self.flare)
        over, under = (at_hip - waist), (hem - at_hip)
        turned = over.angle_to(under)
        if abs(turned) < 1e-9:
            return Line(waist, at_hip), Line(at_hip, hem)
        if turned < 0.0 and self.straight:
            turns = min(_ROUND, _SHALLOW * -over.y)
            begins = waist + Vec(self.taken / (-over.y - 0.5 * turns), -1.0) * (-over.y - turns)
            return Line(waist, begins), bend(begins, begins - waist, at_hip, under), Line(at_hip, hem)
        if turned < 0.0:  # it swings out less below the hip than above: round over the hip, straight below
            return bend(waist, over.turned(-turned), at_hip, under), Line(at_hip, hem)
        return Line(waist, at_hip), bend(at_hip, over, hem, under.turned(turned))

    @property
    def slope(self) -> float:
        """How far it swings out on each mm down, where it leaves the waist."""
        leaving, _ = run_ends(self.run(0.0))
        return leaving.x / -leaving.y

    @property
    def long_above(self) -> float:
        """How far down it the hip lies, mm."""
        return run_length(tuple(curve for curve in self.run(0.0) if curve.end.y >= -self.asked.depth - SAME_PLACE))


@dataclass(frozen=True, slots=True)
class _Gores:
    """How one quarter is divided.

    hip:      of the quarter, mm
    halves:   half of how wide each gore is at the hip, from the centre; of a middle one on the fold the half it shows
    on_fold:  whether the first lies on the fold
    """

    half: Half
    halves: tuple[float, ...]
    on_fold: bool

    def places(self, k: int) -> tuple[_Where, _Where]:
        """Where the inner and the outer edge of a gore lie."""
        inner: _Where = "gore" if k else "fold" if self.on_fold else "centre"
        return inner, "side" if k == len(self.halves) - 1 else "gore"

    def edges(self, edges: _Edges, k: int) -> tuple[_Edge, _Edge]:
        """The inner and the outer edge of a gore."""
        inner, outer = (edges.at(self.half, where) for where in self.places(k))
        return inner, outer

    def shares(self, edges: _Edges) -> float:
        """What all its edges take in together, of what one at the side does."""
        return sum(edges.share(self.half, where) for k in range(len(self.halves)) for where in self.places(k))

    @property
    def hip(self) -> float:
        return sum(half if k == 0 and self.on_fold else 2.0 * half for k, half in enumerate(self.halves))

    def runs(self, edges: _Edges, k: int) -> tuple[Run, Run]:
        """The inner and the outer edge of a gore from the top down, its middle at x = 0."""
        inner, outer = self.edges(edges, k)
        if k == 0 and self.on_fold:
            return (Line(Point(0.0, 0.0), Point(0.0, -edges.asked.long)),), outer.run(self.halves[0])
        return _mirrored(inner.run(self.halves[k])), outer.run(self.halves[k])

    def tops(self, edges: _Edges) -> tuple[Run, ...]:
        """The waist of each gore from its inner to its outer edge."""
        return tuple(_across(self._lowest(edges, k), *self.runs(edges, k), top=True) for k in range(len(self.halves)))

    def _lowest(self, edges: _Edges, k: int) -> Point:
        """Where the waist of a gore lies lowest: so that it bends alike to both edges, the rise of which is that of a
        gore of the average width. A narrower one lies higher there, a wider one has a level stretch.
        """
        if k == 0 and self.on_fold:
            return Point(0.0, 0.0)
        inner, outer = self.edges(edges, k)
        left, right = inner.taken - self.halves[k], self.halves[k] - outer.taken
        short = 2.0 * edges.wide - (right - left)
        if short <= 0.0:
            return Point(max(left + edges.wide, min(0.0, right - edges.wide)), 0.0)
        if min(inner.slope, outer.slope) <= 0.0:
            return Point(0.0, 0.0)
        level = 0.5 * short / (1.0 / inner.slope + 1.0 / outer.slope)
        return Point(right - edges.wide + 2.0 * level / outer.slope, level)

    def waist(self, edges: _Edges) -> float:
        return sum(map(run_length, self.tops(edges)))


def _divided(half: Half, hip: float, count: int, first: float | None) -> _Gores:
    """A quarter of so much hip divided for `count` gores in the whole half; first: how wide the first of them is."""
    on_fold, parts = count % 2 == 1, (count + 1) // 2
    if parts == 1:
        return _Gores(half, (0.5 * hip,), on_fold)
    wide = first if first is not None else hip * (_MIDDLE if on_fold else 1.0 / parts)
    rest = 0.5 * (hip - wide) / (parts - 1)
    return _Gores(half, (wide if on_fold else 0.5 * wide, *([rest] * (parts - 1))), on_fold)


def _across(middle: Point, inner: Run, outer: Run, *, top: bool) -> Run:
    """The waist or the hem of a gore from its inner to its outer edge: level at `middle`, square to both edges."""
    right = _half_across(middle, outer, top=top)
    if isinstance(inner[0], Line) and inner[0].start.x == 0.0:  # the fold
        return right
    other = Point(-middle.x, middle.y)
    return (*_mirrored(run_reversed(_half_across(other, _mirrored(inner), top=top))), *right)


def _half_across(start: Point, edge: Run, *, top: bool) -> Run:
    """From there to an edge, which runs down at its right, square to that; level and straight as far as may be."""
    leaving, arriving = run_ends(edge)
    end, down = (edge[0].start, leaving) if top else (edge[-1].end, arriving)
    square = down.left()
    if end.y - start.y < SAME_PLACE or square.y <= 0.0:
        return (Line(start, end),)
    turns_at = end.x - (end.y - start.y) * square.x / square.y
    begins = Point(2.0 * turns_at - end.x, start.y)
    if begins.x - start.x < 1.0:
        return (bend(start, Vec(1.0, 0.0), end, square),)
    return (Line(start, begins), bend(begins, Vec(1.0, 0.0), end, square))


def _mirrored(run: Run) -> Run:
    return moved_all(run, mirror(Point(0.0, 0.0), Vec(0.0, 1.0)))


def draft_gored_skirt(
    order: Order, *, long: float, gores: int, flare: float, fastening: str | None = None, shared: str = BY_PLACE
) -> Drafted:
    """The gored skirt. Raises CannotDraft, naming the measurements at odds.

    gores: how many, 4 to 8; flare: how far each edge of a gore swings out from the hip to the hem, mm
    fastening: where it opens, "back" or "side"; None for behind, and for six gores on their own at the side
    shared: how what is taken in from hip to waist is shared by the seams, "by place" or "alike"
    """
    asked = asked_of(order, long)
    if fastening == SIDE and not asked.alone:
        raise CannotDraft(
            (), 'A gored skirt below a bodice opens where the bodice does: leave out fastening = "side" in the block.'
        )
    if asked.long < asked.depth + 2.0 * flare + 60.0:
        raise CannotDraft(
            ("waist_to_hip",),
            f"A gored skirt {long:.0f} mm long ends too near the hip line, {asked.depth:.0f} mm below the waist, to be "
            f"flared by {flare:.0f} mm there: make it {math.ceil(asked.depth + 2.0 * flare + 60.0)} mm or longer.",
        )
    asked = replace(asked, hip=max(asked.hip, asked.round_waist))
    try:
        edges, halves, waist = _solved(asked, gores, flare, by_place=shared == BY_PLACE)
    except NotAPattern as none:
        raise CannotDraft(
            ("waist_girth", "hip_girth", "waist_to_hip"),
            f"From waist to hip ({asked.depth:.0f} mm) {gores} gores cannot be taken in from {asked.hip:.0f} mm to "
            f"{asked.round_waist:.0f} mm: take more gores, or give the waist more ease.",
        ) from none
    usual = SIDE if all(each.on_fold for each in halves) else BACK
    at_side = asked.alone and (fastening or usual) == SIDE

    def quarter(each: _Gores, half: WaistHalf, opened: float) -> Quarter:
        panels = tuple(_gore(asked, edges, each, k) for k in range(len(each.halves)))
        opens = opened if at_side or each.half is Half.BACK else 0.0  # a side is shared by both
        # a bodice opens at the centre back: where a gore lies there, a straight seam goes down its middle
        fold = each.on_fold and (at_side or not opens)
        made = Quarter(each.half, panels, half, on_fold=fold, opened=opens, at_side=at_side and opens > 0.0)
        return fitting(each.half, asked, lambda _count, _fold: made, [(len(panels), fold)])

    quarters = [quarter(each, half, asked.opened) for each, half in zip(halves, (waist.front, waist.back), strict=True)]
    both = [edge for each in halves for k in range(len(each.halves)) for edge in each.edges(edges, k)]
    ends = (run_ends(edge.run(0.0))[1] for edge in both)
    slant = max(math.atan2(down.x, -down.y) for down in ends)
    narrowest = min(half for each in halves for half in each.halves) + flare
    given = {"hip": 2.0 * (halves[0].hip + halves[1].hip) - order.body.mm("hip_girth")}
    return drafted_of(
        order,
        asked,
        [(quarters[0], quarters[1])],
        options=(
            ("length", long),
            ("gores", str(gores)),
            ("flare", flare),
            ("fastening", SIDE if at_side else BACK),
            ("shared", shared),
        ),
        given=given,
        gave_way=tuple(_hollowed(gores, max(edge.taken for edge in both))),
        bends=narrowest / slant if slant > 0.0 else 0.0,
    )


def _hollowed(gores: int, taken: float) -> Iterator[str]:
    """What to say of so few gores that one edge takes in too much, mm, to lie on the hip."""
    if taken > _MOST_TAKEN and gores < max(GORES):
        yield (
            f"With {gores} gores each side edge is taken in by {taken:.0f} mm from hip to waist, more than hips are "
            "round: it stands off above the hip. Take more gores."
        )


def _solved(
    asked: Asked, gores: int, flare: float, *, by_place: bool
) -> tuple[_Edges, tuple[_Gores, _Gores], WaistSeam]:
    """The lines of the edges, both halves divided, and the waist: with waist and hip as long as they are to be."""
    front, back = asked.waist.front, asked.waist.back
    counts = GORES[gores]
    usual = 0.5 * taken_per_seam(asked.round_waist, asked.hip, gores)

    def edges_for(taken: float) -> _Edges:
        return _Edges(asked, taken, flare, 0.5 * asked.round_waist / gores, by_place)

    def divided(hips: tuple[float, float], edges: _Edges) -> tuple[_Gores, _Gores]:
        one, other = (
            _divided(half, hip, count, _first(waist, hip, count, half, edges))
            for half, hip, count, waist in zip((Half.FRONT, Half.BACK), hips, counts, (front, back), strict=True)
        )
        return one, other

    if asked.alone:
        hips = (0.25 * asked.hip, 0.25 * asked.hip)

        def too_long(taken: float) -> float:
            edges = edges_for(taken)
            return 2.0 * sum(each.waist(edges) for each in divided(hips, edges)) - asked.round_waist

        edges = edges_for(solve(too_long, usual, 0.5))
        halves = divided(hips, edges)
        alone = [WaistHalf(long, (), 0.5 * long, ()) for long in (each.waist(edges) for each in halves)]
        waist = WaistSeam(alone[0], alone[1], asked.waist.open_back)
    else:

        def hips_for(taken: float) -> tuple[float, float]:
            edges = edges_for(taken)
            found = []
            for k, half in enumerate((front, back)):

                def surplus(hip: float, k: int = k, half: WaistHalf = half) -> float:
                    return divided((hip, hip), edges)[k].waist(edges) - half.length

                shares = divided((half.length, half.length), edges)[k].shares(edges)
                found.append(solve(surplus, half.length + shares * taken, 1.0))
            return found[0], found[1]

        edges = edges_for(solve(lambda taken: sum(hips_for(taken)) - 0.5 * asked.hip, usual, 0.5))
        halves, waist = divided(hips_for(edges.taken), edges), asked.waist
    _accept(halves, edges)
    return edges, halves, waist


def _first(waist: WaistHalf, hip: float, count: int, half: Half, edges: _Edges) -> float | None:
    """How wide the first gore is at the hip where a dart of the bodice says where its seam is to lie; else None."""
    if not waist.darts or count <= 2:
        return None
    inner: _Where = "fold" if count % 2 else "centre"
    wide = waist.darts[0] + (edges.share(half, inner) + edges.share(half, "gore")) * edges.taken
    low, high = _AT_DART
    return wide if low * hip < wide < high * hip else None


def _accept(halves: tuple[_Gores, _Gores], edges: _Edges) -> None:
    for each in halves:
        for k, half in enumerate(each.halves):
            sides = 1.0 if k == 0 and each.on_fold else 2.0
            if sides * half - sum(edge.taken for edge in each.edges(edges, k)) < sides * _LEAST_GORE:
                raise NotAPattern("gore", reason="its waist would be too narrow")


def _gore(asked: Asked, edges: _Edges, gores: _Gores, k: int) -> Panel:
    """One gore, its middle at x = 0; of one on the fold the half to the right of it."""
    half, whole = gores.halves[k], k > 0 or not gores.on_fold
    inner, outer = gores.runs(edges, k)
    above = [edge.long_above for edge in gores.edges(edges, k)]
    bottom = _across(Point(0.0, -asked.long), inner, outer, top=False)
    left = -half if whole else 0.0
    middle = -0.5 * (asked.depth + asked.long)
    reach = [run_hits(run, Point(0.0, middle), Vec(1.0, 0.0))[0][1].point for run in (inner, outer)]
    lines = (
        MarkLine("hip line", Point(left, -asked.depth), Point(half, -asked.depth), level=Level.HIP),
        MarkLine("lengthen or shorten line", reach[0], reach[1], level=Level.LENGTHEN),
    )
    side = 0.0 if whole else 25.0
    grain = Grain(Point(side, -0.85 * asked.long), Point(side, -0.45 * asked.long))
    return Panel(gores.tops(edges)[k], outer, bottom, inner, grain, lines, (above[0], above[1]))
