"""Every seam of every sample is sewn once, and can be sewn when its step comes: sewn on paper by a stranger."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from blocks.garment import draft, prepare
from drafting.alterations import apply_step
from drafting.body.sizes import Sizes, sizes_body
from drafting.errors import Lacking, NotAPattern, StepRefused, UnknownName
from drafting.pattern import Pattern, Role
from drafting.sewing import sewing_order
from output.api import part
from tests.alteration_samples import SAMPLES, Options, sample
from tests.drafting.sizes import order
from tests.outside.sew_it import handled, not_sewable

_GARMENTS = {
    "dress": (("bodice", "sleeve", "skirt"), ()),
    "dress with a facing": (("bodice", "sleeve", "skirt"), ("neck facing",)),
    "no sleeves": (("bodice", "skirt"), ("neck facing",)),
    "bodice": (("bodice",), ()),
    "blouse": (("bodice", "sleeve"), ("neck facing",)),
    "skirt": (("skirt",), ()),
    "skirt with a band": (("skirt",), ("waistband",)),
}
_BUTTONS: Options = {"at": "centre front", "fasten": "buttons", "button": 15.0}
_CLOSED: Options = {"at": "centre back", "fasten": "closed"}


@cache
def _garment(name: str) -> Pattern:
    blocks, parts = _GARMENTS[name]
    sizes = Sizes(bust=92)
    ordered = replace(order(*blocks), sizes=sizes, wearer=sizes_body(sizes).person, parts=tuple(map(part, parts)))
    return draft(ordered, prepare(ordered))


def _all_right(pattern: Pattern) -> None:
    steps = sewing_order(pattern)
    seams, edges, darts = handled(steps)
    assert seams == dict.fromkeys((seam.name for seam in pattern.seams), 1)
    assert darts == {(piece.name, dart.name): 1 for piece in pattern.pieces for dart in piece.darts}
    sewn = {(ref.piece, ref.edge) for seam in pattern.seams for ref in (*seam.a, *seam.b)}
    left = {
        (piece.name, edge.name): 1
        for piece in pattern.pieces
        for edge in piece.edges
        if (piece.name, edge.name) not in sewn and edge.role not in (Role.FOLD, Role.DART_LEG)
    }
    assert edges == left
    assert not_sewable(pattern, steps) == []


@pytest.mark.parametrize("name", _GARMENTS)
@pytest.mark.parametrize("alter", ["", *SAMPLES])
def test_every_edge_of_every_sample_is_sewn_once_and_can_be(name: str, alter: str) -> None:
    plain = _garment(name)
    tried = 0
    for options in SAMPLES[alter] if alter else ():
        for base in (plain, _buttoned(plain)) if alter != "opening" else (plain,):
            try:
                altered = apply_step(base, sample(alter, options))
            except (StepRefused, NotAPattern, Lacking, UnknownName):  # no such piece or dart in this garment
                continue
            _all_right(altered)
            tried += 1
    if not alter:
        _all_right(plain)
    assert tried or not alter or name != "dress"


@cache
def _buttoned(plain: Pattern) -> Pattern:
    """The same, closed behind and buttoned in front."""
    return apply_step(apply_step(plain, sample("opening", _BUTTONS)), sample("opening", _CLOSED))
