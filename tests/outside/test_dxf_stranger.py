"""The DXF before strangers: a reader of group codes written here alone, and the audit of ezdxf.

Group codes and header variables: Autodesk, DXF Reference (the published format); layers: see output/dxf/dxf_layers.py.
"""

from __future__ import annotations

import io
import math
from collections import defaultdict
from dataclasses import dataclass, field
from functools import cache
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from shapely import LineString, Point, Polygon, polygonize, unary_union

from drafting.pattern import Nest, Pattern, Sized
from drafting.pattern.text import to_json
from output.dxf.dxf_writer import dxf_bytes, nest_dxf_bytes
from tests.drafting.pattern.sample import pattern
from tests.drafting.sizes import sized
from tests.outside import stranger
from tests.outside.ferry import ferry_dress

Place = tuple[float, float]

STRAYS, CUT_STRAYS = 0.05, 0.1
"""mm by which the line that is sewn, and the one that is cut, may be drawn off their curves."""

ROUNDED = 0.0051
"""mm: places are written with two decimals."""


@dataclass
class Entity:
    kind: str
    codes: dict[int, list[str]] = field(default_factory=lambda: defaultdict(list))
    vertices: list[Place] = field(default_factory=list)

    def first(self, code: int, otherwise: str = "0") -> str:
        return self.codes[code][0] if self.codes[code] else otherwise

    @property
    def layer(self) -> str:
        return self.first(8)

    def place(self, code: int = 10) -> Place:
        return float(self.first(code)), float(self.first(code + 10))


@dataclass
class Drawing:
    header: dict[str, str]
    blocks: dict[str, list[Entity]]
    model: list[Entity]

    def on(self, block: str, layer: str, kind: str) -> list[Entity]:
        return [entity for entity in self.blocks[block] if entity.layer == layer and entity.kind == kind]


def read(raw: bytes) -> Drawing:
    """The header, blocks and entities of a DXF, from its pairs of lines: a group code and a value."""
    lines = raw.decode("cp1252").split("\n")
    pairs = [(int(code), value) for code, value in zip(lines[::2], lines[1::2], strict=False)]
    header = {pairs[i][1]: pairs[i + 1][1] for i, (code, _) in enumerate(pairs) if code == 9}
    blocks: dict[str, list[Entity]] = {}
    model: list[Entity] = []
    section = name = ""
    now = Entity("")
    for i, (code, value) in enumerate(pairs):
        if code == 0:
            section = pairs[i + 1][1] if value == "SECTION" else section
            now = Entity(value)
            if section == "ENTITIES":
                model.append(now)
            elif section == "BLOCKS" and name and value not in ("BLOCK", "ENDBLK"):
                blocks[name].append(now)
            name = "" if value == "ENDBLK" else name
        elif code == 2 and now.kind == "BLOCK":
            name = value
            blocks[name] = []
        now.codes[code].append(value)
    return Drawing(header, {name: _with_vertices(found) for name, found in blocks.items()}, model)


def _with_vertices(entities: list[Entity]) -> list[Entity]:
    kept: list[Entity] = []
    for entity in entities:
        if entity.kind == "VERTEX":
            kept[-1].vertices.append(entity.place())
        elif entity.kind != "SEQEND":
            kept.append(entity)
    return kept


def length(points: list[Place]) -> float:
    return sum(math.dist(a, b) for a, b in pairwise(points))


@cache
def case(name: str) -> tuple[Pattern, Drawing, stranger.Draft]:
    made = PATTERNS[name]()
    return made, read(dxf_bytes(made)), stranger.read(to_json(made))


PATTERNS = {"skirt": pattern, "dress": ferry_dress}
every_pattern = pytest.mark.parametrize("name", PATTERNS)


def blocks_of(made: Pattern, drawing: Drawing) -> list[tuple[str, str]]:
    """Each piece's name and its block, by the text that names the piece."""
    found = []
    for block, entities in drawing.blocks.items():
        texts = [entity.first(1) for entity in entities if entity.kind == "TEXT" and entity.layer == "15"]
        found += [(text.removeprefix("PIECE NAME: "), block) for text in texts if text.startswith("PIECE NAME: ")]
    assert {piece for piece, _ in found} == {piece.name for piece in made.pieces}
    return found


@every_pattern
def test_every_edge_has_its_length_within_a_twentieth_of_a_millimetre(name: str) -> None:
    made, drawing, theirs = case(name)
    for piece, block in blocks_of(made, drawing):
        sewn = {line.codes[1000][1]: length(line.vertices) for line in drawing.on(block, "14", "POLYLINE")}
        assert set(sewn) == {edge["edge"] for edge in theirs.piece(piece)["outline"]}
        for edge, found in sewn.items():
            assert found == pytest.approx(theirs.edge(piece, edge), abs=0.05)


@every_pattern
def test_every_seam_has_the_lengths_of_both_its_sides(name: str) -> None:
    made, drawing, theirs = case(name)
    block_of = dict(blocks_of(made, drawing))
    for seam in made.seams:
        for run, whole in zip((seam.a, seam.b), theirs.seam(seam.name), strict=True):
            lines = [
                line
                for ref in run
                for line in drawing.on(block_of[ref.piece], "14", "POLYLINE")
                if line.codes[1000][1] == ref.edge
            ]
            assert sum(length(line.vertices) for line in lines) == pytest.approx(whole, abs=0.05)


@every_pattern
def test_the_unit_is_stated_three_times_as_millimetres(name: str) -> None:
    _, drawing, _ = case(name)
    assert drawing.header["$ACADVER"] == "AC1009"
    assert (drawing.header["$INSUNITS"].strip(), drawing.header["$MEASUREMENT"].strip()) == ("4", "1")
    assert "UNITS: METRIC" in [entity.first(1) for entity in drawing.model if entity.kind == "TEXT"]


@every_pattern
def test_the_sew_lines_close_to_the_outline_inside_the_closed_boundary(name: str) -> None:
    made, drawing, theirs = case(name)
    for piece, block in blocks_of(made, drawing):
        lines = unary_union([LineString(line.vertices) for line in drawing.on(block, "14", "POLYLINE")])
        (outline,) = polygonize([lines]).geoms
        assert outline.symmetric_difference(theirs.outline(piece)).area < STRAYS * outline.length
        (boundary,) = drawing.on(block, "1", "POLYLINE")
        assert int(boundary.first(70)) & 1
        ring = Polygon(boundary.vertices)
        assert ring.is_valid
        assert ring.buffer(CUT_STRAYS).contains(outline)


@every_pattern
def test_every_vertex_is_a_turn_point_or_a_curve_point_and_corners_are_turn_points(name: str) -> None:
    made, drawing, _ = case(name)
    for _, block in blocks_of(made, drawing):
        turns = {entity.place() for entity in drawing.on(block, "2", "POINT")}
        curves = {entity.place() for entity in drawing.on(block, "3", "POINT")}
        for line in drawing.on(block, "1", "POLYLINE") + drawing.on(block, "14", "POLYLINE"):
            assert set(line.vertices) <= turns | curves
        (boundary,) = drawing.on(block, "1", "POLYLINE")
        ring = boundary.vertices
        for before, at, after in zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True):
            first = math.atan2(at[1] - before[1], at[0] - before[0])
            turn = math.remainder(math.atan2(after[1] - at[1], after[0] - at[0]) - first, math.tau)
            if abs(turn) > math.radians(20):
                assert at in turns


@every_pattern
def test_grain_fold_lines_and_notches_lie_where_the_pattern_has_them(name: str) -> None:
    made, drawing, theirs = case(name)
    for piece, block in blocks_of(made, drawing):
        table = theirs.piece(piece)
        grain = [(line.place(10), line.place(11)) for line in drawing.on(block, "7", "LINE")]
        assert np.array(grain[0]) == pytest.approx(np.array(table["grain"]), abs=ROUNDED)
        folds = [edge["edge"] for edge in table["outline"] if edge["role"] == "fold"]
        mirrors = [math.dist(line.place(10), line.place(11)) for line in drawing.on(block, "6", "LINE")]
        assert mirrors == pytest.approx([theirs.edge(piece, fold) for fold in folds], abs=2 * ROUNDED)
        assert len(drawing.on(block, "8", "LINE")) == len(table["lines"])
        (boundary,) = drawing.on(block, "1", "POLYLINE")
        ring = Polygon(boundary.vertices).exterior
        for notch in table["notches"]:
            marks = [line for line in drawing.on(block, "4", "LINE") if line.codes[1000][1] == notch["name"]]
            assert len(marks) == (2 if notch["style"] == "double" else 1)
            seam = LineString(theirs.points(piece, notch["edge"]))
            along = [seam.project(Point(mark.place())) for mark in marks]
            assert all(seam.distance(Point(mark.place())) < 0.01 for mark in marks)
            assert sum(along) / len(along) == pytest.approx(theirs.notch(piece, notch["name"]), abs=0.05)
        assert all(ring.distance(Point(dot.place())) < CUT_STRAYS for dot in drawing.on(block, "4", "POINT"))


@every_pattern
def test_a_notch_says_how_deep_it_is_cut_and_which_way(name: str) -> None:
    """From the point on the boundary it reaches the line that is sewn: thickness and angle of the point."""
    made, drawing, _ = case(name)
    for _, block in blocks_of(made, drawing):
        marks = drawing.on(block, "4", "LINE")
        ends = [line.place() for line in marks] + [line.place(11) for line in marks]
        for dot in drawing.on(block, "4", "POINT"):
            (x, y), deep, angle = dot.place(), float(dot.first(39)), math.radians(float(dot.first(50)))
            reached = (x + deep * math.cos(angle), y + deep * math.sin(angle))
            assert min(math.dist(reached, end) for end in ends) < 3 * ROUNDED
            assert 3.0 < deep < 40.0


@every_pattern
def test_a_dart_is_drilled_within_it_half_an_inch_short_of_its_point(name: str) -> None:
    made, drawing, theirs = case(name)
    for piece, block in blocks_of(made, drawing):
        holes = {dot.codes[1000][1]: dot.place() for dot in drawing.on(block, "13", "POINT")}
        for dart in theirs.piece(piece)["darts"]:
            legs = [theirs.points(piece, leg) for leg in dart["legs"]]
            wedge = Polygon([*legs[0], *legs[1]])
            assert wedge.contains(Point(holes[dart["name"]]))
            assert math.dist(holes[dart["name"]], dart["apex"]) == pytest.approx(13.0, abs=2 * ROUNDED)


@every_pattern
def test_the_extents_hold_all_that_is_drawn_and_end_where_it_ends(name: str) -> None:
    made, drawing, _ = case(name)
    header = read_extents(dxf_bytes(made))
    places = []
    for insert in (entity for entity in drawing.model if entity.kind == "INSERT"):
        x, y = insert.place()
        (boundary,) = drawing.on(insert.first(2), "1", "POLYLINE")
        places += [(px + x, py + y) for px, py in boundary.vertices]
    xs, ys = zip(*places, strict=True)
    assert header[0][0] == pytest.approx(min(xs), abs=0.05)
    assert header[1] == pytest.approx((max(xs), max(ys)), abs=0.05)
    texts = [entity.place() for entity in drawing.model if entity.kind == "TEXT"]
    assert header[0][1] < min(y for _, y in texts) < min(ys)


def read_extents(raw: bytes) -> list[Place]:
    lines = raw.decode("cp1252").split("\n")
    starts = [lines.index(name) for name in ("$EXTMIN", "$EXTMAX")]
    return [(float(lines[at + 2]), float(lines[at + 4])) for at in starts]


@every_pattern
def test_every_block_is_inserted_once_at_true_scale_and_none_lies_on_another(name: str) -> None:
    made, drawing, _ = case(name)
    inserts = [entity for entity in drawing.model if entity.kind == "INSERT"]
    assert sorted(insert.first(2) for insert in inserts) == sorted(block for _, block in blocks_of(made, drawing))
    boxes = []
    for insert in inserts:
        assert [insert.first(code, "1") for code in (41, 42, 50)] == ["1", "1", "1"]
        x, y = insert.place()
        (boundary,) = drawing.on(insert.first(2), "1", "POLYLINE")
        boxes.append(Polygon([(px + x, py + y) for px, py in boundary.vertices]))
    assert unary_union(boxes).area == pytest.approx(sum(box.area for box in boxes))


@every_pattern
def test_the_library_reads_every_entity_where_we_put_it(name: str) -> None:
    import ezdxf

    made, drawing, _ = case(name)
    document = ezdxf.read(io.StringIO(dxf_bytes(made).decode("cp1252")))
    assert document.units == ezdxf.units.MM
    assert [block.name for block in document.blocks if not block.is_any_layout] == list(drawing.blocks)
    for block, entities in drawing.blocks.items():
        theirs = [(each.dxftype(), each.dxf.layer, placed_by_library(each)) for each in document.blocks.get(block)]
        assert theirs == [(each.kind, each.layer, each.vertices or [each.place()]) for each in entities]
    inserts = [(each.dxf.name, each.dxf.layer) for each in document.modelspace().query("INSERT")]
    assert inserts == [(each.first(2), each.layer) for each in drawing.model if each.kind == "INSERT"]


def placed_by_library(entity: Any) -> list[Place]:
    """Where the library has an entity: the places of a polyline, else the one it begins at."""
    if entity.dxftype() == "POLYLINE":
        return [(at.x, at.y) for at in entity.points()]
    at = entity.dxf.get({"LINE": "start", "POINT": "location"}.get(entity.dxftype(), "insert"))
    return [(at.x, at.y)]


@every_pattern
def test_the_audit_of_the_library_is_clean(name: str) -> None:
    from ezdxf import recover

    made, _, _ = case(name)
    document, auditor = recover.read(io.BytesIO(dxf_bytes(made)))
    assert (auditor.errors, auditor.fixes) == ([], [])
    again = document.audit()
    assert (again.errors, again.fixes) == ([], [])


SIZES = (84, 92, 104)


@cache
def nested() -> tuple[Drawing, bytes]:
    raw = nest_dxf_bytes(Nest("Dress", tuple(Sized(str(size), sized(size)) for size in SIZES)))
    return read(raw), raw


def in_every_size() -> list[tuple[str, int, str]]:
    """Each piece, its size and its block, by the texts in the block."""
    found = []
    for block, entities in nested()[0].blocks.items():
        words = dict(entity.first(1).split(": ", 1) for entity in entities if ": " in entity.first(1, ""))
        if "PIECE NAME" in words:
            found.append((words["PIECE NAME"], int(words["SIZE"]), block))
    return found


def test_a_nest_holds_every_piece_in_every_size_and_each_edge_has_the_length_of_its_size() -> None:
    drawing, _ = nested()
    found = in_every_size()
    assert {(piece, size) for piece, size, _ in found} == {(p.name, s) for s in SIZES for p in sized(s).pieces}
    for piece, size, block in found:
        assert block == f"{piece.upper().replace(' ', '_')}-{size}"
        theirs = stranger.read(to_json(sized(size)))
        for line in drawing.on(block, "14", "POLYLINE"):
            assert length(line.vertices) == pytest.approx(theirs.edge(piece, line.codes[1000][1]), abs=0.05)


def test_the_sizes_of_a_piece_lie_on_one_grain_line_and_no_piece_on_another() -> None:
    drawing, _ = nested()
    inserted = {insert.first(2): insert for insert in drawing.model if insert.kind == "INSERT"}
    areas = []
    for name in {piece for piece, _, _ in in_every_size()}:
        blocks = {size: block for piece, size, block in in_every_size() if piece == name}
        assert {inserted[block].layer for block in blocks.values()} == {f"SIZE-{size}" for size in SIZES}
        assert all(inserted[block].layer == f"SIZE-{size}" for size, block in blocks.items())
        assert len({inserted[block].place() for block in blocks.values()}) == 1
        grains = [drawing.on(block, "7", "LINE")[0].place()[0] for block in blocks.values()]
        assert max(grains) - min(grains) < 1e-6
        x, y = inserted[blocks[SIZES[0]]].place()
        rings = [drawing.on(block, "1", "POLYLINE")[0].vertices for block in blocks.values()]
        areas.append(unary_union([Polygon([(px + x, py + y) for px, py in ring]) for ring in rings]))
    assert unary_union(areas).area == pytest.approx(sum(area.area for area in areas))


def test_a_nest_states_its_unit_and_the_audit_of_the_library_is_clean() -> None:
    from ezdxf import recover

    drawing, raw = nested()
    assert (drawing.header["$INSUNITS"].strip(), drawing.header["$MEASUREMENT"].strip()) == ("4", "1")
    assert "UNITS: METRIC" in [entity.first(1) for entity in drawing.model if entity.kind == "TEXT"]
    document, auditor = recover.read(io.BytesIO(raw))
    assert (auditor.errors, auditor.fixes) == ([], [])
    assert {f"SIZE-{size}" for size in SIZES} <= {layer.dxf.name for layer in document.layers}
