"""A full sleeve: bishop or bell at the hem, leg-of-mutton at the cap, puff at both.

The trade's way: slash the sleeve from cap to hem, evenly, and spread it: at the hem only, hanging together at the cap;
at the cap only, hanging together at the hem; at both, side by side (L. McConnell's chapter on sleeves; even splits over
several lines, a teaching page on slash and open). The cuts lie between the cap notches, where a cap is gathered; what
lies below them stays. For a puff the crown is raised by 2 to 4 cm over the spread, or the width collapses (from
memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import ClassVar, Final

from drafting.alterations.alteration import Alteration, Promise
from drafting.alterations.alteration_table import Entry, Layer
from drafting.alterations.promises import lengths_kept, places_kept, run_surplus
from drafting.alterations.sleeve.set_in_sleeve import (
    BICEPS_LINE,
    CAP_BACK,
    CAP_FRONT,
    SLEEVE,
    UNDER_BACK,
    UNDER_FRONT,
    SetIn,
    biceps_line,
    cap_on,
    find_set_in,
    gathered,
    levelled,
    set_in,
    with_ease,
)
from drafting.alterations.techniques.redrawing.redraw_run import exact_length
from drafting.alterations.techniques.spreading.slash_and_spread import (
    Slash,
    fanned,
    fanned_line,
    level_line,
    middles,
    of_length,
    trued,
)
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import (
    Curve,
    Line,
    Move,
    Point,
    Vec,
    cut_run,
    run_at,
    run_ends,
    run_hits,
    run_length,
    run_reversed,
    run_tangent,
    shift,
    split,
)
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import LENGTH, SAME_PLACE, SOLVED
from drafting.pattern import (
    Edge,
    MarkLine,
    MarkPoint,
    Notch,
    Pattern,
    Piece,
    Seam,
    from_start,
    notch_distance,
    run_total,
    with_edges,
)
from drafting.reading.options import Option

__all__ = ["FULL_SLEEVE", "FullSleeve"]

_MOST = 1500.0
_FEWEST_CUTS, _MOST_CUTS = 2, 40
_RAISED_SHARE, _MOST_RAISED = 1.0 / 3.0, 40.0  # the crown over a puff: 2 to 4 cm at 6 to 12 cm of fullness and more
_BELOW_NOTCH = 0.3  # of a side of the cap, where no notch says how far up it stays smooth


@dataclass(frozen=True, slots=True)
class FullSleeve(Alteration):
    """Slash a set-in sleeve from cap to hem and spread it.

    cap, hem: how much wider in all it is to be there, mm: the hem half in front and half behind, the cap so that it is
              gathered as closely in front of the shoulder as behind
    cuts:     how many slashes, shared between back and front
    crown:    how much higher the crown is to stand, mm; None for a third of the fullness at the cap, at most 4 cm
    """

    name: ClassVar[str] = "full sleeve"
    lesser: ClassVar[tuple[str, ...]] = ("cap", "hem")

    cap: float = 0.0
    hem: float = 0.0
    cuts: float = 8.0
    crown: float | None = None
    piece: str = SLEEVE

    def apply(self, pattern: Pattern) -> Pattern:
        sleeve = _sleeve(self, pattern)
        try:
            altered = set_in(pattern, _spread(self, pattern, sleeve))
        except NotAPattern as error:
            raise StepRefused(self.name, str(error)) from error
        if _cap_stays(self):
            return altered
        for seam in (sleeve.front, sleeve.back):
            more = run_surplus(altered, seam)
            eased = more <= seam.ease.high
            altered = with_ease(altered, seam.name, replace(seam.ease, wanted=more) if eased else gathered(more))
        return altered

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        sleeve = _sleeve(self, pattern)
        kept = [UNDER_BACK, UNDER_FRONT]
        if _cap_stays(self):
            kept += [CAP_FRONT, CAP_BACK]
        if not self.hem:
            kept.append(_hem(sleeve.piece).name)
        yield from lengths_kept(sleeve.piece, kept)
        for piece in pattern.pieces:
            if piece.name != self.piece:
                yield from places_kept(piece, (edge.name for edge in piece.edges))


FULL_SLEEVE: Final = Entry(
    FullSleeve,
    Layer.FULLNESS,
    "Put fullness into a set-in sleeve: at the hem, at the cap, or at both for a puff.",
    "the edge at which it hangs together, cap or hem; the underarm seams; all but the sleeve",
    "the gathers declared for the armhole; the notches of the cap",
    (
        Option("cap", "length", "how much wider at the cap", 0.0, _MOST, default=0.0),
        Option("hem", "length", "how much wider at the hem", 0.0, _MOST, default=0.0),
        Option("cuts", "number", "over how many slashes", _FEWEST_CUTS, _MOST_CUTS, default=8.0),
        Option(
            "crown",
            "length",
            "how much higher the crown; left out, a third of the fullness at the cap, 4 cm at the most",
            0.0,
            150.0,
            default=None,
        ),
        Option("piece", "text", "the sleeve", default=SLEEVE),
    ),
)


@dataclass(frozen=True, slots=True)
class _Half:
    """One half of the sleeve, as it is and as it becomes: runs from the underarm to the crown, and from under the crown
    outward along the hem.

    slashes, moves: the cuts from the crown outward, and where each strip goes
    """

    cap: tuple[Curve, ...]
    hem: tuple[Curve, ...]
    slashes: tuple[Slash, ...]
    moves: tuple[Move, ...]

    @property
    def outer(self) -> Move:
        """The move of everything beyond the last slash."""
        return self.moves[-1]


def _sleeve(step: FullSleeve, pattern: Pattern) -> SetIn:
    if not all(0.0 <= by <= _MOST for by in (step.cap, step.hem, step.crown or 0.0)):
        raise StepRefused(step.name, f"fullness is zero or more and at most {_MOST / 10:.0f} cm")
    if step.cuts != int(step.cuts) or not _FEWEST_CUTS <= step.cuts <= _MOST_CUTS:
        raise StepRefused(step.name, f"cuts: {step.cuts:g} is no whole number from {_FEWEST_CUTS} to {_MOST_CUTS}")
    if max(step.cap, step.hem, step.crown or 0.0) < SAME_PLACE:
        raise StepRefused(step.name, 'say where it is to be fuller: hem = "20 cm", cap = "8 cm", or both')
    sleeve = find_set_in(step.name, pattern, step.piece)
    try:
        _hem(sleeve.piece)
    except NotAPattern as error:
        raise StepRefused(step.name, str(error)) from error
    return sleeve


def _raised(step: FullSleeve) -> float:
    return min(_MOST_RAISED, _RAISED_SHARE * step.cap) if step.crown is None else step.crown


def _cap_stays(step: FullSleeve) -> bool:
    return step.cap == 0.0 and _raised(step) == 0.0


def _hem(piece: Piece) -> Edge:
    """The one edge between the two underarm seams."""
    others = [edge for edge in piece.edges if edge.name not in (CAP_FRONT, CAP_BACK, UNDER_FRONT, UNDER_BACK)]
    if len(others) != 1:
        raise NotAPattern(piece.name, "its lower end is made of more than one edge")
    return others[0]


def _spread(step: FullSleeve, pattern: Pattern, sleeve: SetIn) -> Piece:
    smooth = {CAP_BACK: _stays_smooth(pattern, sleeve.back), CAP_FRONT: _stays_smooth(pattern, sleeve.front)}
    into = {CAP_BACK: _above_notch(pattern, sleeve.back), CAP_FRONT: _above_notch(pattern, sleeve.front)}

    def spread(in_front: float) -> Piece:
        return levelled(sleeve.piece, partial(_fuller, step=step, smooth=smooth, in_front=in_front))

    def uneven(in_front: float) -> float:
        """How much longer the front is above its notch than it is to be, drawn up as much as the back, mm."""
        piece = spread(in_front)
        front, back = (exact_length(piece.edge(edge).curves) - smooth[edge] for edge in (CAP_FRONT, CAP_BACK))
        return front - back * into[CAP_FRONT] / into[CAP_BACK]

    if step.cap == 0.0:
        return spread(0.5)
    guess = into[CAP_FRONT] / (into[CAP_FRONT] + into[CAP_BACK])
    found = solve(uneven, guess, 0.02)
    # a little fullness may all be needed on the side that has less ease as it is
    return spread(min(1.0, max(0.0, found)))


def _above_notch(pattern: Pattern, seam: Seam) -> float:
    """How much of the armhole the gathered part of a side of the cap goes into, mm: from its notch to the shoulder."""
    met = [at for _, mark in seam.notches if (at := notch_distance(pattern, seam.b, mark)) is not None]
    whole = run_total(pattern, seam.b)
    return whole - min(met, default=_BELOW_NOTCH * whole)


def _fuller(piece: Piece, step: FullSleeve, smooth: Mapping[str, float], in_front: float) -> Piece:
    """The sleeve spread; `smooth` mm of each side of its cap, from the underarm, are not gathered.

    in_front: the share of the fullness at the cap that the front gets
    """
    cap, hem, count = cap_on(piece), _hem(piece), int(step.cuts)
    to_back, to_front = _parted_below(piece, hem, cap.crown)
    in_back = (1.0 - in_front) * step.cap
    back = _half(step, cap.back, smooth[CAP_BACK], to_back, (count + 1) // 2, fuller=in_back, to_right=False)
    front = _half(step, cap.front, smooth[CAP_FRONT], to_front, count // 2, fuller=in_front * step.cap, to_right=True)
    altered = with_edges(
        piece,
        replace(hem, curves=(*run_reversed(back.hem), *front.hem)),
        replace(piece.edge(CAP_FRONT), curves=front.cap),
        replace(piece.edge(CAP_BACK), curves=run_reversed(back.cap)),
        piece.edge(UNDER_BACK).moved(back.outer),
        piece.edge(UNDER_FRONT).moved(front.outer),
    )
    middle = cap.crown.x

    def line(mark: MarkLine) -> MarkLine:
        return biceps_line(altered) if mark.name == BICEPS_LINE else _fanned_from(mark, middle, back, front)

    up = Vec(0.0, _raised(step))
    return replace(
        altered,
        notches=tuple(_kept_place(piece, altered, notch, smooth) for notch in piece.notches),
        lines=tuple(line(mark) for mark in piece.lines),
        points=tuple(
            MarkPoint(mark.name, mark.at + up if mark.at.near(cap.crown) else mark.at) for mark in piece.points
        ),
    )


def _half(
    step: FullSleeve,
    cap: Sequence[Curve],
    smooth: float,
    hem: tuple[Curve, ...],
    cuts: int,
    *,
    fuller: float,
    to_right: bool,
) -> _Half:
    """One half spread over so many slashes, by `fuller` mm at its cap; `smooth` mm of that, from the underarm, stay."""
    below, above = cut_run(cap, smooth)
    whole, crown, under = run_length(above), cap[-1].end, cap[0].start
    shares = [1.0 - (k + 0.5) / cuts for k in range(cuts)]  # of the way from the notch to the crown, the crown's first
    tops = [run_at(above, share * whole) for share in shares]
    bottoms = [_on_hem(hem, (top.x - crown.x) / (under.x - crown.x)) for top in tops]
    slashes = [Slash(top, bottom) for top, bottom in zip(tops, bottoms, strict=True)]
    moves = fanned(slashes, top=fuller / cuts, bottom=0.5 * step.hem / cuts, to_right=to_right)
    raised = _raised(step)

    def new_cap(outer: Move) -> tuple[Curve, ...]:
        """The cap from the crown to the underarm, trued; below its notch only as far as it has to be."""
        points = [crown + Vec(0.0, raised)]
        points += [
            gap + Vec(0.0, raised * _domed(share)) for share, gap in zip(shares, middles(tops, moves), strict=True)
        ]
        points += [outer.point(run_at(below, share * smooth)) for share in (2.0 / 3.0, 1.0 / 3.0)]
        leaving, arriving = run_tangent(above, whole), outer.vec(run_ends(below)[0])
        return trued((*points, outer.point(under)), -leaving, -arriving)

    def new_hem(outer: Move) -> tuple[Curve, ...]:
        leaving, arriving = run_ends(hem)
        points = middles(bottoms, moves)
        ends = hem[0].start, outer.point(hem[-1].end)
        return level_line((ends[0], *points, ends[1]), leaving, outer.vec(arriving))

    outer = moves[-1]
    if _cap_stays(step):
        drawn = of_length(new_cap(outer), run_length(cap, SOLVED / 4))
        outer = outer.then(shift(drawn[-1].end - outer.point(under)))
        lower = new_hem(outer)
    elif step.hem == 0.0:
        lower = of_length(new_hem(outer), run_length(hem, SOLVED / 4)) if step.cap else hem
        outer = outer.then(shift(lower[-1].end - outer.point(hem[-1].end)))
        drawn = new_cap(outer)
    else:
        lower, drawn = new_hem(outer), new_cap(outer)
    return _Half(run_reversed(drawn), lower, tuple(slashes), (*moves[:-1], outer))


def _fanned_from(mark: MarkLine, middle: float, back: _Half, front: _Half) -> MarkLine:
    """A level line of the sleeve, both its halves fanned from below the crown outward: there it stays where it is."""
    run = mark.drawn
    hits = run_hits(run, Point(middle, mark.start.y), Vec(0.0, 1.0))
    if not hits:
        half = back if mark.start.x < middle else front
        return fanned_line(mark, half.slashes, half.moves, to_right=half is front)
    (k, hit), out = hits[0], list[Curve]()
    one, other = split(run[k], hit.t)
    rightward = mark.start.x < mark.end.x
    for first, part in ((True, (*run[:k], one)), (False, (other, *run[k + 1 :]))):
        half = back if first == rightward else front
        piece = mark.through(part, part[0].start, part[-1].end)
        out += fanned_line(piece, half.slashes, half.moves, to_right=half is front).drawn
    if all(isinstance(curve, Line) for curve in out):
        return MarkLine(mark.name, out[0].start, out[-1].end)
    return mark.through(out, out[0].start, out[-1].end)


def _parted_below(piece: Piece, hem: Edge, crown: Point) -> tuple[tuple[Curve, ...], tuple[Curve, ...]]:
    """The hem from below the crown to its back end, and to its front end."""
    hits = run_hits(hem.curves, crown, Vec(0.0, 1.0))
    if not hits:
        raise NotAPattern(piece.name, "its crown does not lie over its lower end")
    k, hit = hits[0]
    one, other = split(hem.curves[k], hit.t)
    return run_reversed((*hem.curves[:k], one)), (other, *hem.curves[k + 1 :])


def _on_hem(hem: Sequence[Curve], share: float) -> Point:
    """The place on half a hem that lies so far along it, measured straight across."""
    start, end = hem[0].start, hem[-1].end
    x = start.x + share * (end.x - start.x)
    hits = run_hits(hem, Point(x, start.y), Vec(0.0, 1.0))
    return hits[0][1].point if hits else end


def _stays_smooth(pattern: Pattern, seam: Seam) -> float:
    """How much of a side of the cap is not gathered, mm from the underarm: as far as its first notch."""
    met = [at for mark, _ in seam.notches if (at := notch_distance(pattern, seam.a, mark)) is not None]
    return min(met, default=_BELOW_NOTCH * pattern.piece(seam.a[0].piece).edge(seam.a[0].edge).length)


def _kept_place(piece: Piece, altered: Piece, notch: Notch, smooth: Mapping[str, float]) -> Notch:
    """A notch of the cap as far from the underarm as it was where that part stays smooth, else from the crown."""
    station = notch.station
    if station.edge not in smooth:
        return notch
    edge, new = piece.edge(station.edge), altered.edge(station.edge)
    at, underarm = from_start(edge, station), "start" if station.edge == CAP_FRONT else "end"
    from_under = at if underarm == "start" else edge.length - at
    counted_from_what_is_kept = (station.end == underarm) == (from_under <= smooth[station.edge] + LENGTH)
    if counted_from_what_is_kept:
        return notch
    return replace(notch, station=replace(station, at=station.at + new.length - edge.length))


def _domed(share: float) -> float:
    """How much of the extra height a place of the cap gets: round over the crown, nothing at the notch."""
    return share * (2.0 - share)
