"""What a stranger finds on a dress (bodice, sleeve, skirt), line by line, beside what the body and the ease ask for.

Nothing here knows how the pattern was drafted: only the names that stand on the pieces, and plane geometry.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
import shapely

from tests.outside.stranger import Draft

FRONT, BACK, SLEEVE = "bodice front", "bodice back", "sleeve"
SKIRT_FRONT, SKIRT_BACK = "skirt front", "skirt back"


@dataclass(frozen=True)
class Line:
    """One line of the table, mm."""

    what: str
    found: float
    wanted: float
    within: float

    @property
    def holds(self) -> bool:
        return abs(self.found - self.wanted) <= self.within


def table(draft: Draft, body: Mapping[str, float], ease: Mapping[str, float]) -> tuple[Line, ...]:
    """Every line of the table for a dress drafted for `body` with `ease` (both mm).

    Where measurements compete the pattern states what it added instead; that is then what it is held to.
    """
    given = {**ease, **stated(draft)}
    return (
        *_bodice(draft, body, given),
        *sleeve_lines(draft, body, given),
        *_skirt(draft, body, given),
        *plain_seams(draft),
    )


def stated(draft: Draft) -> dict[str, float]:
    """The ease that a pattern says it has instead of what was asked for: only with a sentence that says it gave way."""
    (bodice,) = [origin for origin in draft.table["origin"] if origin["block"] == "bodice"]
    said = " ".join(bodice["gave_way"])
    found = {}
    if "ease round the bust" in said:
        found["bust"] = bodice["options"]["bust_ease"]
    if "armhole is" in said and "deeper" in said:
        found["scye_depth"] = bodice["options"]["scye_ease"]
    if "longer at the centre" in said:
        found["front_length"] = _measure(draft, "centre front")["ease"]
    return found


def _bodice(draft: Draft, body: Mapping[str, float], ease: Mapping[str, float]) -> Iterator[Line]:
    underarm = draft.end(BACK, "armhole", "start")[1]
    bust_level = min(float(draft.point(FRONT, "bust point")[1]), float(underarm))
    round_bust = 2.0 * (draft.level(FRONT, bust_level) + draft.level(BACK, bust_level))
    yield Line("round the bust", round_bust, body["bust_girth"] + ease["bust"], 1.0)

    waist = sum(draft.edge(piece, *_part(draft, piece, "waist")) for piece in (FRONT, BACK))
    yield Line("round the waist, darts folded", 2.0 * waist, body["waist_girth"] + ease["waist"], 1.0)

    yield Line("centre back", draft.edge(BACK, "centre back"), body["back_waist_length"], 0.5)
    front_length = body["front_waist_length_from_neck_pit"] + ease.get("front_length", 0.0)
    yield Line("centre front", draft.edge(FRONT, "centre front"), front_length, 0.5)

    front_shoulder = draft.edge(FRONT, *_part(draft, FRONT, "shoulder"))
    back_shoulder = draft.edge(BACK, *_part(draft, BACK, "shoulder"))
    yield Line("front shoulder", front_shoulder, body["shoulder_length"], 0.5)
    yield Line("back shoulder, dart folded", back_shoulder, front_shoulder, 0.5)

    neck = 2.0 * (draft.edge(FRONT, "neck") + draft.edge(BACK, "neck"))
    yield Line("neck edge", neck, body["neck_base_girth"] + ease["neck"], 1.0)

    bust_point = draft.point(FRONT, "bust point")
    fold = shapely.LineString(draft.points(FRONT, "centre front"))
    yield Line("bust points apart", 2.0 * fold.distance(shapely.Point(bust_point)), body["bust_point_breadth"], 0.5)
    side_neck = _corner(draft, FRONT, "neck", _part(draft, FRONT, "shoulder"))
    reach = float(np.hypot(*(side_neck - bust_point)))
    yield Line("side neck to bust point", reach, body["neck_to_bust_point"], 0.5)

    middle = 0.5 * (underarm + draft.end(BACK, "armhole", "end")[1])
    across = 2.0 * draft.level(BACK, middle)
    yield Line("across the back", across, body["interscye_mid_distance"] + ease["across_back"], 1.0)
    nape = max(draft.points(BACK, "centre back")[:, 1])
    yield Line("scye line below the nape", nape - underarm, body["scye_depth"] + ease["scye_depth"], 0.5)


def sleeve_lines(draft: Draft, body: Mapping[str, float], ease: Mapping[str, float]) -> Iterator[Line]:
    underarm = draft.end(SLEEVE, "cap front", "start")
    yield Line("both underarm points level", underarm[1], draft.end(SLEEVE, "cap back", "end")[1], 0.01)
    biceps = abs(underarm[0] - draft.end(SLEEVE, "cap back", "end")[0])
    yield Line("sleeve at the biceps", float(biceps), body["upper_arm_girth"] + ease["upper_arm"], 0.5)
    yield Line("sleeve at the wrist", draft.edge(SLEEVE, "wrist"), body["wrist_girth"] + ease["wrist"], 0.5)

    crown = draft.end(SLEEVE, "cap front", "end")
    plumb = shapely.LineString([crown, crown - np.array([0.0, 2000.0])])
    wrist = plumb.intersection(shapely.LineString(draft.points(SLEEVE, "wrist")))
    yield Line("crown to wrist", float(crown[1] - wrist.y), body["arm_length"], 0.5)
    elbow = float(crown[1]) - draft.line_y(SLEEVE, "elbow line")
    yield Line("crown to elbow line", elbow, body["shoulder_to_elbow"], 0.5)

    halves = []
    for name, piece, notch in (("front", FRONT, "front"), ("back", BACK, "back")):
        cap, hole = draft.seam(f"{name} armhole")
        halves.append(cap - hole)
        on_cap = draft.notch_along(f"{name} armhole", "a", SLEEVE, f"{notch} cap notch")
        on_hole = draft.notch_along(f"{name} armhole", "b", piece, f"{notch} armhole notch")
        yield Line(f"{name} cap to the notch as the armhole", on_cap, on_hole, 0.2)
    yield Line("cap minus armhole", sum(halves), ease["cap_ease"], 0.2)
    yield Line("cap ease in front as behind", halves[0], halves[1], 0.2)


def _skirt(draft: Draft, body: Mapping[str, float], ease: Mapping[str, float]) -> Iterator[Line]:
    for bodice, skirt in ((FRONT, SKIRT_FRONT), (BACK, SKIRT_BACK)):
        ours = draft.edge(skirt, *_part(draft, skirt, "waist"))
        yield Line(f"{skirt} waist as the bodice's", ours, draft.edge(bodice, *_part(draft, bodice, "waist")), 0.2)
    at_hip = 0.0
    for skirt in (SKIRT_FRONT, SKIRT_BACK):
        centre = np.vstack([draft.points(skirt, edge) for edge in _part(draft, skirt, "centre")])
        waist, level = float(max(centre[:, 1])), draft.line_y(skirt, "hip line")
        yield Line(f"{skirt} waist to hip", waist - level, body["waist_to_hip"], 0.5)
        at_hip += 2.0 * draft.level(skirt, waist - body["waist_to_hip"])
    yield Line("round the hip", at_hip, body["hip_girth"] + ease["hip"], 1.0)


def plain_seams(draft: Draft) -> Iterator[Line]:
    for seam in draft.table["seams"]:
        if seam["ease"] == {"wanted": 0.0, "low": 0.0, "high": 0.0}:
            one, other = draft.seam(seam["name"])
            yield Line(f"seam {seam['name']}", one, other, 0.1)


def _part(draft: Draft, piece: str, name: str) -> list[str]:
    """The edges of one line that darts or an opening divide."""
    edges = draft.piece(piece)["outline"]
    found = [edge["edge"] for edge in edges if edge["edge"].startswith(name) and edge["role"] != "dart leg"]
    assert found, (piece, name)
    return found


def _corner(draft: Draft, piece: str, edge: str, others: list[str]) -> np.ndarray:
    """The corner where an edge meets one of the others."""
    ends = [draft.end(piece, other, which) for other in others for which in ("start", "end")]
    for which in ("start", "end"):
        corner = draft.end(piece, edge, which)
        if any(np.allclose(corner, end, atol=1e-6) for end in ends):
            return np.asarray(corner)
    raise AssertionError(f"{edge} of {piece} meets none of {others}")


def _measure(draft: Draft, name: str) -> Mapping[str, float]:
    (found,) = [measure for measure in draft.table["measures"] if measure["name"] == name]
    return dict(found)
