"""Altering a side seam that has darts in it: the darts are closed, the seam is altered, the darts are opened again.

The trade's way (common practice): a cutter folds the dart shut, trues the seam as one line, and opens the dart where it
was. While it is shut here, a dart has to be open somewhere else: it is moved into a seam that is not altered, as by
`move a dart`, and moved back afterwards. Everything that was not altered comes back to the last digit.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Final, TypeVar

from drafting.alterations.darts.move_dart import MoveDart
from drafting.alterations.earlier_steps import put_before
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Point, run_at
from drafting.geometry.outline import starting_at
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import (
    Along,
    Bent,
    Between,
    Dart,
    Edge,
    EdgeRef,
    Grain,
    Level,
    MarkLine,
    Notch,
    Pattern,
    Piece,
    Place,
    Role,
    Tape,
    closed,
    edges_at,
    with_pieces,
)

__all__ = ["darts_in_side", "side_edges", "side_parts", "sides_closed", "with_sides_closed"]

_Mark = TypeVar("_Mark", MarkLine, Notch)

_PLACES: Final = (Place.SHOULDER, Place.ARMHOLE, Place.NECK)
"""The seams into which a dart is laid for the while, in this order."""

_SAMPLED: Final = (0.25, 0.5, 0.75)


@dataclass(frozen=True, slots=True)
class _Laid:
    """A dart of a side seam that was moved away, and how it gets back: how far it lay from the end of the seam, mm."""

    piece: Piece
    dart: Dart
    beside: str
    at: float


def with_sides_closed(step: str, pattern: Pattern, work: Callable[[Pattern], Pattern]) -> Pattern:
    """What the work makes of the pattern, done while the dart of every side seam is closed.

    A dart that can be laid nowhere for the while is left where it is. Raises StepRefused as the work does, and where a
    dart cannot be opened again in the altered seam.
    """
    shut, laid = _shut(pattern)
    altered = work(shut)
    for each in reversed(laid):
        side = edges_at(altered.piece(each.piece.name), Place.SIDE)[0].name
        back = MoveDart(each.piece.name, each.dart.name, side, at=each.at, measured_from=each.beside)
        try:
            altered = back.apply(altered)
        except (StepRefused, NotAPattern) as error:
            reason = f'"{each.dart.name}" cannot be opened again in the {Place.SIDE} of "{each.piece.name}"'
            before = put_before("move a dart", otherwise=True)
            raise StepRefused(step, reason=f"{reason} ({error.reason}); alter by less", remedies=(before,)) from error
        altered = _named_back(altered, each.piece)
        altered = with_pieces(altered, _as_it_was(each.piece, altered.piece(each.piece.name)))
    return altered


def _named_back(pattern: Pattern, was: Piece) -> Pattern:
    """The pattern with the edges and lines of a piece called as they were, where its edges are the same again."""
    now = pattern.piece(was.name)
    if [(e.role, e.place) for e in now.edges] != [(e.role, e.place) for e in was.edges]:
        return pattern
    names = {new.name: old.name for new, old in zip(now.edges, was.edges, strict=True)}
    levels: dict[tuple[Level | None, bool], str] = {
        (mark.level, mark.onward): mark.name for mark in was.lines if mark.level
    }
    lines = {mark.name: levels.get((mark.level, mark.onward), mark.name) for mark in now.lines}
    if all(new == old for new, old in (*names.items(), *lines.items())):
        return pattern
    piece = replace(
        now,
        edges=tuple(replace(edge, name=names[edge.name]) for edge in now.edges),
        darts=tuple(replace(dart, legs=(names[dart.legs[0]], names[dart.legs[1]])) for dart in now.darts),
        notches=tuple(replace(n, station=replace(n.station, edge=names[n.station.edge])) for n in now.notches),
        lines=tuple(replace(mark, name=lines[mark.name]) for mark in now.lines),
        points_meant=tuple((names[one], names[other]) for one, other in now.points_meant),
    )

    def refs(run: Sequence[EdgeRef]) -> tuple[EdgeRef, ...]:
        return tuple(replace(ref, edge=names[ref.edge]) if ref.piece == was.name else ref for ref in run)

    def tape(part: Tape) -> Tape:
        if part.piece != was.name or isinstance(part, Between):
            return part
        if isinstance(part, Along):
            return replace(part, edge=names[part.edge])
        if isinstance(part, Bent):
            return replace(part, line=lines[part.line], onward=lines[part.onward])
        return replace(part, line=lines[part.line])

    return replace(
        pattern,
        pieces=tuple(piece if each.name == was.name else each for each in pattern.pieces),
        seams=tuple(replace(seam, a=refs(seam.a), b=refs(seam.b)) for seam in pattern.seams),
        measures=tuple(replace(each, tape=tuple(map(tape, each.tape))) for each in pattern.measures),
    )


def sides_closed(pattern: Pattern) -> Pattern:
    """The pattern with the dart of every side seam laid elsewhere, as the work sees it."""
    return _shut(pattern)[0]


def side_parts(piece: Piece) -> tuple[str, ...]:
    """The edges of its side seam: one, or the two that lie beside a dart."""
    return tuple(edge.name for edge in piece.edges if edge.place is Place.SIDE and not edge.drawn_up)


def side_edges(piece: Piece) -> tuple[str, ...]:
    """The edges of its side seam and the legs of the darts in it."""
    return (*side_parts(piece), *(leg for dart, *_ in darts_in_side(piece) for leg in dart.legs))


def _shut(pattern: Pattern) -> tuple[Pattern, tuple[_Laid, ...]]:
    laid: list[_Laid] = []
    for name in [piece.name for piece in pattern.pieces]:
        while (moved := _dart_moved(pattern, pattern.piece(name))) is not None:
            pattern = moved[0]
            laid.append(moved[1])
    return pattern, tuple(laid)


def _dart_moved(pattern: Pattern, piece: Piece) -> tuple[Pattern, _Laid] | None:
    """The pattern with a dart of a side seam laid elsewhere; None where there is none, or it can be laid nowhere.

    Of several it is one next to the far end of the seam, from which its place is counted.
    """
    for dart, parts in darts_in_side(piece):
        ends = [(part, end) for part, end in parts if end.role is not Role.DART_LEG and end.place is not Place.WAIST]
        for edge in _places(piece) if ends else ():
            try:
                moved = MoveDart(piece.name, dart.name, edge).apply(pattern)
            except (StepRefused, NotAPattern):
                continue
            part, end = ends[0]
            return moved, _Laid(piece, dart, end.name, part.length)
    return None


def darts_in_side(piece: Piece) -> Iterator[tuple[Dart, tuple[tuple[Edge, Edge], ...]]]:
    """The darts between two parts of the side seam, each with these parts and what lies at their other ends."""
    parts = side_parts(piece)
    for dart in piece.darts:
        before, after = piece.beside_dart(dart)
        if before.name in parts and after.name in parts:
            yield dart, ((before, piece.beside(before.name)[0]), (after, piece.beside(after.name)[1]))


def _places(piece: Piece) -> list[str]:
    seams = (edge for place in _PLACES for edge in edges_at(piece, place))
    return [edge.name for edge in seams if edge.role is Role.SEAM]


def _as_it_was(was: Piece, now: Piece) -> Piece:
    """The piece with all that came back to where it was as the very thing it was, and its darts aimed as before."""
    old = {edge.name: edge for edge in was.edges}
    edges = tuple(
        old[edge.name] if edge.name in old and _same_edge(old[edge.name], edge) else edge for edge in now.edges
    )
    kept = {edge.name for edge in edges if edge is old.get(edge.name)}
    edges = tuple(
        _begun_at(edge, before.end) if before.name in kept and edge.name not in kept else edge
        for before, edge in zip((edges[-1], *edges), edges, strict=False)
    )
    redrawn = {dart.name: dart for dart in now.darts}
    piece = replace(
        now,
        edges=closed(now.name, edges),
        darts=tuple(
            dart if kept.issuperset(dart.legs) else replace(redrawn[dart.name], aims_at=dart.aims_at)
            for dart in was.darts
        ),
        points=was.points,
        grain=was.grain if was.grain and now.grain and _same_ends(was.grain, now.grain) else now.grain,
        lines=_back(was.lines, now.lines, _same_ends),
        notches=_back(was.notches, now.notches, _same_notch),
    )
    return was if piece == was else piece


def _back(was: Sequence[_Mark], now: Sequence[_Mark], same: Callable[[_Mark, _Mark], bool]) -> tuple[_Mark, ...]:
    """The marks there are now, in the order there was, each that is where it was as it was."""
    there, before = {mark.name: mark for mark in now}, {mark.name for mark in was}
    back = [mark if same(mark, there[mark.name]) else there[mark.name] for mark in was if mark.name in there]
    back += [mark for mark in now if mark.name not in before]
    return tuple(back)


def _begun_at(edge: Edge, place: Point) -> Edge:
    return replace(edge, curves=(starting_at(edge.curves[0], place), *edge.curves[1:]))


def _same_edge(one: Edge, other: Edge) -> bool:
    if (one.role, one.allowance) != (other.role, other.allowance) or abs(one.length - other.length) > SAME_PLACE:
        return False
    pairs = [(one.start, other.start), (one.end, other.end)]
    pairs += [(run_at(one.curves, one.length * s), run_at(other.curves, other.length * s)) for s in _SAMPLED]
    return all(a.near(b) for a, b in pairs)


def _same_ends(one: MarkLine | Grain, other: MarkLine | Grain) -> bool:
    return one.start.near(other.start) and one.end.near(other.end)


def _same_notch(one: Notch, other: Notch) -> bool:
    alike = (one.station.edge, one.station.end) == (other.station.edge, other.station.end)
    return alike and abs(one.station.at - other.station.at) <= SAME_PLACE
