from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.alterations.notch_spacing import met_notches, notches_spaced
from drafting.checks import CHECKS, Verdict, named
from drafting.pattern import NotchRef, Pattern, from_start, with_pieces
from drafting.pattern.piece_parts import NotchStyle
from tests.drafting.dress import dress
from tests.quick_checks import run_checks

HIP = (NotchRef("skirt front", "front hip notch"), NotchRef("skirt back", "back hip notch"))
END = (NotchRef("skirt front", "left side zip notch"), NotchRef("skirt back", "left side zip notch"))


def with_zip_end(by: float, style: NotchStyle = "single") -> Pattern:
    """The dress with a pair of notches for the end of a zip, so far below the hip notches on the side seam, mm."""
    pattern = dress()
    for hip, end in zip(HIP, END, strict=True):
        piece = pattern.piece(hip.piece)
        was = piece.notch(hip.notch)
        edge = piece.edge(was.station.edge)
        # the edge runs up on the one piece and down on the other
        at = from_start(edge, was.station) + (-by if edge.end.y > edge.start.y else by)
        new = replace(was, name=end.notch, style=style, station=replace(was.station, at=at, end="start"))
        pattern = with_pieces(pattern, replace(piece, notches=(*piece.notches, new)))
    seam = pattern.seam("skirt side seam")
    more = replace(seam, notches=(*seam.notches, END[::-1]))  # the back is the first side of this seam
    return replace(pattern, seams=tuple(more if each is seam else each for each in pattern.seams))


def marks(pattern: Pattern) -> set[NotchRef]:
    return {mark for seam in pattern.seams for pair in seam.notches for mark in pair}


@pytest.mark.parametrize("by", [5.0, 12.0, 19.5])
def test_of_two_pairs_that_would_be_taken_for_one_the_end_of_the_zip_stays(by: float) -> None:
    after = notches_spaced(with_zip_end(by))
    assert marks(after) == marks(with_zip_end(by)) - set(HIP)
    assert all(notch.name != mark.notch for mark in HIP for notch in after.piece(mark.piece).notches)
    found = run_checks(after, checks=named(CHECKS, ["notch-marks", "notches-meet"]))
    assert {result.verdict for result in found} == {Verdict.PASS}


def test_notches_that_stand_apart_are_left_alone() -> None:
    styles: tuple[tuple[float, NotchStyle], ...] = (20.5, "single"), (23.05, "double")  # which is 6 mm wide
    for by, style in styles:
        pattern = with_zip_end(by, style)
        assert notches_spaced(pattern) is pattern
    assert marks(notches_spaced(with_zip_end(22.95, "double"))) == marks(with_zip_end(22.95)) - set(HIP)


def test_what_was_too_near_is_what_the_check_warns_of() -> None:
    found = run_checks(with_zip_end(5.0), checks=named(CHECKS, ["notch-marks"]))
    warned = {result.where for result in found if result.verdict is Verdict.WARN}
    assert warned == {f"{mark.piece} / {mark.notch}" for mark in (*HIP, *END)}


def with_waist_notch(off: float) -> Pattern:
    """The dress with the double notch of the back waist so far from the side seam, on both pieces, mm."""
    pattern = dress()
    for name in ("bodice back", "skirt back"):
        piece = pattern.piece(name)
        notch = next(notch for notch in piece.notches if notch.name.endswith("waist notch"))
        new = replace(notch, station=replace(notch.station, at=off))
        pattern = with_pieces(pattern, replace(piece, notches=tuple(new if n is notch else n for n in piece.notches)))
    return pattern


@pytest.mark.parametrize(("off", "stays"), [(2.0, False), (17.0, False), (25.0, True)])
def test_a_waist_notch_in_the_allowance_at_the_end_of_its_edge_goes_with_its_partner(off: float, stays: bool) -> None:
    after = notches_spaced(with_waist_notch(off))
    found = {mark for mark in marks(after) if "back" in mark.notch and mark.notch.endswith("waist notch")}
    assert len(found) == (2 if stays else 0)
    left = {notch.name for name in ("bodice back", "skirt back") for notch in after.piece(name).notches}
    assert ("back waist notch" in left, "back skirt waist notch" in left) == (stays, stays)


def test_a_bodice_by_itself_has_no_waist_notch_and_a_dress_keeps_its_own() -> None:
    whole = dress()
    assert met_notches(whole) is whole
    bodice = tuple(piece for piece in whole.pieces if piece.name.startswith("bodice"))
    alone = replace(whole, pieces=bodice, seams=(), measures=())
    after = met_notches(alone)
    gone = {"front waist notch", "back waist notch"}
    for was, now in zip(alone.pieces, after.pieces, strict=True):
        assert {n.name for n in was.notches} - {n.name for n in now.notches} == gone & {n.name for n in was.notches}
