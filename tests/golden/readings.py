"""What is read off a garment, in figures that show any change: each line a function, and what it says of every piece,
edge and seam, as `told` tells it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial
from itertools import product
from typing import Final

from drafting.geometry import area, run_length
from drafting.pattern import Dart, Measure, Pattern, Piece, Place, Seam, across, finished
from drafting.pattern.bias import BOUND, DOUBLE, FACED, bias_cloth, bound_shorter, cut_share, strip_share, strip_width
from drafting.pattern.buttons import beside_buttons, button_size, buttonhole
from drafting.pattern.casings import body_at, casing_depth, casings, least_wrist, usual_elastic
from drafting.pattern.cloth_room import across_cloth, cloth_room, widest_room
from drafting.pattern.cutting import cutting_line, dart_roof, is_cut_out, is_upright, mouth_lies, pressed
from drafting.pattern.ease_found import armhole_depth_ease, cap_ease
from drafting.pattern.find import dart_places, half_of, is_front, seam_allowance, seam_places
from drafting.pattern.gathered import beside_threads, held_in, is_drawn_evenly, is_stretched_on, thread_lines
from drafting.pattern.let_down import let_down_by, let_down_edges, tuck_by, usual_allowance
from drafting.pattern.locate import corner_at, dart_angle, dart_mouth, has_sleeve
from drafting.pattern.measure import hangs_from
from drafting.pattern.neck_band import band_of_block, band_rest, neck_band
from drafting.pattern.notches import notch_ends, notch_numbers, notch_places
from drafting.pattern.pleats import is_pleated, pleats_of
from drafting.pattern.pockets import (
    above_hem,
    edge_past_pocket,
    is_patch,
    marked_for_pockets,
    pockets,
    sewn_behind,
)
from drafting.pattern.roll_seam import roll_seam
from drafting.pattern.seam_ends import seam_ends, sewn, sewn_piece
from drafting.pattern.text import seams_json
from drafting.pattern.unfinished import has_inner_layer, is_facing, needs_no_seam, parts_covered, unfinished_edges
from drafting.pattern.walk import walk
from drafting.sewing import cautions, sewing_order, supplies
from tests.golden.told import told

__all__ = ["bindings_digest", "readings_digest"]

_ELASTIC_AT: Final = (Place.WAIST, Place.NECK, Place.LEG_OPENING, Place.WRIST)
_WIDTHS: Final = ((8.0, 6.0, 1.0), (12.0, 10.0, 2.0))
_BIAS: Final = tuple(product((300.0, 620.0), (6.0, 12.0), (0.0, 2.0)))
"""The length of an edge, the width of its binding, and how far the edge turns."""

Asked = Iterable[Callable[[], object]]


def readings_digest(pattern: Pattern) -> str:
    """The page of one garment."""
    questions = _of_the_whole(pattern) | _of_pieces(pattern) | _of_seams(pattern)
    return "\n".join([pattern.title, *(f"{name}: {told(asked)}" for name, asked in questions.items())]) + "\n"


def bindings_digest() -> str:
    """The page of strips cut on the bias, bands and casings, which are drawn from numbers."""
    styles = [(style, width, seam, wrap) for style in (BOUND, DOUBLE, FACED) for width, seam, wrap in _WIDTHS]
    questions: dict[str, Asked] = {
        "bound shorter": [partial(bound_shorter, width, turning) for _, width, turning in _BIAS],
        "share of the strip": [partial(strip_share, *each) for each in _BIAS],
        "share that is cut": [partial(cut_share, *each) for each in _BIAS],
        "width of the strip": [partial(strip_width, *each) for each in styles],
        "cloth for it": [partial(bias_cloth, *each[:2]) for each in _BIAS],
        "band at rest": [partial(band_rest, *each) for each in _BIAS],
        "wrist, casing": [partial(least_wrist, 160.0), partial(casing_depth, 20.0, 7.0)],
    }
    return "\n".join(f"{name}: {told(asked)}" for name, asked in questions.items()) + "\n"


def _of_the_whole(pattern: Pattern) -> dict[str, Asked]:
    elastic = list(casings(pattern))
    steps = sewing_order(pattern, knit=pattern.stretch > 0.0)
    return {
        "sewing order": [partial(tuple, steps)],
        "supplies": [partial(supplies, pattern, steps)],
        "cautions": [partial(cautions, pattern)],
        "casings": [partial(tuple, elastic)],
        "room on the cloth": [partial(cloth_room, pattern), partial(widest_room, pattern.cloth_width)],
        "ease found": [partial(cap_ease, pattern), partial(armhole_depth_ease, pattern)],
        "held in": [lambda: [(each, thread_lines(each), beside_threads(each)) for each in held_in(pattern)]],
        "let down": [partial(let_down_by, pattern, each) for each in pattern.measures],
        "measured": [partial(finished, pattern), *(partial(_hangs, pattern, each) for each in pattern.measures)],
        "neck band": [partial(band_of_block, pattern), partial(neck_band, pattern)],
        "notch numbers": [partial(notch_numbers, pattern.seams)],
        "pockets": [
            lambda: [
                (each, is_patch(each), marked_for_pockets(pattern, each), sewn_behind(pattern, each))
                for each in pockets(pattern)
            ]
        ],
        "sewn": [partial(sewn, pattern), partial(seam_ends, pattern)],
        "derived, as text": [partial(seams_json, pattern)],
        "unfinished": [partial(unfinished_edges, pattern), partial(parts_covered, pattern)],
    }


def _of_pieces(pattern: Pattern) -> dict[str, Asked]:
    pieces = pattern.pieces
    edges = [(piece, edge) for piece in pieces for edge in piece.edges]
    darts = [(piece, dart) for piece in pieces for dart in piece.darts]
    parts = parts_covered(pattern)
    return {
        "cut": [partial(_cut, pattern, piece) for piece in pieces],
        "across the cloth": [partial(across_cloth, piece, enough) for piece in pieces for enough in (0.0, 300.0)],
        "buttons": [partial(_buttons, piece) for piece in pieces],
        "what a piece is": [
            lambda p=piece: (is_front(p), has_sleeve(p), is_pleated(p), is_facing(p), has_inner_layer(p), tuck_by(p))
            for piece in pieces
        ],
        "allowances": [partial(seam_allowance, piece) for piece in pieces]
        + [partial(usual_allowance, *each) for each in edges],
        "goes on past a pocket": [
            partial(edge_past_pocket, pattern, piece, edge, onward=onward)
            for piece, edge in edges
            for onward in (True, False)
        ],
        "edges": [
            lambda p=p, e=e: (half_of(p, e), needs_no_seam(e, p, parts), above_hem(e.curves, p)) for p, e in edges
        ],
        "let down edges": [partial(let_down_edges, piece) for piece in pieces],
        "corners": [partial(corner_at, piece, k) for piece in pieces for k in range(len(piece.edges))],
        "darts": [partial(_dart, *each) for each in darts],
        "widths": [partial(across, piece, line.name) for piece in pieces for line in piece.lines],
        "notches": [partial(_notches, pattern, piece) for piece in pieces],
        "pleats": [partial(pleats_of, piece) for piece in pieces],
        "the body at": [lambda p=p, at=at: _body(pattern, p, at) for p in pieces for at in _ELASTIC_AT],
    }


def _of_seams(pattern: Pattern) -> dict[str, Asked]:
    return {
        "walked": [partial(walk, pattern, seam) for seam in pattern.seams],
        "seam places": [partial(seam_places, pattern, seam) for seam in pattern.seams],
        "drawn evenly": [partial(_drawn, pattern, seam) for seam in pattern.seams],
        "rolled": [partial(roll_seam, pattern, seam, step=40.0) for seam in pattern.seams],
    }


def _cut(pattern: Pattern, piece: Piece) -> object:
    line = cutting_line(piece, sewn_piece(pattern, piece.name))
    return run_length(line), area(line), len(line)


def _buttons(piece: Piece) -> object:
    return button_size(piece), beside_buttons(piece), [buttonhole(piece, mark) for mark in piece.points]


def _body(pattern: Pattern, piece: Piece, place: Place) -> object:
    body = body_at(pattern, place, piece)
    return body, usual_elastic(pattern, place, body)


def _dart(piece: Piece, dart: Dart) -> object:
    shape = dart_roof(piece, dart), dart_angle(piece, dart), dart_mouth(piece, dart), dart_places(piece, dart)
    return shape, pressed(piece, dart), is_cut_out(piece, dart), mouth_lies(piece, dart), is_upright(piece, dart)


def _notches(pattern: Pattern, piece: Piece) -> object:
    line = cutting_line(piece, sewn_piece(pattern, piece.name))
    return [(notch_places(piece, each), notch_ends(piece, each, line)) for each in piece.notches]


def _hangs(pattern: Pattern, measure: Measure) -> object:
    return hangs_from({piece.name: piece for piece in pattern.pieces}, measure)


def _drawn(pattern: Pattern, seam: Seam) -> object:
    return is_stretched_on(pattern, seam), is_drawn_evenly(pattern, seam)
