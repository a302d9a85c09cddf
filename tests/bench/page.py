"""How quickly the page follows her hand, in Chromium, and whether its memory stays flat.

    python -m tests.bench.page [--changes N] [--long N] [--starts N]

From the input of a slider or a field to the frame in which the pieces have moved: medians over 50 changes, beside two
frames of an empty page in the same run, which is what any page needs to show something.
Nothing here passes or fails: a machine that is busy would decide it.

--starts: how often the command is started, to see how soon there is a page, and how soon pieces lie on it
--long: how many changes the memory is watched over, 10,000 if left out; 0 for none
"""

from __future__ import annotations

import argparse
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from tests.outside.opened_page import CHROMIUM, chromium, examples, opened, served

_PIECES = "the command to the first pieces"

_EMPTY = """async (count) => {
  const long = [];
  for (let i = 0; i < count; i++) {
    performance.mark("asked");
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    long.push(performance.measure("two frames", "asked").duration);
  }
  return long;
}"""

# an observer sees the first path that is drawn anew; the frame after it is what she sees
_CHANGES = """async ([id, values]) => {
  const field = document.getElementById(id);
  const long = [];
  let seen = () => {};
  const observer = new MutationObserver(() => seen());
  observer.observe(document.querySelector("#table svg"), {subtree: true, attributes: true, attributeFilter: ["d"]});
  for (const value of values) {
    const drawn = new Promise((done) => { seen = done; });
    performance.mark("input");
    field.value = value;
    field.dispatchEvent(new Event("input", {bubbles: true}));
    if (await Promise.race([drawn.then(() => true), new Promise((done) => setTimeout(done, 3000))])) {
      await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
      long.push(performance.measure("input to paint", "input").duration);
    }
    seen = () => {};
    await new Promise((done) => setTimeout(done, 40));
  }
  observer.disconnect();
  return long;
}"""

_FIELDS = """([words]) => [...document.querySelectorAll("input")]
  .find((each) => (each.getAttribute("aria-label") ?? "").toLowerCase().includes(words))?.id"""

_MANY = """async ([id, from, count]) => {
  const field = document.getElementById(id);
  for (let i = from; i < from + count; i++) {
    field.value = 10 + (i * 7) % 90;
    field.dispatchEvent(new Event("input", {bubbles: true}));
    await new Promise((done) => setTimeout(done, 4));
  }
}"""


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.page", description=__doc__)
    parser.add_argument("--changes", type=int, default=50)
    parser.add_argument("--long", type=int, default=10_000)
    parser.add_argument("--starts", type=int, default=5)
    asked = parser.parse_args()
    if CHROMIUM is None:
        print("no Chromium here: nothing was measured")
        return
    with tempfile.TemporaryDirectory() as folder, chromium() as browser:
        path = examples(Path(folder))
        for name in ("ten_pieces.toml", "lined_jumpsuit.toml"):
            shutil.copy(Path(__file__).parent / name, path / "garments")
        _first(browser, path, asked.starts)
        with served(path) as address:
            _speed(browser, address, asked.changes)
            if asked.long:
                _memory(browser, address, asked.long)


def _first(browser: Any, folder: Path, count: int) -> None:
    """From the command to what she sees, each time with a server of its own, beside an empty Python in the same run."""
    found: dict[str, list[float]] = {"python -c pass": [], "the command to the first page": [], _PIECES: []}
    bare, page, pieces = found.values()
    for _ in range(count):
        begun = time.perf_counter()
        subprocess.run([sys.executable, "-c", "pass"], check=True)
        bare.append(time.perf_counter() - begun)
        for long, file, shown in ((page, "", "#sheet h1"), (pieces, "#garments/ferry-dress.toml", ".piece")):
            window = browser.new_page()
            begun = time.perf_counter()
            with served(folder) as address:
                window.goto(f"{address}{file}", wait_until="commit")
                window.wait_for_selector(shown)
                long.append(time.perf_counter() - begun)
                window.close()
    for name, long in found.items():
        middle = statistics.median(long)
        print(f"{name:32}{1000 * middle:8.0f} ms, {middle / statistics.median(bare):5.1f} of an empty Python")


def _speed(browser: Any, address: str, count: int) -> None:
    blank = browser.new_page()
    empty = blank.evaluate(_EMPTY, count)
    blank.close()
    unit = statistics.median(empty)
    print(f"{'two frames of an empty page':32}{unit:8.1f} ms")
    ferry, ten = "garments/ferry-dress.toml", "garments/ten_pieces.toml"
    jumpsuit = "garments/lined_jumpsuit.toml"
    sleeve = [str(10 + (7 * k) % 90) for k in range(count)]
    girth = [f"{98.5 + 0.1 * (1 + k % 30):.1f}" for k in range(count)]
    for name, file, field, values in (
        ("sleeve slider", ferry, "step-0-by-slider", sleeve),
        ("bust girth", ferry, "bust", girth),
        ("bust ease slider", ferry, "block-0-ease-bust-slider", [str(40 + (7 * k) % 50) for k in range(count)]),
        ("sleeve slider, ten pieces", ten, "step-0-by-slider", sleeve),
        ("sleeve slider, lined jumpsuit", jumpsuit, "step-0-by-slider", sleeve),
        ("bust girth, lined jumpsuit", jumpsuit, "bust", girth),
    ):
        page = opened(browser, address, file)
        page.wait_for_timeout(1000)
        found = field if page.query_selector(f"#{field}") else page.evaluate(_FIELDS, [field])
        _told(name, page.evaluate(_CHANGES, [found, values]), count, unit)
        page.close()


def _told(name: str, long: Sequence[float], count: int, unit: float) -> None:
    if not long:
        print(f"{name:32}nothing was drawn")
        return
    middle, late = statistics.median(long), sorted(long)[int(0.95 * (len(long) - 1))]
    missed = f", {count - len(long)} drew nothing" if len(long) < count else ""
    print(f"{name:32}{middle:8.1f} ms, {middle / unit:5.2f} of two frames; 95 of 100 within {late:.1f} ms{missed}")


def _memory(browser: Any, address: str, count: int) -> None:
    page = opened(browser, address, "garments/ferry-dress.toml")
    asked = page.context.new_cdp_session(page)
    rounds = 10
    for done in range(rounds + 1):
        if done:
            page.evaluate(_MANY, ["step-0-by-slider", (done - 1) * count // rounds, count // rounds])
            page.wait_for_timeout(300)
        asked.send("HeapProfiler.collectGarbage")
        heap = asked.send("Runtime.getHeapUsage")["usedSize"] / 1e6
        nodes = page.evaluate("document.getElementsByTagName('*').length")
        print(f"{f'after {done * count // rounds} changes':32}{heap:8.2f} MB, {nodes} elements")
    page.close()


if __name__ == "__main__":
    main()
