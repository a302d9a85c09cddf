"""Files as others write them, drawn here by hand: older versions, splines, halves, no unit, layers that are missing."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import pytest

from drafting.checks import Verdict, run_checks, worst
from drafting.errors import InputProblems
from drafting.geometry import Point
from drafting.pattern import Piece, Role
from output.dxf.close_outlines import Strand, outer_loop
from output.dxf.dxf_reader import read_dxf

Corner = tuple[float, float]
# half a front, its fold on the left: neck, shoulder, armhole, side, hem; lengths in mm
HALF: Sequence[Corner] = ((0, 0), (240, 0), (230, 350), (180, 380), (120, 560), (70, 580), (0, 500))
ARMHOLE = [(230.0, 350.0), (150.0, 360.0), (140.0, 480.0), (120.0, 560.0)]  # the control places of a cubic


def drawing(version: str = "R2000", unit: int = 4) -> Any:
    import ezdxf

    document = ezdxf.new(version, units=unit)
    document.header["$INSUNITS"] = unit
    return document


def raw(document: Any) -> bytes:
    stream = io.StringIO()
    document.write(stream)
    return bytes(document.encode(stream.getvalue()))


def only(data: bytes, **how: Any) -> Piece:
    (piece,) = read_dxf(data, **how).pieces
    return piece


def area(piece: Piece) -> float:
    places = [curve.start for edge in piece.edges for curve in edge.curves]
    return 0.5 * sum(a.x * b.y - b.x * a.y for a, b in zip(places, places[1:] + places[:1], strict=True))


def test_r12_with_old_polylines_and_the_unit_in_a_text() -> None:
    document = drawing("R12", 0)
    block = document.blocks.new("FRONT")
    block.add_polyline2d(HALF, close=True, dxfattribs={"layer": "1"})
    block.add_text("PIECE NAME: Front", dxfattribs={"layer": "1"})
    document.modelspace().add_text("UNITS: METRIC")
    document.modelspace().add_blockref("FRONT", (0, 0))
    piece = only(raw(document))
    assert piece.name == "Front"
    assert len(piece.edges) == len(HALF)  # no turn points: split where it turns
    assert worst(run_checks(read_dxf(raw(document)))) is not Verdict.ERROR


def test_an_outline_of_single_lines_in_any_order_and_direction() -> None:
    document = drawing()
    block = document.blocks.new("FRONT")
    sides = list(zip(HALF, [*HALF[1:], HALF[0]], strict=True))
    for count, (one, other) in enumerate(sides[3:] + sides[:3]):
        block.add_line(*((one, other) if count % 2 else (other, one)), dxfattribs={"layer": "1"})
    assert len(only(raw(document)).edges) == len(HALF)


def test_a_spline_comes_back_as_the_curve_it_is() -> None:
    document = drawing()
    block = document.blocks.new("FRONT")
    block.add_lwpolyline([(120, 560), (70, 580), (0, 500), (0, 0), (240, 0), (230, 350)], dxfattribs={"layer": "1"})
    block.add_open_spline(ARMHOLE, degree=3, dxfattribs={"layer": "1"})
    piece = only(raw(document))
    t = [i / 20000 for i in range(20001)]
    at = [
        tuple(
            (1 - s) ** 3 * a + 3 * (1 - s) ** 2 * s * b + 3 * (1 - s) * s * s * c + s**3 * d
            for a, b, c, d in zip(*ARMHOLE, strict=True)
        )
        for s in t
    ]
    whole = sum(math.dist(a, b) for a, b in pairwise(at))  # chords of 10 micrometres
    assert min(abs(edge.length - whole) for edge in piece.edges) < 0.02


def test_inches_with_turn_and_curve_points_as_the_standard_has_them() -> None:
    document = drawing(unit=1)
    block = document.blocks.new("CIRCLE-SKIRT")
    steps = [math.radians(degrees) for degrees in range(0, 91, 5)]
    hem = [(30 * math.cos(a), 30 * math.sin(a)) for a in steps]
    waist = [(5 * math.cos(a), 5 * math.sin(a)) for a in reversed(steps)]
    block.add_lwpolyline([*hem, *waist], close=True, dxfattribs={"layer": "1"})
    for run in (hem, waist):
        for place in (run[0], run[-1]):
            block.add_point(place, dxfattribs={"layer": "2"})
        for place in run[1:-1]:
            block.add_point(place, dxfattribs={"layer": "3"})
    lengths = sorted(edge.length for edge in only(raw(document)).edges)
    quarter = math.pi / 2 * 25.4
    # the arcs that were drawn, not the chords between their points: those fall short by 0.4 mm on the hem
    assert lengths == pytest.approx([5 * quarter, 25 * 25.4, 25 * 25.4, 30 * quarter], abs=0.05)


@pytest.mark.parametrize(("closed", "mirror"), [(True, ((0, -10), (0, 510))), (False, ((0, 0), (0, 500)))])
def test_a_half_with_its_mirror_line(closed: bool, mirror: Sequence[Corner]) -> None:
    """The line may run on beyond the piece, or stand in the place of its edge."""
    document = drawing()
    block = document.blocks.new("FRONT")
    block.add_lwpolyline(HALF, close=closed, dxfattribs={"layer": "1"})
    block.add_line(*mirror, dxfattribs={"layer": "6"})
    piece = only(raw(document))
    assert piece.cut.fold
    assert [edge.length for edge in piece.edges if edge.role is Role.FOLD] == [500.0]


def test_a_mirror_line_inside_a_whole_piece_is_no_fold() -> None:
    document = drawing()
    block = document.blocks.new("FRONT")
    whole = [*HALF, *((-x, y) for x, y in reversed(HALF[1:-1]))]
    whole = [corner for corner in whole if corner != (0, 0)]
    block.add_lwpolyline(whole, close=True, dxfattribs={"layer": "1"})
    block.add_line((0, 0), (0, 500), dxfattribs={"layer": "6"})
    piece = only(raw(document))
    assert not piece.cut.fold
    assert all(edge.role is Role.SEAM for edge in piece.edges)


def test_the_allowance_is_read_between_a_boundary_and_a_sew_line() -> None:
    document = drawing()
    block = document.blocks.new("POCKET")
    block.add_lwpolyline([(0, 0), (120, 0), (120, 160), (0, 160)], close=True, dxfattribs={"layer": "1"})
    block.add_lwpolyline([(10, 10), (110, 10), (110, 130), (10, 130)], close=True, dxfattribs={"layer": "14"})
    piece = only(raw(document))
    assert area(piece) == 100 * 120
    assert sorted(edge.allowance for edge in piece.edges) == [10.0, 10.0, 10.0, 30.0]


def test_pieces_drawn_without_blocks_or_layers_are_found_by_their_closed_lines() -> None:
    document = drawing()
    space = document.modelspace()
    for left, name in ((0, "Front"), (400, "Back")):
        space.add_lwpolyline([(x + left, y) for x, y in HALF], close=True)
        space.add_circle((left + 100, 200), 8)  # a buttonhole lies in it
        space.add_mtext(f"Piece name: {name}", dxfattribs={"insert": (left + 50, 100)})
    pieces = read_dxf(raw(document)).pieces
    assert [piece.name for piece in pieces] == ["Front", "Back"]
    assert {len(piece.edges) for piece in pieces} == {len(HALF)}


def test_no_unit_anywhere_is_asked_for_and_may_be_said() -> None:
    document = drawing(unit=0)
    document.blocks.new("FRONT").add_lwpolyline(HALF, close=True, dxfattribs={"layer": "1"})
    with pytest.raises(InputProblems, match='drawing_unit = "mm"'):
        read_dxf(raw(document))
    assert only(raw(document), unit="cm").edges[0].length == pytest.approx(
        10 * only(raw(document), unit="mm").edges[0].length
    )


def many_lines() -> bytes:
    document = drawing()
    block = document.blocks.new("FRONT")
    for count in range(5_000):
        block.add_line((count, 0), (count, 1), dxfattribs={"layer": "1"})
    return raw(document)


def many_loops() -> bytes:
    document = drawing()
    for count in range(2_000):
        document.modelspace().add_lwpolyline([(count * 3, 0), (count * 3 + 1, 0), (count * 3, 1)], close=True)
    return raw(document)


def long_spline() -> bytes:
    document = drawing()
    places = [((count * 7919) % 100_003, (count * 104_729) % 99_991) for count in range(3_000)]
    document.blocks.new("FRONT").add_open_spline(places, dxfattribs={"layer": "1"})
    return raw(document)


@pytest.mark.parametrize(
    ("made", "said"),
    [(many_lines, "that stop at"), (many_loops, "closed lines side by side"), (long_spline, "a line of more than")],
)
def test_a_file_that_is_too_much_is_refused_in_words(made: Any, said: str) -> None:
    with pytest.raises(InputProblems, match=said):
        read_dxf(made())


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"0\n" * 3_000_000, "values, expected up to"),
        (b"0\nLINE\n" * 250_000, "lines, points and texts"),
        (b" " * 19_000_000 + b"0\nSECTION\n" * 200_000, "bytes"),
    ],
)
def test_a_file_of_too_much_is_refused_before_the_library_reads_it(
    data: bytes, said: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("output.dxf.load_drawing.load_ezdxf", lambda: pytest.fail("it was read"))
    with pytest.raises(InputProblems, match=said):
        read_dxf(data)


def test_a_file_without_a_header_states_no_unit() -> None:
    """The library says metres for it; the file says nothing."""
    square = "".join(f"0\nVERTEX\n8\n1\n10\n{x}\n20\n{y}\n" for x, y in ((0, 0), (12, 0), (12, 16), (0, 16)))
    begun = "0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n8\n1\n66\n1\n70\n1\n"
    bare = f"{begun}{square}0\nSEQEND\n0\nENDSEC\n0\nEOF\n".encode()
    with pytest.raises(InputProblems, match="no unit"):
        read_dxf(bare)
    assert [edge.length for edge in only(bare, unit="in").edges] == pytest.approx([304.8, 406.4, 304.8, 406.4])


def test_a_line_drawn_many_times_is_read_once() -> None:
    document = drawing()
    block = document.blocks.new("FRONT")
    for one, other in zip(HALF, [*HALF[1:], HALF[0]], strict=True):
        block.add_line(one, other, dxfattribs={"layer": "1"})
        block.add_line(other, one, dxfattribs={"layer": "1"})
    assert len(only(raw(document)).edges) == len(HALF)


def test_lines_that_share_an_end_are_looked_at_once_each(monkeypatch: pytest.MonkeyPatch) -> None:
    """The work grows with the lines, not with their square: lines from one place are compared a few times each."""
    compared = 0
    near = Point.near

    def count(at: Point, other: Point, within: float) -> bool:
        nonlocal compared
        compared += 1
        return near(at, other, within)

    star = [Strand((Point(10.0 + k, 7.0 * k), Point(0.0, 0.0))) for k in range(2_000)]
    monkeypatch.setattr(Point, "near", count)
    outer_loop(star)
    assert compared < 10 * len(star)


def outline(*corners: Corner) -> bytes:
    document = drawing()
    document.modelspace().add_lwpolyline(corners, close=True, dxfattribs={"layer": "1"})
    return raw(document)


def test_a_dart_cut_into_the_outline_is_found_as_one() -> None:
    # a quarter of a skirt, mm; in its waist a dart 20 wide and 110 long
    piece = only(outline((0, 0), (250, 0), (250, 600), (150, 600), (140, 490), (130, 600), (0, 600)))
    (dart,) = piece.darts
    assert (dart.name, dart.apex) == ("dart 1", Point(140, 490))
    assert [piece.edge(leg).role for leg in dart.legs] == [Role.DART_LEG] * 2
    assert {each.code: each.verdict.value for each in run_checks(read_dxf(outline(*HALF)))}["dart-legs"] == "nothing"


@pytest.mark.parametrize(
    ("corners", "why"),
    [
        (((0, 0), (400, 0), (400, 600), (280, 620), (200, 440), (120, 620), (0, 600)), "a V neck, 160 mm wide"),
        (((0, 0), (250, 0), (250, 600), (150, 600), (140, 585), (130, 600), (0, 600)), "a nick of 15 mm"),
        (((0, 0), (250, 0), (250, 600), (150, 600), (140, 710), (130, 600), (0, 600)), "a tongue out of the piece"),
        (((0, 0), (250, 0), (250, 600), (150, 600), (140, 450), (100, 560), (0, 600)), "legs that differ"),
    ],
)
def test_what_only_looks_like_a_dart_is_none(corners: Sequence[Corner], why: str) -> None:
    assert only(outline(*corners)).darts == (), why


def lines_of(kind: str) -> bytes:
    document = drawing()
    space, layer = document.modelspace(), {"layer": "1"}
    match kind:
        case "open":
            space.add_lwpolyline([(0, 0), (300, 0), (300, 400), (0, 400)], dxfattribs=layer)
        case "bulge":
            space.add_lwpolyline([(0, 0), (300, 0, 0, 0, math.nan), (300, 400)], close=True, dxfattribs=layer)
        case "spline":
            space.add_open_spline([(0, 0), (300, 0), (300, 400), (0, 0)], degree=3, dxfattribs=layer).dxf.degree = 99
        case "point":
            space.add_lwpolyline([(5, 5)] * 4, close=True, dxfattribs=layer)
        case "eight":
            space.add_lwpolyline([(0, 0), (300, 400), (300, 0), (0, 400)], close=True, dxfattribs=layer)
        case "star":
            turned = [(200 + 200 * math.cos(2.5 * k), 200 + 200 * math.sin(2.5 * k)) for k in range(900)]
            space.add_lwpolyline(turned, close=True, dxfattribs=layer)
        case "far":
            space.add_lwpolyline([(0, 0), (1e300, 0), (300, 400)], close=True, dxfattribs=layer)
    return raw(document)


@pytest.mark.parametrize(
    ("kind", "said"),
    [
        ("open", "read lines on layer 1 that stop at (0.0, 400.0), expected one closed line"),
        ("bulge", "read a bulge of nan in the polyline on layer 1, expected numbers that can be drawn"),
        ("spline", "read a damaged spline on layer 1, expected numbers that can be drawn"),
        ("point", "read a polyline on layer 1 that is a single point"),
        ("eight", "read an outline that crosses itself at (150.0, 200.0), expected one line round the piece"),
        ("star", "read an outline with 900 corners"),
        ("far", "read a place at (1e+300, 0.0), expected numbers from -100,000 to 100,000 mm"),
    ],
)
def test_a_damaged_line_is_called_by_what_and_where_it_is(kind: str, said: str) -> None:
    with pytest.raises(InputProblems) as refused:
        read_dxf(lines_of(kind))
    assert said in str(refused.value)


def test_a_name_is_cut_at_as_many_letters_as_a_file_may_write() -> None:
    document = drawing()
    document.modelspace().add_lwpolyline(HALF, close=True, dxfattribs={"layer": "1"})
    document.modelspace().add_text("PIECE NAME: " + "M" * 5_000, dxfattribs={"layer": "1", "insert": (100, 100)})
    assert only(raw(document)).name == "M" * 200
