"""The checks a pattern passes before it is cut. They report, with a remedy in words, and never repair."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from drafting.checks.allowances import look_at_allowance_ends, look_at_marks, look_at_turned_in
from drafting.checks.base import (
    FAILED,
    Allowed,
    Check,
    Checked,
    Look,
    OneSided,
    Result,
    Verdict,
    check_table,
    look,
    named,
    run,
    worst,
)
from drafting.checks.buttons import look_at_buttons
from drafting.checks.closings import look_at_closings
from drafting.checks.collars import look_at_collars
from drafting.checks.corners import look_at_corners
from drafting.checks.curves import look_at_bends, look_at_shapes
from drafting.checks.cut_width import look_at_cut_width
from drafting.checks.darts import look_at_dart_legs, look_at_dart_lengths, look_at_dart_widths
from drafting.checks.fullness import look_at_fullness
from drafting.checks.gathers import look_at_gathers
from drafting.checks.grain import look_at_grain
from drafting.checks.hems import look_at_hems
from drafting.checks.narrow import look_at_narrow_pieces
from drafting.checks.neck import look_at_neck
from drafting.checks.on_cloth import look_at_cloth
from drafting.checks.outlines import look_at_outlines
from drafting.checks.pockets import look_at_pockets
from drafting.checks.seams import look_at_lengths, look_at_notches
from drafting.checks.sleeve_ends import look_at_sleeve_ends
from drafting.checks.stretched import look_at_stretched
from drafting.checks.trousers import (
    look_at_body_length,
    look_at_crease,
    look_at_crotch,
    look_at_inseams,
    look_at_leg_room,
)
from drafting.checks.unsewn import look_at_unsewn_edges
from drafting.checks.wearing import look_at_ease, look_at_getting_in
from drafting.pattern import Pattern

__all__ = [
    "CHECKS",
    "FAILED",
    "Allowed",
    "Check",
    "Checked",
    "Look",
    "OneSided",
    "Result",
    "Verdict",
    "check_pattern",
    "check_table",
    "look",
    "named",
    "run_checks",
    "worst",
]

CHECKS: Final = check_table(
    Check("seam-length", "seam length", "Both sides of every seam are as long as they are to be.", look_at_lengths),
    Check("edges-sewn", "sewn edges", "Every edge that is to be sewn is sewn to something.", look_at_unsewn_edges),
    Check("notches-meet", "notches", "Notches meet when a seam is walked from its start.", look_at_notches),
    Check("dart-legs", "dart legs", "The two legs of every dart are equal.", look_at_dart_legs),
    Check("dart-wide", "dart width", "No dart is too wide to be sewn as one.", look_at_dart_widths),
    Check("dart-long", "dart length", "Every dart is longer than it is wide.", look_at_dart_lengths),
    Check("corners-true", "corners", "Lines run on straight over seams, darts and centre lines.", look_at_corners),
    Check("bends-allowed", "bends", "No line bends tighter than its allowance lets it.", look_at_bends),
    Check(
        "curves-even", "curves", "No line wavers; an armhole is level and round below, a neck no slot.", look_at_shapes
    ),
    Check("turned-in-lies", "turned in", "Hems, turned openings and darts lie on the cloth.", look_at_turned_in),
    Check("allowance-ends", "allowance ends", "Cut edges of a seam can be laid together.", look_at_allowance_ends),
    Check("cut-width", "cut width", "The cutting line lies as far off every edge as its allowance.", look_at_cut_width),
    Check("goes-on-cloth", "cloth", "Every piece goes between the selvedges of a cloth.", look_at_cloth),
    Check("notch-marks", "notch marks", "Notches stand apart, each where it can be seen.", look_at_marks),
    Check("hems-alike", "hems", "Hems that run on over a seam are as deep as each other.", look_at_hems),
    Check("buttons-clear", "buttons", "Buttons lie clear of the seams and edges beside them.", look_at_buttons),
    Check(
        "stretch-enough",
        "bands and elastic",
        "Bands of knit stretch to their edge; elastic does not press, and lets through what passes.",
        look_at_stretched,
    ),
    Check(
        "fullness-lies",
        "fullness",
        "Pleats lie flat, tiers are gathered as can be sewn, gores flare alike at a seam.",
        look_at_fullness,
    ),
    Check(
        "collar-sits",
        "collars and cuffs",
        "A collar goes round the neck and hides its seam; a cuff closes, and the hand passes.",
        look_at_collars,
    ),
    Check("pockets-clear", "pockets", "A patch lies on its marks, a bag clear of hem and centre.", look_at_pockets),
    Check("crotch-curve", "crotch", "The crotch runs in one curve, longest behind, without a hook.", look_at_crotch),
    Check(
        "inseams-meet",
        "inside legs",
        "The back's inside leg is a little shorter, below the knee equal.",
        look_at_inseams,
    ),
    Check("crease-middle", "crease", "The crease runs down the middle of the leg.", look_at_crease),
    Check("leg-room", "leg room", "A foot goes through the hem of the leg.", look_at_leg_room),
    Check("body-length", "body length", "A body in one piece is long enough to sit in.", look_at_body_length),
    Check("hand-room", "sleeve ends", "A hand goes through the hem of a sleeve.", look_at_sleeve_ends),
    Check(
        "gathers-marked",
        "gathers",
        "What is gathered is marked often enough to be spread evenly, and can be drawn up.",
        look_at_gathers,
    ),
    Check(
        "narrow-turns",
        "narrow pieces",
        "The allowances of a narrow piece have room in it; no yoke is a spike, no side seam too short.",
        look_at_narrow_pieces,
    ),
    Check("closings-meet", "closings", "Front and back meet where one closes on the other.", look_at_closings),
    Check("outline-simple", "outline", "Every outline is closed and never crosses itself.", look_at_outlines),
    Check("grain-line", "grain line", "Every piece has its grain, inside it and along the centre.", look_at_grain),
    Check("ease-to-move", "ease", "There is enough ease to move.", look_at_ease),
    Check("room-to-get-in", "getting in", "There is a way to put it on.", look_at_getting_in),
    Check(
        "neck-goes-round",
        "neck",
        "The neckline goes round the neck, and over the head as far as it opens.",
        look_at_neck,
    ),
)
"""Every check there is, in the order in which a cutter would look."""


def run_checks(pattern: Pattern, *, checks: Iterable[Check] = CHECKS) -> tuple[Result, ...]:
    """A result for everything the checks looked at, the passing ones with their numbers, in the order of the table."""
    return run(pattern, checks).results


def check_pattern(pattern: Pattern, *, known: Checked | None = None, checks: Iterable[Check] = CHECKS) -> Checked:
    """The results of `run_checks`, and with them what they were found by.

    known: what the checks found on the pattern before a step; what the step left as it was is not looked at again
    """
    return run(pattern, checks, known)
