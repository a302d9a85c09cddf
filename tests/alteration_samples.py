"""Sensible options of every alteration, small, middle and large, for sweeps over bodies and for chains.

Sizes are told as for a dress of the chart's size 92; `at_size` shifts them to another. The sleeve that is put in is
that of the dress in a size of the chart, whose name stands where a garment file has the name of another.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from drafting.alterations import ALTERATIONS, Alteration, PutSleeveIn, make_step
from drafting.alterations.sleeve.other_sleeve import with_sleeve_of
from drafting.body.charts import SIZES
from drafting.pattern import Step
from drafting.reading.options import Value
from tests.drafting.sizes import sized

__all__ = ["SAMPLES", "TROUSER_SAMPLES", "Options", "at_size", "sample"]

Options = Mapping[str, Value]

SAMPLES: Final[Mapping[str, tuple[Options, ...]]] = {
    "lengthen": (
        {"piece": "sleeve", "by": 10.0},
        {"piece": "sleeve", "by": -100.0, "hem": "as tapered"},
        {"piece": "bodice front", "by": -20.0},
        {"piece": "skirt front", "by": 200.0},
    ),
    "blend": ({"waist": 96}, {"waist": 100, "hip": 84}, {"waist": 84, "hip": 104}),
    "upper arm": ({"by": 10.0}, {"by": 20.0}, {"by": 30.0}, {"by": 10.0, "keep": "cap height"}, {"by": -20.0}),
    "fit sleeve": ({"cap_ease": 10.0}, {"cap_ease": 25.0}, {"cap_ease": 40.0, "keep": "cap height"}),
    "put sleeve in": ({"garment": "96"}, {"garment": "100"}, {"garment": "104", "keep": "cap height"}),
    "armhole": ({"lower": 5.0}, {"lower": 10.0, "cut_in": 3.0}, {"lower": 20.0}, {"lower": -10.0}),
    "full sleeve": (
        {"hem": 60.0},
        {"cap": 40.0, "hem": 40.0},
        {"cap": 120.0},
        {"hem": 300.0, "cuts": 12.0},
        {"cap": 100.0, "hem": 200.0},
    ),
    "flare skirt": (
        {},
        {"hem": 100.0, "how": "slashes"},
        {"hem": 600.0, "how": "slashes"},
        {"hem": 1500.0, "how": "slashes", "cuts": 5.0},
    ),
    "pointed waist": ({"depth": 40.0}, {"depth": 60.0}, {"depth": 80.0}),
    "shaped band": ({"depth": 30.0}, {"depth": 45.0}, {"depth": 70.0}),
    "skirt yoke": ({"depth": 60.0}, {"depth": 90.0}, {"depth": 120.0}),
    "gather skirt": ({"ratio": 1.5}, {"ratio": 2.0}, {"ratio": 3.0}),
    "pleat skirt": ({}, {"pleats": "box", "wide": 80.0}, {"pleats": "inverted", "depth": 20.0}),
    "full bust": ({"by": 10.0}, {"by": 25.0}, {"by": 50.0}),
    "small bust": ({"by": 4.0}, {"by": 8.0}, {"by": 12.0}),
    "move a dart": (
        {"piece": "bodice front", "dart": "bust dart", "to": "side seam", "measured_from": "armhole", "part": 0.3},
        {"piece": "bodice front", "dart": "bust dart", "to": "side seam", "measured_from": "armhole", "share": 0.4},
        {"piece": "bodice front", "dart": "bust dart", "to": "waist dart"},
        {"piece": "bodice front", "dart": "waist dart", "to": "side seam"},
        {"piece": "bodice back", "dart": "shoulder dart", "to": "neck", "beyond": 38.0},
    ),
    "dart into gathers": (
        {"piece": "bodice back", "dart": "shoulder dart", "how": "ease"},
        {"piece": "bodice back", "dart": "waist dart"},
        {"piece": "bodice front", "dart": "bust dart"},
    ),
    "yoke": (
        {"on": "back", "depth": 80.0, "dip": 10.0},
        {"on": "both", "depth": 100.0},
        {"on": "front", "depth": 130.0, "left_over": "gathers"},
    ),
    "empire seam": (
        {},
        {"rise": 0.0, "left_over": "gathers"},
        {"below": 30.0, "rise": 20.0},
    ),
    "dropped shoulder": ({"by": 6.0}, {"by": 9.0}, {"by": 12.0}),
    "smock": (
        {},
        {"depth": 100.0, "fullness": 1.4, "length": -50.0, "flare": 0.0},
        {"depth": 150.0, "fullness": 2.0, "length": 500.0, "flare": 80.0},
    ),
    "raglan": (
        {"front": 20.0, "back": 15.0, "dart": 50.0},
        {},
        {"front": 40.0, "back": 20.0, "left_over": "gathers"},
    ),
    "saddle shoulder": (
        {"front": 20.0, "back": 20.0},
        {},
        {"front": 40.0, "back": 25.0, "left_over": "gathers"},
    ),
    "kimono": (
        {},
        {"lift": 30.0},
        {"bend": 5.0, "lift": 45.0},
    ),
    "dart into seam": (
        {"piece": "bodice front", "dart": "bust dart", "to": "waist dart"},
        {"piece": "bodice back", "dart": "waist dart", "to": "armhole"},
        {"piece": "skirt front", "dart": "waist dart", "to": "hem"},
    ),
    "take in": (
        {"waist": 10.0},
        {"waist": 20.0, "hip": 20.0, "bust": 20.0},
        {"waist": -40.0, "hip": -40.0, "bust": -40.0},
        {"waist": 20.0, "darts": 0.5, "centre_back": 0.2},
    ),
    "hem": (
        {"piece": "skirt front", "depth": 30.0},
        {"piece": "skirt front", "grow": 60.0, "level": True},
        {"piece": "skirt front", "depth": 100.0, "finish": "facing"},
    ),
    "room to grow": (
        {"piece": "skirt front", "by": 40.0, "until": "2027-08-01"},
        {"piece": "sleeve", "by": 20.0, "at": "tuck"},
        {"piece": "bodice front", "by": 13.0, "at": "tuck"},
        {"piece": "sleeve", "by": 10.0},
    ),
    "opening": (
        {"at": "centre front", "fasten": "buttons", "how_many": 12.0},
        {"at": "centre back", "length": 560.0},
        {"at": "centre front", "fasten": "buttons", "button": 15.0},
        {"at": "side", "length": 350.0},
    ),
    "side pocket": (
        {"mouth": 130.0},
        {},
        {"mouth": 180.0, "below_waist": 40.0, "width": 120.0, "hangs": 80.0},
    ),
    "godet": ({}, {"long": 180.0, "hem": 120.0}, {"at": "centre back", "long": 300.0, "hem": 350.0}),
    "slanted pocket": ({}, {"down": 140.0}, {"along": 60.0, "down": 150.0, "hangs": 80.0}),
    "patch pocket": (
        {"piece": "skirt front"},
        {"piece": "skirt back", "shape": "pointed"},
        {"piece": "skirt front", "left_only": True, "width": 80.0, "height": 90.0, "below": 300.0},
    ),
    "wrap over": ({"overlap": 80.0}, {"overlap": 120.0, "slant": 60.0}, {"overlap": 140.0, "slant": -60.0}),
    "sway back": ({"depth": 5.0}, {"depth": 12.0}, {"depth": 25.0}, {"depth": 20.0, "centre_back": "seam"}),
    "rounded back": (
        {"amount": 5.0},
        {"amount": 10.0},
        {"amount": 20.0},
        {"amount": -5.0},
        {"amount": 5.0, "into": "ease"},
    ),
    "back width": (
        {"amount": 5.0},
        {"amount": 12.0},
        {"amount": 25.0},
        {"amount": -5.0},
        {"amount": 10.0, "into": "ease"},
    ),
    "forward shoulder": ({"amount": 5.0}, {"amount": 10.0}, {"amount": 20.0}, {"amount": -10.0}),
    "shoulder slope": (
        {"amount": 5.0},
        {"amount": 10.0, "pad": 10.0},
        {"amount": 20.0},
        {"amount": -15.0},
        {"pad": 20.0},
    ),
    "shoulder width": ({"amount": 5.0}, {"amount": -8.0}, {"amount": 20.0}, {"amount": -15.0}),
    "neckline": (
        {"depth": 15.0},
        {"depth": 60.0, "shape": "V"},
        {"depth": 80.0, "width": 30.0, "back": 20.0},
        {"depth": 110.0, "width": 10.0, "shape": "V"},
    ),
    "neck gape": ({"amount": 3.0}, {"amount": 6.0}, {"amount": 12.0}, {"amount": 3.0, "half": "back"}),
}
"""By the name of each alteration, in the order of the amounts."""

TROUSER_SAMPLES: Final[Mapping[str, tuple[Options, ...]]] = {
    "crotch length": ({"front": 8.0}, {"back": 10.0}, {"front": -8.0, "back": -10.0}, {"front": 15.0, "back": 25.0}),
    "seat": ({"by": 10.0}, {"by": 25.0}, {"by": -10.0}),
    "full thigh": ({"by": 10.0}, {"by": 25.0}, {"by": -12.0}),
    "crotch curve": ({"by": 5.0}, {"by": 6.0, "half": "front"}, {"by": -8.0}),
    "leg line": ({"by": 5.0}, {"by": 10.0}, {"by": -10.0}),
}
"""The same for those that only trousers take."""


_TOLD_FOR: Final = 92
_SIZES_OF: Final = {"blend": ("waist", "hip"), "put sleeve in": ("garment",)}


def at_size(name: str, options: Options, size: int) -> Options | None:
    """The options for a dress of another size, or nearest to it: the sizes as much further. None beyond the chart."""
    keys = _SIZES_OF.get(name, ())
    shifted = {key: int(str(options[key])) + size - _TOLD_FOR for key in keys if key in options}
    if not set(shifted.values()) <= set(SIZES):
        return None
    return {**options, **{key: str(to) if isinstance(options[key], str) else to for key, to in shifted.items()}}


def sample(name: str, options: Options) -> Alteration:
    """The alteration with these options, lengths in mm."""
    made = make_step(Step(name, tuple(options.items())), ALTERATIONS)
    if isinstance(made, PutSleeveIn):
        return with_sleeve_of(made, sized(int(made.garment), "bodice", "sleeve"))
    return made
