"""The outline of a body from nothing but its numbers; y runs down from the top of the head, in cm; a child's enlarged.

Breadths come from girths, as of an oval: the trunk is flatter than a limb, and rounder where the waist is nearly as
large as the hip. How flat it is, the hands and the feet are ours, drawn by eye on the bodies of a survey.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any, Final

from drafting.dataclass import dataclass
from output.figure.young import DRAWN_TALL, head_and_levels, is_baby

__all__ = [
    "ARMPIT",
    "HIP",
    "SHOULDER",
    "XY",
    "Data",
    "Silhouette",
    "arm_outline",
    "armpit_at",
    "knee_at",
    "mirrored",
    "silhouette",
    "smooth",
    "trunk_outline",
]

XY = tuple[float, float]

Data = dict[str, Any]
"""What can be written as JSON."""

_OF_STATURE: Final = {
    "neck_side_height": 0.845, "cervicale_height": 0.855, "neck_pit_height": 0.815, "shoulder_height": 0.815,
    "axilla_height": 0.745, "bust_height": 0.71, "waist_height": 0.625, "hip_height": 0.51, "crotch_height": 0.46,
    "knee_height": 0.272, "arm_length": 0.335, "shoulder_to_elbow": 0.2, "biacromial_breadth": 0.218,
    "neck_base_girth": 0.22, "upper_arm_girth": 0.17, "elbow_girth": 0.15, "wrist_girth": 0.097, "thigh_girth": 0.34,
    "knee_girth": 0.22, "calf_girth": 0.21, "ankle_girth": 0.13, "bust_point_breadth": 0.11,
}  # fmt: skip
"""What stands for a length that is not known of a body, as a share of its height (ours, for the drawing alone)."""

_INSIDE_LEG: Final = 0.5
"""cm from the middle to the inside of the thigh."""


@dataclass(frozen=True, slots=True)
class Silhouette:
    """The places on a body that it is drawn by, cm; x from the middle outward, of the right half of the picture.

    y:    levels by name; half: half breadths of trunk and neck by name
    kind: "woman", "girl", "boy" or "baby"
    arm:  where the arm begins, its tilt from upright (radians), and how long it is to the wrist and to the elbow
    """

    height: float
    cm: Mapping[str, float]
    y: Mapping[str, float]
    half: Mapping[str, float]
    head: float
    shoulder: float
    top: XY
    tilt: float
    arm: float
    elbow: float
    kind: str = "woman"

    def along(self, down: float, out: float = 0.0) -> XY:
        """A place on the arm: so far down from its joint along its middle, so far out from that."""
        sin, cos = math.sin(self.tilt), math.cos(self.tilt)
        return self.top[0] + sin * down + cos * out, self.top[1] + cos * down - sin * out

    def thick(self, key: str) -> float:
        """Half the breadth of a limb, from its girth."""
        return self.cm[key] / math.pi / 2.0


SHOULDER, ARMPIT, HIP = 6, 7, 15
"""Where on the outline of the trunk the arm begins, where it ends, and where the leg begins."""


def silhouette(mm: Mapping[str, float], kind: str = "woman") -> Silhouette:
    """The places a body is drawn by.

    mm: its lengths by key; stature and the three girths must be among them; kind: "woman", "girl" or "boy"
    """
    tall = mm["stature"] / 10.0
    height = tall if kind == "woman" else DRAWN_TALL
    cm = {key: share * height for key, share in _OF_STATURE.items()}
    cm |= {key: value * height / tall / 10.0 for key, value in mm.items()}
    bust, waist, hip = cm["bust_girth"], cm["waist_girth"], cm["hip_girth"]
    cm.setdefault("under_bust_girth", 0.5 * (bust + waist))
    cm.setdefault("upper_chest_girth", 0.94 * bust)
    roundest = 0.98 if kind == "woman" else 0.8  # a child's belly goes forward and to the sides alike (ours)
    round_waist = min(roundest, max(0.7, 0.72 + 0.75 * (waist / hip - 0.74)))
    shoulder = 0.5 * cm["biacromial_breadth"]
    half = {
        "neck": 0.5 * _breadth(0.86 * cm["neck_base_girth"], 0.95),
        "neck base": 0.5 * _breadth(cm["neck_base_girth"], 0.8),
        "chest": min(0.5 * _breadth(cm["upper_chest_girth"], 0.66), shoulder - 0.8),
        "bust": 0.5 * _breadth(0.5 * (bust + cm["under_bust_girth"]), 0.74),
        "under bust": 0.5 * _breadth(cm["under_bust_girth"], 0.76),
        "waist": 0.5 * _breadth(waist, round_waist),
        "hip": 0.5 * _breadth(hip, 0.72),
    }
    half["bust"] = min(half["bust"], half["under bust"] + 1.3)  # the rest of it lies in front
    levels = {
        "side neck": "neck_side_height", "nape": "cervicale_height", "pit": "neck_pit_height",
        "shoulder": "shoulder_height", "armpit": "axilla_height", "bust": "bust_height", "waist": "waist_height",
        "hip": "hip_height", "crotch": "crotch_height", "knee": "knee_height",
    }  # fmt: skip
    y = {name: height - cm[key] for name, key in levels.items()}
    y |= {"calf": height - 0.71 * cm["knee_height"], "ankle": height - 0.18 * cm["knee_height"], "floor": height}
    if kind == "woman":
        small = 2.0 * max(0.0, 150.0 - height) / 60.0  # a small head is large for its body (ours)
        head = min(0.134 * height + small, y["pit"] - 4.5)
        half["head"] = 0.325 * head
    else:
        (wide, long), shares = head_and_levels(tall, _known_cm(mm, "head_girth"), {k: v / height for k, v in y.items()})
        y = {name: share * height for name, share in shares.items()}
        half["head"], head = wide * height, long * height
    top = shoulder - 0.4 - cm["upper_arm_girth"] / math.pi / 2.0 * 0.55, y["shoulder"] + 1.6
    clear = half["hip"] + 3.2 + cm["wrist_girth"] / math.pi / 2.0 - top[0]
    tilt = math.asin(min(0.5, max(0.27, clear / max(y["hip"] - top[1], 20.0))))
    return Silhouette(
        height,
        cm,
        y,
        half,
        head,
        shoulder,
        top,
        tilt,
        cm["arm_length"],
        min(cm["shoulder_to_elbow"], cm["arm_length"]),
        kind if kind == "woman" or not is_baby(tall) else "baby",
    )


def trunk_outline(body: Silhouette) -> list[XY]:
    """The right outline from the neck down the side, round the foot, up the inside of the leg to the crotch."""
    y, half = body.y, body.half
    thigh, knee, calf, ankle = (2 * body.thick(f"{name}_girth") for name in ("thigh", "knee", "calf", "ankle"))
    middle_knee = knee_at(body)
    middle_ankle = max(_INSIDE_LEG + 1.2 + ankle / 2, 0.86 * middle_knee)
    outer = min(half["hip"] * 0.985, max(_INSIDE_LEG + thigh, half["hip"] * 0.9))
    bend = 0.5 * (middle_knee + middle_ankle) + 0.35
    neck, base = half["neck"], half["neck base"]
    down = y["hip"] - y["waist"]
    crease = armpit_at(body)
    full = max(y["bust"] + 0.4, y["armpit"] + 5.0)
    return [
        (0.98 * neck, 0.7 * body.head),
        (0.97 * neck, y["side neck"] - 3.0),
        (1.0 * base, y["side neck"] - 0.3),
        (0.75 * base + 0.25 * body.shoulder, 0.78 * y["side neck"] + 0.22 * y["shoulder"]),
        (0.45 * base + 0.55 * body.shoulder, 0.52 * y["side neck"] + 0.48 * y["shoulder"]),
        (body.shoulder - 0.8, y["shoulder"] - 0.2),
        (body.shoulder - 1.6, 0.5 * (y["shoulder"] + y["armpit"])),
        (crease, y["armpit"] - 1.2),
        (half["bust"], full),
        (0.3 * half["bust"] + 0.7 * half["under bust"], 0.62 * full + 0.38 * y["waist"]),
        (0.5 * (half["under bust"] + half["waist"]) - 0.1, 0.32 * full + 0.68 * y["waist"]),
        (half["waist"], y["waist"]),
        (half["waist"] + 0.5 * (half["hip"] - half["waist"]), y["waist"] + 0.36 * down),
        (half["waist"] + 0.88 * (half["hip"] - half["waist"]), y["waist"] + 0.72 * down),
        (half["hip"], y["hip"]),
        (outer, y["crotch"] + 4.0),
        (0.5 * (outer + middle_knee + knee / 2) + 0.5, 0.5 * (y["crotch"] + y["knee"])),
        (middle_knee + knee / 2, y["knee"] - 2.0),
        (middle_knee + knee / 2 - 0.5, y["knee"] + 3.5),
        (bend + calf / 2, y["calf"]),
        (middle_ankle + ankle / 2 + 0.3, y["ankle"] - 4.5),
        (middle_ankle + ankle / 2, y["ankle"]),
        (middle_ankle + ankle / 2 + 0.9, y["floor"] - 3.2),
        (middle_ankle + ankle / 2 + 2.5, y["floor"] - 0.9),
        (middle_ankle + ankle / 2 + 1.0, y["floor"]),
        (middle_ankle - 0.6, y["floor"] + 0.1),
        (middle_ankle - ankle / 2 - 0.5, y["floor"] - 0.8),
        (middle_ankle - ankle / 2 - 0.1, y["floor"] - 3.6),
        (middle_ankle - ankle / 2, y["ankle"]),
        (middle_ankle - ankle / 2 - 0.1, y["ankle"] - 5.0),
        (bend - calf / 2, y["calf"] + 1.0),
        (middle_knee - knee / 2 + 0.4, y["knee"] + 3.5),
        (middle_knee - knee / 2, y["knee"] - 2.0),
        (0.5 * (_INSIDE_LEG + middle_knee - knee / 2), 0.62 * y["crotch"] + 0.38 * y["knee"]),
        (_INSIDE_LEG, y["crotch"] + 6.0),
        (0.0, y["crotch"] + 0.4),
    ]


def arm_outline(body: Silhouette) -> list[XY]:
    """The right arm, from the end of the shoulder round the hand to the armpit."""
    upper, elbow, wrist = (body.thick(f"{name}_girth") for name in ("upper_arm", "elbow", "wrist"))
    long, bent, at = body.arm, body.elbow, body.along
    fore, hand = long - bent, 0.1 * body.height
    return [
        (0.45 * body.half["neck base"] + 0.55 * body.shoulder, 0.52 * body.y["side neck"] + 0.48 * body.y["shoulder"]),
        (body.shoulder - 0.8, body.y["shoulder"] - 0.2),
        at(2.6, 0.72 * upper),
        at(0.3 * bent + 1.0, 0.98 * upper),
        at(0.7 * bent, 0.9 * upper),
        at(bent, 0.92 * elbow),
        at(bent + 0.22 * fore, elbow),
        at(bent + 0.7 * fore, 0.4 * elbow + 0.6 * wrist),
        at(long, 0.96 * wrist),
        at(long + 0.2 * hand, 1.12 * wrist),
        at(long + 0.5 * hand, 1.12 * wrist),
        at(long + 0.82 * hand, 0.8 * wrist),
        at(long + 0.97 * hand, 0.42 * wrist),
        at(long + hand, 0.0),
        at(long + 0.92 * hand, -0.4 * wrist),
        at(long + 0.74 * hand, -0.54 * wrist),
        at(long + 0.62 * hand, -0.72 * wrist),
        at(long + 0.62 * hand, -1.06 * wrist),
        at(long + 0.5 * hand, -1.22 * wrist),
        at(long + 0.25 * hand, -1.12 * wrist),
        at(long, -0.96 * wrist),
        at(bent + 0.62 * fore, -0.4 * elbow - 0.6 * wrist),
        at(bent + 0.18 * fore, -elbow),
        at(bent, -0.9 * elbow),
        at(0.7 * bent, -0.92 * upper),
        at(0.3 * bent + 2.0, -upper),
        at(2.0, -0.9 * upper),
    ]


def smooth(points: Sequence[XY], *, closed: bool = False) -> str:
    """A smooth line through points, as a path: each span a cubic whose handles follow the neighbours."""
    count = len(points)

    def at(place: int) -> XY:
        return points[place % count] if closed else points[min(max(place, 0), count - 1)]

    d = [f"M{points[0][0]:.2f} {points[0][1]:.2f}"]
    for place in range(count if closed else count - 1):
        before, start, end, after = (at(place + step) for step in (-1, 0, 1, 2))
        first = start[0] + (end[0] - before[0]) / 6, start[1] + (end[1] - before[1]) / 6
        second = end[0] - (after[0] - start[0]) / 6, end[1] - (after[1] - start[1]) / 6
        d.append("C" + " ".join(f"{x:.2f} {y:.2f}" for x, y in (first, second, end)))
    return "".join(d) + ("Z" if closed else "")


def mirrored(points: Sequence[XY]) -> list[XY]:
    """The points on the other side of the middle."""
    return [(-x, y) for x, y in points]


def armpit_at(body: Silhouette) -> float:
    """How far the fold of the armpit lies from the middle, cm."""
    return min(body.shoulder - 1.8, max(0.9 * body.half["chest"], 0.84 * body.half["bust"]))


def knee_at(body: Silhouette) -> float:
    """How far the middle of the knee lies from the middle of the body, cm."""
    return max(_INSIDE_LEG + 0.9 + body.thick("knee_girth"), 0.36 * body.half["hip"] + 0.6)


def _known_cm(mm: Mapping[str, float], key: str) -> float | None:
    return mm[key] / 10.0 if key in mm else None


def _breadth(girth: float, flat: float) -> float:
    """How broad an oval of that girth is that is so much deeper than broad (Ramanujan's sum for its girth)."""
    h = ((1 - flat) / (1 + flat)) ** 2
    return 2 * girth / (math.pi * (1 + flat) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h))))
