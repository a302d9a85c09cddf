"""Her body as a drawing, front and back: hair and face, a close suit, the few lines that make a body of an outline.

They are ours, drawn by eye on small, tall, heavy and pregnant bodies.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, Literal

from output.figure.silhouette import (
    ARMPIT,
    HIP,
    SHOULDER,
    XY,
    Data,
    Silhouette,
    arm_outline,
    armpit_at,
    knee_at,
    mirrored,
    smooth,
    trunk_outline,
)
from output.figure.young import FACE, HAIR

__all__ = ["Side", "draw_figure"]

Side = Literal["front", "back"]

_ROUND: Final = 0.88
"""From this share of the hip on, the waist is that of a round belly, which is drawn (ours)."""

_BOTH: Final = (list[XY], mirrored)
"""What turns the right half into itself, and into the left."""


def draw_figure(body: Silhouette, side: Side) -> Data:
    """The drawing of a body from one side: `box`, as an SVG's viewBox, and `paths`, each with its kind and its d.

    The kinds: skin, suit and hair are filled, line and fine are drawn; whatever comes later lies above.
    """
    trunk, arm, crotch = trunk_outline(body), arm_outline(body), body.y["crotch"] + 1.0
    reach = max(x for x, _ in arm) + 4.0
    paths: list[tuple[str, str]] = []
    for turn in _BOTH:
        paths += [("skin", smooth(turn(arm))), ("line", smooth(turn(arm)))]
    for turn in _BOTH:
        filled = smooth(turn([(0.0, 0.9 * body.head), *trunk]))
        paths.append(("skin", f"{filled}L0 {crotch:.2f}L0 {0.9 * body.head:.2f}Z"))
    paths += [("suit", _suit(body, trunk, side)), ("fine", _suit(body, trunk, side))]
    for turn in _BOTH:
        paths += [("line", smooth(turn(trunk[:SHOULDER]))), ("line", smooth(turn(trunk[ARMPIT:])))]
        paths += [("fine", smooth(turn(each))) for each in _fine(body, side)]
    paths += [("skin", _shape(_head(body))), ("line", _shape(_head(body))), *_hair(body, side)]
    box = f"{-reach:.1f} -5 {2 * reach:.1f} {body.height + 8:.1f}"
    return {"box": box, "paths": [{"kind": kind, "d": d} for kind, d in paths]}


def _shape(points: Sequence[XY]) -> str:
    return smooth([*points, *reversed(mirrored(points[1:-1]))], closed=True)


_GROWN_FACE: Final[tuple[XY, ...]] = (
    (0.0, 0.0), (0.6, 0.06), (0.96, 0.27), (0.98, 0.48), (0.86, 0.72), (0.54, 0.9), (0.24, 0.985), (0.0, 1.0)
)  # fmt: skip


def _head(body: Silhouette) -> list[XY]:
    """The right half of the face, from the top to the chin."""
    tall, wide = body.head, body.half["head"]
    return [(x * wide, y * tall) for x, y in (_GROWN_FACE if body.kind == "woman" else FACE)]


def _hair(body: Silhouette, side: Side) -> list[tuple[str, str]]:
    """Hair and face of the figure as pairs of a class and a path of SVG."""
    tall, wide = body.head, body.half["head"]

    def put(*points: XY) -> list[XY]:
        return [(x * wide, y * tall) for x, y in points]

    bun = put((0.0, -0.18), (0.3, -0.15), (0.42, -0.03), (0.3, 0.08), (0.0, 0.1))
    if body.kind != "woman" and side == "back":
        return [("hair", _shape(put(*HAIR[body.kind][side])))]
    if side == "back":
        cap = put((0.0, -0.04), (0.6, 0.01), (1.02, 0.24), (1.03, 0.5), (0.86, 0.72), (0.5, 0.84), (0.0, 0.88))
        strands = (put((0.16, 0.09), (0.62, 0.32), (0.56, 0.66)), put((0.07, 0.1), (0.24, 0.4), (0.2, 0.74)))
        drawn = [("strand", smooth(turn(each))) for each in strands for turn in _BOTH]
        return [("hair", _shape(cap)), ("hair", _shape(bun)), *drawn]
    parted = (0.2, 0.1)
    right = put((0.1, -0.03), (0.62, 0.0), (1.03, 0.23), (1.05, 0.47), (0.97, 0.58), (0.9, 0.4), (0.66, 0.22), parted)
    left = put(
        (-0.1, -0.03), (-0.62, 0.0), (-1.03, 0.23), (-1.05, 0.47), (-0.97, 0.58), (-0.9, 0.42), (-0.6, 0.25), parted
    )
    brow = put((0.24, 0.47), (0.42, 0.445), (0.6, 0.47))
    eye = put((0.28, 0.535), (0.42, 0.55), (0.56, 0.53))
    mouth = put((-0.2, 0.8), (0.0, 0.815), (0.2, 0.8))
    nose = put((0.02, 0.66), (0.07, 0.685), (0.0, 0.695))
    face = [("fine", smooth(turn(each))) for each in (brow, eye) for turn in _BOTH]
    face += [("fine", smooth(mouth)), ("fine", smooth(nose))]
    if body.kind != "woman":
        return [("hair", _shape(put(*HAIR[body.kind][side]))), *face]
    return [("hair", _shape(bun)), ("hair", smooth(right, closed=True)), ("hair", smooth(left, closed=True)), *face]


def _suit(body: Silhouette, trunk: Sequence[XY], side: Side) -> str:
    """A close suit: from the straps down the trunk to the legs."""
    y, half = body.y, body.half
    over = 0.55 * y["side neck"] + 0.45 * y["shoulder"]
    strap = 0.5 * (half["neck base"] + body.shoulder)
    scoop = y["pit"] + (0.52 if side == "front" else 0.3) * (y["bust"] - y["pit"])
    leg = 0.6 * y["hip"] + 0.4 * y["crotch"]
    arch = 0.8 if side == "front" else 0.45
    flank = [each for each in trunk[ARMPIT + 1 : HIP] if each[1] < leg - 1.0]
    right = [
        (strap + 1.2, over + 0.7),
        (trunk[ARMPIT][0] - 0.7, 0.45 * y["shoulder"] + 0.55 * y["armpit"]),
        (trunk[ARMPIT][0] + 0.2, y["armpit"] + 0.8),
        *flank,
        (half["hip"] * 0.998, leg),
    ]
    rise = y["crotch"] - leg
    legs = [
        (0.998 * half["hip"], leg),
        (0.6 * half["hip"], leg + arch * 0.3 * rise),
        (2.6, leg + 0.75 * rise),
        (0.0, y["crotch"] + 0.8),
    ]
    neck = [(strap - 1.4, over), (strap - 1.9, 0.5 * (scoop + over)), (0.62 * half["neck base"], scoop - 1.4)]
    across = smooth([*mirrored(neck), (0.0, scoop), *reversed(neck)])
    ways = [smooth(right), smooth(legs), smooth(mirrored(legs)[::-1]), smooth(mirrored(right)[::-1])]
    return across + "".join("L" + each[1:] for each in ways) + "Z"


def _fine(body: Silhouette, side: Side) -> list[list[XY]]:
    """Thin lines inside the right half: collar bone, bust, knee; the shoulder blade and the seat behind."""
    y, half, cm = body.y, body.half, body.cm
    knee, deep = knee_at(body), y["knee"]
    crease = [(x, y["armpit"] + down) for x, down in zip((-0.6, -0.2, 0.0), (-5.0, -2.6, -0.6), strict=True)]
    fold = [(armpit_at(body) + x, down) for x, down in crease]
    if side == "back":
        seat, wide = y["crotch"] + 0.6, half["hip"]
        blade = [
            (0.4 * body.shoulder, y["armpit"] - 4.0),
            (0.47 * body.shoulder, y["armpit"] - 0.5),
            (0.4 * body.shoulder, y["armpit"] + 2.0),
        ]
        under = [(0.9, seat + 0.2), (0.28 * wide, seat + 1.9), (0.56 * wide, seat + 1.0), (0.7 * wide, seat - 0.4)]
        return [fold, blade, under, [(knee - 2.2, deep + 0.2), (knee, deep + 0.7), (knee + 2.2, deep + 0.2)]]
    apart, down = 0.5 * cm["bust_point_breadth"], y["bust"]
    full = 0.1 * (cm["bust_girth"] - cm["under_bust_girth"]) + 2.6
    bone = [(1.0, y["pit"] + 0.1), (0.34 * body.shoulder, y["pit"] - 1.1), (0.66 * body.shoulder, y["pit"] - 2.2)]
    cup = [
        (apart - 5.0, down + 0.4 * full),
        (apart - 2.6, down + 0.95 * full),
        (apart + 1.4, down + full),
        (apart + 5.0, down + 0.4 * full),
    ]
    lines = [
        fold,
        *([bone, cup] if body.kind == "woman" else []),
        [(knee - 2.0, deep + 1.9), (knee, deep + 2.5), (knee + 2.0, deep + 1.9)],
    ]
    if body.kind == "woman" and cm["waist_girth"] > _ROUND * cm["hip_girth"]:
        low = 0.35 * y["waist"] + 0.65 * y["hip"]
        lines.append([(0.0, low + 2.6), (0.35 * half["waist"], low + 2.0), (0.72 * half["waist"], low - 1.2)])
    return lines
