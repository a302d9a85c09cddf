"""What every function of geometry gives of a few curves, runs and outlines, in figures that show any change.

Each line is a function and what it gives of all the shapes, as `told` tells it; below it, how often which functions of
geometry were entered for that. A quick way out gives nothing else than the long way round, so only there is it seen
whether it is taken.
"""

from __future__ import annotations

import math
import sys
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from itertools import pairwise, product
from pathlib import Path
from types import FrameType

from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Point,
    Vec,
    arc,
    at_length,
    bend,
    blend,
    bounds,
    curvature,
    end_tangents,
    fair,
    fair_through,
    fair_touching,
    flatten,
    line_hits,
    point_at,
    polar,
    run_hits,
    run_place,
    smooth_through,
    split,
    tangent,
)
from drafting.geometry.allowance import Margin, cutting_outline
from drafting.geometry.bending import bending, inflections, kinks, most_turning_within, tightest, tightest_radius, turns
from drafting.geometry.cap import Cap, cap_of_height, cap_of_width, fair_cap, redrawn_cap, triangle_height
from drafting.geometry.curve import stationary
from drafting.geometry.dart_mouth import Mouth, mouth_folds, mouth_roof
from drafting.geometry.few_chords import few_chords
from drafting.geometry.hull import apart, extent, hull_of, transversal
from drafting.geometry.meet import meetings, outline_crossings, run_meetings, self_crossings
from drafting.geometry.offset import folds, parallel_run
from drafting.geometry.outline import area, corner_turn, cut_run, encloses, polyline, run_bounds, run_length, stretch
from drafting.geometry.solve import root_between, solve, solve_both
from drafting.geometry.transform import mirror, moved_all, shift, turn
from tests.drafting.geometry.shapes import bodice, garment_curve, polygon, random_cubics, rose, skirt
from tests.golden.told import told

__all__ = ["shapes_digest"]

Asked = tuple[str, Callable[[], object]]

_O = Point(0.0, 0.0)
_CURVES: tuple[Curve, ...] = (
    Line(_O, Point(120.0, 50.0)),
    garment_curve(200.0, 0.3, -0.6),
    garment_curve(90.0, -1.2, 0.9),
    garment_curve(150.0, 0.5, 0.4),  # an S
    Cubic(_O, Point(30.0, 10.0), Point(60.0, 20.0), Point(90.0, 30.0)),  # straight
    Cubic(_O, Point(200.0, 120.0), Point(-80.0, 120.0), Point(100.0, 0.0)),  # a loop
    Cubic(_O, _O, Point(80.0, 90.0), Point(140.0, 20.0)),  # a handle without length
    Cubic(_O, Point(60.0, 80.0), Point(-60.0, 80.0), _O),  # closed
    *random_cubics(10, seed=1),
)
_RUNS: tuple[tuple[Curve, ...], ...] = (
    *(edge.curves for piece in (skirt(), bodice()) for edge in piece.edges),
    (garment_curve(100.0, 0.4, -0.2), Line(Point(100.0, 0.0), Point(160.0, 5.0))),
    smooth_through((_O, Point(50.0, 40.0), Point(120.0, 30.0), Point(190.0, 90.0)), Vec(1.0, 0.0), Vec(0.0, 1.0)),
)
_OUTLINES = (
    polygon((0, 0), (200, 0), (230, 90), (120, 60), (90, 240), (0, 180)),
    polygon((0, 0), (300, 0), (60, 40), (20, 200)),  # a sharp point
    rose((100.0, 90.0, 40.0, 110.0, 95.0, 60.0, 120.0)),
    polygon((0, 0), (100, 0), (100, 100), (104, 0), (200, 0), (200, 160), (0, 160)),  # a narrow cut
    polygon((0, 0), (200, 0), (200, 100), (106, 12), (96, 16), (0, 140)),  # a hollow that swallows an edge
    polygon((0, 0), (200, 0), (200, 140), (104, 40), (104, 32), (96, 28), (60, 28), (0, 60)),
)


_GEOMETRY = str(Path(area.__code__.co_filename).parent)


def shapes_digest() -> str:
    """The page."""
    return "".join(line for name, asked in _questions().items() for line in _lines(name, asked))


def _lines(name: str, asked: Iterable[Callable[[], object]]) -> Iterator[str]:
    entered = Counter[str]()

    def count(frame: FrameType, event: str, _: object) -> None:
        code = frame.f_code
        if event == "call" and code.co_filename.startswith(_GEOMETRY) and not code.co_filename.endswith("point.py"):
            entered[code.co_name] += 1

    before = sys.getprofile()
    sys.setprofile(count)
    try:
        answers = told(asked)
    finally:
        sys.setprofile(before)
    yield f"{name}: {answers}\n"
    # what is written in place is a function of its own in some versions of Python and in others not
    yield f"    {', '.join(f'{each} {entered[each]}' for each in sorted(entered) if each[0] != '<')}\n"


def _questions() -> dict[str, Iterable[Callable[[], object]]]:
    parts, lengths = (0.0, 0.21, 0.5, 0.83, 1.0), (0.0, 7.0, 31.5, 80.0)
    of_cubics = [each for each in _CURVES if isinstance(each, Cubic)]
    pairs = list(pairwise(_CURVES))
    ends = [(_O, polar(a), Point(130.0, 40.0), polar(b)) for a in (-0.4, 0.3, 1.0) for b in (-1.1, 0.2, 0.9)]
    return {
        "point_at": [partial(point_at, c, t) for c in _CURVES for t in parts],
        "tangent": [partial(tangent, c, t) for c in _CURVES for t in parts],
        "radius": [partial(_inverse, curvature, c, t) for c in _CURVES for t in parts],
        "end_tangents": [partial(end_tangents, c) for c in _CURVES],
        "split": [partial(split, c, t) for c in _CURVES for t in parts],
        "bounds": [partial(bounds, c) for c in _CURVES],
        "flatten": [partial(flatten, c, tol) for c in _CURVES for tol in (0.02, 1.0)],
        "few_chords": [partial(few_chords, c, stray) for c in _CURVES for stray in (0.05, 0.4)],
        "at_length": [partial(at_length, c, by) for c in _CURVES for by in lengths],
        "stationary": [partial(stationary, *each) for each in ((0.0, 5.0, -3.0, 2.0), (1.0, 1.0, 2.0, 4.0))],
        "line_hits": [partial(line_hits, c, Point(40.0, 5.0), polar(a)) for c in _CURVES for a in (0.2, 1.4, 2.8)],
        "run_hits": [partial(run_hits, r, Point(110.0, 200.0), polar(a)) for r in _RUNS for a in (0.4, 1.5, 2.6)],
        "run_place": [partial(run_place, r, by) for r in _RUNS for by in lengths[:3]],
        "cut_run": [partial(cut_run, r, by, near=0.5) for r in _RUNS for by in lengths],
        "stretch": [partial(stretch, r, a, len(r) - b) for r in _RUNS for a, b in ((0.0, 0.3), (0.4, 0.0), (0.2, 0.6))],
        "run_length": [partial(run_length, r) for r in _RUNS],
        "run_bounds": [partial(run_bounds, r) for r in _RUNS],
        "polyline": [partial(polyline, r, 0.3) for r in _RUNS],
        "corner_turn": [partial(corner_turn, *each) for each in pairwise(_RUNS)],
        "tightest": [partial(_bends, r) for r in (*_RUNS, *((c,) for c in _CURVES))],
        "tightest_radius": [partial(tightest_radius, r) for r in _RUNS],
        "bending": [partial(bending, r) for r in _RUNS],
        "inflections": [partial(inflections, c) for c in _CURVES],
        "turns": [partial(turns, r, felt=felt) for r in (*_RUNS, *((c,) for c in _CURVES)) for felt in (0.0, 0.2)],
        "kinks": [partial(kinks, r) for r in (*_RUNS, *_OUTLINES)],
        "most_turning_within": [partial(most_turning_within, r, 20.0) for r in (*_RUNS, *_OUTLINES)],
        "hulls": [partial(_hulls, *pair) for pair in pairs],
        "meetings": [partial(meetings, *pair) for pair in pairs],
        "run_meetings": [partial(run_meetings, *pair) for pair in product(_RUNS[:9], _OUTLINES)],
        "self_crossings": [partial(self_crossings, c) for c in _CURVES],
        "outline_crossings": [partial(outline_crossings, o) for o in (*_OUTLINES, *_stars())],
        "area": [partial(area, o) for o in (*_OUTLINES, *_stars())],
        "encloses": [partial(encloses, polyline(o), Point(x, 50.0)) for o in _OUTLINES for x in (-5.0, 50.0, 150.0)],
        "parallel_run": [
            partial(parallel_run, r, by) for r in (*_RUNS, *((c,) for c in _CURVES[:5])) for by in (10.0, -10.0)
        ],
        "folds": [partial(folds, c, by) for c in of_cubics for by in (20.0, -35.0)],
        "cutting_outline": [partial(cutting_outline, each) for each in _margins()],
        "mouths": [partial(_mouth, r, before) for r in _RUNS for before in (True, False)],
        "blend": [partial(blend, *each, fullness=full) for each in ends for full in (0.8, 1.0)],
        "bend": [partial(bend, *each, tight_end=tight) for each in ends for tight in (None, 0.7)],
        "fair": [partial(fair, *each, steady=steady) for each in ends for steady in (False, True)],
        "fair_through": [
            partial(fair_through, *each[:2], Point(70.0, y), *each[2:], steady=y > 30.0)
            for each in ends
            for y in (10.0, 45.0)
        ],
        "fair_touching": [
            partial(fair_touching, *each[:2], Point(70.0, -20.0), polar(0.2), *each[2:], halfway=halfway)
            for each in ends
            for halfway in (False, True)
        ],
        "arc": [partial(arc, Point(3.0, 4.0), 50.0, 0.4, sweep) for sweep in (0.5, math.pi / 2, -4.0)],
        "caps": list(_caps()),
        "solve, and how often it asks": [
            partial(_solved, solve, lambda x: x**3 - 20.0, 2.0, 0.5),
            partial(_solved, solve, lambda x: math.atan(x - 30.0), 2.0, 0.5),
            partial(_solved, root_between, lambda x: math.cos(x) - 0.2, 0.0, 2.0),
            partial(_solved, solve_both, lambda x, y: (x + y - 90.0, x * y / 10.0 - 180.0), 50.0, 30.0),
            partial(_solved, solve_both, lambda x, y: (x * x + 1.0, y), 5.0, 5.0),
        ],
        "moves": [
            partial(moved_all, _CURVES, move)
            for move in (shift(Vec(3.0, 4.0)), turn(Point(5.0, 6.0), 0.7), mirror(Point(1.0, 2.0), Vec(3.0, 1.0)))
        ],
    }


def _inverse(of: Callable[[Curve, float], float], curve: Curve, t: float) -> float:
    found = of(curve, t)
    return 1.0 / found if 1e-5 < abs(found) < 1e5 else 0.0


def _solved(by: Callable[..., object], surplus: Callable[..., object], *guess: float) -> object:
    """What a solver finds, and how often it asks for the surplus: that is what it costs."""
    asked = list[tuple[float, ...]]()

    def counted(*at: float) -> object:
        asked.append(at)
        return surplus(*at)

    return by(counted, *guess), len(asked)


def _bends(run: tuple[Curve, ...]) -> list[object]:
    return [(each.curve, each.t, each.radius) for each in tightest(run)]


def _hulls(one: Curve, other: Curve) -> list[object]:
    """Of two curves, where they are and far apart."""
    hulls = [
        (hull_of(one), hull_of(shifted)) for by in (0.0, 400.0) for shifted in moved_all((other,), shift(Vec(by, by)))
    ]
    return [(extent(p), apart(p, q), apart(q, p), transversal(p, q)) for p, q in hulls]


def _stars() -> Iterator[tuple[Curve, ...]]:
    """Outlines that cross themselves."""
    for skip in (2, 3):
        places = [polar(math.tau * skip * k / 7.0, 100.0) for k in range(7)]
        yield polygon(*((at.x, at.y) for at in places))
    yield (_CURVES[5], Line(_CURVES[5].end, _CURVES[5].start))


def _margins() -> Iterator[list[Margin | Mouth]]:
    """Every outline with equal allowances, with unequal ones, with a hem, a fold, squared ends."""
    for outline in _OUTLINES:
        for by in ((10.0,), (10.0, 0.0, 15.0), (40.0, 6.0), (0.0, 10.0, 45.0, 3.0)):
            widths = [by[k % len(by)] for k in range(len(outline))]
            yield [Margin((line,), width) for line, width in zip(outline, widths, strict=True)]
            yield [
                Margin((line,), width, turned=k == 0)
                for k, (line, width) in enumerate(zip(outline, widths, strict=True))
            ]
            yield [
                Margin((line,), width, squares=(5.0, None) if k % 2 else (None, 8.0))
                for k, (line, width) in enumerate(zip(outline, widths, strict=True))
            ]
    yield [Margin(run, 12.0) for run in ((garment_curve(100.0, -0.5, 0.5),), polygon((100, 0), (50, 90), (0, 0))[:2])]
    for before in (True, False):
        yield [
            Margin((Line(_O, Point(90.0, 0.0)),), 10.0),
            Mouth(Point(100.0, 60.0), before),
            Margin((Line(Point(110.0, 2.0), Point(200.0, 10.0)), Line(Point(200.0, 10.0), Point(100.0, 150.0))), 14.0),
            Margin((Line(Point(100.0, 150.0), _O),), 0.0, fold=True),
        ]
        yield [Mouth(_O, before), Mouth(_O, before)]
    yield [Margin((), 3.0)]


def _mouth(run: tuple[Curve, ...], toward_before: bool) -> object:
    """A dart as wide as 20 mm between a run and the same one beyond, its apex below."""
    after = moved_all(run, shift(run[-1].end - run[0].start + Vec(18.0, 4.0)))
    mouth = Mouth(run[-1].end + Vec(11.0, -70.0), toward_before)
    return mouth_folds(run, mouth, after), mouth_roof(run, mouth, after)


def _caps() -> Iterator[Callable[[], object]]:
    cap = Cap(
        (fair(_O, polar(0.2), Point(170.0, 130.0), Vec(1.0, 0.0)),),
        (fair(Point(350.0, 0.0), polar(2.9), Point(170.0, 130.0), Vec(-1.0, 0.0)),),
    )
    for height in (90.0, 140.0, 260.0):
        yield partial(cap_of_height, cap, back=240.0, front=235.0, height=height, turned=0.05)
        yield partial(redrawn_cap, cap, back_width=160.0, width=330.0, height=height, turned=-0.1)
        yield partial(fair_cap, back=240.0, front=236.0, width=350.0, lean=0.2, height=height)
    for width in (300.0, 360.0, 900.0):
        yield partial(cap_of_width, cap, back=230.0, front=232.0, width=width, turned=0.05)
        yield partial(triangle_height, 205.0, 225.0, width)
