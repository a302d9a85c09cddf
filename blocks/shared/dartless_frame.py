"""The numbers of a bodice without darts before a line is drawn: levels, widths, slopes, what gives way to what.

For a child, and for a woman's knit: quarters of the chest, the front the wider one where both armholes keep their
hollow, the armhole scooped deeper in front, the side seam alone taken in at the waist. The figures are common practice
where no source stands beside them; *School Needlework* (side seam half an inch toward the back) and *Hand Sewing
Lessons* (front 15, back 13 of a chest of 28 in, shoulders sloping by 15 degrees) agree with them. Whatever was measured
is solved for.

What gives way, in this order, and is said:
1. the width of a back that was only estimated, then a front armhole scooped deeper, then more ease round the chest,
   when a broad back leaves too little for the arm;
2. a waist wider than asked for, where the sides would have to come in too steeply;
3. a deeper armhole, when the sleeve could not be set in.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Final

from blocks.shared.armhole_curve import Tip, lean, off_square
from blocks.shared.neck_curve import BACK_RISE, NeckShape, back_neck, front_neck, neck_width
from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft, NotAPattern
from drafting.geometry import Cubic, Point, Vec, polar, run_length
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import SOLVED

__all__ = [
    "NECK",
    "SCOOPED_BEHIND",
    "Build",
    "DartlessFrame",
    "Half",
    "Neck",
    "childs_build",
    "dartless_frame",
    "smooth_lines",
]

NECK: Final = NeckShape(narrower=0.0, deeper=3.0)
"""Front neck as wide as the back's and a little deeper than wide: N/5 + 0.2 and N/5 + 0.5 cm (common practice)."""

_SLOPE: Final = math.radians(15.0)  # Hand Sewing Lessons; a grown body's median is 26, of which a handbook draws 17
_BODY_SLOPE: Final = math.radians(26.0)
_SLOPE_SHARE: Final = 0.5  # of a measured slope's departure from that, as in the bodice for women
_FRONT_WIDER: Final = 2.5  # mm of each quarter from the mean: the front 0.5 cm wider (common practice)
_BELLY: Final = 5.0  # the same for the belly of the smallest, 1 cm (common practice)
_BELLY_TO, _BELLY_GONE = 900.0, 1100.0  # mm of height over which the belly goes (under four years)
_DIP_SHARE: Final = 0.011  # of the height, the same for a baby (ours)
_DEEPEST_DIP: Final = 12.0  # mm that the waist dips in front before the shoulder makes up the rest (common practice)
SCOOPED_BEHIND: Final = 0.5  # of what a wider neck is scooped in front (common practice)
_MOST_SCOOPED: Final = 0.48  # of the shoulder (ours)
_SCOOP: Final = 6.0  # mm: the front armhole scooped further in than the back (a hobby page has half an inch)
_INSIDE: Final = 5.0  # mm by which the back may be wider than its shoulder reaches out before it is said (ours)
_HOLLOW: Final = 0.075  # of its height by which the front armhole lies inside the shoulder end (ours)
_NARROWEST: Final = 0.33  # about how far up the front armhole is narrowest, as on women
_REACH: Final = 0.58  # how far toward the corner of its end directions the front armhole may be drawn in, as on women
_CLEAR: Final = math.radians(3.0)
_DEEPEST_SCOOP: Final = 14.0  # mm: a narrow armhole is scooped up to so much deeper in front than behind (ours)
_UNSURE: Final = 0.35  # standard deviations by which half of an estimated back may be drawn narrower (ours)
_GOOD: Final = 68.0  # mm: the width from which an armhole can be drawn as one even hollow (ours)
_BACK_SHARE: Final = 0.47  # of the width of the armhole, the least that lies behind the side seam (ours)
# of the height of the back armhole that its width is at the least, if there is so much (ours)
_BACK_HOLLOW: Final = 0.265
_ARM: Final = 0.29  # of the round of the arm: the least width of an armhole (its thickness is 0.32 of it)
_CHEST_BELOW: Final = 0.12  # of the side seam, below the underarm: where the chest is measured


@dataclass(frozen=True, slots=True)
class Half:
    """The front or the back, drawn from its centre line: x outward, y up from the waist; mm and radians.

    centre:  the nape or the hollow of the neck; side_neck, tip: the ends of the shoulder
    pass_by: behind the width of the back, in front the narrowest place
    leaving: how far the armhole leans toward the centre line where it leaves the shoulder
    dip:     how far the waist lies lower at the centre
    width:   from the centre to the side seam at the underarm
    """

    front: bool
    centre: Point
    side_neck: Point
    tip: Point
    pass_by: Point
    leaving: float
    dip: float
    width: float


@dataclass(frozen=True, slots=True)
class Neck:
    """The neck edge: half its width, how deep it is in front and how far it rises behind, mm.

    scooped: how far it lies out along the shoulder from the foot of the neck
    """

    width: float
    depth: float
    rise: float
    scooped: float = 0.0

    def front(self, pit: Point, slope: float) -> Cubic:
        """The front neck, from the hollow of the neck to the shoulder."""
        return front_neck(pit, self.width, slope, NeckShape(narrower=0.0, deeper=self.depth - self.width))

    def back(self, nape: Point, slope: float) -> Cubic:
        """The back neck, from the centre to the shoulder."""
        return back_neck(nape, self.width, slope, rise=self.rise)

    def round(self, slope: float) -> float:
        """How long the whole edge is, mm."""
        start = Point(0.0, 0.0)
        return 2.0 * run_length((self.front(start, slope), self.back(start, slope)), SOLVED)

    def scooped_by(self, out: float, slope: float) -> Neck:
        """The neck as it lies `out` mm further along the shoulder, and as much lower in front, half as much behind."""
        down = out * math.sin(slope)
        return Neck(
            self.width + out * math.cos(slope),
            self.depth - down + out,
            self.rise - down + SCOOPED_BEHIND * out,
            self.scooped + out,
        )


@dataclass(frozen=True, slots=True)
class DartlessFrame:
    """All numbers of the bodice; under: the level of the underarm, chest: of the chest line, mm above the waist.

    excess: by how much the body is longer in front than it is drawn, mm
    """

    neck: Neck
    slope: float
    under: float
    chest: float
    back: Half
    front: Half
    chest_ease: float
    scye_ease: float
    gave_way: tuple[str, ...]
    excess: float = 0.0


@dataclass(frozen=True, slots=True)
class Build:
    """What the frame goes by beside the lengths of one body, mm and radians.

    slope:       of a shoulder whose own was not measured
    front_wider: by how much the front quarter is wider than the mean
    shoulder_in: by how much the shoulder ends further in than it was measured
    most_lift:   by how much the front may reach higher than the back; what is left of the front's length is excess
    gives:       whether a broad back may be drawn narrower for the arm, down to the least that the cloth allows
    """

    slope: float
    front_wider: float
    shoulder_in: float = 0.0
    most_lift: float = math.inf
    gives: bool = False


def childs_build(body: Body) -> Build:
    """A child's: the smaller it is, the more its belly is in front."""
    gone = (body.mm("stature") - _BELLY_TO) / (_BELLY_GONE - _BELLY_TO)
    return Build(_SLOPE, _BELLY + (_FRONT_WIDER - _BELLY) * max(0.0, min(1.0, gone)))


@contextmanager
def smooth_lines() -> Iterator[None]:
    """Within it a line that cannot be drawn becomes CannotDraft, with the measurements at odds."""
    try:
        yield
    except NotAPattern as shape:
        raise CannotDraft(
            ("shoulder_length", "interscye_mid_distance", "scye_depth"),
            f"No armhole or side runs smoothly on these measurements ({shape.reason}).",
        ) from shape


def dartless_frame(
    body: Body,
    ease: Mapping[str, float],
    *,
    scye_more: float = 0.0,
    dips: bool = True,
    least_across: float = 0.0,
    neckline: float | None = None,
    build: Build | None = None,
) -> DartlessFrame:
    """The numbers of the bodice for a body.

    ease:      mm for "bust", "neck", "across_back", "scye_depth"
    scye_more: mm by which the armhole is deeper than the ease says, because the sleeve asks for it
    least_across: the least ease with which the arms can reach forward, mm
    neckline:  how long the neck edge is to be, mm; None for the foot of the neck and its ease
    build:     whose body it is; None for a child's
    dips:      whether the waist may dip in front for the belly; else the shoulder alone makes room for it
    Raises CannotDraft, naming the measurements at odds.
    """
    gave: list[str] = []
    build = build or childs_build(body)
    slope = _slope(body, build.slope)
    width = neck_width(body.mm("neck_base_girth") + ease["neck"], slope, slope, NECK)
    foot = Neck(width, width + NECK.deeper, BACK_RISE)
    down = polar(-slope) * (body.mm("shoulder_length") - build.shoulder_in)
    nape = Point(0.0, body.mm("back_waist_length"))
    side_back = Point(width, nape.y + BACK_RISE)
    pit, side_neck, dip = _front_levels(body, width, side_back.y, dips=dips, most_lift=build.most_lift)
    back_tip, front_tip = side_back + down, side_neck + down
    scye_ease = ease["scye_depth"] + scye_more
    under = nape.y - body.mm("scye_depth") - scye_ease
    lower = min(back_tip.y, front_tip.y)
    if under < 0.2 * nape.y or lower - under < 0.3 * body.mm("scye_depth"):
        raise CannotDraft(
            ("scye_depth", "back_waist_length", "front_waist_length_from_neck_pit"),
            f"The armhole is {nape.y - under:.0f} mm deep, the back {nape.y:.0f} mm long and the front {pit.y:.0f} mm: "
            "that leaves no side seam, or no armhole.",
        )
    across = _half_across(body, ease, front_tip, least_across, gives=build.gives)
    back_pass = Point(across, 0.5 * (under + back_tip.y))
    if across - back_tip.x > _INSIDE:
        gave.append(
            "The back armhole is nearly straight above the back width: the shoulder ends "
            f"{across - back_tip.x:.0f} mm nearer the centre back than the back is wide. Measure the shoulder length "
            "and across the back again."
        )
    hollow = _HOLLOW * (front_tip.y - under)
    inmost = front_tip.x - _REACH * (front_tip.y - under) * math.tan(max(0.05, slope))
    chest = max(min(across - _SCOOP, front_tip.x - hollow), inmost)
    chest, arm, chest_ease = _share_round_chest(
        body, ease["bust"], across, chest, max(inmost, across - _DEEPEST_SCOOP), gave
    )
    half = across + chest + arm
    behind = min(0.5 * arm, max(_BACK_SHARE * arm, _BACK_HOLLOW * (back_tip.y - under)))
    back_width = max(0.5 * half - build.front_wider, across + behind)
    up = Point(chest, under + _NARROWEST * (front_tip.y - under))
    turned = _turned(slope, Tip(front_tip, slope, up), Tip(back_tip, slope, back_pass), Point(back_width, under))
    neck = foot if neckline is None else _scooped(foot, slope, neckline, body.mm("shoulder_length"))
    low, out = Vec(0.0, -neck.scooped), polar(-slope) * neck.scooped
    return DartlessFrame(
        neck=neck,
        slope=slope,
        under=under,
        chest=under - _CHEST_BELOW * under,
        back=Half(
            False, nape + low * SCOOPED_BEHIND, side_back + out, back_tip, back_pass, slope + turned, 0.0, back_width
        ),
        front=Half(True, pit + low, side_neck + out, front_tip, up, slope - turned, dip, half - back_width),
        chest_ease=chest_ease,
        scye_ease=scye_ease,
        gave_way=tuple(gave),
        excess=body.mm("front_waist_length_from_neck_pit") - pit.y - dip,
    )


def _scooped(neck: Neck, slope: float, long: float, shoulder: float) -> Neck:
    """The neck scooped out until its edge is so long, mm; no less than the foot of the neck."""
    if long <= neck.round(slope):
        return neck
    out = solve(lambda by: neck.scooped_by(by, slope).round(slope) - long, 15.0, 2.0)
    if out > _MOST_SCOOPED * shoulder:
        raise CannotDraft(
            ("head_girth", "shoulder_length"),
            f"For the head to pass, the neck edge would be {long:.0f} mm round and leave {shoulder - out:.0f} mm of "
            f'shoulder: open it, opening = "lapped shoulder", "button shoulder" or "back slit", or bind it with rib '
            'that stretches by 80 % or more, band_stretch = "80 %".',
        )
    return neck.scooped_by(out, slope)


def _half_across(body: Body, ease: Mapping[str, float], tip: Point, least: float, *, gives: bool) -> float:
    """Half the width of the back, mm; one only estimated, or of a cloth that gives, makes room for the arm."""
    known = body["interscye_mid_distance"]
    across = 0.5 * (known.mm + ease["across_back"])
    if known.sd_mm is None and not gives:
        return across
    half = 0.5 * (body.mm("bust_girth") + ease["bust"])
    room = half - across - (min(across, tip.x) - _DEEPEST_SCOOP)
    wanted = max(_GOOD, _ARM * body.mm("upper_arm_girth")) if gives else _GOOD
    most = math.inf if gives or known.sd_mm is None else _UNSURE * known.sd_mm
    return across - max(0.0, min(0.5 * (wanted - room), most, 0.5 * (ease["across_back"] - least)))


def _slope(body: Body, usual: float) -> float:
    """How far the shoulders slope, front and back alike, radians; half of how far the body's own is from the usual."""
    if "shoulder_drop" not in body or body["shoulder_drop"].source != "measured":
        return usual
    own = math.asin(min(0.9, body.mm("shoulder_drop") / body.mm("shoulder_length")))
    return max(math.radians(6.0), usual + _SLOPE_SHARE * (own - _BODY_SLOPE))


def _front_levels(
    body: Body, width: float, back_level: float, *, dips: bool, most_lift: float
) -> tuple[Point, Point, float]:
    """(pit, side neck point, how far the waist dips at the centre front).

    The front is as long as it was measured. Where that brings the neck higher than behind, the waist dips to make
    room for the belly, and only what is left lifts the shoulder, by `most_lift` at the most.
    """
    long, deep = body.mm("front_waist_length_from_neck_pit"), width + NECK.deeper
    deepest = min(_DEEPEST_DIP, _DIP_SHARE * body.mm("stature"))
    dip = max(0.0, min(long + deep - back_level, deepest)) if dips else 0.0
    pit = Point(0.0, min(long - dip, back_level + most_lift - deep))
    return pit, Point(width - NECK.narrower, pit.y + deep), dip


def _share_round_chest(
    body: Body, ease: float, back: float, front: float, inmost: float, gave: list[str]
) -> tuple[float, float, float]:
    """(where the front is narrowest, the width of the armhole, the ease round the chest), on one half of the body.

    A narrow armhole is first scooped deeper in front, as far as `inmost`, then the chest is given more ease.
    """
    half = 0.5 * (body.mm("bust_girth") + ease)
    least = _ARM * body.mm("upper_arm_girth")
    front -= max(0.0, min(max(_GOOD, least) - (half - back - front), front - inmost))
    arm = half - back - front
    if arm >= least:
        return front, arm, ease
    more = 2.0 * (least - arm)
    where = "bust" if body.person.body == "woman" else "chest"
    gave.append(f"The {where} is {more:.0f} mm wider, because the back is broad and the arm needs room.")
    return front, least, ease + more


def _turned(slope: float, front: Tip, back: Tip, under_back: Point) -> float:
    """By how much the armhole leaves the shoulder off square, radians: inward behind and outward in front."""
    even = off_square(front, back, under_back)
    most = slope - math.atan2(front.tip.x - front.onward.x, _REACH * (front.tip.y - under_back.y))
    least = lean(back.onward - back.tip) + _CLEAR - slope
    return max(min(even, most), least) if least < most else most
