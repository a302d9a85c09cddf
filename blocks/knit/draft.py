"""From a woman's body, her cloth and the ease to the front and back of a knit top.

Half of the front and half of the back are each a quarter of the bust, the front a little wider; the girths are smaller
than the body where the ease says so, and never so small that the cloth is worn at more than a third of its stretch.
Neck, shoulder and lengths are not made smaller with them. The shoulder ends half a centimetre further in, the armhole
has no dart to hang on and is scooped a little deeper in front (all common practice).

A front without a dart can be only a little longer than the back. What the bust asks for beyond that is told in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from blocks.handover import Drafted
from blocks.knit.cardigan import cardigan_front
from blocks.knit.measured import BACK, FRONT, given_ease, measures_of
from blocks.knit.side import TopSide
from blocks.shared.dartless_frame import NECK, Build, DartlessFrame, Half, dartless_frame, smooth_lines
from blocks.shared.dartless_pieces import piece_of, run_at_level
from blocks.shared.edges_handed import armhole_of
from blocks.shared.sleeve_room import deep_enough
from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft
from drafting.fit.cloth import Cloth
from drafting.geometry import Line, Point
from drafting.pattern import (
    Edge,
    EdgeRef,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    NotchRef,
    Piece,
    Place,
    Role,
    Seam,
)
from drafting.pattern.neck_band import BAND_WIDTH, TURNING, banded_edge
from drafting.pattern.stretch_used import USED_OVER_HEAD, USED_PUTTING_ON, USED_WORN
from drafting.reading.units import percent

__all__ = ["BACK", "FRONT", "Style", "draft_knit_top"]


_BUILD: Final = Build(math.radians(17.0), 2.5, shoulder_in=5.0, most_lift=10.0, gives=True)
"""The slope between those of a handbook's front and back; the front half a centimetre wider for the bust, the shoulder
half a centimetre in (common practice); the front a centimetre higher than the back at the most (ours)."""

_HEAD: Final = 560.0
"""mm: the head a neck is drawn for that was not measured (the head of a worked example of bands)."""

_WIDE_NECK: Final = 60.0  # mm that a neck edge is longer than the neck lies, from which on it is told why (ours)

_HEAD_EASE: Final = 10.0
_SCYE_STEP, _MOST_SCYE_MORE = 5.0, 50.0
_STEEPEST: Final = 0.16  # of the height of the underarm, the most that a side comes in to the waist (ours)
_LEVEL_SHARE: Final = 0.9  # of the height of the underarm, the highest that the bust line lies (ours)
_TOLD_EXCESS: Final = 10.0  # mm of length in front from which a bust is said to ask for more (ours)
_FULL_BUST: Final = 80.0  # mm that the bust is larger than the upper chest: full (common practice)
_PULLED: Final = 0.05  # cut smaller by more than this, a top gets shorter as it is worn
_LONGER: Final = 0.025  # of its length that it is then cut longer (common practice, 2 to 3 %)
_FIRM_ALONG: Final = 0.1  # stretch along the grain below which a top cut smaller than the body rides up (ours)
_BELOW_HIP: Final = 30.0  # mm that a top ends below the hip where nothing is said (common practice)
_ABOVE_BUST: Final = 20.0  # mm above the bust line at which a V ends (common practice)
_NARROWEST_BAND: Final = 6.0  # mm
_SPARE: Final = 0.86  # of what a band may be stretched, as a neck turns a little more than is reckoned (ours)
_TRIES: Final = 4


@dataclass(frozen=True, slots=True)
class Style:
    """What is asked of a knit top, mm.

    open:   whether it is a cardigan, open in front, with a V
    front_band: the finished width of its band, half of which its front edges end short of the centre
    neck_depth: from the hollow of the neck to the end of the V; None to a little above the bust line
    below:  from the waist to the hem; None to a little below the hip
    shorter: by how much it ends above that, as a band goes on from there
    shaped: whether the sides come in to the waist, or go straight to the hip
    band:   the finished width of the band at the neck; 0 for a neck without one, None for as wide as lies flat
    band_stretch: how far the knit of the band stretches, a fraction
    """

    open: bool = False
    front_band: float = 30.0
    neck_depth: float | None = None
    below: float | None = None
    shorter: float = 0.0
    shaped: bool = True
    band: float | None = None
    band_stretch: float = 0.0

    @property
    def short_of_centre(self) -> float:
        """How far short of the centre line the front edges end, mm; 0 where the front is on the fold."""
        return 0.5 * self.front_band if self.open else 0.0


_BECAUSE: Final[Mapping[str, str]] = MappingProxyType(
    {
        "bust": "because the back is broad for it",
        "across_back": "because the back is broad and the arm needs room: the cloth gives so much",
        "waist": "because a top without darts is taken in at its sides alone",
        "hip": "because the sides go straight down from the bust",
        "scye_depth": "so that the sleeve goes over the arm",
    }
)
"""Why the ease at a place is not what was asked for."""


def draft_knit_top(
    body: Body,
    ease: Mapping[str, float],
    least: Mapping[str, float],
    cloth: Cloth,
    style: Style,
    *,
    for_sleeve: bool = True,
) -> Drafted:
    """Front and back of a knit top.

    ease, least: mm by place ("bust", "waist", "hip", "neck", "across_back", "scye_depth", ...)
    for_sleeve:  deepen the armhole, and say so, when no sleeve for this arm could be set into it
    Raises CannotDraft naming the measurements at odds, or the cloth that gives too little.
    """
    _accept_cloth(body, ease, cloth)
    style = replace(style, band=_band_width(body, ease, cloth, style) if style.band is None else style.band)
    neckline = _neckline(body, ease, cloth, style)
    below, pulled = _length(body, ease, style)

    def drawn(more: float) -> tuple[tuple[DartlessFrame, Piece, Piece], float]:
        """The top with an armhole so much deeper, mm, and how long its armhole is, front and back together, mm."""
        frame = dartless_frame(
            body,
            ease,
            scye_more=more,
            dips=False,
            least_across=least.get("across_back", 0.0),
            neckline=neckline,
            build=_BUILD,
        )
        frame = replace(frame, chest=_bust_level(frame, body))
        with smooth_lines():
            frame, side = _sides(frame, body, ease, below, shaped=style.shaped, stretch=cloth.stretch)
            front, back = (_piece(frame, half, side, body) for half in (frame.front, frame.back))
            front = _opened(front, frame, style) if style.open else front
        hole = armhole_of(front, back)
        return (frame, front, back), hole.front + hole.back

    frame, front, back = deep_enough(drawn, body, ease, step=_SCYE_STEP, most=_MOST_SCYE_MORE, for_sleeve=for_sleeve)
    return Drafted(
        pieces=(front, back),
        seams=_seams(),
        measures=measures_of(body, ease, least, frame, front, back, style.short_of_centre, _BUILD.shoulder_in),
        options=(
            ("below_waist", below),
            ("sides", "shaped" if style.shaped else "straight"),
            *_neck_options(style),
            ("bust_ease", frame.chest_ease),
            ("scye_ease", frame.scye_ease),
        ),
        given=given_ease(
            body,
            front,
            back,
            frame.neck.scooped,
            shaped=style.shaped,
            beyond=0.5 * style.front_band if style.open else 0.0,
        ),
        because=_BECAUSE,
        gave_way=(
            *frame.gave_way,
            *pulled,
            *_said_of_neck(body, ease, cloth, style, neckline),
            *_bust_sentences(body, frame),
            *_cloth_sentences(body, ease, cloth),
        ),
        armhole=replace(armhole_of(front, back), worn_over=style.open),
    )


def _neck_options(style: Style) -> tuple[tuple[str, str | float | None], ...]:
    if style.open:
        return (("front", "open"), ("front_band", style.front_band))
    return (
        ("opening", "knit band" if style.band else None),
        ("band_width", style.band or None),
        ("band_stretch", style.band_stretch if style.band else None),
    )


def _opened(front: Piece, frame: DartlessFrame, style: Style) -> Piece:
    pit = _foot_of_neck(frame).y - (frame.neck.depth - frame.neck.scooped)
    deep = frame.chest + _ABOVE_BUST if style.neck_depth is None else pit - style.neck_depth
    return cardigan_front(front, 0.5 * style.front_band, deep)


def _accept_cloth(body: Body, ease: Mapping[str, float], cloth: Cloth) -> None:
    """Raise CannotDraft for a woven, and for a girth so small that the cloth would be worn at more than its share."""
    if not cloth.knit:
        raise CannotDraft((), 'A knit top has no darts and no opening: take a knit, or "bodice" for a woven cloth.')
    for place, key in (("bust", "bust_girth"), ("waist", "waist_girth"), ("hip", "hip_girth")):
        girth = body.mm(key)
        smallest = girth / (1.0 + USED_WORN * cloth.stretch)
        if girth + ease[place] < smallest - 0.5:
            raise CannotDraft(
                (),
                f"The {place} would be {girth + ease[place]:.0f} mm round; a knit that stretches "
                f"{percent(cloth.stretch)} is worn at a third of that, so no less than {smallest:.0f} mm: ask for more "
                "ease there, or take a cloth that stretches further.",
            )


def _band_width(body: Body, ease: Mapping[str, float], cloth: Cloth, style: Style) -> float:
    """As wide as is usual, mm; narrower in a firm knit, which a wide band could not be stretched enough to lie flat."""
    gives = USED_PUTTING_ON * style.band_stretch
    width = BAND_WIDTH
    for _ in range(_TRIES):
        edge = _neckline(body, ease, cloth, replace(style, band=width))
        width = min(BAND_WIDTH, _SPARE * edge * gives / (1.0 + gives) / TURNING)
    return max(_NARROWEST_BAND, width)


def _neckline(body: Body, ease: Mapping[str, float], cloth: Cloth, style: Style) -> float:
    """How long the neck edge is to be, mm, so that the band lies at the neck and the head goes through."""
    if style.open:
        return body.mm("neck_base_girth") + ease["neck"] + TURNING * style.front_band
    head = (body.mm("head_girth") if "head_girth" in body else _HEAD) + _HEAD_EASE
    foot = body.mm("neck_base_girth") + ease["neck"]
    if not style.band:
        return max(foot, head / (1.0 + USED_OVER_HEAD * cloth.stretch))
    return banded_edge(foot, head, style.band, style.band_stretch, cloth.stretch, USED_OVER_HEAD)


def _length(body: Body, ease: Mapping[str, float], style: Style) -> tuple[float, tuple[str, ...]]:
    """(from the waist to the hem, mm; what is said of it): longer where the top is pulled wide and so gets shorter."""
    below = (body.mm("waist_to_hip") + _BELOW_HIP if style.below is None else style.below) - style.shorter
    smaller = -min(ease[place] / body.mm(key) for place, key in (("bust", "bust_girth"), ("hip", "hip_girth")))
    if smaller <= _PULLED:
        return below, ()
    more = _LONGER * (body.mm("back_waist_length") + below)
    said = (
        f"It is cut {more:.0f} mm longer below the waist: {percent(smaller)} smaller than the body, it is pulled wide"
    )
    return below + more, (f"{said} and gets shorter as it is worn.",)


def _bust_level(frame: DartlessFrame, body: Body) -> float:
    """The level of the bust line, mm above the waist: of the bust point, but below the armhole."""
    breadth = 0.5 * body.mm("bust_point_breadth")
    neck = _foot_of_neck(frame)
    down = math.sqrt(max(0.0, body.mm("neck_to_bust_point") ** 2 - (breadth - neck.x) ** 2))
    return max(0.3 * frame.under, min(_LEVEL_SHARE * frame.under, neck.y - down))


def _foot_of_neck(frame: DartlessFrame) -> Point:
    """Where the neck meets the shoulder in front when it is not scooped out."""
    scooped = frame.neck.scooped
    width = frame.neck.width - scooped * math.cos(frame.slope)
    return Point(width, frame.front.centre.y + scooped + width + NECK.deeper)


def _sides(
    frame: DartlessFrame, body: Body, ease: Mapping[str, float], below: float, *, shaped: bool, stretch: float
) -> tuple[DartlessFrame, TopSide]:
    """The side seam, and the frame as wide at the underarm as makes the bust right at its own line."""
    wanted = frame.back.width
    depth = body.mm("waist_to_hip")
    # what is pulled on over the head passes the bust, as far as the cloth gives
    passing = body.mm("bust_girth") / (1.0 + USED_PUTTING_ON * stretch)
    hip = 0.5 * max(body.mm("hip_girth") + ease["hip"], passing)
    waist = 0.5 * max(body.mm("waist_girth") + ease["waist"], passing)
    for _ in range(_TRIES):
        both = frame.back.width + frame.front.width
        most = _STEEPEST * frame.under
        inward = min(most, 0.5 * (both - waist)) if shaped else None
        out = 0.5 * (hip - both) if shaped else max(0.0, 0.5 * (hip - both))
        side = TopSide(inward, out, -depth, -below, 0.5 * both)
        off = wanted - run_at_level(side.run(Point(frame.back.width, frame.under)), frame.chest)
        frame = replace(frame, back=_wider(frame.back, off), front=_wider(frame.front, off))
    return frame, side


def _wider(half: Half, by: float) -> Half:
    return replace(half, width=half.width + by)


def _piece(frame: DartlessFrame, half: Half, side: TopSide, body: Body) -> Piece:
    """The front or the back of a knit top, with its centre on the fold."""
    name, place = ("centre front", Place.CENTRE_FRONT) if half.front else ("centre back", Place.CENTRE_BACK)
    centre = Edge(name, (Line(half.centre, Point(0.0, side.hem)),), Role.FOLD, place=place)
    at_hip = side.hip if side.hem < side.hip - 25.0 else None
    piece = piece_of(frame, half, side, (centre,), fold=True, long=True, hip=at_hip, called="top", chest="bust line")
    sign = -1.0 if half.front else 1.0
    if at_hip is None:
        level = 0.5 * side.hem
        edge = Point(sign * run_at_level(side.run(Point(half.width, frame.under)), level), level)
        ends = (edge, Point(0.0, level)) if half.front else (Point(0.0, level), edge)
        line = MarkLine("lengthen or shorten line below the waist", *ends, level=Level.LENGTHEN)
        piece = replace(piece, lines=(*piece.lines, line))
    if half.front:
        at = Point(sign * 0.5 * body.mm("bust_point_breadth"), frame.chest)
        piece = replace(piece, points=(*piece.points, MarkPoint("bust point", at, Landmark.BUST_POINT)))
    return piece


def _seams() -> tuple[Seam, ...]:
    return (
        Seam("shoulder", (EdgeRef(BACK, "shoulder", backward=True),), (EdgeRef(FRONT, "shoulder"),)),
        Seam(
            "side seam",
            (EdgeRef(BACK, "side seam", backward=True),),
            (EdgeRef(FRONT, "side seam"),),
            notches=((NotchRef(BACK, "back waist level notch"), NotchRef(FRONT, "front waist level notch")),),
        ),
    )


def _bust_sentences(body: Body, frame: DartlessFrame) -> Iterator[str]:
    """What a bust asks for that a front without a dart has not."""
    if frame.excess <= _TOLD_EXCESS:
        return
    fuller = body.mm("bust_girth") - body.mm("upper_chest_girth")
    full = f" ({fuller:.0f} mm larger than the high bust, it is a full one)" if fuller > _FULL_BUST else ""
    yield (
        f"The bust{full} asks for {frame.excess:.0f} mm more length in front than a front without a dart has: the hem "
        f"will ride up by about so much in front, where the cloth does not stretch along the grain. A cutter lets it "
        'in with a dart at the side: the alteration "full bust".'
    )


def _said_of_neck(body: Body, ease: Mapping[str, float], cloth: Cloth, style: Style, neckline: float) -> Iterator[str]:
    """Why a neck is as wide as it is, where the head asks for it, and what would make it closer."""
    if style.open or neckline - body.mm("neck_base_girth") - ease["neck"] <= _WIDE_NECK:
        return
    head = f"a head of {_HEAD:.0f} mm" if "head_girth" not in body else f"a head of {body.mm('head_girth'):.0f} mm"
    known = "" if "head_girth" in body else " (measure yours)"
    stretch = max(cloth.stretch, style.band_stretch)
    yield (
        f"The neck edge is {neckline:.0f} mm round, so that {head}{known} passes it, stretched by all of its "
        f"{percent(stretch)}: a band of a knit that stretches further makes it closer to the neck, or an opening."
    )


def _cloth_sentences(body: Body, ease: Mapping[str, float], cloth: Cloth) -> Iterator[str]:
    smaller = min(ease[place] for place in ("bust", "hip"))
    if smaller < -0.02 * body.mm("bust_girth") and cloth.stretch_along < _FIRM_ALONG:
        yield (
            f"It is cut smaller than the body, and this cloth gives {percent(cloth.stretch_along)} along the grain: it "
            "may be tight under the arm and ride up. Such a top wants a knit that stretches both ways."
        )
