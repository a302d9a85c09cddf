"""A stranger's reader of our SVG files: the standard library's XML, its own path parser, numpy; no code of ours."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from xml.etree import ElementTree

import numpy as np
from shapely import LineString, MultiLineString

_TOKEN = re.compile(r"[MLCZ]|-?\d+(?:\.\d+)?")
_SAG = 0.001
"""How far a chord lies off its curve at most, mm: a fiftieth of what any test of the sheets allows."""


@dataclass(frozen=True)
class Drawing:
    """Lines by the class of their path and the words, in millimetres, y down as in the file."""

    width: float
    height: float
    lines: dict[str, MultiLineString]
    words: tuple[str, ...]


def read_svg(text: str) -> Drawing:
    root = ElementTree.fromstring(text)
    width, height = (_millimetres(root.get(name, "")) for name in ("width", "height"))
    # true scale: a user unit is a millimetre
    assert [float(part) for part in root.get("viewBox", "").split()] == [0.0, 0.0, width, height]
    lines: dict[str, list[LineString]] = {}
    for path in root.iter("{http://www.w3.org/2000/svg}path"):
        assert path.get("transform") is None
        lines.setdefault(path.get("class", ""), []).extend(path_lines(path.get("d", "")))
    words = tuple("".join(text.itertext()) for text in root.iter("{http://www.w3.org/2000/svg}text"))
    return Drawing(width, height, {kind: MultiLineString(found) for kind, found in lines.items()}, words)


def flat(points: list[tuple[float, float]]) -> np.ndarray:
    """Points along a straight line (two points) or a cubic Bezier (four), by its Bernstein form.

    As many chords as keep to _SAG: a chord over a span h of t strays by an eighth of h squared times the second
    derivative, which is greatest at an end of the curve.
    """
    p = np.array(points)
    if len(p) == 2:
        return p
    bend = 6.0 * max(math.dist(p[0] + p[2], 2.0 * p[1]), math.dist(p[1] + p[3], 2.0 * p[2]))
    t = np.linspace(0.0, 1.0, 1 + max(1, math.ceil(math.sqrt(bend / (8.0 * _SAG)))))[:, None]
    u = 1.0 - t
    return u**3 * p[0] + 3 * u**2 * t * p[1] + 3 * u * t**2 * p[2] + t**3 * p[3]


def _millimetres(value: str) -> float:
    assert value.endswith("mm")
    return float(value[:-2])


def path_lines(data: str) -> list[LineString]:
    """The lines that path data draws, a list of places to each; curves by chords."""
    tokens = _TOKEN.findall(data)
    assert "".join(tokens) == data.replace(" ", "")
    found: list[list[tuple[float, float]]] = []
    i = 0
    while i < len(tokens):
        command, i = tokens[i], i + 1
        count = {"M": 1, "L": 1, "C": 3, "Z": 0}[command]
        points = [(float(tokens[i + 2 * k]), float(tokens[i + 2 * k + 1])) for k in range(count)]
        i += 2 * count
        if command == "M":
            found.append(points)
        elif command == "Z":
            found[-1].append(found[-1][0])
        else:
            found[-1].extend(map(tuple, flat([found[-1][-1], *points])[1:]))
    return [LineString(points) for points in found]
