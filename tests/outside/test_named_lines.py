"""A stranger opens the drawing of each piece and finds every edge, dart, notch and mark by its name, as long as it is.

Read with the standard library's XML and a path parser of the tests; lengths are compared with those of pattern.json.
"""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import pytest
from shapely import MultiLineString

from drafting.pattern import Pattern
from drafting.pattern.seam_ends import sewn_piece
from drafting.pattern.text import to_json
from output.drawings.piece_drawing import piece_lines
from output.drawings.svg import drawing_svg, piece_svg
from tests.examples import example_pattern
from tests.outside.read_svg import flat, path_lines, read_svg

EXAMPLES = Path(__file__).parents[2] / "examples" / "garments"
PATH = "{http://www.w3.org/2000/svg}path"
TITLE = "{http://www.w3.org/2000/svg}title"


@pytest.fixture(scope="module", params=["bakehouse-bodice", "ferry-dress", "signal-dress"])
def pattern(request: pytest.FixtureRequest) -> Pattern:
    return example_pattern(request.param)


def named(drawing: str) -> dict[str, ElementTree.Element]:
    """The lines of a drawing that have a name, by it."""
    paths = [path for path in ElementTree.fromstring(drawing).iter(PATH) if path.find(TITLE) is not None]
    ids = [path.get("id") for path in paths]
    assert len(set(ids)) == len(ids)
    assert all(ids)
    return {str(path.findtext(TITLE)): path for path in paths}


def long(path: ElementTree.Element) -> float:
    return float(MultiLineString(path_lines(path.get("d", ""))).length)


def test_every_edge_dart_notch_and_mark_is_an_element_by_its_name(pattern: Pattern) -> None:
    told = json.loads(to_json(pattern))
    for piece, plain in zip(pattern.pieces, told["pieces"], strict=True):
        found = named(piece_svg(piece, pattern))
        legs = {leg for dart in plain["darts"] for leg in dart["legs"]}
        lengths = {
            edge["edge"]: sum(MultiLineString([flat(curve).tolist()]).length for curve in edge["curves"])
            for edge in plain["outline"]
        }
        for name, length in lengths.items():
            if name not in legs:
                assert long(found[f"edge: {name}"]) == pytest.approx(length, abs=0.02)
        for dart in plain["darts"]:
            assert long(found[f"dart: {dart['name']}"]) == pytest.approx(
                sum(lengths[leg] for leg in dart["legs"]), abs=0.02
            )
        assert {f"notch: {notch['name']}" for notch in plain["notches"]} <= found.keys()
        assert {f"line: {line['name']}" for line in plain["lines"]} <= found.keys()


def test_what_is_drawn_is_what_is_drawn_without_names(pattern: Pattern) -> None:
    # the same drawing as one path to each kind of line: as long, and at the same place
    for piece in pattern.pieces:
        by_name = read_svg(piece_svg(piece, pattern))
        lines = piece_lines(piece, sewn_piece(pattern, piece.name))
        whole = read_svg(drawing_svg(lines.items, lines.box, piece.name))
        for kind, line in whole.lines.items():
            assert by_name.lines[kind].length == pytest.approx(line.length, abs=0.1), (piece.name, kind)


def test_names_that_mean_harm_are_only_names(pattern: Pattern) -> None:
    piece = pattern.pieces[0]
    hostile = ('"><script>alert(1)</script>', "a\x00seam", "a seam", "a  seam", "²", "линия", "x" * 200)
    edges = list(piece.edges)
    names = dict(zip([edge.name for edge in edges], hostile, strict=False))
    renamed = replace(
        piece,
        edges=tuple(replace(edge, name=names.get(edge.name, edge.name)) for edge in edges),
        darts=tuple(replace(dart, legs=tuple(names.get(leg, leg) for leg in dart.legs)) for dart in piece.darts),
        notches=(),
        points_meant=(),
    )
    root = ElementTree.fromstring(
        piece_svg(renamed, replace(pattern, pieces=(renamed,), seams=(), measures=(), derived=(), unfinished=None))
    )
    assert not list(root.iter("{http://www.w3.org/2000/svg}script"))
    assert all(str(path.get("id")).isprintable() for path in root.iter(PATH))
