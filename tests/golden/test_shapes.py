"""What geometry gives of a few curves, runs and outlines, as when last looked at (`python -m tests.golden`)."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Final

from tests.golden.shapes import shapes_digest

SHAPES: Final = Path(__file__).parent / "shapes"


def pages() -> Iterator[tuple[str, str]]:
    """The page by the name of its file."""
    yield "shapes/geometry.txt", shapes_digest()


def test_geometry_gives_of_every_shape_what_it_gave() -> None:
    kept = (SHAPES / "geometry.txt").read_text(encoding="utf-8").splitlines()
    assert shapes_digest().splitlines() == kept
