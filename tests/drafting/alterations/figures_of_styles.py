"""Every figure of the alterations of skirts, of finishes and of style lines, typed here anew."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

__all__ = ["FIGURES_OF_STYLES"]

FIGURES_OF_STYLES: Final[Mapping[str, Mapping[str, tuple[object, str]]]] = {
    "drafting.alterations.finishes.button_places": {
        "_BELOW_NECK": (6.35, "Carr"),
        "_LAST": (1.5, "Carr"),
        "_LAST_AT_SEAM": (0.5, "ours"),
        "_SPACE": (80.0, "ours"),
        "_LEAST_SPACE": (60.0, "common practice, the figures ours"),
        "_MOST_SPACE": (90.0, "common practice, the figures ours"),
        "_BAND": (80.0, "common practice, the figure ours"),
        "_NEAR_SEAM": (15.0, "ours"),
        "_AT_BUST": (3.0, "ours"),
        "_CLOSEST": (0.8, "ours"),
        "_FINER": (0.3, "ours"),
        "_LEAST_SLOPE": (0.3, "ours"),
    },
    "drafting.alterations.finishes.button_stand": {
        "_LEAST_SLANT": (0.3, "ours"),
        "_SQUARE_WAIST": (0.97, "ours"),
    },
    "drafting.alterations.finishes.hem": {
        "_DEEPEST": (300.0, "ours"),
        "_MOST_EASED": (
            0.06,
            "ours; it gives a half circle on a knee-length skirt about the 1 1/2 in that the 4-H book gives",
        ),
        "_SQUARE": (math.radians(1.5), "ours"),
    },
    "drafting.alterations.finishes.level_hem": {
        "_LEVEL": (0.5, "ours"),
        "_ON_JOINT": (0.001, "ours"),
    },
    "drafting.alterations.finishes.opening": {
        "_BELOW_HIP": (15.0, "from memory, 1 to 2 cm"),
        "_AT_SEAM": (5.0, "ours"),
        "_BUTTON": (15.0, "ours"),
        "_SMALLEST": (6.0, "ours"),
        "_LARGEST": (60.0, "ours"),
        "_FEWEST": (2.0, "ours"),
        "_MOST": (40.0, "ours"),
    },
    "drafting.alterations.finishes.patch_pocket": {
        "_SMALLER": ((1.0, 0.9, 0.8, 0.7), "ours"),
        "_WIDE": (0.08, "common practice"),
        "_HIGH": (0.092, "common practice"),
        "_BREAST": ((0.064, 0.074), "common practice"),
        "_ABOVE_BUST": (40.0, "common practice"),
        "_LOW": (20.0, "ours"),
        "_CLEAR": (10.0, "ours"),
        "_LOWER": (60.0, "ours"),
        "_BELOW": (0.043, "common practice"),
        "_TURNED_IN": (25.0, "ours"),
        "_BELOW_BIB": (0.02, "ours"),
        "_STEP": (15.0, "ours"),
        "_OFF_DART": (15.0, "ours"),
    },
    "drafting.alterations.finishes.patch_shape": {
        "POINT_SHARE": (0.15, "ours"),
        "_ROUND": (0.2, "ours"),
        "_OVER_ALLOWANCE": (3.0, "ours"),
        "_GRAIN": (0.3, "ours"),
    },
    "drafting.alterations.finishes.pocket_bag": {
        "_WIDE": (0.086, "ours"),
        "_HANGS": (0.062, "ours"),
        "_MOST_LEAN": (math.radians(30.0), "ours"),
        "_LEAST_BELOW": (20.0, "ours"),
        "_CLEAR_OF_HEM": (2.0, "ours"),
        "LEAST_UNDER_MOUTH": (68.0, "ours"),
        "_GRAIN": (0.3, "ours"),
        "_TOP_ROUND": (0.4, "ours"),
        "_FOOT_ROUND": (0.4, "ours"),
        "_SLANT": (0.15, "ours"),
    },
    "drafting.alterations.finishes.pocket_sizes": {
        "HAND_WIDE": (0.0487, "ours"),
        "BESIDE_HAND": (20.0, "common practice"),
        "ROUNDED_AWAY": (1.6, "ours"),
        "_UNKNOWN": (1650.0, "ours"),
        "_ROUNDED": (5.0, "ours"),
    },
    "drafting.alterations.finishes.side_pocket": {
        "_BELOW_WAIST": (0.031, "common practice"),
        "_MOUTH": (0.095, "common practice"),
        "_LEFT": (20.0, "ours"),
        "_ON_SEAM": (0.001, "ours"),
        "_LOWEST": (0.16, "ours"),
    },
    "drafting.alterations.finishes.side_zip": {
        "SKIRT_ZIP": (180.0, "common practice, from memory"),
        "LEAST_LEFT": (20.0, "ours"),
        "_A_TRIFLE": (0.01, "ours"),
        "_ABOVE_WAIST": (160.0, "ours"),
    },
    "drafting.alterations.finishes.slanted_pocket": {
        "_ALONG": (0.0468, "ours"),
        "_DOWN": (0.0975, "ours"),
        "_INTO": (0.0312, "ours"),
        "_HANGS": (0.0624, "ours"),
        "_LEFT": (8.0, "ours"),
        "_LEAST_INTO": (36.0, "ours"),
        "_ABOVE_HIP": (10.0, "ours"),
        "_ROUND": (0.4, "ours"),
        "_LEAST_ALONG": (25.0, "ours"),
        "_LEAST_HANGS": (20.0, "ours"),
    },
    "drafting.alterations.skirt.band_and_yoke": {
        "_ABOVE_HIP": (15.0, "ours"),
        "_LEAST_OVER_HIP": (1.0, "ours"),
    },
    "drafting.alterations.skirt.cut_top": {
        "_MIDDLE": (0.5, "ours"),
        "_BESIDE": (20.0, "ours"),
        "_CLEAR": (0.2, "ours"),
    },
    "drafting.alterations.skirt.flare_skirt": {
        "_MOST_FLARE": (6000.0, "ours"),
    },
    "drafting.alterations.skirt.gather_skirt": {
        "_LEAST_RATIO": (1.1, "ours"),
        "_MOST_RATIO": (4.0, "ours"),
        "_LEAST_MORE": (0.005, "ours"),
    },
    "drafting.alterations.skirt.godet": {
        "_LEFT": (20.0, "ours"),
        "_ROUND": (math.pi, "ours: half a circle"),
        "_LIES": (0.0149, "ours, as it is checked"),
        "_NARROW": (10.0, "common practice"),
        "_LIES_NARROW": (0.1, "ours, as it is checked"),
    },
    "drafting.alterations.skirt.godet_slit": {
        "ALLOWANCE": (6.0, "common practice"),
    },
    "drafting.alterations.skirt.pleat_plan": {
        "_TOUCH": (1e-06, "ours"),
        "_ROOM": (14.0, "ours"),
    },
    "drafting.alterations.skirt.pleat_skirt": {
        "_LEVEL": (35.0, "ours: a waist does by 1 or 2 cm"),
        "_UPRIGHT": (0.001, "ours"),
        "_ROUNDING": (1e-06, "ours"),
        "_SEEN": (4.0, "ours"),
    },
    "drafting.alterations.skirt.pointed_bodice": {
        "_SHORTER": (0.96, "ours"),
        "_MOST_RAISED": (1.5, "ours"),
        "_TURNED": (11.0, "ours"),
        "_STEP": (0.001, "ours"),
        "_BEYOND": (100.0, "ours"),
        "_MOST_BOWED": (0.11985631024241576, "ours"),
    },
    "drafting.alterations.skirt.pointed_waist": {
        "_PARTS": (2, "ours"),
        "_MOST_EASED": (0.055, "ours; 8 in 100 in an armhole"),
        "_MOST_TAKEN": (15.0, "ours"),
        "_SEWN_PLAIN": (0.5, "ours"),
        "_DEEPEST": (120.0, "ours"),
        "_ROUNDED": (2.0, "ours"),
        "_APART": (4.0, "ours"),
    },
    "drafting.alterations.skirt.quarters_to_change": {
        "MOST_CUTS": (20, "ours"),
    },
    "drafting.alterations.skirt.skirt_top": {
        "_LEAST_LEFT": (6.0, "common practice"),
        "_ENDS_ON": (1e-09, "ours"),
        "_CORNER": (math.radians(0.3), "ours"),
        "_ROUNDED": (25.0, "ours"),
        "_MEETS": (1e-07, "ours"),
        "_SQUARE": (math.radians(0.1), "ours"),
        "_LED": (60.0, "ours"),
        "_SHARE": (0.9, "ours"),
        "_BEYOND": (1.0, "ours"),
        "_FAR": (500.0, "ours"),
    },
    "drafting.alterations.skirt.wider_dart": {
        "_WIDEST": (0.4, "ours"),
    },
    "drafting.alterations.skirt.wrap_over": {
        "_OVERLAP": (76.2, "ours"),
        "_LEAST": (30.0, "ours"),
        "_MOST": (400.0, "ours"),
    },
    "drafting.alterations.skirt.wrapped_front": {
        "_ROOM": (10.0, "ours"),
    },
    "drafting.alterations.styles.bodice_halves": {
        "_LEFT": (15.0, "ours"),
    },
    "drafting.alterations.styles.dropped_shoulder": {
        "_LEAST_CAP": (20.0, "ours"),
        "_TRIED": ((0.1, 0.25, 0.4, 0.55, 0.7, 0.85, 1.0), "ours"),
        "_ONE_WAY": (math.radians(1.0), "ours"),
        "_CUT_IN": (1.0, "ours"),
        "_ROUNDED": (0.5, "ours"),
        "_ON_EDGE": (0.001, "ours"),
    },
    "drafting.alterations.styles.empire": {
        "_BELOW_BUST": (80.0, "common practice: 7 to 9 cm"),
        "_BELOW_ARMHOLE": (30.0, "ours: for a child"),
        "_LEAST": (55.0, "ours"),
        "_LEAST_ABOVE": (20.0, "ours: less is a strip, without grain"),
    },
    "drafting.alterations.styles.kimono": {
        "_USUAL": (15.0, "ours: with the shoulder it slopes by 35 degrees"),
        "_MOST": (40.0, "ours"),
        "_LEAST_DROP": (10.0, "ours"),
        "_LEAST_SIDE": (30.0, "ours"),
        "_BEFORE_SHOULDER": (25.0, "common practice: a centimetre; the rest ours"),
    },
    "drafting.alterations.styles.kimono_half": {
        "MOUTH": (15.0, "ours"),
        "_ROUND": (60.0, "ours"),
    },
    "drafting.alterations.styles.kimono_pieces": {
        "_NOTCH": (150.0, "ours"),
        "_SLIT": (6.0, "common practice"),
    },
    "drafting.alterations.styles.raglan": {
        "_TRUED": (0.01, "ours"),
        "_LEAST_DART": (12.0, "ours"),
        "_BOWED": (math.radians(9.0), "ours"),
        "_ARRIVES": (0.4, "common practice; the angles are ours"),
        "_LOWEST": (25.0, "ours"),
    },
    "drafting.alterations.styles.raglan_sleeve": {
        "_MORE": (1.0, "ours"),
        "_ROUND": (24.0, "ours"),
        "_ROUNDS": (60, "ours"),
        "_STILL": (1e-07, "ours"),
        "_TURNS": (math.radians(24.0), "ours"),
        "_LEAN": (math.radians(14.0), "ours"),
        "_LEAST_TURN": (0.5, "ours"),
        "_STRAIGHT": (0.5, "ours"),
        "_POINT": (math.radians(7.0), "ours: a dart that ends smoothly"),
    },
    "drafting.alterations.styles.sleeve_head": {
        "_NEAR": (12.0, "ours"),
    },
    "drafting.alterations.styles.smock": {
        "_GIVES": (0.1, "ours, as for a dart that is gathered"),
        "_DEPTH": (120.0, "ours"),
        "_CHILDS": ((60.0, 90.0), "common practice"),
        "_DRESS": (550.0, "ours"),
        "_HEAD_EASE": (10.0, "ours"),
        "_LEAST_SLIT": (80.0, "ours"),
        "_LEAN": (0.6, "ours"),
        "_LEAST_SIDE": (20.0, "ours"),
    },
    "drafting.alterations.styles.smock_piece": {
        "FLAT": (25.0, "common practice"),
        "_HEM_ALLOWANCE": (30.0, "common practice for a straight hem"),
    },
}
"""By module and constant: its value (mm, degrees or a share, as the module says) and who says so."""
