"""`python -m tests.bench.page_memory`: what the page's desk keeps and takes over thousands of tries and changes.

A slider is drawn to and fro, a girth is typed, values that are refused are among them, and every hundredth is written.
"""

from __future__ import annotations

import argparse
import json
import shutil
import statistics
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from output.page.desk import Desk
from output.page.edits import Edit
from output.page.folder import Folder

EXAMPLES = Path(__file__).parents[2] / "examples"
FERRY = "garments/ferry-dress.toml"


def megabytes() -> float:
    """What this process holds in memory now."""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * 4096 / 2**20


def edits() -> Iterator[Edit]:
    """One after another, without end: a sleeve, a bust, a sleeve that is refused."""
    count = 0
    while True:
        count += 1
        if count % 5 == 0:
            yield Edit("person", "set", ("measurements", "bust"), 97 + (count % 400) / 100)
        elif count % 17 == 0:
            yield Edit("garment", "set", ("step", 0, "by"), "-60 cm")
        else:
            yield Edit("garment", "set", ("step", 0, "by"), f"{count % 90 - 40} mm")


def main() -> None:
    """Try and change, and tell memory and times ten times on the way."""
    told = argparse.ArgumentParser(description=__doc__)
    told.add_argument("--tries", type=int, default=10_000)
    tries = told.parse_args().tries
    with tempfile.TemporaryDirectory() as place:
        for name in ("people", "garments"):
            shutil.copytree(EXAMPLES / name, Path(place, name))
        desk = Desk(Folder.at(Path(place)))
        state = json.loads(desk.look(FERRY, {}))
        took: dict[str, list[float]] = {"sleeve": [], "bust": [], "written": []}
        print(f"{'tries':>7} {'MB':>7} {'sleeve':>7} {'bust':>7} {'written':>8}  (median ms of processor time)")
        for count, edit in zip(range(1, tries + 1), edits(), strict=False):
            begun = time.process_time()
            is_written = count % 100 == 0
            if is_written:
                answer = desk.change(FERRY, state["version"], [edit], f"change {count}", "", state["hashes"])
            else:
                answer = desk.attempt(FERRY, state["version"], [edit], state["hashes"])
            state = json.loads(answer)
            kind = "written" if is_written else "bust" if edit.where == "person" else "sleeve"
            took[kind].append(1000 * (time.process_time() - begun))
            if count % (tries // 10) == 0:
                middle = [statistics.median(each) if each else 0.0 for each in took.values()]
                print(
                    f"{count:>7} {megabytes():>7.1f} {middle[0]:>7.1f} {middle[1]:>7.1f} {middle[2]:>8.1f}", flush=True
                )
        size = sum(each.stat().st_size for each in Path(place, ".trueseam").iterdir()) / 2**20
        print(f"the log of what was done: {size:.2f} MB")
        desk.close()


if __name__ == "__main__":
    main()
