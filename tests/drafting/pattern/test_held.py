"""What is gathered and what eased, worked out on two strips that are sewn together between their notches."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.geometry import Line, Point, run_length
from drafting.pattern import Edge, EdgeRef, Fullness, Notch, NotchRef, Pattern, Piece, Seam, SeamEase, Station, Wearer
from drafting.pattern.gathered import beside_threads, held_in, meeting_places, thread_lines
from drafting.pattern.places import NotchMark
from drafting.pattern.roll_seam import roll_seam
from drafting.pattern.walk import walk


def strip(name: str, *longs: float, notches: tuple[float, ...] = (), drawn_up: int | None = None) -> Piece:
    """A strip 50 mm wide whose upper edge, from the right, is edges so long; its notches so far along that."""
    ends = [0.0]
    for long in longs:
        ends.append(ends[-1] + long)
    whole = ends[-1]
    places = [Point(whole - at, 50.0) for at in ends]
    edges = [
        Edge(f"top {k}", (Line(places[k], places[k + 1]),), drawn_up=Fullness.EASED if k == drawn_up else None)
        for k in range(len(longs))
    ]
    corners = (places[-1], Point(0.0, 0.0), Point(whole, 0.0), places[0])
    edges += [Edge(f"side {k}", (Line(corners[k], corners[k + 1]),)) for k in range(3)]
    marks = []
    for k, at in enumerate(notches):
        on = next(n for n in range(len(longs)) if ends[n + 1] >= at)
        marks.append(Notch(f"notch {k}", Station(f"top {on}", at - ends[on])))
    return Piece(name, tuple(edges), notches=tuple(marks))


def sewn(one: Piece, other: Piece, *pairs: tuple[int, int], low: float = 0.0, high: float = 400.0) -> Pattern:
    """The strips sewn along their upper edges from the right of the one and the left of the other; pairs of notches."""
    tops = [[edge.name for edge in piece.edges if edge.name.startswith("top")] for piece in (one, other)]
    a = tuple(EdgeRef(one.name, name) for name in tops[0])
    b = tuple(EdgeRef(other.name, name, backward=True) for name in reversed(tops[1]))
    marks = tuple((NotchRef(one.name, f"notch {i}"), NotchRef(other.name, f"notch {j}")) for i, j in pairs)
    seam = Seam("top", a, b, SeamEase(max(low, 0.0), low, high), marks)
    return Pattern("Strips", Wearer("Inga"), (one, other), (seam,))


def told(pattern: Pattern) -> list[tuple[str, str, bool, str, str, float, float]]:
    return [
        (h.piece, str(h.kind), h.longer, h.begin, h.end, round(h.length, 6), round(h.to, 6)) for h in held_in(pattern)
    ]


@pytest.mark.parametrize(
    ("long", "kind"),
    [(202.9, None), (203.1, "eased"), (249.9, "eased"), (250.1, "gathered"), (400.0, "gathered")],
)
def test_a_stretch_longer_by_3_mm_is_eased_in_and_by_more_than_a_quarter_gathered(
    long: float, kind: str | None
) -> None:
    """The seam as a whole is no gathered one: it may be plain (its least ease is nothing)."""
    found = told(sewn(strip("long", long), strip("short", 200.0)))
    both = [("long", kind, True, "", "", long, 200.0), ("short", kind, False, "", "", 200.0, 200.0)]
    assert found == (both if kind else [])


def test_a_seam_that_is_to_be_a_tenth_longer_is_gathered_all_along() -> None:
    pieces = strip("long", 230.0), strip("short", 200.0)
    assert {kind for _, kind, *_ in told(sewn(*pieces, low=20.0))} == {"eased"}
    assert {kind for _, kind, *_ in told(sewn(*pieces, low=20.1))} == {"gathered"}


def test_what_is_held_in_lies_between_the_notches_that_meet_and_may_be_on_either_side() -> None:
    """Notches 60 and 160 of 300 along the one meet 80 and 140 of 300 along the other."""
    pattern = sewn(
        strip("one", 300.0, notches=(60.0, 160.0)), strip("other", 300.0, notches=(220.0, 160.0)), (0, 0), (1, 1)
    )
    assert told(pattern) == [
        ("one", "gathered", False, "", "notch 0", 60.0, 60.0),
        ("other", "gathered", True, "notch 0", "", 80.0, 60.0),
        ("one", "gathered", True, "notch 0", "notch 1", 100.0, 60.0),
        ("other", "gathered", False, "notch 1", "notch 0", 60.0, 60.0),
        ("one", "eased", False, "notch 1", "", 140.0, 140.0),
        ("other", "eased", True, "", "notch 1", 160.0, 140.0),
    ]


def test_neighbours_that_are_held_in_alike_are_one_stretch() -> None:
    pattern = sewn(strip("one", 300.0, notches=(120.0,)), strip("other", 200.0, notches=(120.0,)), (0, 0), high=200.0)
    assert told(pattern)[0] == ("one", "gathered", True, "", "", 300.0, 200.0)


def test_a_stretch_that_lies_flat_parts_what_is_held_in_beside_it() -> None:
    one = strip("one", 300.0, notches=(100.0, 160.0))
    other = strip("other", 220.0, notches=(160.0, 100.0))
    pattern = sewn(one, other, (0, 0), (1, 1))
    assert [(h[0], h[3], h[4]) for h in told(pattern) if h[2]] == [("one", "", "notch 0"), ("one", "notch 1", "")]


def test_a_mark_to_which_a_stretch_is_drawn_up_takes_the_cloth_on_both_sides_along() -> None:
    """Two notches 40 mm apart meet one: 60, 40, 100 on the one are sewn to 60, 0, 98."""
    one, other = strip("one", 200.0, notches=(60.0, 100.0)), strip("other", 158.0, notches=(98.0,))
    found = told(sewn(one, other, (0, 0), (1, 0)))
    assert found[:2] == [
        ("one", "gathered", True, "", "", 200.0, 158.0),
        ("other", "gathered", False, "", "", 158.0, 158.0),
    ]


def test_a_dart_left_unsewn_says_itself_whether_it_is_eased_or_gathered() -> None:
    other = strip("short", 120.0)
    assert {h[1] for h in told(sewn(strip("long", 80.0, 60.0, 60.0), other))} == {"gathered"}
    assert {h[1] for h in told(sewn(strip("long", 80.0, 60.0, 60.0, drawn_up=1), other))} == {"eased"}
    back = sewn(strip("a", 120.0), strip("b", 80.0, 60.0, 60.0, drawn_up=0))
    assert {(h[0], h[1]) for h in told(back) if h[2]} == {("b", "eased")}


def test_what_is_held_in_over_several_pieces_is_told_of_each() -> None:
    first, second, third = strip("first", 120.0), strip("second", 180.0), strip("third", 200.0)
    runs = (EdgeRef("first", "top 0"), EdgeRef("second", "top 0")), (EdgeRef("third", "top 0", backward=True),)
    seam = Seam("top", *runs, SeamEase(100.0, 0.0, 200.0))
    found = told(Pattern("Strips", Wearer("Inga"), (first, second, third), (seam,)))
    assert [(h[0], h[2], h[5], h[6]) for h in found] == [
        ("first", True, 120.0, 80.0),
        ("second", True, 180.0, 120.0),
        ("third", False, 200.0, 200.0),
    ]


def test_the_threads_lie_3_and_6_mm_inside_and_the_words_3_further() -> None:
    held = next(held_in(sewn(strip("long", 300.0), strip("short", 200.0))))
    assert [curve.start.y for curve in thread_lines(held)] == pytest.approx([47.0, 44.0])
    assert [curve.start.y for curve in beside_threads(held)] == pytest.approx([41.0])
    assert run_length(held.curves) == pytest.approx(300.0)


def test_where_a_seam_meets_is_told_with_its_notches_and_where_gathers_begin() -> None:
    """A gathered seam that lies flat for 20 mm before a notch of its own, and for 30 at its end without one."""
    one = strip("one", 400.0, 30.0, notches=(20.0, 200.0))
    one = replace(one, notches=(replace(one.notches[0], marks=NotchMark.GATHERS_END), one.notches[1]))
    other = strip("other", 30.0, 220.0, notches=(230.0, 130.0))
    pattern = sewn(one, other, (0, 0), (1, 1), low=100.0)
    walked = walk(pattern, pattern.seams[0])
    assert (walked.gathered, walked.flat) == (True, pytest.approx((20.0, 30.0)))
    assert [(m.a, m.b, m.mark_a, m.mark_b) for m in meeting_places(walked)] == [
        (0.0, 0.0, "", ""),
        (20.0, 20.0, "notch 0", "notch 0"),
        (200.0, 120.0, "notch 1", "notch 1"),
        (400.0, 220.0, "", ""),
        (430.0, 250.0, "", ""),
    ]


def test_a_notch_that_is_off_its_seam_meets_nothing() -> None:
    one = replace(strip("one", 200.0), notches=(Notch("notch 0", Station("side 0", 20.0)),))
    other = strip("other", 200.0, notches=(80.0,))
    plain = replace(sewn(one, other, (0, 0)), seams=(replace(sewn(one, other, (0, 0)).seams[0], ease=SeamEase()),))
    for pattern in (sewn(one, other, (0, 0)), plain):
        walked = walk(pattern, pattern.seams[0])
        assert (walked.notches[0].along_a, walked.notches[0].along_b) == (None, 120.0)
        assert {place.a for place in meeting_places(walked)} == {0.0, 200.0}
        assert {laid.mark for laid in roll_seam(pattern, pattern.seams[0], step=50.0).places} == {("", "")}


def test_a_seam_is_rolled_with_both_runs_touching_and_going_the_same_way() -> None:
    first, second, third = strip("first", 120.0), strip("second", 80.0), strip("third", 150.0, 50.0)
    runs = (
        (EdgeRef("first", "top 0"), EdgeRef("second", "top 0")),
        (EdgeRef("third", "top 1", backward=True), EdgeRef("third", "top 0", backward=True)),
    )
    pattern = Pattern("Strips", Wearer("Inga"), (first, second, third), (Seam("top", *runs),))
    rolled = roll_seam(pattern, pattern.seams[0], step=40.0)
    # a place at each end, 40 mm apart between, and where two edges meet one before and one after
    assert [(round(at.along_a, 6), round(at.along_b, 6)) for at in rolled.places] == [
        (each, each) for each in (0.0, 40.0, 50.0, 50.0, 80.0, 120.0, 120.0, 160.0, 200.0)
    ]
    (_, laid) = rolled.a
    assert laid.move.point(second.edge("top 0").start) == first.edge("top 0").end
    for place in rolled.places:
        assert place.at.y == pytest.approx(50.0)
        assert place.at.x == pytest.approx(place.along_b)
        # the first run lies as the image of itself on the seam: right sides together
        assert place.move.point(Point(120.0 - place.along_a, 50.0)).near(place.at, 1e-6)
