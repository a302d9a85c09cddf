"""Ways to break a sound pattern, each in one respect."""

from __future__ import annotations

import math
from dataclasses import replace

from drafting.geometry import Cubic, Line, Point, Vec, arc, bend, blend, lerp, smooth_through, split, tangent
from drafting.pattern import (
    BodyLength,
    Grain,
    NotchRef,
    Pattern,
    Role,
    SeamEase,
    Station,
    with_edges,
    with_pieces,
)


def longer_side(pattern: Pattern, by: float) -> Pattern:
    """The back longer at the hem by a straight strip, its corners still square to the side."""
    piece = pattern.piece("back")
    side, hem = piece.edge("side seam"), piece.edge("hem")
    assert isinstance(hem.curves[0], Cubic)
    step = (side.end - side.start).unit() * by
    side = replace(side, curves=(Line(side.start, side.end + step),))
    first = hem.curves[0]
    hem = replace(hem, curves=(Cubic(first.start + step, first.c1 + step, first.c2, first.end),))
    longer = with_pieces(pattern, with_edges(piece, side, hem))
    # the notch is measured from the hem: leave it where it lies
    return shifted_notch(longer, "back", "side", Station("side seam", 60.0 + by, "end"))


def shifted_notch(pattern: Pattern, piece: str, name: str, station: Station) -> Pattern:
    old = pattern.piece(piece)
    notches = tuple(replace(n, station=station) if n.name == name else n for n in old.notches)
    return with_pieces(pattern, replace(old, notches=notches))


def notch_missed(pattern: Pattern) -> Pattern:
    return shifted_notch(pattern, "front", "side", Station("side seam", 62.0))


def notch_missed_on_an_eased_seam(pattern: Pattern) -> Pattern:
    return shifted_notch(pattern, "sleeve", "back armhole", Station("cap, back", 93.0, "end"))


def notch_on_another_edge(pattern: Pattern) -> Pattern:
    return shifted_notch(pattern, "front", "side", Station("neck", 20.0))


def notch_beyond_its_edge(pattern: Pattern) -> Pattern:
    both = shifted_notch(pattern, "front", "side", Station("side seam", 260.0))
    return shifted_notch(both, "back", "side", Station("side seam", 260.0, "end"))


def with_ease(pattern: Pattern, name: str, ease: SeamEase) -> Pattern:
    return replace(pattern, seams=tuple(replace(s, ease=ease) if s.name == name else s for s in pattern.seams))


def dart_point_aside(
    pattern: Pattern, name: str = "back", dart_name: str = "shoulder dart", *, by: float = 14.0
) -> Pattern:
    piece = pattern.piece(name)
    dart = piece.dart(dart_name)
    out, into = piece.edge(dart.legs[0]), piece.edge(dart.legs[1])
    apex = dart.apex + (into.end - out.start).unit() * by
    edges = tuple(
        replace(edge, curves=(Line(out.start, apex),))
        if edge is out
        else replace(edge, curves=(Line(apex, into.end),))
        if edge is into
        else edge
        for edge in piece.edges
    )
    return with_pieces(pattern, replace(piece, edges=edges, darts=(replace(dart, apex=apex),)))


def redrawn(pattern: Pattern, piece: str, edge: str, leaving: Vec, arriving: Vec) -> Pattern:
    old = pattern.piece(piece)
    was = old.edge(edge)
    return with_pieces(
        pattern, with_edges(old, replace(was, curves=(blend(was.start, leaving, was.end, arriving),)))
    )  # fmt: skip


def neck_hooked(pattern: Pattern, radius: float) -> Pattern:
    """The front neck straight down from the shoulder, round in a bend of this radius, and level to the centre."""
    old = pattern.piece("front")
    neck = old.edge("neck")
    down = tangent(neck.curves[0], 0.0)
    low = neck.end.y
    # the centre of the bend: as far above the level as it is off the side
    side = down.right()
    foot = neck.start + side * radius
    along = (low + radius - foot.y) / down.y
    centre = foot + down * along
    first = -side
    turned = math.degrees(first.angle_to(Vec(0.0, -1.0)))
    round_ = arc(centre, radius, first.angle(), math.radians(turned))
    curves = (Line(neck.start, round_[0].start), *round_, Line(round_[-1].end, neck.end))
    return with_pieces(pattern, with_edges(old, replace(neck, curves=curves)))


def neck_cornered(pattern: Pattern, degrees: float) -> Pattern:
    """The front neck in two curves with a corner of so many degrees between them."""
    old = pattern.piece("front")
    neck = old.edge("neck")
    one, other = split(neck.curves[0], 0.5)
    assert isinstance(other, Cubic)
    kinked = replace(other, c1=other.start + (other.c1 - other.start).turned(math.radians(-degrees)))
    return with_pieces(pattern, with_edges(old, replace(neck, curves=(one, kinked))))


def neck_narrowed(pattern: Pattern, half: float) -> Pattern:
    """Both shoulders run on toward the centre until half the neck is so wide, mm, and the front neck is less deep."""
    front, back = pattern.piece("front"), pattern.piece("back")
    shoulder, neck, centre = front.edge("shoulder"), front.edge("neck"), front.edge("centre front")
    high = _run_on(shoulder.start, shoulder.end, half)
    pit = neck.end + Vec(0.0, 35.0)
    front = with_edges(
        front,
        replace(shoulder, curves=(Line(shoulder.start, high),)),
        replace(neck, curves=(blend(high, tangent(neck.curves[0], 0.0), pit, Vec(-1.0, 0.0)),)),
        replace(centre, curves=(Line(pit, centre.end),)),
    )
    shoulder, neck = back.edge("shoulder, inner part"), back.edge("neck")
    high = _run_on(shoulder.end, shoulder.start, half)
    back = with_edges(
        back,
        replace(shoulder, curves=(Line(high, shoulder.end),)),
        replace(neck, curves=(blend(neck.start, tangent(neck.curves[0], 0.0), high, tangent(neck.curves[0], 1.0)),)),
    )
    return neck_hooked(with_pieces(pattern, front, back), 14.0)


def _run_on(far: Point, high: Point, half: float) -> Point:
    along = (high - far).unit()
    return high + along * ((abs(high.x) - half) / abs(along.x))


def hem_wavering(pattern: Pattern) -> Pattern:
    """The back hem, a narrow one, swings below and above its line; its ends and their directions stay."""
    front = pattern.piece("front")
    narrow = (edge.with_allowance(5.0) for edge in front.edges if edge.role is Role.HEM)
    pattern = with_pieces(pattern, with_edges(front, *narrow))
    piece = pattern.piece("back")
    edge = piece.edge("hem")
    start, end = edge.start, edge.end
    places = (start, lerp(start, end, 0.35) + Vec(0.0, 4.0), lerp(start, end, 0.65) - Vec(0.0, 4.0), end)
    curves = smooth_through(places, tangent(edge.curves[0], 0.0), tangent(edge.curves[-1], 1.0))
    return with_pieces(pattern, with_edges(piece, replace(edge, curves=curves, allowance=5.0)))


def armhole_off_level(pattern: Pattern, degrees: float) -> Pattern:
    """The front armhole leaves the side seam dipping by so much."""
    return turned_at_start(pattern, "front", "armhole", degrees)


def armhole_steep(pattern: Pattern) -> Pattern:
    """The front armhole leaves the side seam level and turns up at once."""
    return eased_as_it_is(redrawn_by(pattern, "front", "armhole", 0.5, 1.1), "front armhole", "front", "sleeve")


def armhole_hooked(pattern: Pattern) -> Pattern:
    """The front armhole level for a little, round its corner in one bend, and from there up and out."""
    old = pattern.piece("front")
    was = old.edge("armhole")
    level = Line(was.start, was.start - Vec(45.0, 0.0))
    round_ = arc(level.end + Vec(0.0, 24.0), 24.0, -0.5 * math.pi, -0.5 * math.pi)
    on = bend(round_[-1].end, Vec(0.0, 1.0), was.end, Vec(0.35, 1.0), tight=0.7)
    hooked = with_pieces(pattern, with_edges(old, replace(was, curves=(level, *round_, on))))
    return eased_as_it_is(hooked, "front armhole", "front", "sleeve")


def eased_as_it_is(pattern: Pattern, name: str, piece: str, sleeve: str) -> Pattern:
    """The ease of a seam set to what there is."""
    ease = pattern.piece(sleeve).edge("cap, front").length - pattern.piece(piece).edge("armhole").length
    return with_ease(pattern, name, SeamEase(ease, ease - 1.0, ease + 1.0))


def turned_at_start(pattern: Pattern, piece: str, edge: str, degrees: float) -> Pattern:
    """An edge that leaves its start turned anticlockwise by so much, all else as it was."""
    old = pattern.piece(piece)
    was = old.edge(edge)
    first = was.curves[0]
    assert isinstance(first, Cubic)
    handle = first.start + (first.c1 - first.start).turned(math.radians(degrees))
    return with_pieces(pattern, with_edges(old, replace(was, curves=(replace(first, c1=handle), *was.curves[1:]))))


def redrawn_by(pattern: Pattern, piece: str, edge: str, first: float, last: float) -> Pattern:
    """An edge of one cubic whose handles are so many times as long."""
    old = pattern.piece(piece)
    was = old.edge(edge)
    (only,) = was.curves
    assert isinstance(only, Cubic)
    new = Cubic(only.start, lerp(only.start, only.c1, first), lerp(only.end, only.c2, last), only.end)
    return with_pieces(pattern, with_edges(old, replace(was, curves=(new,))))


def hem_peaked_at_the_dart(pattern: Pattern) -> Pattern:
    return redrawn(pattern, "front", "hem, centre part", Vec(1.0, 0.0), Vec(1.0, 0.1))


def neck_peaked_at_the_fold(pattern: Pattern) -> Pattern:
    return redrawn(pattern, "front", "neck", Vec(-40.0, -120.0), Vec(-1.0, -0.2))


def wrist_peaked(pattern: Pattern) -> Pattern:
    return redrawn(pattern, "sleeve", "wrist", Vec(1.0, 0.0), Vec(1.0, 0.0))


def wrist_loop(pattern: Pattern) -> Pattern:
    """The wrist crosses itself: the ends and their directions stay."""
    piece = pattern.piece("sleeve")
    edge = piece.edge("wrist")
    only = edge.curves[0]
    assert isinstance(only, Cubic)
    far = Cubic(only.start, lerp(only.start, only.c1, 14.0), lerp(only.end, only.c2, 14.0), only.end)
    looped = with_pieces(pattern, with_edges(piece, replace(edge, curves=(far,))))
    return grain(looped, "sleeve", Grain(Point(0.0, 200.0), Point(0.0, 450.0)))


def edges_crossing(pattern: Pattern) -> Pattern:
    """The hem rises above the dart point, beside it, and comes down on the other side of the leg."""
    piece = pattern.piece("front")
    edge = piece.edge("hem, side part")
    only = edge.curves[0]
    assert isinstance(only, Cubic)
    high = Point(60.0, 150.0)
    back_in = Point(200.0, 60.0)
    leaving, arriving = (only.c1 - only.start).unit(), (only.end - only.c2).unit()
    first = blend(only.start, leaving, back_in, Vec(0.0, 1.0))
    return with_pieces(
        pattern,
        with_edges(
            piece,
            replace(
                edge,
                curves=(
                    first,
                    blend(back_in, Vec(0.0, 1.0), high, Vec(-1.0, 0.0)),
                    blend(high, Vec(-1.0, 0.0), only.end, arriving),
                ),
            ),
        ),
    )


def grain(pattern: Pattern, piece: str, line: Grain | None) -> Pattern:
    return with_pieces(pattern, replace(pattern.piece(piece), grain=line))


def allowed(pattern: Pattern, piece: str, edge: str, allowance: float) -> Pattern:
    """One edge with another allowance."""
    old = pattern.piece(piece)
    return with_pieces(pattern, with_edges(old, old.edge(edge).with_allowance(allowance)))


def notched_again(pattern: Pattern, by: float) -> Pattern:
    """A second pair of notches on the side seam, so far along from the first."""
    notched = pattern
    for name, step in (("front", by), ("back", -by)):
        piece = pattern.piece(name)
        was = piece.notch("side")
        at = was.station.at + (step if was.station.end == "start" else -step)
        again = replace(was, name="side again", station=replace(was.station, at=at))
        notched = with_pieces(notched, replace(piece, notches=(*piece.notches, again)))
    pair = (NotchRef("front", "side again"), NotchRef("back", "side again"))
    seams = tuple(replace(s, notches=(*s.notches, pair)) if s.name == "side" else s for s in pattern.seams)
    return replace(notched, seams=seams)


def neck_too_small(pattern: Pattern) -> Pattern:
    """The wearer's neck larger than the neckline by more than can be borne."""
    lengths = (*pattern.wearer.lengths, BodyLength("neck_base_girth", 800.0, "measured"))
    return replace(pattern, wearer=replace(pattern.wearer, lengths=lengths))


def no_grain(pattern: Pattern) -> Pattern:
    return grain(pattern, "sleeve", None)


def grain_aslant(pattern: Pattern) -> Pattern:
    return grain(pattern, "front", Grain(Point(40.0, 40.0), Point(44.0, 300.0)))


def grain_outside(pattern: Pattern) -> Pattern:
    return grain(pattern, "sleeve", Grain(Point(0.0, 60.0), Point(0.0, 600.0)))


def too_tight(pattern: Pattern) -> Pattern:
    return measured(pattern, "bust", body=985.0)


def measured(pattern: Pattern, name: str, *, body: float) -> Pattern:
    measures = tuple(replace(m, body=body) if m.name == name else m for m in pattern.measures)
    return replace(pattern, measures=measures)


def no_way_in(pattern: Pattern) -> Pattern:
    lengths = (BodyLength("bust_girth", 1020.0, "measured"), BodyLength("hip_girth", 1010.0, "measured"))
    return replace(pattern, wearer=replace(pattern.wearer, lengths=lengths))


def notch_pushed(pattern: Pattern, piece: str, name: str, by: float) -> Pattern:
    """A notch further along its edge, mm."""
    station = pattern.piece(piece).notch(name).station
    return shifted_notch(pattern, piece, name, replace(station, at=station.at + by))


def turned(pattern: Pattern, piece: str, edge: str, degrees: float) -> Pattern:
    """An edge that arrives at its ends turned by so much; it stays where it is there."""
    old = pattern.piece(piece)
    was = old.edge(edge)
    leaving, arriving = tangent(was.curves[0], 0.0), tangent(was.curves[-1], 1.0)
    new = blend(was.start, leaving.turned(math.radians(-degrees)), was.end, arriving.turned(math.radians(degrees)))
    return with_pieces(pattern, with_edges(old, replace(was, curves=(new,))))


def grain_turned(pattern: Pattern, piece: str, degrees: float) -> Pattern:
    was = pattern.piece(piece).grain
    assert was is not None
    along = (was.end - was.start).turned(math.radians(degrees))
    return grain(pattern, piece, Grain(was.start, was.start + along))


def body_grown(pattern: Pattern, name: str, by: float) -> Pattern:
    """The body larger at one measurement than the pattern was drafted for, mm."""
    was = next(measure for measure in pattern.measures if measure.name == name)
    assert was.body is not None
    return measured(pattern, name, body=was.body + by)


def wearer_length(pattern: Pattern, key: str, by: float) -> Pattern:
    """The wearer longer at one measurement than the pattern was drafted for, mm; the pieces as they are."""
    lengths = (replace(each, mm=each.mm + by) if each.key == key else each for each in pattern.wearer.lengths)
    return replace(pattern, wearer=replace(pattern.wearer, lengths=tuple(lengths)))


def sewn_shut(pattern: Pattern) -> Pattern:
    """Every opening sewn up."""
    for piece in pattern.pieces:
        sewn = (replace(edge, role=Role.SEAM) for edge in piece.edges if edge.role is Role.OPENING)
        pattern = with_pieces(pattern, with_edges(piece, *sewn))
    return pattern


def seam_taken_out(pattern: Pattern, name: str) -> Pattern:
    """One seam fewer; its pieces stay as they are."""
    return replace(pattern, seams=tuple(seam for seam in pattern.seams if seam.name != name))


def dart_shortened(pattern: Pattern, name: str, dart_name: str, to: float) -> Pattern:
    """A dart so long, mm: its legs leave the mouth as they did, and bend to the nearer point."""
    piece = pattern.piece(name)
    dart = piece.dart(dart_name)
    into, out = piece.edge(dart.legs[0]), piece.edge(dart.legs[1])
    mouth = lerp(into.start, out.end, 0.5)
    inward = (dart.apex - mouth).unit()
    apex = mouth + inward * to
    first, last = tangent(into.curves[0], 0.0), tangent(out.curves[-1], 1.0)
    third = to / 3.0
    legs = {
        into.name: Cubic(into.start, into.start + first * third, apex - inward * third, apex),
        out.name: Cubic(apex, apex - inward * third, out.end - last * third, out.end),
    }
    outline = tuple(replace(edge, curves=(legs[edge.name],)) if edge.name in legs else edge for edge in piece.edges)
    darts = tuple(replace(each, apex=apex) if each is dart else each for each in piece.darts)
    return with_pieces(pattern, replace(piece, edges=outline, darts=darts))


def seam_named_again(pattern: Pattern, name: str) -> Pattern:
    """A seam that stands there twice."""
    seam = next(seam for seam in pattern.seams if seam.name == name)
    return replace(pattern, seams=(*pattern.seams, replace(seam, name=f"{name} again", notches=())))


def fold_forgotten(pattern: Pattern, name: str) -> Pattern:
    """A piece with a fold that is not said to be cut on it, or the other way about."""
    piece = pattern.piece(name)
    return with_pieces(pattern, replace(piece, cut=replace(piece.cut, fold=not piece.cut.fold)))


def dart_dropped(pattern: Pattern, name: str) -> Pattern:
    """A piece whose darts are forgotten, their legs left in the outline."""
    return with_pieces(pattern, replace(pattern.piece(name), darts=()))


def button_moved(pattern: Pattern, name: str, button: str, by: float) -> Pattern:
    """A button marked so many mm higher."""
    piece, up = pattern.piece(name), Vec(0.0, by)
    points = tuple(replace(each, at=each.at + up) if each.name == button else each for each in piece.points)
    return with_pieces(pattern, replace(piece, points=points))
