"""A stretch of cloth packed closer by a kept strip-packing solver, in a process of its own.

The solver knows neither folds nor mirror images. Pieces at the fold are therefore handed to it as one shape: side by
side as they lie, joined by a thread along the fold and held upright by a thread as high as the cloth, which leaves it
no way to go but along the fold. Which way up each pair lies stays as it was.
"""

from __future__ import annotations

import json
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from queue import Empty, Queue
from typing import Any, Final

from drafting.dataclass import dataclass
from drafting.geometry import Point
from output.lay.lay_values import Lay, Placement, Stretch
from output.lay.verify_lay import faults_in_lay

__all__ = ["Packed", "pack_closer", "solve_strip"]

_THREAD: Final = 0.5  # mm thick
_PLAY: Final = 1.0  # mm of play that what lies at the fold is given across the cloth: the solver finds no exact fit
_LISTEN: Final = 0.1  # seconds between two looks at the clock
_ROUNDING: Final = 0.1  # mm
_ATTEMPTS: Final = 6

_Outline = tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Packed:
    """What the solver found: the length of the strip, and for each item its shift and its turn in degrees."""

    length: float
    shifts: tuple[tuple[float, float, float], ...]


def pack_closer(
    stretch: Stretch,
    *,
    seconds: float,
    seed: int = 1,
    tell: Callable[[float], None] = lambda _share: None,
    stopped: Callable[[], bool] = lambda: False,
) -> Stretch:
    """The stretch with its pieces closer together, where the solver finds that in the time; else as it was.

    tell:    is called with the share of the time that is over
    stopped: is asked often whether to make do with what there is
    Every answer is verified before it is taken. Where the solver falls over (it finds no room for what lies at the
    fold), it is started again with another seed. The solver can keep neither a repeat nor two folds:
    such cloth is left as it lies.
    """
    held = [each for each in stretch.placements if each.piece.on_fold]
    free = [each for each in stretch.placements if not each.piece.on_fold]
    if not free or stretch.cloth.repeat or stretch.cloth.repeat_across or len(stretch.cloth.strips) > 1:
        return stretch
    outlines = [each.outline for each in free]
    turns = [(0.0, 180.0) if len(stretch.cloth.turns) > 1 else (0.0,)] * len(free)
    if held:
        outlines.append(_joined(held, stretch))
        turns.append((0.0,))
    room = stretch.cloth.top - stretch.cloth.bottom()
    best = stretch
    gap = stretch.cloth.gap + (_PLAY if held else 0.0)
    ends = time.monotonic() + seconds
    for attempt in range(_ATTEMPTS):
        left = ends - time.monotonic()
        if left <= 0.0 or stopped():
            break
        answers = solve_strip(
            outlines, turns, height=room, gap=gap, seconds=left, seed=seed + attempt, tell=tell, stopped=stopped
        )
        answered = False
        for packed in answers:
            answered = True
            candidate = _unpacked(packed, free, held, stretch)
            if candidate.length < best.length and not faults_in_lay(Lay((candidate,))):
                best = candidate
        if answered:
            break
    return best


def _joined(held: Sequence[Placement], stretch: Stretch) -> _Outline:
    """The pieces at the fold as one shape that can only be shifted along it, above where other pieces may lie."""
    from shapely import Polygon, box, union_all

    pieces = [Polygon([(p.x, p.y) for p in each.outline]) for each in held]
    right, low = max(piece.bounds[2] for piece in pieces), stretch.cloth.bottom()
    along, upright = box(0.0, low, right, low + _THREAD), box(0.0, low, _THREAD, stretch.cloth.top - _PLAY)
    whole = union_all([*pieces, along, upright]).intersection(box(0.0, low, right, stretch.cloth.top))
    return tuple(Point(x, y - low) for x, y in whole.exterior.coords[:-1])


def _unpacked(packed: Packed, free: Sequence[Placement], held: Sequence[Placement], stretch: Stretch) -> Stretch:
    """The pieces where the solver put them, all shifted to where the cloth begins, those at the fold exactly on it."""
    cloth = stretch.cloth
    lies = []
    for each, (x, y, turn) in zip(free, packed.shifts, strict=False):
        turned = abs(turn) > 90.0
        sign = -1.0 if turned else 1.0
        placed = replace(each, x=sign * each.x + x, y=sign * each.y + y + cloth.bottom(), turned=each.turned != turned)
        lies.append(placed)
    lies += [replace(each, x=each.x + packed.shifts[-1][0]) for each in held]
    left = min(min(p.x for p in each.outline) for each in lies)
    return Stretch(cloth, tuple(_within(replace(each, x=each.x - left + cloth.start), stretch) for each in lies))


def _within(placed: Placement, stretch: Stretch) -> Placement:
    """The placement without the thousandth of a millimetre by which single precision may put it off the cloth."""
    if placed.piece.on_fold:
        return placed
    low, high = min(p.y for p in placed.outline), max(p.y for p in placed.outline)
    off = max(0.0, stretch.cloth.bottom() - low) - max(0.0, high - stretch.cloth.top)
    return replace(placed, y=placed.y + off) if abs(off) < _ROUNDING else placed


def solve_strip(
    outlines: Sequence[_Outline],
    turns: Sequence[Sequence[float]],
    *,
    height: float,
    gap: float,
    seconds: float,
    seed: int,
    workers: int = 1,
    tell: Callable[[float], None] = lambda _share: None,
    stopped: Callable[[], bool] = lambda: False,
) -> Iterator[Packed]:
    """What the solver finds for a strip of a height, each better than the last, until the time is over.

    outlines: polygons, none of them higher than the strip in any of its turns
    turns:    the degrees by which each may be turned
    workers:  threads of the solver
    A solver that falls over ends it; Ctrl-C, KeyboardInterrupt here, ends it and the solver.
    """
    items = [
        {"outline": [(p.x, p.y) for p in outline], "turns": list(way)}
        for outline, way in zip(outlines, turns, strict=True)
    ]
    asked = {
        # the solver keeps the gap from the border too
        "height": height + 2.0 * gap,
        "gap": gap,
        "seconds": max(1, round(seconds)),
        "seed": seed,
        "workers": workers,
        "items": items,
    }
    program = Path(__file__).with_name("solver_process.py")
    began = time.monotonic()
    with subprocess.Popen(
        [sys.executable, "-P", str(program)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        start_new_session=True,  # Ctrl-C is ours to answer
    ) as process:
        try:
            assert process.stdin is not None
            json.dump(asked, process.stdin)
            process.stdin.close()
            for line in _lines(process, began, seconds, tell, stopped):
                yield _packed(line, gap)
        finally:
            process.kill()


def _lines(
    process: subprocess.Popen[str],
    began: float,
    seconds: float,
    tell: Callable[[float], None],
    stopped: Callable[[], bool],
) -> Iterator[str]:
    """The lines that the solver writes, as they come, until it ends, its seconds are over or the search is stopped."""
    lines: Queue[str | None] = Queue()

    def listen() -> None:
        with suppress(ValueError):  # closed while it is read from, where the search ends before the solver
            for line in process.stdout or ():
                lines.put(line)
        lines.put(None)

    threading.Thread(target=listen, daemon=True).start()
    while (spent := time.monotonic() - began) < seconds and not stopped():
        tell(spent / seconds)
        try:
            line = lines.get(timeout=min(_LISTEN, seconds - spent))
        except Empty:
            continue
        if line is None:
            return
        yield line
    while not lines.empty():
        if line := lines.get():
            yield line


def _packed(line: str, gap: float) -> Packed:
    answer: dict[str, Any] = json.loads(line)
    shifts = tuple((x - gap, y - gap, turn) for _, x, y, turn in sorted(answer["placed"]))
    return Packed(answer["length"] - 2.0 * gap, shifts)
