"""A small blouse drawn by hand, sound in every respect: front and back on the fold, a sleeve eased into the armhole.

The front has a dart in its hem, the back one in its shoulder; every corner is square, so that joined lines run on.
"""

from __future__ import annotations

from drafting.geometry import Curve, Line, Point, Vec, blend, mirror, turn
from drafting.pattern import (
    Across,
    Along,
    BodyLength,
    BodyPart,
    Cut,
    Dart,
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
    NotchRef,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    Wearer,
    move_piece,
)
from tests.drafting.geometry.fair_of_length import fair_of_length

CAP_EASE = 10.0
BODY = {"head_girth": 250.0, "bust_girth": 940.0, "waist_girth": 740.0}
LENGTHEN_HERE = "lengthen or shorten line"
SIDE = Vec(0.0, 200.0)
HEM_SIDE, UNDERARM, NECK, TIP = Point(250.0, 0.0), Point(250.0, 200.0), Point(70.0, 420.0), Point(190.0, 380.0)


def front() -> Piece:
    """The front, centre at the left: on the fold, with a dart in the hem that crosses the lengthening line."""
    mouth_in, apex, mouth_out = Point(110.0, -4.0), Point(120.0, 170.0), Point(130.0, -4.0)
    shoulder = NECK - TIP
    return Piece(
        "front",
        (
            hem("hem, centre part", blend(Point(0.0, 0.0), Vec(1.0, 0.0), mouth_in, (apex - mouth_in).right())),
            leg("dart leg, centre", Line(mouth_in, apex)),
            leg("dart leg, side", Line(apex, mouth_out)),
            hem("hem, side part", blend(mouth_out, (mouth_out - apex).left(), HEM_SIDE, SIDE.right())),
            seam("side seam", Line(HEM_SIDE, UNDERARM), Place.SIDE),
            seam("armhole", blend(UNDERARM, SIDE.left(), TIP, shoulder.right()), Place.ARMHOLE),
            seam("shoulder", Line(TIP, NECK), Place.SHOULDER),
            neck(blend(NECK, shoulder.left(), Point(0.0, 340.0), Vec(-1.0, 0.0))),
            Edge("centre front", (Line(Point(0.0, 340.0), Point(0.0, 0.0)),), Role.FOLD, place=Place.CENTRE_FRONT),
        ),
        Cut(1, fold=True),
        Grain(Point(40.0, 40.0), Point(40.0, 300.0)),
        (Dart("waist dart", ("dart leg, centre", "dart leg, side"), apex, "bust point"),),
        (Notch("side", Station("side seam", 60.0)), Notch("front armhole", Station("armhole", 80.0))),
        lines(),
        (MarkPoint("bust point", Point(120.0, 200.0), Landmark.BUST_POINT),),
        identity=Identity(PieceKind.FRONT, BodyPart.BODICE),
    )


def back() -> Piece:
    """The back, centre at the right: on the fold, with a dart in the shoulder."""
    middle = Point(130.0, 400.0)
    shoulder = NECK - TIP
    apex = middle + shoulder.left().unit() * 60.0
    opened = turn(apex, -0.15)
    tip, mouth_in = opened.point(TIP), opened.point(middle)
    drawn = Piece(
        "back",
        (
            hem("hem", blend(Point(0.0, 0.0), Vec(1.0, 0.0), HEM_SIDE, SIDE.right())),
            seam("side seam", Line(HEM_SIDE, UNDERARM), Place.SIDE),
            seam("armhole", blend(UNDERARM, SIDE.left(), tip, opened.vec(shoulder).right()), Place.ARMHOLE),
            seam("shoulder, outer part", Line(tip, mouth_in), Place.SHOULDER),
            leg("dart leg, outer", Line(mouth_in, apex)),
            leg("dart leg, inner", Line(apex, middle)),
            seam("shoulder, inner part", Line(middle, NECK), Place.SHOULDER),
            neck(blend(NECK, shoulder.left(), Point(0.0, 395.0), Vec(-1.0, 0.0))),
            Edge("centre back", (Line(Point(0.0, 395.0), Point(0.0, 0.0)),), Role.FOLD, place=Place.CENTRE_BACK),
        ),
        Cut(1, fold=True),
        Grain(Point(40.0, 40.0), Point(40.0, 300.0)),
        (Dart("shoulder dart", ("dart leg, outer", "dart leg, inner"), apex),),
        (Notch("side", Station("side seam", 60.0)), Notch("back armhole", Station("armhole", 90.0), "double")),
        lines(),
        identity=Identity(PieceKind.BACK, BodyPart.BODICE),
    )
    return move_piece(drawn, mirror(Point(0.0, 0.0), Vec(0.0, 1.0)))


def sleeve(front_cap: float, back_cap: float) -> Piece:
    """A sleeve with a cap of these lengths: front half at the right, the underarm slanting in to the wrist."""
    wrist_back, wrist_front = Point(-110.0, 0.0), Point(110.0, 0.0)
    arm_back, arm_front, crown = Point(-160.0, 400.0), Point(160.0, 400.0), Point(0.0, 540.0)
    inward, outward = arm_front - wrist_front, wrist_back - arm_back
    return Piece(
        "sleeve",
        (
            hem("wrist", blend(wrist_back, outward.left(), wrist_front, inward.right()), Place.WRIST),
            seam("underarm, front", Line(wrist_front, arm_front), Place.UNDERARM, Half.FRONT),
            seam(
                "cap, front",
                fair_of_length(arm_front, inward.left(), crown, Vec(-1.0, 0.0), wanted=front_cap),
                Place.CAP,
                Half.FRONT,
            ),
            seam(
                "cap, back",
                fair_of_length(crown, Vec(-1.0, 0.0), arm_back, outward.right(), wanted=back_cap),
                Place.CAP,
                Half.BACK,
            ),
            seam("underarm, back", Line(arm_back, wrist_back), Place.UNDERARM, Half.BACK),
        ),
        Cut(2, mirror=True),
        Grain(Point(0.0, 60.0), Point(0.0, 450.0)),
        notches=(
            Notch("front armhole", Station("cap, front", 80.0)),
            Notch("back armhole", Station("cap, back", 90.0, "end"), "double"),
            Notch("elbow, front", Station("underarm, front", 210.0, "end")),
            Notch("elbow, back", Station("underarm, back", 210.0)),
        ),
        lines=(
            MarkLine("biceps line", Point(-160.0, 400.0), Point(160.0, 400.0), level=Level.BICEPS),
            MarkLine("elbow line", Point(-135.0, 200.0), Point(135.0, 200.0), level=Level.ELBOW),
            MarkLine(LENGTHEN_HERE, Point(-122.0, 96.0), Point(122.0, 96.0), level=Level.LENGTHEN),
        ),
        identity=Identity(PieceKind.SLEEVE, BodyPart.SLEEVE),
    )


def seam(name: str, curve: Curve, place: Place, half: Half | None = None) -> Edge:
    return Edge(name, (curve,), Role.SEAM, 15.0, place, half)


def hem(name: str, curve: Curve, place: Place = Place.HEM) -> Edge:
    return Edge(name, (curve,), Role.HEM, 12.0, place)


def neck(curve: Curve) -> Edge:
    return Edge("neck", (curve,), Role.SEAM, 10.0, Place.NECK)


def leg(name: str, curve: Curve) -> Edge:
    return Edge(name, (curve,), Role.DART_LEG)


def lines() -> tuple[MarkLine, ...]:
    """The balance lines of front and back."""
    return (
        MarkLine("bust line", Point(0.0, 190.0), Point(250.0, 190.0), level=Level.BUST),
        MarkLine(LENGTHEN_HERE, Point(0.0, 130.0), Point(250.0, 130.0), level=Level.LENGTHEN),
        MarkLine("waist line", Point(0.0, 40.0), Point(250.0, 40.0), level=Level.WAIST),
    )


def blouse() -> Pattern:
    """The whole blouse, its seams in the order of sewing."""
    f, b = front(), back()
    s = sleeve(f.edge("armhole").length + 0.5 * CAP_EASE, b.edge("armhole").length + 0.5 * CAP_EASE)
    half_ease = SeamEase(0.5 * CAP_EASE, 2.0, 15.0)
    return Pattern(
        "sample blouse",
        # nothing opens it, and its neck is 387 mm round: hers is a doll's head
        Wearer("Ansa", tuple(BodyLength(key, mm, "measured") for key, mm in BODY.items())),
        (f, b, s),
        (
            Seam(
                "shoulder",
                (EdgeRef("front", "shoulder"),),
                (EdgeRef("back", "shoulder, outer part", True), EdgeRef("back", "shoulder, inner part", True)),
            ),
            Seam(
                "side",
                (EdgeRef("front", "side seam", True),),
                (EdgeRef("back", "side seam"),),
                notches=((NotchRef("front", "side"), NotchRef("back", "side")),),
            ),
            Seam(
                "underarm",
                (EdgeRef("sleeve", "underarm, front", True),),
                (EdgeRef("sleeve", "underarm, back"),),
                notches=((NotchRef("sleeve", "elbow, front"), NotchRef("sleeve", "elbow, back")),),
            ),
            Seam(
                "front armhole",
                (EdgeRef("sleeve", "cap, front"),),
                (EdgeRef("front", "armhole"),),
                half_ease,
                ((NotchRef("sleeve", "front armhole"), NotchRef("front", "front armhole")),),
            ),
            Seam(
                "back armhole",
                (EdgeRef("sleeve", "cap, back", True),),
                (EdgeRef("back", "armhole", True),),
                half_ease,
                ((NotchRef("sleeve", "back armhole"), NotchRef("back", "back armhole")),),
            ),
        ),
        (
            Measure(
                "bust",
                (Across("front", "bust line", 2.0), Across("back", "bust line", 2.0)),
                "bust_girth",
                940.0,
                60.0,
                30.0,
                True,
            ),
            Measure(
                "waist",
                (Across("front", "waist line", 2.0), Across("back", "waist line", 2.0)),
                "waist_girth",
                740.0,
                160.0,
                20.0,
                True,
            ),
            Measure("underarm", (Along("sleeve", "underarm, front"),)),
        ),
    )
