"""What a part of an old pattern is, by what the blocks and alterations of that time called it; the old tables."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.geometry import Line, Point
from drafting.pattern import Edge, Fullness, Half, MarkLine, MarkPoint, Notch, Piece, PieceKind, Role, Station
from drafting.pattern.old_names import piece_by_names
from drafting.pattern.places import BodyPart, Identity, Level, Place

A, B, C = Point(0.0, 0.0), Point(100.0, 0.0), Point(0.0, 100.0)


def piece(*edges: str, name: str = "panel", role: Role = Role.SEAM) -> Piece:
    """A triangle whose first edges have these names."""
    names = (*edges, "x", "y", "z")[:3]
    corners = ((A, B), (B, C), (C, A))
    return Piece(name, tuple(Edge(n, (Line(*ends),), role) for n, ends in zip(names, corners, strict=True)))


EDGES = {
    "waist dart seam": "princess seam",
    "bust dart 2 seam 3": "princess seam",
    "free edge of the facing": "free edge of a facing",
    "wrap edge": "wrap edge",
    "wrap at waist": "wrap",
    "stand at neck": "button stand",
    "front edge": "edge of the button stand",
    "back edge 2": "edge of the button stand",
    "centre front": "centre front",
    "centre front, lower part": "centre front",
    "centre back above the zip": "centre back",
    "neck": "neck",
    "shoulder at neck": "shoulder",
    "armhole, upper": "armhole",
    "side seam": "side seam",
    "underarm front": "underarm seam",
    "cap front": "sleeve cap",
    "waist at side": "waist",
    "hem": "hem",
    "wrist": "wrist",
    "cap": None,
    "wrap": None,
    "edge": None,
    "the hem": None,
}


def test_an_edge_is_what_its_name_begins_with() -> None:
    found = {name: piece_by_names(piece(name)).edges[0].place for name in EDGES}
    assert found == {name: word and Place(word) for name, word in EDGES.items()}
    assert piece_by_names(piece("hem", role=Role.DART_LEG)).edges[0].place is None


def test_only_a_cap_and_an_underarm_say_their_half() -> None:
    halves = {name: piece_by_names(piece(name)).edges[0].half for name in ("cap back", "underarm front", "hem front")}
    assert halves == {"cap back": Half.BACK, "underarm front": Half.FRONT, "hem front": None}


def test_the_line_over_a_dart_is_drawn_up_and_lies_where_its_neighbour_does() -> None:
    for name, fullness in (
        ("waist dart gathers", Fullness.GATHERED),
        ("waist dart gathers 2", Fullness.GATHERED),
        ("shoulder dart ease", Fullness.EASED),
    ):
        _, over, _ = piece_by_names(piece("waist at side", name)).edges
        assert (over.drawn_up, over.place) == (fullness, Place.WAIST)
    known = replace(piece("waist at side", "hem gathers").edges[1], place=Place.HEM)
    whole = piece("waist at side", "hem gathers")
    _, kept, _ = piece_by_names(replace(whole, edges=(whole.edges[0], known, whole.edges[2]))).edges
    assert kept is known


LINES = {
    "underarm line": Level.SCYE,
    "bust line": Level.BUST,
    "back width line": Level.BACK_WIDTH,
    "hip line": Level.HIP,
    "biceps line": Level.BICEPS,
    "elbow line": Level.ELBOW,
    "lengthen or shorten line": Level.LENGTHEN,
    "lengthen or shorten line above the elbow": Level.LENGTHEN_ABOVE_ELBOW,
    "centre front": Level.CENTRE_FRONT,
    "centre back": Level.CENTRE_BACK,
    "a line": None,
}


def test_a_line_is_the_level_it_is_called_and_may_be_the_part_beyond_a_dart() -> None:
    for name, level in LINES.items():
        lines = (MarkLine(name, A, B), MarkLine(f"{name} beyond the dart", B, C))
        one, other = piece_by_names(replace(piece(), lines=lines)).lines
        assert (one.level, other.level) == (level, level)
        assert (one.onward, other.onward) == (False, level is not None)
    told = MarkLine("hip line", A, B, level=Level.WAIST)
    assert piece_by_names(replace(piece(), lines=(told,))).lines == (told,)


POINTS = {
    "bust point": "bust point",
    "nape": "nape",
    "neck pit": "neck pit",
    "side neck": "side neck",
    "crown": "crown",
    "elbow": "elbow",
    "wrist": "wrist",
    "button 12": "button",
    "centre front, upper end": "upper end of the centre line",
    "centre back, lower end": "lower end of the centre line",
    "centre back at the waist": "on the centre line",
    "wrap edge at hem": "on the edge beyond the centre",
    "waist dart was closed here": "a dart was closed here",
    "waist dart was closed towards here": "a dart was closed towards here",
    "point the bust dart is turned about": "a dart is turned about here",
    "button": None,
    "centre front": None,
}

NOTCHES = {
    "front armhole notch": "balance",
    "back cap notch": "balance",
    "princess seam notch": "balance",
    "princess seam 2 second notch": "balance",
    "crown notch": "crown",
    "front elbow notch": "elbow level",
    "elbow notch": "elbow level",
    "hip notch": "hip level",
    "front waist notch": "waist",
    "bust level notch": "bust level",
    "back zip notch": "end of the opening",
    "front gathers notch": "gathers end",
    "waist dart gathers begin": "drawn up from",
    "waist dart ease 2 begin 3": "drawn up from",
    "waist dart gathers end": "drawn up to",
    "waist dart gathers from": "drawn up beside",
    "waist dart ease to 2": "drawn up beside",
    "waist dart gathers": "drawn up into",
    "shoulder dart ease 2": "drawn up into",
    "a notch": None,
}


@pytest.mark.parametrize(("kind", "table"), [("points", POINTS), ("notches", NOTCHES)])
def test_a_point_and_a_notch_are_what_they_are_called(kind: str, table: dict[str, str | None]) -> None:
    for name, word in table.items():
        points, notches = (MarkPoint(name, A),), (Notch(name, Station("x", 10.0)),)
        now = piece_by_names(replace(piece(), points=points) if kind == "points" else replace(piece(), notches=notches))
        found = now.points[0].landmark if kind == "points" else now.notches[0].marks
        assert (name, found) == (name, word)


def test_a_point_and_a_notch_that_say_what_they_are_keep_it() -> None:
    named = piece_by_names(
        replace(piece(), points=(MarkPoint("nape", A),), notches=(Notch("hip notch", Station("x", 1.0)),))
    )
    point, notch = replace(named.points[0], name="crown"), replace(named.notches[0], name="crown notch")
    kept = replace(named, points=(point,), notches=(notch,))
    assert piece_by_names(kept) is kept


@pytest.mark.parametrize(
    ("name", "identity"),
    [
        ("bodice front", Identity(PieceKind.FRONT, BodyPart.BODICE)),
        ("skirt back", Identity(PieceKind.BACK, BodyPart.SKIRT)),
        ("left skirt front", Identity(PieceKind.FRONT, BodyPart.SKIRT)),
        ("sleeve", Identity(PieceKind.SLEEVE, BodyPart.SLEEVE)),
        ("sleeve back", Identity(PieceKind.SLEEVE, BodyPart.SLEEVE)),
        ("bodice back facing", Identity(PieceKind.FACING, BodyPart.BODICE, of=PieceKind.BACK)),
        ("facing", Identity(PieceKind.FACING)),
        ("apron", Identity()),
    ],
)
def test_a_piece_is_what_its_name_says(name: str, identity: Identity) -> None:
    assert piece_by_names(piece(name=name)).identity == identity
    told = Identity(PieceKind.COLLAR)
    assert piece_by_names(replace(piece(name=name), identity=told)).identity == told


def test_a_piece_whose_names_tell_nothing_stays_the_very_same() -> None:
    plain = piece()
    assert piece_by_names(plain) is plain
