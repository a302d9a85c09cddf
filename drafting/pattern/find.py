"""What a piece or a pattern has, asked for by what it is. What is lacking is None or empty; `require_...` refuses."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace
from itertools import chain, count

from drafting.errors import Lacking
from drafting.pattern.derived import DrawnTo
from drafting.pattern.pattern import Pattern
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import Dart, Edge, MarkLine, MarkPoint, Notch, Role
from drafting.pattern.places import BodyPart, BodySide, Half, Identity, Landmark, Level, NotchMark, PieceKind, Place
from drafting.pattern.seam import EdgeRef, Seam

__all__ = [
    "dart_places",
    "darts_at",
    "edge_at",
    "edges_at",
    "free_name",
    "free_piece_name",
    "half_of",
    "is_front",
    "is_named_for",
    "is_part_name",
    "line_at",
    "lines_at",
    "nape_level",
    "neck_lowered",
    "notches_marking",
    "part_name",
    "pieces_drawn_to",
    "pieces_of",
    "point_at",
    "points_at",
    "require_edge",
    "require_line",
    "require_piece",
    "require_point",
    "seam_allowance",
    "seam_places",
    "sewn_runs",
]


def edges_at(piece: Piece, *places: Place, half: Half | None = None) -> tuple[Edge, ...]:
    """The edges of a piece at these places, anticlockwise from where their run begins; legs of darts are left out.

    half: only those of this half of the body
    """
    mine = [edge.place in places and _is_at(piece, edge, half) for edge in piece.edges]
    if True not in mine:
        return ()
    sewn = [k for k, edge in enumerate(piece.edges) if mine[k] or edge.role is not Role.DART_LEG]
    begins = next((k for i, k in enumerate(sewn) if mine[k] and not mine[sewn[i - 1]]), 0)
    order = (*range(begins, len(piece.edges)), *range(begins))
    return tuple(piece.edges[k] for k in order if mine[k])


def edge_at(piece: Piece, place: Place, half: Half | None = None) -> Edge | None:
    """The first edge of a piece at a place, anticlockwise from where its run begins; None where there is none."""
    return next(iter(edges_at(piece, place, half=half)), None)


def require_edge(piece: Piece, place: Place, half: Half | None = None) -> Edge:
    """The first edge of a piece at a place, as `edge_at` finds it; raises Lacking where there is none."""
    edge = edge_at(piece, place, half)
    if edge is None:
        raise Lacking(str(place), piece.name, [each.name for each in piece.edges])
    return edge


def half_of(piece: Piece, edge: Edge) -> Half | None:
    """The half of the body an edge belongs to: its own, else its piece's."""
    return edge.half or piece.identity.half


def lines_at(piece: Piece, *levels: Level) -> tuple[MarkLine, ...]:
    """The marked lines of a piece at these levels, in its order; a line broken by a dart is two, the far one onward."""
    return tuple(line for line in piece.lines if line.level in levels)


def line_at(piece: Piece, level: Level, *, onward: bool = False) -> MarkLine | None:
    """The marked line of a piece at a level, or its part beyond the dart that breaks it; None where there is none."""
    return next((line for line in lines_at(piece, level) if line.onward is onward), None)


def require_line(piece: Piece, level: Level) -> MarkLine:
    """The marked line of a piece at a level; raises Lacking where there is none."""
    line = line_at(piece, level)
    if line is None:
        raise Lacking(str(level), piece.name, [each.name for each in piece.lines])
    return line


def points_at(piece: Piece, *landmarks: Landmark) -> tuple[MarkPoint, ...]:
    """The marked points of a piece that are these landmarks, in its order."""
    return tuple(mark for mark in piece.points if mark.landmark in landmarks)


def point_at(piece: Piece, landmark: Landmark) -> MarkPoint | None:
    """The marked point of a piece that is a landmark; None where there is none."""
    return next(iter(points_at(piece, landmark)), None)


def require_point(piece: Piece, landmark: Landmark) -> MarkPoint:
    """The marked point of a piece that is a landmark; raises Lacking where there is none."""
    mark = point_at(piece, landmark)
    if mark is None:
        raise Lacking(str(landmark), piece.name, [each.name for each in piece.points])
    return mark


def nape_level(piece: Piece) -> float | None:
    """The y of the nape of the body on a back, mm, wherever its neckline was cut; None where it is not marked."""
    nape = point_at(piece, Landmark.NAPE)
    return None if nape is None else nape.at.y + nape.lowered


def neck_lowered(piece: Piece) -> float:
    """By how much its neckline lies below that of the body at the centre, front and back together, mm."""
    return sum(mark.lowered for mark in points_at(piece, Landmark.NAPE, Landmark.NECK_PIT))


def notches_marking(piece: Piece, *marks: NotchMark) -> tuple[Notch, ...]:
    """The notches of a piece that mark one of these, in its order."""
    return tuple(notch for notch in piece.notches if notch.marks in marks)


def dart_places(piece: Piece, dart: Dart) -> frozenset[Place]:
    """Where a dart opens: the places of the edges on both sides of its mouth."""
    return frozenset(edge.place for edge in piece.beside_dart(dart) if edge.place is not None)


def darts_at(piece: Piece, *places: Place) -> tuple[Dart, ...]:
    """The darts of a piece that open at one of these places, in its order."""
    return tuple(dart for dart in piece.darts if not dart_places(piece, dart).isdisjoint(places))


def pieces_of(
    pattern: Pattern,
    kind: PieceKind | None = None,
    part: BodyPart | None = None,
    *,
    of: PieceKind | None = None,
    side: BodySide | None = None,
) -> tuple[Piece, ...]:
    """The pieces of a pattern that are all that is asked of them, in its order."""
    return tuple(
        piece
        for piece in pattern.pieces
        if (kind is None or piece.identity.kind is kind)
        and (part is None or piece.identity.part is part)
        and (of is None or piece.identity.of is of)
        and (side is None or piece.identity.side in (None, side))
    )


def pieces_drawn_to(pattern: Pattern, source: DrawnTo) -> Iterator[Piece]:
    """The pieces of a pattern that a part is drawn to there, in the order of the pattern.

    What is drawn to a skirt is drawn to trousers where there is no skirt.
    """
    if source.identity.part is BodyPart.SKIRT and not any(p.identity.part is BodyPart.SKIRT for p in pattern.pieces):
        source = replace(source, identity=replace(source.identity, part=BodyPart.TROUSERS))
    there = [piece for piece in pattern.pieces if any(edge.place is source.place for edge in piece.edges)]
    named = any(piece.name == source.piece for piece in there)
    for piece in there:
        if piece.name == source.piece if named else _stands_for(piece.identity, source.identity):
            yield piece


def _stands_for(piece: Identity, asked: Identity) -> bool:
    """Whether it is such a piece, or the yoke of one, or a panel that was cut off it."""
    parted = piece.kind in (PieceKind.YOKE, PieceKind.PANEL) and piece.of is asked.kind and piece.part is asked.part
    return piece == asked or parted


def require_piece(pattern: Pattern, kind: PieceKind, part: BodyPart | None = None) -> Piece:
    """The first such piece; raises Lacking where there is none."""
    found = pieces_of(pattern, kind, part)
    if not found:
        # "bodice front", but "sleeve" and not "sleeve sleeve"
        what = " ".join(dict.fromkeys(str(word) for word in (part, kind) if word is not None))
        raise Lacking(what, "", [piece.name for piece in pattern.pieces])
    return found[0]


def is_front(piece: Piece) -> bool:
    """Whether it is a front, of whatever part: no facing or lining of one."""
    return piece.identity.kind is PieceKind.FRONT


def seam_places(pattern: Pattern, seam: Seam) -> tuple[frozenset[Place], frozenset[Place]]:
    """What a seam joins: the places of the edges of its two runs."""
    runs = ([pattern.piece(ref.piece).edge(ref.edge).place for ref in run] for run in (seam.a, seam.b))
    one, other = (frozenset(place for place in run if place is not None) for run in runs)
    return one, other


def sewn_runs(
    pattern: Pattern, piece: str, edges: Collection[str]
) -> Iterator[tuple[Seam, tuple[EdgeRef, ...], tuple[EdgeRef, ...]]]:
    """Every seam that one of these edges of a piece lies in, with the run it lies in and the other run."""
    for seam in pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            if any(ref.piece == piece and ref.edge in edges for ref in run):
                yield seam, run, other


def seam_allowance(piece: Piece) -> float:
    """The widest seam allowance of a piece, mm; 15 where none of its edges is a seam."""
    return max((edge.allowance for edge in piece.edges if edge.role is Role.SEAM), default=15.0)


def free_name(name: str, taken: Collection[str]) -> str:
    """The name, or with a number where it is taken: how something newly drawn is named."""
    names = chain([name], (f"{name} {n}" for n in count(2)))
    return next(each for each in names if each not in taken)


def free_piece_name(pattern: Pattern, name: str, taken: Collection[str] = ()) -> str:
    """The name, or with a number where it is taken, a piece has it, or what was last drawn for a part."""
    drawn = (piece for part in pattern.derived for piece in part.pieces)
    return free_name(name, {*(piece.name for piece in pattern.pieces), *drawn, *taken})


def is_named_for(name: str, word: str) -> bool:
    """Whether a new piece is given that name for this word: for "yoke" "bodice back yoke" and "bodice back yoke 2"."""
    return f" {name}".rstrip(" 0123456789").endswith(f" {word}")


def part_name(whole: str, word: str, taken: Collection[str] = ()) -> str:
    """What a piece is called that another one is cut into: "skirt front, side"; with a number where that is taken."""
    return free_name(f"{whole}, {word}", taken)


def is_part_name(name: str, whole: str) -> bool:
    """Whether a piece that `whole` is cut into may be called that, a slip of the comma let pass: "skirt front side"."""
    words, own = (each.replace(",", "").split() for each in (name, whole))
    return len(words) > len(own) and words[: len(own)] == own


def _is_at(piece: Piece, edge: Edge, half: Half | None) -> bool:
    return edge.role is not Role.DART_LEG and half in (None, half_of(piece, edge))
