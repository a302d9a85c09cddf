"""Parts that were cut off the shoulder of a bodice, laid onto the head of its sleeve and cut in one with it.

The sleeve keeps its underarm seams, its lower end and the lower part of its cap; above, the outline goes along the
parts. What was sewn to them is sewn to the sleeve, and what was measured on them is measured on it.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from drafting.alterations.sleeve.set_in_sleeve import SetIn
from drafting.alterations.styles.bodice_halves import sewn_half
from drafting.alterations.techniques.cutting.split_edges import EdgePart, cut, made_of, notches_on, whole_edge
from drafting.alterations.techniques.spreading.cut_across import AcrossLine, cut_across
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Curve, Move, run_reversed
from drafting.geometry.meet import outline_crossings
from drafting.pattern import (
    Across,
    Along,
    Between,
    Dart,
    Edge,
    EdgeRef,
    Half,
    Landmark,
    MarkPoint,
    Measure,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    Tape,
    closed,
    edges_at,
    free_name,
    from_start,
    require_edge,
    with_pieces,
)
from drafting.pattern.piece_parts import NotchStyle

__all__ = ["LaidOn", "corner_notched", "shoulders_cut_off", "with_corners_meant", "with_head"]

_NEAR: Final = 12.0
"""mm from a notch of the armhole within which the end of the new seam needs none of its own (our figure)."""


@dataclass(frozen=True, slots=True)
class LaidOn:
    """A part laid onto the sleeve.

    move:  where it is laid
    seam:  by which it was cut off, the body first
    names: what its edges are called on the sleeve
    line:  the seam it was cut off by, as the sleeve has it, in the direction of the sleeve's outline
    below: the lower part of the cap it runs on from, from the underarm up
    """

    piece: Piece
    half: Half
    move: Move
    seam: Seam
    names: Mapping[str, str]
    line: tuple[Curve, ...]
    below: tuple[Curve, ...]

    def edge(self, name: str) -> Edge:
        """An edge of it where it lies on the sleeve."""
        edge = replace(self.piece.edge(name).moved(self.move), name=self.names[name], half=self.half)
        return replace(edge, curves=self.line) if name == self.seam.b[0].edge else edge

    def above(self) -> list[Edge]:
        """Its line and its neck as they follow each other on the sleeve."""
        neck = self.edge(require_edge(self.piece, Place.NECK).name)
        line = self.edge(self.seam.b[0].edge)
        return [line, neck] if self.half is Half.FRONT else [neck, line]


def shoulders_cut_off(
    step: str, pattern: Pattern, line: Callable[[Piece, Half], AcrossLine]
) -> tuple[Pattern, Mapping[Half, Piece], Mapping[Half, str]]:
    """The pattern with front and back cut across; the parts above the line, and the names of what is left below it."""
    parts, bodies = dict[Half, Piece](), dict[Half, str]()
    for half in Half:
        piece = sewn_half(step, pattern, half)
        there = {each.name for each in pattern.pieces}
        pattern = cut_across(pattern, piece.name, line(piece, half))
        (parts[half],) = (each for each in pattern.pieces if each.name not in there)
        bodies[half] = piece.name
    return pattern, parts, bodies


def with_head(
    pattern: Pattern,
    was: SetIn,
    parts: tuple[LaidOn, LaidOn],
    kept: Mapping[Half, float],
    place: Place,
    *,
    between: Sequence[Edge] = (),
    dart: Dart | None = None,
    in_one: bool,
) -> Pattern:
    """The pattern with the parts, the front first, cut in one with the sleeve.

    kept:    how much of its cap it keeps from the underarm up, mm by half
    place:   what the seam is that they were cut off by
    between: the legs of the dart between their shoulders, where there is one
    in_one:  whether what is left of an armhole is one seam with that, walked from the underarm
    """
    sleeve = pattern.piece(was.piece.name)
    own, edges = _outline(sleeve, was, parts, kept, between)
    made = _in_one(sleeve, own, edges, parts, dart, place)
    caps = {each.edge.half: each.edge.name for each in own if each.edge.place is Place.CAP}
    armholes = [seam for seam in pattern.seams if _is_sewn_to(seam, sleeve.name, caps.values())]
    whole: list[Seam] = []
    for part in parts:
        cap = EdgeRef(sleeve.name, caps[part.half], part.half is Half.BACK)
        hole = next(seam for seam in armholes if _is_sewn_to(seam, sleeve.name, (cap.edge,)))
        if in_one:
            whole.append(_whole_seam(part, cap, hole, made))
        else:
            whole += [_strip_seam(part, made), _rest_of(hole, pattern, made)]
    dropped = {part.seam.name for part in parts} | {seam.name for seam in armholes}
    others = [new for seam in pattern.seams if seam.name not in dropped and (new := made.seam(seam)) is not None]
    under = {edge.name for edge in edges_at(made.sleeve, Place.UNDERARM)}
    at = next((k for k, seam in enumerate(others) if _is_sewn_to(seam, sleeve.name, under)), len(others))
    left = (piece for piece in pattern.pieces if piece.name not in made.parts)
    return replace(
        pattern,
        pieces=tuple(made.sleeve if piece.name == sleeve.name else piece for piece in left),
        seams=(*others[:at], *whole, *others[at:]),
        measures=tuple(_measure_laid(measure, made) for measure in pattern.measures),
    )


@dataclass(frozen=True, slots=True)
class _InOne:
    """The sleeve with the parts cut in one with it.

    parts:   by the names of the pieces they were
    notches: what the notches of the parts are now
    points:  by piece and name, what their points are called now
    """

    sleeve: Piece
    parts: Mapping[str, LaidOn]
    notches: Mapping[NotchRef, NotchRef]
    points: Mapping[tuple[str, str], str]

    def sewn(self) -> set[str]:
        """The names of its edges that are no legs of darts."""
        return {edge.name for edge in self.sleeve.edges if edge.role is not Role.DART_LEG}

    def ref(self, old: EdgeRef) -> EdgeRef | None:
        """An edge of a seam where it is now; None where it is gone."""
        name = old.edge
        if old.piece in self.parts:
            name = self.parts[old.piece].names.get(old.edge, "")
        elif old.piece != self.sleeve.name:
            return old
        there = any(edge.name == name for edge in self.sleeve.edges)
        return EdgeRef(self.sleeve.name, name, old.backward) if there else None

    def mark(self, old: NotchRef) -> NotchRef | None:
        """A notch where it is now; None where it is gone."""
        if old.piece == self.sleeve.name:
            return old if any(notch.name == old.notch for notch in self.sleeve.notches) else None
        return self.notches.get(old, None if old.piece in self.parts else old)

    def seam(self, seam: Seam) -> Seam | None:
        """A seam as it is sewn now; None where nothing is left of one of its sides, or it became a dart."""
        runs = [tuple(new for new in map(self.ref, run) if new is not None) for run in (seam.a, seam.b)]
        sewn = self.sewn()
        if not all(runs) or any(ref.edge not in sewn for ref in runs[0] if ref.piece == self.sleeve.name):
            return None
        pairs = [(self.mark(a), self.mark(b)) for a, b in seam.notches]
        kept = tuple((a, b) for a, b in pairs if a is not None and b is not None)
        return replace(seam, a=runs[0], b=runs[1], notches=kept)


def _in_one(
    sleeve: Piece,
    own: Sequence[EdgePart],
    edges: Sequence[Edge],
    parts: Sequence[LaidOn],
    dart: Dart | None,
    place: Place,
) -> _InOne:
    """The sleeve with these edges and all marks of the parts. own: what it keeps of its own edges"""
    outline = closed(sleeve.name, tuple(edges))
    if outline_crossings([curve for edge in outline for curve in edge.curves]):
        raise NotAPattern(
            sleeve.name, reason=f"with the shoulder on it, it would lie over itself: the {place} comes too low"
        )
    names = {edge.name for edge in outline}
    notches = list(notches_on(sleeve, made_of(own)))
    # the crown lies in the open dart now: it is kept for the tape only
    points = [
        replace(mark, landmark=Landmark.TAPE_CROSSES) if mark.landmark is Landmark.CROWN else mark
        for mark in sleeve.points
    ]
    renamed: dict[NotchRef, NotchRef] = {}
    called: dict[tuple[str, str], str] = {}
    for part in parts:
        notches += _notches_of(part, sleeve.name, names, notches, renamed)
        moved = list(_points_of(part, points))
        called |= {(part.piece.name, old): mark.name for old, mark in moved}
        points += [mark for _, mark in moved]
    made = replace(
        sleeve,
        edges=outline,
        darts=(dart,) if dart else (),
        notches=tuple(notches),
        points=tuple(points),
        points_meant=(),
    )
    return _InOne(made, {part.piece.name: part for part in parts}, renamed, called)


def _outline(
    sleeve: Piece, was: SetIn, parts: tuple[LaidOn, LaidOn], kept: Mapping[Half, float], between: Sequence[Edge]
) -> tuple[list[EdgePart], list[Edge]]:
    """What the sleeve keeps of its own edges, and its whole new outline."""
    front, back = parts
    own: list[EdgePart] = []
    edges: list[Edge] = []
    k = sleeve.index(was.edges.under_front.name)
    for edge in (*sleeve.edges[k:], *sleeve.edges[:k]):
        if edge.name == was.edges.cap_front.name:
            left = cut(edge, kept[Half.FRONT])[0]
            assert left is not None
            own.append(left.redrawn(front.below))
            edges += [own[-1].edge, *front.above(), *between]
        elif edge.name == was.edges.cap_back.name:
            left = cut(edge, edge.length - kept[Half.BACK])[1]
            assert left is not None
            own.append(left.redrawn(run_reversed(back.below)))
            edges += [*back.above(), own[-1].edge]
        else:
            own.append(whole_edge(edge))
            edges.append(edge)
    return own, edges


def with_corners_meant(pattern: Pattern, place: Place) -> Pattern:
    """The pattern with the corners between the seams of a place and armhole or cap said to be meant."""
    for piece in pattern.pieces:
        pairs = [
            (one.name, other.name)
            for one, other in pairwise((*piece.edges, piece.edges[0]))
            if place in (one.place, other.place) and {one.place, other.place} & {Place.ARMHOLE, Place.CAP}
        ]
        if pairs:
            pattern = with_pieces(pattern, replace(piece, points_meant=(*piece.points_meant, *pairs)))
    return pattern


def corner_notched(pattern: Pattern, half: Half, place: Place) -> Pattern:
    """The pattern with the place where the new seam leaves armhole and cap notched on both, where no notch is near."""
    seam = next(each for each in pattern.seams if any(_lies_at(pattern, ref, half, place) for ref in each.b))
    # each side begins at the underarm, with what is left of the armhole or the cap
    ends = [(pattern.piece(run[0].piece), run[0]) for run in (seam.a, seam.b)]
    for piece, ref in ends:
        edge = piece.edge(ref.edge)
        marks = (from_start(edge, n.station) for n in piece.notches if n.station.edge == edge.name)
        if any((at if ref.backward else edge.length - at) <= _NEAR for at in marks):
            return pattern
    name = f"{half} {place} begins"
    style: NotchStyle = "double" if half is Half.BACK else "single"
    for piece, ref in ends:
        notch = Notch(name, Station(ref.edge, 0.0, "start" if ref.backward else "end"), style, NotchMark.BALANCE)
        pattern = with_pieces(pattern, replace(piece, notches=(*piece.notches, notch)))
    pair = (NotchRef(seam.a[0].piece, name), NotchRef(seam.b[0].piece, name))
    seams = (replace(s, notches=(*s.notches, pair)) if s.name == seam.name else s for s in pattern.seams)
    return replace(pattern, seams=tuple(seams))


def _lies_at(pattern: Pattern, ref: EdgeRef, half: Half, place: Place) -> bool:
    edge = pattern.piece(ref.piece).edge(ref.edge)
    return edge.place is place and edge.half is half


def _is_sewn_to(seam: Seam, piece: str, edges: Collection[str]) -> bool:
    """Whether a seam joins one of these edges of a piece to something."""
    return any(ref.piece == piece and ref.edge in edges for ref in (*seam.a, *seam.b))


def _whole_seam(part: LaidOn, cap: EdgeRef, armhole: Seam, made: _InOne) -> Seam:
    """The whole seam of one half from the underarm on, the body's side first. cap: the part of the cap that is left"""
    line = part.seam.b[0].edge
    left = next(each for each in (*armhole.a, *armhole.b) if each.piece == part.seam.a[0].piece)
    a = (EdgeRef(left.piece, left.edge, not cap.backward), *part.seam.a)
    b = (cap, EdgeRef(cap.piece, part.names[line], cap.backward))
    pairs = _pairs((*armhole.notches, *part.seam.notches), left.piece, made)
    return Seam(f"{part.half} {part.piece.edge(line).place}", a, b, part.seam.ease, pairs)


def _strip_seam(part: LaidOn, made: _InOne) -> Seam:
    """The seam by which a part was cut off, with the sleeve in the place of the part."""
    line = part.seam.b[0]
    b = (EdgeRef(made.sleeve.name, part.names[line.edge], line.backward),)
    pairs = _pairs(part.seam.notches, part.seam.a[0].piece, made)
    return Seam(f"{part.half} {part.piece.edge(line.edge).place}", part.seam.a, b, part.seam.ease, pairs)


def _rest_of(armhole: Seam, before: Pattern, made: _InOne) -> Seam:
    """What is left of an armhole seam, its declared ease what the cap is longer now."""
    left = made.seam(armhole)
    assert left is not None
    pieces = {**{piece.name: piece for piece in before.pieces}, made.sleeve.name: made.sleeve}
    long = [sum(pieces[ref.piece].edge(ref.edge).length for ref in run) for run in (left.a, left.b)]
    wanted = round(long[0] - long[1], 4)
    return replace(left, ease=SeamEase(wanted, min(wanted, armhole.ease.low), max(wanted, armhole.ease.high)))


def _pairs(
    notches: Iterable[tuple[NotchRef, NotchRef]], body: str, made: _InOne
) -> tuple[tuple[NotchRef, NotchRef], ...]:
    """The pairs of notches that are still there on body and sleeve."""
    found: list[tuple[NotchRef, NotchRef]] = []
    for pair in notches:
        ends = {end.piece: end for end in map(made.mark, pair) if end is not None}
        if ends.keys() == {made.sleeve.name, body}:
            found.append((ends[body], ends[made.sleeve.name]))
    return tuple(found)


def _notches_of(
    part: LaidOn, sleeve: str, names: set[str], notches: Sequence[Notch], renamed: dict[NotchRef, NotchRef]
) -> Iterator[Notch]:
    taken = [notch.name for notch in notches]
    for notch in part.piece.notches:
        edge = part.names.get(notch.station.edge, "")
        if edge in names and notch.marks is not NotchMark.CROWN:
            name = free_name(notch.name, taken)
            taken.append(name)
            renamed[NotchRef(part.piece.name, notch.name)] = NotchRef(sleeve, name)
            yield replace(notch, name=name, station=replace(notch.station, edge=edge))


def _points_of(part: LaidOn, points: Sequence[MarkPoint]) -> Iterator[tuple[str, MarkPoint]]:
    """The marked points and the ends of measured lines of a part, where they lie on the sleeve, by their old names."""
    taken = [mark.name for mark in points]
    for mark in part.piece.points:
        yield mark.name, replace(mark, name=free_name(mark.name, taken), at=part.move.point(mark.at))
    for edge in edges_at(part.piece, Place.SHOULDER):
        for k, (end, beside) in enumerate(zip((edge.start, edge.end), part.piece.beside(edge.name), strict=True)):
            landmark = Landmark.SHOULDER_END if beside.place is Place.ARMHOLE else Landmark.TAPE_CROSSES
            name = _end_of(part, edge.name, k)
            yield name, MarkPoint(name, part.move.point(end), landmark)
    for line in part.piece.lines:
        for k, end in enumerate((line.start, line.end)):
            name = _end_of(part, line.name, k)
            yield name, MarkPoint(name, part.move.point(end), Landmark.TAPE_CROSSES)


def _end_of(part: LaidOn, name: str, k: int) -> str:
    """What the end of a line or an edge of a part is called on the sleeve."""
    return f"{part.half} {name}, {('begin', 'end')[k]}"


def _measure_laid(measure: Measure, made: _InOne) -> Measure:
    """A measurement with what of its tape lay on the parts laid on the sleeve."""
    sleeve, sewn = made.sleeve.name, made.sewn()
    tape: list[Tape] = []
    for stretch in measure.tape:
        part = made.parts.get(stretch.piece)
        if part is None:
            tape.append(stretch)
        elif isinstance(stretch, Along) and part.names.get(stretch.edge, "") in sewn:
            tape.append(replace(stretch, piece=sleeve, edge=part.names[stretch.edge]))
        elif isinstance(stretch, Between):
            one, other = (made.points.get((stretch.piece, end), end) for end in (stretch.one, stretch.other))
            tape.append(replace(stretch, piece=sleeve, one=one, other=other))
        elif isinstance(stretch, Along | Across):
            name = stretch.edge if isinstance(stretch, Along) else stretch.line
            ends = (_end_of(part, name, 0), _end_of(part, name, 1))
            tape.append(Between(sleeve, *ends, stretch.times))
    return replace(measure, tape=tuple(tape))
