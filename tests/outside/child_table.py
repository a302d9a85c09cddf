"""What a stranger finds on a child's dress (bodice, sleeve, skirt), line by line, beside what body and ease ask for.

Nothing here knows how the pattern was drafted: only the names that stand on the pieces, and plane geometry.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from tests.outside.dress_table import BACK, FRONT, SKIRT_BACK, SKIRT_FRONT, Line, plain_seams, sleeve_lines
from tests.outside.stranger import Draft

__all__ = ["table"]


def table(draft: Draft, body: Mapping[str, float], ease: Mapping[str, float]) -> tuple[Line, ...]:
    """Every line for a dress drafted for `body` with `ease` (both mm).

    Where a place has other than what was asked for, the pattern states so in a sentence; it is then held to its own.
    """
    return (
        *_bodice(draft, body, _stated(draft, ease)),
        *sleeve_lines(draft, body, {**ease, "upper_arm": _added(draft, "upper arm")}),
        *_skirt(draft, body, ease),
        *plain_seams(draft),
    )


def _stated(draft: Draft, ease: Mapping[str, float]) -> dict[str, float]:
    (bodice,) = [origin for origin in draft.table["origin"] if origin["block"] == "child's bodice"]
    said, found = " ".join(bodice["gave_way"]), dict(ease)
    if "ease round the bust" in said:
        found["bust"] = bodice["options"]["bust_ease"]
    if "armhole is" in said and "deeper" in said:
        found["scye_depth"] = bodice["options"]["scye_ease"]
    if "ease round the waist" in said:
        found["waist"] = np.nan
    if "ease across the back" in said:
        found["across_back"] = np.nan
    return found


def _added(draft: Draft, name: str) -> float:
    """The ease that the pattern says it added to a measurement: a low cap asks for more than the table has."""
    (found,) = [measure["ease"] for measure in draft.table["measures"] if measure["name"] == name]
    return float(found)


def _bodice(draft: Draft, body: Mapping[str, float], ease: Mapping[str, float]) -> Iterator[Line]:
    chest = sum(2.0 * draft.level(piece, draft.line_y(piece, "chest line")) for piece in (FRONT, BACK))
    yield Line("round the chest", chest, body["bust_girth"] + ease["bust"], 1.0)
    waist = sum(2.0 * draft.edge(piece, "waist") for piece in (FRONT, BACK))
    if not np.isnan(ease["waist"]):
        yield Line("round the waist", waist, body["waist_girth"] + ease["waist"], 1.0)
    back = _centre(draft, BACK)
    yield Line("centre back", float(np.ptp(back)), body["back_waist_length"], 0.5)
    front = float(np.ptp(_centre(draft, FRONT)))
    yield Line("centre front", front, body["front_waist_length_from_neck_pit"], 0.5)
    neck = 2.0 * (draft.edge(FRONT, "neck") + draft.edge(BACK, "neck"))
    yield Line("neck edge", neck, body["neck_base_girth"] + ease["neck"], 1.0)
    for piece in (FRONT, BACK):
        yield Line(f"shoulder of {piece}", draft.edge(piece, "shoulder"), body["shoulder_length"], 0.5)
    underarm, tip = (float(draft.end(BACK, "armhole", end)[1]) for end in ("start", "end"))
    if not np.isnan(ease["across_back"]):
        across = 2.0 * draft.level(BACK, 0.5 * (underarm + tip))
        yield Line("across the back", across, body["interscye_mid_distance"] + ease["across_back"], 1.0)
    yield Line("scye line below the nape", max(back) - underarm, body["scye_depth"] + ease["scye_depth"], 0.5)
    yield Line("side seams", draft.edge(FRONT, "side seam"), draft.edge(BACK, "side seam"), 0.01)


def _skirt(draft: Draft, body: Mapping[str, float], ease: Mapping[str, float]) -> Iterator[Line]:
    for piece in (SKIRT_FRONT, SKIRT_BACK):
        depth = float(max(_centre(draft, piece))) - draft.line_y(piece, "hip line")
        yield Line(f"{piece} waist to hip", depth, body["waist_to_hip"], 0.5)
    hip = sum(2.0 * draft.level(piece, draft.line_y(piece, "hip line")) for piece in (SKIRT_FRONT, SKIRT_BACK))
    short = min(hip - body["hip_girth"] - ease["hip"], 0.0)
    yield Line("round the hip, at the least", short, 0.0, 1.0)


def _centre(draft: Draft, piece: str) -> np.ndarray:
    """The heights of the points of a centre line, which an opening may part."""
    names = [edge["edge"] for edge in draft.piece(piece)["outline"] if edge["edge"].startswith("centre")]
    return np.concatenate([draft.points(piece, name)[:, 1] for name in names])
