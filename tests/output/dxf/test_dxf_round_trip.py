"""Pattern to DXF and back, for every example: seams by their lengths, notches by their places, all by what they are."""

from __future__ import annotations

import re
from dataclasses import astuple, replace
from functools import cache
from pathlib import Path

import pytest
from shapely import LineString
from shapely import Point as SpotOnPaper

from drafting.alterations import Alteration, Hem, Lengthen, TakeIn, apply_step
from drafting.checks import Verdict, run_checks, worst
from drafting.geometry import polyline
from drafting.pattern import EdgeRef, Pattern, Station
from drafting.pattern.seam import PLAIN
from output.dxf.dxf_reader import read_dxf
from output.dxf.dxf_writer import dxf_bytes
from tests.examples import GARMENTS, example_pattern
from tests.sampling import some

SEAM, NOTCH = 0.02, 0.05  # mm
LAID = 0.09
"""mm: how far from its place a curve may be that is laid through turn and curve points alone (ours, measured)."""
some_garments = pytest.mark.parametrize("path", some(GARMENTS, every=6), ids=lambda path: path.stem)


@cache
def there_and_back(path: Path) -> tuple[Pattern, Pattern]:
    made = example_pattern(path.stem)
    return made, read_dxf(dxf_bytes(made))


def run_length(pattern: Pattern, run: tuple[EdgeRef, ...]) -> float:
    return sum(pattern.piece(ref.piece).edge(ref.edge).length for ref in run)


def as_written(options: tuple[tuple[str, object], ...]) -> tuple[tuple[str, object], ...]:
    """The options as a file holds them: lengths to 1e-9 mm."""
    return tuple((key, round(value, 9) if isinstance(value, float) else value) for key, value in options)


def along(pattern: Pattern, piece: str, station: Station) -> float:
    whole = pattern.piece(piece).edge(station.edge).length
    return station.at if station.end == "start" else whole - station.at


@some_garments
def test_every_seam_comes_back_with_its_edges_its_ease_its_notches_and_its_length(path: Path) -> None:
    made, back = there_and_back(path)
    assert [replace(seam, ease=PLAIN) for seam in back.seams] == [replace(seam, ease=PLAIN) for seam in made.seams]
    assert [astuple(seam.ease) for seam in back.seams] == [pytest.approx(astuple(seam.ease)) for seam in made.seams]
    assert back.derived == tuple(replace(part, options=as_written(part.options)) for part in made.derived)
    for piece in made.pieces:
        there = back.piece(piece.name)
        assert (there.cut, there.points_meant, there.identity) == (piece.cut, piece.points_meant, piece.identity)
    for seam in made.seams:
        for run in (seam.a, seam.b):
            assert run_length(back, run) == pytest.approx(run_length(made, run), abs=SEAM)


@some_garments
def test_every_notch_comes_back_where_it_was(path: Path) -> None:
    made, back = there_and_back(path)
    for piece in made.pieces:
        for notch in piece.notches:
            there = back.piece(piece.name).notch(notch.name).station
            assert there.edge == notch.station.edge
            assert along(back, piece.name, there) == pytest.approx(along(made, piece.name, notch.station), abs=NOTCH)


@some_garments
def test_without_what_is_kept_for_us_the_turn_and_curve_points_alone_give_every_edge(path: Path) -> None:
    """As another program leaves our file: its edges by their ends, since their names are gone."""
    made, _ = there_and_back(path)
    text = dxf_bytes(made).decode("cp1252")
    back = read_dxf(re.sub(r"(?<=\n)1001\nTRUESEAM\n(?:10(?:00|40|71)\n.*\n)+", "", text).encode("cp1252"))
    assert back.seams == ()
    for piece in made.pieces:
        ring = [curve for edge in back.piece(piece.name).edges for curve in edge.curves]
        drawn = LineString([(at.x, at.y) for at in polyline(ring, 0.002)])
        for edge in piece.edges:
            places = [SpotOnPaper(at.x, at.y) for at in polyline(edge.curves, 0.02)]
            assert max(drawn.distance(place) for place in places) < LAID
            low, high = (drawn.project(places[end]) for end in (0, -1))
            between = abs(high - low)
            assert min(abs(each - edge.length) for each in (between, drawn.length - between)) < SEAM


@some_garments
def test_nothing_of_her_body_stands_in_the_file(path: Path) -> None:
    made, back = there_and_back(path)
    assert made.wearer.lengths
    assert (back.wearer.lengths, back.measures, back.origin) == ((), (), ())


@pytest.mark.parametrize("step", [Lengthen("sleeve", 30.0), TakeIn(waist=20.0), Hem("sleeve", depth=45.0)])
def test_an_alteration_of_what_was_read_keeps_its_promises_and_does_the_same(step: Alteration) -> None:
    made, back = there_and_back(next(path for path in GARMENTS if path.stem == "ferry-dress"))
    ours, theirs = apply_step(made, step), apply_step(back, step)
    for piece in ours.pieces:
        for edge in piece.edges:
            assert theirs.piece(piece.name).edge(edge.name).length == pytest.approx(edge.length, abs=SEAM)
    assert worst(run_checks(theirs)) is Verdict.PASS


def test_where_another_program_took_a_piece_away_the_others_are_read_without_seams() -> None:
    made, _ = there_and_back(GARMENTS[0])
    raw = dxf_bytes(made).decode("cp1252")
    gone = raw.replace("shoulder at neck", "something else")
    back = read_dxf(gone.encode("cp1252"))
    assert len(back.pieces) == len(made.pieces)
    assert back.seams == ()
