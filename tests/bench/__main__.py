"""What the work costs, as ratios measured in one run, with the milliseconds beside them.

    python -m tests.bench [--rounds N] [--amounts] [--only drafting nest ...]

Processor time of this process (or of the one started), medians. The unit of the tables is what it costs to measure
every curve of the finished dress once, all together in numpy; that of the last is `python -c pass`. The unit costs
half as much many times in a row as once between other work, when the processor has all of numpy at hand; the work
itself costs the same. So both are shown: units in a row, units in turn.
Nothing here passes or fails: a machine that is busy would decide it.

--amounts: each alteration at every amount of its samples, in place of the middle one of them
"""

from __future__ import annotations

import argparse
import itertools
import os
import re
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from itertools import pairwise
from pathlib import Path
from time import process_time

from blocks.block_table import find_block
from blocks.from_file.garment_file import read_garment
from blocks.garment import BlockOrder, Garment, draft, finish, prepare
from blocks.take_steps import alter
from drafting.alterations import ALTERATIONS, Alteration, apply_step, make_step
from drafting.checks import Checked, check_pattern, run_checks
from drafting.errors import StepRefused
from drafting.geometry import Curve
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Pattern, Step
from drafting.pattern.seam_ends import sewn_piece
from output.command.draft import draft_to_folder
from output.command.nest import draft_sizes_to_folder
from output.drawings.drawing import SIZE_LINES
from output.drawings.svg import piece_picture
from output.sheets.large_sheet import lay_out
from output.sheets.papers import PAPERS, roll
from output.sheets.sheet_pdf import tiles_pdf
from output.sheets.sheet_svg import tile_svg
from output.sheets.tiling import tiles
from tests.alteration_samples import SAMPLES, TROUSER_SAMPLES, sample
from tests.bench.numpy_lengths import lengths
from tests.blocks.nests import draft_nest
from tests.drafting.dress import dress
from tests.drafting.sizes import sized

ROOT = Path(__file__).parents[2]
GARMENTS = ROOT / "examples" / "garments"
DRESS = GARMENTS / "ferry-dress.toml"
TROUSERS = GARMENTS / "breakwater-jumpsuit.toml"
NEST = ROOT / "tests" / "outside" / "nest.toml"
ON_CHART = 92
JUMPSUIT_STEPS = (
    Step("opening", (("at", "centre back"),)),
    Step("side pocket"),
    Step("patch pocket", (("piece", "trousers back"),)),
)
CHART = (76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--rounds", type=int, default=30, metavar="N", help="how often each is measured")
    parser.add_argument("--amounts", action="store_true", help="every alteration at every amount of its samples")
    works: dict[str, Callable[[int], None]] = {
        "drafting": _drafting,
        "wardrobe": lambda rounds: _wardrobe(max(3, rounds // 3)),
        "alterations": lambda rounds: _alterations(rounds, every=asked.amounts),
        "one number": _one_number,
        "files": lambda rounds: _files(max(3, rounds // 5)),
        "printing": lambda rounds: _printing(max(3, rounds // 5)),
        "nest": lambda rounds: _nest(max(3, rounds // 10)),
        "starting": lambda rounds: _starting(max(5, rounds // 3)),
    }
    parser.add_argument("--only", nargs="+", default=list(works), choices=list(works), help="what to measure")
    asked = parser.parse_args()
    for name in asked.only:
        works[name](asked.rounds)


def _drafting(rounds: int) -> None:
    garment = read_garment(DRESS)
    prepared = prepare(garment)
    base = draft(garment, prepared)
    pattern = alter(base, garment.steps)
    curves = _curves(pattern)

    print(f"{DRESS.name}: {len(curves)} curves and lines in {len(pattern.pieces)} pieces")
    works: dict[str, Callable[[], object]] = {
        "draft, alter, check": lambda: run_checks(alter(draft(garment, prepare(garment)), garment.steps)),
        "    body and ease": lambda: prepare(garment),
        "    draft": lambda: draft(garment, prepared),
        "    alter": lambda: alter(base, garment.steps),
        "    check": lambda: run_checks(pattern),
        "read its files": lambda: read_garment(DRESS),
    }
    bare = _in_units(works, curves, rounds)
    print("\nEach step of the examples, its promises measured before and after")
    for path in sorted(GARMENTS.glob("*.toml")):
        for name, step in _steps(path):
            _row(f"    {path.stem}: {name}", _median(step, rounds), bare)


def _wardrobe(rounds: int) -> None:
    """Every example, and a jumpsuit with lining, pockets and collar: drafted, altered, checked, against the dress."""
    garments = {path.stem: read_garment(path) for path in sorted(GARMENTS.glob("*.toml"))}
    jumpsuit = garments["ferry-dress"]
    parts = tuple(part_of(find_part(name), {}) for name in ("lining", "flat collar"))
    blocks = (*jumpsuit.blocks[:2], BlockOrder(find_block("trousers"), {"leg": "wide"}))
    steps = tuple(make_step(step, ALTERATIONS) for step in JUMPSUIT_STEPS)
    title = "jumpsuit with lining, pockets, collar"
    garments[title] = replace(jumpsuit, blocks=blocks, parts=parts, steps=steps, sources=())
    print("\nDrafted, altered, checked, against the dress (the aim of the jumpsuit: 4)")
    dress_takes = _median(lambda: run_checks(finish(garments["ferry-dress"])), rounds)
    for name, garment in garments.items():
        takes = _median(partial(_whole, garment), rounds)
        print(f"    {name:44}{takes:8.1f} ms{takes / dress_takes:8.2f}")


def _whole(garment: Garment) -> object:
    return run_checks(finish(garment))


def _curves(pattern: Pattern) -> list[Curve]:
    return [curve for piece in pattern.pieces for curve in piece.outline]


def _one_number(rounds: int) -> None:
    """One number changed, as on a page where it is dragged: of a step that touches one piece, or of her body.

    Of a step: that step, what it touched checked, its piece drawn. Of her body: all of it again, every piece drawn.
    """
    pattern = dress()
    known = check_pattern(pattern)
    lengths_asked = itertools.cycle((30.0, 31.0))

    def changed() -> None:
        step = make_step(Step("lengthen", (("piece", "sleeve"), ("by", next(lengths_asked)))), ALTERATIONS)
        altered = apply_step(pattern, step)
        check_pattern(altered, known=known)
        piece_picture(altered.piece("sleeve"), sewn_piece(altered, "sleeve"))

    garment = read_garment(DRESS)
    busts = itertools.cycle((0.0, 1.0))

    def another_body() -> None:
        taken = dict(garment.wearer.measurements)
        taken["bust_girth"] += next(busts)
        other = replace(garment, wearer=replace(garment.wearer, measurements=tuple(taken.items())))
        made = finish(other)
        run_checks(made)
        for piece in made.pieces:
            piece_picture(piece, sewn_piece(made, piece.name))

    print("\nOne number changed")
    works = {"alter, check what is touched, draw the piece": changed, "her bust: all again, all drawn": another_body}
    _in_units(works, _curves(pattern), rounds)


def _nest(rounds: int) -> None:
    """Sizes of the chart against one of them: all of them drafted, and as many written as go on one sheet."""
    garment = read_garment(NEST)
    ordered = garment.sizes
    assert ordered is not None
    one, every = replace(ordered, bust=ON_CHART, nest=()), replace(ordered, nest=CHART)
    drafting = [
        _median(lambda: finish(replace(garment, sizes=one)), rounds),
        _median(lambda: draft_nest(replace(garment, sizes=every)), rounds),
    ]
    together = CHART[2 : 2 + len(SIZE_LINES)]
    with tempfile.TemporaryDirectory() as folder:
        writing = []
        for name, told in (("one", f"bust = {ON_CHART}"), ("together", f"nest = {list(together)}")):
            path = Path(folder, f"{name}.toml")
            path.write_text(re.sub(r"nest = .*", told, NEST.read_text(encoding="utf-8")), encoding="utf-8")
            write = partial(draft_sizes_to_folder, path, to=path.with_suffix(""), paper=None, quiet=True)
            writing.append(_median(write, rounds))
    print("\nA nest")
    _row("drafted: one size", drafting[0], drafting[0])
    _row(f"    {len(CHART)} sizes", drafting[1], drafting[0])
    _row("written for A4: one size", writing[0], writing[0])
    _row(f"    {len(together)} sizes", writing[1], writing[0])


def _alterations(rounds: int, *, every: bool) -> None:
    """Each registered alteration on the example dress, or on a size of the chart where it goes from size to size."""
    print("\nEach alteration with its promises, and the checks after it of what it changed")
    print(f"{'':60}{'alteration':>12}{'checks':>10}{'together':>12}{'units':>9}")
    trousers = finish(read_garment(TROUSERS))
    checked = {pattern: check_pattern(pattern) for pattern in (dress(), sized(ON_CHART), trousers)}
    for entry in ALTERATIONS:
        amounts = SAMPLES.get(entry.name) or TROUSER_SAMPLES[entry.name]
        for options in amounts if every else (amounts[len(amounts) // 2],):
            pattern = dress() if entry.name in SAMPLES else trousers
            pattern = sized(ON_CHART) if entry.name == "blend" else pattern
            step = sample(entry.name, options)
            try:
                took = _altered_and_checked(pattern, step, checked[pattern], rounds)
            except StepRefused as refused:
                print(f"    {entry.name}: {refused}")
                continue
            told = ", ".join(f"{key} {value}" for key, value in options.items())
            taking, checking, bare = took
            print(
                f"    {f'{entry.name}: {told}'[:55]:56}{taking:9.2f} ms{checking:7.2f} ms"
                f"{taking + checking:9.2f} ms{(taking + checking) / bare:9.1f}"
            )


def _altered_and_checked(pattern: Pattern, step: Alteration, known: Checked, rounds: int) -> tuple[float, ...]:
    """Median processor times of taking a step, of checking what it gave, and of the unit in between, ms.

    The unit is measured each time, so that the ratio holds on a machine that is busy now and then.
    """
    curves = _curves(pattern)
    times = []
    for _ in range(rounds + 1):
        marks = [process_time()]
        altered = apply_step(pattern, step)
        marks.append(process_time())
        check_pattern(altered, known=known)
        marks.append(process_time())
        lengths(curves)
        marks.append(process_time())
        times.append([1000.0 * (after - before) for before, after in pairwise(marks)])
    return tuple(map(statistics.median, zip(*times[1:], strict=True)))


def _steps(path: Path) -> list[tuple[str, Callable[[], Pattern]]]:
    """Each step of a garment, ready to be taken on the pattern as the steps before it left it."""
    garment = read_garment(path)
    pattern = draft(garment, prepare(garment))
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
                draft_to_folder(DRESS, to=to, paper=paper, quiet=True)

            once = _median(everything, rounds)
            sheets = len(list((to / "sheets").iterdir()))
            print(f"    {paper:14}{once:10.0f} ms   {sheets} sheets")


def _printing(rounds: int) -> None:
    """The sheets of the dress as SVG files and as one PDF, with the laying out that both need and without it."""
    pattern = dress()
    print("\nThe sheets as one PDF, against the same as SVG")
    for paper in (*PAPERS.values(), roll(914.4)):
        sheet = lay_out(pattern, paper=paper)
        printed = tiles(sheet)
        laying = _median(lambda paper=paper: tiles(lay_out(pattern, paper=paper)), rounds)
        svg = _median(lambda printed=printed: [tile_svg(tile) for tile in printed], rounds)
        as_pdf = _median(lambda sheet=sheet, printed=printed: tiles_pdf(sheet, printed), rounds)
        whole = (laying + as_pdf) / (laying + svg)
        print(f"    {paper.name:14}{len(printed):4} pages{svg:8.1f} ms{as_pdf:8.1f} ms   with laying out{whole:6.2f}")


def _starting(rounds: int) -> None:
    bare = statistics.median(_started("-c", "pass") for _ in range(rounds))
    version = statistics.median(_started("-m", "output.command", "--version") for _ in range(rounds))
    checking = statistics.median(_started("-m", "output.command", "check", str(DRESS)) for _ in range(rounds))
    with tempfile.TemporaryDirectory() as folder:
        words = ("-m", "output.command", "draft", str(DRESS), "--to", f"{folder}/out")
        drafting = statistics.median(_started(*words) for _ in range(rounds))
    print("\nStarting, processor time of the new process")
    _row("python -c pass", bare, bare)
    _row("trueseam --version", version, bare)
    _row("trueseam check", checking, bare)
    _row("trueseam draft, A4, all files", drafting, bare)


def _started(*words: str) -> float:
    """Processor time of a Python started with these words, ms; what it compiles is kept for the next."""
    import resource

    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, *words], cwd=ROOT, env=environment, check=True, stdout=subprocess.DEVNULL)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return 1000.0 * (after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)


def _in_units(works: Mapping[str, Callable[[], object]], curves: Sequence[Curve], rounds: int) -> float:
    """Print what each work costs, in ms and in units both in a row and in turn; comes back with the first, ms."""

    def unit() -> object:
        return lengths(curves)

    in_a_row = _median(unit, rounds)
    times: dict[str, list[float]] = {name: [] for name in (*works, "")}
    for _ in range(rounds + 1):
        for name, work in (*works.items(), ("", unit)):
            began = process_time()
            work()
            times[name].append(1000.0 * (process_time() - began))
    medians = {name: statistics.median(each[1:]) for name, each in times.items()}
    in_turn = medians.pop("")
    print(f"{'':57}{'in a row':>9}{'in turn':>9}")
    print(f"{'the unit, ms':57}{in_a_row:9.2f}{in_turn:9.2f}")
    for name, ms in medians.items():
        print(f"{name:44}{ms:10.2f} ms{ms / in_a_row:9.1f}{ms / in_turn:9.1f}")
    return in_a_row


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
