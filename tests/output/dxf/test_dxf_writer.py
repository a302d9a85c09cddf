from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.checks import Verdict, run_checks, worst
from drafting.errors import InputProblems
from drafting.geometry import Cubic, Point
from drafting.pattern import Nest, Pattern, Piece, Sized, Wearer, with_edges, with_pieces
from output.dxf.dxf_reader import read_dxf
from output.dxf.dxf_writer import block_names, dxf_bytes, nest_dxf_bytes
from tests.drafting.pattern.sample import front, pattern
from tests.drafting.sizes import sized
from tests.outside.ferry import ferry_dress
from tests.renaming import BASES, NAMINGS, base_pattern, names_for, renamed
from tests.sampling import some

RAW = dxf_bytes(pattern())


def refused(raw: bytes) -> str:
    with pytest.raises(InputProblems) as caught:
        read_dxf(raw, place="x.dxf")
    return str(caught.value)


def test_the_same_pattern_gives_the_same_bytes_and_the_library_is_left_as_it_was() -> None:
    import ezdxf

    for state in (False, True):
        ezdxf.options.write_fixed_meta_data_for_testing = state
        assert dxf_bytes(pattern()) == RAW
        assert ezdxf.options.write_fixed_meta_data_for_testing is state
    ezdxf.options.write_fixed_meta_data_for_testing = False


def test_a_file_of_before_gives_back_its_pieces_and_seams() -> None:
    """One of release 2000, with the seams in a record of the file: as they were written until release 12 was taken."""
    raw = (Path(__file__).parents[2] / "data" / "release_2000" / "harbour-skirt.dxf").read_bytes()
    before = read_dxf(raw)
    assert (before.seams, before.derived) == (pattern().seams, pattern().derived)
    for piece in pattern().pieces:
        for edge in piece.edges:
            assert before.piece(piece.name).edge(edge.name).length == pytest.approx(edge.length, abs=0.02)


def test_the_file_of_a_dress_is_a_fifth_of_what_a_general_library_made_of_it() -> None:
    """362,343 bytes (measured): the same garment by ezdxf, in release 2000 with chords that stray by 0.02 mm."""
    assert len(dxf_bytes(ferry_dress())) < 0.2 * 362_343


def test_our_own_file_gives_back_every_piece_edge_and_mark_by_name() -> None:
    back = read_dxf(RAW)
    assert (back.title, back.wearer.name) == ("Harbour skirt", "Ylva Ström")
    assert [piece.name for piece in back.pieces] == ["skirt front", "skirt back"]
    for ours, theirs in zip(pattern().pieces, back.pieces, strict=True):
        assert (theirs.cut, theirs.grain, theirs.darts, theirs.lines, theirs.points) == (
            ours.cut,
            ours.grain,
            ours.darts,
            ours.lines,
            ours.points,
        )
        for edge in ours.edges:
            read = theirs.edge(edge.name)
            assert (read.role, read.allowance, read.start, read.end) == (
                edge.role,
                edge.allowance,
                edge.start,
                edge.end,
            )
            assert read.length == pytest.approx(edge.length, abs=0.05)
        for notch in ours.notches:
            station = theirs.notch(notch.name).station
            at = notch.station.at
            whole = ours.edge(notch.station.edge).length
            assert station.at == pytest.approx(at if notch.station.end == "start" else whole - at, abs=0.05)
            assert (station.edge, theirs.notch(notch.name).style) == (notch.station.edge, notch.style)


@pytest.mark.parametrize("name", some(BASES, every=3))
def test_what_each_part_is_comes_back_with_it_whatever_it_is_called(name: str) -> None:
    base = base_pattern(name)
    base = renamed(base, names_for(base, NAMINGS["another script"]))
    back = read_dxf(dxf_bytes(base))
    for ours, theirs in zip(base.pieces, back.pieces, strict=True):
        assert theirs.identity == ours.identity
        for group in ("edges", "notches", "lines", "points"):
            assert [_types(each) for each in getattr(theirs, group)] == [_types(each) for each in getattr(ours, group)]


def _types(part: object) -> list[object]:
    words = ("place", "half", "drawn_up", "marks", "level", "onward", "landmark")
    return [part.name, *(getattr(part, word, None) for word in words)]  # type: ignore[attr-defined]


def test_a_sound_dress_read_back_passes_every_check_that_asks_nothing_of_her_body() -> None:
    results = run_checks(read_dxf(dxf_bytes(ferry_dress())))
    assert {result.code for result in results if result.verdict == "nothing"} == {"ease-to-move", "room-to-get-in"}
    assert {result.code for result in results if result.verdict == "pass"} == {
        "seam-length",
        "allowance-ends",
        "edges-sewn",
        "notches-meet",
        "hems-alike",
        "corners-true",
        "dart-legs",
        "dart-wide",
        "dart-long",
        "bends-allowed",
        "curves-even",
        "turned-in-lies",
        "notch-marks",
        "neck-goes-round",
        "buttons-clear",
        "collar-sits",
        "pockets-clear",
        "stretch-enough",
        "crotch-curve",
        "inseams-meet",
        "crease-middle",
        "leg-room",
        "hand-room",
        "gathers-marked",
        "narrow-turns",
        "goes-on-cloth",
        "body-length",
        "closings-meet",
        "cut-width",
        "fullness-lies",
        "outline-simple",
        "grain-line",
    }
    assert all(result.verdict in ("nothing", "pass") for result in results)


def test_written_again_what_was_read_is_the_same_drawing_of_the_same_pieces() -> None:
    once = read_dxf(RAW)
    again = read_dxf(dxf_bytes(once))
    for before, after in zip(once.pieces, again.pieces, strict=True):
        for edge in before.edges:
            assert after.edge(edge.name).length == pytest.approx(edge.length, abs=1e-4)


def test_block_names_keep_to_the_letters_of_the_oldest_readers_and_differ() -> None:
    names = block_names(["bodice front", "Bodice Front", "Ärmel, rechts", "", "x" * 40, "x" * 50, "袖"])
    assert names == ("BODICE_FRONT", "BODICE_FRONT-2", "ARMEL__RECHTS", "PIECE", "X" * 31, "X" * 29 + "-2", "_")


def test_names_with_any_letters_survive_or_become_one_line() -> None:
    strange = replace(pattern(), wearer=Wearer("Łucja 袖\nsecond line"), title="a %% \t b")
    back = read_dxf(dxf_bytes(strange))
    assert back.wearer.name == "Łucja 袖 second line"
    assert back.title == "a %%   b"


def test_a_nest_comes_back_as_every_piece_in_every_size_and_passes_what_can_be_checked_of_pieces() -> None:
    sizes = {str(size): sized(size, "skirt") for size in (88, 92)}
    raw = nest_dxf_bytes(Nest("Skirt", tuple(Sized(size, each) for size, each in sizes.items())))
    assert raw == nest_dxf_bytes(Nest("Skirt", tuple(Sized(size, each) for size, each in sizes.items())))
    back = read_dxf(raw)
    assert {piece.name for piece in back.pieces} == {
        f"{p.name}, size {s}" for s, each in sizes.items() for p in each.pieces
    }
    for size, each in sizes.items():
        for piece in each.pieces:
            for edge in piece.edges:
                there = back.piece(f"{piece.name}, size {size}").edge(edge.name)
                assert there.length == pytest.approx(edge.length, abs=0.05)
    assert worst(run_checks(back)) in (Verdict.PASS, Verdict.WARN)


# ---- files of others: drawn here with the library, in the layers and with nothing else of ours ----------------


def others_file(*, unit: int = 4, text: str = "", scale: float = 1.0, layers: str = "full", gap: float = 0.0) -> bytes:
    """A square piece, 100 by 100 in the file's unit, clockwise from its second corner, on the fold at the left."""
    import ezdxf

    document = ezdxf.new("R2000", units=unit)
    if unit == 0:
        document.header["$INSUNITS"] = 0
    block = document.blocks.new("POCKET")
    corners = [(0.0, 100.0), (100.0, 100.0), (100.0, 0.0), (0.0, 0.0)]
    if gap:
        corners = [*corners[1:], corners[0]]
    if layers == "full":
        block.add_lwpolyline(corners, close=gap == 0.0, dxfattribs={"layer": "1"})
        for corner in corners:
            block.add_point(corner, dxfattribs={"layer": "2"})
        block.add_line((0.0, 0.0), (0.0, 100.0), dxfattribs={"layer": "6"})
        block.add_line((20.0, 10.0), (20.0, 90.0), dxfattribs={"layer": "7"})
        block.add_line((0.0, 50.0), (100.0, 50.0), dxfattribs={"layer": "8"})
        block.add_point((100.0, 30.0), dxfattribs={"layer": "4"})
        block.add_text("Piece Name: Pocket", dxfattribs={"layer": "1"})
        block.add_text("Quantity: 2,0", dxfattribs={"layer": "1"})
    document.modelspace().add_blockref("POCKET", (0, 0), dxfattribs={"xscale": scale, "yscale": scale})
    if text:
        document.modelspace().add_text(text)
    stream = io.StringIO()
    document.write(stream)
    return bytes(document.encode(stream.getvalue()))


def only(pattern_read: Pattern) -> Piece:
    (piece,) = pattern_read.pieces
    return piece


def test_the_file_of_another_is_read_by_its_layers() -> None:
    piece = only(read_dxf(others_file()))
    assert (piece.name, piece.cut.count, piece.cut.fold) == ("Pocket", 2, True)
    assert [edge.length for edge in piece.edges] == [100.0] * 4
    assert [edge.role.value for edge in piece.edges].count("fold") == 1
    assert piece.grain is not None
    assert piece.lines[0].end.x - piece.lines[0].start.x == 100.0
    station = piece.notches[0].station
    assert piece.edge(station.edge).start.x == 100.0
    assert station.at in (30.0, 70.0)


@pytest.mark.parametrize(
    ("unit", "text", "side"),
    [
        (4, "", 100.0),
        (5, "", 1000.0),
        (1, "", 2540.0),
        (0, "UNITS: METRIC", 100.0),
        (0, "Units: English", 2540.0),
    ],
)
def test_the_unit_of_a_file_is_taken_from_its_header_or_its_text(unit: int, text: str, side: float) -> None:
    assert only(read_dxf(others_file(unit=unit, text=text))).edges[0].length == pytest.approx(side)


def test_a_gap_in_an_outline_is_reported_with_its_place() -> None:
    assert "x.dxf, block POCKET: read lines on layer 1 that stop at (0.0, 100.0)" in refused(others_file(gap=1.0))


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        (others_file(unit=0), "read no unit"),
        (others_file(scale=2.0), "scale of 2 by 2"),
        (others_file(layers="none"), "no block that holds a piece"),
        (b"", "expected a DXF file"),
        (b"\x00" * 5000, "read what is no DXF"),
        (b'{"format": "trueseam pattern"}', "read what is no DXF"),
        (RAW[: len(RAW) // 4], "expected"),
        (RAW[: len(RAW) // 4], "a part of it is cut off"),
        (others_file().replace(b"100.0\n", b"0.000001\n"), "an outline less than 1 mm across"),
    ],
)
def test_what_cannot_be_read_is_refused_in_words(raw: bytes, said: str) -> None:
    assert said in refused(raw)


@given(st.data())
@settings(deadline=None, max_examples=25)
def test_a_damaged_file_is_read_or_refused_in_words(data: st.DataObject) -> None:
    raw = bytearray(RAW)
    # the header is long and holds little of ours: damage falls on the blocks more often than not
    for _ in range(data.draw(st.integers(1, 5))):
        at = data.draw(st.integers(RAW.index(b"BLOCKS"), len(RAW) - 1) | st.integers(0, len(RAW) - 1))
        raw[at : at + data.draw(st.integers(0, 60))] = data.draw(st.binary(max_size=4))
    assert attempt(bytes(raw))


def attempt(raw: bytes) -> tuple[object, ...]:
    try:
        return read_dxf(raw).pieces
    except InputProblems as refusal:
        return refusal.sentences()


def test_a_piece_that_crosses_itself_is_written_and_read_for_the_checks_to_find() -> None:
    piece = front()
    knot = Cubic(Point(0.0, 0.0), Point(900.0, 200.0), Point(-700.0, 200.0), Point(240.0, 0.0))
    crossing = with_edges(piece, replace(piece.edge("hem"), curves=(knot,)))
    back = read_dxf(dxf_bytes(with_pieces(pattern(), crossing))).piece("skirt front")
    assert back.edge("hem").length == pytest.approx(crossing.edge("hem").length, abs=0.05)


def test_our_own_file_keeps_her_unit_and_how_far_a_knit_stretches_and_one_drawn_in_inches_is_told_in_inches() -> None:
    plain = ferry_dress()
    knit = replace(plain, stretch=0.4, wearer=replace(plain.wearer, unit="in"))
    again = read_dxf(dxf_bytes(knit))
    assert (again.stretch, again.wearer.unit, again.wearer.lengths) == (0.4, "in", ())
    assert read_dxf(RAW).wearer.unit == "cm"
    assert [read_dxf(others_file(unit=unit)).wearer.unit for unit in (1, 4)] == ["in", "cm"]
