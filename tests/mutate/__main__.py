"""Changes one token of a room at a time and tells which changes no test notices.

python -m tests.mutate drafting/geometry --sample 60 --seed 3
python -m tests.mutate drafting/checks/darts.py drafting/checks/seams.py:40

A change that no test notices is a test that is missing, or it changes nothing that anybody could see: those are known,
with the reason, in `equivalent.toml`. It runs the tests that enter the changed function, in a copy of the tree.
"""

from __future__ import annotations

import argparse
import random
import re
import sys
import tempfile
import tomllib
from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import islice
from pathlib import Path
from typing import Any, Final

from tests.mutate.judging import Fate, Judge
from tests.mutate.mutations import Mutation, changed, compiles, mutations
from tests.mutate.running import copied
from tests.mutate.serving import Server

FATES: Final[tuple[Fate, ...]] = ("killed", "survived", "equivalent", "not reached")

_LEFT_OUT: Final = (
    "tests/house/",
    "tests/mutate/",
    "tests/output/files/test_files_",
    "tests/property/test_bad_",
    "tests/test_sweep",
    "tests/output/command/",
    "tests/outside/test_page_",
    "tests/outside/test_jobs",
    "tests/blocks/test_conflicts.py",
)
"""Tests of the house, of killed commands, of spoilt files and in a browser: they take long, and notice what others
notice sooner."""


def main(arguments: Sequence[str]) -> int:
    """The command. Returns 1 where a change survived."""
    options = _options(arguments)
    with tempfile.TemporaryDirectory() as folder:
        tree = copied(Path(folder).resolve() / "tree")
        chosen = _chosen(tree, options.rooms, options.sample, options.seed)
        known, rules = _known(), _rules()
        for name, was, now in _out_of_date(tree, known):
            print(f"equivalent.toml: no longer in {name}: {was} -> {now}", file=sys.stderr)
        files = _test_files(tree, options.rooms, far=options.far)
        names = {name for name, _ in chosen}
        judge = Judge(tree, Server(tree, files, Path(folder) / "log"), files, names, options.seconds)
        fates: dict[str, Counter[Fate]] = {}
        for name, mutation in chosen:
            was, now = _lines(tree / name, mutation)
            fate = "equivalent" if (name, was, now) in known else judge.fate(name, mutation)
            if fate == "survived" and any(_by_rule(mutation, rule) for rule in rules):
                fate = "equivalent"
            fates.setdefault(str(Path(name).parent), Counter())[fate] += 1
            if fate in ("survived", "not reached") or options.all:
                print(f"{name}:{mutation.line}: {fate} ({mutation.kind})\n  - {was}\n  + {now}", flush=True)
        judge.server.close()
    print(_table(fates))
    return int(any(each["survived"] + each["not reached"] for each in fates.values()))


def _options(arguments: Sequence[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutate", description=__doc__.splitlines()[0])
    parser.add_argument("rooms", nargs="+", help="folders or files of the project, a file with :LINE for one line")
    parser.add_argument("--sample", type=int, help="so many changes, chosen by chance; all where it is left out")
    parser.add_argument("--seed", type=int, default=1, help="which chance; the same number gives the same changes")
    parser.add_argument("--seconds", type=float, default=90.0, help="how long the tests of one change may take in all")
    parser.add_argument("--far", action="store_true", help="ask the tests of other rooms too")
    parser.add_argument("--all", action="store_true", help="print every change, not only those that no test noticed")
    return parser.parse_args(arguments)


def _chosen(tree: Path, rooms: Sequence[str], sample: int | None, seed: int) -> list[tuple[str, Mutation]]:
    found: list[tuple[str, Mutation]] = []
    for room in rooms:
        place, _, line = room.partition(":")
        path = tree / place
        for each in sorted(path.rglob("*.py")) if path.is_dir() else [path]:
            name = each.relative_to(tree).as_posix()
            found += [(name, one) for one in mutations(each.read_bytes()) if line in ("", str(one.line))]
    if sample is not None:
        random.Random(seed).shuffle(found)
    runs = ((name, one) for name, one in found if compiles(changed((tree / name).read_bytes(), one)))
    return sorted(islice(runs, sample), key=lambda each: (each[0], each[1].start))


def _test_files(tree: Path, rooms: Sequence[str], *, far: bool) -> list[str]:
    """The files whose tests are asked: those of the rooms and the golden files; with `far` nearly all there are."""
    near = ["tests/golden/", "tests/test_figures.py"]
    for room in (Path(each.partition(":")[0]) for each in rooms):
        parts = [each.removesuffix(".py") for each in room.parts[:2]]
        near += [f"tests/{'/'.join(parts)}/", f"tests/property/test_{parts[-1]}", f"tests/outside/test_{parts[-1]}"]
    names = sorted(path.relative_to(tree).as_posix() for path in (tree / "tests").rglob("test_*.py"))
    asked = [name for name in names if not name.startswith(_LEFT_OUT) and "_in_browser" not in name]
    return [name for name in asked if far or name.startswith(tuple(near))]


def _lines(path: Path, mutation: Mutation) -> tuple[str, str]:
    """The line of a change before and after it."""
    source = path.read_bytes()
    after = changed(source, mutation)
    start = source.rfind(b"\n", 0, mutation.start) + 1
    was_end, now_end = (
        text.find(b"\n", at)
        for text, at in ((source, mutation.end), (after, mutation.start + len(mutation.after.encode())))
    )
    was, now = source[start:was_end].decode(), after[start:now_end].decode()
    return " ".join(was.split()), " ".join(now.split())


def _known() -> dict[tuple[str, str, str], str]:
    """The reason by file, line before and line after, of each change that is known to change nothing."""
    listed = tomllib.loads((Path(__file__).parent / "equivalent.toml").read_text(encoding="utf-8"))
    return {(each["file"], each["was"], each["now"]): each["why"] for each in listed.get("mutant", [])}


def _rules() -> list[dict[str, Any]]:
    """The kinds of changes that change nothing."""
    listed = tomllib.loads((Path(__file__).parent / "equivalent.toml").read_text(encoding="utf-8"))
    return list(listed.get("rule", []))


def _by_rule(mutation: Mutation, rule: Mapping[str, Any]) -> bool:
    """Whether a change is of that kind: what is exactly at a tolerance, a named one or a millionth and less, is told
    otherwise; a smaller part of one is asked for; a search may go on once more; two are exchanged of which it means
    nothing which is named first."""
    if mutation.kind == "constant":
        often = rule.get("repeated", ()) and mutation.before.isdigit() and int(mutation.before) >= min(rule["repeated"])
        parted = tuple(f"{each} / " for each in rule.get("parted", ()))
        return mutation.about[0].endswith(parted) or bool(often and mutation.about[0].endswith("for _ in range("))
    if mutation.kind == "arguments":
        return mutation.about[0] in rule.get("alike", ())
    words = set(re.findall(r"[A-Za-z_]\w*|\d[\d.]*e-\d+", " ".join(mutation.about)))
    named = not words.isdisjoint(rule.get("tolerances", ()))
    return mutation.at_the_limit and (named or any(float(word) <= 1e-6 for word in words if word[0].isdigit()))


def _out_of_date(tree: Path, known: Collection[tuple[str, str, str]]) -> Iterator[tuple[str, str, str]]:
    """Those of the known changes that no change of their file is any more."""
    for file in sorted({name for name, _, _ in known}):
        path = tree / file
        there = {_lines(path, each) for each in mutations(path.read_bytes())} if path.is_file() else set()
        yield from (each for each in known if each[0] == file and each[1:] not in there)


def _table(fates: dict[str, Counter[Fate]]) -> str:
    rows = [("room", *FATES, "killed of those that count")]
    for room, count in [*sorted(fates.items()), ("all", sum(fates.values(), Counter()))]:
        counting = count["killed"] + count["survived"] + count["not reached"]
        share = f"{count['killed'] / counting:.0%}" if counting else "-"
        rows.append((room, *(str(count[fate]) for fate in FATES), share))
    return "\n".join("| " + " | ".join(row) + " |" for row in rows)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
