"""The pictures of the README are those that the engine draws today, small, and each has a title."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from pathlib import Path

from tests.pictures import FOLDER, pictures

_README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")


def test_the_pictures_are_current_and_the_readme_shows_each() -> None:
    drawn = pictures()
    assert {path.name for path in FOLDER.iterdir()} == {*drawn, "page.png"}  # which a browser draws: only its size
    assert (FOLDER / "page.png").stat().st_size < 200_000
    for name, svg in drawn.items():
        kept = (FOLDER / name).read_text(encoding="utf-8")
        assert kept == svg, f"{name} is not current: python -m tests.pictures"
        assert len(kept) < 100_000
        title = ET.fromstring(kept).find("{http://www.w3.org/2000/svg}title")
        assert title is not None
        assert title.text
        assert f"](examples/pictures/{name})" in _README
