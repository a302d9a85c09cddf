"""What a drawing does not say, from a small TOML file beside it: places, darts, seams, and steps to take.

    drawing_unit = "mm"                 # where the drawing states none
    unit = "cm"                         # of the plain numbers in this file

    [[piece]]
    name = "Front"                      # as the drawing calls it
    part = "bodice"
    kind = "front"
    edges = { "edge 1" = "hem", "edge 2" = "side seam" }
    roles = { "edge 3" = "opening" }    # seam, fold, hem or opening; a hem is one already
    lines = { "line 1" = "lengthen here" }

    [[piece.dart]]
    name = "waist dart"
    legs = ["edge 5", "edge 6"]

    [[seam]]
    name = "side"
    a = ["Front: side seam"]            # walked from where both begin; the longer run, which is eased in
    b = ["Back: edge 4"]
    ease = 0.5

An edge is called as the check shows it, "edge 4", or by its place where that is plain. Neighbours of one place become
one edge, called as the first of them: a side seam that was split at the hip is whole again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from enum import StrEnum
from typing import Final, TypeVar

from drafting.alterations import ALTERATIONS, Alteration, read_step
from drafting.dataclass import dataclass
from drafting.errors import InputProblems, NotAPattern, Problem, meant
from drafting.pattern import Dart, Edge, EdgeRef, NotchRef, Pattern, Piece, Role, Seam, Station
from drafting.pattern.locate import from_start
from drafting.pattern.place_words import place_called
from drafting.pattern.places import BodyPart, Identity, Level, PieceKind, Place
from drafting.pattern.seam import SeamEase
from drafting.pattern.walk import notch_distance
from drafting.reading.read_table import Reader, refuse
from drafting.reading.units import shown
from output.dxf.dxf_reader import read_dxf

__all__ = ["Named", "names_of_a_drawing", "read_named_dxf"]

W = TypeVar("W", bound=StrEnum)

_HEMMED: Final = (Place.HEM, Place.WRIST, Place.LEG_OPENING)
"""What is turned up where nothing else is said of it (`roles`)."""

_MOST_EASE: Final = 300.0
"""mm of one seam."""


@dataclass(frozen=True, slots=True)
class Named:
    """The pattern of a drawing and of the file beside it, and the steps that file asks for with their places in it."""

    pattern: Pattern
    steps: tuple[Alteration, ...] = ()
    sources: tuple[str, ...] = ()


def names_of_a_drawing(table: Mapping[str, object]) -> bool:
    """Whether a file is about the pieces of a drawing; a garment file of the same name is not."""
    return (
        bool({"piece", "seam", "step", "drawing_unit"} & table.keys())
        and not {"block", "wearer", "like"} & table.keys()
    )


def read_named_dxf(raw: bytes, table: Mapping[str, object], *, place: str, beside: str) -> Named:
    """The pieces of a DXF file with what the tables of the file beside it say of them.

    place, beside: what the two files are called. Raises InputProblems with everything that is wrong in either.
    """
    problems: list[Problem] = []
    reader = Reader(table, place=beside, problems=problems)
    hers = reader.file_unit()
    unit = reader.choice("drawing_unit", ("mm", "cm", "in"), default=None)
    pattern = read_dxf(raw, place=place, unit=unit)
    if hers is not None:
        pattern = replace(pattern, wearer=replace(pattern.wearer, unit=hers))
    named = {piece.name: piece for piece in pattern.pieces}
    for inner in reader.tables("piece"):
        name = inner.choice("name", list(named))
        named[name] = _piece(inner, named[name])
    pieces = tuple(named.values())
    seams = [seam for inner in reader.tables("seam") if (seam := _seam(inner, named)) is not None]
    steps, sources = [], []
    for inner in reader.tables("step"):
        step = read_step(inner, ALTERATIONS)
        if step is not None:
            steps.append(step)
            sources.append(inner.where())
    reader.finish()
    refuse(problems)
    try:
        made = replace(pattern, pieces=pieces, seams=(*pattern.seams, *seams))
        paired = replace(made, seams=(*pattern.seams, *(_paired(made, seam) for seam in seams)))
    except NotAPattern as error:
        read = f"names that do not go together ({error})"
        raise InputProblems([Problem(beside, read, "each edge in one seam, each name once")]) from error
    return Named(paired, tuple(steps), tuple(sources))


def _piece(reader: Reader, piece: Piece) -> Piece:
    """The piece as a `[[piece]]` names its parts; what is wrong is noted in the reader."""
    part, kind = _word(reader, "part", BodyPart), _word(reader, "kind", PieceKind)
    places = _by_name(reader, "edges", [edge.name for edge in piece.edges], Place, place_called)
    levels = _by_name(reader, "lines", [line.name for line in piece.lines], Level)
    roles = {name: Role.HEM for name, place in places.items() if place in _HEMMED}
    roles |= _by_name(reader, "roles", [edge.name for edge in piece.edges], Role)
    edges = [
        replace(edge, place=places.get(edge.name, edge.place), role=roles.get(edge.name, edge.role))
        for edge in piece.edges
    ]
    darts: list[Dart] = []
    for inner in reader.tables("dart"):
        legs = _names(inner, "legs", [edge.name for edge in edges])
        name = inner.text("name")
        if len(legs) == 2:
            apex = next(edge for edge in edges if edge.name == legs[0]).end
            darts.append(Dart(name, (legs[0], legs[1]), apex))
            edges = [replace(e, role=Role.DART_LEG, allowance=0.0) if e.name in legs else e for e in edges]
    # a dart that was found in the outline gives way to what she says of one of its legs
    told = {leg for dart in darts for leg in dart.legs} | places.keys() | roles.keys()
    kept = tuple(dart for dart in piece.darts if not told & set(dart.legs))
    legs_of_none = {leg for dart in piece.darts if dart not in kept for leg in dart.legs}
    legs_of_none -= {leg for dart in darts for leg in dart.legs}
    edges = [replace(e, role=Role.SEAM) if e.name in legs_of_none and e.role is Role.DART_LEG else e for e in edges]
    piece = _joined(replace(piece, edges=tuple(edges), darts=kept), places)
    lines = tuple(replace(line, level=levels.get(line.name, line.level)) for line in piece.lines)
    identity = Identity(kind or piece.identity.kind, part or piece.identity.part)
    try:
        return replace(piece, darts=(*piece.darts, *darts), lines=lines, identity=identity)
    except NotAPattern as error:
        reader.problem("dart", "two legs that follow each other and meet in the dart's point", read=f"{error.reason}")
        return piece


def _joined(piece: Piece, places: Mapping[str, Place]) -> Piece:
    """The piece with neighbouring edges that were given one place as one edge, and their notches on it."""
    edges: list[Edge] = []
    moved: dict[str, tuple[str, float]] = {}
    for edge in piece.edges:
        last = edges[-1] if edges else None
        same = last is not None and last.name in places and places[last.name] == places.get(edge.name)
        if last is None or not same or last.role is not edge.role:
            edges.append(edge)
            continue
        moved[edge.name] = last.name, last.length
        edges[-1] = replace(last, curves=(*last.curves, *edge.curves))
    notches = tuple(
        replace(notch, station=Station(moved[at.edge][0], moved[at.edge][1] + from_start(piece.edge(at.edge), at)))
        if (at := notch.station).edge in moved
        else notch
        for notch in piece.notches
    )
    return replace(piece, edges=tuple(edges), notches=notches)


def _word(reader: Reader, key: str, words: type[W]) -> W | None:
    written = reader.choice(key, [str(word) for word in words], default=None)
    return None if written is None else next(word for word in words if word == written)


def _by_name(
    reader: Reader, key: str, names: Sequence[str], words: type[W], also: Callable[[str], W | None] | None = None
) -> dict[str, W]:
    """What a table says of things by their names: `edges = { "edge 1" = "hem" }`; also: what other words mean."""
    written = reader.written(key)
    if written is None:
        return {}
    if not isinstance(written, Mapping):
        about = names[0] if names else "edge 1"
        reader.problem(key, f'names in {{ }}, such as {key} = {{ "{about}" = "{next(iter(words))}" }}')
        return {}
    found: dict[str, W] = {}
    known = {str(word): word for word in words}
    for name, value in written.items():
        if name not in names:
            reader.problem(key, f"names of what is drawn: {', '.join(names) or 'none'}", read=f'"{name}"')
        elif isinstance(value, str) and (meaning := known.get(value) or (also(value) if also else None)):
            found[name] = meaning
        else:
            mend = meant(value, known) if isinstance(value, str) else ""
            reader.problem(key, f"for {name} one of: {', '.join(known)}", mend, read=shown(value))
    return found


def _names(reader: Reader, key: str, known: Sequence[str]) -> list[str]:
    """A list of two names of edges; what is wrong is noted, and none comes back."""
    written = reader.written(key)
    if isinstance(written, list) and len(written) == 2 and all(name in known for name in written):
        return [str(name) for name in written]
    reader.problem(key, f"two of: {', '.join(known)}")
    return []


def _seam(reader: Reader, pieces: Mapping[str, Piece]) -> Seam | None:
    name, ease = reader.text("name"), reader.length("ease", default=0.0, low=-_MOST_EASE, high=_MOST_EASE)
    turned = reader.flag("turned", default=False)
    a = _run(reader, "a", pieces, backward=False)
    b = _run(reader, "b", pieces, backward=not turned)
    return Seam(name, a, b, SeamEase(ease, ease, ease)) if a and b else None


def _run(reader: Reader, key: str, pieces: Mapping[str, Piece], *, backward: bool) -> tuple[EdgeRef, ...]:
    """The edges of one side of a seam in their order.

    Both pieces seen from the same side of the cloth, a seam runs one way round the first and the other way round the
    second. Edges of one piece that are given in the order of its outline, or against it, are walked so.
    """
    written = reader.written(key)
    given = written if isinstance(written, list) else [written]
    run: list[EdgeRef] = []
    for value in given:
        piece, _, wanted = str(value).partition(": ")
        edges = [] if piece not in pieces else list(_called(pieces[piece], wanted))
        if len(edges) != 1:
            known = "; ".join(f"{p.name}: {', '.join(edge.name for edge in p.edges)}" for p in pieces.values())
            reader.problem(key, f'edges as "piece: edge", of {known}', read=f'"{value}"')
            return ()
        run.append(EdgeRef(piece, edges[0].name, backward))
    return tuple(_directed(ref, run, pieces) for ref in run)


def _called(piece: Piece, wanted: str) -> Iterator[Edge]:
    by_name = [edge for edge in piece.edges if edge.name == wanted]
    place = place_called(wanted)
    yield from by_name or (edge for edge in piece.edges if place is not None and edge.place == place)


def _directed(ref: EdgeRef, run: Sequence[EdgeRef], pieces: Mapping[str, Piece]) -> EdgeRef:
    """An edge of a run with its direction: as its neighbours of the same piece follow each other on the outline."""
    same = [other.edge for other in run if other.piece == ref.piece]
    if len(same) < 2:
        return ref
    names = [edge.name for edge in pieces[ref.piece].edges]
    step = (names.index(same[1]) - names.index(same[0])) % len(names)
    return replace(ref, backward=step > len(names) // 2)


def _paired(pattern: Pattern, seam: Seam) -> Seam:
    """The seam with its notches in pairs, the first of either side with the first of the other, if they are as many."""
    found = []
    for run in (seam.a, seam.b):
        marks = {NotchRef(ref.piece, notch.name) for ref in run for notch in pattern.piece(ref.piece).notches}
        along = {mark: notch_distance(pattern, run, mark) for mark in marks}
        on_run = [(distance, mark.notch, mark) for mark, distance in along.items() if distance is not None]
        found.append([mark for *_, mark in sorted(on_run, key=lambda each: each[:2])])
    one, other = found
    return replace(seam, notches=tuple(zip(one, other, strict=True))) if len(one) == len(other) else seam
