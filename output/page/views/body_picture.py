"""The part of the page that draws her body: front, back, and where the tape lies for each length."""

from __future__ import annotations

from output.api.body import body_figure
from output.page.views.data import Data
from output.page.views.shown import Shown

__all__ = ["figure"]


def figure(shown: Shown) -> Data:
    """Her body from her numbers, measured and guessed, as `body_figure` gives it."""
    body = shown.draft.prepared.body
    return body_figure({each.key: each.mm for each in body.known()}, body.person.body)
