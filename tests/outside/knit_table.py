"""What a stranger finds on a knit top with sleeves and a band, line by line, beside what body, cloth and ease ask for.

Nothing here knows how the pattern was drafted: only the names that stand on the pieces, and plane geometry.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from tests.outside.dress_table import SLEEVE, Line
from tests.outside.stranger import Draft

__all__ = ["table"]

FRONT, BACK, BAND = "top front", "top back", "neck band"
_SHOULDER_IN = 5.0  # mm: half a centimetre (common practice)


def table(draft: Draft, body: Mapping[str, float], stretch: float) -> tuple[Line, ...]:
    """Every line for a top that was drafted for `body` (mm) in a knit that stretches by so much, a fraction.

    A girth for which the pattern states another ease than was asked for is held to what it states.
    """
    return (
        *_girths(draft, body, stretch),
        *_seams(draft, body),
        *_sleeve(draft),
        *_band(draft, body, stretch),
    )


def _ease(draft: Draft, name: str) -> float:
    (found,) = [measure["ease"] for measure in draft.table["measures"] if measure["name"] == name]
    return float(found)


def _girths(draft: Draft, body: Mapping[str, float], stretch: float) -> Iterator[Line]:
    for name, line in (("bust", "bust line"), ("waist", "waist line"), ("hip", "hip line")):
        found = sum(2.0 * draft.level(piece, draft.line_y(piece, line)) for piece in (FRONT, BACK))
        girth = body[f"{name}_girth"]
        if name == "bust":
            yield Line("round the bust", found, girth + _ease(draft, "bust"), 1.0)
        # never beyond the cloth: worn at a third of its stretch at the most
        short = min(0.0, found - girth / (1.0 + stretch / 3.0))
        yield Line(f"{name}, beyond the cloth", short, 0.0, 0.5)


def _seams(draft: Draft, body: Mapping[str, float]) -> Iterator[Line]:
    yield Line("side seams", draft.edge(FRONT, "side seam"), draft.edge(BACK, "side seam"), 0.01)
    yield Line("shoulders", draft.edge(FRONT, "shoulder"), draft.edge(BACK, "shoulder"), 0.01)
    shoulder = draft.edge(BACK, "shoulder")
    asked = body["shoulder_length"] + _ease(draft, "shoulder")
    yield Line("shoulder, as it says", shoulder, asked, 0.5)
    yield Line("shoulder, not beyond its end", min(0.0, body["shoulder_length"] - _SHOULDER_IN - shoulder), 0.0, 0.5)


def _sleeve(draft: Draft) -> Iterator[Line]:
    cap = draft.edge(SLEEVE, "cap front", "cap back")
    hole = draft.edge(FRONT, "armhole") + draft.edge(BACK, "armhole")
    yield Line("cap over armhole, 0 to 10", min(max(cap - hole, 0.0), 10.0), cap - hole, 0.01)
    under = [draft.edge(SLEEVE, f"underarm seam, {half}") for half in ("front", "back")]
    yield Line("underarm seams", *under, 0.01)


def _turning(draft: Draft, piece: str) -> float:
    steps = np.diff(draft.points(piece, "neck"), axis=0)
    angles = np.unwrap(np.arctan2(steps[:, 1], steps[:, 0]))
    return float(np.abs(np.diff(angles)).sum())


def _band(draft: Draft, body: Mapping[str, float], stretch: float) -> Iterator[Line]:
    ys = np.concatenate([draft.points(BAND, edge) for edge in ("end", "beginning")])[:, 1]
    width = 0.5 * float(np.ptp(ys))
    whole = 0.0
    turned = sum(_turning(draft, piece) for piece in (FRONT, BACK))
    flat = 1.0 - width * turned / sum(draft.edge(piece, "neck") for piece in (FRONT, BACK))
    for half, piece in (("front", FRONT), ("back", BACK)):
        for side in ("left", "right"):
            found = draft.edge(BAND, f"{side} {half} neck")
            whole += found
            # the turning is that of a polyline
            yield Line(f"band on the {side} {half} neck", found, flat * draft.edge(piece, "neck"), 0.3)
    edges = 2.0 * (draft.edge(FRONT, "neck") + draft.edge(BACK, "neck"))
    share = whole / edges
    yield Line("share of the band, 0.75 to 0.95", min(max(share, 0.75), 0.95), share, 1e-9)
    needs = edges / whole - 1.0
    yield Line("the band stretched to its edge, by half at the most", min(0.0, 0.5 * stretch - needs), 0.0, 1e-9)
    # all of its stretch for that moment, as in a worked example: 40.7 cm at rest go over a head of 56 at 38 %
    goes_over = min(whole * (1.0 + stretch), edges * (1.0 + stretch))
    yield Line("over a head of 56", min(0.0, goes_over - 560.0), 0.0, 0.5)
    neck = body["neck_base_girth"]
    yield Line("round the neck", min(0.0, whole - neck + 5.0), 0.0, 0.5)
