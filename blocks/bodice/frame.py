"""The bodice's numbers before a line is drawn: levels, widths, slopes, darts, and what gives way to what.

The construction is the close-fitting block with darts of W. Aldrich, Metric Pattern Cutting for Women's Wear, as
worked in public for bust 88; its proportions serve where nothing was measured. Whatever *was* measured is solved for.

Measurements of a real body compete. What gives way, in this order, and is said:
1. more length in the front, when the bust point would come too near the waist for a dart to reach it;
2. a narrower chest (nobody measured it), when the back leaves too little room for the arm;
3. a narrower armhole, down to what the arm needs;
4. more ease round the bust;
5. a smaller bust dart, when the front armhole would be too short;
6. a deeper armhole, when the sleeve could not be set in.
Then the body is refused, with the measurements named.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from blocks.shared.armhole_curve import lean
from blocks.shared.neck_curve import BACK_RISE, neck_width
from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft
from drafting.geometry import Point, Vec, distance, polar, turn

__all__ = ["SHORT_OF_BUST", "Frame", "Shoulder", "frame"]

SHORT_OF_BUST = 25.0
"""How far short of the bust point a dart ends, mm (common practice, half an inch to an inch on a fitted bodice)."""

_BACK_DART_WIDTH, _BACK_DART_LENGTH, _BACK_DART_LEAN = 10.0, 50.0, 10.0  # Aldrich: 1 wide, 5 long, leaning in 1 (cm)
# folded slopes that follow from Aldrich's figures for bust 88: front end 6.5 cm below the neck with the 7 cm bust dart
# open, back end 5.0 cm below it with the 1 cm dart open
_FRONT_SLOPE, _BACK_SLOPE = math.radians(16.0), math.radians(17.5)
_BODY_SLOPE = math.radians(26.0)  # the median of the 1988 survey, shoulder drop against shoulder length
_SLOPE_SHARE = 0.5  # how much of a body's own departure from that is drawn: the drop is a difference of two heights
_LOWEST_BUST = 75.0  # mm above the waist: leaves 50 for the waist dart
_MOST_FRONT_EASE = 45.0
_MOST_FRONT_GUESSED = 120.0  # where a length was only estimated: drawn out for a large bust, both go their own way
_PLAIN_BUST_EASE = 60.0  # what a plain bodice has (the ease table): a closer one may be given as much without a refusal
_CLOSEST = 0.1  # of the bust: so much smaller a knit is cut at the most (the ease table); closer is a slip
_MOST_BUST_EASE_MORE = 60.0
_MOST_SCYE_MORE = 45.0
_LEAST_FRONT_ARMHOLE = 95.0  # mm from the scye line up to the front shoulder end
_NARROWEST_CHEST = 0.88
_HOLLOW = 14.0  # mm by which the front armhole at least lies inside the shoulder end
_INSIDE = 5.0  # mm by which the back may be wider than its shoulder reaches out before it is said (ours)
_REACH = 0.58  # how far toward the corner of its end directions the front armhole may be drawn in
_BACK_SHARE = 0.54  # of the width of the armhole that lies behind the side seam (about the middle; from memory)
_CHEST_LEVEL = 0.28  # how far up the front armhole the chest is narrowest
CLEAR = math.radians(3.0)  # how much straighter than its chord an armhole leaves the shoulder, so that it hollows
_OFF_SQUARE = math.radians(10.0)  # how far off square an armhole may leave the shoulder in front
_LEAST_BUST_DART = math.radians(7.0)


@dataclass(frozen=True, slots=True)
class Shoulder:
    """A shoulder with a dart in it: from the neck, folded closed, and where its end lies when the dart is open.

    slope: of the folded shoulder, radians below level
    """

    neck: Point
    slope: float
    length: float
    mouth: Point
    apex: Point
    angle: float
    tip: Point

    @property
    def leaving(self) -> float:
        """The direction square to the open shoulder at its end, as a lean toward the centre line, radians."""
        return self.slope + self.angle


@dataclass(frozen=True, slots=True)
class Frame:
    """Every number of the bodice, mm and radians; x from the centre line outward, y up from the waist level.

    front_ease:   added to the front waist length
    under_level:  of the underarm points; bust_level: of the bust line, the bust point's or the underarm's if lower
    back_width, front_width: from centre to side seam at the bust level
    chest:        from the centre front to the armhole at its narrowest, the open bust dart included
    """

    front_ease: float
    neck_width: float
    nape: Point
    pit: Point
    bust_point: Point
    bust_level: float
    under_level: float
    back: Shoulder
    front: Shoulder
    back_pass: Point
    front_pass: Point
    back_width: float
    front_width: float
    waist_half: float
    bust_ease: float
    scye_ease: float
    gave_way: tuple[str, ...]


def frame(body: Body, ease: Mapping[str, float], *, bust_dart: float | None = None, scye_more: float = 0.0) -> Frame:
    """The numbers of the bodice for a body.

    ease:      mm for "bust", "waist", "neck", "across_back", "scye_depth"
    bust_dart: the angle of the bust dart, radians; None for the one that the bust asks for
    scye_more: mm by which the armhole is to be deeper than the ease says, because the sleeve asks for it
    Raises CannotDraft, naming the measurements at odds.
    """
    gave: list[str] = []
    front_slope, back_slope = _slopes(body)
    width = neck_width(body.mm("neck_base_girth") + ease["neck"], front_slope, back_slope)
    nape = Point(0.0, body.mm("back_waist_length"))
    back = _back_shoulder(Point(width, nape.y + BACK_RISE), back_slope, body.mm("shoulder_length"))
    front_ease, pit, neck, bust_point = _front_levels(body, width, gave)
    scye_ease = ease["scye_depth"] + scye_more
    under = nape.y - body.mm("scye_depth") - scye_ease
    back_pass = Point(0.5 * (body.mm("interscye_mid_distance") + ease["across_back"]), 0.5 * (under + back.tip.y))

    if back_pass.x - back.tip.x > _INSIDE:
        gave.append(
            "The back armhole is nearly straight above the back width and bends the more below: the shoulder ends "
            f"{back_pass.x - back.tip.x:.0f} mm nearer the centre back than the back is wide. Measure the shoulder "
            "length and across the back again."
        )
    angle = _bust_dart(body) if bust_dart is None else bust_dart
    front, angle = _front_shoulder(neck, front_slope, body, bust_point, angle, under, gave)
    level = under + _CHEST_LEVEL * (front.tip.y - under)
    gap = 2.0 * math.tan(0.5 * angle) * max(0.0, level - front.apex.y)
    turned = max(back_turn(back, back_pass), -_OFF_SQUARE)
    inmost = front.tip.x - _REACH * (front.tip.y - under) * math.tan(front.leaving - turned)
    chest, arm, bust_ease = _share_round_bust(body, ease, back_pass.x, gap, (inmost, front.tip.x - _HOLLOW), gave)
    return Frame(
        front_ease=front_ease,
        neck_width=width,
        nape=nape,
        pit=pit,
        bust_point=bust_point,
        bust_level=min(bust_point.y, under),
        under_level=under,
        back=back,
        front=front,
        back_pass=back_pass,
        front_pass=Point(chest, level),
        back_width=back_pass.x + _BACK_SHARE * arm,
        front_width=chest + (1.0 - _BACK_SHARE) * arm,
        waist_half=0.5 * (body.mm("waist_girth") + ease["waist"]),
        bust_ease=bust_ease,
        scye_ease=scye_ease,
        gave_way=tuple(gave),
    )


def back_turn(shoulder: Shoulder, pass_by: Point) -> float:
    """How much more inward than square the back armhole must leave the shoulder, radians; mostly less than zero."""
    return lean(pass_by - shoulder.tip) + CLEAR - shoulder.leaving


def front_turn(shoulder: Shoulder, chest: float, under: float) -> float:
    """How much less inward than square the front armhole may leave its shoulder end and still reach in to the chest."""
    return shoulder.leaving - math.atan2(shoulder.tip.x - chest, _REACH * (shoulder.tip.y - under))


def _slopes(body: Body) -> tuple[float, float]:
    """Front and back shoulder slope: the handbook's, and half of how far the wearer's own is from the median."""
    own = math.asin(min(0.9, body.mm("shoulder_drop") / body.mm("shoulder_length")))
    more = _SLOPE_SHARE * (own - _BODY_SLOPE)
    return _FRONT_SLOPE + more, _BACK_SLOPE + more


def _back_shoulder(neck: Point, slope: float, length: float) -> Shoulder:
    along = polar(-slope)
    mouth = neck + along * (0.5 * length)
    apex = mouth + Vec(-_BACK_DART_LEAN, -math.sqrt(_BACK_DART_LENGTH**2 - _BACK_DART_LEAN**2))
    angle = 2.0 * math.asin(0.5 * _BACK_DART_WIDTH / _BACK_DART_LENGTH)
    tip = turn(apex, -angle).point(neck + along * length)
    return Shoulder(neck, slope, length, mouth, apex, angle, tip)


def _front_levels(body: Body, width: float, gave: list[str]) -> tuple[float, Point, Point, Point]:
    """(length added to the front, pit, side neck point, bust point)."""
    half, reach = 0.5 * body.mm("bust_point_breadth"), body.mm("neck_to_bust_point")
    neck_x = width - 5.0
    if reach <= abs(half - neck_x) + 50.0:
        raise CannotDraft(
            ("neck_to_bust_point", "bust_point_breadth"),
            f"The bust point cannot be {reach:.0f} mm from the side of the neck, with bust points {2.0 * half:.0f} mm "
            "apart.",
        )
    drop = math.sqrt(reach**2 - (half - neck_x) ** 2)
    length = body.mm("front_waist_length_from_neck_pit")
    bust = length + width - drop
    added = max(0.0, _LOWEST_BUST - bust)
    guessed = any(body[key].source == "estimated" for key in ("neck_to_bust_point", "front_waist_length_from_neck_pit"))
    if added > (_MOST_FRONT_GUESSED if guessed else _MOST_FRONT_EASE):
        raise CannotDraft(
            ("neck_to_bust_point", "front_waist_length_from_neck_pit"),
            f"From the side of the neck to the bust point is {reach:.0f} mm, and from the hollow of the neck to the "
            f"waist only {length:.0f} mm: that leaves {bust:.0f} mm from the bust point to the waist.",
        )
    if added > 0.0:
        gave.append(
            f"The front is {added:.1f} mm longer at the centre than the front waist length, so that the bust point "
            f"stands {_LOWEST_BUST:.0f} mm above the waist."
        )
    pit = Point(0.0, length + added)
    return added, pit, Point(neck_x, pit.y + width), Point(half, bust + added)


def _bust_dart(body: Body) -> float:
    """The angle of the bust dart, radians.

    Aldrich's block for bust 88 has a dart 7 cm wide on legs 25.7 cm long: 15.7 degrees. A fuller or flatter bust than
    the median of the 1988 survey (1.9 cm more round the bust than round the upper chest) changes it by 2 degrees a
    centimetre, two thirds of what spreading for a fuller bust gives (trade geometry: a centimetre more round, half of
    it a side, over a 9 cm slash is 3.2 degrees). The two thirds are our own choice, for measuring errors.
    """
    fuller = body.mm("bust_girth") - body.mm("upper_chest_girth") - 19.0
    return math.radians(min(26.0, max(9.0, 15.7 + 0.2 * fuller)))


def _front_shoulder(
    neck: Point, slope: float, body: Body, bust_point: Point, angle: float, under: float, gave: list[str]
) -> tuple[Shoulder, float]:
    """The front shoulder with its bust dart, and the angle of that dart, radians: smaller where the armhole needs it.

    angle: as wanted, radians; under: the level of the underarm, mm; gave: takes the sentence where it gave way
    """
    wanted = angle
    while True:
        shoulder = _open_front(neck, slope, body.mm("shoulder_length"), bust_point, angle)
        if shoulder.tip.y - under >= _LEAST_FRONT_ARMHOLE or angle <= _LEAST_BUST_DART:
            break
        angle = max(_LEAST_BUST_DART, angle - math.radians(1.0))
    if angle < wanted:
        gave.append(
            f"The bust dart is {math.degrees(angle):.0f} degrees instead of {math.degrees(wanted):.0f}, "
            "so that the front armhole is long enough."
        )
    return shoulder, angle


def _open_front(neck: Point, slope: float, length: float, bust_point: Point, angle: float) -> Shoulder:
    along = polar(-slope)
    mouth = neck + along * (0.5 * length)
    # the fold runs through the bust point; half the mouth seen from there, by the sines of the triangle with the apex
    half = 0.5 * angle - math.asin(SHORT_OF_BUST * math.sin(0.5 * angle) / distance(mouth, bust_point))
    apex = bust_point + (mouth - bust_point).unit().turned(-half) * SHORT_OF_BUST
    tip = turn(apex, -angle).point(neck + along * length)
    return Shoulder(neck, slope, length, mouth, apex, angle, tip)


def _share_round_bust(
    body: Body, ease: Mapping[str, float], back: float, gap: float, limits: tuple[float, float], gave: list[str]
) -> tuple[float, float, float]:
    """(half chest with the open dart, width of the armhole, ease round the bust) on one half of the body.

    limits: the narrowest and widest half chest, open dart included, past which the armhole can run
    """
    inmost, outmost = limits
    bust = body.mm("bust_girth")
    # a close knit that is cut smaller than the body has a chest and an armhole smaller by as much
    arm_girth = body.mm("upper_arm_girth") + min(0.0, ease["upper_arm"])
    smaller = 1.0 + min(0.0, ease["bust"]) / bust
    # Aldrich: chest 32.4 at bust 88, and 0.3 for each centimetre of bust (from memory)
    chest = min(max(0.5 * smaller * (324.0 + 0.3 * (bust - 880.0)), inmost - gap), outmost - gap)
    half = 0.5 * (bust + ease["bust"])
    good, least = max(80.0, 0.31 * arm_girth), max(62.0, 0.235 * arm_girth)
    room = half - back - gap - chest
    if room >= good:
        return chest + gap, room, ease["bust"]
    narrower = min(good - room, (1.0 - _NARROWEST_CHEST) * chest, max(0.0, chest + gap - inmost))
    room += narrower
    chest -= narrower
    if narrower > 3.0:
        gave.append(f"The chest is {2.0 * narrower:.0f} mm narrower than the block has it, to leave room for the arm.")
    if room < good - 3.0:
        gave.append(f"The armhole is {max(room, least):.0f} mm wide; {good:.0f} mm would be comfortable.")
    if room >= least:
        return chest + gap, room, ease["bust"]
    more = 2.0 * (least - room)
    closer = _PLAIN_BUST_EASE - max(ease["bust"], -_CLOSEST * bust)
    if more > _MOST_BUST_EASE_MORE + max(0.0, closer):
        raise CannotDraft(
            ("bust_girth", "interscye_mid_distance"),
            f"Across the back is {body.mm('interscye_mid_distance'):.0f} mm, round the bust {bust:.0f} mm: that leaves "
            f"{room:.0f} mm for the arm, and it needs {least:.0f} mm.",
        )
    return chest + gap, least, ease["bust"] + more


def shoulder_line(shoulder: Shoulder) -> tuple[Point, Point]:
    """The folded shoulder, from the neck to its end."""
    return shoulder.neck, shoulder.neck + polar(-shoulder.slope) * shoulder.length
