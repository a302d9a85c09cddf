"""Parts that were cut off the shoulder of a bodice, laid onto the head of its sleeve and cut in one with it.

The sleeve keeps its underarm seams, its lower end and the lower part of its cap; above, the outline goes along the
parts. What was sewn to them is sewn to the sleeve, and what was measured on them is measured on it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from drafting.alterations.techniques.cutting.split_edges import EdgePart, made_of, notches_on
from drafting.errors import NotAPattern
from drafting.geometry import Curve, Move
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
    Tape,
    closed,
    edges_at,
    free_name,
)

__all__ = ["LaidOn", "with_head"]


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


def with_head(
    pattern: Pattern,
    sleeve: Piece,
    parts: tuple[LaidOn, LaidOn],
    own: Sequence[EdgePart],
    edges: Sequence[Edge],
    dart: Dart | None,
    place: Place,
) -> Pattern:
    """The pattern with the parts cut in one with the sleeve.

    own:   what is left of the sleeve's own edges
    edges: the whole new outline
    place: what the seam is that they were cut off by
    Each half of the cap is then one seam with that, walked from the underarm.
    """
    closed_edges = closed(sleeve.name, tuple(edges))
    outline = [curve for edge in closed_edges for curve in edge.curves]
    if outline_crossings(outline):
        raise NotAPattern(sleeve.name, f"with the shoulder on it, it would lie over itself: the {place} comes too low")
    names = {edge.name for edge in closed_edges}
    caps = {Half.FRONT: "", Half.BACK: ""}
    for each in own:
        if each.edge.place is Place.CAP and each.edge.half is not None:
            caps[each.edge.half] = each.edge.name
    notches = list(notches_on(sleeve, made_of(own)))
    # the crown lies in the open dart now: it is kept for the tape only
    points = [
        replace(mark, landmark=Landmark.TAPE_CROSSES) if mark.landmark is Landmark.CROWN else mark
        for mark in sleeve.points
    ]
    renamed: dict[NotchRef, NotchRef] = {}
    for part in parts:
        notches += _notches_of(part, sleeve.name, names, notches, renamed)
        points += _points_of(part, points)
    made = replace(
        sleeve,
        edges=closed_edges,
        darts=(dart,) if dart else (),
        notches=tuple(notches),
        points=tuple(points),
        points_meant=(),
    )
    there = {notch.name for notch in notches}
    gone = {part.piece.name for part in parts}
    by_part = {part.piece.name: part for part in parts}

    def ref(old: EdgeRef) -> EdgeRef | None:
        part = by_part.get(old.piece)
        if part is None:
            return old if old.piece != sleeve.name or old.edge in names else None
        name = part.names.get(old.edge, "")
        return EdgeRef(sleeve.name, name, old.backward) if name in names else None

    def mark(old: NotchRef) -> NotchRef | None:
        if old.piece == sleeve.name:
            return old if old.notch in there else None
        return renamed.get(old, None if old.piece in gone else old)

    def carried(seam: Seam) -> Seam | None:
        runs = [tuple(new for new in map(ref, run) if new is not None) for run in (seam.a, seam.b)]
        if not all(runs) or any(edge.edge not in _sewn(made) for edge in runs[0] if edge.piece == sleeve.name):
            return None
        pairs = [(mark(a), mark(b)) for a, b in seam.notches]
        kept = tuple((a, b) for a, b in pairs if a is not None and b is not None)
        return replace(seam, a=runs[0], b=runs[1], notches=kept)

    whole: list[Seam] = []
    armholes = {seam.name: seam for seam in pattern.seams if _joins_cap(seam, sleeve, caps)}
    for part in parts:
        whole.append(_whole_seam(part, (sleeve.name, caps[part.half]), armholes.values(), mark, place))
    dropped = {part.seam.name for part in parts} | set(armholes)
    others = [new for seam in pattern.seams if seam.name not in dropped and (new := carried(seam)) is not None]
    pieces = tuple(made if piece.name == sleeve.name else piece for piece in pattern.pieces if piece.name not in gone)
    measures = tuple(_laid(measure, by_part, made) for measure in pattern.measures)
    at = next((k for k, seam in enumerate(others) if _is_underarm(made, seam)), len(others))
    seams = (*others[:at], *whole, *others[at:])
    return replace(pattern, pieces=pieces, seams=seams, measures=measures)


def _sewn(piece: Piece) -> set[str]:
    return {edge.name for edge in piece.edges if edge.role is not Role.DART_LEG}


def _is_underarm(sleeve: Piece, seam: Seam) -> bool:
    return any(ref.piece == sleeve.name and sleeve.edge(ref.edge).place is Place.UNDERARM for ref in (*seam.a, *seam.b))


def _joins_cap(seam: Seam, sleeve: Piece, caps: Mapping[Half, str]) -> bool:
    return any(ref.piece == sleeve.name and ref.edge in caps.values() for ref in (*seam.a, *seam.b))


def _whole_seam(
    part: LaidOn,
    ref: tuple[str, str],
    armholes: Iterable[Seam],
    mark: Callable[[NotchRef], NotchRef | None],
    place: Place,
) -> Seam:
    """The whole seam of one half, from the underarm on, the body first, as it may be eased; ref: the cap."""
    sleeve, cap = ref
    (armhole,) = (seam for seam in armholes if any(each.edge == cap for each in (*seam.a, *seam.b)))
    body = next(each for each in (*armhole.a, *armhole.b) if each.piece == part.seam.a[0].piece)
    back = part.half is Half.BACK
    a = (EdgeRef(sleeve, cap, back), EdgeRef(sleeve, part.names[part.seam.b[0].edge], back))
    b = (EdgeRef(body.piece, body.edge, not back), *part.seam.a)
    pairs: list[tuple[NotchRef, NotchRef]] = []
    for pair in (*armhole.notches, *part.seam.notches):
        ends = {end.piece: end for end in map(mark, pair) if end is not None}
        if ends.keys() == {sleeve, body.piece}:
            pairs.append((ends[body.piece], ends[sleeve]))
    return Seam(f"{part.half} {place}", b, a, part.seam.ease, tuple(pairs))


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


def _points_of(part: LaidOn, points: Sequence[MarkPoint]) -> Iterator[MarkPoint]:
    """The points of a part, and the ends of what is measured across it, on the sleeve."""
    taken = [mark.name for mark in points]
    for mark in part.piece.points:
        yield replace(mark, name=free_name(mark.name, taken), at=part.move.point(mark.at))
    for edge in edges_at(part.piece, Place.SHOULDER):
        for k, end in enumerate((edge.start, edge.end)):
            yield MarkPoint(_end_of(part, edge.name, k), part.move.point(end), Landmark.TAPE_CROSSES)
    for line in part.piece.lines:
        for k, end in enumerate((line.start, line.end)):
            yield MarkPoint(_end_of(part, line.name, k), part.move.point(end), Landmark.TAPE_CROSSES)


def _end_of(part: LaidOn, name: str, k: int) -> str:
    """What the end of a line or an edge of a part is called on the sleeve."""
    return f"{part.half} {name}, {('begin', 'end')[k]}"


def _laid(measure: Measure, parts: Mapping[str, LaidOn], sleeve: Piece) -> Measure:
    """A measurement with what of its tape lay on the parts laid on the sleeve."""
    tape: list[Tape] = []
    for stretch in measure.tape:
        part = parts.get(stretch.piece)
        if part is None:
            tape.append(stretch)
        elif isinstance(stretch, Along) and part.names.get(stretch.edge, "") in _sewn(sleeve):
            tape.append(replace(stretch, piece=sleeve.name, edge=part.names[stretch.edge]))
        elif isinstance(stretch, Between):
            tape.append(replace(stretch, piece=sleeve.name))
        elif isinstance(stretch, Along | Across):
            name = stretch.edge if isinstance(stretch, Along) else stretch.line
            ends = (_end_of(part, name, 0), _end_of(part, name, 1))
            tape.append(Between(sleeve.name, *ends, stretch.times))
    return replace(measure, tape=tuple(tape))
