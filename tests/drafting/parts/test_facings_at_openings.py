"""How facings are drawn and sewn round an opening: one piece and one pass at a stand, loose ends at a zip."""

from __future__ import annotations

import pytest

from drafting.alterations import Hem, Neckline, Opening, apply_step
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import BodyPart, PieceKind, Place, Role, edges_at
from drafting.sewing import Act, SupplyKind, sewing_order, supplies
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import sized
from tests.outside.sew_it import not_sewable


@pytest.mark.parametrize("at", ["centre front", "centre back"])
def test_a_neck_and_a_button_stand_are_faced_by_one_piece_and_no_two_facings_overlap(at: str) -> None:
    for base in dresses()[:4]:
        buttoned = apply_step(with_part(base, part_of(find_part("neck facing"), {})), Opening(at, "buttons"))
        facings = [piece for piece in buttoned.pieces if piece.identity.kind is PieceKind.FACING]
        half = PieceKind.FRONT if at == "centre front" else PieceKind.BACK
        behind = [piece for piece in facings if piece.identity.part is BodyPart.BODICE and piece.identity.of is half]
        assert len(behind) == 1
        places = {edge.place for edge in behind[0].edges}
        assert {Place.NECK, Place.STAND, Place.STAND_EDGE, Place.FACING_EDGE} <= places
        assert failed(buttoned) == []
        steps = sewing_order(buttoned)
        faced = [step for step in steps if step.act is Act.FACE]
        assert len(faced) == 1  # neck and front edges in one pass
        waist = next(k for k, step in enumerate(steps) if step.place is Place.WAIST)
        assert waist < steps.index(faced[0])


def test_a_facing_below_a_v_is_cut_square_to_its_fold_as_deep_as_it_is_elsewhere() -> None:
    faced = with_part(dress(), part_of(find_part("neck facing"), {"depth": 60.0}))
    deep = apply_step(faced, Neckline(100.0, 10.0, shape="V"))
    facing = next(piece for piece in deep.pieces if piece.name == "front neck facing")
    (fold,) = (edge for edge in facing.edges if edge.role is Role.FOLD)
    (free,) = (edge for edge in facing.edges if edge.place is Place.FACING_EDGE)
    assert fold.length == pytest.approx(60.0, abs=1e-6)
    beside = [curve for curve in free.curves if {curve.start, curve.end} & {fold.start, fold.end}]
    along = (fold.end - fold.start).unit()
    assert [(c.end - c.start).unit().dot(along) for c in beside] == [pytest.approx(0.0, abs=1e-3)]


def test_the_ends_of_a_facing_at_a_zip_wait_for_it_and_a_hook_and_eye_is_bought() -> None:
    zipped = with_part(dress(), part_of(find_part("neck facing"), {}))
    steps = sewing_order(zipped)
    zip_step = next(step for step in steps if step.act is Act.ZIP)
    ends = [ref for ref in zip_step.edges if zipped.piece(ref.piece).identity.kind is PieceKind.FACING]
    assert [ref.piece for ref in ends] == ["back neck facing"]
    assert zip_step.fastening is not None
    assert zip_step.fastening.hooks == 1
    assert [each.count for each in supplies(zipped, steps) if each.kind is SupplyKind.HOOK] == [1]


def test_a_combined_facing_goes_on_along_a_button_stand_and_down_its_edge() -> None:
    closed = apply_step(sized(92, "bodice"), Opening("centre back", "closed"))
    pattern = with_part(
        apply_step(closed, Opening("centre front", "buttons")), part_of(find_part("combined facing"), {})
    )
    assert failed(pattern) == []
    facing = pattern.piece("front combined facing")
    (edge,) = edges_at(facing, Place.STAND_EDGE)
    assert edge.length == pytest.approx(60.0)  # as deep as it is below the neck
    assert edges_at(facing, Place.STAND)


@pytest.mark.parametrize("facing", [False, True])
@pytest.mark.parametrize("names", [("skirt",), ()])
def test_a_faced_hem_and_a_button_stand_are_faced_by_one_piece_round_the_lower_corner(
    names: tuple[str, ...], *, facing: bool
) -> None:
    base = apply_step(sized(92, *names), Opening("centre front", "buttons"))
    if facing and not names:
        base = with_part(base, part_of(find_part("neck facing"), {}))
    for pattern in (
        apply_step(base, Hem("skirt front", finish="facing")),
        apply_step(
            apply_step(sized(92, *names), Hem("skirt front", finish="facing")), Opening("centre front", "buttons")
        ),
    ):
        (front,) = (p for p in pattern.pieces if p.identity.kind is PieceKind.FACING and "skirt front" in p.name)
        assert {Place.HEM, Place.STAND_EDGE, Place.FACING_EDGE} <= {edge.place for edge in front.edges}
        faced = [ref for seam in pattern.seams for ref in seam.b if seam.a[0].piece == front.name]
        assert len(faced) == len(set(faced))
        assert failed(pattern) == []
        assert not_sewable(pattern, sewing_order(pattern)) == []
