"""The page opened in Chromium: the real server on a folder of its own, driven by Playwright."""

from __future__ import annotations

import json
import os
import secrets
import shutil
import socket
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Thread
from typing import Any

from output.page.folder import Folder
from output.page.open_log import open_log
from output.page.safety import Door

FERRY = "garments/ferry-dress.toml"
LANTERN = "garments/lantern-dress.toml"
TOLLHOUSE = "garments/tollhouse-dress.toml"
ROOT = Path(__file__).parents[2]
AXE = (ROOT / "tests" / "data" / "axe" / "axe.min.js").read_text(encoding="utf-8")
CHROMIUM = next(
    filter(None, map(shutil.which, ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome"))), None
)
_NOTHING = "nothing"
"""An address of the server that shows nothing."""
_LEFT = "#left"
"""What the address ends with of a page that its test has left: it can be led to another garment."""
QUIET = (
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync"),
)


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The address of the page of a folder, as long as it is asked for: of the same server, in a thread of this process.

    A process of its own, which `serving` starts, loads the engine anew and drafts everything for the first time.
    """
    from output.page.server import page_server  # late: where there is no browser nobody asks for it

    shown = Folder.at(folder)
    opened = open_log(shown)
    with socket.create_server(("127.0.0.1", 0), backlog=128) as listening:
        door = Door(listening.getsockname()[1], secrets.token_urlsafe(24))
        server = page_server(shown, opened, door)
        running = Thread(target=server.run, kwargs={"sockets": [listening]})
        running.start()
        try:
            yield door.address
        finally:
            server.end()
            running.join()
            opened.log.close()


@contextmanager
def serving(folder: Path) -> Iterator[tuple[str, int]]:
    """The address of the page of a folder, and the number of the process that serves it, started as she starts it."""
    command = [sys.executable, "-m", "output.command", "open", str(folder), "--no-browser", "--json"]
    server = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True)
    try:
        assert server.stdout is not None
        yield json.loads(server.stdout.readline())["address"], server.pid
    finally:
        server.terminate()
        server.wait()


@contextmanager
def chromium() -> Iterator[Any]:
    """A browser."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
        try:
            yield browser
        finally:
            browser.close()


def blank(browser: Any, *, width: int = 1440, height: int = 900, **how: Any) -> Any:
    """A page with nothing in it yet; `how` as Playwright's new_page takes it.

    A plain one is the page that another test has left: opening a window costs the browser more than most tests do.
    """
    plain = browser.contexts[0].pages if browser.contexts and not how else []
    free = [page for page in plain if page.url == "about:blank" or page.url.endswith((_NOTHING, _LEFT))]
    page = free[0] if free else browser.new_page(viewport={"width": width, "height": height}, **how)
    page.set_viewport_size({"width": width, "height": height})
    return page


_THIN = """(most) => {
  const told = new Set(["class", "role", "type", "open", "disabled", "hidden", "tabindex", "data-state"]);
  const says = ({name, value}) => told.has(name) || (name.startsWith("aria-") && value.length < 6)
    ? `${name}=${value}` : name;
  const made = new Map();
  const look = (each) => {
    const below = [...each.children].map(look);
    const how = `${each.tagName}(${[...each.attributes].map(says)})<${[...new Set(below)]}>`;
    made.set(each, how);
    return how;
  };
  look(document.body);
  for (const parent of made.keys()) {
    const seen = new Map();
    for (const each of parent.children) {
      if (each.tagName === "OPTION" || !each.checkVisibility()) continue;
      const count = (seen.get(made.get(each)) ?? 0) + 1;
      seen.set(made.get(each), count);
      if (count > most) each.style.setProperty("display", "none", "important");
    }
  }
}"""


def thinned(page: Any) -> None:
    """Of things that stand side by side and are made alike, of the same tags, classes and states all the way down,
    however many of them, two stay shown: a checker that looks at every one of a hundred fields takes seconds, and says
    the same of each.
    """
    page.evaluate(_THIN, 2)
    spoilt(page)


def spoilt(page: Any) -> None:
    """Says that a test has taken something out of a page, which is loaded again for the next."""
    page.evaluate("document.body.dataset.spoilt = ''")


def put_back(browser: Any) -> None:
    """Every page is closed but the plain one, which is emptied, so that nothing of this test is left to the next.

    It stays with its server, which has nothing to show there: a page of nowhere costs a new process each time.
    """
    from playwright.sync_api import Error

    if not browser.contexts:
        browser.new_page()
    plain, *others = browser.contexts
    for context in others:
        context.close()
    page, *more = plain.pages or [plain.new_page()]
    for each in more:
        each.close()
    page.emulate_media(color_scheme="null", reduced_motion="null")
    if page.url.startswith("http"):
        page.evaluate("localStorage.clear()")
        try:
            if "#" in page.url and page.locator("body[data-spoilt]").count() == 0:
                page.evaluate("(left) => history.replaceState(null, '', left)", _LEFT)
            else:
                page.goto("/".join([*page.url.split("/")[:3], _NOTHING]))
        except Error:  # its server has ended with the test
            plain.close()
            browser.new_page()


def examples(into: Path, *garments: str) -> Path:
    """A folder with the people and the garments of the examples, or with only some of the garments."""
    shutil.copytree(ROOT / "examples" / "people", into / "people")
    (into / "garments").mkdir()
    for path in (ROOT / "examples" / "garments").glob("*.toml"):
        if not garments or f"garments/{path.name}" in garments:
            shutil.copy(path, into / "garments")
    return into


_LEAD = """async (file) => {
  for (const each of ["none.toml", file]) {
    const heard = new Promise((done) => addEventListener("hashchange", done, {once: true}));
    location.hash = each;
    await heard;
  }
  scrollTo(0, 0);
  document.getElementById("sheet").scrollTo(0, 0);
}"""


def go_to(page: Any, address: str, file: str) -> None:
    """Leads a page to a garment.

    Where another garment of the same server is still open from the test before, it is led on to this one, as a link of
    the page does: to load the page again took half of the time of opening. What was open is ended first.
    """
    if page.url == f"{address}{_LEFT}":
        page.evaluate(_LEAD, file)
    else:
        page.goto(f"{address}#{file}")


def opened(browser: Any, address: str, file: str, *, width: int = 1440, height: int = 900, **how: Any) -> Any:
    """A page that shows a garment of the folder, all of its pieces drawn."""
    page = blank(browser, width=width, height=height, **how)
    page.set_default_timeout(12_000)
    go_to(page, address, file)
    page.wait_for_selector(".piece")
    page.wait_for_function("() => document.querySelectorAll('.labels .first').length > 0")
    page.wait_for_selector("#what")  # what comes after the first look
    return page


def until(page: Any, true: str, given: Any = None) -> None:
    """Waits until something is true, told as the body of a function of what is `given`."""
    page.wait_for_function(f"(given) => {true}", arg=given, timeout=20000, polling=50)


def written(page: Any, words: str) -> None:
    """Waits until the undo button names a change: then it is in the file."""
    until(page, "document.querySelector('.head-row button').textContent.includes(given)", words)


def shown(browser: Any, server: tuple[Path, str, int], folder: Path, file: str, **how: Any) -> Any:
    return opened(browser, server[1], f"{folder.name}/{file}", **how)


def steps(file: Path) -> list[dict[str, Any]]:
    return tomllib.loads(file.read_text(encoding="utf-8"))["step"]


def saved(file: Path, old: str, new: str) -> None:
    """What an editor does: the file is written beside and put in its place."""
    text = file.read_text(encoding="utf-8")
    assert old in text
    beside = file.with_suffix(".new")
    beside.write_text(text.replace(old, new, 1), encoding="utf-8")
    os.replace(beside, file)


def made(page: Any, name: str, press: Any = None) -> bytes:
    """Has something made, waits, and takes the download."""
    button = page.get_by_role("button", name=name)
    (press or button.click)()
    link = page.locator(".things li", has=button).locator("a[download]")
    link.wait_for(timeout=60000)
    with page.expect_download() as coming:
        link.click()
    return Path(coming.value.path()).read_bytes()
