"""A pocket with a slanted mouth: what is cut away is given back, waist and side are what they were, the bag closes."""

from __future__ import annotations

from math import hypot

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, finish
from drafting.alterations import Alteration, ShapedBand, SidePocket, SkirtYoke, SlantedPocket, apply_step
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.geometry import Line, Point, run_bounds
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import (
    Cut,
    Edge,
    EdgeRef,
    Grain,
    Identity,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    Wearer,
    edges_at,
    finished,
    pieces_of,
    walk,
)
from drafting.pattern.places import BodyPart
from drafting.sewing import StayKind, sewing_order
from tests.bodies import women
from tests.drafting.dress import dress
from tests.outside.sew_it import not_sewable
from tests.quick_checks import run_checks
from tests.wardrobe import a_garment


def trousers(*steps: Alteration, parts: tuple[str, ...] = ()) -> Pattern:
    order = BlockOrder(find_block("trousers"), {"fastening": "fly"})
    ordered = tuple(part_of(find_part(name), {}) for name in parts)
    return finish(Garment("trousers", women()[11], (order,), steps=steps, parts=ordered))


def square_skirt(long: float = 600.0) -> Pattern:
    """A skirt of two rectangles, so that waist and side meet at a right angle."""
    places = (Place.HEM, Place.SIDE, Place.WAIST, Place.CENTRE_FRONT)

    def piece(kind: PieceKind) -> Piece:
        corners = [Point(0.0, -long), Point(300.0, -long), Point(300.0, 0.0), Point(0.0, 0.0)]
        roles = (Role.HEM, Role.SEAM, Role.SEAM, Role.FOLD)
        edges = tuple(
            Edge(str(place), (Line(a, b),), role, 15.0, place)
            for place, role, a, b in zip(places, roles, corners, (*corners[1:], corners[0]), strict=True)
        )
        grain = Grain(Point(100.0, -500.0), Point(100.0, -100.0))
        return Piece(f"skirt {kind}", edges, Cut(1, fold=True), grain, identity=Identity(kind, BodyPart.SKIRT))

    pieces = (piece(PieceKind.FRONT), piece(PieceKind.BACK))
    side = Seam("side", (EdgeRef("skirt front", "side seam"),), (EdgeRef("skirt back", "side seam"),))
    return Pattern("square", Wearer("nobody"), pieces, (side,))


@pytest.mark.parametrize(
    ("along", "down", "long"),
    [(3.0 * 25.4, 6.25 * 25.4, 6.93 * 25.4), (60.0, 100.0, 116.6)],
    ids=["women, inches", "child, centimetres"],
)
def test_the_mouth_is_as_long_as_the_worked_one(along: float, down: float, long: float) -> None:
    """Source: a sewing page on trouser pockets, 3 in along the waist and 6 1/4 in down the side for a woman, another
    for a child, 6 and 10 cm; the slant by the right angle at their corner.
    """
    after = apply_step(square_skirt(), SlantedPocket(along=along, down=down))
    (mouth,) = edges_at(after.piece("skirt front"), Place.POCKET_MOUTH)
    assert mouth.length == pytest.approx(long, abs=0.3)
    assert mouth.length == pytest.approx(hypot(along, down), abs=1e-6)


@pytest.mark.parametrize(
    ("steps", "parts"),
    [((), ("waistband",)), ((ShapedBand(depth=40.0),), ()), ((), ("lining", "waistband"))],
    ids=["waistband", "shaped band", "lining"],
)
def test_waist_and_side_stay_what_they_were_and_all_of_it_is_sewn(
    steps: tuple[Alteration, ...], parts: tuple[str, ...]
) -> None:
    before, after = trousers(*steps, parts=parts), trousers(*steps, SlantedPocket(), parts=parts)
    assert [(m.name, m.finished) for m in finished(after)] == [
        (m.name, pytest.approx(m.finished)) for m in finished(before)
    ]
    assert not [r for r in run_checks(after) if r.verdict in (Verdict.FAIL, Verdict.WARN, Verdict.ERROR)]
    assert not list(not_sewable(after, sewing_order(after)))
    back = next(seam for seam in after.seams if any(e.place is Place.SIDE for e in _edges(after, seam)))
    walked = walk(after, back)
    assert walked.a == pytest.approx(walked.b, abs=1e-3)


def _edges(pattern: Pattern, seam: Seam) -> list[Edge]:
    return [pattern.piece(ref.piece).edge(ref.edge) for ref in (*seam.a, *seam.b)]


def test_front_and_hip_piece_together_cover_what_the_front_covered() -> None:
    whole, after = trousers().piece("trousers front"), trousers(SlantedPocket())
    front, (hip,) = after.piece("trousers front"), pieces_of(after, PieceKind.PANEL)
    for place in (Place.WAIST, Place.SIDE):
        long = sum(edge.length for edge in edges_at(whole, place))
        assert sum(e.length for piece in (front, hip) for e in edges_at(piece, place)) == pytest.approx(long, abs=1e-3)
    (bag,) = pieces_of(after, PieceKind.POCKET)
    for place in (Place.POCKET_TOP, Place.POCKET_EDGE):
        assert edges_at(bag, place)[0].length == pytest.approx(edges_at(hip, place)[0].length)
    assert (hip.cut.count, bag.cut.count, bag.cut.lining) == (2, 0, 2)


def test_the_slanting_mouth_is_taped() -> None:
    stays = [stay for step in sewing_order(trousers(SlantedPocket())) for stay in step.stays]
    assert any(stay.place is Place.POCKET_MOUTH and stay.kind is StayKind.TAPE for stay in stays)


def test_what_cannot_be_had_is_refused_in_plain_words() -> None:
    with pytest.raises(StepRefused, match="above the hip line"):
        apply_step(dress(), SlantedPocket(down=280.0))
    with pytest.raises(StepRefused, match="takes no hand"):
        apply_step(dress(), SlantedPocket(along=30.0, down=70.0))
    with pytest.raises(StepRefused, match=r"189 mm of waist from the side to the centre; .* at most 145 mm"):
        apply_step(a_garment("circle skirt"), SlantedPocket(along=180.0, down=100.0))
    with pytest.raises(StepRefused, match="already"):
        apply_step(apply_step(dress(), SidePocket()), SlantedPocket(), as_written=True)


@pytest.mark.parametrize(
    ("long", "options", "low"),
    [
        (600.0, {}, 265.0),  # as deep as is usual for her height
        (600.0, {"hangs": 250.0}, 410.0),
        (330.0, {"down": 220.0}, 290.0),  # less deep, 4 cm above the hem
        (260.0, {}, 220.0),
        (300.0, {"hangs": 100.0}, 260.0),  # just what there is room for
        (600.0, {"along": 200.0, "down": 105.0, "hangs": 20.0}, 125.0),
    ],
)
def test_the_bag_hangs_below_the_mouth_and_ends_above_the_hem(
    long: float, options: dict[str, float], low: float
) -> None:
    (bag,) = pieces_of(apply_step(square_skirt(long), SlantedPocket(**options)), PieceKind.POCKET)
    assert -run_bounds(bag.outline)[1] == pytest.approx(low, abs=0.01)


@pytest.mark.parametrize(
    ("long", "options", "said", "offered"),
    [
        (300.0, {"hangs": 250.0}, "would end -110 mm above the hem", {"hangs": 100.0}),
        (260.0, {"hangs": 100.0}, "would end 0 mm above the hem", {"hangs": 60.0}),
        (260.0, {"down": 220.0}, "would end 20 mm above the hem", {"down": 200.0}),
        (240.0, {"down": 220.0}, "at most 200 mm down the side", {"down": 180.0}),
    ],
)
def test_a_bag_too_deep_is_answered_with_the_deepest(
    long: float, options: dict[str, float], said: str, offered: dict[str, float]
) -> None:
    with pytest.raises(StepRefused, match=said) as refused:
        apply_step(square_skirt(long), SlantedPocket(**options))
    assert [{each.option: each.value for each in way.settings} for way in refused.value.remedies] == [offered]


def test_below_a_yoke_of_a_circle_skirt_its_mouth_ends_above_the_hip_line() -> None:
    order = BlockOrder(find_block("circle skirt"))
    steps = (SkirtYoke(), SlantedPocket())
    after = finish(Garment("skirt", women()[3], (order,), steps=steps))
    assert [found for found in run_checks(after) if found.verdict is Verdict.FAIL] == []


def test_beside_the_zip_of_a_gored_skirt_it_says_where_that_can_open_instead() -> None:
    with pytest.raises(StepRefused, match='fastening = "back" in the block'):
        finish(Garment("skirt", women()[11], (BlockOrder(find_block("gored skirt")),), steps=(SlantedPocket(),)))
