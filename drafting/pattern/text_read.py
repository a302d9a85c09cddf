"""Reading a pattern.json back, with every problem in it and where it stands; never a traceback."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final, get_args

from drafting.dataclass import dataclass
from drafting.errors import InputProblems
from drafting.geometry import Point
from drafting.pattern.measure import Across, Along, Bent, Between, Curved, Measure, Tape
from drafting.pattern.old_names import necks_by_steps, pattern_by_names
from drafting.pattern.pattern import Pattern
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import (
    Cut,
    Dart,
    Edge,
    End,
    Grain,
    MarkLine,
    MarkPoint,
    Notch,
    NotchStyle,
    Role,
    Station,
)
from drafting.pattern.places import (
    BodyPart,
    BodySide,
    Fullness,
    Half,
    Identity,
    Landmark,
    Level,
    NotchMark,
    PieceKind,
    Place,
)
from drafting.pattern.seam import PLAIN, EdgeRef, NotchRef, Seam, SeamEase
from drafting.pattern.stretch_used import MOST_STRETCH
from drafting.pattern.text_read_origin import (
    accept_held,
    read_derived,
    read_notch_ref,
    read_origin,
    read_taken_step,
    read_wearer,
)
from drafting.pattern.text_values import (
    FAR,
    MOST_CURVES,
    MOST_EDGES,
    MOST_PIECES,
    known_name,
    known_or_read,
    made,
    one_of,
    read_curve,
    read_named,
    read_point,
)
from drafting.reading.read_json import Node, load_json

__all__ = ["FORMAT", "VERSION", "Document", "from_json", "read_document"]


FORMAT: Final = "trueseam pattern"
VERSION: Final = 2
_BEFORE_TYPES: Final = 1  # the version in which a part had a name only

_WIDEST: Final = 4000.0  # mm: cloth wider than that is a slip of the unit (ours)
_MOST_NOTCHES: Final = 100_000
_OF_A_PIECE: Final = (
    *("kind", "part", "of", "side", "cut", "darts", "notches", "grain", "lines", "points", "landmarks"),
    *("lowered", "points_meant", "cutting_line"),
)
_LAYS: Final[Mapping[str, tuple[str, ...]]] = {
    "across": ("piece", "line"),
    "along": ("piece", "edge"),
    "between": ("piece", "one", "other"),
    "bent": ("piece", "line", "onward"),
    "curved": ("piece", "line", "by"),
}


@dataclass(frozen=True, slots=True)
class Document:
    """What stands in a pattern.json: the pattern, and the outcomes of the checks of the day it was written."""

    pattern: Pattern
    checks: tuple[Mapping[str, object], ...] = ()


def from_json(text: str, *, place: str = "pattern.json") -> Pattern:
    """The pattern in a pattern.json. `place` is what a problem calls the file.

    Raises InputProblems that lists everything wrong in it. What follows from the pieces is not taken over: the
    finished measurements, the cutting lines, the notches as they are drawn.
    """
    return read_document(text, place=place).pattern


def read_document(text: str, *, place: str = "pattern.json") -> Document:
    """The pattern in a pattern.json and the recorded outcomes of its checks. Raises InputProblems."""
    top = load_json(text, place=place)
    keys = top.fields(
        ("format", "version", "unit", "title", "wearer", "pieces"),
        (
            *("seams", "measures", "finished", "held_in", "origin", "history", "derived", "stretch", "cloth_width"),
            *("unfinished", "checks"),
        ),
    )
    keys["format"].choice((FORMAT,), FORMAT)
    version = keys["version"].whole(_BEFORE_TYPES, VERSION, VERSION)
    keys["unit"].choice(("mm",), "mm")
    title = keys["title"].text()
    wearer = read_wearer(keys["wearer"])
    pieces = read_named(keys["pieces"].items(low=1, high=MOST_PIECES), _piece)
    known = {piece.name: piece for piece in pieces if piece is not None}
    # a piece that could not be read would make every mention of it a second problem for one mistake
    whole = bool(known) and len(known) == len(pieces)
    seams = read_named(keys["seams"].items(), lambda node: _seam(node, known if whole else None))
    measures = tuple(_measure(node, known if whole else None) for node in keys["measures"].items())
    origin = tuple(read_origin(node) for node in keys["origin"].items())
    history = tuple(read_taken_step(node) for node in keys["history"].items())
    derived = tuple(read_derived(node, known if whole else None) for node in keys["derived"].items())
    stretch = keys["stretch"].number(0.0, MOST_STRETCH)
    wide = keys["cloth_width"].number(0.0, _WIDEST)
    keys["finished"].items()
    for node in keys["held_in"].items():
        accept_held(node)
    checks = tuple(dict(node.entries()) for node in keys["checks"].items())
    sound = [seam for seam in seams if seam is not None]
    if top.problems:
        raise InputProblems(top.problems)
    every = tuple(known.values())
    pattern = made(
        top,
        lambda: Pattern(
            title, wearer, every, tuple(sound), measures, origin, history, derived, stretch, cloth_width=wide
        ),
    )
    if pattern is None:
        raise InputProblems(top.problems)
    pattern = pattern_by_names(pattern) if version == _BEFORE_TYPES else pattern
    if keys["unfinished"].there:
        before = _unfinished(keys["unfinished"], pattern)
        pattern = replace(pattern, unfinished=None if before is None else necks_by_steps(before))
        if top.problems:
            raise InputProblems(top.problems)
    return Document(
        necks_by_steps(pattern), tuple({key: node.value for key, node in check.items()} for check in checks)
    )


def _unfinished(node: Node, finished: Pattern) -> Pattern | None:
    """The pattern before its finishing steps; what they left as it is stands there by its name."""
    keys = node.fields(("steps", "pieces", "seams", "measures"), ("derived",))
    steps = keys["steps"].whole(0, len(finished.history), 0)
    pieces = known_or_read(keys["pieces"], finished.pieces, _piece)
    by_name = {piece.name: piece for piece in pieces}
    seams = known_or_read(keys["seams"], finished.seams, lambda each: _seam(each, by_name))
    measures = known_or_read(keys["measures"], finished.measures, lambda each: _measure(each, by_name))
    derived = tuple(read_derived(each, by_name) for each in keys["derived"].items())
    return made(
        node,
        lambda: replace(
            finished,
            pieces=pieces,
            seams=seams,
            measures=measures,
            history=finished.history[:steps],
            derived=derived,
            unfinished=None,
        ),
    )


def _piece(node: Node) -> Piece | None:
    """The piece that a node holds; None where anything is wrong with it, which is then noted."""
    before = len(node.problems)
    keys = node.fields(("name", "outline"), _OF_A_PIECE)
    name = keys["name"].text(empty=False)
    edges = read_named(keys["outline"].items(low=1, high=MOST_EDGES), _edge, key="edge")
    drawn = sum(len(edge.curves) for edge in edges if edge is not None)
    if drawn > MOST_CURVES:
        keys["outline"].problem(f"up to {MOST_CURVES:,} of one piece", read=f"an outline of {drawn:,} lines and curves")
    _note_gaps(keys["outline"], edges)
    cut = _cut(keys["cut"])
    names = [edge.name for edge in edges if edge is not None] if len(node.problems) == before else None
    darts = tuple(_dart(dart, names) for dart in keys["darts"].items())
    notches = tuple(_notch(notch, names) for notch in keys["notches"].items())
    grain = _grain(keys["grain"])
    lines = tuple(_line(line) for line in keys["lines"].items())
    landmarks = {key: one_of(node, Landmark) for key, node in keys["landmarks"].entries()}
    lowered = {key: mm.number(-FAR, FAR) for key, mm in keys["lowered"].entries()}
    points = tuple(
        MarkPoint(key, read_point(at), landmarks.get(key), lowered.get(key, 0.0))
        for key, at in keys["points"].entries()
    )
    meant = tuple(_edge_pair(pair, names) for pair in keys["points_meant"].items())
    identity = Identity(
        one_of(keys["kind"], PieceKind),
        one_of(keys["part"], BodyPart),
        one_of(keys["of"], PieceKind),
        one_of(keys["side"], BodySide),
    )
    for curve in keys["cutting_line"].items():
        read_curve(curve)  # it follows from the outline; it is only looked at whether it could be one
    if len(node.problems) > before:
        return None
    outline = tuple(edge for edge in edges if edge is not None)
    return made(node, lambda: Piece(name, outline, cut, grain, darts, notches, lines, points, meant, identity))


def _cut(node: Node) -> Cut:
    if not node.there:
        return Cut()
    keys = node.fields((), ("count", "fold", "mirror", "lining", "interfacing"))
    lining, interfacing = (keys[key].whole(0, 999, 0) for key in ("lining", "interfacing"))
    least = 0 if lining else 1  # a piece that is cut of lining only
    return Cut(keys["count"].whole(least, 999, 1), keys["fold"].flag(), keys["mirror"].flag(), lining, interfacing)


def _edge(node: Node) -> Edge | None:
    before = len(node.problems)
    keys = node.fields(("edge", "curves"), ("role", "allowance", "place", "half", "drawn_up"))
    name = keys["edge"].text(empty=False)
    curves = tuple(read_curve(curve) for curve in keys["curves"].items(low=1))
    role = Role(keys["role"].choice([role.value for role in Role], Role.SEAM.value))
    allowance = keys["allowance"].number(0.0, FAR)
    place, half = one_of(keys["place"], Place), one_of(keys["half"], Half)
    drawn_up = one_of(keys["drawn_up"], Fullness)
    if len(node.problems) > before:
        return None
    return made(node, lambda: Edge(name, curves, role, allowance, place, half, drawn_up))


def _note_gaps(node: Node, edges: Sequence[Edge | None]) -> None:
    for i, edge in enumerate(edges):
        before = edges[i - 1]
        if edge is not None and before is not None and before.end != edge.start:
            node.items()[i].problem(
                f'that "{edge.name}" starts where "{before.name}" ends, at {_at(before.end)}',
                "An outline closes exactly.",
                read=f"a start at {_at(edge.start)}",
            )


def _at(point: Point) -> str:
    return f"({point.x:g}, {point.y:g})"


def _edge_pair(node: Node, edges: list[str] | None) -> tuple[str, str]:
    one, other = (*(known_name(name, edges, "an edge of this piece") for name in node.items(low=2, high=2)), "", "")[:2]
    return one, other


def _dart(node: Node, edges: Sequence[str] | None) -> Dart:
    keys = node.fields(("name", "legs", "apex"), ("aims_at",))
    legs = [known_name(leg, edges, "an edge of this piece") for leg in keys["legs"].items(low=2, high=2)]
    one, other = legs or ("", "")
    return Dart(keys["name"].text(empty=False), (one, other), read_point(keys["apex"]), keys["aims_at"].text())


def _notch(node: Node, edges: Sequence[str] | None) -> Notch:
    keys = node.fields(("name", "edge", "at"), ("from", "style", "marks", "number", "drawn"))
    end: End = "end" if keys["from"].choice(get_args(End), "start") == "end" else "start"
    style: NotchStyle = "double" if keys["style"].choice(get_args(NotchStyle), "single") == "double" else "single"
    edge = known_name(keys["edge"], edges, "an edge of this piece")
    # the number and the lines follow from the rest, as the cutting line does
    keys["number"].whole(1, _MOST_NOTCHES, 1)
    _look_at_marks(keys["drawn"])
    marks = one_of(keys["marks"], NotchMark)
    return Notch(keys["name"].text(empty=False), Station(edge, keys["at"].number(-FAR, FAR), end), style, marks)


def _look_at_marks(node: Node) -> None:
    """A notch as it is drawn: the two ends of a line, or two such lines."""
    parts = node.items(low=2, high=2)
    double = bool(parts) and isinstance(parts[0].value, list) and isinstance((*parts[0].value, None)[0], list)
    for part in parts:
        for end in part.items(low=2, high=2) if double else (part,):
            read_point(end)


def _grain(node: Node) -> Grain | None:
    if node.value is None or not node.there:
        return None
    ends = [read_point(end) for end in node.items(low=2, high=2)]
    return Grain(ends[0], ends[1]) if ends else None


def _line(node: Node) -> MarkLine:
    keys = node.fields(("name", "from", "to"), ("curves", "level", "onward"))
    level, onward = one_of(keys["level"], Level), keys["onward"].flag()
    plain = MarkLine(
        keys["name"].text(empty=False), read_point(keys["from"]), read_point(keys["to"]), level=level, onward=onward
    )
    curves = tuple(read_curve(curve) for curve in keys["curves"].items())
    return made(node, lambda: replace(plain, curves=curves)) or plain


def _seam(node: Node, pieces: Mapping[str, Piece] | None) -> Seam | None:
    before = len(node.problems)
    keys = node.fields(("name", "a", "b"), ("ease", "notches"))
    name = keys["name"].text(empty=False)
    a = tuple(_edge_ref(ref, pieces) for ref in keys["a"].items(low=1))
    b = tuple(_edge_ref(ref, pieces) for ref in keys["b"].items(low=1))
    ease = _ease(keys["ease"])
    notches = tuple(_notch_pair(pair, pieces) for pair in keys["notches"].items())
    if len(node.problems) > before or ease is None:
        return None
    return made(node, lambda: Seam(name, a, b, ease, notches))


def _edge_ref(node: Node, pieces: Mapping[str, Piece] | None) -> EdgeRef:
    keys = node.fields(("piece", "edge"), ("backward",))
    piece = known_name(keys["piece"], pieces, "a piece of this pattern")
    edges = [edge.name for edge in pieces[piece].edges] if pieces and piece in pieces else None
    return EdgeRef(piece, known_name(keys["edge"], edges, f'an edge of "{piece}"'), keys["backward"].flag())


def _ease(node: Node) -> SeamEase | None:
    if not node.there:
        return PLAIN
    keys = node.fields(("wanted", "low", "high"))
    wanted, low, high = (keys[key].number(-FAR, FAR) for key in ("wanted", "low", "high"))
    return made(node, lambda: SeamEase(wanted, low, high))


def _notch_pair(node: Node, pieces: Mapping[str, Piece] | None) -> tuple[NotchRef, NotchRef]:
    marks = [read_notch_ref(mark, pieces) for mark in node.items(low=2, high=2)]
    return (marks[0], marks[1]) if marks else (NotchRef("", ""), NotchRef("", ""))


def _measure(node: Node, pieces: Mapping[str, Piece] | None) -> Measure:
    """The measurement that a node holds; what is wrong is noted and stands as a harmless value."""
    keys = node.fields(("name", "tape"), ("key", "body", "ease", "least", "round", "snug", "beyond"))
    tape = tuple(part for part in (_tape(part, pieces) for part in keys["tape"].items(low=1)) if part is not None)
    return Measure(
        keys["name"].text(empty=False),
        tape,
        keys["key"].text(),
        keys["body"].number_or_none(-FAR, FAR),
        keys["ease"].number(-FAR, FAR),
        keys["least"].number_or_none(-FAR, FAR),
        keys["round"].flag(),
        keys["snug"].number_or_none(-FAR, FAR),
        keys["beyond"].number(-FAR, FAR, 0.0),
    )


def _tape(node: Node, pieces: Mapping[str, Piece] | None) -> Tape | None:
    """One part of a tape, by how it lies; None where that is not known, which is then noted."""
    lay = node.value.get("lay") if isinstance(node.value, dict) else None
    if not isinstance(lay, str) or lay not in _LAYS:
        lays = ", ".join(f'"{name}"' for name in _LAYS)
        node.problem(f'a table with "lay" as one of {lays}')
        return None
    keys = node.fields(("lay", *_LAYS[lay]), ("times",))
    times = keys["times"].number(-FAR, FAR, 1.0)
    name = known_name(keys["piece"], pieces, "a piece of this pattern")
    piece = pieces.get(name) if pieces else None
    lines = None if piece is None else [line.name for line in piece.lines]
    if lay == "across":
        return Across(name, known_name(keys["line"], lines, f'a line of "{name}"'), times)
    if lay == "curved":
        line = known_name(keys["line"], lines, f'a line of "{name}"')
        return Curved(name, line, keys["by"].number(-FAR, FAR), times)
    if lay == "bent":
        line, onward = (known_name(keys[key], lines, f'a line of "{name}"') for key in ("line", "onward"))
        return Bent(name, line, onward, times)
    if lay == "along":
        edges = None if piece is None else [edge.name for edge in piece.edges]
        return Along(name, known_name(keys["edge"], edges, f'an edge of "{name}"'), times)
    points = None if piece is None else [mark.name for mark in piece.points]
    one, other = (known_name(keys[key], points, f'a marked point of "{name}"') for key in ("one", "other"))
    return Between(name, one, other, times)
