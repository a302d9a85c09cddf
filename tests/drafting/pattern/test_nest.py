"""A nest holds the same pattern in several sizes, edge for edge, or is refused."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from blocks.garment import draft, finish, prepare
from blocks.nest import nest_members
from drafting.body.charts import SIZES
from drafting.body.sizes import Sizes
from drafting.errors import NotAPattern, UnknownName
from drafting.pattern import Nest, Pattern, Piece, Sized, laid_together, with_pieces
from tests.drafting.sizes import order, sized


def nest(*sizes: int) -> Nest:
    return Nest("Dress", tuple(Sized(str(size), drafted_alike(size)) for size in sizes))


@cache
def drafted_alike(size: int) -> Pattern:
    """The dress in a size, with the waist darts that the sizes of the whole chart have."""
    return dict(nest_patterns())[str(size)]


@cache
def nest_patterns() -> tuple[tuple[str, Pattern], ...]:
    whole = replace(order(), sizes=Sizes(nest=SIZES))
    return tuple((size, finish(member)) for size, member, _ in nest_members(whole))


def test_all_sizes_of_the_chart_make_one_nest() -> None:
    whole = nest(*SIZES)
    assert [piece.name for piece in whole.piece("sleeve")] == ["sleeve"] * len(SIZES)
    assert whole.pattern("96") is drafted_alike(96)
    # one size needs two darts in each half of the front, so all have them
    assert {len(piece.darts) for piece in whole.piece("bodice front")} == {3}
    assert {len(sized(size).piece("bodice front").darts) for size in SIZES} == {2, 3}
    # the same notches and marked lines too, though a nest does not ask for them
    for name in (piece.name for piece in sized(92).pieces):
        marks = {tuple(mark.name for mark in (*piece.notches, *piece.lines)) for piece in whole.piece(name)}
        assert len(marks) == 1, name


def test_each_size_of_a_nest_is_what_it_is_drafted_by_itself() -> None:
    whole = replace(order(), sizes=Sizes(nest=SIZES))
    for _, member, pattern in nest_members(whole):
        assert pattern == draft(member, prepare(member))


def test_every_girth_of_the_nest_rises_from_size_to_size() -> None:
    for name in ("bust line", "hip line", "biceps line"):
        piece = next(piece for piece in sized(92).pieces if any(line.name == name for line in piece.lines))
        widths = [abs(each.line(name).end.x - each.line(name).start.x) for each in nest(*SIZES).piece(piece.name)]
        assert widths == sorted(set(widths))


def test_sizes_are_laid_together_on_the_grain_line() -> None:
    laid = laid_together(nest(84, 92, 100).piece("sleeve"))
    assert {round(piece.grain.start.x, 9) for piece in laid if piece.grain} == {round(laid[0].grain.start.x, 9)}  # type: ignore[union-attr]
    assert {piece.line("biceps line").start.y for piece in laid} == {0.0}


def test_fewer_than_two_sizes_or_two_of_one_name_are_no_nest() -> None:
    with pytest.raises(NotAPattern, match="two sizes or more"):
        Nest("Dress", (Sized("92", sized(92)),))
    with pytest.raises(NotAPattern, match="one name"):
        Nest("Dress", (Sized("92", sized(92)), Sized("92", sized(96))))
    with pytest.raises(UnknownName, match='no size "90"'):
        nest(84, 92).pattern("90")


def test_another_piece_in_one_size_is_refused_by_name() -> None:
    with pytest.raises(NotAPattern, match="the pieces differ: size 84 has sleeve"):
        Nest("Dress", (Sized("84", sized(84)), Sized("92", sized(92, "bodice", "skirt"))))


def test_another_edge_in_one_size_is_refused_by_name() -> None:
    back = sized(92).piece("skirt back")
    renamed = with_pieces(replace(sized(92), seams=()), _with_hem_called(back, "lower edge"))
    with pytest.raises(
        NotAPattern, match=r'the edges of "skirt back" differ: size 84 has hem \(hem\); size 92 has lower'
    ):
        Nest("Dress", (Sized("84", sized(84)), Sized("92", renamed)))


def _with_hem_called(piece: Piece, name: str) -> Piece:
    return replace(piece, edges=tuple(replace(edge, name=name) if edge.name == "hem" else edge for edge in piece.edges))
