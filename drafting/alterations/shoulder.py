"""Fitting the shoulder: the seam moved forward, the slope changed or padded, the shoulder made broader or narrower.

Front and back are altered alike, so that they still meet. Pieces are drawn for one half of the body and cut twice, or
on the fold, so that left and right are altered alike too: a shoulder that is lower on one side needs that half drawn
from a garment file of its own.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import ClassVar, Final

from drafting.alterations.base import Alteration, Promise
from drafting.alterations.crown import caps_over, crown_raised, split_moved
from drafting.alterations.darted import Redrawn, Stretch, rebuilt, stretch_of
from drafting.alterations.kept import lengths_kept
from drafting.alterations.redraw import carried, exact_length, parted, turned_by, with_length_kept
from drafting.alterations.table import Entry
from drafting.alterations.upper import (
    Hinge,
    Top,
    armhole_led,
    armhole_through,
    held,
    hinge_of,
    neck_turned,
    others_kept,
    sewn_kept,
    sewn_together,
    shoulder_straightened,
    top_of,
)
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import (
    Curve,
    Move,
    Point,
    end_tangents,
    moved_all,
    run_hits,
    run_reversed,
    split,
)
from drafting.geometry.solve import solve
from drafting.pattern import MarkLine, Notch, Pattern, Piece, with_pieces
from drafting.reading.options import Option

__all__ = [
    "FORWARD_SHOULDER",
    "SHOULDER_SLOPE",
    "SHOULDER_WIDTH",
    "ForwardShoulder",
    "ShoulderSlope",
    "ShoulderWidth",
]

_BOTH: Final = "both"
_SIDES: Final = (_BOTH, "left", "right")

_ON_SEAM: Final = 1e-3
"""mm. A marked line that ends this near the underarm ends at it."""

_PAD_SHARE: Final = 0.7
"""How much of its thickness a shoulder pad takes up of the armhole (a note on shoulder slope and pads: 0.7 cm for a pad
of 1 cm)."""


@dataclass(frozen=True, slots=True)
class ForwardShoulder(Alteration):
    """Move the shoulder seam forward at its end by `amount` mm, nought at the neck (backward, below nought).

    The wedge between the old seam and the new is cut off the front and put on the back as it is, so the armhole as a
    whole is what it was: shorter in front by just what it gains behind. The sleeve keeps its shape; the place where it
    meets the seam, its crown notch, moves forward by as much. From memory of the trade's practice, without a source.

    only: the one piece to be altered; empty for front, back and sleeve
    """

    name: ClassVar[str] = "forward shoulder"

    amount: float
    side: str = _BOTH
    only: str = ""

    def apply(self, pattern: Pattern) -> Pattern:
        giver, taker = _giver_and_taker(self, pattern)
        by = abs(self.amount)
        try:
            wedge = _wedge_off(giver, by)
            altered = with_pieces(pattern, wedge.piece, _wedge_on(taker, wedge))
            caps = caps_over(pattern, giver, taker)
            if caps is not None:
                altered = with_pieces(altered, split_moved(caps, by))
        except NotAPattern as error:
            raise StepRefused(self.name, f"{self.amount:+.0f} mm is not to be had: {error}") from error
        return held(self.name, pattern, altered, self.only)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        giver, taker = _giver_and_taker(self, pattern)
        by = abs(self.amount)
        caps = caps_over(pattern, giver, taker)
        if not self.only:
            yield sewn_together("the whole armhole", [giver.armhole, taker.armhole])
        for top, change in ((giver, -by), (taker, by)):
            name = top.piece.name
            if self.only in ("", name):
                yield sewn_kept(f"the armhole of {name}", top.armhole, change)
                yield from others_kept(pattern, [name], top.armhole, top.shoulder)
        if caps is not None and self.only in ("", caps.piece.name):
            aside = {caps.one, caps.other}
            yield from lengths_kept(caps.piece, [e.name for e in caps.piece.edges if e.name not in aside])


@dataclass(frozen=True, slots=True)
class ShoulderSlope(Alteration):
    """Lower the end of the shoulder by `amount` mm for sloping shoulders (raise it, below nought, for square ones).

    Front and back shoulder are turned about the neck; the armhole goes down with its shoulder end and keeps its length,
    so that the same sleeve goes in; the side seams are shorter by what it comes down. Common practice, from memory.

    pad: the thickness of a shoulder pad, mm, for which the shoulder end is raised again: the armhole grows by 0.7 of
         the pad, half of it in front and half behind, and the sleeve's crown is raised to meet it with the ease it had
    """

    name: ClassVar[str] = "shoulder slope"

    amount: float = 0.0
    pad: float = 0.0
    side: str = _BOTH

    def apply(self, pattern: Pattern) -> Pattern:
        tops = _tops(self, pattern)
        try:
            if self.amount:
                pattern = with_pieces(pattern, *_sloped(self, tops))
            return self._padded(pattern) if self.pad else pattern
        except NotAPattern as error:
            raise StepRefused(self.name, f"the shoulder cannot be altered by so much: {error}") from error

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        tops = _tops(self, pattern)
        gain = 0.5 * _PAD_SHARE * self.pad
        for top in tops:
            name = top.piece.name
            yield sewn_kept(f"the armhole of {name}", top.armhole, gain)
            yield sewn_kept(f"the neck of {name}", top.neck)
            yield sewn_kept(f"the shoulder of {name} as it is sewn", top.shoulder)
            yield from others_kept(pattern, [name], top.armhole, top.neck, top.shoulder, aside=_side_edges(top))
        caps = caps_over(pattern, *tops)
        if caps is not None:
            yield from lengths_kept(
                caps.piece, [e.name for e in caps.piece.edges if not self.pad or e.name not in (caps.one, caps.other)]
            )

    def _padded(self, pattern: Pattern) -> Pattern:
        tops = _tops(self, pattern)
        gain = 0.5 * _PAD_SHARE * self.pad
        pattern = with_pieces(pattern, *(_swung(top, grown=gain) for top in tops))
        caps = caps_over(pattern, *tops)
        return pattern if caps is None else with_pieces(pattern, crown_raised(caps, gain))


@dataclass(frozen=True, slots=True)
class ShoulderWidth(Alteration):
    """Make the shoulder broader by `amount` mm (narrower, below nought), front and back alike.

    The trade cuts from the middle of the shoulder to the armhole, where the outer part hinges, spreads or laps it, and
    redraws the shoulder straight: so the armhole keeps its length to the millimetre, swings out above its notch and
    stays as it is below. Its corner at the shoulder stays true, and the neck is turned with the shoulder by the degree
    or so that this takes. From memory of the trade's practice, without a source.
    """

    name: ClassVar[str] = "shoulder width"

    amount: float
    side: str = _BOTH

    def apply(self, pattern: Pattern) -> Pattern:
        try:
            return with_pieces(pattern, *(_swung(top, broader=self.amount) for top in _tops(self, pattern)))
        except NotAPattern as error:
            raise StepRefused(self.name, f"{self.amount:+.0f} mm is not to be had: {error}") from error

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        for top in _tops(self, pattern):
            name = top.piece.name
            yield sewn_kept(f"the armhole of {name}", top.armhole)
            yield sewn_kept(f"the neck of {name}", top.neck)
            yield sewn_kept(f"the shoulder of {name} as it is sewn", top.shoulder, self.amount)
            yield from others_kept(pattern, [name], top.armhole, top.neck, top.shoulder)


_SIDE_OPTION: Final = Option("side", "choice", "which shoulder; both are cut alike", default=_BOTH, choices=_SIDES)

FORWARD_SHOULDER: Final = Entry(
    ForwardShoulder,
    "Move the shoulder seam forward at its end: for shoulders that come forward.",
    "the armhole as a whole, the neck, every other edge; the shape of the sleeve",
    "the back; the sleeve's crown notch and where its cap is divided",
    (
        Option("amount", "length", "how far the seam's end moves forward; below nought for backward", -30.0, 30.0),
        _SIDE_OPTION,
        Option("only", "text", "hold it to this piece, whatever is sewn to it", default=""),
    ),
)

SHOULDER_SLOPE: Final = Entry(
    ShoulderSlope,
    "Make the shoulder slope more, or less, or raise it for a shoulder pad.",
    "the length of armhole, neck and shoulder; the sleeve, unless there is a pad",
    "front and back alike; for a pad, the sleeve's crown",
    (
        Option("amount", "length", "how far its end is lowered; below nought to raise it", -25.0, 25.0, default=0.0),
        Option("pad", "length", "how thick a shoulder pad it is to take", 0.0, 25.0, default=0.0),
        _SIDE_OPTION,
    ),
)

SHOULDER_WIDTH: Final = Entry(
    ShoulderWidth,
    "Make the shoulder broader or narrower at the armhole.",
    "the length of armhole and neck, the armhole below its notch; side seam; sleeve",
    "front and back alike",
    (
        Option("amount", "length", "how much broader; below nought for narrower", -30.0, 30.0),
        _SIDE_OPTION,
    ),
)


def _accept_side(step: ForwardShoulder | ShoulderSlope | ShoulderWidth) -> None:
    if step.side not in _SIDES:
        raise StepRefused(step.name, f'side = "{step.side}" is not known; say "both"')
    if step.side != _BOTH:
        raise StepRefused(
            step.name,
            "left and right are cut from the same pieces, so only both can be altered; for one side write a second "
            f"garment file with this step in it and cut the {step.side} half from that",
        )


def _tops(step: ShoulderSlope | ShoulderWidth, pattern: Pattern) -> tuple[Top, Top]:
    _accept_side(step)
    amounts = (step.amount, step.pad) if isinstance(step, ShoulderSlope) else (step.amount,)
    if not all(math.isfinite(each) for each in amounts) or all(abs(each) < 0.1 for each in amounts):
        raise StepRefused(step.name, f"{amounts[0]:g} mm changes nothing; say by how much")
    return top_of(step.name, pattern, "front"), top_of(step.name, pattern, "back")


def _giver_and_taker(step: ForwardShoulder, pattern: Pattern) -> tuple[Top, Top]:
    _accept_side(step)
    if not math.isfinite(step.amount) or abs(step.amount) < 0.1:
        raise StepRefused(step.name, f"{step.amount:g} mm changes nothing; say by how much")
    front, back = top_of(step.name, pattern, "front"), top_of(step.name, pattern, "back")
    return (front, back) if step.amount > 0.0 else (back, front)


@dataclass(frozen=True, slots=True)
class _Wedge:
    """What is cut off one shoulder: the piece without it, the wedge's stretch of armhole from the old end to the new,
    where the old end lay and the step from the neck to it, all on the folded shoulder.
    """

    piece: Piece
    armhole: tuple[Curve, ...]
    top: Top


def _wedge_off(top: Top, by: float) -> _Wedge:
    """The piece with the wedge cut off, its shoulder straight from the neck to the place `by` mm down the armhole."""
    first = top.armhole.parts[0]
    run = top.armhole.open[0]
    if exact_length(run) < by + 20.0:
        raise NotAPattern(top.piece.name, f'its "{first.name}" is only {exact_length(run):.0f} mm long')
    cut, rest = parted(run, by)
    bit = moved_all(cut, top.fold)
    shoulder = shoulder_straightened(top, top.neck_point, bit[-1].end)
    piece = rebuilt(top.piece, shoulder + Redrawn((top.armhole.drawn(first, rest),)))
    return _Wedge(_recounted(piece, first.name, top.armhole.backward, -by), bit, top)


def _wedge_on(top: Top, wedge: _Wedge) -> Piece:
    """The piece with the wedge put on, shoulder to shoulder: the armhole runs on in what the other has given."""
    giver = wedge.top
    lay = carried(giver.tip, top.tip, turned_by(giver.slope, top.slope))
    bit = moved_all(wedge.armhole, lay)
    first = top.armhole.parts[0]
    shoulder = shoulder_straightened(top, top.neck_point, bit[-1].end)
    grown = (*run_reversed(moved_all(bit, top.unfold)), *top.armhole.open[0])
    piece = rebuilt(top.piece, shoulder + Redrawn((top.armhole.drawn(first, _joined(grown)),)))
    return _recounted(piece, first.name, top.armhole.backward, exact_length(bit))


def _joined(run: Sequence[Curve]) -> tuple[Curve, ...]:
    """The run with each curve begun exactly where the one before it ends."""
    out: list[Curve] = []
    for curve in run:
        out.append(replace(curve, start=out[-1].end) if out else curve)
    return tuple(out)


def _recounted(piece: Piece, edge: str, backward: bool, grown: float) -> Piece:
    """The piece with the notches of an edge that are counted from where its walk begins, counted from the new place."""
    near = "end" if backward else "start"

    def counted(notch: Notch) -> Notch:
        if notch.station.edge != edge or notch.station.end != near:
            return notch
        at = notch.station.at + grown
        if at < 0.0:
            raise NotAPattern(piece.name, f'the notch "{notch.name}" lies on what is to be cut off')
        return replace(notch, station=replace(notch.station, at=at))

    return replace(piece, notches=tuple(counted(notch) for notch in piece.notches))


def _swung(top: Top, *, broader: float = 0.0, grown: float = 0.0) -> Piece:
    """The piece with its shoulder `broader` mm longer, turned about the neck so that the armhole grows by `grown` mm.

    The armhole is redrawn from the shoulder to its hinge.
    """
    length = top.shoulder.sewn_length + broader
    down = _downward(top)

    def tip(slide: float) -> Point:
        return top.neck_point + top.slope.unit().turned(down * slide / length) * length

    def at_tip(slide: float) -> Move:
        return carried(top.armhole.start, top.unfold.point(tip(slide)), down * slide / length)

    slide, armhole = armhole_led(top, hinge_of(top), at_tip, grown=grown)
    shoulder = shoulder_straightened(top, top.neck_point, tip(slide))
    return rebuilt(top.piece, shoulder + armhole + neck_turned(top, down * slide / length))


def _downward(top: Top) -> float:
    """The sense in which the shoulder turns about the neck when its end goes down: 1 anticlockwise, else -1."""
    along = top.fold.vec(end_tangents(top.armhole.open[0][0])[0])
    return math.copysign(1.0, top.slope.cross(along))


def _sloped(step: ShoulderSlope, tops: tuple[Top, Top]) -> list[Piece]:
    """Front and back with their shoulder ends lowered and their underarms with them, the armholes as long."""
    drawn = [_Sloped(top, hinge_of(top), _side(step, top), _lowered_tip(step, top)) for top in tops]
    before = [each.top.armhole.sewn_length for each in drawn]

    def surplus(down: float) -> float:
        return sum(exact_length(each.armhole(down)) for each in drawn) - sum(before)

    down = solve(surplus, step.amount, 0.2 * step.amount)
    return [each.piece(down, length) for each, length in zip(drawn, before, strict=True)]


def _lowered_tip(step: ShoulderSlope, top: Top) -> Move:
    """The move of the open shoulder end when the folded shoulder is turned about the neck to lower it."""
    reach = top.slope.norm()
    if abs(step.amount) > 0.4 * reach:
        raise StepRefused(step.name, f"the shoulder is {reach:.0f} mm long; alter it by {0.4 * reach:.0f} mm at most")
    turned = _downward(top) * math.asin(step.amount / reach)
    return carried(top.armhole.start, top.unfold.point(top.neck_point + top.slope.turned(turned)), turned)


def _side(step: ShoulderSlope, top: Top) -> Stretch:
    if any(top.armhole.darts):
        raise StepRefused(
            step.name, f'"{top.piece.name}" has a dart in its armhole; put this step before the one that moved it there'
        )
    return stretch_of(step.name, top.piece, "side", start="armhole")


def _side_edges(top: Top) -> list[str]:
    return [edge.name for edge in top.piece.edges if edge.name.startswith("side")]


@dataclass(frozen=True, slots=True)
class _Sloped:
    """One piece whose armhole goes down with its shoulder end: its side seam, and the move of the shoulder end."""

    top: Top
    hinge: Hinge
    side: Stretch
    tip: Move

    def armhole(self, down: float) -> tuple[Curve, ...]:
        """The armhole when the underarm lies `down` mm further along the side seam."""
        was = self.side.open[0]
        now = _begun_at(was, down)
        turned = turned_by(end_tangents(was[0])[0], end_tangents(now[0])[0])
        lower = self.hinge.at + (now[0].start - was[0].start)
        return armhole_through(self.hinge, self.tip, lower, carried(was[0].start, now[0].start, turned))

    def piece(self, down: float, length: float) -> Piece:
        """The whole piece, its armhole `length` mm long."""
        top, side = self.top, self.side
        seam = _begun_at(side.open[0], down)
        slope = top.fold.point(self.tip.point(top.armhole.start)) - top.neck_point
        shoulder = shoulder_straightened(top, top.neck_point, top.neck_point + slope)
        armhole = top.armhole.drawn(top.armhole.parts[0], with_length_kept(self.armhole(down), length))
        neck = neck_turned(top, turned_by(top.slope, slope))
        redrawn = shoulder + neck + Redrawn((armhole, side.drawn(side.parts[0], seam)))
        piece = rebuilt(top.piece, redrawn)
        return _relevelled(_recounted(piece, side.parts[0].name, side.backward, -down), side, seam, down)


def _begun_at(run: Sequence[Curve], along: float) -> tuple[Curve, ...]:
    """The run begun `along` mm further on, or, below nought, before its start, where its first curve comes from."""
    if along >= 0.0:
        return parted(run, along)[1]
    first = run[0]
    wanted = exact_length((first,)) - along

    def begun(t: float) -> Curve:
        return split(first, t)[1]

    t = solve(lambda t: exact_length((begun(t),)) - wanted, along / wanted, 0.1 * along / wanted)
    return (begun(t), *run[1:])


def _relevelled(piece: Piece, side: Stretch, seam: tuple[Curve, ...], down: float) -> Piece:
    """The piece with the levels that ended at the old underarm, or on what was cut off the side, at the new one."""
    old, new = side.start, seam[0].start
    cut = parted(side.open[0], down)[0] if down > 0.0 else ()

    def level(line: MarkLine) -> MarkLine:
        along = (line.end - line.start).unit()
        ends_there = line.end.near(old, _ON_SEAM) or line.start.near(old, _ON_SEAM)
        if not (ends_there and (down > 0.0 or line.name == "scye line")) and not run_hits(cut, line.start, along):
            return line
        far, near = (line.start, line.end) if line.end.near(old, _ON_SEAM) else (line.end, line.start)
        by = new - near
        moved_far = far + (by - along * by.dot(along))
        return MarkLine(line.name, moved_far, new) if near is line.end else MarkLine(line.name, new, moved_far)

    return replace(piece, lines=tuple(level(line) for line in piece.lines))
