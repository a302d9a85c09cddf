"""A sleeve as it is set into its armhole: how it is found on a pattern, and its notches moved to meet the armhole's."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Final

from drafting.alterations.alteration import Promise, find_piece
from drafting.alterations.earlier_steps import cut_above
from drafting.alterations.promises import lengths_kept, straight_kept
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Point, moved_all, run_bounds, run_hits, run_reversed, turn
from drafting.geometry.cap import Cap
from drafting.geometry.outline import starting_at
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import (
    Edge,
    Half,
    MarkLine,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Seam,
    edges_at,
    move_piece,
    notch_distance,
    pieces_of,
    run_total,
    with_pieces,
)

__all__ = [
    "SLEEVE",
    "SetIn",
    "SleeveEdges",
    "below_kept",
    "biceps_line",
    "biceps_width",
    "cap_height",
    "cap_on",
    "find_set_in",
    "is_set_in",
    "levelled",
    "set_in",
    "sleeve_edges",
    "with_sleeve_level",
]

SLEEVE: Final = str(PieceKind.SLEEVE)
"""The word by which an option means the sleeve of the garment, whatever it is called."""

_EDGES: Final = {
    "cap back": (Place.CAP, Half.BACK),
    "cap front": (Place.CAP, Half.FRONT),
    "underarm seam, back": (Place.UNDERARM, Half.BACK),
    "underarm seam, front": (Place.UNDERARM, Half.FRONT),
}

_CLEAR: Final = 1.0  # mm by which a biceps line stays clear of a cap that dips below its ends


@dataclass(frozen=True, slots=True)
class SleeveEdges:
    """The four edges of a set-in sleeve beside its lower end."""

    cap_back: Edge
    cap_front: Edge
    under_back: Edge
    under_front: Edge

    @property
    def names(self) -> tuple[str, ...]:
        """What the four are called."""
        return (self.cap_back.name, self.cap_front.name, self.under_back.name, self.under_front.name)


@dataclass(frozen=True, slots=True)
class SetIn:
    """A sleeve, its cap, and the two seams it is set in by; lengths of the armhole, mm.

    front, back: the seams, the cap as their first run
    """

    piece: Piece
    edges: SleeveEdges
    cap: Cap
    front: Seam
    back: Seam
    front_hole: float
    back_hole: float

    def with_piece(self, other: Piece) -> SetIn:
        """Another sleeve of the same name in its place. Raises NotAPattern for one without a cap."""
        return replace(self, piece=other, edges=sleeve_edges(other), cap=cap_on(other))

    def described(self) -> str:
        """The lengths of cap and armhole as a sentence."""
        front, back = self.edges.cap_front.length / 10, self.edges.cap_back.length / 10
        hole = f"{self.front_hole / 10:.1f} and {self.back_hole / 10:.1f} cm"
        return (
            f"The cap of the {self.piece.name} is {front:.1f} cm long in front and {back:.1f} cm behind, "
            f"the armhole {hole}"
        )


def find_set_in(step: str, pattern: Pattern, name: str) -> SetIn:
    """The sleeve of that name as it is set in; the word "sleeve" means the only sleeve there is.

    Raises StepRefused where it has no cap or goes into no armhole.
    """
    sleeves = pieces_of(pattern, PieceKind.SLEEVE)
    piece = sleeves[0] if name == SLEEVE and len(sleeves) == 1 else find_piece(step, pattern, name)
    try:
        edges, cap = sleeve_edges(piece), cap_on(piece)
    except NotAPattern as error:
        raise StepRefused(step, reason=str(error)) from error
    seams = {seam.a[0].edge: seam for seam in pattern.seams if len(seam.a) == 1 and seam.a[0].piece == piece.name}
    front, back = (seams.get(edge.name) for edge in (edges.cap_front, edges.cap_back))
    if front is None or back is None:
        raise StepRefused(step, reason=f'"{piece.name}" is sewn into no armhole{cut_above(pattern)}')
    return SetIn(piece, edges, cap, front, back, run_total(pattern, front.b), run_total(pattern, back.b))


def sleeve_edges(piece: Piece) -> SleeveEdges:
    """The four edges of a set-in sleeve. Raises NotAPattern where one is missing, or is not in one piece."""
    found = [edges_at(piece, place, half=half) for place, half in _EDGES.values()]
    missing = ", ".join(f'"{words}"' for words, edges in zip(_EDGES, found, strict=True) if len(edges) != 1)
    if missing:
        raise NotAPattern(piece.name, reason=f"it is no set-in sleeve in one piece: it has no edge {missing}")
    return SleeveEdges(*(edge for (edge,) in found))


def is_set_in(piece: Piece) -> bool:
    """Whether a piece has a cap, front and back."""
    return all(edges_at(piece, Place.CAP, half=half) for half in Half)


def cap_on(piece: Piece) -> Cap:
    """The cap of a sleeve piece, its two underarm ends laid level. Raises NotAPattern where it has none."""
    edges = sleeve_edges(piece)
    back, front = run_reversed(edges.cap_back.curves), edges.cap_front.curves
    across = front[0].start - back[0].start
    if across.y == 0.0:
        return Cap(back, front)
    level = turn(back[0].start, -across.angle())
    cap = Cap(moved_all(back, level), moved_all(front, level))
    return Cap(cap.back, (starting_at(cap.front[0], Point(cap.front[0].start.x, cap.origin.y)), *cap.front[1:]))


def biceps_width(piece: str, pattern: Pattern) -> float:
    """The width of a sleeve at its biceps line, mm: what a promise is measured by. Raises as `cap_on` does."""
    return cap_on(pattern.piece(piece)).width


def cap_height(piece: str, pattern: Pattern) -> float:
    """The height of the cap of a sleeve, mm: the same for a promise about that."""
    return cap_on(pattern.piece(piece)).height


def levelled(piece: Piece, change: Callable[[Piece], Piece]) -> Piece:
    """The sleeve changed while it lies with its two underarm ends level, and turned back."""
    edges = sleeve_edges(piece)
    about, tilt = edges.cap_back.end, (edges.cap_front.start - edges.cap_back.end).angle()
    if tilt == 0.0:
        return change(piece)
    return move_piece(change(move_piece(piece, turn(about, -tilt))), turn(about, tilt))


def with_sleeve_level(
    step: str, pattern: Pattern, change: Callable[[Pattern, SetIn], Pattern], name: str = SLEEVE
) -> Pattern:
    """The pattern changed while its set-in sleeve lies with both underarm ends level, and that turned back.

    Raises as `find_set_in` does.
    """
    sleeve = find_set_in(step, pattern, name)
    about, tilt = sleeve.edges.cap_back.end, (sleeve.edges.cap_front.start - sleeve.edges.cap_back.end).angle()
    if tilt == 0.0:
        return change(pattern, sleeve)
    level = with_pieces(pattern, move_piece(sleeve.piece, turn(about, -tilt)))
    changed = change(level, find_set_in(step, level, sleeve.piece.name))
    return with_pieces(changed, move_piece(changed.piece(sleeve.piece.name), turn(about, tilt)))


def biceps_line(piece: Piece, mark: MarkLine) -> MarkLine:
    """The biceps line of a sleeve: from underarm to underarm, or just below a cap that dips lower than these."""
    cap, edges = cap_on(piece), sleeve_edges(piece)
    start, end = edges.cap_back.end, edges.cap_front.start
    lowest = run_bounds((*cap.back, *cap.front))[1]
    if lowest > cap.origin.y - SAME_PLACE:
        return mark.straight(start, end)
    across = (end - start).unit()
    through = start + across.left() * (lowest - _CLEAR - cap.origin.y)
    hits = [run_hits(edge.curves, through, across) for edge in (edges.under_back, edges.under_front)]
    if not all(hits):
        raise NotAPattern(piece.name, reason="its cap would dip below its underarm seams")
    return mark.straight(*(first[0][1].point for first in hits))


def below_kept(pattern: Pattern, sleeve: Piece) -> Iterator[Promise]:
    """What a new cap leaves alone: every edge but the cap and the underarm seams, and the straight lengths."""
    redrawn = sleeve_edges(sleeve).names
    yield from lengths_kept(sleeve, (edge.name for edge in sleeve.edges if edge.name not in redrawn))
    yield from straight_kept(pattern, sleeve.name)


def set_in(pattern: Pattern, sleeve: Piece) -> Pattern:
    """The pattern with this sleeve in place of the one of its name, its cap notches where those of the armhole are.

    The first notch from the underarm is met from there, any other from the crown.
    """
    pattern, edges = with_pieces(pattern, sleeve), sleeve_edges(sleeve)
    caps = (edges.cap_front.name, edges.cap_back.name)
    for seam in pattern.seams:
        if seam.a[0].piece == sleeve.name and seam.a[0].edge in caps:
            pattern = _with_notches_met(pattern, seam)
    return pattern


def _with_notches_met(pattern: Pattern, seam: Seam) -> Pattern:
    """The pattern with the notches of a cap where those of the armhole meet them; the spare length lies between."""
    (ref,) = seam.a
    piece = pattern.piece(ref.piece)
    edge = piece.edge(ref.edge)
    spare = edge.length - run_total(pattern, seam.b)
    partners = [(notch_distance(pattern, seam.b, other), mark.notch) for mark, other in seam.notches]
    moved = {}
    for count, (met, name) in enumerate(sorted((at, name) for at, name in partners if at is not None)):
        along = met if count == 0 else met + spare
        notch = piece.notch(name)
        from_start = edge.length - along if ref.backward else along
        at = from_start if notch.station.end == "start" else edge.length - from_start
        moved[name] = replace(notch, station=replace(notch.station, edge=edge.name, at=at))
    notches = tuple(moved.get(notch.name, notch) for notch in piece.notches)
    return with_pieces(pattern, replace(piece, notches=notches))
