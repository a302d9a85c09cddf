"""Hems levelled on panels: as far below the hip at every seam as at the centre, whichever piece is named."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.alterations import DartIntoSeam, FlareSkirt, Hem, apply_step
from drafting.alterations.finishes.level_hem import levelled
from drafting.geometry import Vec, distance, run_length
from drafting.pattern import Pattern, with_pieces
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed

PANELS = ("skirt front, centre", "skirt front, side", "skirt back")


def cut(pattern: Pattern) -> Pattern:
    return apply_step(pattern, DartIntoSeam("skirt front", "waist dart", "hem"))


@pytest.mark.parametrize("piece", PANELS)
def test_a_skirt_cut_into_panels_is_levelled_whichever_piece_is_named(piece: str) -> None:
    for base in (dress(), *dresses()[::2]):
        if not base.piece("skirt front").darts:
            continue
        after = apply_step(cut(base), Hem(piece, level=True))
        assert not failed(after)
        front, side = after.piece(PANELS[0]), after.piece(PANELS[1])
        assert run_length(front.edge("waist dart seam").curves) == pytest.approx(
            run_length(side.edge("waist dart seam").curves), abs=1e-4
        )


def test_every_corner_of_a_level_hem_lies_as_far_below_the_hip_as_at_the_centre() -> None:
    after = apply_step(apply_step(dress(), FlareSkirt(hem=300.0, how="slashes")), Hem("skirt front", level=True))
    for name in ("skirt front", "skirt back"):
        piece = after.piece(name)
        hip, hem = piece.line("hip line"), piece.edge("hem")
        centre, side = sorted((hem.start, hem.end), key=lambda end: abs(end.x))
        near, far = sorted((hip.start, hip.end), key=lambda end: abs(end.x))
        # below the hip the side seam is straight
        assert distance(far, side) == pytest.approx(distance(near, centre), abs=0.6)


@pytest.mark.parametrize("turned", [False, True])
def test_a_panel_without_a_centre_follows_its_own_half_and_not_the_other_whichever_seam_stands_first(
    turned: bool,
) -> None:
    """Its depth comes over the seam within the front, not over the side seam from a back that is to hang deeper."""
    base = cut(dress())
    back = base.piece("skirt back")
    up = Vec(0.0, 20.0)
    raised = [replace(line, curves=(), start=line.start + up, end=line.end + up) for line in back.lines]
    deeper = with_pieces(base, replace(back, lines=tuple(raised)))
    ordered = replace(deeper, seams=deeper.seams[::-1] if turned else deeper.seams)
    hems = dict.fromkeys(PANELS, "hem")
    (front, side, _), (as_it_was, beside, _) = (levelled("hem", each, hems) for each in (ordered, base))
    assert front == as_it_was
    assert side.edge("waist dart seam") == beside.edge("waist dart seam")
    assert side.edge("side seam") != beside.edge("side seam")


@pytest.mark.parametrize("more", [10.0, -10.0])
def test_a_side_whose_hip_lies_lower_is_led_on_so_much_and_keeps_what_lies_above(more: float) -> None:
    front = dress().piece("skirt front")
    lower = tuple(
        replace(line, end=line.end + Vec(0.0, -more)) if line.name == "hip line" else line for line in front.lines
    )
    hems = {"skirt front": "hem", "skirt back": "hem"}
    after, _ = levelled("hem", with_pieces(dress(), replace(front, lines=lower)), hems)
    side, was = after.edge("side seam"), front.edge("side seam")
    assert side.length == pytest.approx(was.length + more, abs=0.01)
    assert len(side.curves) == len(was.curves)
    assert side.curves[0] == was.curves[0]
