"""A stranger reads pattern.json alone and measures: a facing is as long as the neck, a band as waist and underlap."""

from __future__ import annotations

import json
import math
from contextlib import suppress
from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
import pytest

from blocks.garment import draft, prepare
from drafting.alterations import Alteration, NeckGape, Neckline, ShoulderWidth, TakeIn, apply_step
from drafting.errors import StepRefused, TrueseamError
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Pattern
from drafting.pattern.text import to_json
from tests.bodies import women
from tests.drafting.sizes import order

EVERY = 120
UNDERLAP, HEIGHT, DEPTH = 25.0, 32.0, 62.0
ALTERED: tuple[Alteration | None, ...] = (
    None,
    Neckline(depth=30.0, width=10.0),
    Neckline(depth=60.0, shape="V"),
    ShoulderWidth(amount=5.0),
    NeckGape(amount=6.0),
    TakeIn(waist=20.0, bust=10.0),
)


_T = np.linspace(0.0, 1.0, 2001)[:, None]
_WEIGHTS = np.hstack([(1 - _T) ** 3, 3 * _T * (1 - _T) ** 2, 3 * _T**2 * (1 - _T), _T**3])


def length(curves: list[list[list[float]]]) -> float:
    """By two thousand chords of each curve."""
    total = 0.0
    for curve in curves:
        if len(curve) == 2:
            total += math.dist(*curve)
        else:
            total += float(np.hypot(*np.diff(_WEIGHTS @ np.array(curve), axis=0).T).sum())
    return total


def along(piece: dict[str, Any], *places: str) -> float:
    return sum(length(edge["curves"]) for edge in piece["outline"] if edge.get("place") in places)


@cache
def drafted(blocks: tuple[str, ...], part: str, options: tuple[tuple[str, float | str], ...]) -> tuple[Pattern, ...]:
    """Some women's garments of these blocks with a part, drafted once for all that is altered on them."""
    found = []
    for person in women()[::EVERY]:
        ordered = part_of(find_part(part), dict(options))
        garment = replace(order(*blocks), wearer=person, sizes=None, parts=(ordered,))
        with suppress(TrueseamError):  # four of the women cannot be drafted for
            found.append(draft(garment, prepare(garment)))
    return tuple(found)


def made(
    blocks: tuple[str, ...], part: str, options: dict[str, float | str], step: Alteration | None
) -> list[dict[str, Any]]:
    """The documents of some women's garments, each altered after its part was ordered."""
    documents = []
    for pattern in drafted(blocks, part, tuple(options.items())):
        with suppress(StepRefused):  # for a reason of the body: the property tests hold that a part is none
            documents.append(json.loads(to_json(pattern if step is None else apply_step(pattern, step))))
    return documents


@pytest.mark.parametrize("step", ALTERED, ids=str)
def test_a_neck_facing_is_as_long_as_the_neck_and_as_deep_as_was_asked(step: Alteration | None) -> None:
    documents = made(("bodice", "sleeve"), "neck facing", {"depth": DEPTH}, step)
    assert len(documents) > 6
    for document in documents:
        pieces = {piece["name"]: piece for piece in document["pieces"]}
        shoulders = []
        for half in ("front", "back"):
            strip, own = pieces[f"{half} neck facing"], pieces[f"bodice {half}"]
            assert (strip["kind"], strip["of"], strip["part"]) == ("facing", half, "bodice")
            assert along(strip, "neck") == pytest.approx(along(own, "neck"), abs=0.01)
            centre = "centre front" if half == "front" else "centre back"
            assert along(strip, centre) >= DEPTH - 0.05  # a V leaves its point deeper
            assert strip["cut"]["interfacing"] == strip["cut"]["count"] == own["cut"]["count"]
            shoulders.append(along(strip, "shoulder"))
        assert shoulders[0] == pytest.approx(shoulders[1], abs=0.01)
        assert shoulders[0] == pytest.approx(DEPTH, abs=6.0)


@pytest.mark.parametrize("step", [None, TakeIn(waist=20.0, hip=10.0), TakeIn(waist=-30.0)], ids=str)
def test_a_waistband_is_as_long_as_the_waist_and_its_underlap(step: Alteration | None) -> None:
    documents = made(("skirt",), "waistband", {"height": HEIGHT, "underlap": UNDERLAP}, step)
    assert len(documents) > 6
    for document in documents:
        pieces = {piece["name"]: piece for piece in document["pieces"]}
        band, skirt = pieces["waistband"], (pieces["skirt front"], pieces["skirt back"])
        round_waist = 2.0 * sum(along(piece, "waist") for piece in skirt)
        ys = [y for edge in band["outline"] for curve in edge["curves"] for _, y in curve]
        xs = [x for edge in band["outline"] for curve in edge["curves"] for x, _ in curve]
        assert max(xs) - min(xs) == pytest.approx(round_waist + UNDERLAP, abs=0.01)
        assert max(ys) - min(ys) == pytest.approx(2.0 * HEIGHT, abs=1e-6)
        assert along(band, "waist") == pytest.approx(round_waist, abs=0.01)
        (fold,) = [line for line in band["lines"] if line.get("level") == "fold line"]
        assert fold["from"][1] == fold["to"][1] == pytest.approx(HEIGHT)
        # side seams and centre front where the quarters of the skirt end, from the opening on
        at = sorted(starts(band, notch) for notch in band["notches"])
        back, front = along(skirt[1], "waist"), along(skirt[0], "waist")
        wanted = [UNDERLAP, UNDERLAP + back, UNDERLAP + back + front, UNDERLAP + back + 2.0 * front]
        assert at == pytest.approx(wanted, abs=0.01)
        assert band["cut"] == {"count": 1, "fold": False, "mirror": False, "interfacing": 1}


def test_a_flat_collar_is_as_long_as_the_neck_less_its_ease_and_its_under_collar_smaller() -> None:
    documents = made(("bodice", "sleeve"), "flat collar", {"width": 60.0, "ease": 4.0, "turn": 3.0}, None)
    assert len(documents) > 6
    for document in documents:
        pieces = {piece["name"]: piece for piece in document["pieces"]}
        top, under = pieces["collar"], pieces["under collar"]
        neck = sum(along(pieces[f"bodice {half}"], "neck") for half in ("front", "back"))
        for piece in (top, under):
            assert (piece["kind"], piece["part"]) == ("collar", "bodice")
            assert along(piece, "neck") == pytest.approx(neck - 4.0, abs=0.02)
        assert along(under, "outer edge of a collar") < along(top, "outer edge of a collar")
        # the dress opens behind: its end there is as long as the collar is wide
        back = [length(edge["curves"]) for edge in top["outline"] if edge["edge"] == "back end"]
        assert back == [pytest.approx(60.0, abs=0.02)]


def test_a_stand_collar_is_a_part_of_a_ring_as_long_as_the_neck() -> None:
    """Its rise and what its upper edge is shorter follow from one angle: rise = (n / psi) (1 - cos psi)."""
    for document in made(("bodice",), "stand collar", {"height": 30.0, "rise": 15.0, "ends": "square"}, None):
        pieces = {piece["name"]: piece for piece in document["pieces"]}
        collar = pieces["collar"]
        neck = sum(along(pieces[f"bodice {half}"], "neck") for half in ("front", "back"))
        assert along(collar, "neck") == pytest.approx(neck, abs=0.02)
        ys = [edge["curves"][-1][-1][1] for edge in collar["outline"] if edge.get("place") == "neck"]
        low, high = 1e-6, 1.0
        for _ in range(60):
            psi = 0.5 * (low + high)
            low, high = (psi, high) if neck / psi * (1.0 - math.cos(psi)) < 15.0 else (low, psi)
        assert max(ys) == pytest.approx(15.0, abs=0.01)
        upper = along(collar, "outer edge of a collar")
        assert upper == pytest.approx(neck - 30.0 * psi, abs=0.05)


def starts(band: dict[str, Any], notch: dict[str, Any]) -> float:
    """How far from the beginning of the band a notch lies."""
    edge = next(each for each in band["outline"] if each["edge"] == notch["edge"])
    line = edge["curves"][0]
    return float(line[0][0] + notch["at"] if notch["from"] == "start" else line[-1][0] - notch["at"])
