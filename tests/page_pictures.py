"""Every view of the page as Chromium shows it, to be looked at: `python -m tests.page_pictures FOLDER` writes PNGs.

`--only WORD` takes the views whose name holds it; `--readme` draws the one picture that stands in the README again.
"""

from __future__ import annotations

import argparse
import tempfile
from itertools import product
from pathlib import Path
from typing import Any, Final

from tests.outside.opened_page import ROOT, chromium, served
from tests.outside.page_views import VIEWS, View

_SIZES: Final = {"wide": (1440, 900), "phone": (360, 740)}
_README: Final = ROOT / "examples" / "pictures" / "page.png"


def _shown(browser: Any, address: str, folder: Path, view: View, size: tuple[int, int], scheme: str) -> bytes:
    """One view as a PNG: what is in the window, nothing more."""
    width, height = size
    page = browser.new_page(viewport={"width": width, "height": height}, color_scheme=scheme)
    page.set_default_timeout(20000)
    view.bring(page, address, folder)
    if view.at:
        page.wait_for_selector(view.at, state="attached")  # what comes after the pieces
        page.evaluate("(at) => document.querySelector(at).scrollIntoView()", view.at)
    page.wait_for_timeout(700)  # what glides has arrived
    picture: bytes = page.screenshot()
    page.close()
    return picture


def _all(to: Path, only: str) -> None:
    to.mkdir(parents=True, exist_ok=True)
    views = [view for view in VIEWS if only in view.name]
    with chromium() as browser, tempfile.TemporaryDirectory() as kept:
        shared = Path(kept) / "shared"
        shared.mkdir()
        with served(shared) as address:
            for view, (size, box), scheme in product(views, _SIZES.items(), ("light", "dark")):
                name = f"{view.name.replace(' ', '-')}-{size}-{scheme}"
                base = Path(kept) if view.whole else shared
                folder = base / name
                folder.mkdir()
                if view.whole:
                    with served(folder) as own:
                        picture = _shown(browser, own, folder, view, box, scheme)
                else:
                    picture = _shown(browser, address, folder, view, box, scheme)
                (to / f"{name}.png").write_bytes(picture)
                print(to / f"{name}.png", flush=True)


def _readme() -> None:
    view = next(each for each in VIEWS if each.name == "longer")
    with chromium() as browser, tempfile.TemporaryDirectory() as kept, served(Path(kept)) as address:
        folder = Path(kept) / "wardrobe"
        folder.mkdir()
        _README.write_bytes(_shown(browser, address, folder, view, (1280, 800), "light"))
    print(_README, f"{_README.stat().st_size / 1000:.0f} kB")


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description="Write every view of the page as a PNG.")
    parser.add_argument("folder", nargs="?", type=Path, default=Path("out/page"))
    parser.add_argument("--only", default="")
    parser.add_argument("--readme", action="store_true")
    told = parser.parse_args()
    if told.readme:
        _readme()
    else:
        _all(told.folder, told.only)
