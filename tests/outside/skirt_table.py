"""What a stranger finds on a skirt by flare, gore, tier or pleat, line by line, beside what body and ease ask for.

Nothing here knows how the skirts were drafted: only pattern.json, the names and marks on the pieces, and plane
geometry. A circle's radius and angle are found from its own points; pleats are folded as their lines say.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any, Final

import numpy as np
import shapely

from tests.outside.dress_table import Line, plain_seams
from tests.outside.stranger import Array, Draft

__all__ = ["table"]

_MORE: Final = 152.4
"""mm that the first tier is wider than the hip: six inches (a home economics bulletin)."""

_LEAST: Final = 1.2
"""times the waist that the first tier is wide at the least."""

_SELVEDGES: Final = 20.0  # mm
_CIRCLES: Final = {"full": 2.0, "three quarters": 1.5, "half": 1.0, "third": 2.0 / 3.0, "quarter": 0.5}


def table(draft: Draft, body: Mapping[str, float], ease: Mapping[str, float], cloth: float) -> tuple[Line, ...]:
    """Every line of the table for a skirt drafted alone for `body` with `ease`, of cloth so wide (all mm)."""
    (origin,) = draft.table["origin"]
    own = {"circle skirt": _circle, "gored skirt": _gored, "tiered skirt": _tiered, "pleated skirt": _pleated}
    asked = {place: body[f"{place}_girth"] + ease[place] for place in ("waist", "hip")}
    asked["down"] = body["waist_to_hip"]
    return (
        *own[origin["block"]](draft, asked, origin["options"]),
        *plain_seams(draft),
        *_notch_pairs(draft),
        *_cloth(draft, cloth),
        *_allowances(draft),
        *_grain(draft),
    )


def _circle(draft: Draft, asked: Mapping[str, float], options: Mapping[str, Any]) -> Iterator[Line]:
    angle, long = math.pi * _CIRCLES[options["circle"]], float(options["length"])
    radius, turned = asked["waist"] / angle, 0.0
    waist = hem = 0.0
    for piece in _names(draft):
        centre = _centre_of(_run(draft, piece, "hem"))
        for place, r in (("waist", radius), ("hem", radius + long)):
            away = np.hypot(*(_run(draft, piece, place) - centre).T)
            yield Line(f"{piece}: {place} round, nearest", float(away.min()), r, 0.05)
            yield Line(f"{piece}: {place} round, farthest", float(away.max()), r, 0.05)
        turned += _turned(_run(draft, piece, "hem"), centre) * _times(draft, piece)
        waist += _long(_run(draft, piece, "waist")) * _times(draft, piece)
        hem += _long(_run(draft, piece, "hem")) * _times(draft, piece)
    yield Line("the part of a circle, degrees", math.degrees(turned), math.degrees(angle), 0.01)
    yield Line("round the waist", waist, asked["waist"], 1.0)
    yield Line("round the hem", hem, angle * (radius + long), 1.0)
    if long > asked["down"] + 10.0:
        hip = sum(_long(_level(draft, piece)) * _times(draft, piece) for piece in _names(draft))
        yield Line(
            "round the hip: waist and angle times how far down", hip, asked["waist"] + angle * asked["down"], 1.0
        )
        least = (asked["hip"] - asked["waist"]) / asked["down"]
        yield Line("the hip test: how much the angle is short of the least", max(0.0, least - turned), 0.0, 1e-6)


def _gored(draft: Draft, asked: Mapping[str, float], options: Mapping[str, Any]) -> Iterator[Line]:
    gores, long = int(options["gores"]), float(options["length"])
    yield Line("gores", float(sum(draft.piece(name)["cut"]["count"] for name in _names(draft))), float(gores), 0.0)
    waist = sum(_long(_run(draft, name, "waist")) * _times(draft, name) for name in _names(draft))
    yield Line("round the waist", waist, asked["waist"], 1.0)
    hip = sum(draft.width(name, "hip line") * _times(draft, name) for name in _names(draft))
    yield Line("round the hip", hip, max(asked["hip"], asked["waist"]), 1.0)
    for seam in draft.table["seams"]:
        lengths = [[_long(draft.points(ref["piece"], ref["edge"])) for ref in seam[run]] for run in "ab"]
        yield Line(f"{seam['name']}: both edges", sum(lengths[0]), sum(lengths[1]), 0.01)
    for name in _names(draft):
        corners = [_run(draft, name, "hem")[k] for k in (0, -1)]
        for k, corner in enumerate(corners):
            square = _angle_at(draft, name, "hem", first=k == 0)
            yield Line(f"{name}: hem square to the seam at {corner[0]:.0f}", square, 90.0, 1.0)
        if not draft.piece(name)["cut"]["fold"]:
            continue
        yield Line(f"{name}: length at the fold", _long(_run(draft, name, "centre front", "centre back")), long, 0.5)


def _tiered(draft: Draft, asked: Mapping[str, float], options: Mapping[str, Any]) -> Iterator[Line]:
    ratio, count = float(options["ratio"]), int(options["tiers"])
    wide = max(asked["hip"] + _MORE, _LEAST * asked["waist"])
    whole = 0.0
    for k in range(1, count + 1):
        pieces = [name for name in _names(draft) if f", tier {k}" in name]
        place = "waist" if k == 1 else "upper edge"
        top = sum(_long(_run(draft, name, place)) * _times(draft, name) for name in pieces)
        yield Line(f"tier {k}: cloth", top, wide * ratio ** (k - 1), 1.0)
        heights = {round(float(np.ptp(draft.outline(name).exterior.coords.xy[1])), 3) for name in pieces}
        yield Line(f"tier {k}: one height all round", float(len(heights)), 1.0, 0.0)
        whole += heights.pop()
    yield Line("length of all tiers", whole, float(options["length"]), 0.5)
    for seam in draft.table["seams"]:
        if seam["ease"]["wanted"] > 0.0:
            one, other = draft.seam(seam["name"])
            yield Line(f"{seam['name']}: what is gathered", one - other, seam["ease"]["wanted"], 1.0)
            yield Line(f"{seam['name']}: ratio", one / other, ratio, 0.01)
    yield Line("round the waist, drawn up", _tape(draft, "waist"), asked["waist"], 1.0)


def _pleated(draft: Draft, asked: Mapping[str, float], options: Mapping[str, Any]) -> Iterator[Line]:
    seen = {"waist": 0.0, "hip": 0.0}
    cloth, pleats = 0.0, 0.0
    long = float(options["length"])
    for name in _names(draft):
        wide = float(np.ptp(_run(draft, name, "waist")[:, 0])) * _times(draft, name)
        cloth += wide
        for place, down in (("waist", 0.0), ("hip", asked["down"])):
            hidden = [abs(b - a) for a, b in _folds(draft, name, down)]
            seen[place] += wide - sum(hidden) * _times(draft, name)
            if place == "hip":
                pleats += sum(hidden) * _times(draft, name)
        yield Line(f"{name}: length", float(np.ptp(draft.outline(name).exterior.coords.xy[1])), long, 0.01)
    yield Line("round the waist, pleats folded", seen["waist"], asked["waist"], 1.0)
    yield Line("round the hip, pleats folded", seen["hip"], max(asked["hip"], asked["waist"]), 1.0)
    yield Line("cloth: what is seen and twice every fold", cloth, seen["hip"] + pleats, 0.01)
    # as deep as may be: three layers everywhere, but where front and back pleats are not one width
    yield Line("cloth: more than three times the hip by", max(0.0, cloth - 3.0 * seen["hip"]), 0.0, 1.0)
    if options["depth"] is None:
        yield Line("cloth: how many times the hip", cloth / seen["hip"], 3.0, 0.15)
    for seam in draft.table["seams"]:
        for ref in (*seam["a"], *seam["b"]):
            at = float(draft.points(ref["piece"], ref["edge"])[:, 0].mean())
            ends = [x for pair in _folds(draft, ref["piece"], asked["down"]) for x in pair]
            off = min((abs(x - at) for x in ends), default=0.0)
            yield Line(f"{seam['name']}: {ref['piece']}'s edge lies at a fold or its place", off, 0.0, 0.01)


def _folds(draft: Draft, name: str, down: float) -> list[tuple[float, float]]:
    """Where each pleat of a piece begins and ends so far below its top, x in mm, from left to right."""
    found = []
    for mark in draft.piece(name)["lines"]:
        if mark.get("level") in ("pleat fold line", "pleat placement line", "seam inside a pleat"):
            points = [mark["from"], *(point for curve in mark.get("curves", []) for point in curve), mark["to"]]
            ys = [-float(y) for _, y in points]
            found.append(float(np.interp(down, ys, [float(x) for x, _ in points])))
    found.sort()
    return list(zip(found[::2], found[1::2], strict=True))


def _notch_pairs(draft: Draft) -> Iterator[Line]:
    """Every pair of notches lies alike along a plain seam, from both ends; on a gathered one in the same share."""
    for seam in draft.table["seams"]:
        wholes = draft.seam(seam["name"])
        plain = seam["ease"]["high"] == 0.0
        for pair in seam["notches"]:
            along = []
            for run, mark in zip("ab", pair, strict=True):
                piece, notch = mark.split("/", 1)
                along.append(draft.notch_along(seam["name"], run, piece, notch))
            if plain:
                yield Line(f"{pair[0]} from the start", along[0], along[1], 0.05)
                yield Line(f"{pair[0]} from the end", wholes[0] - along[0], wholes[1] - along[1], 0.05)
            else:
                yield Line(f"{pair[0]}, share of its seam", along[0] / wholes[0], along[1] / wholes[1], 0.002)


def _cloth(draft: Draft, cloth: float) -> Iterator[Line]:
    """No piece with its allowances is wider than the cloth, across its grain; on the fold twice."""
    for name in _names(draft):
        rim = np.vstack([np.array(curve) for curve in draft.piece(name)["cutting_line"]])
        wide = float(np.ptp(rim[:, 0])) * (2.0 if draft.piece(name)["cut"]["fold"] else 1.0)
        yield Line(f"{name}: wider than the cloth by", max(0.0, wide - cloth + _SELVEDGES), 0.0, 0.5)


def _allowances(draft: Draft) -> Iterator[Line]:
    """The cut edge stands off the middle of every edge by its allowance."""
    for name in _names(draft):
        rim = shapely.LineString(np.vstack([np.array(curve)[[0, -1]] for curve in _dense(draft, name)]))
        for edge in draft.piece(name)["outline"]:
            points = draft.points(name, edge["edge"])
            middle = shapely.Point(*(points[len(points) // 2] if len(points) > 2 else points.mean(axis=0)))
            yield Line(f"{name}: allowance of {edge['edge']}", rim.distance(middle), edge["allowance"], 0.3)


def _dense(draft: Draft, name: str) -> Iterator[Array]:
    for curve in draft.piece(name)["cutting_line"]:
        if len(curve) == 2:
            yield np.array(curve)
            continue
        t = np.linspace(0.0, 1.0, 65)[:, None]
        a, b, c, d = (np.array(point) for point in curve)
        points = (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t**2 * c + t**3 * d
        yield from (np.vstack(each) for each in pairwise(points))


def _grain(draft: Draft) -> Iterator[Line]:
    for name in _names(draft):
        inside = draft.outline(name).buffer(1.0).contains(shapely.LineString(draft.piece(name)["grain"]))
        yield Line(f"{name}: grain line on the piece", float(inside), 1.0, 0.0)


def _names(draft: Draft) -> list[str]:
    return [piece["name"] for piece in draft.table["pieces"]]


def _times(draft: Draft, name: str) -> float:
    """How often the drawn piece goes round the body: on the fold twice, else as often as it is cut."""
    cut = draft.piece(name)["cut"]
    return 2.0 if cut["fold"] else float(cut["count"])


def _run(draft: Draft, name: str, *places: str) -> Array:
    """The edges of a piece at these places, as one row of points."""
    edges = [edge["edge"] for edge in draft.piece(name)["outline"] if edge["place"] in places or edge["edge"] in places]
    return np.vstack([draft.points(name, edge) for edge in edges])


def _level(draft: Draft, name: str) -> Array:
    """The hip line of a piece as it is drawn."""
    (mark,) = [line for line in draft.piece(name)["lines"] if line["level"] == "hip line"]
    points = []
    for curve in mark["curves"]:
        t = np.linspace(0.0, 1.0, 201)[:, None]
        a, b, c, d = (np.array(point) for point in curve)
        points.append((1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t**2 * c + t**3 * d)
    return np.vstack(points)


def _long(points: Sequence[Array] | Array) -> float:
    return float(np.hypot(*np.diff(points, axis=0).T).sum())


def _centre_of(points: Array) -> Array:
    """The centre of the circle through points, by least squares."""
    m = np.column_stack([2.0 * points, np.ones(len(points))])
    found, *_ = np.linalg.lstsq(m, (points**2).sum(axis=1), rcond=None)
    return np.asarray(found[:2])


def _turned(points: Array, centre: Array) -> float:
    """Through what angle an arc goes about its centre, radians."""
    way = np.unwrap(np.arctan2(*(points - centre).T[::-1]))
    return float(abs(way[-1] - way[0]))


def _angle_at(draft: Draft, name: str, place: str, *, first: bool) -> float:
    """The angle of cloth at one end of an edge, degrees."""
    outline = [edge["edge"] for edge in draft.piece(name)["outline"]]
    (at,) = [k for k, edge in enumerate(draft.piece(name)["outline"]) if edge["place"] == place]
    own, other = (
        draft.points(name, outline[at]),
        draft.points(name, outline[(at + (-1 if first else 1)) % len(outline)]),
    )
    one, two = (own[1] - own[0], other[-2] - other[-1]) if first else (own[-2] - own[-1], other[1] - other[0])
    return math.degrees(math.acos(float(np.dot(one, two) / np.hypot(*one) / np.hypot(*two))))


def _tape(draft: Draft, name: str) -> float:
    """A finished measurement as its tape lies, mm."""
    (found,) = [measure for measure in draft.table["measures"] if measure["name"] == name]
    return sum(part["times"] * draft.edge(part["piece"], part["edge"]) for part in found["tape"])
