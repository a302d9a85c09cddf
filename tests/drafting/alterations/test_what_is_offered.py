"""What a refusal offers: which option, how much of it, and that this drafts; one for each place that offers something.

The amounts are those of one woman of the survey, in whole millimetres, so that a wrong option or limit shows.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

import pytest

from drafting.alterations import apply_step
from drafting.errors import StepRefused
from drafting.reading.options import Value
from tests.alteration_samples import Options, sample
from tests.wardrobe import a_garment

OFFERED: Final[tuple[tuple[str, str, Options, tuple[Mapping[str, Value], ...]], ...]] = (
    ("dress", "neckline", {"width": 100.0}, ({"width": 32.0},)),
    ("dress", "neckline", {"depth": 300.0}, ({"depth": 184.0},)),
    ("dress", "neckline", {"depth": 15.0, "back": -20.0}, ({"back": -10.0},)),
    ("dress", "neckline", {"depth": 15.0, "back": 300.0}, ({"back": 260.0},)),
    ("dress", "neckline", {"depth": 15.0, "width": 45.0}, ({"back": 6.0}, {"width": 32.0})),
    ("dress", "opening", {"at": "centre front", "fasten": "buttons", "how_many": 40.0}, ({"how_many": 36.0},)),
    (
        "dress",
        "opening",
        {"at": "centre front", "fasten": "buttons", "button": 60.0, "how_many": 12.0},
        ({"how_many": 11.0},),
    ),
    ("dress", "opening", {"at": "centre back", "length": 1500.0}, ({"length": 1048.0},)),
    ("dress", "opening", {"at": "side", "length": 1500.0}, ({"length": 817.0},)),
    ("dress", "yoke", {"on": "back", "depth": 250.0}, ({"depth": 208.0},)),
    ("dress", "yoke", {"on": "back", "depth": 30.0}, ({"depth": 55.0},)),
    ("dress", "yoke", {"on": "both", "depth": 100.0, "dip": -30.0}, ({"depth": 103.0},)),
    ("dress", "yoke", {"on": "back", "depth": 30.0, "dip": -30.0}, ({"depth": 67.0},)),
    ("dress", "smock", {"length": -150.0}, ({"length": -145.0},)),
    ("dress", "empire seam", {"below": 250.0}, ({"below": 87.0},)),
    ("dress", "side pocket", {"width": 300.0}, ({"width": 256.0},)),
    ("dress", "side pocket", {"mouth": 78.0}, ({"mouth": 105.0},)),
    ("dress", "patch pocket", {"piece": "skirt front", "width": 40.0}, ({"width": 105.0},)),
    ("dress", "patch pocket", {"piece": "skirt front", "width": 400.0}, ({"width": 235.0},)),
    ("dress", "patch pocket", {"piece": "skirt front", "from_centre": 600.0}, ({"from_centre": 120.0},)),
    ("dress", "patch pocket", {"piece": "skirt front", "from_centre": 300.0}, ({"from_centre": 120.0},)),
    ("dress", "patch pocket", {"piece": "skirt front", "below": 1000.0}, ({"below": 445.0},)),
    ("dress", "slanted pocket", {"along": 30.0, "down": 70.0}, ({"down": 105.0},)),
    ("dress", "slanted pocket", {"along": 200.0}, ({"along": 61.0},)),
    ("dress", "slanted pocket", {"down": 280.0}, ({"down": 271.0},)),
    ("dress", "slanted pocket", {"along": 120.0, "down": 120.0, "hangs": 20.0}, ({"along": 61.0},)),
    ("dress", "wrap over", {"overlap": 80.0, "slant": -400.0}, ({"slant": -70.0},)),
    ("skirt", "skirt yoke", {"depth": 260.0}, ({"depth": 245.0},)),
    ("dress", "pointed waist", {"depth": 15.0}, ({"depth": 26.0},)),
    ("dress", "dropped shoulder", {"by": 100.0}, ({"by": 53.0},)),
    ("shirt", "small bust", {"by": 4.0}, ({"waist": "goes along"},)),
    ("shirt", "small bust", {"by": 4.0, "waist": "kept"}, ({"waist": "goes along"},)),
    ("jumpsuit", "crotch curve", {"by": 20.0, "half": "front"}, ({"by": 19.0},)),
    ("trousers", "crotch curve", {"by": -20.0, "half": "front"}, ({"by": -17.0},)),
    ("dress", "room to grow", {"piece": "skirt front", "by": 40.0, "at": "waist"}, ({"at": "tuck"},)),
    (
        "dress",
        "move a dart",
        {"piece": "bodice front", "dart": "waist dart", "to": "side seam", "part": 0.99},
        ({"part": 1.0},),
    ),
    ("dress", "godet", {"long": 900.0}, ({"long": 639.0},)),
    ("dress", "back width", {"amount": -20.0}, ({"amount": -12.0},)),
    ("dress", "back width", {"amount": 30.0, "into": "ease"}, ({"into": "dart"}, {"amount": 25.0})),
    ("dress", "back width", {"amount": -20.0, "into": "ease"}, ({"amount": -1.0},)),
    ("dress", "rounded back", {"amount": 20.0, "into": "ease"}, ({"into": "dart"}, {"amount": 14.0})),
    ("dress", "upper arm", {"by": 30.0, "keep": "cap height"}, ({"keep": "cap seam"}, {"by": 29.0})),
    (
        "dress",
        "dart into gathers",
        {"piece": "bodice front", "dart": "bust dart", "how": "ease"},
        ({"how": "gathers"},),
    ),
    ("dress", "fit sleeve", {"cap_ease": 120.0}, ({"cap_ease": 45.0},)),
    ("dress", "armhole", {"lower": 100.0}, ({"only": "bodice"}, {"lower": 97.0})),
    ("trousers", "slanted pocket", {"down": 300.0}, ({"down": 266.0},)),
    ("fly trousers", "slanted pocket", {"along": 105.0, "down": 100.0, "hangs": 20.0}, ({"along": 55.0},)),
    ("circle skirt", "slanted pocket", {"along": 180.0, "down": 100.0, "hangs": 20.0}, ({"along": 65.0},)),
    (
        "dress",
        "move a dart",
        {"piece": "bodice front", "dart": "waist dart", "to": "side seam", "at": 250.0, "measured_from": "armhole"},
        ({"at": 192.0},),
    ),
    ("dress", "godet", {"hem": 1500.0}, ({"hem": 785.0},)),
    ("dress", "godet", {"hem": 1500.0, "long": 100.0}, ({"hem": 314.0},)),
    ("dress", "godet", {"at": "centre back", "long": 900.0}, ({"long": 338.0},)),
    ("skirt", "gather skirt", {"ratio": 1.1}, ({"ratio": 1.25},)),
    ("dress", "kimono", {"bend": 40.0}, ({"bend": 25.0},)),
    ("dress", "kimono", {"lift": 75.0}, ({"lift": 70.0},)),
    ("dress", "shoulder slope", {"amount": -25.0}, ({"amount": -21.0},)),
    ("skirt", "opening", {"at": "side", "length": 1500.0}, ({"length": 636.0},)),
    ("skirt", "opening", {"at": "side", "length": 900.0}, ({"length": 636.0},)),
    ("jumpsuit", "pointed waist", {"depth": 15.0}, ({"depth": 24.0},)),
    ("gored skirt", "skirt yoke", {"depth": 250.0}, ({"depth": 245.0},)),
    ("circle skirt", "skirt yoke", {"depth": 250.0}, ({"depth": 237.0},)),
    ("tiered skirt", "skirt yoke", {"depth": 250.0}, ({"depth": 178.0},)),
    ("dress", "yoke", {"on": "front", "depth": 250.0}, ({"depth": 191.0},)),
    ("circle dress", "take in", {"waist": 10.0, "darts": 0.5}, ({"darts": 0.0},)),
    ("dress", "small bust", {"by": 40.0}, ({"by": 39.0},)),
    ("dress", "lengthen", {"piece": "skirt front", "by": -600.0}, ({"by": -186.0},)),
    ("dress", "lengthen", {"piece": "bodice front", "by": -200.0}, ({"by": -67.0},)),
    ("dress", "patch pocket", {"piece": "skirt front", "below": 440.0, "height": 250.0}, ({"height": 165.0},)),
    ("dress", "neckline", {"width": 100.0, "back": 50.0}, ({"width": 68.0},)),
    ("dress", "neck gape", {"amount": 20.0}, ({"amount": 19.0},)),
    ("dress", "wrap over", {"overlap": 400.0}, ({"overlap": 171.0},)),
    ("dress", "wrap over", {"overlap": 80.0, "slant": 400.0}, ({"overlap": 41.0, "slant": 209.0},)),
)
"""A garment, an alteration that is refused on it, its options, and the options of each remedy."""


@pytest.mark.parametrize(("kind", "name", "options", "offered"), OFFERED, ids=str)
def test_a_refusal_offers_these_options_and_what_it_offers_drafts(
    kind: str, name: str, options: Options, offered: tuple[Mapping[str, Value], ...]
) -> None:
    step = sample(name, options)
    with pytest.raises(StepRefused) as refused:
        apply_step(a_garment(kind), step)
    changes = [each for each in refused.value.remedies if each.act == "change"]
    told = tuple({setting.option: setting.value for setting in each.settings} for each in changes)
    assert told == offered
    assert {each.alteration for each in changes} == {name}
    for each in told:
        apply_step(a_garment(kind), replace(step, **each))
