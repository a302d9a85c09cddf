"""A lining is the garment once more: every seam of it as long as the shell's, its hem 2 to 2.5 cm above the garment's
(common practice), its upper edge that of the facing, and it follows what is altered."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, draft, prepare
from blocks.paper import Paper
from drafting.alterations import FullBust, Hem, Lengthen, Neckline, Opening, SidePocket, apply_step
from drafting.checks import Verdict
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import polyline, run_at
from drafting.parts.part_table import find_part, part_of
from drafting.parts.redraw import drawn_again
from drafting.pattern import Pattern, Piece, PieceKind, Place, Role, edges_at, finished, pieces_of, walk
from drafting.pattern.pleats import is_pleated
from drafting.sewing import Act, sewing_order
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import order, sized
from tests.outside.sew_it import handled, not_sewable
from tests.quick_checks import run_checks
from tests.wardrobe import a_garment


def with_parts(pattern: Pattern, *names: str, **options: object) -> Pattern:
    asked = tuple(
        part_of(
            find_part(name),
            {key: value for key, value in options.items() if key in ("of", "shorter")}
            if name == "lining"
            else {"depth": 40.0}
            if name == "neck facing"
            else {},
        )  # type: ignore[arg-type]
        for name in names
    )
    return drawn_again(replace(pattern, derived=asked), pattern)


def linings(pattern: Pattern) -> tuple[Piece, ...]:
    return pieces_of(pattern, PieceKind.LINING)


def shell_of(pattern: Pattern, lining: Piece) -> Piece:
    return pattern.piece(lining.name.removesuffix(" lining"))


@pytest.mark.parametrize("parts", [("lining",), ("neck facing", "lining")])
def test_every_body_can_be_lined_and_every_check_passes(parts: tuple[str, ...]) -> None:
    for woman in dresses():
        lined = with_parts(woman, *parts)
        assert len(linings(lined)) == 5
        assert not failed(lined)
        for lining in linings(lined):
            assert (lining.cut.count, lining.cut.interfacing) == (0, 0)
            assert lining.cut.lining == shell_of(lined, lining).cut.count
            for place in (Place.SIDE, Place.WAIST, Place.ARMHOLE, Place.CAP):
                mine, its = (sum(e.length for e in edges_at(p, place)) for p in (lining, shell_of(lined, lining)))
                shorter = 25.0 if place is Place.SIDE and edges_at(lining, Place.HEM) else 0.0
                assert mine == pytest.approx(its - shorter, abs=0.2)


def test_it_ends_above_the_hem_by_what_is_asked_and_meets_the_facing_along_its_free_edge() -> None:
    lined = with_parts(dress(), "neck facing", "lining", shorter=20.0)
    for lining in linings(lined):
        for hem in (edge for edge in lining.edges if edge.role is Role.HEM):
            its = next(edge for edge in shell_of(lined, lining).edges if edge.name == hem.name)
            assert hem.start.y - its.start.y == pytest.approx(20.0, abs=0.5)
    joins = [seam for seam in lined.seams if seam.name.endswith("to the facing")]
    assert len(joins) == 2
    for seam in joins:
        walked = walk(lined, seam)
        assert walked.a == pytest.approx(walked.b, abs=1e-6)
        assert lined.piece(seam.b[0].piece).edge(seam.b[0].edge).allowance == 15.0


def test_it_can_be_sewn_in_and_every_seam_of_it_is_told_once() -> None:
    lined = with_parts(apply_step(dress(), SidePocket()), "neck facing", "lining")
    steps = sewing_order(lined)
    assert not_sewable(lined, steps) == []
    seams, _, _ = handled(steps)
    assert set(seams.values()) == {1}
    acts = [step.act for step in steps]
    assert acts.index(Act.FACE) < acts.index(Act.MAKE_LINING) < acts.index(Act.LINE)
    assert not failed(lined)
    assert all(edge.place is not Place.POCKET_MOUTH for lining in linings(lined) for edge in lining.edges)


@pytest.mark.parametrize(
    "step",
    [Lengthen("skirt front", 50.0), Lengthen("sleeve", -30.0), Opening("centre back", length=560.0), FullBust(20.0)],
)
def test_it_follows_what_is_altered_whichever_comes_first(step: object) -> None:
    one = apply_step(with_parts(dress(), "lining"), step)  # type: ignore[arg-type]
    other = with_parts(apply_step(dress(), step), "lining")  # type: ignore[arg-type]
    assert one.pieces == other.pieces
    assert not failed(one)


@pytest.mark.parametrize(("of", "count"), [("bodice", 3), ("below the waist", 2)])
def test_a_part_of_a_garment_is_lined_alone(of: str, count: int) -> None:
    lined = with_parts(dress(), "lining", of=of)
    assert len(linings(lined)) == count
    assert not failed(lined)
    assert not_sewable(lined, sewing_order(lined)) == []


def test_what_cannot_be_lined_is_refused_in_a_sentence() -> None:
    deep = part_of(find_part("neck facing"), {"depth": 90.0})
    with pytest.raises((NotAPattern, StepRefused), match="dart"):
        drawn_again(replace(dress(), derived=(deep, part_of(find_part("lining"), {}))), dress())


def test_a_curved_hem_of_a_lining_is_as_narrow_as_lies_flat() -> None:
    circle = BlockOrder(find_block("circle skirt"), {"circle": "full"})
    garment = replace(order(), blocks=(circle,), paper=Paper())
    skirt = draft(garment, prepare(garment))
    lined = with_parts(skirt, "lining")
    assert all(edge.allowance < 15.0 for lining in linings(lined) for edge in lining.edges if edge.role is Role.HEM)
    assert [result for result in run_checks(lined) if result.verdict not in (Verdict.PASS, Verdict.NOTHING)] == []


def test_a_lining_ends_above_a_hem_that_is_faced() -> None:
    skirt = apply_step(sized(92, "skirt"), Hem(piece="skirt front", depth=60.0, finish="facing"))
    pattern = with_part(skirt, part_of(find_part("lining"), {}))  # beside the facing that came with the hem
    assert failed(pattern) == []
    shell, lining = pattern.piece("skirt front"), pattern.piece("skirt front lining")
    lowest = [min(edge.start.y for edge in piece.edges) for piece in (shell, lining)]
    assert lowest[1] - lowest[0] == pytest.approx(25.0, abs=0.1)


def test_the_back_of_a_lining_on_the_fold_has_a_pleat_that_closes_to_the_shell() -> None:
    """1.5 to 2 cm deep, 3 to 4 in all (a tailoring teacher); neck and waist stay as long as those of the shell."""
    closed = apply_step(sized(92, "bodice"), Opening("centre back", "closed"))
    front = apply_step(closed, Opening("centre front", "buttons"))
    for parts in (("lining",), ("neck facing", "lining")):
        pattern = with_parts(front, *parts)
        assert failed(pattern) == []
        back, shell = pattern.piece("bodice back lining"), pattern.piece("bodice back")
        (fold,) = (edge for edge in back.edges if edge.role is Role.FOLD)
        (own,) = (edge for edge in shell.edges if edge.role is Role.FOLD)
        assert abs(fold.start.x - own.start.x) == pytest.approx(15.0)
        assert [edge.length for edge in edges_at(back, Place.PLEAT_END)] == pytest.approx([15.0, 15.0])
        if (
            "neck facing" in parts
        ):  # which goes round the stand in one; without it that is faced before the lining comes
            assert not_sewable(pattern, sewing_order(pattern)) == []
    plain = with_part(front, part_of(find_part("lining"), {"pleat": 0.0}))
    assert not edges_at(plain.piece("bodice back lining"), Place.PLEAT_END)


def test_a_pleated_skirt_is_lined_without_pleats_as_wide_as_they_show_at_the_hip() -> None:
    block = BlockOrder(find_block("pleated skirt"))
    asked = replace(order(), blocks=(block,), parts=(part_of(find_part("lining"), {}),))
    pattern = draft(asked, prepare(asked))
    assert not failed(pattern)
    assert not any(is_pleated(piece) for piece in linings(pattern))
    hem = sum(2.0 * edge.length for lining in linings(pattern) for edge in edges_at(lining, Place.HEM))
    hip = next(each.finished for each in finished(pattern) if each.name == "hip")
    assert hem == pytest.approx(hip, abs=1.0)


def test_a_lining_to_the_edge_is_two_millimetres_smaller_there() -> None:
    """At a neck and an armhole that nothing faces, so that the seam rolls in (common practice); measured by numpy as
    the least distance of its edge from the shell's. A bound or a faced neck has no such edge.
    """
    base = sized(92, "bodice", "skirt")
    pattern = with_part(base, part_of(find_part("lining"), {}))
    for name, place in (("bodice front", Place.NECK), ("bodice back", Place.ARMHOLE)):
        (outer,), (inner,) = (edges_at(pattern.piece(f"{name}{of}"), place) for of in ("", " lining"))
        out, own = (np.array([(p.x, p.y) for p in polyline(edge.curves, 0.001)]) for edge in (outer, inner))
        apart = [float(np.hypot(*(out - place_).T).min()) for place_ in own[len(own) // 4 : -len(own) // 4]]
        assert min(apart) == pytest.approx(2.0, abs=0.1)
        assert max(apart) == pytest.approx(2.0, abs=0.1)
    assert failed(pattern, base) == []
    bound = with_part(base, part_of(find_part("neck binding"), {}))
    lined = with_part(bound, part_of(find_part("lining"), {}))
    (shell,), (same,) = (edges_at(lined.piece(name), Place.NECK) for name in ("bodice front", "bodice front lining"))
    assert same.length == pytest.approx(shell.length)


def test_the_lining_of_a_v_neck_keeps_its_point() -> None:
    """The neck and the fold meet under the same angle as on the shell; rounded, the lining cannot be sewn into it."""
    cut = apply_step(sized(92, "bodice", "skirt"), Neckline(depth=60.0, shape="V"))
    pattern = with_part(cut, part_of(find_part("lining"), {}))
    angles = []
    for name in ("bodice front", "bodice front lining"):
        piece = pattern.piece(name)
        (neck,) = edges_at(piece, Place.NECK)
        (fold,) = edges_at(piece, Place.CENTRE_FRONT)
        end = neck.end if neck.end.near(fold.start) else neck.start
        away = run_at(neck.curves, 10.0 if end is neck.start else neck.length - 10.0)
        angles.append(math.degrees(math.atan2(away.y - end.y, abs(away.x - end.x))))
    assert angles[1] == pytest.approx(angles[0], abs=1.0)
    assert failed(pattern, cut) == []


def test_a_facing_whose_depth_was_left_out_leaves_room_for_a_lining_beside_a_dart() -> None:
    """At 6 cm too little of the shoulder is left to be sewn; a depth that she wrote is kept, and refused."""
    base = sized(92, "bodice")
    lining, left_out, written = (
        part_of(find_part(name), options)
        for name, options in (("lining", {}), ("neck facing", {}), ("neck facing", {"depth": 60.0}))
    )
    alone = drawn_again(replace(base, derived=(left_out,)), base)
    lined = drawn_again(replace(base, derived=(left_out, lining)), base)
    (one,), (other,) = (edges_at(each.piece("front neck facing"), Place.SHOULDER) for each in (alone, lined))
    assert 0.5 < one.length - other.length < 11.0
    assert failed(lined, base) == []
    with pytest.raises(NotAPattern, match="between the facing and a dart"):
        drawn_again(replace(base, derived=(written, lining)), base)


def test_the_lining_of_a_blouse_whose_bust_has_let_a_dart_into_the_hem_ends_above_it_with_its_dart() -> None:
    lined = with_parts(apply_step(a_garment("shirt"), FullBust(25.0)), "lining")
    front = lined.piece("bodice front lining")
    shell = shell_of(lined, front)
    beside = {edge.name for hem in edges_at(front, Place.HEM) for edge in front.beside(hem.name)}
    dart = next(each for each in front.darts if set(each.legs) <= beside)
    legs = [front.edge(leg).length for leg in dart.legs]
    assert legs[0] == pytest.approx(legs[1], abs=0.01)
    # 25 mm above the hem, measured square to it
    assert shell.edge(dart.legs[0]).length - legs[0] == pytest.approx(25.0, abs=0.5)
    assert all(edge.role is Role.HEM for edge in edges_at(front, Place.HEM))
    assert not failed(lined)
