import pytest

from drafting.geometry import run_length, run_reversed
from drafting.pattern import WalkedEdge, from_start
from tests.drafting.dress import dress


@pytest.mark.parametrize("backward", [False, True])
def test_an_edge_walked_either_way_keeps_its_curves_and_its_notches(backward: bool) -> None:
    for piece in dress().pieces:
        for notch in piece.notches:
            walked = WalkedEdge(piece.edge(notch.station.edge), backward)
            assert walked.redrawn(walked.run) == walked.edge
            assert walked.run == (run_reversed(walked.edge.curves) if backward else walked.edge.curves)
            along, whole = walked.along(notch.station), walked.edge.length
            same = walked.notch_at(notch, along, whole)
            assert from_start(walked.edge, same.station) == pytest.approx(from_start(walked.edge, notch.station))
            assert same.station.end == notch.station.end
            # counted from the end that did not move, it stays there when the other end does
            longer = walked.notch_at(notch, along, whole + 30.0)
            moved = longer.station.at - notch.station.at
            assert moved == pytest.approx(0.0 if walked.counted_from_first(notch) else 30.0)
            assert run_length(walked.run) == pytest.approx(whole)
