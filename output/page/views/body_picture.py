"""The part of the page that draws her body: front, back, and where the tape lies for each length."""

from __future__ import annotations

from functools import lru_cache

from output.page.views.data import Data
from output.page.views.figure import draw_figure
from output.page.views.shown import Shown
from output.page.views.silhouette import silhouette
from output.page.views.tape_lines import tape_line

__all__ = ["figure"]


def figure(shown: Shown) -> Data:
    """Her body from her numbers, measured and guessed: `front` and `back` (`figure.py`), `tapes` by measurement."""
    return _drawn(tuple((each.key, each.mm) for each in shown.draft.prepared.body.known()))


@lru_cache(maxsize=8)
def _drawn(lengths: tuple[tuple[str, float], ...]) -> Data:
    body = silhouette(dict(lengths))
    tapes = {key: tape for key, _ in lengths if (tape := tape_line(key, body)) is not None}
    return {"front": draw_figure(body, "front"), "back": draw_figure(body, "back"), "tapes": tapes}
