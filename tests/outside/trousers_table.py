"""What a stranger finds on trousers, line by line, beside what the body and the ease ask for.

Nothing here knows how they were drafted: only the names that stand on the pieces, and plane geometry.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from tests.outside.dress_table import Line, plain_seams
from tests.outside.stranger import Draft

__all__ = ["table"]

FRONT, BACK = "trousers front", "trousers back"


def table(draft: Draft, body: Mapping[str, float], ease: Mapping[str, float]) -> tuple[Line, ...]:
    """Every line of the table for trousers drafted for `body` with `ease` (both mm)."""
    return (*_girths(draft, body, ease), *_crotch(draft, body, ease), *_leg(draft), *plain_seams(draft))


def _girths(draft: Draft, body: Mapping[str, float], ease: Mapping[str, float]) -> Iterator[Line]:
    waist = 2.0 * sum(draft.edge(piece, *_edges(draft, piece, "waist")) for piece in (FRONT, BACK))
    yield Line("round the waist, darts folded", waist, body["waist_girth"] + ease["waist"], 1.0)
    hip = 2.0 * sum(draft.width(piece, "hip line") for piece in (FRONT, BACK))
    yield Line("round the hip", hip, body["hip_girth"] + ease["hip"], 1.0)
    for place in ("thigh", "knee"):
        if any(line["name"] == f"{place} line" for line in draft.piece(FRONT)["lines"]):
            found = sum(draft.width(piece, f"{place} line") for piece in (FRONT, BACK))
            yield Line(f"round the {place}", found, body[f"{place}_girth"] + _stated(draft, place), 1.0)
    hem = sum(draft.edge(piece, "hem") for piece in (FRONT, BACK))
    yield Line("round the hem", hem, _option(draft, "hem_width"), 1.0)


def _crotch(draft: Draft, body: Mapping[str, float], ease: Mapping[str, float]) -> Iterator[Line]:
    strip = _option(draft, "ease_at_waist")
    top = max(float(draft.points(FRONT, edge)[:, 1].max()) for edge in _edges(draft, FRONT, "centre front"))
    depth = top - draft.line_y(FRONT, "crotch line")
    rise = body["waist_height"] - body["crotch_height"]
    yield Line("depth of the crotch", depth, rise + ease["crotch_depth"] + strip, 1.0)
    fork = min(float(draft.points(FRONT, "front crotch")[:, 1].min()), top)
    yield Line("the fork lies at the crotch line", fork, draft.line_y(FRONT, "crotch line"), 0.01)
    lengths = {
        FRONT: draft.edge(FRONT, *_edges(draft, FRONT, "centre front"), "front crotch"),
        BACK: draft.edge(BACK, *_edges(draft, BACK, "centre back"), "back crotch"),
    }
    said = " ".join(_origin(draft)["gave_way"])
    if "through the crotch" not in said:
        wanted = body["crotch_length"] + ease["crotch_length"] + 2.0 * strip
        yield Line("length of the crotch", sum(lengths.values()), wanted, 1.0)
    yield Line("the back is the longer", float(lengths[BACK] > lengths[FRONT]), 1.0, 0.0)
    for piece, crotch in ((FRONT, "front crotch"), (BACK, "back crotch")):
        yield Line(f"{piece}: crotch square to the inside leg", _corner(draft, piece, crotch), 90.0, 1.5)


def _leg(draft: Draft) -> Iterator[Line]:
    inseams = [draft.edge(piece, "inseam") for piece in (FRONT, BACK)]
    yield Line("inseam of the back short of the front's", inseams[0] - inseams[1], _option(draft, "inseam_ease"), 0.01)
    outseams = [draft.edge(piece, *_edges(draft, piece, "side seam")) for piece in (FRONT, BACK)]
    yield Line("outseams", outseams[0], outseams[1], 0.01)
    if any(line["name"] == "knee line" for line in draft.piece(FRONT)["lines"]):
        for seam, edge in (("trousers side seam", "side seam"), ("inseam", "inseam")):
            below = [_below_knee(draft, piece, edge) for piece in (FRONT, BACK)]
            yield Line(f"{seam} below the knee", below[0], below[1], 0.01)
    for piece in (FRONT, BACK):
        mark = next(line for line in draft.piece(piece)["lines"] if line["name"] == "crease line")
        yield Line(f"{piece}: crease upright", mark["from"][0] - mark["to"][0], 0.0, 1e-6)
        one, other = draft.piece(piece)["grain"]
        yield Line(f"{piece}: grain along the crease", one[0] - other[0], 0.0, 1e-6)
        hem = draft.points(piece, "hem")[:, 0]
        if any(line["name"] == "knee line" for line in draft.piece(piece)["lines"]):
            yield Line(f"{piece}: crease in the middle of the hem", mark["to"][0], float(hem.mean()), 0.01)


def _below_knee(draft: Draft, piece: str, edge: str) -> float:
    """The part of a seam of the leg that lies below the knee, mm."""
    points = np.vstack([draft.points(piece, name) for name in _edges(draft, piece, edge)])
    knee = draft.line_y(piece, "knee line")
    under = points[points[:, 1] <= knee + 1e-6]
    return float(np.hypot(*np.diff(under, axis=0).T).sum())


def _corner(draft: Draft, piece: str, crotch: str) -> float:
    """The angle of cloth between the crotch and the inside leg at the end of the fork, degrees."""
    one, other = draft.points(piece, crotch), draft.points(piece, "inseam")
    if not np.allclose(one[-1], other[0]):
        one, other = one[::-1], other[::-1]
    back, down = one[-2] - one[-1], other[1] - other[0]
    cosine = float(np.dot(back, down) / np.hypot(*back) / np.hypot(*down))
    return float(np.degrees(np.arccos(cosine)))


def _edges(draft: Draft, piece: str, name: str) -> list[str]:
    edges = draft.piece(piece)["outline"]
    return [edge["edge"] for edge in edges if edge["edge"].startswith(name) and edge["role"] != "dart leg"]


def _origin(draft: Draft) -> Mapping[str, object]:
    (found,) = [origin for origin in draft.table["origin"] if origin["block"] == "trousers"]
    return found


def _option(draft: Draft, name: str) -> float:
    return float(_origin(draft)["options"][name])


def _stated(draft: Draft, name: str) -> float:
    (found,) = [measure for measure in draft.table["measures"] if measure["name"] == name]
    return float(found["ease"])
