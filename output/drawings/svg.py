"""Drawings as SVG 1.1 in true millimetres: one user unit is one millimetre on paper, and there is no other scale.

Kinds of line are told apart by weight and dash (`LINE_STYLES`), in black, so that any printer shows them. Every path
carries the name of its kind as its class. The same drawing gives the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from xml.etree.ElementTree import Element, SubElement, tostring

from drafting.geometry import Curve, Move, Point, Vec, run_bounds, shift
from drafting.pattern import Pattern, Piece
from drafting.pattern.seam_ends import ALONE, Sewn, sewn_piece
from output.drawings.drawing import (
    LINE_STYLES,
    Box,
    Item,
    LineKind,
    Stroke,
    Text,
    number_text,
    printable,
    upside_down,
)
from output.drawings.named_lines import NamedLine, named_lines, xml_ids
from output.drawings.path_data import path_data
from output.drawings.piece_drawing import Heading, piece_lines, piece_strokes, with_notes
from output.drawings.piece_notes import piece_words
from output.drawings.scale_proof import check_length

__all__ = ["drawing_svg", "overlay_picture", "overlay_strokes", "piece_picture", "piece_svg"]

_AROUND = 10.0
_PIECE_CHECK = 100.0
_FONT = "sans-serif"
_SVG = "http://www.w3.org/2000/svg"


def piece_svg(piece: Piece, pattern: Pattern, *, dated: str = "", unit: str = "cm") -> str:
    """One whole piece of a pattern with 10 mm around it, and a length of 10 cm or 4 in below it to measure.

    Each of its edges, darts, notches and marks is an element with a name.
    """
    sewn = sewn_piece(pattern, piece.name)
    lines = piece_lines(piece, sewn)
    heading = Heading(pattern.title, pattern.wearer.name, dated, unit)
    drawn = with_notes(lines, piece, heading, piece_words(piece, pattern, unit))
    box = drawn.box
    middle = Point(box.left + 0.5 * max(box.width, _PIECE_CHECK), box.bottom - _AROUND)
    proof = check_length(middle, upright=False, length=_PIECE_CHECK, unit=unit)
    page = Box(box.left, box.bottom - _AROUND, max(box.right, box.left + _PIECE_CHECK), box.top).grown(_AROUND)
    return drawing_svg((*drawn.items, *proof), page, f"{pattern.title}: {piece.name}", named=named_lines(piece, sewn))


def piece_picture(piece: Piece, sewn: Sewn = ALONE) -> str:
    """The lines of one piece without any writing, for a page that shows it smaller than it is.

    sewn: what it is sewn to, by which its allowances end
    """
    strokes, box = piece_strokes(piece, sewn)
    return drawing_svg(strokes, box.grown(_AROUND), piece.name)


def overlay_picture(before: Piece | None, after: Piece | None) -> str:
    """The sewing lines of a piece as they were, in a light line, and over them as they are; None for what is not there.

    Both lie where they were drawn, so that what did not move lies line on line.
    """
    strokes, box = overlay_strokes(before, after)
    shown = after or before
    return drawing_svg(strokes, box.grown(_AROUND), shown.name if shown is not None else "")


def overlay_strokes(before: Piece | None, after: Piece | None) -> tuple[tuple[Stroke, ...], Box]:
    """The lines of `overlay_picture`, and the box around them."""
    strokes = [
        Stroke(kind, tuple(curve for edge in piece.edges for curve in edge.curves))
        for kind, piece in ((LineKind.BEFORE, before), (LineKind.AFTER, after))
        if piece is not None
    ]
    shown = after or before
    if shown is not None:
        strokes += [Stroke(LineKind.BALANCE, line.drawn) for line in shown.lines]
    left, bottom, right, top = zip(*(run_bounds(stroke.curves) for stroke in strokes), strict=True)
    return tuple(strokes), Box(min(left), min(bottom), max(right), max(top))


def drawing_svg(
    items: Iterable[Item],
    page: Box,
    title: str,
    *,
    clip: Box | None = None,
    enlarged: float = 1.0,
    named: Sequence[NamedLine] = (),
) -> str:
    """A drawing as a page of SVG with a title; writing is clipped to `clip`, where that is given.

    named:    lines that are written one by one with their names; other strokes of their kinds are left out
    enlarged: how much heavier lines are drawn than on paper, in a picture that is shown smaller than it is
    """
    to_page = shift(Vec(-page.left, -page.bottom)).then(upside_down(page.height))
    width, height = number_text(page.width), number_text(page.height)
    size = {"height": f"{height}mm", "width": f"{width}mm", "viewBox": f"0 0 {width} {height}"}
    drawing = Element("svg", {"xmlns": _SVG, "version": "1.1", "baseProfile": "full", **size})
    SubElement(drawing, "title").text = printable(title)
    strokes: dict[LineKind, list[Curve]] = {}
    texts = []
    for item in items:
        if isinstance(item, Stroke):
            strokes.setdefault(item.kind, []).extend(item.curves)
        else:
            texts.append(item)
    look = {"fill": "black", "font-family": _FONT}
    if clip is not None:
        area = SubElement(SubElement(drawing, "defs"), "clipPath", {"id": "printable"})
        corner = to_page.point(Point(clip.left, clip.top))
        place = {"x": number_text(corner.x), "y": number_text(corner.y)}
        SubElement(area, "rect", {**place, "width": number_text(clip.width), "height": number_text(clip.height)})
        look["clip-path"] = "url(#printable)"
    lines = SubElement(drawing, "g", {"fill": "none", "stroke": "black", "stroke-linejoin": "round"})
    by_name = {line.kind for line in named}
    for kind in LineKind:
        if kind in strokes and kind not in by_name:
            SubElement(lines, "path", _path(kind, strokes[kind], to_page, enlarged))
    for line, id_ in zip(named, xml_ids(line.name for line in named), strict=True):
        look_of = _path(line.kind, line.curves, to_page, enlarged) if line.kind else _hidden(line.curves, to_page)
        SubElement(SubElement(lines, "path", {"id": id_, **look_of}), "title").text = printable(line.name)
    words = SubElement(drawing, "g", look)
    for text in texts:
        SubElement(words, "text", _placed(text, to_page)).text = printable(text.words)
    return tostring(drawing, "unicode") + "\n"


def _path(kind: LineKind, curves: Iterable[Curve], to_page: Move, enlarged: float) -> dict[str, str]:
    """The attributes of a path: its data, and how its kind of line looks."""
    style = LINE_STYLES[kind]
    path = {
        "class": kind.replace(" ", "-"),
        "d": path_data(curves, to_page),
        "stroke-width": number_text(enlarged * style.weight),
    }
    if style.dash:
        path["stroke-dasharray"] = " ".join(number_text(enlarged * part) for part in style.dash)
    return path


def _hidden(curves: Iterable[Curve], to_page: Move) -> dict[str, str]:
    """The attributes of an edge that lies under another line: there to be picked and measured, not drawn."""
    return {"class": "edge", "d": path_data(curves, to_page), "stroke": "none"}


def _placed(text: Text, to_page: Move) -> dict[str, str]:
    """The attributes of a text: where it stands, its size in mm, how it is turned."""
    at = to_page.point(text.at)
    x, y = number_text(at.x), number_text(at.y)
    placed = {"x": x, "y": y, "font-size": number_text(text.size)}
    if text.anchor != "start":
        placed["text-anchor"] = text.anchor
    if text.bold:
        placed["font-weight"] = "bold"
    if text.angle:
        placed["transform"] = f"rotate({number_text(-text.angle)} {x} {y})"
    return placed
