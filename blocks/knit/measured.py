"""What the finished knit top measures, and the ease that its pieces have."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from blocks.shared.dartless_frame import SCOOPED_BEHIND, DartlessFrame
from drafting.body.complete import Body
from drafting.pattern import (
    Across,
    Along,
    Curved,
    Level,
    Measure,
    Piece,
    Place,
    Tape,
    across,
    line_at,
    require_edge,
    require_line,
)

__all__ = ["BACK", "FRONT", "given_ease", "measures_of"]

FRONT, BACK = "top front", "top back"
"""What the pieces are called."""


def given_ease(
    body: Body, front: Piece, back: Piece, scooped: float, *, shaped: bool, beyond: float
) -> dict[str, float]:
    """The ease that the pieces have, mm by place.

    scooped: how far the neck lies out from the foot of the neck; beyond: how far short of the centre line a front ends
    """

    def round_at(level: Level) -> float:
        return 2.0 * (sum(across(piece, require_line(piece, level).name) for piece in (front, back)) + beyond)

    neck = 2.0 * sum(require_edge(piece, Place.NECK).length for piece in (front, back))
    nape, width = require_edge(back, Place.NECK).end, require_line(back, Level.BACK_WIDTH)
    given = {
        "bust": round_at(Level.BUST) - body.mm("bust_girth"),
        **({} if scooped else {"neck": neck - body.mm("neck_base_girth")}),
        "across_back": 2.0 * across(back, width.name) - body.mm("interscye_mid_distance"),
        "scye_depth": nape.y
        + SCOOPED_BEHIND * scooped
        - require_line(back, Level.SCYE).start.y
        - body.mm("scye_depth"),
    }
    if shaped:
        given["waist"] = round_at(Level.WAIST) - body.mm("waist_girth")
    if line_at(front, Level.HIP):
        given["hip"] = round_at(Level.HIP) - body.mm("hip_girth")
    return given


def measures_of(
    body: Body,
    ease: Mapping[str, float],
    least: Mapping[str, float],
    frame: DartlessFrame,
    front: Piece,
    back: Piece,
    beyond: float,
    shoulder_in: float,
) -> tuple[Measure, ...]:
    """What is measured on the finished top; beyond: how far short of the centre line a front ends, mm."""

    def around(name: str, key: str, level: Level, added: float) -> Iterator[Measure]:
        lines = [(piece.name, line_at(piece, level)) for piece in (front, back)]
        tape: tuple[Tape, ...] = tuple(Across(piece, line.name, 2.0) for piece, line in lines if line is not None)
        if beyond and tape and lines[0][1] is not None:  # the band lies there, buttoned on the centre line
            tape = (*tape, Curved(FRONT, lines[0][1].name, beyond, 2.0))
        if tape:
            yield Measure(name, tape, key, body.mm(key), added, least.get(name), round=True)

    return (
        *around("bust", "bust_girth", Level.BUST, frame.chest_ease),
        *around("waist", "waist_girth", Level.WAIST, ease["waist"]),
        *around("hip", "hip_girth", Level.HIP, ease["hip"]),
        *(
            Measure(f"{name}, neck to hem", (Along(piece.name, name),))
            for name, piece in (("centre back", back), *(() if beyond else (("centre front", front),)))
        ),
        Measure(
            "neck",
            (Along(FRONT, "neck", 2.0), Along(BACK, "neck", 2.0)),
            "neck_base_girth",
            body.mm("neck_base_girth"),
            2.0 * sum(require_edge(piece, Place.NECK).length for piece in (front, back)) - body.mm("neck_base_girth"),
        ),
        Measure(
            "shoulder",
            (Along(FRONT, "shoulder"),),
            "shoulder_length",
            body.mm("shoulder_length"),
            -frame.neck.scooped - shoulder_in,
        ),
        Measure(
            "across the back",
            (Across(BACK, "back width line", 2.0),),
            "interscye_mid_distance",
            body.mm("interscye_mid_distance"),
            ease["across_back"],
            least.get("across_back"),
        ),
    )
