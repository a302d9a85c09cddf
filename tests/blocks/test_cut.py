"""How often each piece is cut: what is no whole by itself is cut twice, once mirrored, or the two halves are alike."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.alterations import apply_step
from drafting.errors import TrueseamError
from drafting.pattern import Cut, Pattern, PieceKind, Role
from tests.alteration_samples import SAMPLES, sample
from tests.drafting.dress import dress

FOLDED, PAIR = Cut(1, fold=True), Cut(2, mirror=True)


def test_the_pieces_of_the_dress_are_cut_as_a_cutter_cuts_them() -> None:
    # a front on the fold, a back in two halves because it opens, a sleeve for each arm: common practice
    assert {piece.name: piece.cut for piece in dress().pieces} == {
        "bodice front": FOLDED,
        "bodice back": PAIR,
        "sleeve": PAIR,
        "skirt front": FOLDED,
        "skirt back": PAIR,
    }


@pytest.mark.parametrize("name", SAMPLES)
def test_after_every_step_a_piece_lies_on_a_fold_or_is_cut_as_a_pair(name: str) -> None:
    taken: list[Pattern] = []
    for options in SAMPLES[name]:
        try:
            taken.append(apply_step(dress(), sample(name, options)))
        except TrueseamError:  # an amount that this dress has no room for
            continue
    assert taken or name == "blend"  # which is for a chart size, and this dress has a wearer
    for piece in (piece for pattern in taken for piece in pattern.pieces):
        if piece.identity.kind is PieceKind.POCKET and piece.cut == Cut(1):
            continue  # on the left only
        if piece.identity.kind is PieceKind.POCKET and piece.cut == Cut(0, mirror=True, lining=2):
            continue  # the bag of a slanted pocket, of lining
        if name == "shaped band" and piece.cut.interfacing:  # outside and inside, the outer one interfaced
            assert piece.cut.count == 2 * piece.cut.interfacing == (2 if piece.cut.fold else 4), piece.name
            continue
        on_fold = any(edge.role is Role.FOLD for edge in piece.edges)
        assert replace(piece.cut, interfacing=0) == (FOLDED if on_fold else PAIR), piece.name
        stiffened = piece.cut.count if piece.identity.kind is PieceKind.FACING else 0
        assert piece.cut.interfacing == stiffened, piece.name
