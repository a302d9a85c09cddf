"""A dart made wider, so that what it is sewn in becomes shorter: what turns, what stays, how the seam runs on."""

from __future__ import annotations

import pytest

from drafting.alterations.skirt.wider_dart import dart_between, with_wider_dart
from drafting.geometry import distance, run_ends
from drafting.pattern import EdgeRef, Place, dart_width, edges_at
from tests.wardrobe import a_garment

KINDS = ("skirt", "trousers")


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("half", ["front", "back"])
@pytest.mark.parametrize("shorter", [2.0, 9.0])
def test_both_edges_beside_it_become_shorter_and_run_on_into_each_other(kind: str, half: str, shorter: float) -> None:
    piece = a_garment(kind).piece(f"{kind} {half}")
    dart = piece.darts[0]
    before, behind = piece.beside(dart.legs[0])[0], piece.beside(dart.legs[1])[1]
    made = with_wider_dart(piece, dart, shorter)

    now = made.edge(before.name), made.edge(behind.name)
    assert sum(edge.length for edge in now) == pytest.approx(before.length + behind.length - shorter, abs=1e-6)
    wider = made.dart(dart.name)
    assert dart_width(made, wider) > dart_width(piece, dart)
    assert distance(wider.apex, dart.apex) < 1e-9
    for name in dart.legs:
        assert made.edge(name).length == pytest.approx(piece.edge(name).length, abs=1e-9)
    touched = {before.name, behind.name, *dart.legs}
    assert all(made.edge(edge.name) == edge for edge in piece.edges if edge.name not in touched)

    # both legs are turned by as much, away from each other
    mouths = [(one.edge(dart.legs[0]).start, one.edge(dart.legs[1]).end) for one in (piece, made)]
    turned = [(was - dart.apex).angle_to(now_at - dart.apex) for was, now_at in zip(*mouths, strict=True)]
    assert turned[0] == pytest.approx(-turned[1], abs=1e-9)

    # with the dart closed there is no corner, and each edge leaves its chord by as much at either end
    closing = (now[1].start - wider.apex).angle_to(now[0].end - wider.apex)
    into, on = run_ends(now[0].curves)[1], run_ends(now[1].curves)[0].turned(closing)
    assert into.angle_to(on) == pytest.approx(0.0, abs=1e-9)
    for edge in now:
        first, last = run_ends(edge.curves)
        chord = edge.end - edge.start
        assert first.angle_to(chord) == pytest.approx(chord.angle_to(last), abs=1e-9)


@pytest.mark.parametrize("kind", KINDS)
def test_the_dart_of_a_waist_is_the_one_between_its_edges(kind: str) -> None:
    piece = a_garment(kind).piece(f"{kind} front")
    run = [EdgeRef(piece.name, edge.name) for edge in edges_at(piece, Place.WAIST)]
    assert dart_between(piece, run) == piece.darts[0]
    assert dart_between(piece, run[:1]) is None
    assert dart_between(piece, [EdgeRef("another", ref.edge) for ref in run]) is None
