"""The garment as it would look, flat, from the front and from the back."""

from __future__ import annotations

from output.api import Draft
from output.api.screen_lines import garment_lines
from output.page.views.data import Data

__all__ = ["flat"]


def flat(drafted: Draft) -> Data:
    """How the garment looks from either side.

    views: side ("front" or "back"), lines ("strong" and "fine" path data, mm, y down), box
    """
    return {
        "views": [
            {"side": view.side, "lines": dict(view.lines), "box": [round(each, 1) for each in view.box]}
            for view in garment_lines(drafted)
        ]
    }
