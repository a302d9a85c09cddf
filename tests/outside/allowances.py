"""A stranger's eye on the allowances in a pattern.json, with numpy and shapely only: seams, hems and notches."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
import shapely

__all__ = ["End", "Hem", "Mark", "ends", "hems", "marks", "numbers_unlike", "sharpest_hollow", "steps", "uncovered"]

_T = np.linspace(0.0, 1.0, 65)[:, None]
_FLAT = math.radians(10.0)
_SMOOTH = math.radians(1.0)
_SEEN, _LOW = 0.3, 3.0  # mm: as high as a line is wide; a step in a cutting line that no shears follow
_TURNS = math.radians(20.0)
_HAIR = 0.1  # mm, and mm2: what two drawings of one line differ by

Json = Mapping[str, Any]


@dataclass(frozen=True)
class End:
    """An end of a seam at which both pieces have a free corner: how far past it either cut edge goes on, mm."""

    where: str
    past: tuple[float, float]

    @property
    def off(self) -> float:
        return abs(self.past[0] - self.past[1])


@dataclass(frozen=True)
class Hem:
    """What is turned up along an edge and laid back on the piece.

    bow:    how far the fold strays from straight, mm; what follows is judged of straight folds
    over:   how far it reaches beyond the piece's cut edges there, mm
    raw, there: the length of its raw edge and that of the piece where it comes to lie, mm
    bends:  through what angle the fold turns, radians
    """

    where: str
    depth: float
    fold: float
    bow: float
    over: float
    raw: float
    there: float
    bends: float


@dataclass(frozen=True)
class Mark:
    """One drawn mark of a notch: its length and the allowance there, how far off square to the seam, mm and degrees.

    crosses: whether it meets a sewing line of its piece after its start, or leaves the cut piece
    apart:   how far the nearest mark of another notch stands off on the same piece, mm
    """

    where: str
    long: float
    allowance: float
    off_square: float
    crosses: bool
    apart: float


def ends(table: Json) -> Iterator[End]:
    """The ends of every seam, but those on folds, in hems and in the middle of a line.

    Nor the side end of a pointed waist: it meets the side seam aslant, which is sewn and pressed open before, so that
    nothing ends free there.
    """
    pieces = {piece["name"]: piece for piece in table["pieces"]}
    cuts = {name: _polygon(piece) for name, piece in pieces.items()}
    for seam in table["seams"]:
        for last in (False, True):
            found = []
            for run in (seam["a"], seam["b"]):
                ref = run[-1 if last else 0]
                corner = _corner(pieces[ref["piece"]], ref["edge"], last == ref.get("backward", False))
                if corner is not None:
                    found.append(_past(cuts[ref["piece"]], *corner))
            if len(found) == 2:
                yield End(f"{seam['name']}, {'end' if last else 'start'}", (found[0], found[1]))


def _corner(piece: Json, name: str, at_start: bool) -> tuple[np.ndarray, np.ndarray, np.ndarray, float] | None:
    """A free corner at an end of an edge: where, the way on past it, the way outward, the allowance; else None."""
    edges = piece["outline"]
    k = next(k for k, edge in enumerate(edges) if edge["edge"] == name)
    own, beside = edges[k], edges[k - 1] if at_start else edges[(k + 1) % len(edges)]
    if beside["role"] in ("fold", "hem", "dart leg"):
        return None
    if _aslant_at_side(piece, own, beside):
        return None
    if "gusset seam" in (own.get("place"), beside.get("place")):
        return None  # the mouth of a slit is narrower than its allowances: the cloth is whole there, and cut open later
    run, other = (_points(edge["curves"]) for edge in (own, beside))
    corner = run[0] if at_start else run[-1]
    on = -_leaving(own["curves"]) if at_start else _arriving(own["curves"])
    away = -_arriving(beside["curves"]) if at_start else _leaving(beside["curves"])
    angle = math.acos(float(np.clip(-on @ away, -1.0, 1.0)))
    if not _FLAT < angle < math.pi - _FLAT or len(other) < 2:
        return None
    arriving, leaving = (-away, -on) if at_start else (on, away)
    if arriving[0] * leaving[1] < arriving[1] * leaving[0]:
        return None  # an inside corner, clipped for the corner that is sewn into it: no cut edge goes past it
    along = on if not at_start else -on
    return corner, on, np.array([along[1], -along[0]]), own["allowance"]


def _aslant_at_side(piece: Json, own: Json, beside: Json) -> bool:
    """Whether a waist and a side seam meet in a corner that is said to be meant."""
    if {own.get("place"), beside.get("place")} != {"waist", "side seam"}:
        return False
    return any(set(pair) == {own["edge"], beside["edge"]} for pair in piece["points_meant"])


def _past(cut: shapely.Polygon, corner: np.ndarray, on: np.ndarray, out: np.ndarray, allowance: float) -> float:
    """How far past a corner the cut edge goes on, seen a little inside of it, so that its last bit counts."""
    start = corner + out * max(0.0, allowance - 0.3)
    ray = shapely.LineString([start - on * 1.0, start + on * 500.0])
    inside = ray.intersection(cut)
    parts = [part for part in getattr(inside, "geoms", [inside]) if not part.is_empty]
    first = min(parts, key=lambda part: part.distance(shapely.Point(start)), default=None)
    return max((float((np.array(p) - start) @ on) for p in first.coords), default=0.0) if first is not None else 0.0


def steps(table: Json) -> Iterator[str]:
    """The low steps in a cutting line, where it turns one way and, within three millimetres, back; in words."""
    for piece in table["pieces"]:
        line = piece["cutting_line"]
        turns = [_turn(before, curve) for before, curve in zip([line[-1], *line], line, strict=False)]
        for curve, turn, after in zip(line, turns, [*turns[1:], turns[0]], strict=True):
            across = math.dist(curve[0], curve[-1])
            if _SEEN < across < _LOW and min(abs(turn), abs(after)) > _TURNS and turn * after < 0.0:
                yield f"{piece['name']}: {across:.1f} mm at {curve[0][0]:.0f}, {curve[0][1]:.0f}"


def sharpest_hollow(piece: Json) -> float:
    """The sharpest turn inward of a piece's cutting line, degrees; 0 where it turns outward only."""
    line = piece["cutting_line"]
    turns = [_turn(before, curve) for before, curve in zip([line[-1], *line], line, strict=False)]
    return max(0.0, -math.degrees(min(turns)))


def _turn(before: Sequence[Sequence[float]], after: Sequence[Sequence[float]]) -> float:
    """Through what angle a line turns from one curve into the next, radians; above zero where to the left."""
    into, on = np.array(before[-1]) - np.array(before[-2]), np.array(after[1]) - np.array(after[0])
    return math.atan2(float(into[0] * on[1] - into[1] * on[0]), float(into @ on))


def uncovered(table: Json) -> Iterator[str]:
    """The pieces of which a part lies outside of their own cutting line, by more than a hair; how much, mm2."""
    for piece in table["pieces"]:
        outline = shapely.Polygon([p for edge in piece["outline"] for p in _points(edge["curves"])[:-1]])
        lost = outline.buffer(0).difference(_polygon(piece).buffer(_HAIR)).area
        if lost > _HAIR:
            yield f"{piece['name']}: {lost:.1f} mm2"


def hems(table: Json) -> Iterator[Hem]:
    """Every hem, turned up in the straight line between the ends of its fold."""
    for piece in table["pieces"]:
        for k, edge in enumerate(piece["outline"]):
            if edge["role"] == "hem" and edge["allowance"] > 0.0:
                yield _turned_up(piece, k)


def _turned_up(piece: Json, k: int) -> Hem:
    edge = piece["outline"][k]
    fold, depth = _points(edge["curves"]), edge["allowance"]
    cut = _polygon(piece)
    first, last = _leaving(edge["curves"]), _arriving(edge["curves"])
    bends = float(np.sum([_angle(u, v) for u, v in _turns(fold)]))
    chord = fold[-1] - fold[0]
    along = chord / np.hypot(*chord)
    down = np.array([along[1], -along[0]])
    # the line of the fold run on at both ends, and far below it
    path = np.vstack([fold[0] - first * 400.0, fold, fold[-1] + last * 400.0])
    below = shapely.Polygon(np.vstack([path, path[-1] + down * 900.0, path[0] + down * 900.0]))
    allowance = _largest(cut.intersection(below))
    inside = cut.difference(below)
    turned = shapely.Polygon([_mirrored(np.array(p), fold, along) for p in allowance.exterior.coords]).buffer(0.0)
    over = turned.difference(inside.buffer(0.02))
    reach = max((part.area for part in getattr(over, "geoms", [over])), default=0.0) / depth
    raw = _width(cut, fold[0] + down * (depth - 0.2), along)
    there = _width(cut, fold[0] - down * (depth - 0.2), along)
    length = float(np.sum(np.hypot(*np.diff(fold, axis=0).T)))
    bow = float(np.max(np.abs((fold - fold[0]) @ down)))
    return Hem(f"{piece['name']} {edge['edge']}", depth, length, bow, reach, raw, there, bends)


def _mirrored(point: np.ndarray, fold: np.ndarray, along: np.ndarray) -> np.ndarray:
    """A point folded over the chord of a fold; hems whose fold bends are judged by how much it bends instead."""
    off = point - fold[0]
    return fold[0] + 2.0 * (off @ along) * along - off


def _width(cut: shapely.Polygon, through: np.ndarray, along: np.ndarray) -> float:
    line = shapely.LineString([through - along * 4000.0, through + along * 4000.0])
    inside = line.intersection(cut)
    parts = [part.length for part in getattr(inside, "geoms", [inside])]
    return max(parts, default=0.0)


def marks(table: Json) -> Iterator[Mark]:
    """Every mark of every notch, as it is drawn."""
    for piece in table["pieces"]:
        cut = _polygon(piece).buffer(0.05)
        lines = {edge["edge"]: shapely.LineString(_points(edge["curves"])) for edge in piece["outline"]}
        led_on = {edge["edge"]: _led_on(piece["outline"], k) for k, edge in enumerate(piece["outline"])}
        allowed = {edge["edge"]: edge["allowance"] for edge in piece["outline"]}
        drawn = [(notch, _segments(notch)) for notch in piece["notches"]]
        for i, (notch, segments) in enumerate(drawn):
            others = [np.array(mark[0]) for j, (_, marked) in enumerate(drawn) if j != i for mark in marked]
            for segment in segments:
                foot, tip = (np.array(end) for end in segment)
                way = tip - foot
                long = float(np.hypot(*way))
                body = shapely.LineString([foot + way * 0.05, tip - way * 0.01])
                crosses = any(line.intersects(body) for line in lines.values()) or not cut.covers(body)
                apart = min((float(np.hypot(*(foot - other))) for other in others), default=math.inf)
                square = _off_square(led_on[notch["edge"]], foot, way / long) if long else 90.0
                where = f"{piece['name']} / {notch['name']}"
                yield Mark(where, long, allowed[notch["edge"]], square, crosses, apart)


def _led_on(outline: Sequence[Json], k: int) -> shapely.LineString:
    """An edge with those beside it where they run on smoothly: a notch at its end is square to both."""
    before, own, after = outline[k - 1], outline[k], outline[(k + 1) % len(outline)]
    points = [_points(own["curves"])]
    if abs(_angle(_arriving(before["curves"]), _leaving(own["curves"]))) < _SMOOTH:
        points.insert(0, _points(before["curves"])[:-1])
    if abs(_angle(_arriving(own["curves"]), _leaving(after["curves"]))) < _SMOOTH:
        points.append(_points(after["curves"])[1:])
    return shapely.LineString(np.vstack(points))


def _off_square(line: shapely.LineString, foot: np.ndarray, way: np.ndarray) -> float:
    """How far a mark is from square to its edge at its foot, degrees."""
    at = line.project(shapely.Point(foot))
    low, high = (np.array(line.interpolate(s).coords[0]) for s in (max(0.0, at - 0.5), min(line.length, at + 0.5)))
    along = (high - low) / np.hypot(*(high - low))
    return math.degrees(math.asin(min(1.0, abs(float(along @ way)))))


def numbers_unlike(table: Json) -> list[str]:
    """The pairs of notches that do not carry one number."""
    numbers = {f"{p['name']}/{n['name']}": n.get("number") for p in table["pieces"] for n in p["notches"]}
    pairs = [pair for seam in table["seams"] for pair in seam["notches"]]
    return [f"{one} and {other}" for one, other in pairs if numbers[one] is None or numbers[one] != numbers[other]]


def _segments(notch: Json) -> Sequence[Sequence[Sequence[float]]]:
    drawn: Any = notch["drawn"]
    return [drawn] if isinstance(drawn[0][0], int | float) else list(drawn)


def _polygon(piece: Json) -> shapely.Polygon:
    shape = shapely.Polygon(_points(piece["cutting_line"]))
    assert shape.is_valid, piece["name"]
    return shape


def _largest(shape: Any) -> Any:
    return max(getattr(shape, "geoms", [shape]), key=lambda part: part.area)


def _points(curves: Sequence[Any]) -> np.ndarray:
    out = np.vstack([_flat(np.array(curve, float)) for curve in curves])
    keep = np.r_[True, np.hypot(*np.diff(out, axis=0).T) > 1e-9]
    return out[keep]


def _flat(p: np.ndarray) -> np.ndarray:
    if len(p) == 2:
        return p
    u = 1.0 - _T
    curve: np.ndarray = u**3 * p[0] + 3 * u**2 * _T * p[1] + 3 * u * _T**2 * p[2] + _T**3 * p[3]
    return curve


def _leaving(curves: Sequence[Any]) -> np.ndarray:
    return _way(np.array(curves[0], float))


def _arriving(curves: Sequence[Any]) -> np.ndarray:
    return -_way(np.array(curves[-1], float)[::-1])


def _way(p: np.ndarray) -> np.ndarray:
    far = next(q for q in p[1:] if np.hypot(*(q - p[0])) > 1e-9)
    way: np.ndarray = (far - p[0]) / np.hypot(*(far - p[0]))
    return way


def _turns(run: np.ndarray) -> Iterator[tuple[np.ndarray, np.ndarray]]:
    steps = np.diff(run, axis=0)
    yield from pairwise(steps)


def _angle(u: np.ndarray, v: np.ndarray) -> float:
    return math.atan2(float(u[0] * v[1] - u[1] * v[0]), float(u @ v))
