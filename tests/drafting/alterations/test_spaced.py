from __future__ import annotations

from dataclasses import replace

from drafting.alterations.spaced import notches_spaced
from drafting.checks import CHECKS, Verdict, named, run_checks
from drafting.pattern import NotchRef, Pattern, from_start, with_pieces
from tests.drafting.dress import dress

HIP = (NotchRef("skirt front", "front hip notch"), NotchRef("skirt back", "back hip notch"))
END = (NotchRef("skirt front", "left side zip notch"), NotchRef("skirt back", "left side zip notch"))


def with_zip_end(by: float) -> Pattern:
    """The dress with a pair of notches for the end of a zip, so far below the hip notches on the side seam, mm."""
    pattern = dress()
    for hip, end in zip(HIP, END, strict=True):
        piece = pattern.piece(hip.piece)
        was = piece.notch(hip.notch)
        edge = piece.edge(was.station.edge)
        # the edge runs up on the one piece and down on the other
        at = from_start(edge, was.station) + (-by if edge.end.y > edge.start.y else by)
        new = replace(was, name=end.notch, station=replace(was.station, at=at, end="start"))
        pattern = with_pieces(pattern, replace(piece, notches=(*piece.notches, new)))
    seam = pattern.seam("skirt side seam")
    more = replace(seam, notches=(*seam.notches, END[::-1]))  # the back is the first side of this seam
    return replace(pattern, seams=tuple(more if each is seam else each for each in pattern.seams))


def marks(pattern: Pattern) -> set[NotchRef]:
    return {mark for seam in pattern.seams for pair in seam.notches for mark in pair}


def test_of_two_pairs_that_would_be_taken_for_one_the_end_of_the_zip_stays() -> None:
    after = notches_spaced(with_zip_end(5.0))
    assert marks(after) == marks(with_zip_end(5.0)) - set(HIP)
    assert all(notch.name != mark.notch for mark in HIP for notch in after.piece(mark.piece).notches)
    found = run_checks(after, checks=named(CHECKS, ["notch-marks", "notches-meet"]))
    assert {result.verdict for result in found} == {Verdict.PASS}


def test_notches_that_stand_apart_are_left_alone() -> None:
    pattern = with_zip_end(8.5)
    assert notches_spaced(pattern) is pattern


def test_what_was_too_near_is_what_the_check_warns_of() -> None:
    found = run_checks(with_zip_end(5.0), checks=named(CHECKS, ["notch-marks"]))
    warned = {result.where for result in found if result.verdict is Verdict.WARN}
    assert warned == {f"{mark.piece} / {mark.notch}" for mark in (*HIP, *END)}
