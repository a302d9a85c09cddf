"""A whole pattern: its pieces, its seams, whom and what it was drafted from, what was done to it since."""

from __future__ import annotations

from collections.abc import Collection, Set
from dataclasses import replace

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern, UnknownName
from drafting.pattern.derived import Derived, Plain
from drafting.pattern.measure import Between, Finished, Measure, finished_of, length_on
from drafting.pattern.piece import Piece
from drafting.pattern.remembering import Remembering
from drafting.pattern.seam import NotchRef, Seam

__all__ = [
    "BodyLength",
    "ChildWearer",
    "Origin",
    "Pattern",
    "Step",
    "Wearer",
    "finished",
    "finished_length",
    "with_measures_left",
    "with_pieces",
    "without_notches",
]


@dataclass(frozen=True, slots=True)
class BodyLength:
    """One measurement of the wearer as used: mm, where it came from, and how far off it may be.

    source: "measured", "estimated" or "chart"
    how:    a few words: the date of measuring, or the lengths it was estimated from
    sd:     the residual standard deviation of an estimate, mm; None when measured
    """

    key: str
    mm: float
    source: str
    how: str = ""
    sd: float | None = None


@dataclass(frozen=True, slots=True)
class ChildWearer:
    """A child a pattern is for.

    body:   "girl" or "boy"; "" where that is not known
    months: how old, whole months; None where that is not known
    lives:  where, one of `LIVES`; "" where that is not known
    """

    body: str
    months: int | None
    lives: str


@dataclass(frozen=True, slots=True)
class Wearer:
    """Whom the pattern is for, and every length that went into it; child: where it is one.

    unit: what she works in, "cm", "in" or "mm": whoever reads the pattern shows lengths in it
    """

    name: str
    lengths: tuple[BodyLength, ...] = ()
    child: ChildWearer | None = None
    unit: str = "cm"

    def length(self, key: str) -> BodyLength:
        """The measurement of that key; UnknownName if it was not used."""
        for value in self.lengths:
            if value.key == key:
                return value
        raise UnknownName("measurement", key, [value.key for value in self.lengths])


@dataclass(frozen=True, slots=True)
class Origin:
    """One block a pattern was drafted from, its options as they were used, and what gave way where options competed.

    gave_way: sentences, in the order in which it gave way
    """

    block: str
    options: tuple[tuple[str, Plain], ...] = ()
    gave_way: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Step:
    """One alteration that was applied: its name and its options (lengths in mm), enough to apply it again."""

    alter: str
    options: tuple[tuple[str, Plain], ...] = ()


@dataclass(frozen=True, slots=True)
class Pattern(Remembering):
    """Pieces, seams in the order of sewing, and how they came to be.

    derived: the parts among its pieces that are drawn to others, in the order in which they are drawn
    stretch: how much longer the cloth gets across when it is stretched, as a fraction; 0 for a woven
    cloth_width: how wide the cloth is, mm; 0 where nobody said
    unfinished: the pattern before its finishing steps (openings, hems, gathers), its parts not drawn, so that a step
                can still be taken before those; None where there are none, or where it is not known

    Raises NotAPattern for two of one name, or a seam to a piece, edge or notch that is not there.
    """

    title: str
    wearer: Wearer
    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...] = ()
    measures: tuple[Measure, ...] = ()
    origin: tuple[Origin, ...] = ()
    history: tuple[Step, ...] = ()
    derived: tuple[Derived, ...] = ()
    stretch: float = 0.0
    unfinished: Pattern | None = None
    cloth_width: float = 0.0

    def __post_init__(self) -> None:
        names = {piece.name for piece in self.pieces}
        if len(names) != len(self.pieces):
            raise NotAPattern(self.title, reason="two pieces have one name")
        if len({seam.name for seam in self.seams}) != len(self.seams):
            raise NotAPattern(self.title, reason="two seams have one name")
        if not self.seams:
            return
        edges = {(piece.name, edge.name) for piece in self.pieces for edge in piece.edges}
        notches = {(piece.name, notch.name) for piece in self.pieces for notch in piece.notches}
        for seam in self.seams:
            _accept_seam(seam, names, edges, notches)

    def piece(self, name: str) -> Piece:
        """The piece of that name; UnknownName if there is none."""
        for piece in self.pieces:
            if piece.name == name:
                return piece
        raise UnknownName("piece", name, [piece.name for piece in self.pieces])

    def seam(self, name: str) -> Seam:
        """The seam of that name; UnknownName if there is none."""
        for seam in self.seams:
            if seam.name == name:
                return seam
        raise UnknownName("seam", name, [seam.name for seam in self.seams])


def with_pieces(pattern: Pattern, *changed: Piece) -> Pattern:
    """The pattern with pieces of the same names replaced."""
    by_name = {piece.name: piece for piece in changed}
    return replace(pattern, pieces=tuple(by_name.get(piece.name, piece) for piece in pattern.pieces))


def with_measures_left(pattern: Pattern) -> Pattern:
    """The pattern without measurements between two points that no longer lie on one piece: it was cut between them."""
    points = {piece.name: {mark.name for mark in piece.points} for piece in pattern.pieces}
    left = tuple(
        measure
        for measure in pattern.measures
        if all(not isinstance(t, Between) or {t.one, t.other} <= points.get(t.piece, set()) for t in measure.tape)
    )
    return pattern if len(left) == len(pattern.measures) else replace(pattern, measures=left)


def without_notches(pattern: Pattern, gone: Set[NotchRef]) -> Pattern:
    """The pattern without these notches and the pairs of seams they are in; the very same for none."""
    if not gone:
        return pattern
    touched = {mark.piece for mark in gone}
    pieces = []
    for piece in pattern.pieces:
        kept = tuple(notch for notch in piece.notches if NotchRef(piece.name, notch.name) not in gone)
        pieces.append(replace(piece, notches=kept) if piece.name in touched else piece)
    seams = (replace(s, notches=tuple(pair for pair in s.notches if gone.isdisjoint(pair))) for s in pattern.seams)
    return replace(pattern, pieces=tuple(pieces), seams=tuple(seams))


def _accept_seam(
    seam: Seam, pieces: Collection[str], edges: Collection[tuple[str, str]], notches: Collection[tuple[str, str]]
) -> None:
    for ref in (*seam.a, *seam.b):
        if ref.piece not in pieces:
            raise NotAPattern(f'seam "{seam.name}"', reason=f'there is no piece "{ref.piece}"')
        if (ref.piece, ref.edge) not in edges:
            raise NotAPattern(f'seam "{seam.name}"', reason=f'the piece "{ref.piece}" has no edge "{ref.edge}"')
    for pair in seam.notches:
        for mark in pair:
            if (mark.piece, mark.notch) not in notches:
                raise NotAPattern(f'seam "{seam.name}"', reason=f'there is no notch "{mark.notch}" on "{mark.piece}"')


def finished(pattern: Pattern) -> tuple[Finished, ...]:
    """Every declared measurement as the pieces give it now, in the declared order."""
    return finished_of(pattern.pieces, pattern.measures)


def finished_length(pattern: Pattern, measure: Measure) -> float:
    """What the pieces give for one measurement now, mm."""
    return length_on({piece.name: piece for piece in pattern.pieces}, measure)
