"""Pieces, seams and patterns: the values everything else works on."""

from drafting.pattern.dart_size import STEEPEST_DART, WIDEST_WAIST_DART, widest_waist_dart
from drafting.pattern.locate import across, dart_angle, dart_mouth, dart_width, from_start, place, ref_curves, ref_edge
from drafting.pattern.measure import (
    Across,
    Along,
    Bent,
    Between,
    Curved,
    Finished,
    Measure,
    Tape,
)
from drafting.pattern.nest import Nest, Sized, laid_together
from drafting.pattern.pattern import BodyLength, Origin, Pattern, Step, Wearer, finished, finished_length, with_pieces
from drafting.pattern.piece import Piece, closed, move_piece, with_edges
from drafting.pattern.piece_parts import Cut, Dart, Edge, Grain, MarkLine, MarkPoint, Notch, Role, Station
from drafting.pattern.seam import MOST_EASED, PLAIN, EdgeRef, NotchRef, Seam, SeamEase
from drafting.pattern.walk import DrawnUp, Walked, WalkedNotch, notch_distance, run_total, walk

__all__ = [
    "MOST_EASED",
    "PLAIN",
    "STEEPEST_DART",
    "WIDEST_WAIST_DART",
    "Across",
    "Along",
    "Bent",
    "Between",
    "BodyLength",
    "Curved",
    "Cut",
    "Dart",
    "DrawnUp",
    "Edge",
    "EdgeRef",
    "Finished",
    "Grain",
    "MarkLine",
    "MarkPoint",
    "Measure",
    "Nest",
    "Notch",
    "NotchRef",
    "Origin",
    "Pattern",
    "Piece",
    "Role",
    "Seam",
    "SeamEase",
    "Sized",
    "Station",
    "Step",
    "Tape",
    "Walked",
    "WalkedNotch",
    "Wearer",
    "across",
    "closed",
    "dart_angle",
    "dart_mouth",
    "dart_width",
    "finished",
    "finished_length",
    "from_start",
    "laid_together",
    "move_piece",
    "notch_distance",
    "place",
    "ref_curves",
    "ref_edge",
    "run_total",
    "walk",
    "widest_waist_dart",
    "with_edges",
    "with_pieces",
]
