"""Button stands: what a front or a back is wider beyond its centre line, so that buttoned it lies centre on centre.

How wide: from the centre to the finished edge as much as the diameter of a button (R. Carr, Couture: The Art of Fine
Sewing). The edge is finished with a facing of the same grain and shape (common practice).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Final

from drafting.alterations.finishes.button_places import button_places
from drafting.alterations.techniques.cutting.centre_line import (
    CentreLine,
    hangs_from,
    laid_to_centre,
    to_new_edge,
    with_beyond,
)
