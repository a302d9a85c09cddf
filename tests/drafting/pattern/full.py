"""The small pattern with everything set that a pattern can hold, nothing at what it is when it is left out."""

from __future__ import annotations

from dataclasses import replace

from drafting.geometry import Line, Point
from drafting.pattern import (
    Across,
    Along,
    Between,
    BodyLength,
    BodySide,
    Cut,
    Fullness,
    Half,
    Identity,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Measure,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Wearer,
)
from drafting.pattern.derived import Derived, DrawnTo, EdgeAs, LineRef
from drafting.pattern.measure import Bent, Curved
from drafting.pattern.pattern import ChildWearer, Step
from drafting.pattern.places import BodyPart
from tests.drafting.pattern import sample

__all__ = ["full"]


def _front() -> Piece:
    front = sample.front()
    hem, side, *rest = front.edges
    hip, knee = front.points
    bent = (Line(Point(0.0, 380.0), Point(120.0, 371.0)), Line(Point(120.0, 371.0), Point(249.0, 380.0)))
    return replace(
        front,
        edges=(
            replace(hem, place=Place.HEM, half=Half.FRONT),
            replace(side, place=Place.SIDE),
            replace(rest[0], drawn_up=Fullness.GATHERED),
            *rest[1:],
        ),
        cut=Cut(3, fold=True, mirror=True, lining=2, interfacing=4),
        notches=tuple(replace(each, marks=NotchMark.HIP) for each in front.notches),
        lines=(
            replace(front.lines[0], level=Level.HIP),
            MarkLine("low hip line", bent[0].start, bent[-1].end, bent, Level.HIP, onward=True),
        ),
        points=(replace(hip, landmark=Landmark.HIP), knee, MarkPoint("crown", Point(10.0, 20.0), Landmark.CROWN)),
        points_meant=(("hem", "side seam"),),
        identity=Identity(PieceKind.FACING, BodyPart.SKIRT, PieceKind.FRONT, BodySide.LEFT),
    )


def full() -> Pattern:
    """It; the hem is longer in it than in the pattern before its finishing steps."""
    whole = sample.pattern()
    front, back = _front(), whole.pieces[1]
    name = front.name
    tapes = (
        Measure("skirt round", (Across(name, "hip line", 2.0), Curved(name, "low hip line", 3.25, 4.0)), snug=38.0),
        Measure("hem", (Along(name, "hem", 2.0),), "hem_girth", 900.0, 60.0, 20.0, True, 38.0, 3.0),
        Measure("hip to knee", (Between(name, "hip point", "knee", 0.5),)),
        Measure("bent", (Bent(name, "hip line", "low hip line", 2.0),)),
    )
    facing = Derived(
        "neck facing",
        (DrawnTo(Place.HEM, Identity(PieceKind.FRONT, BodyPart.SKIRT, PieceKind.BACK), name),),
        (("depth", 60.0), ("how", "plain"), ("lined", True), ("count", 2), ("ends", None)),
        (back.name,),
        ("side seam",),
        (NotchRef(name, "hip"),),
        "lower facing",
        (EdgeAs(name, "hem", Role.HEM, 12.0),),
        (LineRef(name, "hip line"),),
    )
    wearer = Wearer(
        "Ylva Ström",
        (BodyLength("waist_girth", 790.0, "measured", "12 September", 4.0), BodyLength("stature", 1111.5, "chart")),
        ChildWearer("girl", 74, "in Norway"),
    )
    hemmed = replace(front, edges=(front.edges[0].with_allowance(55.0), *front.edges[1:]))
    seams = (replace(whole.seams[0], notches=whole.seams[0].notches[:1]), whole.seams[1])
    before = replace(
        whole,
        wearer=wearer,
        pieces=(front, back),
        seams=whole.seams,
        measures=(tapes[0], Measure("length", (Along(name, "centre front"),))),
        history=whole.history,
        derived=(replace(facing, pieces=(), seams=(), notches=(), edges=(), lines=()),),
        stretch=0.25,
        cloth_width=1500.0,
    )
    return replace(
        before,
        pieces=(hemmed, back),
        seams=seams,
        measures=tapes,
        history=(*whole.history, Step("hem allowance", (("by", 15.0),))),
        derived=(facing,),
        unfinished=before,
    )
