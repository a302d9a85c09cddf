"""Every figure of the alterations of bodice, sleeve and trousers, their darts and techniques, typed here anew."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

__all__ = ["FIGURES"]

FIGURES: Final[Mapping[str, Mapping[str, tuple[object, str]]]] = {
    "drafting.alterations.alteration": {
        "_ROUNDED_AWAY": (1.6, "ours"),
    },
    "drafting.alterations.alteration_table": {
        "_LITTLE": (3, "ours"),
    },
    "drafting.alterations.bodice.armhole_moved": {
        "_ROOM": (10.0, "ours"),
        "_ON_SEAM": (0.001, "ours"),
    },
    "drafting.alterations.bodice.back": {
        "_ROUNDS": (4, "ours"),
        "_LEAST_MOUTH": (4.0, "ours"),
        "_BLADE": ((0.35, 0.65), "common practice: about halfway"),
        "_MOST_LEAN": (math.radians(45.0), "ours"),
    },
    "drafting.alterations.bodice.bust_marks": {
        "_RUNS_ON": (1e-09, "ours"),
    },
    "drafting.alterations.bodice.bust_slash": {
        "_WIDEST": (math.radians(25.0), "ours"),
        "_LEAST_ANGLE": (math.radians(0.99), "ours"),
        "_LEAST_WIDTH": (4.0, "ours"),
        "_GONE": (1e-06, "ours"),
        "_SMOOTH": (1e-09, "ours"),
    },
    "drafting.alterations.bodice.bust_zones": {
        "SHORT_OF_BUST": (25.0, "common practice, half an inch to an inch"),
        "NEW_DART": (0.35, "ours"),
        "_HINGE": (1.0 / 3.0, "common practice: the notch"),
        "_NEAR_JOINT": (12.0, "ours; the armhole of a bodice taken in by 40 mm has them 8 mm apart"),
    },
    "drafting.alterations.bodice.crown_at_shoulder": {
        "_AT_CROWN": (0.001, "ours"),
        "_LEAST_HALF": (20.0, "ours"),
    },
    "drafting.alterations.bodice.lines_over_shoulder": {
        "_OFF_SQUARE": (math.radians(14.0), "ours"),
        "_TRIED": ((math.radians(5.0), math.radians(2.5), math.radians(1.25)), "ours: finer is not seen"),
        "_WAVERS": ((3.0, 20.0), "ours"),
        "_UNLIKE": (5.0, "ours"),
    },
    "drafting.alterations.bodice.neck_gape": {
        "_MOST_TURN": (math.radians(15.0), "ours"),
    },
    "drafting.alterations.bodice.neckline": {
        "_V_STRAIGHT": (0.15, "ours"),
        "_V_STEEPER": (math.radians(12.0), "ours"),
        "_LEAST_SHOULDER": (25.0, "ours"),
        "_LEAST_BESIDE_DART": (8.0, "ours"),
        "_ABOVE_BUST": (15.0, "ours"),
    },
    "drafting.alterations.bodice.shoulder_slope": {
        "_ON_SEAM": (0.001, "ours"),
        "_BESIDE_END": (10.0, "ours"),
        "_MOST_INWARD": (5.0, "ours"),
        "_PAD_SHARE": (0.7, "a note on shoulder slope and pads: 0.7 cm for a pad of 1 cm"),
    },
    "drafting.alterations.bodice.upper_bodice": {
        "MOST_EASE": (12.0, "common practice: up to half an inch in woven cloth"),
        "_AT_CORNER": (0.001, "ours"),
    },
    "drafting.alterations.darts.dart_to_gathers": {
        "_MOST_EASED": (0.08, "ours: a centimetre on a shoulder is usual"),
        "_BESIDE": (25.0, "ours"),
        "_OF_BESIDE": (0.6, "ours"),
        "_OF_MOUTH": (0.5, "common practice: gathers of 1.5 to 2 times are usual"),
        "_LEAST_BESIDE": (8.0, "ours"),
        "_ROOM": (14.0, "ours"),
        "_EASE_GIVES": (1.5, "ours"),
        "_GATHERS_GIVE": (0.1, "ours"),
    },
    "drafting.alterations.darts.move_dart": {
        "_CLEAR_OF_NECK": (30.0, "ours: a dart in the shoulder lies about half way along"),
    },
    "drafting.alterations.darts.princess_seam": {
        "_TURNED_BY": (0.25, "ours"),
        "_ASLANT": (math.radians(60.0), "common practice for a seam into an armhole, 60 to 90"),
        "_ENTERS": (math.radians(62.0), "ours"),
        "_ROUNDED": (45.0, "ours"),
        "_BESIDE_BUST": (40.0, "common practice; the figure ours"),
        "_EASED": (5.0, "common practice"),
        "_FULLEST": (1.7, "ours"),
        "_FAR_APART": (120.0, "ours"),
    },
    "drafting.alterations.darts.side_darts": {
        "_SAMPLED": ((0.25, 0.5, 0.75), "ours"),
    },
    "drafting.alterations.darts.style_line": {
        "_EASED": (6.0, "common practice: a quarter of an inch"),
        "_MORE": (5.0, "ours, as for an armhole"),
        "_STEP": (5, "ours"),
    },
    "drafting.alterations.notch_spacing": {
        "_PAIRS_APART": (20.0, "ours"),
    },
    "drafting.alterations.sleeve.full_sleeve": {
        "_MOST": (1500.0, "ours"),
        "_FEWEST_CUTS": (2, "ours"),
        "_MOST_CUTS": (40, "ours"),
        "_RAISED_SHARE": (0.3333333333333333, "ours"),
        "_MOST_RAISED": (40.0, "ours"),
    },
    "drafting.alterations.sleeve.other_sleeve": {
        "_PLACES": (6, "ours"),
    },
    "drafting.alterations.sleeve.set_in_sleeve": {
        "_CLEAR": (1.0, "ours"),
    },
    "drafting.alterations.sleeve.spread_sleeve": {
        "_BELOW_NOTCH": (0.3, "ours"),
    },
    "drafting.alterations.sleeve.upper_arm": {
        "_LEAST": (-120.0, "ours"),
        "_MOST": (200.0, "ours"),
    },
    "drafting.alterations.techniques.cutting.clip_marks": {
        "_ON_SEAM": (1.0, "ours"),
        "_FLAT": (0.1, "ours"),
    },
    "drafting.alterations.techniques.marks.levels_over_darts": {
        "_NEAR": (15.0, "ours"),
        "_STRAIGHT": (1e-09, "ours"),
    },
    "drafting.alterations.techniques.marks.grain_line": {
        "_CLEAR": (10.0, "ours"),
        "_LEAST": (40.0, "ours"),
        "_SHORTEST": (20.0, "ours"),
    },
    "drafting.alterations.techniques.marks.seam_ease": {
        "_GIVE": (0.1, "ours"),
    },
    "drafting.alterations.techniques.marks.true_corners": {
        "_TRUE": (math.radians(3.0), "ours"),
        "_BENT": (math.radians(2.5), "ours"),
    },
    "drafting.alterations.techniques.pivoting.close_dart": {
        "_SAME_PEAK": (1e-09, "ours"),
        "_PEAK": (math.radians(0.1), "ours"),
        "_FAR": (5.0, "ours"),
        "_EXACT": (1e-09, "ours"),
    },
    "drafting.alterations.techniques.pivoting.dart_target": {
        "_LEAST_ANGLE": (math.radians(1.0), "ours"),
        "_LEAST_BESIDE": (5.0, "ours"),
    },
    "drafting.alterations.techniques.pivoting.fold_darts": {
        "_LEAST_PART": (8.0, "ours"),
    },
    "drafting.alterations.techniques.pivoting.pivot": {
        "_STRAIGHT": (math.radians(2.0), "ours"),
        "_LEAST_LEG": (15.0, "ours"),
        "_MOST_BENT": (math.radians(20.0), "ours"),
        "_LEAN": (2.0, "ours"),
        "_ON_EDGE": (0.001, "ours"),
    },
    "drafting.alterations.techniques.redrawing.fair_armhole": {
        "MOST_WAVER": (math.radians(10.0), "ours"),
        "_UPRIGHT": (math.radians(3.0), "ours"),
    },
    "drafting.alterations.techniques.redrawing.fair_neck": {
        "LEAST_BEND": (12.0, "ours"),
        "LEAST_HALF": (40.0, "ours"),
        "MORE_BEHIND": (3.0, "ours"),
        "_SOUGHT": (math.radians(0.05), "ours"),
    },
    "drafting.alterations.techniques.redrawing.redraw_run": {
        "_JOINT": (0.001, "ours"),
        "_MOST_SMALLER": (0.6, "ours"),
        "_LEVEL": (1e-07, "ours"),
        "_SLACK": ((0.4, 2.5), "ours"),
    },
    "drafting.alterations.techniques.sides.move_sides": {
        "_STEEPEST": (math.radians(50.0), "ours"),
        "_LEAST_WAIST": (15.0, "ours"),
        "_MOST_RAISED": (0.12, "ours"),
        "_PARALLEL": (0.001, "ours"),
        "_CLEAR_OF_DART": (5.0, "ours"),
    },
    "drafting.alterations.techniques.sides.side_shift": {
        "_YIELDS": (1.1, "ours"),
    },
    "drafting.alterations.techniques.sides.side_view": {
        "ON_SEAM": (0.001, "ours"),
        "_MOST_REACH": (1.5, "ours"),
        "_SHORTEST": (15.0, "ours"),
        "_BOTH_HALVES": (2.0, "ours"),
    },
    "drafting.alterations.techniques.sides.widen_darts": {
        "_LEAST_DART": (4.0, "ours"),
        "_LEAST_PART": (12.0, "ours"),
    },
    "drafting.alterations.techniques.spreading.cut_across": {
        "_EASED": (6.0, "common practice: a quarter of an inch"),
        "_LEAST_GRAIN": (35.0, "ours"),
        "_NOTCH": (45.0, "ours"),
        "_NOTCH_SHARE": (0.4, "common practice; ours"),
        "_SLANTED": (math.radians(1.0), "ours"),
        "_LEAST_LEVEL": (30.0, "ours"),
    },
    "drafting.alterations.techniques.spreading.cut_off": {
        "_LEAST_LEFT": (30.0, "ours: less is a cap and a hem"),
        "_MOST_ASLANT": (math.radians(6.5), "ours"),
        "_LEAST_ABOVE": (12.0, "ours"),
        "_LEAST_ROOM": (50.0, "ours"),
    },
    "drafting.alterations.techniques.spreading.fold_above": {
        "_EASED": (6.0, "ours"),
        "_SHORT": (30.0, "ours"),
        "_EASED_SHORT": (15.0, "common practice: 5 or 6"),
        "_ROUNDS": (80, "ours"),
        "_STILL": (1e-06, "ours"),
    },
    "drafting.alterations.techniques.spreading.meet_at_hem": {
        "_MOST_TAKEN": (0.5, "ours"),
        "_AT_END": (1.0 - 1e-09, "ours"),
    },
    "drafting.alterations.techniques.spreading.slash_and_spread": {
        "_ROUND": (0.5523, "ours"),
        "_TIGHTEST": (0.9, "ours"),
        "_FEW": (3, "ours"),
        "_LOPSIDED": (0.2, "ours"),
        "_MOST_TURNED": (math.radians(75.0), "ours"),
    },
    "drafting.alterations.techniques.spreading.spline_seam": {
        "_SAME": (1e-07, "ours"),
        "_THIRD": (1.0 / 3.0, "ours"),
        "_SHORT": (0.2, "ours"),
        "_SAME_SHARE": (1e-06, "ours"),
        "_NEAR": (1e-05, "ours"),
    },
    "drafting.alterations.techniques.spreading.stretch": {
        "_MOST_TURN": (math.radians(1.0), "ours"),
        "_FLATTEST": (1.5, "ours"),
        "_TRIFLE": (5.0, "ours"),
        "_ONE_PLACE": (1e-05, "ours"),
    },
    "drafting.alterations.trousers.crotch_curve": {
        "_MOST": (20.0, "ours"),
        "_FULLEST": (2.2, "ours"),
    },
    "drafting.alterations.trousers.crotch_length": {
        "_MOST": (40.0, "common practice: never more than 3 cm in one place"),
        "_HALF": (0.5, "ours"),
        "_SEAT_AT_WAIST": (2.0 / 3.0, "ours"),
    },
    "drafting.alterations.trousers.full_thigh": {
        "_MOST": (60.0, "ours"),
        "_FRONT": (0.4, "the forks of the book: 1 to 1.5"),
    },
    "drafting.alterations.trousers.halves": {
        "_TO_KNEE": (300.0, "ours"),
    },
    "drafting.alterations.trousers.leg_line": {
        "_MOST": (40.0, "ours"),
        "ON_KNEE": (0.5, "ours"),
        "UPRIGHT": (0.001, "ours"),
    },
    "drafting.alterations.whole_garment.blend_sizes": {
        "_SAME_GIRTH": (0.5, "ours"),
    },
    "drafting.alterations.whole_garment.lengthen": {
        "_SHORTEST": (-600.0, "ours"),
        "_LONGEST": (1200.0, "ours"),
    },
    "drafting.alterations.whole_garment.room_to_grow": {
        "_MOST": (150.0, "ours"),
    },
    "drafting.alterations.whole_garment.take_in": {
        "_MOST": (400.0, "ours"),
        "_PARTS_OF_GIRTH": (4.0, "ours"),
    },
}
"""By module and constant: its value (mm, degrees or a share, as the module says) and who says so."""
