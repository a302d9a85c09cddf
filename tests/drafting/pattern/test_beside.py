import pytest

from drafting.errors import UnknownName
from drafting.pattern import NotchRef, without_notches
from tests.drafting.dress import dress


def test_the_edges_beside_one_are_those_that_meet_it() -> None:
    for piece in dress().pieces:
        for edge in piece.edges:
            before, after = piece.beside(edge.name)
            assert (before.end, after.start) == (edge.start, edge.end)
        for dart in piece.darts:
            before, after = piece.beside_dart(dart)
            assert (before.end, after.start) == (piece.edge(dart.legs[0]).start, piece.edge(dart.legs[1]).end)
    with pytest.raises(UnknownName):
        dress().pieces[0].beside("no such edge")


def test_notches_that_are_left_out_take_their_pairs_with_them() -> None:
    whole = dress()
    pair = next(pair for seam in whole.seams for pair in seam.notches)
    left = without_notches(whole, set(pair))
    assert all(not set(pair) & set(each) for seam in left.seams for each in seam.notches)
    gone = {NotchRef(p.name, n.name) for p in whole.pieces for n in p.notches}
    gone -= {NotchRef(p.name, n.name) for p in left.pieces for n in p.notches}
    assert gone == set(pair)
    assert without_notches(whole, set()) is whole


def test_a_notch_moved_keeps_the_end_it_is_counted_from() -> None:
    notch = next(notch for piece in dress().pieces for notch in piece.notches)
    moved = notch.moved_to(12.5)
    assert (moved.station.at, moved.station.end, moved.station.edge) == (12.5, notch.station.end, notch.station.edge)
    assert (moved.name, moved.style, moved.marks) == (notch.name, notch.style, notch.marks)
