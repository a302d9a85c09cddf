"""The gored skirt: four to eight panels, each taken in alike at both edges from the hip up and flared alike below it.

Front and back are a quarter of the hip on each half. A half of three gores has a middle one on the fold, a third of it
wide, so a twelfth of the hip on the half pattern (a six-gore skirt of 1916); of two or four, a seam at the centre. What
is to be taken in from hip to waist is shared by all seams alike, half of it at each edge, so that the two edges of
every seam are one line. The flare begins at the hip, at one level for every seam (the break). A seam at the centre has
none: below the hip it runs straight along the grain.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

from blocks.handover import Drafted, Order, WaistHalf, WaistSeam
from blocks.skirts.making import Asked, asked_of, drafted_of, fitting
from blocks.skirts.panels import Panel, Quarter, Run
from drafting.errors import CannotDraft, NotAPattern
from drafting.geometry import Line, Point, Vec, bend, mirror, moved_all, run_ends, run_hits, run_length, run_reversed
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Grain, Half, Level, MarkLine

__all__ = ["FASTENINGS", "GORES", "corner_lift", "draft_gored_skirt", "taken_per_seam"]

GORES: Final = MappingProxyType({4: (2, 2), 5: (3, 2), 6: (3, 3), 7: (3, 4), 8: (4, 4)})
"""How many gores the front and the back have, by their number in all."""

BACK, SIDE = "back", "side"
FASTENINGS: Final = (BACK, SIDE)
"""Where it may open."""

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
    """The line that every edge of every gore has, from where it lies at the hip: x outward, y up from the waist.

    taken:  how far it comes in at the waist, mm; rise: how far its upper end lies above the middle of the gore
    """

    asked: Asked
    taken: float
    flare: float
    rise: float

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
        if turned < 0.0:  # it swings out less below the hip than above: round over the hip, straight below
            return bend(waist, over.turned(-turned), at_hip, under), Line(at_hip, hem)
        return Line(waist, at_hip), bend(at_hip, over, hem, under.turned(turned))

    @property
    def long_above(self) -> float:
        """How far down it the hip lies, mm."""
        return run_length(self.run(0.0)[:1])


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

    @property
    def edges(self) -> int:
        """How many edges are taken in."""
        return 2 * len(self.halves) - self.on_fold

    @property
    def hip(self) -> float:
        return sum(half if k == 0 and self.on_fold else 2.0 * half for k, half in enumerate(self.halves))

    def inner(self, edges: _Edges, k: int) -> Run:
        """The inner edge of a gore from the top down, its middle at x = 0."""
        if k > 0:
            return _mirrored(edges.run(self.halves[k]))
        if self.on_fold:
            return (Line(Point(0.0, 0.0), Point(0.0, -edges.asked.long)),)
        return _mirrored(replace(edges, flare=0.0).run(self.halves[0]))

    def tops(self, edges: _Edges) -> tuple[Run, ...]:
        """The waist of each gore from its inner to its outer edge."""
        return tuple(
            _across(self._level(edges, k), self.inner(edges, k), edges.run(half), top=True)
            for k, half in enumerate(self.halves)
        )

    def _level(self, edges: _Edges, k: int) -> float:
        """How far above the waist line the waist of a gore lies in its middle, mm: of one that is narrower than most,
        the edges of which are as high as all, so high that its waist bends no more than theirs.
        """
        if k == 0 and self.on_fold:
            return 0.0
        leaving, _ = run_ends(edges.run(0.0))
        return max(0.0, edges.rise - 0.5 * (self.halves[k] - edges.taken) * leaving.x / -leaving.y)

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


def _across(level: float, inner: Run, outer: Run, *, top: bool) -> Run:
    """The waist or the hem of a gore from its inner to its outer edge: level in its middle, square to both edges."""
    right = _half_across(level, outer, top=top)
    if isinstance(inner[0], Line) and inner[0].start.x == 0.0:  # the fold
        return right
    return (*_mirrored(run_reversed(_half_across(level, _mirrored(inner), top=top))), *right)


def _half_across(level: float, edge: Run, *, top: bool) -> Run:
    """From the middle of a gore to an edge, which runs down at its right, square to that; straight as far as may be."""
    leaving, arriving = run_ends(edge)
    end, down = (edge[0].start, leaving) if top else (edge[-1].end, arriving)
    start, square = Point(0.0, level), down.left()
    if end.y - level < SAME_PLACE or square.y <= 0.0:
        return (Line(start, end),)
    turns_at = end.x - (end.y - level) * square.x / square.y
    straight = 2.0 * turns_at - end.x
    if straight < 1.0:
        return (bend(start, Vec(1.0, 0.0), end, square),)
    begins = Point(straight, level)
    return (Line(start, begins), bend(begins, Vec(1.0, 0.0), end, square))


def _mirrored(run: Run) -> Run:
    return moved_all(run, mirror(Point(0.0, 0.0), Vec(0.0, 1.0)))


def draft_gored_skirt(order: Order, *, long: float, gores: int, flare: float, fastening: str | None = None) -> Drafted:
    """The gored skirt. Raises CannotDraft, naming the measurements at odds.

    gores: how many, 4 to 8; flare: how far each edge of a gore swings out from the hip to the hem, mm
    fastening: where it opens, "back" or "side"; None for behind, and for six gores on their own at the side
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
        edges, halves, waist = _solved(asked, gores, flare)
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
    _, down = run_ends(edges.run(0.0))
    slant = math.atan2(down.x, -down.y)
    narrowest = min(half for each in halves for half in each.halves) + flare
    given = {"hip": 2.0 * (halves[0].hip + halves[1].hip) - order.body.mm("hip_girth")}
    return drafted_of(
        order,
        asked,
        [(quarters[0], quarters[1])],
        options=(("length", long), ("gores", str(gores)), ("flare", flare), ("fastening", SIDE if at_side else BACK)),
        given=given,
        bends=narrowest / slant if slant > 0.0 else 0.0,
    )


def _solved(asked: Asked, gores: int, flare: float) -> tuple[_Edges, tuple[_Gores, _Gores], WaistSeam]:
    """The line of the edges, both halves divided, and the waist: with waist and hip as long as they are to be."""
    front, back = asked.waist.front, asked.waist.back
    counts = GORES[gores]
    taken = 0.5 * taken_per_seam(asked.round_waist, asked.hip, gores)

    def divided(hips: tuple[float, float], taken: float) -> tuple[_Gores, _Gores]:
        one, other = (
            _divided(half, hip, count, _first(waist, hip, count, taken))
            for half, hip, count, waist in zip((Half.FRONT, Half.BACK), hips, counts, (front, back), strict=True)
        )
        return one, other

    def edges_for(taken: float) -> _Edges:
        mean = 0.5 * asked.round_waist / gores
        rise = 0.0
        for _ in range(3):
            leaving, _ = run_ends(_Edges(asked, taken, flare, rise).run(0.0))
            rise = 0.5 * mean * leaving.x / -leaving.y
        return _Edges(asked, taken, flare, rise)

    if asked.alone:
        hips = (0.25 * asked.hip, 0.25 * asked.hip)

        def too_long(taken: float) -> float:
            edges = edges_for(taken)
            return 2.0 * sum(each.waist(edges) for each in divided(hips, taken)) - asked.round_waist

        taken = solve(too_long, taken, 0.5)
        edges, halves = edges_for(taken), divided(hips, taken)
        alone = [WaistHalf(long, (), 0.5 * long, ()) for long in (each.waist(edges) for each in halves)]
        waist = WaistSeam(alone[0], alone[1], asked.waist.open_back)
    else:

        def hips_for(taken: float) -> tuple[float, float]:
            edges = edges_for(taken)
            found = []
            for k, half in enumerate((front, back)):

                def surplus(hip: float, k: int = k, half: WaistHalf = half) -> float:
                    return divided((hip, hip), taken)[k].waist(edges) - half.length

                found.append(solve(surplus, half.length + counts[k] * taken, 1.0))
            return found[0], found[1]

        taken = solve(lambda taken: sum(hips_for(taken)) - 0.5 * asked.hip, taken, 0.5)
        edges, halves, waist = edges_for(taken), divided(hips_for(taken), taken), asked.waist
    _accept(halves, edges)
    return edges, halves, waist


def _first(waist: WaistHalf, hip: float, count: int, taken: float) -> float | None:
    """How wide the first gore is at the hip where a dart of the bodice says where its seam is to lie; else None."""
    if not waist.darts or count <= 2:
        return None
    wide = waist.darts[0] + (1 if count % 2 else 2) * taken
    low, high = _AT_DART
    return wide if low * hip < wide < high * hip else None


def _accept(halves: tuple[_Gores, _Gores], edges: _Edges) -> None:
    for each in halves:
        if min(each.halves) - edges.taken < _LEAST_GORE:
            raise NotAPattern("gore", "its waist would be too narrow")


def _gore(asked: Asked, edges: _Edges, gores: _Gores, k: int) -> Panel:
    """One gore, its middle at x = 0; of one on the fold the half to the right of it."""
    half, whole = gores.halves[k], k > 0 or not gores.on_fold
    inner, outer = gores.inner(edges, k), edges.run(half)
    bottom = _across(-asked.long, inner, outer, top=False)
    left = -half if whole else 0.0
    middle = -0.5 * (asked.depth + asked.long)
    reach = [run_hits(run, Point(0.0, middle), Vec(1.0, 0.0))[0][1].point for run in (inner, outer)]
    lines = (
        MarkLine("hip line", Point(left, -asked.depth), Point(half, -asked.depth), level=Level.HIP),
        MarkLine("lengthen or shorten line", reach[0], reach[1], level=Level.LENGTHEN),
    )
    side = 0.0 if whole else 25.0
    grain = Grain(Point(side, -0.85 * asked.long), Point(side, -0.45 * asked.long))
    return Panel(gores.tops(edges)[k], outer, bottom, inner, grain, lines, (edges.long_above, edges.long_above))
