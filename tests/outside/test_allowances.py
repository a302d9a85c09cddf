"""The cutting lines and notches in pattern.json, judged by a stranger with numpy and shapely (`allowances.py`).

Real bodies: women of the 1988 survey. What is held to is the practice of the trade, in the docstrings of the checks
(drafting/checks/allowances.py): a hem turned up lies on the cloth, cut edges can be laid together, notches are notches.
"""

from __future__ import annotations

import json
from itertools import cycle

import pytest

from drafting.alterations import Kimono, apply_step
from drafting.checks import check_pattern
from drafting.errors import TrueseamError
from drafting.geometry import Curve, Line
from drafting.pattern.cutting import cutting_line
from drafting.pattern.text import to_json
from drafting.reading.options import Value
from tests.alteration_samples import SAMPLES, sample
from tests.drafting.dress import dress
from tests.drafting.dresses import checked, dresses
from tests.examples import NAMES, example_pattern
from tests.outside import allowances
from tests.outside.allowances import Json
from tests.sampling import some

ALIKE = 1.0  # mm: what may be laid together differs by no more
LIES = 3.0  # mm of a hem's raw edge beside the piece it lies on
NARROW = 10.0  # mm: a hem turned twice by half of it is eased in on a curve that bulges (common practice)
EASED = 0.11  # of its fold, by which the raw edge of such a hem may be longer (an armhole takes in 8 in 100)
STRAIGHT = 0.3  # mm: a fold that strays no further from straight is one
APART = 8.0 - 1e-3  # mm between two notches
SQUARE = 2.0  # degrees: seen over a millimetre of a line that bends with 15 mm, a notch square to it is 1.9 off
ALTERED = [name for name in SAMPLES if name != "blend"]


def test_as_drafted_hems_lie_ends_are_alike_and_notches_are_notches() -> None:
    for pattern in dresses()[::2]:
        who, table = pattern.wearer.name, json.loads(to_json(pattern))
        assert _faults(table) == [], who
        assert all(hem.bow < STRAIGHT for hem in allowances.hems(table) if hem.where == "sleeve wrist"), who


@pytest.mark.parametrize(
    ("name", "every"),
    [
        *some([(name, 2) for name in ALTERED], every=4),
        *(pytest.param(name, 1, marks=pytest.mark.whole) for name in ALTERED),
    ],
)
def test_after_every_alteration_too(name: str, every: int) -> None:
    looked = 0
    # two bodies take turns at the amounts
    for pattern, options in zip(cycle(dresses()[1:]), SAMPLES[name][::every], strict=False):
        try:
            after = apply_step(pattern, sample(name, options))
        except TrueseamError:
            continue
        table = json.loads(to_json(after, check_pattern(after, known=checked(pattern)).results))
        assert _faults(table) == [], (pattern.wearer.name, options)
        assert _unsaid(table) == [], (pattern.wearer.name, options)
        looked += 1
    assert looked


@pytest.mark.parametrize("name", some(NAMES, every=8))
def test_every_piece_of_every_example_lies_within_its_cutting_line(name: str) -> None:
    assert list(allowances.uncovered(json.loads(to_json(example_pattern(name))))) == []


@pytest.mark.parametrize("name", NAMES)
def test_no_cutting_line_of_an_example_has_a_step_too_low_to_cut(name: str) -> None:
    assert list(allowances.steps(json.loads(to_json(example_pattern(name))))) == []


@pytest.mark.parametrize(
    ("name", "options"),
    [
        ("lengthen", {"piece": "sleeve", "by": 30.0}),
        ("lengthen", {"piece": "sleeve", "by": -100.0}),
        ("take in", {"waist": 10.0}),
        ("full sleeve", {"hem": 300.0}),
    ],
)
def test_a_kimono_of_an_altered_dress_lies_within_its_cutting_line(name: str, options: dict[str, Value]) -> None:
    # its slits are narrower than their allowances: the loop where these lap over each other was cut out wrongly once
    after = apply_step(apply_step(dress(), sample(name, options)), Kimono())
    assert list(allowances.uncovered(json.loads(to_json(after)))) == []


def test_the_blunt_ends_of_a_collar_are_cut_without_a_spike() -> None:
    table = json.loads(to_json(example_pattern("ropewalk-shirt")))
    collars = [piece for piece in table["pieces"] if piece["name"] in ("collar", "under collar")]
    assert len(collars) == 2
    assert max(map(allowances.sharpest_hollow, collars)) < 20.0


def test_the_stranger_misses_what_is_wrong() -> None:
    pattern = dresses()[0]
    leaning = apply_step(pattern, sample("forward shoulder", {"amount": 20.0}))
    table = json.loads(to_json(leaning))
    for piece in table["pieces"]:
        # mitred, as if it were sewn to nothing
        piece["cutting_line"] = [_points(curve) for curve in cutting_line(leaning.piece(piece["name"]))]
    assert {_kind(fault) for fault in _faults(table)} == {"end"}
    table = json.loads(to_json(pattern))
    front = next(piece for piece in table["pieces"] if piece["name"] == "bodice front")
    for curve in front["cutting_line"]:
        for point in curve:
            point[0] += 20.0
    assert _kind(next(iter(allowances.uncovered(table)))) == "bodice front"
    table = json.loads(to_json(pattern))
    sleeve = next(piece for piece in table["pieces"] if piece["name"] == "sleeve")
    sleeve["notches"][0]["drawn"][1] = sleeve["notches"][1]["drawn"][0][0]
    assert {_kind(fault) for fault in _faults(table)} == {"notch"}


def test_the_stranger_misses_a_hem_that_goes_on_tapering() -> None:
    table = json.loads(to_json(dresses()[0]))
    sleeve = next(piece for piece in table["pieces"] if piece["name"] == "sleeve")
    wrist = next(edge for edge in sleeve["outline"] if edge["role"] == "hem")
    level, (left, right) = wrist["curves"][0][0][1], sorted(end[0] for end in wrist["curves"][0])
    middle = 0.5 * (left + right)
    # as drawn before: below the fold the sides lean in as they do above it
    for curve in sleeve["cutting_line"]:
        for point in curve:
            if point[1] < level - 1.0:
                point[0] = middle + (point[0] - middle) * 0.85
    assert {_kind(fault) for fault in _faults(table)} >= {"hem"}


def _faults(table: Json) -> list[str]:
    """What no cutter would cut, in words."""
    found = [f"end: {end}" for end in allowances.ends(table) if not end.off <= ALIKE]
    for hem in allowances.hems(table):
        if hem.bow < STRAIGHT and not (abs(hem.raw - hem.there) <= LIES and hem.over <= LIES):
            found.append(f"hem: {hem}")
    for mark in allowances.marks(table):
        if mark.long > mark.allowance + 0.05 or mark.crosses or mark.off_square > SQUARE or mark.apart < APART:
            found.append(f"notch: {mark}")
    found += [f"cut: {where}" for where in allowances.uncovered(table)]
    found += [f"step: {where}" for where in allowances.steps(table)]
    return [*found, *(f"number: {pair}" for pair in allowances.numbers_unlike(table))]


def _unsaid(table: Json) -> list[str]:
    """The hems too full or too tight for their curve that no check warns of: by more than 1.5 % of the fold, and narrow
    ones that bulge out, which are turned twice, by more than 11 %.
    """
    said = {check["where"] for check in table["checks"] if check["verdict"] != "pass"}
    return [
        hem.where
        for hem in allowances.hems(table)
        if hem.depth * abs(hem.bends) > (EASED if _is_narrow(hem) else 0.0151) * hem.fold and hem.where not in said
    ]


def _is_narrow(hem: allowances.Hem) -> bool:
    return hem.depth <= NARROW and hem.bends > 0.0


def _points(curve: Curve) -> list[list[float]]:
    points = (curve.start, curve.end) if isinstance(curve, Line) else (curve.start, curve.c1, curve.c2, curve.end)
    return [[p.x, p.y] for p in points]


def _kind(fault: str) -> str:
    return fault.partition(":")[0]
