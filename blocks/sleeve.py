"""The set-in sleeve: one piece, its cap drawn to the armhole it is to be set into."""

from __future__ import annotations

import math
from collections.abc import Mapping

from blocks.handover import Armhole, Drafted
from drafting.body.complete import Body
from drafting.errors import CannotDraft, NotAPattern
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Point,
    Vec,
    end_tangents,
    line_hits,
    mirror,
    moved_all,
    run_length,
    run_reversed,
    split,
)
from drafting.geometry.cap import Cap, fair_cap, triangle_height
from drafting.geometry.tolerance import SAME_PLACE
from drafting.parts.part import Ends
from drafting.pattern import (
    MOST_EASED,
    Across,
    Along,
    Between,
    BodyPart,
    Cut,
    Edge,
    EdgeRef,
    Grain,
    Half,
    Identity,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Measure,
    Notch,
    NotchMark,
    NotchRef,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    across,
    closed,
    edges_at,
    require_edge,
    require_line,
)

__all__ = ["SLEEVE", "draft_sleeve"]

SLEEVE = "sleeve"
_AT_THE_WRIST = Ends()  # with nothing sewn on there
_MOST_HOLLOW = 13.0  # mm that the underarm seam lies further in at the elbow than straight (ours: half an inch)
_MOST_ASLANT = math.tan(math.radians(6.5))  # mm to the mm: what the checks pass as a shallow corner is 7 degrees
_LEAN_OFF = math.radians(0.5)  # of the underarm seam, from which on the cap is drawn again to it
_LEAST_FOREARM = 40.0  # mm of sleeve below the elbow, above a band or a cuff (ours)
_FALL = 0.25 * 0.45  # of the wrist: how far the line to its lowest place runs level at both ends (ours)
_TRIES = 4
_LEAST_EASE = 0.0  # mm of cap ease: never shorter than the armhole


def draft_sleeve(
    body: Body, ease: Mapping[str, float], least: Mapping[str, float], armhole: Armhole, end: Ends = _AT_THE_WRIST
) -> Drafted:
    """The sleeve for an arm and an armhole.

    ease, least: mm by place ("upper_arm", "elbow", "wrist", "cap_ease"): what is added, and the least with which one
                 can move. The cap ease is what the cap is longer than the armhole, half of it in front and half
                 behind, all of it above the notches
    end:         how it ends above a band or a cuff
    The height of the cap and the place of its crown are solved for, so that front and back of the cap have exactly
    their lengths (the sleeve triangle: diagonals, height and biceps; any two give the third).
    Raises CannotDraft when no such cap stands on this arm, or nothing of the forearm would be left.
    """
    cap_ease = ease["cap_ease"]
    biceps = body.mm("upper_arm_girth") + ease["upper_arm"]
    wrist = body.mm("wrist_girth") + ease["wrist"]
    long, elbow = body.mm("arm_length") - end.shorter, body.mm("shoulder_to_elbow")
    if end.shorter and long < elbow + _LEAST_FOREARM:
        most = body.mm("arm_length") - elbow - _LEAST_FOREARM
        raise CannotDraft(
            ("arm_length", "shoulder_to_elbow"),
            f"What goes on at the wrist takes {end.shorter:.0f} mm off the sleeve, which has {most:.0f} mm to spare "
            "below the elbow: make it narrower, or write shorter = false.",
        )
    elbow_least = body.mm("elbow_girth") + ease["elbow"]
    try:
        guess = _height_guess(armhole, biceps, cap_ease)
        slope = _seam_lean(guess, long, elbow, biceps, wrist, elbow_least)
        cap = _cap(armhole, biceps, cap_ease, slope, guess)
        true = _seam_lean(cap.crown.y, long, elbow, biceps, wrist, elbow_least)
        if abs(true - slope) > _LEAN_OFF:  # a short sleeve leans by another angle where its cap is a little higher
            cap = _cap(armhole, biceps, cap_ease, true, cap.crown.y)
        if cap.crown.y >= elbow - 20.0:
            raise NotAPattern("cap", reason=f"it would reach to the elbow ({cap.crown.y:.0f} mm)")
        piece = _piece(cap, (biceps, wrist), long, elbow, armhole, elbow_least, end.drop)
    except NotAPattern as none:
        raise CannotDraft(
            ("upper_arm_girth", "scye_depth", "arm_length"),
            f"No sleeve {biceps:.0f} mm wide and {long:.0f} mm long goes into an armhole of "
            f"{armhole.front + armhole.back:.0f} mm ({none.reason}).",
        ) from none
    elbow_has = across(piece, require_line(piece, Level.ELBOW).name) - body.mm("elbow_girth")
    return Drafted(
        pieces=(piece,),
        seams=_seams(armhole, cap_ease),
        measures=_measures(body, ease, least, end.shorter),
        options=(("cap_ease", cap_ease),),
        given={
            "upper_arm": across(piece, require_line(piece, Level.BICEPS).name) - body.mm("upper_arm_girth"),
            "elbow": elbow_has,
            "wrist": require_edge(piece, Place.WRIST).length - body.mm("wrist_girth"),
            "cap_ease": sum(edge.length for edge in edges_at(piece, Place.CAP)) - armhole.front - armhole.back,
        },
        because={
            "elbow": "because more would be wider than the upper arm"
            if elbow_has < ease["elbow"]
            else "because the underarm seam can be hollowed no further"
        },
    )


def _height_guess(armhole: Armhole, biceps: float, cap_ease: float) -> float:
    """Nearly the height of the cap, from the sleeve triangle: a cap curve is about 3 % longer than its diagonal."""
    front, back = ((side + 0.5 * cap_ease) / 1.03 for side in (armhole.front, armhole.back))
    least = 0.15 * biceps
    if front + back <= biceps:
        return least
    return max(triangle_height(front, back, biceps), least)


def _seam_lean(height: float, long: float, elbow: float, biceps: float, wrist: float, elbow_least: float) -> float:
    """How far the underarm seam leans in where it meets the cap, radians, for a cap nearly `height` high.

    A millimetre more or less of height changes it by a fiftieth of a degree, so the nearly is enough for the corner.
    """
    end = Point(0.5 * (biceps - wrist), height - long)
    seam = _underarm(Point(0.0, 0.0), end, height - elbow, 0.5 * (biceps - elbow_least))
    down = end_tangents(seam[0])[0]
    return math.atan2(down.x, -down.y)


def _cap(armhole: Armhole, biceps: float, cap_ease: float, slope: float, guess: float) -> Cap:
    half = 0.5 * cap_ease
    return fair_cap(back=armhole.back + half, front=armhole.front + half, width=biceps, lean=slope, height=guess)


def _piece(
    cap: Cap,
    wide: tuple[float, float],
    long: float,
    elbow: float,
    armhole: Armhole,
    elbow_least: float,
    drop: float,
) -> Piece:
    """The sleeve below its cap: the underarm seams, the wrist, and all that is marked.

    wide: at the biceps line and at the wrist, mm; long, elbow: down from the crown, mm
    elbow_least: how wide it is at the elbow at the least, mm; drop: how much lower the wrist ends behind, mm
    """
    biceps, wrist = wide
    bottom = cap.crown.y - long
    elbow_level = cap.crown.y - elbow

    # the wrist lies evenly about the middle of the biceps line, so both seams are equally long
    hem = _lower_edge(Point(0.5 * biceps, bottom), wrist, drop)
    start, end = hem[0].start, hem[-1].end
    if not start.x < cap.crown.x < end.x:
        raise NotAPattern("sleeve", reason="its crown does not lie over the wrist")
    back_seam = _underarm(Point(0.0, 0.0), start, elbow_level, 0.5 * (biceps - elbow_least))
    front_seam = run_reversed(moved_all(back_seam, mirror(Point(0.5 * biceps, 0.0), Vec(0.0, 1.0))))
    back_at = _at_level(back_seam, elbow_level)
    front_at = Point(biceps - back_at.x, back_at.y)
    edges = (
        Edge("wrist", hem, Role.HEM, place=Place.WRIST),
        Edge("underarm seam, front", front_seam, place=Place.UNDERARM, half=Half.FRONT),
        Edge("cap front", cap.front, place=Place.CAP, half=Half.FRONT),
        Edge("cap back", run_reversed(cap.back), place=Place.CAP, half=Half.BACK),
        Edge("underarm seam, back", back_seam, place=Place.UNDERARM, half=Half.BACK),
    )
    to_elbow = run_length(_until_level(back_seam, elbow_level))
    return Piece(
        SLEEVE,
        closed(SLEEVE, edges),
        Cut(2, mirror=True),
        Grain(Point(cap.crown.x, -0.15 * long), Point(cap.crown.x, max(-0.55 * long, 0.9 * bottom))),
        (),
        (
            Notch("front cap notch", Station("cap front", armhole.front_notch), marks=NotchMark.BALANCE),
            Notch("back cap notch", Station("cap back", armhole.back_notch, "end"), "double", NotchMark.BALANCE),
            Notch("crown notch", Station("cap front", 0.0, "end"), marks=NotchMark.CROWN),
            Notch("front elbow notch", Station("underarm seam, front", to_elbow, "end"), marks=NotchMark.ELBOW),
            Notch("back elbow notch", Station("underarm seam, back", to_elbow), marks=NotchMark.ELBOW),
        ),
        (
            MarkLine("biceps line", Point(0.0, 0.0), Point(biceps, 0.0), level=Level.BICEPS),
            MarkLine(
                "lengthen or shorten line above the elbow",
                *_level_ends(back_seam, biceps, 0.5 * elbow_level),
                level=Level.LENGTHEN_ABOVE_ELBOW,
            ),
            MarkLine("elbow line", back_at, front_at, level=Level.ELBOW),
            MarkLine(
                "lengthen or shorten line",
                *_level_ends(back_seam, biceps, 0.5 * (elbow_level + bottom)),
                level=Level.LENGTHEN,
            ),
        ),
        (
            MarkPoint("crown", cap.crown, Landmark.CROWN),
            MarkPoint("elbow", Point(cap.crown.x, elbow_level), Landmark.ELBOW),
            MarkPoint("wrist", Point(cap.crown.x, bottom), Landmark.WRIST),
        ),
        identity=Identity(PieceKind.SLEEVE, BodyPart.SLEEVE),
    )


def _lower_edge(middle: Point, wrist: float, drop: float) -> tuple[Curve, ...]:
    """The edge at the wrist, so long, about a place in its middle: straight, or lower by `drop` at the quarter behind,
    level there and at both seams.
    """
    wide = wrist

    def drawn() -> tuple[Curve, ...]:
        start, end = middle - Vec(0.5 * wide, 0.0), middle + Vec(0.5 * wide, 0.0)
        if not drop:
            return (Line(start, end),)
        low = middle - Vec(0.25 * wide, drop)
        third = Vec(_FALL * wide, 0.0)
        return (
            Cubic(start, start + third, low - third, low),
            Cubic(low, low + third, middle - third, middle),
            Line(middle, end),
        )

    for _ in range(_TRIES if drop else 0):
        wide *= wrist / run_length(drawn())
    return drawn()


def _underarm(top: Point, end: Point, elbow_level: float, in_at_elbow: float) -> tuple[Curve, ...]:
    """The back underarm seam from underarm to wrist, `in_at_elbow` mm in from the underarm at the elbow.

    It lies no further in there than _MOST_HOLLOW from the straight seam, and no further out than half way to it:
    beyond that it would widen below the upper arm. Straight where it can be; else the line of least bending through the
    elbow (the cubic spline, natural at the underarm). It comes to the wrist no more aslant than _MOST_ASLANT: the hem
    is folded straight and lies on what it is turned up on, and the taper shows as a shallow corner at the seam.
    """
    straight = end.x * elbow_level / end.y
    at = min(max(in_at_elbow, min(straight, 0.5 * straight)), straight + _MOST_HOLLOW)
    above, below = -elbow_level, elbow_level - end.y
    upper, lower = at / above, (end.x - at) / below
    # how fast the seam leans in at the elbow and at the wrist, in mm to the mm, when nothing holds it at the wrist
    elbow = (upper / above + lower / below) / (1.0 / above + 1.0 / below)
    wrist = 1.5 * lower - 0.5 * elbow
    if abs(wrist) > _MOST_ASLANT:
        wrist = math.copysign(_MOST_ASLANT, wrist)
        elbow = (1.5 * upper / above + 3.0 * lower / below - wrist / below) / (1.5 / above + 2.0 / below)
    elif abs(at - straight) < SAME_PLACE:
        return (Line(top, end),)
    through = Point(at, elbow_level)
    return _steered(top, 1.5 * upper - 0.5 * elbow, through, elbow), _steered(through, elbow, end, wrist)


def _steered(start: Point, leaving: float, end: Point, arriving: float) -> Cubic:
    """The cubic down from one place to another that leans in by so many mm to the mm at its ends, steadily between."""
    third = (start.y - end.y) / 3.0
    return Cubic(start, start + Vec(leaving * third, -third), end - Vec(arriving * third, -third), end)


def _at_level(run: tuple[Curve, ...], level: float) -> Point:
    """Where a run crosses a level."""
    for curve in run:
        hits = line_hits(curve, Point(0.0, level), Vec(1.0, 0.0))
        if hits:
            return hits[0].point
    raise NotAPattern("sleeve", reason=f"its underarm seam does not reach the level {level:.0f} mm")


def _level_ends(back_seam: tuple[Curve, ...], biceps: float, level: float) -> tuple[Point, Point]:
    left = _at_level(back_seam, level)
    return left, Point(biceps - left.x, level)


def _until_level(run: tuple[Curve, ...], level: float) -> tuple[Curve, ...]:
    out: list[Curve] = []
    for curve in run:
        hits = line_hits(curve, Point(0.0, level), Vec(1.0, 0.0))
        if hits:
            out.append(split(curve, hits[0].t)[0])
            break
        out.append(curve)
    return tuple(out)


def _seams(armhole: Armhole, cap_ease: float) -> tuple[Seam, ...]:
    """The two halves of the armhole seam, each with half of the ease of the cap, mm, and the underarm seam."""
    half = SeamEase(0.5 * cap_ease, _LEAST_EASE, max(MOST_EASED, 0.5 * cap_ease))
    bodice_front, bodice_back = armhole.front_run[0].piece, armhole.back_run[0].piece
    return (
        Seam(
            "front armhole",
            (EdgeRef(SLEEVE, "cap front"),),
            armhole.front_run,
            half,
            ((NotchRef(SLEEVE, "front cap notch"), NotchRef(bodice_front, "front armhole notch")),),
        ),
        Seam(
            "back armhole",
            (EdgeRef(SLEEVE, "cap back", backward=True),),
            armhole.back_run,
            half,
            ((NotchRef(SLEEVE, "back cap notch"), NotchRef(bodice_back, "back armhole notch")),),
        ),
        Seam(
            "underarm seam",
            (EdgeRef(SLEEVE, "underarm seam, back"),),
            (EdgeRef(SLEEVE, "underarm seam, front", backward=True),),
            notches=((NotchRef(SLEEVE, "back elbow notch"), NotchRef(SLEEVE, "front elbow notch")),),
        ),
    )


def _measures(body: Body, ease: Mapping[str, float], least: Mapping[str, float], beyond: float) -> tuple[Measure, ...]:
    """The finished measurements of a sleeve, with the body's size, the ease and the least ease of each, mm."""
    return (
        Measure(
            "upper arm",
            (Across(SLEEVE, "biceps line"),),
            "upper_arm_girth",
            body.mm("upper_arm_girth"),
            ease["upper_arm"],
            least.get("upper_arm"),
            round=True,
        ),
        Measure(
            "elbow",
            (Across(SLEEVE, "elbow line"),),
            "elbow_girth",
            body.mm("elbow_girth"),
            ease["elbow"],
            least.get("elbow"),
            round=True,
        ),
        Measure(
            "wrist",
            (Along(SLEEVE, "wrist"),),
            "wrist_girth",
            body.mm("wrist_girth"),
            ease["wrist"],
            least.get("wrist"),
            round=True,
        ),
        Measure(
            "shoulder to wrist",
            (Between(SLEEVE, "crown", "wrist"),),
            "arm_length",
            body.mm("arm_length"),
            beyond=beyond,
        ),
        Measure(
            "shoulder to elbow", (Between(SLEEVE, "crown", "elbow"),), "shoulder_to_elbow", body.mm("shoulder_to_elbow")
        ),
    )
