"""From a body and its ease to the bodice's pieces, seams and measurements."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import partial

from blocks.bodice.frame import SHORT_OF_BUST, Frame, frame
from blocks.bodice.pieces import (
    BACK,
    FRONT,
    Armholes,
    BodiceSide,
    armholes,
    back_piece,
    bodice_sides,
    front_piece,
    hole_length,
)
from blocks.bodice.waist import WaistPlan, plan_waist, waist_lines
from blocks.handover import Drafted, Planned, WaistSeam
from blocks.shared.edges_handed import armhole_of, waist_half_of
from blocks.shared.sleeve_room import deep_enough
from blocks.shared.waist_darts import DARTS
from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft, NotAPattern
from drafting.pattern import (
    Across,
    Along,
    Between,
    EdgeRef,
    Landmark,
    Level,
    Measure,
    NotchMark,
    NotchRef,
    Piece,
    Place,
    Seam,
    across,
    require_edge,
    require_line,
    require_point,
)

__all__ = ["plan_bodice"]

_SCYE_STEP = 5.0
_MOST_SCYE_MORE = 45.0


def plan_bodice(
    body: Body,
    ease: Mapping[str, float],
    least: Mapping[str, float],
    *,
    bust_dart: float | None = None,
    front_darts: str = DARTS[0],
    back_darts: str = DARTS[0],
    for_sleeve: bool = True,
) -> Planned:
    """The fitted bodice for a body: its numbers, its armholes, how many darts; it is drawn when it is drafted.

    ease, least: mm by place ("bust", "waist", "neck", "across_back", "scye_depth", "upper_arm", "cap_ease"):
                 what is added, and the least with which one can move
    bust_dart:   angle of the bust dart in radians, None for the one that the bust asks for
    front_darts, back_darts: how many waist darts each half has, one of DARTS
    for_sleeve:  deepen the armhole, and say so, when no sleeve for this arm could be set into it
    Raises CannotDraft naming the measurements at odds, as drafting it may.
    """

    def planned(more: float) -> tuple[_Planned, float]:
        numbers = frame(body, ease, bust_dart=bust_dart, scye_more=more)
        with _smooth_armholes():
            waist = plan_waist(numbers, front_darts=front_darts, back_darts=back_darts)
            holes = armholes(numbers, waist.unders)
        return _Planned(more, numbers, waist, holes), hole_length(holes)

    enough = partial(deep_enough, body=body, ease=ease, step=_SCYE_STEP, most=_MOST_SCYE_MORE, for_sleeve=for_sleeve)
    plan = enough(planned)

    def drawn(more: float) -> tuple[tuple[Frame, tuple[BodiceSide, BodiceSide]], float]:
        one = plan if more == plan.more else planned(more)[0]
        with _smooth_armholes():
            sides = one.sides()
        return (one.numbers, sides), hole_length((sides[0].armhole, sides[1].armhole))

    def draft() -> Drafted:
        """The bodice drawn, with all that its sleeve and its skirt have to know."""
        numbers, sides = enough(drawn, since=plan.more)
        with _smooth_armholes():
            front, back = front_piece(numbers, sides[0]), back_piece(numbers, sides[1])
        waist = WaistSeam(waist_half_of(front), waist_half_of(back))
        return Drafted(
            pieces=(front, back),
            seams=_seams(front),
            measures=_measures(body, ease, least, numbers),
            options=(
                ("bust_dart", bust_dart),
                ("front_darts", front_darts),
                ("back_darts", back_darts),
                ("bust_ease", numbers.bust_ease),
                ("scye_ease", numbers.scye_ease),
                ("short_of_bust_point", SHORT_OF_BUST),
            ),
            given=_given(body, front, back, waist),
            because={
                "bust": "because the back is broad for it",
                "scye_depth": "so that the sleeve goes over the arm",
            },
            gave_way=numbers.gave_way,
            armhole=armhole_of(front, back),
            waist=waist,
        )

    return Planned((len(plan.waist.darts_front), len(plan.waist.darts_back)), draft)


@dataclass(frozen=True, slots=True)
class _Planned:
    """The bodice with its armhole so much deeper, mm, as far as it is known before its waist is drawn."""

    more: float
    numbers: Frame
    waist: WaistPlan
    holes: Armholes

    def sides(self) -> tuple[BodiceSide, BodiceSide]:
        """Front and back; the armholes are drawn anew where the waist was planned anew."""
        lines = waist_lines(self.waist)
        unders = lines[0].side.end, lines[1].side.end
        holes = self.holes if unders == self.waist.unders else armholes(self.numbers, unders)
        return bodice_sides(self.numbers, lines, holes)


@contextmanager
def _smooth_armholes() -> Iterator[None]:
    """Within it, a shape that is none is told as the body that no armhole runs smoothly on."""
    try:
        yield
    except NotAPattern as shape:
        raise CannotDraft(
            ("shoulder_length", "interscye_mid_distance", "scye_depth"),
            f"No armhole runs smoothly from this shoulder past this back to the underarm ({shape.reason}).",
        ) from shape


def _part(piece: str, names: tuple[str, ...], *, backward: bool) -> tuple[EdgeRef, ...]:
    run = tuple(EdgeRef(piece, name, backward) for name in names)
    return run[::-1] if backward else run


def _seams(front: Piece) -> tuple[Seam, ...]:
    """The shoulder seam and the side seam, which is notched at the bust level where the front is."""
    shoulder = ("shoulder at armhole", "shoulder at neck")
    bust_level = tuple(
        (NotchRef(BACK, notch.name), NotchRef(FRONT, notch.name))
        for notch in front.notches
        if notch.marks is NotchMark.BUST
    )
    return (
        Seam(
            "shoulder",
            _part(BACK, shoulder, backward=True),
            _part(FRONT, shoulder[::-1], backward=False),
        ),
        Seam(
            "side seam",
            (EdgeRef(BACK, "side seam", backward=True),),
            (EdgeRef(FRONT, "side seam"),),
            notches=bust_level,
        ),
    )


def _given(body: Body, front: Piece, back: Piece, waist: WaistSeam) -> dict[str, float]:
    """The ease that the pieces have."""
    neck = sum(require_edge(piece, Place.NECK).length for piece in (front, back))
    bust = sum(across(piece, require_line(piece, Level.BUST).name) for piece in (front, back))
    nape, width = require_point(back, Landmark.NAPE).at, require_line(back, Level.BACK_WIDTH)
    return {
        "bust": 2.0 * bust - body.mm("bust_girth"),
        "waist": 2.0 * (waist.front.length + waist.back.length) - body.mm("waist_girth"),
        "neck": 2.0 * neck - body.mm("neck_base_girth"),
        "across_back": 2.0 * across(back, width.name) - body.mm("interscye_mid_distance"),
        "scye_depth": nape.y - require_line(back, Level.SCYE).start.y - body.mm("scye_depth"),
    }


def _measures(body: Body, ease: Mapping[str, float], least: Mapping[str, float], numbers: Frame) -> tuple[Measure, ...]:
    """The finished measurements of a bodice, with the body's size, the ease and the least ease of each, mm."""

    def around(name: str, key: str, line: str, added: float, floor: float | None) -> Measure:
        tape = (Across(FRONT, line, 2.0), Across(BACK, line, 2.0))
        return Measure(name, tape, key, body.mm(key), added, floor, round=True)

    return (
        around("bust", "bust_girth", "bust line", numbers.bust_ease, least.get("bust")),
        Measure(
            "centre back",
            (Along(BACK, "centre back"),),
            "back_waist_length",
            body.mm("back_waist_length"),
        ),
        Measure(
            "centre front",
            (Along(FRONT, "centre front"),),
            "front_waist_length_from_neck_pit",
            body.mm("front_waist_length_from_neck_pit"),
            numbers.front_ease,
        ),
        Measure(
            "neck",
            (Along(FRONT, "neck", 2.0), Along(BACK, "neck", 2.0)),
            "neck_base_girth",
            body.mm("neck_base_girth"),
            ease["neck"],
        ),
        Measure(
            "shoulder",
            (Along(FRONT, "shoulder at neck"), Along(FRONT, "shoulder at armhole")),
            "shoulder_length",
            body.mm("shoulder_length"),
        ),
        Measure(
            "side neck to bust point",
            (Between(FRONT, "side neck", "bust point"),),
            "neck_to_bust_point",
            body.mm("neck_to_bust_point"),
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
