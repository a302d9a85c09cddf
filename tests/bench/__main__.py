"""What the work costs, as ratios measured in one run, with the milliseconds beside them.

    python -m tests.bench [--rounds N]

Processor time of this process (or of the one started), medians. The unit of the first table is what it costs to measure
every curve of the finished dress once, all together in numpy; that of the second is `python -c pass`.
Nothing here passes or fails: a machine that is busy would decide it.
"""

from __future__ import annotations

import argparse
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from time import process_time

from blocks.garment import alter, draft, ready
from blocks.order import read_garment
from drafting.alterations import apply_step
from drafting.checks import run_checks
from drafting.geometry.bulk import lengths
from drafting.pattern import Pattern
from output.command.draft import drafted
from output.papers import PAPERS

ROOT = Path(__file__).parents[2]
GARMENTS = ROOT / "examples" / "garments"
DRESS = GARMENTS / "ferry-dress.toml"


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--rounds", type=int, default=30, metavar="N", help="how often each is measured")
    rounds = parser.parse_args().rounds
    _drafting(rounds)
    _files(max(3, rounds // 5))
    _starting(rounds)


def _drafting(rounds: int) -> None:
    papers = tuple(PAPERS)
    garment = read_garment(DRESS, papers=papers)
    readied = ready(garment)
    base = draft(garment, readied)
    pattern = alter(base, garment.steps)
    curves = [curve for piece in pattern.pieces for edge in piece.edges for curve in edge.curves]
    bare = _median(lambda: lengths(curves), rounds)

    print(f"{DRESS.name}: {len(curves)} curves and lines in {len(pattern.pieces)} pieces")
    _row("measuring its curves once in numpy", bare, bare)
    _row(
        "draft, alter, check",
        _median(lambda: run_checks(alter(draft(garment, ready(garment)), garment.steps)), rounds),
        bare,
    )
    _row("    body and ease", _median(lambda: ready(garment), rounds), bare)
    _row("    draft", _median(lambda: draft(garment, readied), rounds), bare)
    _row("    alter", _median(lambda: alter(base, garment.steps), rounds), bare)
    _row("    check", _median(lambda: run_checks(pattern), rounds), bare)
    _row("read its files", _median(lambda: read_garment(DRESS, papers=papers), rounds), bare)
    print("\nEach step of the examples, its promises measured before and after")
    for path in sorted(GARMENTS.glob("*.toml")):
        for name, step in _steps(path, papers):
            _row(f"    {path.stem}: {name}", _median(step, rounds), bare)


def _steps(path: Path, papers: tuple[str, ...]) -> list[tuple[str, Callable[[], Pattern]]]:
    """Each step of a garment, ready to be taken on the pattern as the steps before it left it."""
    garment = read_garment(path, papers=papers)
    pattern = draft(garment, ready(garment))
    found = []
    for step in garment.steps:
        found.append((step.name, lambda step=step, pattern=pattern: apply_step(pattern, step)))
        pattern = apply_step(pattern, step)
    return found


def _files(rounds: int) -> None:
    print("\nEverything, from the garment file to the folder on the disk")
    for paper in PAPERS:
        with tempfile.TemporaryDirectory() as folder:
            to = Path(folder) / "out"

            def everything(paper: str = paper, to: Path = to) -> None:
                drafted(DRESS, to=to, paper=paper, quiet=True)

            once = _median(everything, rounds)
            sheets = len(list((to / "sheets").iterdir()))
            print(f"    {paper:8}{once:10.0f} ms   {sheets} sheets")


def _starting(rounds: int) -> None:
    bare = statistics.median(_started("-c", "pass") for _ in range(rounds))
    version = statistics.median(_started("-m", "output.command", "--version") for _ in range(rounds))
    print("\nStarting, processor time of the new process")
    _row("python -c pass", bare, bare)
    _row("trueseam --version", version, bare)


def _started(*words: str) -> float:
    """Processor time of a Python started with these words, ms."""
    import resource

    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, *words], cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return 1000.0 * (after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)


def _median(work: Callable[[], object], rounds: int) -> float:
    """Median processor time of the work, ms; the first time, which fills caches, is not counted."""
    work()
    times = []
    for _ in range(rounds):
        began = process_time()
        work()
        times.append(process_time() - began)
    return 1000.0 * statistics.median(times)


def _row(name: str, ms: float, unit: float) -> None:
    print(f"{name:44}{ms:10.2f} ms{ms / unit:9.1f}")


if __name__ == "__main__":
    main()
