"""Public packing instances against the shortest strips known: share of the cloth used, after so many seconds.

    python -m tests.bench.packing [--seconds 10 60] [--only shirts trousers]

The instances and the records are those of tests/data/packing. Wall-clock time, on as many threads as there are cores:
the load of the machine is printed beside each figure. Every strip is verified with shapely before it is counted.
"""

from __future__ import annotations

import argparse
import csv
import json
import os
from itertools import combinations
from pathlib import Path

from shapely import Polygon, affinity

from drafting.geometry import Point
from output.lay.solve_stretch import Packed, solve_strip

INSTANCES = Path(__file__).parents[1] / "data" / "packing"
ALLOWED = 1e-4
"""How deep two pieces may lie in each other, as a share of the strip's height: the solver has single precision."""


def main() -> None:
    """Solve and print."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.bench.packing", description=(__doc__ or "").partition("\n")[0]
    )
    parser.add_argument("--seconds", type=float, nargs="+", default=[10.0, 60.0], metavar="S")
    parser.add_argument("--only", nargs="+", default=["dagli", "mao", "shirts", "trousers"], metavar="NAME")
    asked = parser.parse_args()
    print(f"{os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}; share used, and of the record's")
    for record in records():
        if record["instance"] in asked.only:
            best = float(record["record_utilisation_pct"])
            told = []
            for seconds in asked.seconds:
                used = 100.0 * share_used(record["instance"], seconds)
                told.append(f"{seconds:g} s: {used:.1f} % = {100.0 * used / best:.1f} % of the record")
            print(f"{record['instance']:10} record {best:.1f} %   {'   '.join(told)}   load {os.getloadavg()[0]:.1f}")


def records() -> list[dict[str, str]]:
    """The rows of the table of records."""
    with (INSTANCES / "records.csv").open() as file:
        return list(csv.DictReader(file))


def share_used(name: str, seconds: float, seed: int = 1) -> float:
    """The share of the strip that is used by the shortest one found, from 0 to 1, verified."""
    outlines, turns, height = instance(name)
    area = sum(Polygon([(p.x, p.y) for p in outline]).area for outline in outlines)
    found = list(
        solve_strip(outlines, turns, height=height, gap=0.0, seconds=seconds, seed=seed, workers=os.cpu_count() or 1)
    )
    best = min(found, key=lambda packed: packed.length)
    verify(best, outlines, height)
    return area / (best.length * height)


def instance(name: str) -> tuple[list[tuple[Point, ...]], list[tuple[float, ...]], float]:
    """The outlines of an instance, each as often as it is wanted, the turns it may take, and the strip's height."""
    data = json.loads((INSTANCES / f"{name}.json").read_text())
    outlines, turns = [], []
    for item in data["items"]:
        points = [Point(x, y) for x, y in item["shape"]["data"]]
        outline = tuple(points[:-1] if points[0] == points[-1] else points)
        outlines += [outline] * item["demand"]
        turns += [tuple(float(turn) for turn in item["allowed_orientations"])] * item["demand"]
    return outlines, turns, float(data["strip_height"])


def verify(packed: Packed, outlines: list[tuple[Point, ...]], height: float) -> None:
    """Raise AssertionError where two pieces overlap or one lies off the strip."""
    shapes = []
    for outline, (x, y, turn) in zip(outlines, packed.shifts, strict=True):
        shape = affinity.rotate(Polygon([(p.x, p.y) for p in outline]), turn, origin=(0.0, 0.0))
        shapes.append(affinity.translate(shape, x, y))
    slack = ALLOWED * height
    for shape in shapes:
        left, bottom, right, top = shape.bounds
        assert left > -slack
        assert bottom > -slack
        assert right < packed.length + slack
        assert top < height + slack
    for one, other in combinations(shapes, 2):
        assert not one.buffer(-slack).intersects(other)


if __name__ == "__main__":
    main()
