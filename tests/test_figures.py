"""Every figure of the trade and every tolerance, with whose it is, typed here anew: one that slips is seen at once."""

from __future__ import annotations

import ast
import importlib
import math
from collections.abc import Iterator
from pathlib import Path

import pytest

from drafting.alterations import ALTERATIONS, Layer
from drafting.checks import curves
from drafting.checks.wearing import ROOMS
from drafting.pattern import Place
from tests.drafting.alterations.figures import FIGURES as OF_ALTERATIONS
from tests.drafting.alterations.figures_of_styles import FIGURES_OF_STYLES
from tests.drafting.geometry.figures import FIGURES as OF_GEOMETRY

ROOT = Path(__file__).parents[1]

# the constant: its value (mm, degrees or a share, as its own module says) and who says so
FIGURES: dict[str, tuple[object, str]] = {
    "drafting.checks.allowances.TURNED": (0.015, "ours: more has to be eased or stretched to lie flat"),
    "drafting.checks.allowances.NARROW_HEM": (10.0, "common practice: turned twice by 5 mm"),
    "drafting.checks.allowances.NARROW_TURNED": (0.11, "ours: half of it, and an armhole takes in 8 in 100"),
    "drafting.checks.allowances.ENDS": (1.0, "ours: a snip's width"),
    "drafting.checks.allowances._LEAST_HEM": (3.0, "ours: the least that can be turned up"),
    "drafting.checks.allowances._NEAR": (24.0, "ours"),
    "drafting.checks.allowances._CUT_SHORT": (0.5, "ours"),
    "drafting.checks.allowances._OFF_THE_LINE": (0.001, "ours"),
    "drafting.checks.armholes.NARROWEST": (33.0, "ours"),
    "drafting.checks.armholes._LEVEL": (1.0, "ours: what a set square shows"),
    "drafting.checks.armholes._START": (15.0, "ours"),
    "drafting.checks.armholes._RISE": (12.0, "ours"),
    "drafting.checks.armholes._RISE_NARROW": (15.0, "ours"),
    "drafting.checks.armholes._NARROW": (40.0, "ours"),
    "drafting.checks.armholes._SPAN": (40.0, "ours"),
    "drafting.checks.armholes._CROWDED": (60.0, "ours"),
    "drafting.checks.armholes._CLEAR": (14.0, "ours; handbooks: 15 to 25 mm along the line that halves that corner"),
    "drafting.checks.corners.CORNER": (3.0, "ours; that they add up to a straight line is common practice"),
    "drafting.checks.corners.HEM_CORNER": (14.0, "ours: 7 degrees to a side"),
    "drafting.checks.curves._ARMHOLE": (22.0, "ours"),
    "drafting.checks.curves._ARMHOLE_MORE": (5.0, "ours"),
    "drafting.checks.curves._NECK": (12.0, "ours"),
    "drafting.checks.curves._BACK_NECK_MORE": (3.0, "ours"),
    "drafting.checks.curves._STRAIGHT": (1000000.0, "ours"),
    "drafting.checks.curves._CORNER": (0.5, "ours"),
    "drafting.checks.curves._WAVER": (1.5, "ours"),
    "drafting.checks.curves._UNSEEN": (math.radians(0.1), "ours"),
    "drafting.checks.curves._HALF_NECK": (40.0, "ours"),
    "drafting.checks.darts.LEGS": (0.5, "ours: a third of a seam's; that legs are equal is common practice"),
    "drafting.checks.darts._APART": (25.0, "common practice: an inch between two darts, rounded"),
    "drafting.checks.darts._ROOM": (60.0, "ours"),
    "drafting.checks.darts._BEYOND": (38.0, "common practice: an inch and a half, rounded"),
    "drafting.checks.darts._ROUNDED": (0.05, "ours"),
    "drafting.checks.gathers._GATHERED": (1.2, "common practice: below it cloth is eased in"),
    "drafting.checks.gathers._FULL": ((2.5, 4.0), "common practice: 3 in thin cloth only; 4 is ours"),
    "drafting.checks.gathers._USUAL": (2.0, "common practice: 1.5 to 2 is usual"),
    "drafting.checks.gathers._APART": (460.0, "ours; that a gathered edge is marked in quarters is common practice"),
    "drafting.checks.grain.ALONG": (0.5, "ours: 5 mm on 60 cm"),
    "drafting.checks.hems._ALIKE": (1.0, "ours"),
    "drafting.checks.narrow._LEAST_SIDE": (50.0, "ours"),
    "drafting.checks.narrow._NARROW": (90.0, "ours"),
    "drafting.checks.narrow._SPIKE": (40.0, "ours"),
    "drafting.checks.narrow._OVER": (0.1, "ours: a thread"),
    "drafting.checks.narrow._SHORT": (25.0, "ours"),
    "drafting.checks.neck._TIGHT": (5.0, "ours"),
    "drafting.checks.neck._CHOKES": (25.0, "ours"),
    "drafting.checks.neck.HEAD": (540.0, "common practice, from memory: a small grown head"),
    "drafting.checks.reaching._STEP": (0.41, "common practice, from memory: 0.41 to 0.45 of the height"),
    "drafting.checks.reaching._SHORT_STEP": (0.75, "ours"),
    "drafting.checks.reaching._HOBBLE": (0.5, "ours"),
    "drafting.checks.reaching._LEG": (0.36, "ours; the 1988 survey has 0.37 at the knee"),
    "drafting.checks.reaching._MOST_FLARE": (600.0, "ours: what flare skirt takes"),
    "drafting.checks.reaching._CLOSE_ARMHOLE": (12.7, "common practice: 1/2 in"),
    "drafting.checks.reaching._CLOSE_CHILD": (5.0, "common practice, from memory"),
    "drafting.checks.reaching._DEEP_ARMHOLE": (75.0, "ours"),
    "drafting.checks.seams.SEAM_PASS": (1.5, "Threads 200 (2020): 1/16 in, rounded down"),
    "drafting.checks.seams.SEAM_WARN": (3.0, "Threads 200 (2020): 1/8 in, rounded down"),
    "drafting.checks.seams._EASE_APART": (45.0, "common practice: all that a cap can be eased by"),
    "drafting.checks.seams._EASE_SHARE": (0.4, "ours"),
    "drafting.checks.armholes._RUNS_IN_AT": ((0.0, 0.125, 0.25, 0.5, 0.75, 1.0), "ours: nearer where it leaves"),
    "drafting.checks.armholes._FELT": (0.05, "ours"),
    "drafting.checks.curves._FELT": (0.05, "ours"),
    "drafting.pattern.bias._TURNS": ({"folded": 4.0, "double": 6.0, "facing": 1.0}, "how each is folded"),
    "drafting.pattern.text_lines._WIDTH": (118, "ours"),
    "drafting.pattern.text_read.VERSION": (2, "ours: the schema"),
    "drafting.pattern.text_read._BEFORE_TYPES": (1, "ours: the schema"),
    "drafting.pattern.text_read._WIDEST": (4000.0, "ours, against slips of the unit"),
    "drafting.pattern.cloth_room.USUAL_CLOTH": (1400.0, "common practice"),
    "drafting.pattern.cloth_room.WIDEST_CLOTH": (1524.0, "common practice: 60 in"),
    "drafting.pattern.cloth_room.SELVEDGES": (20.0, "ours: both of them"),
    "drafting.pattern.walk.NOTCH": (1.0, "common practice: the width of the snip"),
    "drafting.checks.wearing._ROUNDING": (1e-3, "ours"),
    "drafting.checks.buttons._ROUNDING": (0.01, "ours"),
    "drafting.checks.cut_width._SHARES": ((0.15, 0.5, 0.85), "ours"),
    "drafting.checks.cut_width._OFF": (1.0, "ours"),
    "drafting.checks.cut_width._FLAT": (0.1, "ours"),
    "drafting.checks.cut_width._SHARP": (0.5, "ours: the cosine of 60 degrees"),
    "drafting.checks.cut_width._FAR": (1.5, "ours, in allowances"),
    "drafting.checks.outlines._COUNTED": (100, "ours"),
    "drafting.checks.wearing._ABOVE_WRIST": (20.0, "ours"),
    "drafting.pattern.buttons.BEYOND_CENTRE": (3.0, "common practice: an eighth of an inch, rounded"),
    "drafting.pattern.buttons.CLEAR": (10.0, "common practice, the figure ours"),
    "drafting.checks.pockets._ON_MARKS": (0.5, "ours: what a chalk line is wide"),
    "drafting.pattern.pockets.ABOVE_HEM": (40.0, "common practice"),
    "drafting.pattern.buttons._TICK": (2.0, "ours"),
    "drafting.pattern.buttons._FLAT": (0.05, "ours"),
    "drafting.pattern.gathered._CLEAR_OF_THREADS": (3.0, "ours"),
    "drafting.pattern.roll_seam._STEP": (5.0, "ours"),
    "drafting.pattern.roll_seam._NOTHING": (1e-6, "ours"),
    "drafting.pattern.seam_ends._NEARLY_ON": (math.radians(135.0), "ours"),
    "drafting.pattern.seam_ends._BLUNT": (math.radians(95.0), "ours"),
    "drafting.pattern.seam_ends._ALIKE": (math.radians(3.0), "ours"),
    "drafting.pattern.text_values.MOST_PIECES": (200, "ours: ten times what clothing needs"),
    "drafting.pattern.text_values.MOST_EDGES": (400, "ours"),
    "drafting.pattern.text_values.MOST_CURVES": (5000, "ours"),
    "drafting.pattern.compare.SHOWS": (0.05, "ours"),
    "drafting.pattern.compare._SHARES": ((0.0, 0.12, 0.31, 0.5, 0.69, 0.88, 1.0), "ours"),
    "drafting.pattern.cutting._SIDE_BY_SIDE": (0.001, "ours"),
    "drafting.pattern.cutting._FAR_OFF": (10000.0, "ours"),
    "drafting.pattern.cutting._BEYOND": (10.0, "ours"),
    "drafting.pattern.dart_size.WIDEST_WAIST_DART": (40.0, "ours; that a wider one is divided is common practice"),
    "drafting.pattern.dart_size.STEEPEST_DART": (
        math.radians(30.0),
        "ours; a wider one peaks (common practice)",
    ),
    "drafting.pattern.gathered._LEAST": (3.0, "ours"),
    "drafting.pattern.gathered._MUCH": (0.25, "ours"),
    "drafting.pattern.gathered._THREADS": ((3.0, 6.0), "common practice: two rows of long stitches"),
    "drafting.pattern.gathered._NOTHING": (1.0, "ours"),
    "drafting.pattern.notches.DOUBLE_NOTCH": (6.0, "common practice: a quarter of an inch, rounded"),
    "drafting.pattern.notches.INWARD_NOTCH": (4.0, "common practice"),
    "drafting.pattern.cutting.LEAST_ALLOWANCE": (6.0, "common practice: a quarter of an inch"),
    "blocks.remedies.allowance_at_fault._LEAST_HEM": (10.0, "common practice: turned twice by 5 mm"),
    "drafting.pattern.notches.LEAST_APART": (8.0, "ours: nearer, they would be taken for a double one"),
    "drafting.pattern.notches._OFF_THE_LINE": (0.001, "ours"),
    "drafting.pattern.seam.MOST_EASED": (22.5, "common practice, from memory: 45 mm in a whole cap"),
    "drafting.pattern.seam_ends._LEAST_SINE": (math.sin(math.radians(10.0)), "ours"),
    "drafting.pattern.text._PLACES": (9, "ours"),
    "drafting.pattern.text._MEASURED_PLACES": (4, "ours"),
    "drafting.pattern.text_values.FAR": (100000.0, "ours"),
    "drafting.pattern.text_read._MOST_NOTCHES": (100000, "ours"),
    "drafting.pattern.walk.GATHERED": (0.1, "ours; the trade eases up to 8 % of an armhole into it"),
    "drafting.pattern.walk._AS_LONG": (0.01, "ours"),
    "drafting.geometry.tolerance.LENGTH": (0.0001, "a hundredth of what a sharp pencil shows"),
    "drafting.geometry.tolerance.SOLVED": (1e-06, "ours"),
    "drafting.geometry.tolerance.MEASURED": (2.5e-07, "a quarter of what is solved for"),
    "drafting.geometry.tolerance.SAME_PLACE": (1e-06, "ours"),
    "drafting.geometry.tolerance.PROMISE": (1e-06, "ours"),
    "drafting.geometry.tolerance.CROSSING": (1e-07, "ours"),
    "drafting.geometry.tolerance.FLAT": (0.01, "ours"),
    "drafting.geometry.tolerance.TOUCH": (0.5, "ours"),
    "drafting.geometry.tolerance.OFFSET": (0.02, "ours"),
    # in fours to 104, in sixes from there
    "drafting.body.charts.SIZES": (
        (76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128, 134, 140, 146, 152),
        "EN 13402-3",
    ),
    "drafting.body.charts._CHILDREN": (
        tuple(range(50, 177, 6)),
        "heights by 6 cm, as EN 13402-3 steps them",
    ),
    "drafting.body.charts.SIZE_LIMITS": ((50, 176), "the ends of the charts"),
    "drafting.body.sizes._HALF_INCH": (12.7, "half an inch"),
    "drafting.body.charts._HEIGHT_STEP": (8.0, "EN 13402-3, from memory"),
    "drafting.body.charts._EN_SLOPES": ({"waist_girth": 1.0, "hip_girth": 5.0 / 6.0}, "EN 13402-3, as commonly quoted"),
    "drafting.body.charts._BABY": (56, "a textbook's chart of babies, second hand"),
    "drafting.body.consistency._DOUBTFUL": (3.3, "ours"),
    "drafting.body.consistency._SLACK_MM": (5.0, "ours"),
    "drafting.body.consistency._FAR": (3.0, "ours"),
    "drafting.body.consistency._FURTHEST": (4.4, "ours"),
    "drafting.body.consistency._FEWEST": (4, "ours"),
    "drafting.body.estimate._FOLLOWED": (3.0, "ours"),
    "drafting.body.plausible._DOUBTFUL": (3.0, "of a normal distribution one in 370 lies further out"),
    "drafting.body.plausible._BABIES_FROM": (56.0, "the first height of tables/babies_chart.csv"),
    "drafting.body.rechart._STANDS_OUT": (3.0, "ours"),
    "drafting.body.rechart._FEWEST": (2, "ours"),
    "drafting.body.refit._FEWEST": (30, "ours"),
    "drafting.pattern.stretch_used.MOST_STRETCH": (3.0, "ours"),
    "drafting.pattern.stretch_used.USED_WORN": (1.0 / 3.0, "common practice, from memory: a third of the stretch"),
    "drafting.pattern.stretch_used.USED_OVER_HEAD": (1.0, "a worked example: 40.7 cm over a head of 56 at 38 %"),
    "drafting.pattern.stretch_used.USED_PUTTING_ON": (0.5, "common practice, from memory: half of the stretch"),
    "drafting.fit.cloth.MOST_SHRINKAGE": (0.3, "ours; that linen and viscose lose up to a tenth is common practice"),
    "drafting.fit.cloth.CLOTH_WIDTHS": ((200.0, 4000.0), "ours, against slips of the unit"),
    "drafting.fit.cloth.CLOTH_REPEATS": ((5.0, 2000.0), "ours, against slips of the unit"),
    "drafting.fit.cloth.MOST_THICKNESS": (20.0, "ours, against slips of the unit"),
    "drafting.fit.cloth.MOST_BENEATH": (40.0, "ours, against slips of the unit"),
    "drafting.fit.thickness.LEAST_TOLD": (1.0, "ours: nobody marks less"),
    "drafting.fit.ease._HARDLY": (1.0, "ours: 2 in are written 5 cm"),
    "drafting.fit.ease.TOLD_FROM": (0.5, "ours: what README promises of a measured length"),
    "drafting.reading.given.LEAST_ALLOWANCE": (3.0, "ours: 1/8 in is 3.2"),
    "drafting.reading.units.MM_PER_INCH": (25.4, "exact: agreement of 1959"),
    "drafting.checks.trousers._RUNS_IN": ((5.0, 10.0), "ours"),
    "drafting.checks.trousers._HOOK": (1.0, "ours"),
    "drafting.checks.trousers._SEAT": ((0.0, 12.0, 15.0), "common practice: 0 to 15 degrees, 12 to sit in"),
    "drafting.checks.trousers._SHORT": ((-0.5, 5.0, 10.0), "common practice: 0 to 5 mm, 10 in a woollen"),
    "drafting.checks.trousers._KNEE": (0.5, "ours"),
    "drafting.checks.trousers._HEM_MIDDLE": (2.0, "ours"),
    "drafting.checks.trousers._LEG_MIDDLE": (25.0, "ours"),
    "drafting.checks.trousers.FOOT": (1.45, "from memory: 31 cm round heel and instep by 21 at the ankle"),
    "drafting.checks.trousers._CALF_AT": (0.7, "from memory"),
    "drafting.checks.trousers._VERTICAL": ((10.0, 40.0), "common practice: 4 to 6 cm where it is fitted"),
    "blocks.trousers.draft._CROTCH_BELOW_HIP": (15.0, "ours"),
    "blocks.trousers.draft._SIDE_BELOW_HIP": (60.0, "ours"),
    "blocks.trousers.draft._MOST_RAISED": (30.0, "ours"),
    "blocks.trousers.draft._OVER_HIP": (20.0, "ours"),
    "blocks.trousers.shape.MOST_CHANGED": (30.0, "common practice"),
    "blocks.child.laps._MOST_LAP": (0.6, "ours"),
    "blocks.handover.PASSES": (25.0, "ours: 2 cm so that it slides over, and a little"),
    "blocks.trousers.frame.CENTRE_IN": (10.0, "Practical Textbook of Fashion English, part 3: 1 cm"),
    "blocks.trousers.shape.THIGH_BELOW": (25.0, "common practice: an inch, rounded"),
    "blocks.trousers.leg.BACK_WIDER": (10.0, "Practical Textbook of Fashion English, part 3: 1 cm at each seam"),
    "blocks.bodice.draft._SCYE_STEP": (5.0, "ours"),
    "blocks.bodice.draft._MOST_SCYE_MORE": (45.0, "ours"),
    "blocks.bodice.frame.SHORT_OF_BUST": (25.0, "ours"),
    "blocks.bodice.frame._BODY_SLOPE": (
        math.radians(26.0),
        "the survey of 1988: the median of shoulder drop against shoulder length",
    ),
    "blocks.bodice.frame._SLOPE_SHARE": (0.5, "ours"),
    "blocks.bodice.frame._LOWEST_BUST": (75.0, "ours"),
    "blocks.bodice.frame._MOST_FRONT_EASE": (45.0, "ours"),
    "blocks.bodice.frame._MOST_FRONT_GUESSED": (120.0, "ours"),
    "blocks.bodice.frame._PLAIN_BUST_EASE": (60.0, "the ease table: a woven bodice of a regular fit"),
    "blocks.bodice.frame._CLOSEST": (0.1, "the ease table: a very stretchy knit"),
    "blocks.bodice.frame._MOST_BUST_EASE_MORE": (60.0, "ours"),
    "blocks.bodice.frame._MOST_SCYE_MORE": (45.0, "ours"),
    "blocks.bodice.frame._LEAST_FRONT_ARMHOLE": (95.0, "ours"),
    "blocks.bodice.frame._NARROWEST_CHEST": (0.88, "ours"),
    "blocks.bodice.frame._HOLLOW": (14.0, "ours"),
    "blocks.bodice.frame._INSIDE": (5.0, "ours"),
    "blocks.bodice.frame._REACH": (0.58, "ours"),
    "blocks.bodice.frame._BACK_SHARE": (0.54, "ours"),
    "blocks.bodice.frame._CHEST_LEVEL": (0.28, "ours"),
    "blocks.bodice.frame.CLEAR": (math.radians(3.0), "ours"),
    "blocks.bodice.frame._OFF_SQUARE": (math.radians(10.0), "ours"),
    "blocks.bodice.frame._LEAST_BUST_DART": (math.radians(7.0), "ours"),
    "blocks.bodice.pieces._NARROWEST": (0.33, "ours"),
    "blocks.bodice.pieces._WAIST_NOTCH": (40.0, "ours"),
    "blocks.bodice.waist._SIDE_SHARE": (0.3, "common practice"),
    "blocks.bodice.waist._MOST_SIDE_SHARE": (0.45, "ours"),
    "blocks.bodice.waist._LEAST_DART": (9.0, "ours"),
    "blocks.bodice.waist._KEPT_DART": (16.0, "ours"),
    "blocks.bodice.waist._STEEPEST_ONE": (0.85, "ours"),
    "blocks.bodice.waist._SPARE": (2.0, "ours"),
    "blocks.bodice.waist._BALANCE": (0.42, "ours"),
    "blocks.bodice.waist._BACK_DART_SHORT": (20.0, "ours"),
    "blocks.bodice.waist._OUTER_SHORTER": (0.85, "ours"),
    "blocks.bodice.waist._BESIDE_IN_FRONT": (25.0, "common practice: an inch, rounded"),
    "blocks.bodice.waist._OFF_BUST": (25.0, "common practice: an inch, rounded"),
    "blocks.bodice.waist._BESIDE_BEHIND": (0.5, "ours"),
    "blocks.shared.armhole_curve._OFF_SQUARE": (math.radians(14.0), "ours"),
    "blocks.shared.armhole_curve._STRAIGHTEST": (0.25, "ours"),
    "blocks.shared.armhole_curve._FIRST": (15.0, "ours"),
    "blocks.shared.armhole_curve._STEEPEST": (math.radians(14.9), "ours"),
    "blocks.shared.armhole_curve._MOST_RUN_ON": (1.3, "ours"),
    "blocks.shared.neck_curve.BACK_RISE": (15.0, "ours"),
    "blocks.shared.neck_curve._OFF_SQUARE": (math.radians(16.0), "ours"),
    "blocks.skirt._BACK_WIDER": (7.5, "Aldrich: back H/4 + 1.5 cm, front H/4, with 3 cm of ease in all"),
    "blocks.skirt._SIDE_SHARE": (0.6, "Aldrich, hip 94, waist 68: some 4 of 6.25 cm, rounded"),
    "blocks.skirt._STEEPEST_SIDE": (0.26, "ours"),
    "blocks.skirt._LONGEST": (0.66, "ours"),
    "blocks.skirt._LEAST_DART": (8.0, "ours"),
    "blocks.skirt._ZIP_BELOW_HIP": (-15.0, "from memory: 1 to 2 cm"),
    "blocks.skirt._BALANCE": (0.42, "ours"),
    "blocks.sleeve._MOST_HOLLOW": (13.0, "ours"),
    "blocks.sleeve._MOST_ASLANT": (math.tan(math.radians(6.5)), "ours"),
    "drafting.checks.outlines._CHORD": (0.1, "ours"),
    "drafting.pattern.text_read_origin._LONGEST": (100_000.0, "ours: as the schema has it"),
    "drafting.pattern.let_down._ON": (1.0, "ours"),
    "drafting.pattern.locate._BESIDE_EDGE": (2.0, "ours"),
    "drafting.sewing.strips.KNIT_BINDING": (10.0, "from memory: 1 cm"),
    "drafting.checks.armholes._SPAN_SHARE": (0.2, "ours"),
    "drafting.checks.armholes._START_SHARE": (0.075, "ours"),
    "drafting.checks.armholes._CLEAR_SHARE": (
        0.4,
        "ours; a quarter of a circle clears its corner by 0.41",
    ),
    "drafting.pattern.cutting._CUT_OUT": (30.0, "common practice: an inch"),
    "drafting.checks.armholes._RUNS_IN": ((16.0, 24.0), "ours: a line of 22 cm bowed up by 1 cm turns by 16 degrees"),
    "drafting.checks.closings._EVEN": (0.5, "ours: what a pin takes"),
    "drafting.checks.collars._NECK_ABOVE": (0.92, "ours"),
    "drafting.checks.collars._HIDES": (5.0, "ours; that a fall is 10 to 15 mm wider is common practice"),
    "drafting.checks.collars._WRIST": (10.0, "ours"),
    "drafting.checks.collars._ROUNDING": (0.05, "ours"),
    "drafting.checks.curves._THROUGH_THE_WAIST": (3, "ours: the stretches of a side seam through the waist"),
    "drafting.checks.fullness._LAP": (0.5, "ours: the width of a fold"),
    "drafting.checks.fullness._RATIOS": ((1.15, 3.0), "a sewing teacher on ruffles: 1.5 to 3; the lower figure ours"),
    "drafting.checks.fullness._TIER_RATIOS": ((1.2, 2.5), "ours: the least and the most within those ratios"),
    "drafting.checks.fullness._FLARE": (5.0, "common practice"),
    "drafting.checks.fullness._ALONG": (400.0, "ours: from the hip to the hem of a skirt to the knee"),
    "drafting.checks.stretched._LEAST": (0.85, "ours; 5 to 10 cm less than the waist, a tenth less at a neck is usual"),
    "drafting.checks.stretched._ROUNDING": (0.01, "ours"),
    "drafting.pattern.bias._USUAL": (0.05, "common practice: 3 to 7 % shorter"),
    "drafting.pattern.casings.ELASTIC_GIVES": (0.8, "common practice, from memory"),
    "drafting.pattern.casings.HAND": (1.31, "common practice: 21 of 16 cm"),
    "drafting.checks.sleeve_ends._ROUGHLY": (10.0, "ours: a twentieth of a hand"),
    "drafting.pattern.casings.WIDER": (3.0, "common practice"),
    "drafting.pattern.casings.TURNED_IN": (6.0, "common practice"),
    "drafting.pattern.casings._WAIST_LESS": (50.8, "a sewing teacher: 2 in, of 1 to 4"),
    "drafting.pattern.casings._CHILDS_WAIST": (0.93, "common practice"),
    "drafting.pattern.casings._WRIST_MORE": (5.0, "common practice: 0 to 15 mm"),
    "drafting.pattern.casings._ARM_MORE": (15.0, "common practice: 10 to 20 mm"),
    "drafting.pattern.casings._LEG_MORE": (5.0, "common practice: 5 mm, and never 10 less"),
    "drafting.pattern.casings._NECK_SHARE": (0.9, "common practice: a tenth less"),
    "drafting.pattern.casings._LOWER": (60.0, "ours"),
    "drafting.pattern.casings._HEAD": (560.0, "from memory: a grown head"),
    "drafting.pattern.casings.ROOM": (20.0, "common practice"),
    "drafting.pattern.casings._NEAR": (40.0, "ours"),
    "drafting.pattern.neck_band.BAND_WIDTH": (15.0, "common practice"),
    "drafting.pattern.pleats._NEAR": (0.5, "ours"),
    "drafting.pattern.neck_band.TURNING": (
        4.887,
        "worked out: what the edge of a drawn neck turns by, front and back, both halves",
    ),
    "drafting.pattern.neck_band.LEAST_SHARE": (0.75, "worked out: drawn in further a strip of rib does not lie flat"),
    "drafting.body.earlier.MOST_EARLIER": (200, "ours"),
    "drafting.body.refit._NECK_FOOT": (
        1.105,
        "the means of 1977 at 86 and 92 cm by a chart of babies, and at 164 cm by the women of 1988: 1.09 to 1.12",
    ),
    "drafting.body.worked_out.YOUNGER_TO": (80.0, "ours: the shortest child of the survey is 81.3 cm tall"),
    "drafting.body.worked_out.OLDER_FROM": (92.0, "the tallest of the chart of babies"),
    "blocks.sleeve._LEAST_EASE": (0.0, "ours"),
}

# the same by module
BY_MODULE = {**OF_GEOMETRY, **OF_ALTERATIONS, **FIGURES_OF_STYLES}

# how a module works, and nothing that is measured: how a file is laid out, how often something is tried
WORKINGS = {"VERSION", "_BEFORE_TYPES", "_WIDTH", "_FELT", "_TRIES"}


def numbers(folder: str) -> Iterator[str]:
    """The constants of the modules in a folder that are numbers, or several numbers."""
    for path in sorted((ROOT / folder).rglob("*.py")):
        module = ".".join(path.relative_to(ROOT).with_suffix("").parts)
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            targets = [node.target] if isinstance(node, ast.AnnAssign) else getattr(node, "targets", [])
            for name in (each.id for target in targets for each in ast.walk(target) if isinstance(each, ast.Name)):
                value = getattr(importlib.import_module(module), name, None)
                parts = value if isinstance(value, tuple) else (value,)
                if parts and all(isinstance(part, int | float) for part in parts):
                    yield f"{module}.{name}"


@pytest.mark.parametrize("name", FIGURES)
def test_a_figure_is_what_its_source_gives(name: str) -> None:
    module, _, constant = name.rpartition(".")
    value, source = FIGURES[name]
    assert source
    assert getattr(importlib.import_module(module), constant) == pytest.approx(value, rel=1e-9)


@pytest.mark.parametrize("module", BY_MODULE)
def test_the_figures_of_a_module_are_what_their_sources_give(module: str) -> None:
    for constant, (value, source) in BY_MODULE[module].items():
        assert source
        assert getattr(importlib.import_module(module), constant) == pytest.approx(value, rel=1e-9), constant


@pytest.mark.parametrize(
    "room",
    [f"drafting/{room}" for room in ("checks", "pattern", "fit", "body", "geometry", "alterations")],
)
def test_no_figure_is_left_out(room: str) -> None:
    known = {*FIGURES, *(f"{module}.{name}" for module, figures in BY_MODULE.items() for name in figures)}
    missing = [name for name in numbers(room) if name not in known and name.rpartition(".")[2] not in WORKINGS]
    assert missing == [], "write each into FIGURES with its value and its source"


def test_in_how_many_stretches_an_edge_turns_one_way() -> None:
    """A sleeve's cap and underarm turn back once (common practice), as legs of trousers do; the rest is ours."""
    once = (Place.ARMHOLE, Place.NECK, Place.SHOULDER, Place.SIDE, Place.HEM)
    one_way = {**dict.fromkeys(once, 1), Place.UNDERARM: 2, Place.CAP: 2}
    assert one_way == curves._ONE_WAY
    assert {**one_way, Place.SIDE: 2, Place.INSEAM: 3, Place.CROTCH: 1} == curves._LEG


def test_each_place_is_given_room_by_the_alteration_that_reaches_it() -> None:
    out = "let it out there"
    assert {name: (room.what, room.alter, room.option, room.most, room.share) for name, room in ROOMS.items()} == {
        "upper arm": ("let the sleeve out there", "upper arm", "by", 200.0, 1.02),
        "elbow": ("spread the sleeve there", "full sleeve", "hem", 1500.0, 2.0),
        "wrist": ("spread the sleeve there", "full sleeve", "hem", 1500.0, 1.0),
        "bust": (out, "take in", "bust", 400.0, -1.0),
        "waist": (out, "take in", "waist", 400.0, -1.0),
        "hip": (out, "take in", "hip", 400.0, -1.0),
        "across the back": ("make the back broader", "back width", "amount", 40.0, 1.0),
    }


def test_every_alteration_stands_in_the_table_under_its_own_name() -> None:
    assert [each.name for each in ALTERATIONS] == list(ALTERATIONS.names)
    finishing = {each.name for each in ALTERATIONS if ALTERATIONS.is_finishing(each.name)}
    last = {each.name for each in ALTERATIONS if each.layer in (Layer.OPENINGS, Layer.HEMS, Layer.SEAMS)}
    assert finishing == last | {"wrap over", "gather skirt", "dart into gathers"}
