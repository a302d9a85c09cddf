"""What promises are made of: each is kept by a pattern that is as it was, and broken by one that is not."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import pytest

from drafting.alterations.alteration import Promise
from drafting.alterations.promises import (
    finished_kept,
    lengths_kept_at,
    lengths_kept_but,
    places_kept_but,
    seams_kept,
)
from drafting.alterations.refusing import accept_change, instead
from drafting.errors import StepRefused
from drafting.geometry import Cubic, Vec, lerp
from drafting.pattern import Measure, Pattern, Place, Seam, with_edges, with_pieces
from tests.drafting.dress import dress

FRONT, SIDE = "skirt front", "side seam"


def broken(promises: Iterable[Promise], after: Pattern) -> list[str]:
    return [each.what for each in promises if abs(each.measure(after) - each.measure(dress()) - each.change) > 1e-6]


def bulged() -> Pattern:
    """The dress with the side seam of its skirt front bulging, so that it is longer, its ends where they were."""
    skirt = dress().piece(FRONT)
    side = skirt.edge(SIDE)
    first, *rest = side.curves
    one, other = (lerp(first.start, first.end, share) + Vec(12.0, 0.0) for share in (1 / 3, 2 / 3))
    longer = replace(side, curves=(Cubic(first.start, one, other, first.end), *rest))
    return with_pieces(dress(), with_edges(skirt, longer))


def test_lengths_at_a_place_are_promised_of_the_edges_there_alone() -> None:
    pieces = dress().pieces
    assert broken(lengths_kept_at(pieces, Place.SIDE, Place.HEM), bulged()) == [f'the length of "{SIDE}" on {FRONT}']
    assert broken(lengths_kept_at(pieces, Place.HEM, Place.WAIST), bulged()) == []
    assert list(lengths_kept_at(pieces, Place.CROTCH)) == []


def test_all_edges_but_those_altered_keep_length_and_place() -> None:
    count = sum(len(piece.edges) for piece in dress().pieces)
    for promise, what in (
        (lengths_kept_but, f'the length of "{SIDE}" on {FRONT}'),
        (places_kept_but, f'"{SIDE}" on {FRONT}'),
    ):
        assert len(list(promise(dress(), ()))) == count
        assert broken(promise(dress(), ()), bulged()) == [what]
        assert broken(promise(dress(), {("skirt back", SIDE)}), bulged()) == [what]
        assert len(list(promise(dress(), {(FRONT, SIDE)}))) == count - 1
        assert broken(promise(dress(), {(FRONT, SIDE)}), bulged()) == []


def test_seams_and_measurements_are_promised_of_all_or_of_those_asked_for() -> None:
    def on_front(seam: Seam) -> bool:
        return any(ref.piece == FRONT and ref.edge == SIDE for ref in (*seam.a, *seam.b))

    def at_waist(measure: Measure) -> bool:
        return measure.key == "waist_girth"

    assert len(list(seams_kept(dress()))) == len(dress().seams)
    (off,) = broken(seams_kept(dress()), bulged())
    assert broken(seams_kept(dress(), on_front), bulged()) == [off]
    assert broken(seams_kept(dress(), lambda seam: not on_front(seam)), bulged()) == []
    assert len(list(finished_kept(dress()))) == len(dress().measures)
    assert [each.what for each in finished_kept(dress(), at_waist)] == ["the finished waist"]


@pytest.mark.parametrize("amounts", [(0.0,), (0.0, -1e-9)])
def test_a_change_of_nothing_is_refused_and_any_other_is_not(amounts: tuple[float, ...]) -> None:
    with pytest.raises(StepRefused) as refused:
        accept_change("seat", 'by how much: by = "1 cm"', *amounts)
    assert str(refused.value) == 'seat: nothing is to change; say by how much: by = "1 cm"'
    accept_change("seat", "by how much", *amounts, -0.1)


def test_what_can_be_had_instead_is_the_step_with_one_option_set() -> None:
    (remedy,) = instead("hem", "depth", 30.0, "mm")
    assert (remedy.act, remedy.alteration, remedy.typed()) == ("change", "hem", 'depth = "30 mm"')
    (remedy,) = instead("hem", "finish", "facing")
    assert remedy.typed() == 'finish = "facing"'
