"""A body and the way of the tape drawn in characters, for a terminal."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from typing import Final

from output.figure.draw_figure import Side, draw_figure
from output.figure.silhouette import XY, Silhouette
from output.figure.tape_lines import tape_line

__all__ = ["figure_text"]

_COMMAND: Final = re.compile(r"([MLCAHVZ])([^A-Za-z]*)")
_NUMBER: Final = re.compile(r"-?\d+(?:\.\d+)?")

_DOTS: Final = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""The dots of a braille letter, row by row: each letter is a raster of two by four."""

_STEPS: Final = 14


def figure_text(key: str, body: Silhouette, *, rows: int = 20, braille: bool = True) -> tuple[str, ...]:
    """The lines of a drawing: the outline of the body in dots, the tape in "O" where it is seen and "-" behind.

    braille: whether the terminal has braille letters; else the outline is drawn in full stops
    """
    tape = tape_line(key, body)
    side: Side = "back" if tape and tape["side"] == "back" else "front"
    drawn = draw_figure(body, side)
    cell = body.height / rows  # cm to a row; a letter is half as wide as it is tall
    left = float(str(drawn["box"]).split()[0])
    wide = math.ceil(-2.0 * left / (cell / 2.0)) + 1

    def at(point: XY) -> tuple[int, int]:
        return int((point[0] - left) / (cell / 8.0 * 2.0)), int(point[1] / (cell / 4.0))

    dots = [[0] * wide for _ in range(rows + 1)]
    for path in drawn["paths"]:
        if path["kind"] == "line":
            for point in _points(path["d"]):
                x, y = at(point)
                row, column = y // 4, x // 2
                if 0 <= row <= rows and 0 <= column < wide:
                    dots[row][column] |= _DOTS[y % 4][x % 2]
    lines = [[(chr(0x2800 + bits) if braille else ".") if bits else " " for bits in row] for row in dots]
    for way, letter in (("far", "-"), ("level", "-"), ("near", "O")):
        for point in _points(tape[way]) if tape else ():
            x, y = at(point)
            row, column = min(y // 4, rows), x // 2
            if row >= 0 and 0 <= column < wide and (letter == "O" or lines[row][column] != "O"):
                lines[row][column] = letter
    told = ["".join(line).rstrip() for line in lines]
    return tuple(told[:-1] if not told[-1] else told)


def _points(d: str) -> Iterator[XY]:
    """Points along a path, near enough to each other for a drawing of letters."""
    here, start = (0.0, 0.0), (0.0, 0.0)
    for command, rest in _COMMAND.findall(d):
        numbers = [float(each) for each in _NUMBER.findall(rest)]
        match command:
            case "M":
                here = start = (numbers[0], numbers[1])
                yield here
            case "L" | "H" | "V" | "Z":
                end = _end(command, numbers, here, start)
                yield from _straight(here, end)
                here = end
            case "C":
                for i in range(0, len(numbers), 6):
                    yield from _cubic(here, numbers[i : i + 6])
                    here = (numbers[i + 4], numbers[i + 5])
            case "A":
                yield from _half_oval(here, numbers)
                here = (numbers[-2], numbers[-1])


def _end(command: str, numbers: Sequence[float], here: XY, start: XY) -> XY:
    if command == "Z":
        return start
    if command == "H":
        return numbers[0], here[1]
    return (here[0], numbers[0]) if command == "V" else (numbers[0], numbers[1])


def _straight(here: XY, end: XY) -> Iterator[XY]:
    count = max(2, int(2.0 * math.dist(here, end)))
    for i in range(count + 1):
        t = i / count
        yield here[0] + t * (end[0] - here[0]), here[1] + t * (end[1] - here[1])


def _cubic(here: XY, numbers: Sequence[float]) -> Iterator[XY]:
    xs, ys = (here[0], *numbers[0::2]), (here[1], *numbers[1::2])
    count = max(_STEPS, int(2.0 * math.dist(here, (xs[3], ys[3]))))
    for i in range(count + 1):
        t, u = i / count, 1.0 - i / count
        shares = u**3, 3 * u * u * t, 3 * u * t * t, t**3
        yield sum(map(_product, shares, xs)), sum(map(_product, shares, ys))


def _product(one: float, other: float) -> float:
    return one * other


def _half_oval(here: XY, numbers: Sequence[float]) -> Iterator[XY]:
    """Half an oval from here to its end, as a tape round a body is drawn."""
    broad, flat, turned, _, sweep, x, y = numbers
    middle, tilt = (0.5 * (here[0] + x), 0.5 * (here[1] + y)), math.radians(turned)
    for i in range(4 * _STEPS + 1):
        angle = math.pi * i / (4 * _STEPS)
        along, across = -broad * math.cos(angle), flat * math.sin(angle) * (-1.0 if sweep else 1.0)
        yield (
            middle[0] + along * math.cos(tilt) - across * math.sin(tilt),
            middle[1] + along * math.sin(tilt) + across * math.cos(tilt),
        )
