"""Tapes laid anew, and what an edge is sewn to."""

from __future__ import annotations

from dataclasses import replace

from drafting.pattern import Across, Along, Measure, Tape, relaid, sewn_runs
from tests.drafting.dress import dress


def test_only_what_lies_on_the_piece_is_laid_anew_and_no_stretch_of_it_twice() -> None:
    measure = Measure("waist", (Along("front", "a"), Along("front", "b"), Along("back", "a"), Along("back", "a")))

    def on_one_edge(_: Measure, part: Tape) -> list[Tape]:
        return [Along(part.piece, "whole", 2.0), Across(part.piece, "line")]

    (laid,) = relaid([measure], "front", on_one_edge)
    assert laid.tape == (
        Along("front", "whole", 2.0),
        Across("front", "line"),
        Along("back", "a"),
        Along("back", "a"),
    )
    assert replace(laid, tape=measure.tape) == measure


def test_the_tape_laid_anew_is_that_of_the_measurement_it_belongs_to() -> None:
    measures = [Measure(name, (Along("front", name),)) for name in ("bust", "hip")]
    named = relaid(measures, "front", lambda measure, part: [replace(part, times=len(measure.name))])
    assert [part.times for measure in named for part in measure.tape] == [4.0, 3.0]


def test_an_edge_is_found_in_each_seam_it_lies_in_from_either_side() -> None:
    pattern = dress()
    for seam in pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            ref = run[-1]
            assert (seam, run, other) in list(sewn_runs(pattern, ref.piece, [ref.edge]))
    assert list(sewn_runs(pattern, pattern.pieces[0].name, [])) == []
    assert list(sewn_runs(pattern, "no such piece", [edge.name for edge in pattern.pieces[0].edges])) == []
