"""Runs the packing solver for one strip, in a process of its own, which can be stopped and may fall over.

Reads one JSON object from standard input: height, gap, seconds, seed and items, each with its polygon and the turns it
may take. Writes a line of JSON for each better strip that was found: its length, and where every item lies.
"""

from __future__ import annotations

import json
import sys
import threading
import time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from spyrrow import StripPackingSolution

__all__ = ["main"]

_CLOSING = 0.05
"""The share of the time in which what was found is only pushed together. In 20 s, on all four public garment instances
of the bench, this came out shorter than the solver's own share of a fifth: by 0.1 to 2.1 % of the record."""

_PAUSE = 0.05  # seconds between two looks at what was found


def main() -> None:
    """Solve what stands on standard input."""
    import spyrrow

    asked = json.load(sys.stdin)
    items = [
        spyrrow.Item(str(number), [tuple(p) for p in item["outline"]], demand=1, allowed_orientations=item["turns"])
        for number, item in enumerate(asked["items"])
    ]
    instance = spyrrow.StripPackingInstance("lay", strip_height=asked["height"], items=items)
    closing = max(1, round(_CLOSING * asked["seconds"]))
    config = spyrrow.StripPackingConfig(
        early_termination=False,
        min_items_separation=asked["gap"] or None,
        exploration_time=max(1, asked["seconds"] - closing),
        compression_time=closing,
        total_computation_time=None,
        num_workers=asked["workers"],
        seed=asked["seed"],
    )
    feasible = (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas)
    found = spyrrow.ProgressQueue()
    ended: list[spyrrow.StripPackingSolution] = []
    solver = threading.Thread(target=lambda: ended.append(instance.solve(config, found)), daemon=True)
    solver.start()
    while solver.is_alive():
        time.sleep(_PAUSE)
        for kind, solution in found.drain():
            if kind in feasible:
                _write(solution)
    for solution in ended:
        _write(solution)


def _write(solution: StripPackingSolution) -> None:
    placed = [(int(item.id), item.translation[0], item.translation[1], item.rotation) for item in solution.placed_items]
    print(json.dumps({"length": solution.width, "placed": placed}), flush=True)


if __name__ == "__main__":
    main()
