"""A draft as lines for a screen: SVG path data in true millimetres, y down, and nothing of how it is to look.

What lies at (x, y) in a piece is drawn at (x, -y), so that a piece keeps its place from one draft to the next and two
states of it can be drawn one over the other.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from drafting.dataclass import dataclass
from drafting.geometry import Curve, Line, Move, lerp, run_bounds, run_reversed
from drafting.pattern import Piece, Role, laid_together
from drafting.pattern.cutting import cutting_line
from drafting.pattern.locate import place
from drafting.pattern.notches import notch_places
from drafting.pattern.roll_seam import roll_seam
from drafting.pattern.seam_ends import ALONE, Sewn, sewn
from output.api.making import Draft
from output.drawings.drawing import LineKind, Stroke, path
from output.drawings.flat_shape import closed_darts, flat_shape
from output.drawings.garment_picture import garment_views
from output.drawings.path_data import ON_SCREEN, path_data
from output.drawings.piece_drawing import piece_strokes
from output.drawings.piece_notes import cut_note, short_cut_note

__all__ = [
    "LaidEdge",
    "NotchPlace",
    "PieceLines",
    "SeamFrame",
    "SeamFrames",
    "ViewLines",
    "garment_lines",
    "laid_outline",
    "piece_folded",
    "piece_lines",
    "seam_frames",
]

Box = tuple[float, float, float, float]
"""Left, top, width and height, mm, y down."""


@dataclass(frozen=True, slots=True)
class NotchPlace:
    """A notch: where it stands on the sewing line, mm, and the number it shares with what it meets, 0 for none."""

    name: str
    edge: str
    x: float
    y: float
    number: int


@dataclass(frozen=True, slots=True)
class PieceLines:
    """The lines of one piece as path data.

    outline: its outermost line, closed: where it is cut
    lines:   by kind: "cutting line", "sewing line", "fold of cloth", "dart leg", "notch", "grain line", "balance line",
             "marked point", "gathering threads"
    edges:   every edge of the sewing line by name, in the order of the outline
    notches: where they stand
    cut:     how many are cut and how, a line each: "cut 1 on the fold"; cut_short: the same in few words
    box:     around all of it
    """

    name: str
    outline: str
    lines: Mapping[str, str]
    edges: Mapping[str, str]
    notches: tuple[NotchPlace, ...]
    cut: tuple[str, ...]
    cut_short: str
    box: Box


@dataclass(frozen=True, slots=True)
class ViewLines:
    """The garment seen flat from one side, "front" or "back": path data by weight, "strong" and "fine"."""

    side: str
    lines: Mapping[str, str]
    box: Box


@dataclass(frozen=True, slots=True)
class LaidEdge:
    """An edge of a run: its piece, its path, where it begins along the run and how long it is, mm."""

    piece: str
    edge: str
    path: str
    begins: float
    length: float


@dataclass(frozen=True, slots=True)
class SeamFrame:
    """One place of a walk. The matrix (a b c d e f, as SVG writes it) lays the first run's pieces on the second's.

    along_a, along_b: how far along each run, mm
    x, y:             where the two touch, mm, y down
    marks:            the notches that meet there, of the first and the second run; "" for none
    """

    along_a: float
    along_b: float
    matrix: tuple[float, ...]
    x: float
    y: float
    marks: tuple[str, str]


@dataclass(frozen=True, slots=True)
class SeamFrames:
    """A seam walked: the edges of both runs, a matrix for every piece of them, and the places of the walk."""

    seam: str
    a: tuple[LaidEdge, ...]
    b: tuple[LaidEdge, ...]
    laid_a: Mapping[str, tuple[float, ...]]
    laid_b: Mapping[str, tuple[float, ...]]
    frames: tuple[SeamFrame, ...]


def piece_lines(drafted: Draft, name: str, *, after: Draft | None = None) -> PieceLines:
    """One piece as it is cut and sewn. Raises UnknownName for a piece that is not there.

    after: another draft of the garment: a piece that is the same there is not drawn again; what comes out is the same
    """
    piece, own = drafted.pattern.piece(name), sewn(drafted.pattern).get(name, ALONE)

    def drawn() -> PieceLines:
        same = after is not None and piece in after.pattern.pieces and sewn(after.pattern).get(name, ALONE) == own
        return piece_lines(after, name) if after is not None and same else _piece_lines(piece, own)

    return piece.remembered(("on screen", own.key), drawn)


def laid_outline(on: Draft, name: str, other: Draft) -> str:
    """Where a piece is cut in another draft, laid on the piece of this one by the grain line: path data."""
    piece = laid_together((on.pattern.piece(name), other.pattern.piece(name)))[1]
    return path_data(cutting_line(piece, sewn(other.pattern).get(name, ALONE)))


def _piece_lines(piece: Piece, own: Sewn) -> PieceLines:
    """A piece as paths of SVG for a screen, in mm, y down, with its notches and its words."""
    strokes, box = piece_strokes(piece, own)
    border = cutting_line(piece, own)
    notches = tuple(
        NotchPlace(notch.name, notch.station.edge, round(at.x, 3), round(-at.y, 3), own.numbers.get(notch.name, 0))
        for notch in piece.notches
        for marks in [[place(piece, station)[0] for station in notch_places(piece, notch)]]
        for at in [lerp(marks[0], marks[-1], 0.5)]
    )
    return PieceLines(
        piece.name,
        path_data(border),
        _by_kind(strokes),
        {edge.name: path_data(edge.curves) for edge in piece.edges},
        notches,
        cut_note(piece),
        short_cut_note(piece),
        (box.left, -box.top, box.width, box.height),
    )


def _by_kind(strokes: Iterable[Stroke]) -> dict[str, str]:
    lines: dict[str, str] = {}
    for stroke in strokes:
        lines[stroke.kind.value] = lines.get(stroke.kind.value, "") + path_data(stroke.curves)
    return lines


def piece_folded(drafted: Draft, name: str) -> PieceLines:
    """The sewing line of one piece with its darts folded away, as nearly as that lies flat. Raises UnknownName.

    A dart takes cloth out of a plane, so lengths across it are not true: what is measured is measured on `piece_lines`.
    """
    piece = drafted.pattern.piece(name)
    shape, close = flat_shape(piece), closed_darts(piece)
    sewn_darts = [path(*line) for line in shape.darts]
    edges = {edge.name: path(*line) for edge, line in shape.edges}
    outline = path(*shape.outline, shape.outline[0])
    grain: Sequence[Curve] = [Line(close(piece.grain.start), close(piece.grain.end))] if piece.grain else []
    lines = {
        LineKind.SEWING: outline,
        LineKind.DART: [curve for line in sewn_darts for curve in line],
        LineKind.GRAIN: grain,
        LineKind.FOLD: [curve for edge in piece.edges if edge.role is Role.FOLD for curve in edges.get(edge.name, ())],
    }
    left, bottom, right, top = run_bounds(outline)
    return PieceLines(
        name,
        path_data(outline),
        {kind.value: path_data(curves) for kind, curves in lines.items() if curves},
        {edge: path_data(curves) for edge, curves in edges.items()},
        (),
        cut_note(piece),
        short_cut_note(piece),
        (left, -top, right - left, top - bottom),
    )


def garment_lines(drafted: Draft) -> tuple[ViewLines, ...]:
    """The garment as it would look from the front and from the back, drawn from its pieces; fewer where it has none."""
    return tuple(
        ViewLines(
            view.side,
            {
                ("strong" if kind == LineKind.TO_SEW else "fine"): data
                for kind, data in _by_kind(item for item in view.items if isinstance(item, Stroke)).items()
            },
            (view.page.left, -view.page.top, view.page.width, view.page.height),
        )
        for view in garment_views(drafted.pattern)
    )


def seam_frames(drafted: Draft, seam: str) -> SeamFrames:
    """A seam walked: one piece laid on the other, right sides together, and rolled along it. Raises UnknownName."""
    pattern = drafted.pattern
    found = pattern.seam(seam)
    rolled = roll_seam(pattern, found)
    frames = tuple(
        SeamFrame(
            place.along_a, place.along_b, _matrix(place.move), round(place.at.x, 3), round(-place.at.y, 3), place.mark
        )
        for place in rolled.places
    )
    runs = []
    for refs in (found.a, found.b):
        gone, run = 0.0, []
        for ref in refs:
            edge = pattern.piece(ref.piece).edge(ref.edge)
            curves = run_reversed(edge.curves) if ref.backward else edge.curves
            run.append(LaidEdge(ref.piece, ref.edge, path_data(curves), gone, edge.length))
            gone += edge.length
        runs.append(tuple(run))
    laid_a, laid_b = ({each.name: _matrix(each.move) for each in laid} for laid in (rolled.a, rolled.b))
    return SeamFrames(seam, runs[0], runs[1], laid_a, laid_b, frames)


def _matrix(move: Move) -> tuple[float, ...]:
    """A move of places with y up, as the matrix that moves what is drawn with y down."""
    down = ON_SCREEN.then(move).then(ON_SCREEN)
    return tuple(round(each, 6) for each in (down.a, down.c, down.b, down.d, down.e, down.f))
