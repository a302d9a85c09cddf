"""A small pattern drawn by hand, with everything in it that a pattern can hold: half a skirt, front and back."""

from __future__ import annotations

from drafting.geometry import Cubic, Line, Point
from drafting.pattern import (
    Across,
    Along,
    Between,
    BodyLength,
    Cut,
    Dart,
    Edge,
    EdgeRef,
    Grain,
    MarkLine,
    MarkPoint,
    Measure,
    Notch,
    NotchRef,
    Origin,
    Pattern,
    Piece,
    Role,
    Seam,
    SeamEase,
    Station,
    Step,
    Wearer,
)


def front() -> Piece:
    """A skirt front on the fold, 240 mm wide at the hem, with a dart in the waist and a curved side."""
    hem_left, hem_right = Point(0.0, 0.0), Point(240.0, 0.0)
    hip, waist_side, waist_centre = Point(250.0, 400.0), Point(205.0, 606.0), Point(0.0, 600.0)
    mouth_right, apex, mouth_left = Point(115.0, 602.0), Point(105.0, 510.0), Point(95.0, 601.0)
    return Piece(
        "skirt front",
        (
            Edge("hem", (Line(hem_left, hem_right),), Role.HEM, 40.0),
            Edge(
                "side seam",
                (
                    Line(hem_right, hip),
                    Cubic(hip, Point(251.7, 468.0), Point(227.0, 540.0), waist_side),
                ),
                Role.SEAM,
                15.0,
            ),
            Edge(
                "waist, side part",
                (Cubic(waist_side, Point(175.0, 602.5), Point(145.0, 602.0), mouth_right),),
                Role.SEAM,
                10.0,
            ),
            Edge("dart leg, side", (Line(mouth_right, apex),), Role.DART_LEG),
            Edge("dart leg, centre", (Line(apex, mouth_left),), Role.DART_LEG),
            Edge(
                "waist, centre part",
                (Cubic(mouth_left, Point(63.0, 600.5), Point(32.0, 600.0), waist_centre),),
                Role.SEAM,
                10.0,
            ),
            Edge("centre front", (Line(waist_centre, hem_left),), Role.FOLD),
        ),
        Cut(1, fold=True),
        Grain(Point(60.0, 100.0), Point(60.0, 450.0)),
        (Dart("waist dart", ("dart leg, side", "dart leg, centre"), apex, "hip point"),),
        (
            Notch("hip", Station("side seam", 400.12498, "start")),
            Notch("low hip", Station("side seam", 250.0, "end"), "double"),
        ),
        (MarkLine("hip line", Point(0.0, 400.0), Point(250.0, 400.0)),),
        (MarkPoint("hip point", Point(105.0, 400.0)), MarkPoint("knee", Point(105.0, 60.0))),
    )


def back() -> Piece:
    """A skirt back, the front's mirror image in shape, without a dart and with an opening up the centre."""
    side = front().edge("side seam").curves
    from_fold = [Point(500.0 - p.x, p.y) for p in (side[0].start, side[0].end, side[1].end)]
    line, cubic = side
    assert isinstance(line, Line)
    assert isinstance(cubic, Cubic)
    handles = [Point(500.0 - p.x, p.y) for p in (cubic.c1, cubic.c2)]
    centre_hem, centre_waist, slit = Point(500.0, 0.0), Point(500.0, 602.0), Point(500.0, 420.0)
    return Piece(
        "skirt back",
        (
            Edge("hem", (Line(from_fold[0], centre_hem),), Role.HEM, 40.0),
            Edge("centre back", (Line(centre_hem, slit),), Role.SEAM, 15.0),
            Edge("opening", (Line(slit, centre_waist),), Role.OPENING, 20.0),
            Edge("waist", (Line(centre_waist, from_fold[2]),), Role.SEAM, 10.0),
            Edge(
                "side seam",
                (Cubic(from_fold[2], handles[1], handles[0], from_fold[1]), Line(from_fold[1], from_fold[0])),
                Role.SEAM,
                15.0,
            ),
        ),
        Cut(2, mirror=True),
        Grain(Point(400.0, 100.0), Point(400.0, 450.0)),
        notches=(Notch("hip", Station("side seam", 400.12498, "end")), Notch("low hip", Station("side seam", 250.0))),
        lines=(MarkLine("hip line", Point(250.0, 400.0), Point(500.0, 400.0)),),
    )


def pattern() -> Pattern:
    """The two pieces, their seams, and how they came to be."""
    pairs = tuple((NotchRef("skirt front", name), NotchRef("skirt back", name)) for name in ("hip", "low hip"))
    return Pattern(
        "Harbour skirt",
        Wearer(
            "Ylva Ström",
            (
                BodyLength("waist_girth", 790.0, "measured", "12 September"),
                BodyLength("hip_height", 853.4, "estimated", "from stature and hip_girth", 21.5),
            ),
        ),
        (front(), back()),
        (
            Seam(
                "side seam",
                (EdgeRef("skirt front", "side seam"),),
                (EdgeRef("skirt back", "side seam", backward=True),),
                notches=pairs,
            ),
            Seam(
                "waist to waist",
                (EdgeRef("skirt front", "waist, side part"), EdgeRef("skirt front", "waist, centre part")),
                (EdgeRef("skirt back", "waist", backward=True),),
                SeamEase(-20.0, -25.0, 0.0),
            ),
        ),
        (
            Measure(
                "hip",
                (Across("skirt front", "hip line", 2.0), Across("skirt back", "hip line", 2.0)),
                "hip_girth",
                950.0,
                50.0,
                25.0,
                round=True,
            ),
            Measure("centre front length", (Along("skirt front", "centre front"),)),
            Measure("hip to knee", (Between("skirt front", "hip point", "knee"),)),
        ),
        (Origin("skirt", (("length", 600.0), ("vent", False), ("fit", "regular")), ("The hem gave way by 3 mm.",)),),
        (Step("lengthen", (("piece", "skirt front"), ("by", 12.5), ("only", None))),),
    )
