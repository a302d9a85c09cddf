"""Pieces of a few straight lines, and what the checks say of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import get_args, get_type_hints

from drafting.alterations import ALTERATIONS
from drafting.checks import CHECKS, Result, named, run_checks
from drafting.errors import Remedy
from drafting.geometry import Line, Point
from drafting.pattern import (
    BodyLength,
    Edge,
    Grain,
    Identity,
    Level,
    MarkLine,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    Wearer,
)
from drafting.pattern.places import BodyPart

WAIST = MarkLine("waist", Point(0.0, 100.0), Point(200.0, 100.0), level=Level.WAIST)
UP = Grain(Point(50.0, 50.0), Point(50.0, 150.0))
FRONT, BACK = Identity(PieceKind.FRONT, BodyPart.BODICE), Identity(PieceKind.BACK, BodyPart.BODICE)

Sides = Mapping[str, tuple[tuple[float, float], Place | None, Role]]


def drawn(name: str, *sides: tuple[str, tuple[float, float], Place | None, Role], identity: Identity = FRONT) -> Piece:
    """A piece of straight edges: of each its name, where it starts, its place and its role."""
    starts = [Point(*start) for _, start, _, _ in sides]
    edges = tuple(
        Edge(edge, (Line(start, end),), role, 10.0, place)
        for (edge, _, place, role), start, end in zip(sides, starts, starts[1:] + starts[:1], strict=True)
    )
    return Piece(name, edges, grain=UP, identity=identity)


def panel(name: str = "panel", wide: float = 200.0, high: float = 300.0, *, identity: Identity = FRONT) -> Piece:
    """A rectangle: hem, side, top and centre, from the lower left."""
    return drawn(
        name,
        ("hem", (0.0, 0.0), Place.HEM, Role.HEM),
        ("side", (wide, 0.0), Place.SIDE, Role.SEAM),
        ("top", (wide, high), Place.SHOULDER, Role.SEAM),
        ("centre", (0.0, high), Place.CENTRE_FRONT, Role.SEAM),
        identity=identity,
    )


def with_edge(piece: Piece, name: str, **changes: object) -> Piece:
    edges = (replace(edge, **changes) if edge.name == name else edge for edge in piece.edges)  # type: ignore[arg-type]
    return replace(piece, edges=tuple(edges))


def pattern(*pieces: Piece, seams: tuple[Seam, ...] = (), **body: float) -> Pattern:
    lengths = tuple(BodyLength(key, mm, "measured") for key, mm in body.items())
    return Pattern("Worked", Wearer("Inga", lengths), pieces, seams)


def told(code: str, whole: Pattern) -> list[Result]:
    """What a check says; whatever it gives to type can be typed."""
    results = list(run_checks(whole, checks=named(CHECKS, [code])))
    for remedy in (each for result in results for each in result.remedies):
        assert remedy.act in get_args(get_type_hints(Remedy)["act"])
        assert all(setting.unit in ("", "mm", "%", "deg") for setting in remedy.settings)
        if remedy.act == "add":
            options = {option.name for option in ALTERATIONS.named(remedy.alteration).options}
            assert {setting.option for setting in remedy.settings} <= options
    return results


def the(code: str, whole: Pattern, where: str = "") -> Result:
    (result,) = (each for each in told(code, whole) if where in each.where)
    return result
