"""Kill the command at random moments and look at what it leaves: `python -m tests.kills` (200 times; `--count N`).

Half of the kills come at any time of the run, half within some milliseconds of the first file being written. A garment
and a nest take turns. After each the folder must hold one whole result, the one before or the new one, byte for byte;
then the next run must leave nothing but its own. `tests/output/files/test_files_killed.py` does it at chosen moments.
"""

from __future__ import annotations

import argparse
import contextlib
import os
import random
import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Mapping
from pathlib import Path

from output.command import main
from tests.output.running import PERSON, SKIRT, everything_in

NEST = "[sizes]\nnest = [88, 92]\n"
_OTHER = ("55 cm", "60 cm")
Whole = Mapping[str, bytes]


def orders(folder: Path) -> tuple[tuple[Path, Path], ...]:
    """Garment files in pairs: the same garment, and the same nest, once shorter and once longer."""
    (folder / "inga.toml").write_text(PERSON, encoding="utf-8")
    nest = SKIRT.replace('wearer = "inga.toml"\n', NEST)
    pairs = []
    for name, text in (("skirt", SKIRT), ("nest", nest)):
        pair = []
        for length in _OTHER:
            path = folder / f"{name}-{length[:2]}.toml"
            path.write_text(text.replace(_OTHER[0], length), encoding="utf-8")
            pair.append(path)
        pairs.append((pair[0], pair[1]))
    return tuple(pairs)


def words(garment: Path, to: Path) -> list[str]:
    """What the command is asked; on large paper, which is soonest drawn."""
    return ["draft", str(garment), "--to", str(to), "--paper", "A0"]


def started(garment: Path, to: Path) -> int:
    """A child that runs the command; its number."""
    number = os.fork()
    if number == 0:
        with open(os.devnull, "w", encoding="utf-8") as nowhere:
            os.dup2(nowhere.fileno(), 1)
            os.dup2(nowhere.fileno(), 2)
            os._exit(main(words(garment, to)))
    return number


def ended(number: int) -> int:
    """How a child ended."""
    return os.waitstatus_to_exitcode(os.waitpid(number, 0)[1])


def killed(garment: Path, to: Path, chance: random.Random, lasts: float, *, early: bool) -> None:
    """Run the command and kill it: at any time, or when it has begun to write."""
    number = started(garment, to)
    if early:
        time.sleep(chance.uniform(0.0, lasts))
    else:
        at_work = to.with_name(f".trueseam-{to.name}.new")
        end = time.monotonic() + 60.0
        while not at_work.exists() and time.monotonic() < end:
            time.sleep(0.0002)
        time.sleep(chance.uniform(0.0, 0.03))
    os.kill(number, signal.SIGKILL)
    os.waitpid(number, 0)


def results(pair: tuple[Path, Path], to: Path) -> tuple[Whole, list[Whole], float]:
    """What a pair of garments gives when nobody disturbs it, and how long one run takes, s.

    The one after the other; the other after the one and after itself: the report says what changed since the draft that
    stood there. The first run is in this process, so that its children find loaded what they need.
    """
    one, other = pair
    with open(os.devnull, "w", encoding="utf-8") as nowhere, contextlib.redirect_stdout(nowhere):
        main(words(other, to))
    whole = []
    for garment in (one, other, other):
        begun = time.monotonic()
        status = ended(started(garment, to))
        if status not in (0, 1):
            raise AssertionError((garment, status))
        lasts = time.monotonic() - begun
        whole.append(everything_in(to))
    return whole[0], whole[1:], lasts


def count_kills(count: int, folder: Path, seed: int = 1) -> Counter[str]:
    """What so many kills left: "old" and "new" by how often; anything else is told as it is found."""
    chance = random.Random(seed)
    found: Counter[str] = Counter()
    pairs = [(pair, folder / pair[0].stem / "out") for pair in orders(folder)][:count]
    known = [results(pair, to) for pair, to in pairs]
    for n in range(count):
        (pair, to), (one, other, lasts) = pairs[n % len(pairs)], known[n % len(pairs)]
        # what stands there now is the other one: the one before must be told from the new one
        killed(pair[0], to, chance, lasts, early=n % 4 < 2)
        there = everything_in(to)
        found["old" if there in other else "new" if there == one else "a mix"] += 1
        found["left beside it"] += len(os.listdir(to.parent)) > 1
        again = ended(started(pair[1], to))
        if again not in (0, 1) or everything_in(to) not in other or os.listdir(to.parent) != ["out"]:
            found["not put right by the next run"] += 1
    return found


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=200)
    with tempfile.TemporaryDirectory() as scratch:
        counted = count_kills(parser.parse_args().count, Path(scratch))
    print(", ".join(f"{what}: {many}" for what, many in sorted(counted.items())))
    sys.exit(1 if counted["a mix"] or counted["not put right by the next run"] else 0)
