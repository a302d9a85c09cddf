"""A skirt made of panels: each quarter of it is one panel or several side by side, from the centre to the side seam.

A circle skirt, a gored one, a tier and a pleated one differ in the lines of their panels alone. What is here makes
pieces and seams of any of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from operator import attrgetter
from typing import Final

from blocks.handover import WaistHalf
from drafting.dataclass import dataclass
from drafting.geometry import Curve, Line, Point, Vec, cut_run, mirror, run_length, run_reversed
from drafting.pattern import (
    Across,
    Along,
    BodyPart,
    Cut,
    Edge,
    EdgeRef,
    Grain,
    Half,
    Identity,
    Level,
    MarkLine,
    Notch,
    NotchMark,
    NotchRef,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    closed,
    edges_at,
    line_at,
    move_piece,
    notches_marking,
)
from drafting.pattern.notches import DOUBLE_NOTCH, LEAST_APART, ZIP_NOTCH
from drafting.pattern.piece_parts import NotchStyle
from drafting.pattern.pleats import PLEAT_LEVELS

__all__ = [
    "Panel",
    "Quarter",
    "Run",
    "gore_seams",
    "hip_tape",
    "pieces_of_quarter",
    "side_seams",
    "straight",
    "tier_seam",
    "waist_run",
    "waist_seam",
    "waist_tape",
]

Run = tuple[Curve, ...]

_GIVE: Final = 0.1  # of what is gathered in: the thread is drawn up to what the other side is (ours)
_KINDS: Final = {Half.FRONT: PieceKind.FRONT, Half.BACK: PieceKind.BACK}
_CENTRES: Final = {Half.FRONT: Place.CENTRE_FRONT, Half.BACK: Place.CENTRE_BACK}


@dataclass(frozen=True, slots=True)
class Panel:
    """One panel as it is cut: x across, y up, its edge towards the centre at the left.

    top, bottom:  from the inner edge to the outer one
    inner, outer: from the top down
    hip:          how far down its inner and its outer edge the hip line comes, mm; None where it is not on the panel
    marks, below: notches on its top and on its bottom, each so many mm from its inner end
    """

    top: Run
    outer: Run
    bottom: Run
    inner: Run
    grain: Grain
    lines: tuple[MarkLine, ...] = ()
    hip: tuple[float, float] | None = None
    marks: tuple[tuple[str, float, NotchMark], ...] = ()
    below: tuple[tuple[str, float, NotchMark], ...] = ()


@dataclass(frozen=True, slots=True)
class Quarter:
    """One quarter of a skirt, or of a tier of it.

    panels:  from the centre to the side seam
    waist:   what its top is sewn to
    ratio:   how many times that its top is wide
    on_fold: whether it is cut on the fold at its centre
    opened:  how far down from its top the centre, or with `at_side` the side, is left open, mm
    pleated: whether it is folded in pleats at its top, not gathered
    shown:   the share of its width at the hip that is seen once they are folded
    name:    what its pieces are called, "skirt front"
    tops, bottoms: what its upper and its lower edges are
    """

    half: Half
    panels: tuple[Panel, ...]
    waist: WaistHalf
    ratio: float = 1.0
    on_fold: bool = True
    opened: float = 0.0
    at_side: bool = False
    pleated: bool = False
    shown: float = 1.0
    name: str = ""
    tops: Place = Place.WAIST
    bottoms: Place = Place.HEM

    @property
    def called(self) -> str:
        """What its pieces are called, before the words for where each of them lies."""
        return self.name or f"skirt {self.half}"

    @property
    def names(self) -> tuple[str, ...]:
        """What its pieces are called, from the centre to the side."""
        count = len(self.panels)
        if count == 1:
            return (self.called,)
        between = [f"{self.called}, middle {k}" if count > 3 else f"{self.called}, middle" for k in range(1, count - 1)]
        return f"{self.called}, centre", *between, f"{self.called}, side"

    def flat(self, sewn: float) -> float:
        """How far from the centre a place of its top lies on the cloth, mm, that is so far from it once it is sewn."""
        if not self.pleated:
            return self.ratio * sewn
        begins, at = 0.0, sewn
        for panel in self.panels:
            lines = sorted(begins + line.start.x for line in panel.lines if line.level in PLEAT_LEVELS)
            for start, end in zip(lines[::2], lines[1::2], strict=True):
                at += end - start if at > start else 0.0
            begins += run_length(panel.top)
        return at

    def down(self, *, outer: bool) -> bool:
        """Whether an inner or outer edge is walked backward from its top down."""
        return outer == (self.half is Half.BACK)


def pieces_of_quarter(quarter: Quarter) -> tuple[Piece, ...]:
    """Its pieces from the centre to the side; those of a front are mirrored, so that the centre lies at the right."""
    made = []
    for k, (panel, name) in enumerate(zip(quarter.panels, quarter.names, strict=True)):
        first, last = k == 0, k == len(quarter.panels) - 1
        inner = _centre(quarter, panel) if first else (_gore(k, panel.inner),)
        outer = _side(quarter, panel) if last else (_gore(k + 1, panel.outer),)
        bottom = "hem" if quarter.bottoms is Place.HEM else "lower edge"
        edges = (
            Edge(bottom, panel.bottom, Role.HEM if bottom == "hem" else Role.SEAM, place=quarter.bottoms),
            *(replace(edge, curves=run_reversed(edge.curves)) for edge in reversed(outer)),
            Edge(_top_name(quarter), run_reversed(panel.top), place=quarter.tops),
            *inner,
        )
        whole = first and quarter.on_fold
        piece = Piece(
            name,
            closed(name, edges),
            Cut(1, fold=True) if whole else Cut(2, mirror=True),
            panel.grain,
            (),
            tuple(_notches(quarter, k, inner, outer)),
            panel.lines,
            identity=Identity(_KINDS[quarter.half], BodyPart.SKIRT),
        )
        made.append(piece if quarter.half is Half.BACK else move_piece(piece, mirror(Point(0.0, 0.0), Vec(0.0, 1.0))))
    return tuple(made)


def _top_name(quarter: Quarter) -> str:
    return "waist" if quarter.tops is Place.WAIST else "upper edge"


def _gore(number: int, run: Run) -> Edge:
    return Edge(f"gore seam {number}", run, place=Place.GORE)


def _centre(quarter: Quarter, panel: Panel) -> tuple[Edge, ...]:
    """The edges of the centre from the top down."""
    name, at = f"centre {quarter.half}", _CENTRES[quarter.half]
    if quarter.on_fold:
        return (Edge(name, panel.inner, Role.FOLD, place=at),)
    if not quarter.opened or quarter.at_side:
        return (Edge(f"{name} seam", panel.inner, place=at),)
    if quarter.opened >= run_length(panel.inner):
        return (Edge(f"{name} opening", panel.inner, Role.OPENING, place=at),)
    above, below = cut_run(panel.inner, quarter.opened)
    return (Edge(f"{name} opening", above, Role.OPENING, place=at), Edge(f"{name} seam", below, place=at))


def _side(quarter: Quarter, panel: Panel) -> tuple[Edge, ...]:
    """The edges of the side from the top down."""
    if not quarter.at_side:
        return (Edge("side seam", panel.outer, place=Place.SIDE),)
    above, below = cut_run(panel.outer, quarter.opened)
    return (
        Edge("side seam opening", above, Role.OPENING, place=Place.SIDE),
        Edge("side seam beyond the opening", below, place=Place.SIDE),
    )


def _notches(quarter: Quarter, k: int, inner: Sequence[Edge], outer: Sequence[Edge]) -> Iterator[Notch]:
    """The notches of a panel before it is mirrored. inner, outer: its edges from the top down."""
    panel, style = quarter.panels[k], "single" if quarter.half is Half.FRONT else "double"
    where: NotchStyle = style  # type: ignore[assignment]
    at_centre, at_side = k == 0, k == len(quarter.panels) - 1
    if at_centre and not quarter.on_fold and quarter.opened and not quarter.at_side and len(inner) > 1:
        yield Notch(ZIP_NOTCH, Station(inner[0].name, 0.0, "end"), marks=NotchMark.OPENING_END)
    if at_side and quarter.at_side:
        yield Notch(f"left side {ZIP_NOTCH}", Station(outer[-1].name, 0.0, "end"), marks=NotchMark.OPENING_END)
    if panel.hip is not None:
        if not at_centre:
            yield Notch(f"gore seam {k} hip notch", Station(inner[0].name, panel.hip[0]), where, NotchMark.HIP)
        down = panel.hip[1] - (quarter.opened if at_side and quarter.at_side else 0.0)
        called = f"{quarter.half} hip notch" if at_side else f"gore seam {k + 1} hip notch"
        yield Notch(called, Station(outer[-1].name, down, "end"), where if not at_side else "single", NotchMark.HIP)
    top = _top_name(quarter)
    whole = run_length(panel.top)
    pleated: NotchStyle | None = "single" if quarter.pleated else None
    before = sum(run_length(each.top) for each in quarter.panels[:k])
    balance = quarter.flat(quarter.waist.notch) - before if quarter.tops is Place.WAIST else -1.0
    for name, at, marks in panel.marks:
        # alone, its waist has no notch for a bodice
        free = not quarter.pleated or not quarter.waist.run or abs(at - balance) >= LEAST_APART + DOUBLE_NOTCH
        if free:
            yield Notch(name, Station(top, whole - at), pleated or where, marks)
    for name, at, marks in panel.below:
        on = "hem" if quarter.bottoms is Place.HEM else "lower edge"
        yield Notch(name, Station(on, at), pleated or where, marks)
    if 0.0 < balance <= whole:
        yield Notch(f"{quarter.half} skirt waist notch", Station(top, whole - balance), where, NotchMark.WAIST)


def gore_seams(quarter: Quarter) -> Iterator[Seam]:
    """The seams between its panels, walked from the top down."""
    for k in range(1, len(quarter.panels)):
        one, other, name = quarter.names[k - 1], quarter.names[k], f"gore seam {k}"
        hips = ((NotchRef(one, f"{name} hip notch"), NotchRef(other, f"{name} hip notch")),)
        yield Seam(
            f"{quarter.called.removeprefix('skirt ')} {name}",
            (EdgeRef(one, name, quarter.down(outer=True)),),
            (EdgeRef(other, name, quarter.down(outer=False)),),
            notches=hips if quarter.panels[k].hip is not None else (),
        )


def side_seams(back: Quarter, front: Quarter, pieces: Sequence[Piece], name: str = "skirt side seam") -> Seam:
    """The seam of the sides, walked from the top down."""
    runs, marks = [], []
    named = {piece.name: piece for piece in pieces}
    for quarter in (back, front):
        piece = named[quarter.names[-1]]
        found = edges_at(piece, Place.SIDE)
        down = quarter.down(outer=True)
        runs.append(tuple(EdgeRef(piece.name, edge.name, down) for edge in (reversed(found) if down else found)))
        on_it = {edge.name for edge in found}
        marks.append([NotchRef(piece.name, each.name) for each in piece.notches if each.station.edge in on_it])
    return Seam(name, runs[0], runs[1], notches=tuple(zip(*marks, strict=True)))


def waist_run(quarter: Quarter) -> tuple[EdgeRef, ...]:
    """Its upper edges from the centre to the side."""
    return tuple(EdgeRef(name, _top_name(quarter), quarter.half is Half.BACK) for name in quarter.names)


def waist_seam(quarter: Quarter, pieces: Sequence[Piece]) -> Seam | None:
    """The seam by which its waist is sewn to what was handed over, gathered where it is the wider; None on its own."""
    if not quarter.waist.run:
        return None
    more = (quarter.ratio - 1.0) * quarter.waist.length
    give = 0.0 if quarter.pleated else _GIVE
    ease = SeamEase(more, (1.0 - give) * more, (1.0 + give) * more) if quarter.ratio > 1.0 else SeamEase()
    marks = [
        NotchRef(piece.name, each.name)
        for piece in pieces
        if piece.name in quarter.names
        for each in notches_marking(piece, NotchMark.WAIST)
    ]
    to = quarter.waist.run[0].piece
    pairs = tuple((mark, NotchRef(to, f"{quarter.half} waist notch")) for mark in marks)
    return Seam(f"{quarter.half} waist", waist_run(quarter), quarter.waist.run, ease, pairs)


def tier_seam(below: Quarter, above: Quarter) -> Seam:
    """The seam by which a tier is gathered to the one above it, from the centre to the side."""
    long, short = (sum(run_length(panel.top) for panel in each.panels) for each in (below, above))
    more = long - short
    ease = SeamEase(more, (1.0 - _GIVE) * more, (1.0 + _GIVE) * more)
    a = waist_run(below)
    b = tuple(EdgeRef(name, "lower edge", above.half is Half.FRONT) for name in above.names)
    marks = [
        [NotchRef(name, mark) for panel, name in zip(each.panels, each.names, strict=True) for mark, *_ in found(panel)]
        for each, found in ((below, attrgetter("marks")), (above, attrgetter("below")))
    ]
    return Seam(f"{below.called.removeprefix('skirt ')} to the tier above", a, b, ease, tuple(zip(*marks, strict=True)))


def waist_tape(quarter: Quarter) -> Iterator[Along]:
    """Where the tape lies round its waist once that is drawn up."""
    return (Along(ref.piece, ref.edge, 2.0 / quarter.ratio) for ref in waist_run(quarter))


def hip_tape(quarter: Quarter, pieces: Sequence[Piece]) -> Iterator[Across]:
    """Where the tape lies round its hip once its pleats are folded."""
    for piece in pieces:
        line = line_at(piece, Level.HIP)
        if line is not None and piece.name in quarter.names:
            yield Across(piece.name, line.name, 2.0 * quarter.shown)


def straight(start: Point, end: Point) -> Run:
    """A straight run."""
    return (Line(start, end),)
