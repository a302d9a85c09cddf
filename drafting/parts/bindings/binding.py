r"""A bias strip for an edge: a binding folded over it in four, one of two layers, or a facing turned to the inside.

A bound edge is cut where the garment ends, with no allowance: the binding is sewn its own width inside it, wraps the
raw edge, which fills it, and ends there (common practice). A facing takes the allowance with it to the inside.

    +--------------+--------------+--------------+--------------+   turned under
     right back     right front    left front     left back         sewn to the edge
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.parts.bands.band_edge import Stretch, edges_long, on_side
from drafting.parts.bindings.bias_piece import END_SEAM, bias_piece
from drafting.parts.drawn import Draw, Drawn
from drafting.parts.edge_runs import EdgeRun, RunPart, edge_run
from drafting.pattern import (
    PLAIN,
    BodyPart,
    Derived,
    EdgeAs,
    EdgeRef,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    edges_at,
    free_name,
    free_piece_name,
    from_start,
)
from drafting.pattern.bias import FACED, strip_share, strip_width

__all__ = ["draw_binding"]

_SEAM: Final = 6.0  # mm: what is sewn in of a facing, and of the ends of every strip (common practice)
_SEWS: Final = 0.01  # of an edge by which a strip may be longer or shorter than said (ours)
_PLAIN: Final = 1e-6  # mm
_OVER_SHOULDER: Final = (Place.NECK, Place.ARMHOLE)


@dataclass(frozen=True, slots=True)
class _Laid:
    """A stretch of the strip, and what of the edge it is sewn to; side: "right", "left", "" round an armhole."""

    stretch: Stretch
    part: RunPart
    side: str = ""

    def on(self, side: str, *, turned: bool) -> _Laid:
        stretch = self.stretch.turned_round() if turned else self.stretch
        return _Laid(on_side(side, stretch), self.part, side)


def draw_binding(name: str, place: Place, *parts: BodyPart) -> Draw:
    """How the strip for the edge at a place is drawn, of the first of these parts of the garment that has such an edge.

    Its options: style, width when it is finished, wrap, mm.
    """

    def draw(pattern: Pattern, derived: Derived) -> Drawn:
        having = (part for part in parts if any(p.identity.part is part and edges_at(p, place) for p in pattern.pieces))
        part = next(having, parts[0])
        return _binding_drawn(pattern, derived, name, edge_run(pattern, name, place, part), place)

    return draw


def _binding_drawn(pattern: Pattern, derived: Derived, name: str, run: EdgeRun, place: Place) -> Drawn:
    """The bias strip along a run of edges, its seams, the marks they need, and how the edges change for it."""
    refs = [each.ref for part in run.parts for each in part.edges]
    _accept_free(pattern, name, refs)
    width, style = derived.length("width"), str(dict(derived.options)["style"])
    seam = _SEAM if style == FACED else width
    turning = sum(part.turning for part in run.parts)
    share = 1.0 if style == FACED else strip_share(run.length, width, turning)
    laid = _stretches(pattern, run, share)
    stretches = [each.stretch for each in laid]
    deep = strip_width(style, width, _SEAM, derived.length_or("wrap", 0.0)) - 2.0 * seam
    called = free_piece_name(pattern, name)
    notches = list(_joint_notches(pattern, laid, Place.SHOULDER if place in _OVER_SHOULDER else Place.SIDE))
    joints = tuple(notches)
    seams, marks = [], []
    for one in laid:
        stretch = one.stretch
        more = (1.0 - share) * stretch.length
        give = _SEWS * stretch.length if abs(more) > _PLAIN else 0.0
        notched = list(_balance_pairs(pattern, one, share))
        notches += [met for _, met in notched]
        pairs = [(NotchRef(on, mark), NotchRef(called, met.name)) for (on, mark), met in notched]
        for notch in (each for each in joints if each.station.edge == stretch.name):
            if notch.marks is NotchMark.CENTRE and (mark := _centre_mark(pattern, stretch.refs[-1], place)):
                marks.append(mark)
                pairs.append((NotchRef(mark[0], mark[1].name), NotchRef(called, notch.name)))
        ease = SeamEase(more, more - give, more + give) if give else PLAIN
        sewn = (EdgeRef(called, stretch.name),)
        seams.append(Seam(f"{called} to {stretch.name}", stretch.refs, sewn, ease, tuple(pairs)))
    ring = not run.halved or run.start.role is not Role.OPENING
    beside = run.end if ring else run.start  # where the strip begins and ends
    strip = bias_piece(
        called, stretches, deep, (seam, max(END_SEAM, beside.allowance)), 1 if run.halved else 2, notches
    )
    changed = tuple(EdgeAs(ref.piece, ref.edge, Role.SEAM, seam if style == FACED else 0.0) for ref in refs)
    return Drawn((strip,), tuple(seams), tuple(marks), changed)


def _accept_free(pattern: Pattern, name: str, refs: Sequence[EdgeRef]) -> None:
    """Raise NotAPattern where one of these edges is sewn to something."""
    sewn = {(ref.piece, ref.edge) for seam in pattern.seams for ref in (*seam.a, *seam.b)}
    for ref in refs:
        if (ref.piece, ref.edge) in sewn:
            raise NotAPattern(name, reason=f'the "{ref.edge}" of "{ref.piece}" is sewn to something else')


def _stretches(pattern: Pattern, run: EdgeRun, share: float) -> list[_Laid]:
    """The stretches of the strip from its beginning to its end; a whole ring is joined at the centre back."""
    there = []
    for part in run.parts:
        refs = tuple(each.ref for each in part.edges)
        long = edges_long(pattern, refs)
        there.append(_Laid(Stretch(part.name, refs, long, share * long), part))
    if not run.halved:
        return there
    right = [each.on("right", turned=True) for each in reversed(there)]
    left = [each.on("left", turned=False) for each in there]
    opens = run.start.place is not Place.CENTRE_FRONT or run.start.role is Role.OPENING
    return [*left, *right] if opens else [*right, *left]


def _joint_notches(pattern: Pattern, stretches: Sequence[_Laid], seam: Place) -> Iterator[Notch]:
    """A notch on the strip at each place where the garment has a seam or a centre."""
    named: list[str] = []
    for one, other in pairwise(stretches):
        station = Station(one.stretch.name, 0.0, "end")
        if one.part is other.part:
            half = pattern.piece(one.stretch.refs[-1].piece).identity.half
            yield Notch(f"centre {half}", station, marks=NotchMark.CENTRE)
        else:
            where = free_name(f"{one.side} {seam}" if one.side else f"{seam}", named)
            named.append(where)
            yield Notch(where, station, marks=NotchMark.SHOULDER if seam is Place.SHOULDER else NotchMark.SIDE)


def _balance_pairs(pattern: Pattern, one: _Laid, share: float) -> Iterator[tuple[tuple[str, str], Notch]]:
    """The balance notches of a stretch of the garment, each with that of the strip that meets it."""
    gone = 0.0
    for ref in one.stretch.refs:
        piece = pattern.piece(ref.piece)
        edge = piece.edge(ref.edge)
        for notch in piece.notches:
            if notch.station.edge == ref.edge and notch.marks is NotchMark.BALANCE:
                at = from_start(edge, notch.station)
                along = gone + (edge.length - at if ref.backward else at)
                name = f"{one.side} {notch.name}".strip()
                met = Notch(name, Station(one.stretch.name, share * along), marks=notch.marks)
                yield (piece.name, notch.name), met
        gone += edge.length


def _centre_mark(pattern: Pattern, ref: EdgeRef, place: Place) -> tuple[str, Notch] | None:
    """The notch at the end of an edge that lies on the fold; None at a seam, which needs none, and at a point."""
    piece = pattern.piece(ref.piece)
    before, after = piece.beside(ref.edge)
    beside = before if ref.backward else after
    if beside.role is not Role.FOLD or any({*pair} == {beside.name, ref.edge} for pair in piece.points_meant):
        return None
    name = f"centre {piece.identity.half} of the {place}"
    return piece.name, Notch(name, Station(ref.edge, 0.0, "start" if ref.backward else "end"), marks=NotchMark.CENTRE)
