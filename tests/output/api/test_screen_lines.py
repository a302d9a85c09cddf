"""Lines for a screen, read by a stranger's reader of path data: as long as the edges, and a walk that rolls true."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from shapely import LineString, Point, Polygon
from shapely.affinity import affine_transform

from output.api import Draft, TrueseamError, alter, draft, edges, read_garment
from output.api.screen_lines import (
    LaidEdge,
    SeamFrames,
    garment_lines,
    piece_folded,
    piece_lines,
    seam_frames,
)
from tests.examples import NAMES, example
from tests.outside.read_svg import path_lines
from tests.sampling import some

GARMENTS = Path(__file__).parents[3] / "examples" / "garments"


def garment(name: str = "ferry-dress") -> Draft:
    return example(name)


@pytest.mark.parametrize("name", some(NAMES, every=6))
def test_every_edge_is_drawn_as_long_as_it_is(name: str) -> None:
    drafted = garment(name)
    for each in edges(drafted):
        (line,) = path_lines(piece_lines(drafted, each.piece).edges[each.edge])
        assert line.length == pytest.approx(each.length, abs=0.02)


@pytest.mark.parametrize("name", some(NAMES, every=6, first=1))
def test_the_box_and_the_outline_hold_every_line_of_a_piece(name: str) -> None:
    for piece in garment(name).pieces:
        shown = piece_lines(garment(name), piece.name)
        left, top, width, height = shown.box
        for data in (shown.outline, *shown.lines.values()):
            for line in path_lines(data):
                assert left - 0.01 <= line.bounds[0]
                assert line.bounds[2] <= left + width + 0.01
                assert top - 0.01 <= line.bounds[1]
                assert line.bounds[3] <= top + height + 0.01
        cloth = Polygon(path_lines(shown.outline)[0].coords).buffer(0.05)
        assert all(cloth.contains(Point(notch.x, notch.y)) for notch in shown.notches)
        assert all(cloth.contains(line) for data in shown.edges.values() for line in path_lines(data))


def test_a_piece_that_a_step_leaves_alone_is_drawn_the_same_to_the_letter() -> None:
    before, after = garment(), alter(garment(), "lengthen", piece="sleeve", by=20)
    assert piece_lines(after, "skirt front") == piece_lines(before, "skirt front")
    assert piece_lines(after, "sleeve") != piece_lines(before, "sleeve")


@pytest.mark.parametrize("name", some(NAMES, every=6, first=2))
def test_what_another_draft_has_already_drawn_comes_out_the_same(name: str) -> None:
    again, other = (draft(read_garment(GARMENTS / f"{name}.toml")) for _ in range(2))
    for piece in other.pieces:
        assert piece_lines(again, piece.name, after=other) == piece_lines(garment(name), piece.name)
    changed = alter(garment(), "lengthen", piece="sleeve", by=20)
    fresh = alter(draft(read_garment(GARMENTS / "ferry-dress.toml")), "lengthen", piece="sleeve", by=20)
    assert piece_lines(changed, "sleeve", after=garment()) == piece_lines(fresh, "sleeve")


def _place(run: tuple[LaidEdge, ...], laid: dict[str, tuple[float, ...]], along: float) -> list[Point]:
    """Where a place of a run lies, in the plane of its first piece: twice where two edges meet."""
    found = []
    for edge in run:
        if edge.begins - 1e-3 <= along <= edge.begins + edge.length + 1e-3:
            (line,) = path_lines(edge.path)
            found.append(_moved(line.interpolate(max(0.0, along - edge.begins)), laid[edge.piece]))
    return found


def _moved(shape, matrix):  # type: ignore[no-untyped-def]
    a, b, c, d, e, f = matrix
    return affine_transform(shape, (a, c, b, d, e, f))


def _walks(name: str) -> list[SeamFrames]:
    return [seam_frames(garment(name), seam.name) for seam in garment(name).pattern.seams]


@pytest.mark.parametrize("name", some(NAMES, every=6, first=3))
def test_in_every_frame_both_edges_touch_in_the_place_that_is_sewn_there(name: str) -> None:
    for walk in _walks(name):
        for frame in walk.frames[:: max(1, len(walk.frames) // 12)]:
            at = Point(frame.x, frame.y)
            mine = [_moved(p, frame.matrix) for p in _place(walk.a, dict(walk.laid_a), frame.along_a)]
            assert min(p.distance(at) for p in mine) < 0.02
            assert min(p.distance(at) for p in _place(walk.b, dict(walk.laid_b), frame.along_b)) < 0.02


@pytest.mark.parametrize("name", some(NAMES, every=6, first=4))
def test_the_papers_are_moved_and_never_stretched(name: str) -> None:
    for walk in _walks(name):
        for matrix in (*walk.laid_a.values(), *walk.laid_b.values(), *(frame.matrix for frame in walk.frames)):
            a, b, c, d = matrix[:4]
            assert np.allclose(np.array([[a, c], [b, d]]) @ np.array([[a, b], [c, d]]), np.eye(2), atol=1e-5)


@pytest.mark.parametrize("name", some(NAMES, every=6, first=5))
def test_right_sides_together_the_cloth_of_both_lies_on_the_same_side(name: str) -> None:
    drafted = garment(name)
    for walk in _walks(name):
        middle = walk.frames[len(walk.frames) // 2]
        on_a = next(edge for edge in reversed(walk.a) if edge.begins <= middle.along_a)
        on_b = next(edge for edge in reversed(walk.b) if edge.begins <= middle.along_b)
        ends = [
            end
            for edge, along in ((on_a, middle.along_a), (on_b, middle.along_b))
            for end in (along - edge.begins, edge.begins + edge.length - along)
        ]
        if min(ends) < 2.0:
            continue  # in a corner there is no side
        clothes = []
        for edge, laid, moved in ((on_a, walk.laid_a, True), (on_b, walk.laid_b, False)):
            seam_line = "".join(
                data if k == 0 else "L" + data[1:]
                for k, data in enumerate(piece_lines(drafted, edge.piece).edges.values())
            )
            shape = _moved(Polygon(path_lines(seam_line)[0].coords), laid[edge.piece])
            clothes.append(_moved(shape, middle.matrix) if moved else shape)
        near = Point(middle.x, middle.y).buffer(1.5)
        mine, there = (shape.buffer(0).intersection(near) for shape in clothes)
        assert mine.intersection(there).area > 0.8 * max(mine.area, there.area), walk.seam


@pytest.mark.parametrize("name", some(NAMES, every=6))
def test_a_walk_goes_from_end_to_end_and_never_back(name: str) -> None:
    for walk in _walks(name):
        seam = garment(name).pattern.seam(walk.seam)
        for run, along in ((walk.a, [f.along_a for f in walk.frames]), (walk.b, [f.along_b for f in walk.frames])):
            assert along == sorted(along)
            assert along[0] == 0.0
            if not seam.plain:
                assert along[-1] == pytest.approx(run[-1].begins + run[-1].length, abs=1e-3)
        met = {frame.marks for frame in walk.frames if all(frame.marks)}
        assert met >= {(one.notch, other.notch) for one, other in seam.notches}


def test_what_does_not_meet_is_not_drawn_together() -> None:
    drafted = garment()
    longer = alter(drafted, "lengthen", piece="skirt front", by=20, only="skirt front")
    walk = seam_frames(longer, "skirt side seam")
    last = walk.frames[-1]
    assert last.along_a == last.along_b
    assert walk.b[-1].begins + walk.b[-1].length - last.along_b == pytest.approx(20.0, abs=0.5)


@pytest.mark.parametrize("name", some(NAMES, every=6, first=1))
def test_a_folded_piece_has_lost_what_its_darts_take_up(name: str) -> None:
    drafted = garment(name)
    for piece in drafted.pieces:
        open_edges = piece_lines(drafted, piece.name).edges
        folded = piece_folded(drafted, piece.name)
        legs = {edge.edge for edge in edges(drafted) if edge.piece == piece.name and edge.role == "dart leg"}
        assert set(folded.edges) == set(open_edges) - legs
        line = LineString(path_lines(folded.outline)[0])
        assert line.is_valid


def test_the_garment_is_seen_from_both_sides() -> None:
    front, back = garment_lines(garment())
    assert (front.side, back.side) == ("front", "back")
    for view in (front, back):
        left, top, width, height = view.box
        assert set(view.lines) == {"strong", "fine"}
        for data in view.lines.values():
            for line in path_lines(data):
                assert left <= line.bounds[0] <= line.bounds[2] <= left + width
                assert top <= line.bounds[1] <= line.bounds[3] <= top + height


def test_a_piece_or_a_seam_that_is_not_there_is_refused_with_the_nearest() -> None:
    for ask in (piece_lines, piece_folded, seam_frames):
        with pytest.raises(TrueseamError, match="sleve"):
            ask(garment(), "sleve")
