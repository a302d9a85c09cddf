"""Where the tape lies for each measurement, drawn on the figure: round it, along it, or beside it for a height."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from output.figure.draw_figure import Side
from output.figure.silhouette import XY, Data, Silhouette, armpit_at, knee_at, smooth

__all__ = ["tape_line"]

_TRUNK: Final = 0.16
_LIMB: Final = 0.28
"""How deep a tape round the body is drawn, for its breadth: it is looked at a little from above (ours)."""


def tape_line(key: str, body: Silhouette) -> Data | None:
    """Where the tape lies for a measurement; None where it is not drawn.

    side: "front" or "back"; near: the tape, as a path; far: what of it lies behind the body; "" for nothing
    pins: where it begins and ends; level: thin lines that show a height; both as paths
    """
    draw = _TAPES.get(key)
    return draw(body) if draw else None


def _line(points: list[XY], side: Side = "front", *, level: str = "") -> Data:
    pins = "".join(f"M{x - 0.9:.2f} {y:.2f}a.9.9 0 1 0 1.8 0a.9.9 0 1 0 -1.8 0" for x, y in (points[0], points[-1]))
    return {"side": side, "near": smooth(points), "far": "", "pins": pins, "level": level}


def _ring(middle: XY, half: float, *, flat: float = _TRUNK, tilt: float = 0.0, side: Side = "front") -> Data:
    """A tape round the body: its nearer half, and its farther one behind."""
    across = half * math.cos(tilt), -half * math.sin(tilt)
    (x, y), (dx, dy) = middle, across
    turned = -math.degrees(tilt)
    ends = f"{x + dx:.2f} {y + dy:.2f}"
    start = f"M{x - dx:.2f} {y - dy:.2f}A{half:.2f} {half * flat:.2f} {turned:.1f} 0"
    return {"side": side, "near": f"{start} 0 {ends}", "far": f"{start} 1 {ends}", "pins": "", "level": ""}


def _round(level: str, half: str, down: float = 0.0) -> Callable[[Silhouette], Data]:
    return lambda body: _ring((0.0, body.y[level] + down), body.half[half] + 0.3)


def _round_arm(key: str, where: Callable[[Silhouette], float]) -> Callable[[Silhouette], Data]:
    def draw(body: Silhouette) -> Data:
        return _ring(body.along(where(body)), body.thick(key) + 0.3, flat=_LIMB, tilt=body.tilt)

    return draw


def _round_leg(key: str, where: Callable[[Silhouette], XY]) -> Callable[[Silhouette], Data]:
    return lambda body: _ring(where(body), body.thick(key) + 0.2, flat=_LIMB)


def _down_back(to: Callable[[Silhouette], float]) -> Callable[[Silhouette], Data]:
    return lambda body: _line([(0.0, body.y["nape"]), (0.0, to(body))], "back")


def _across_back(level: Callable[[Silhouette], float], key: str, part: float) -> Callable[[Silhouette], Data]:
    def draw(body: Silhouette) -> Data:
        most = part * armpit_at(body)  # the way is longer over the back than across it
        half = min(0.5 * body.cm.get(key, 200.0), most)
        return _line([(-half, level(body)), (half, level(body))], "back")

    return draw


def _height(level: Callable[[Silhouette], float], side: Side = "front") -> Callable[[Silhouette], Data]:
    """A height from the floor: the tape stands beside the body, a thin line leads to the place."""

    def draw(body: Silhouette) -> Data:
        top, floor, x = level(body), body.y["floor"], _beside(body)
        lines = f"M0 {top:.2f}H{x + 2:.2f}M{0.3 * x:.2f} {floor:.2f}H{x + 2:.2f}"
        return _line([(x, floor), (x, top)], side, level=lines)

    return draw


def _beside(body: Silhouette) -> float:
    """How far out a tape stands that is held upright beside the body, cm: past the hand."""
    return body.along(body.arm + 0.1 * body.height)[0] + 1.5


def _on_arm(body: Silhouette, to: float) -> list[XY]:
    upper, elbow, wrist = (body.thick(f"{name}_girth") for name in ("upper_arm", "elbow", "wrist"))
    way = [(2.6, 0.72 * upper), (0.5 * body.elbow, 0.97 * upper), (body.elbow, 0.94 * elbow)]
    way += [(0.5 * (body.elbow + body.arm), 0.5 * (elbow + wrist)), (body.arm, wrist)]
    start = body.shoulder - 0.8, body.y["shoulder"] - 0.2
    return [start, *(body.along(down, out + 0.3) for down, out in way if down <= to + 0.1)]


def _leg(body: Silhouette, level: float) -> XY:
    """The middle of the leg at a level."""
    thigh, knee = body.thick("thigh_girth") + 0.5, knee_at(body)
    part = (level - body.y["crotch"]) / (body.y["knee"] - body.y["crotch"])
    return thigh + min(max(part, 0.0), 1.0) * (knee - thigh) - max(0.0, part - 1.0) * 0.1 * knee, level


def _side_neck(body: Silhouette) -> XY:
    return body.half["neck base"], body.y["side neck"] - 0.3


def _shoulder(body: Silhouette) -> XY:
    return body.shoulder - 0.8, body.y["shoulder"] - 0.2


def _bust_point(body: Silhouette) -> XY:
    return 0.5 * body.cm["bust_point_breadth"], body.y["bust"]


def _flank(body: Silhouette) -> Data:
    waist, hip, down = body.half["waist"] + 0.4, body.half["hip"] + 0.4, body.y["hip"] - body.y["waist"]
    middle = waist + 0.62 * (hip - waist), body.y["waist"] + 0.5 * down
    return _line([(waist, body.y["waist"]), middle, (hip, body.y["hip"])])


def _armhole(body: Silhouette) -> Data:
    x, y = _shoulder(body)
    low = armpit_at(body), body.y["armpit"] - 0.6
    tall = 0.5 * math.hypot(x - low[0], y - low[1])
    tilt = math.atan2(low[1] - y, x - low[0]) - math.pi
    return _ring((0.5 * (x + low[0]), 0.5 * (y + low[1])), tall, flat=0.3, tilt=-tilt)


def _between(one: str, other: str) -> Callable[[Silhouette], float]:
    return lambda body: 0.5 * (body.y[one] + body.y[other])


def _at(level: str) -> Callable[[Silhouette], float]:
    return lambda body: body.y[level]


_TAPES: Final[Mapping[str, Callable[[Silhouette], Data]]] = MappingProxyType(
    {
        "stature": _height(lambda _body: 0.0),
        "bust_girth": _round("bust", "bust"),
        "waist_girth": _round("waist", "waist"),
        "hip_girth": _round("hip", "hip"),
        "upper_chest_girth": lambda body: _ring((0.0, body.y["armpit"] - 1.0), armpit_at(body) + 0.3),
        "under_bust_girth": lambda body: _ring(
            (0.0, 0.55 * body.y["bust"] + 0.45 * body.y["waist"]), body.half["under bust"] + 0.3
        ),
        "head_girth": lambda body: _ring((0.0, 0.34 * body.head), body.half["head"] + 0.4, flat=0.24),
        "neck_base_girth": lambda body: _ring(
            (0.0, body.y["side neck"] + 0.2), body.half["neck base"] + 0.4, flat=0.42
        ),
        "shoulder_length": lambda body: _line(
            [
                _side_neck(body),
                (
                    0.45 * _side_neck(body)[0] + 0.55 * body.shoulder,
                    0.52 * body.y["side neck"] + 0.48 * body.y["shoulder"],
                ),
                _shoulder(body),
            ]
        ),
        "interscye_mid_distance": _across_back(_between("shoulder", "armpit"), "interscye_mid_distance", 1.04),
        "interscye_distance": _across_back(_at("armpit"), "interscye_distance", 1.06),
        "biacromial_breadth": _across_back(_at("shoulder"), "biacromial_breadth", 1.1),
        "bust_point_breadth": lambda body: _line([(-_bust_point(body)[0], body.y["bust"]), _bust_point(body)]),
        "neck_to_bust_point": lambda body: _line([_side_neck(body), _bust_point(body)]),
        "back_waist_length": _down_back(_at("waist")),
        "scye_depth": _down_back(_at("armpit")),
        "front_waist_length_from_neck_pit": lambda body: _line([(0.0, body.y["pit"]), (0.0, body.y["waist"])]),
        "scye_girth": _armhole,
        "shoulder_drop": lambda body: _line(
            [(_shoulder(body)[0], body.y["side neck"]), _shoulder(body)],
            level=f"M{_side_neck(body)[0]:.2f} {body.y['side neck']:.2f}H{body.shoulder + 2:.2f}",
        ),
        "upper_arm_girth": _round_arm("upper_arm_girth", lambda body: 0.3 * body.elbow + 1.0),
        "elbow_girth": _round_arm("elbow_girth", lambda body: body.elbow),
        "wrist_girth": _round_arm("wrist_girth", lambda body: body.arm - 0.5),
        "arm_length": lambda body: _line(_on_arm(body, body.arm)),
        "shoulder_to_elbow": lambda body: _line(_on_arm(body, body.elbow)),
        "waist_to_hip": _flank,
        "cervicale_height": _height(_at("nape"), "back"),
        "neck_side_height": _height(_at("side neck")),
        "neck_pit_height": _height(_at("pit")),
        "shoulder_height": _height(_at("shoulder")),
        "axilla_height": _height(_at("armpit")),
        "bust_height": _height(_at("bust")),
        "waist_height": _height(_at("waist")),
        "hip_height": _height(_at("hip")),
        "crotch_height": lambda body: _line([(0.0, body.y["floor"]), (0.0, body.y["crotch"] + 0.8)]),
        "knee_height": _height(_at("knee")),
        "crotch_length": lambda body: _line([(0.0, body.y["waist"]), (0.0, body.y["crotch"] + 0.8)]),
        "thigh_girth": _round_leg("thigh_girth", lambda body: _leg(body, body.y["crotch"] + 3.0)),
        "knee_girth": _round_leg("knee_girth", lambda body: (knee_at(body), body.y["knee"])),
        "calf_girth": _round_leg("calf_girth", lambda body: (0.95 * knee_at(body) + 0.2, body.y["calf"])),
        "ankle_girth": _round_leg("ankle_girth", lambda body: (0.86 * knee_at(body), body.y["ankle"])),
    }
)
"""How the tape is drawn for each measurement, by its key."""
