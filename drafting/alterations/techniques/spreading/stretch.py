"""Cutting a piece across the grain and moving its lower part along the grain, the sides redrawn.

How the sides are redrawn. A cutter tapes a strip in and redraws the side from seam end to seam end. Here the side is
redrawn between the last mark above the cut and the first mark below it (the ends of the seam, a joint in it, a notch,
a balance line), so that everything marked keeps its place on its own part, to the last digit: widths at the balance
lines, notches, corners. Between the two marks

- a curve keeps the directions of its ends, and its handles grow with the height between the marks: it runs on into what
  it ran on into before, without a corner, and every corner at its ends keeps its angle, so that it stays true with its
  partner's;
- an edge that is one spline over the grain, as a bodice's side seam is, is drawn as that spline through all its marks
  where they then lie, its ends leaving as they did: so the change is spread and the seam does not waver;
- a straight edge stays straight when its ends need turn by no more than a degree for it, which a corner that was true
  bears on both sides; else, or where it does not bear it once more, it is redrawn as the curve it then has to be. The
  bow is a tenth of the amount times the sine of the slant: half a millimetre for five centimetres at six degrees.

A dart that the cut goes through is redrawn in the same way, along its own axis: its point does not move straight down
the grain but along that axis, so that its legs stay equal and its mouth as wide as it was.

All this is undone exactly by the opposite amount. An even stretch of the whole edge would be as smooth, but would carry
every width between its ends to another level.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from drafting.alterations.techniques.marks.grain_line import stretched_grain
from drafting.alterations.techniques.spreading.level_cut import (
    CutLine,
    crossed,
    crosses,
    curve_crosses,
    kept_lines,
    notch_moves,
    notch_place,
)
from drafting.alterations.techniques.spreading.spline_seam import stretched_spline
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern, Remedy, Setting
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Point,
    Vec,
    at_length,
    distance,
    length,
    lerp,
    line_hits,
    moved,
    point_at,
    run_hits,
    shift,
    split,
)
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import (
    Dart,
    Edge,
    Grain,
    Level,
    MarkLine,
    Notch,
    Piece,
    Place,
    Role,
    closed,
    dart_mouth,
    from_start,
    lines_at,
)

__all__ = ["stretched"]

_STAY = Vec(0.0, 0.0)

_SHORT_SLEEVE = ". A sleeve that is to be shorter than that can be cut off"
_CUT_OFF = Remedy("change", "lengthen", (Setting("hem", "as tapered"),))

_MOST_TURN = math.radians(1.0)
"""How far the ends of a straight edge may turn for it to stay straight: a third of what a true corner may bend."""

_FLATTEST = 1.5
"""How far a redrawn stretch, and each of its handles, may reach across the grain for each mm along it: 56 degrees off
the grain. An edge that runs flatter than that is not cut across but sliced."""

_TRIFLE = 5.0
"""mm by which an edge that is not cut may dip over the cut, and goes with its part: an armhole near the underarm."""

_ONE_PLACE = 1e-5
"""mm. A mark this near a joint of an edge is at the joint; ten times what a station's place is found to."""


def stretched(piece: Piece, cut: CutLine, by: float, *, straight: bool = True) -> Piece:
    """The piece with everything below the cut moved down by `by` mm (up, when negative), its sides redrawn.

    Notches stay where they were on their own part. straight: whether a straight edge that need turn no more than a
    degree for it stays so. Raises NotAPattern where the cut does not go through from side to side, runs into the mouth
    of a dart, or where too little lies between it and the next mark to take `by` out of.
    """
    _accept(piece, cut)
    if by < 0.0:
        _accept_shorter(piece, cut, -by)
    whole = _Move(cut, _STAY, cut.down * by, cut.down, straight)
    darts = {dart.name: _dart_move(piece, dart, whole) for dart in piece.darts}
    for dart in piece.darts:
        if cut.below(dart.apex) != cut.below(darts[dart.name].point(dart.apex)):
            room = abs(cut.depth(dart.apex))
            reason = f'the point of "{dart.name}" lies {room:.1f} mm from the line, too near for {by:+.1f} mm'
            raise NotAPattern(piece.name, reason=reason)
    by_leg = {leg: darts[dart.name] for dart in piece.darts for leg in dart.legs}
    marks = kept_lines(piece, cut)
    edges: list[Edge] = []
    notches = {notch.name: notch for notch in piece.notches}
    for edge in piece.edges:
        own = [notch for notch in piece.notches if notch.station.edge == edge.name]
        # a dart leg runs straight to its point, whatever line lies across it
        across = () if edge.name in by_leg else marks
        redrawn, growths = _redrawn(piece, edge, own, across, by_leg.get(edge.name, whole))
        edges.append(redrawn)
        for notch in own:
            notches[notch.name] = _restationed(edge, notch, growths)
    placed, outline = whole.point, closed(piece.name, tuple(edges))
    # the line of the cut stays as a whole: since a piece was spread it may slant, and lie on both sides of the cut
    rest = {line.name: line.between(placed(line.start), placed(line.end)) for line in piece.lines}
    return replace(
        piece,
        edges=outline,
        darts=tuple(replace(dart, apex=darts[dart.name].point(dart.apex)) for dart in piece.darts),
        notches=tuple(notches.values()),
        grain=piece.grain and stretched_grain(piece.grain, Grain(placed(piece.grain.start), placed(piece.grain.end))),
        lines=tuple(_drawn_out(line, outline) if line is cut.line else rest[line.name] for line in piece.lines),
        points=tuple(mark.placed(placed(mark.at)) for mark in piece.points),
    )


@dataclass(frozen=True, slots=True)
class _Move:
    """What a cut does to an edge: how far what lies above and below goes, along what; whether a line may turn a bit."""

    cut: CutLine
    above: Vec
    below: Vec
    along: Vec
    straight: bool

    def step(self, point: Point) -> Vec:
        return self.below if self.cut.below(point) else self.above

    def point(self, point: Point) -> Point:
        return point + self.step(point)

    def curve(self, curve: Curve, side: Point) -> Curve:
        """The curve, moved as a whole with the side on which a point of it lies."""
        step = self.step(side)
        return curve if step == _STAY else moved(curve, shift(step))


def _dart_move(piece: Piece, dart: Dart, whole: _Move) -> _Move:
    """What becomes of a dart. Where the cut goes through its legs its point moves only along the dart's own axis.

    So its legs stay equal, and its mouth as wide as it was.
    """
    one, other = dart_mouth(piece, dart)
    at_mouth, at_point = whole.step(one), whole.step(dart.apex)
    if at_mouth == at_point:
        return whole
    axis = (other - one).unit().left()
    at_point = at_mouth + axis * (at_point - at_mouth).dot(axis)
    point_below = whole.cut.below(dart.apex)
    above, below = (at_mouth, at_point) if point_below else (at_point, at_mouth)
    return _Move(whole.cut, above, below, axis, whole.straight)


def _redrawn(
    piece: Piece, edge: Edge, own: Sequence[Notch], marks: Sequence[MarkLine], move: _Move
) -> tuple[Edge, list[tuple[float, float]]]:
    """The edge after the move, and where along it, mm from its start before, it grew by how much."""
    if not crosses(edge, move.cut):
        step = move.step(edge.start)
        return edge if step == _STAY else edge.moved(shift(step)), []
    notched = [from_start(edge, notch.station) for notch in own]
    # an underarm seam cut below its last mark stays as it was above: it comes down aslant, and would waver all along
    low = edge.place is Place.UNDERARM and not any(move.cut.below(line.start) for line in marks)
    splined = None if low else stretched_spline(edge, notched, marks, move.along, move.point)
    if splined is not None:
        return splined
    curves: list[Curve] = []
    growths: list[tuple[float, float]] = []
    gone = 0.0
    for i, curve in enumerate(edge.curves):
        whole = length(curve)
        if not curve_crosses(curve, move.cut):
            curves.append(move.curve(curve, curve.start))
        else:
            places = [from_start(edge, notch.station) - gone for notch in own]
            stops = [at_length(curve, at) for at in places if 0.0 < at < whole]
            stops += [hit.t for line in marks for hit in line_hits(curve, line.start, line.end - line.start)]
            before, stretch, after = _between_marks(piece.name, edge.name, curve, stops, move.cut)
            smooth = (i > 0 or bool(before), i < len(edge.curves) - 1 or bool(after))
            new = _stretch(f"{piece.name}, {edge.name}", stretch, move, smooth)
            curves += [move.curve(part, part.start) for part in before]
            curves.append(new)
            curves += [move.curve(part, part.end) for part in after]
            start = gone + sum(length(part) for part in before)
            growths.append((start + _grows_at(stretch, move.cut), length(new) - length(stretch)))
        gone += whole
    return replace(edge, curves=tuple(curves)), growths


def _between_marks(
    piece: str, edge: str, curve: Curve, stops: Sequence[float], cut: CutLine
) -> tuple[tuple[Curve, ...], Curve, tuple[Curve, ...]]:
    """The part of a curve before the marks around the cut, the part between them, and the part after."""
    ends = (curve.start, curve.end)
    if _upright(curve, cut):
        stops_kept: list[float] = []  # it runs along the grain: nothing on it changes place sideways
    else:
        stops_kept = sorted(t for t in stops if not any(point_at(curve, t).near(end, _ONE_PLACE) for end in ends))
    first = cut.below(curve.start)
    sides = [cut.below(point_at(curve, t)) for t in stops_kept]
    turns = sides.index(not first) if (not first) in sides else len(sides)
    if first in sides[turns:]:
        raise NotAPattern(piece, reason=f'the line goes through "{edge}" more than once; choose one further up or down')
    a = stops_kept[turns - 1] if turns > 0 else 0.0
    b = stops_kept[turns] if turns < len(stops_kept) else 1.0
    before: tuple[Curve, ...] = ()
    after: tuple[Curve, ...] = ()
    if b < 1.0:
        curve, tail = split(curve, b)
        after = (tail,)
    if a > 0.0:
        head, curve = split(curve, a / b)
        before = (head,)
    return before, curve, after


def _stretch(where: str, curve: Curve, move: _Move, smooth: tuple[bool, bool]) -> Curve:
    """The stretch between two marks with its ends moved; `smooth` says at which of them the edge runs on."""
    start, end = move.point(curve.start), move.point(curve.end)
    chord, new = curve.end - curve.start, end - start
    height = chord.dot(move.along)
    growth = new.dot(move.along) / height
    if isinstance(curve, Line):
        turn = abs(chord.angle_to(new))
        if turn <= SAME_PLACE or (move.straight and not any(smooth) and turn <= _MOST_TURN):
            return Line(start, end)
        handles = (chord * (1.0 / 3.0), chord * (1.0 / 3.0))
    else:
        handles = (curve.c1 - curve.start, curve.end - curve.c2)
    # the same is asked before and after, so that what can be done can be undone
    if any(abs(arm.cross(move.along)) > _FLATTEST * abs(height) for arm in (*handles, chord, new * (1.0 / growth))):
        raise NotAPattern(
            where, reason="it runs too flatly at the line to let cloth in or out; choose one further up or down"
        )
    return _line_if_straight(Cubic(start, start + handles[0] * growth, end - handles[1] * growth, end))


def _line_if_straight(curve: Cubic) -> Curve:
    """A line, where the curve is one with its handles at the thirds: so a line that was bowed comes back as a line."""
    thirds = lerp(curve.start, curve.end, 1.0 / 3.0), lerp(curve.start, curve.end, 2.0 / 3.0)
    straight = curve.c1.near(thirds[0], 0.1 * SAME_PLACE) and curve.c2.near(thirds[1], 0.1 * SAME_PLACE)
    return Line(curve.start, curve.end) if straight else curve


def _grows_at(stretch: Curve, cut: CutLine) -> float:
    """How far along a stretch it grows, mm: just below the cut on a line along the grain, where marks lie beside it."""
    if not _upright(stretch, cut):
        return 0.5 * length(stretch)
    at = abs(cut.depth(stretch.start))
    return at + _ONE_PLACE if cut.below(stretch.end) else at - _ONE_PLACE


def _upright(curve: Curve, cut: CutLine) -> bool:
    return isinstance(curve, Line) and abs((curve.end - curve.start).unit().cross(cut.down)) < SAME_PLACE


def _restationed(edge: Edge, notch: Notch, growths: Sequence[tuple[float, float]]) -> Notch:
    """The notch at the same place on its part: further from the end it is counted from by what grew between."""
    at = from_start(edge, notch.station)
    from_the_start = notch.station.end == "start"
    between = sum(growth for place, growth in growths if (place < at) == from_the_start)
    return notch.moved_to(notch.station.at + between) if between else notch


def _accept(piece: Piece, cut: CutLine) -> None:
    """Raise NotAPattern unless the cut goes through the piece from side to side."""
    for dart in piece.darts:
        into, out = (piece.edge(leg) for leg in dart.legs)
        if cut.below(into.start) != cut.below(out.end):
            raise NotAPattern(
                piece.name, reason=f'the line runs into the mouth of "{dart.name}"; choose one above or below it'
            )
    if not crossed(piece, cut):
        side = "above" if any(cut.depth(edge.start) < 0.0 for edge in piece.edges) else "below"
        raise NotAPattern(piece.name, reason=f"all of the piece lies {side} the line")
    for edge in piece.edges:
        if any(not curve_crosses(curve, cut) and _dips_over_cut(curve, cut) for curve in edge.curves):
            raise NotAPattern(
                piece.name, reason=f'the line runs along "{edge.name}", not across it; choose one further off'
            )


def _accept_shorter(piece: Piece, cut: CutLine, out: float) -> None:
    """Raise NotAPattern where something marked lies in the strip that is to go: its place would be lost."""
    below: list[tuple[float, str]] = []
    for dart in piece.darts:
        below += [(cut.depth(end), f'the mouth of "{dart.name}"') for end in dart_mouth(piece, dart)]
    for edge in piece.edges:
        if edge.role is not Role.DART_LEG:
            below += [(cut.depth(curve.start), f'the start of "{edge.name}"') for curve in edge.curves]
    for notch in piece.notches:
        if notch_moves(piece, notch, cut):
            below.append((cut.depth(notch_place(piece, notch.name)), f'the notch "{notch.name}"'))
    for line in piece.lines:
        if line is not cut.line:
            below += [(cut.depth(end), f"the {line.name}") for end in (line.start, line.end)]
    below += [(cut.depth(mark.at), f"the {mark.name}") for mark in piece.points]
    room, what = min(((depth, what) for depth, what in below if depth > SAME_PLACE), default=(math.inf, ""))
    if room <= out + SAME_PLACE:
        sleeve = bool(lines_at(piece, Level.ELBOW, Level.LENGTHEN_ABOVE_ELBOW))
        short = _SHORT_SLEEVE if sleeve else ""
        raise NotAPattern(
            piece.name,
            reason=f"{out:.1f} mm are to go, but {what} lies only {room:.1f} mm below the cut{short}",
            remedies=(_CUT_OFF,) if sleeve else (),
        )
    up = shift(cut.down * -out)
    for edge in piece.edges:
        lower = [curve for curve in edge.curves if cut.below(curve.start) and cut.below(curve.end)]
        if any(
            _dips_over_cut(moved(curve, up), cut) for curve in lower
        ):  # it could not be cut here again, to let it back in
            raise NotAPattern(
                piece.name, reason=f'{out:.1f} mm are to go, and "{edge.name}" would come to lie over the line'
            )


def _drawn_out(line: MarkLine, outline: Sequence[Edge]) -> MarkLine:
    """The line of the cut from side to side as they are redrawn; its ends stay where nothing lies across its way."""
    hits = run_hits([curve for edge in outline for curve in edge.curves], line.start, line.end - line.start)
    places = [hit.point for _, hit in hits]
    start, end = (min(places, key=partial(distance, end), default=end) for end in (line.start, line.end))
    return line.between(start, end)


def _dips_over_cut(curve: Curve, cut: CutLine) -> bool:
    """Whether a curve with both ends on one side of the cut lies to more than a trifle on the other."""
    if isinstance(curve, Line):
        return False
    side = 1.0 if cut.below(curve.start) else -1.0
    if all(side * cut.depth(handle) > -_TRIFLE for handle in (curve.c1, curve.c2)):
        return False
    return any(side * cut.depth(point_at(curve, i / 16)) < -_TRIFLE for i in range(1, 16))
