"""Reading a pattern.json back, with every problem in it and where it stands; never a traceback."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final, TypeVar, get_args

from drafting.errors import InputProblems, NotAPattern, meant
from drafting.geometry import Cubic, Curve, Line, Point
from drafting.pattern.measure import Across, Along, Bent, Between, Curved, Measure, Tape
from drafting.pattern.pattern import BodyLength, Origin, Pattern, Step, Wearer
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
from drafting.pattern.seam import PLAIN, EdgeRef, NotchRef, Seam, SeamEase
from drafting.reading.read_json import Node, Plain, load_json

__all__ = ["FORMAT", "VERSION", "Document", "from_json", "read_document"]

T = TypeVar("T")

FORMAT: Final = "trueseam pattern"
VERSION: Final = 1

_FAR: Final = 100_000.0
"""No coordinate or length of a garment is larger, mm: a hundred metres of cloth."""

_MOST_NOTCHES: Final = 100_000
_NOWHERE: Final = Point(0.0, 0.0)
_LAYS: Final[Mapping[str, tuple[str, ...]]] = {
    "across": ("piece", "line"),
    "along": ("piece", "edge"),
    "between": ("piece", "one", "other"),
    "bent": ("piece", "line", "onward"),
    "curved": ("piece", "line", "by"),
}
_SOURCES: Final = ("measured", "estimated", "chart")


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
        ("seams", "measures", "finished", "held_in", "origin", "history", "checks"),
    )
    keys["format"].choice((FORMAT,), FORMAT)
    keys["version"].whole(VERSION, VERSION, VERSION)
    keys["unit"].choice(("mm",), "mm")
    title = keys["title"].text()
    wearer = _wearer(keys["wearer"])
    pieces = _named(keys["pieces"].items(low=1), _piece)
    known = {piece.name: piece for piece in pieces if piece is not None}
    # a piece that could not be read would make every mention of it a second problem for one mistake
    whole = bool(known) and len(known) == len(pieces)
    seams = _named(keys["seams"].items(), lambda node: _seam(node, known if whole else None))
    measures = tuple(_measure(node, known if whole else None) for node in keys["measures"].items())
    origin = tuple(_origin(node) for node in keys["origin"].items())
    history = tuple(_step(node) for node in keys["history"].items())
    keys["finished"].items()
    keys["held_in"].items()
    checks = tuple(dict(node.entries()) for node in keys["checks"].items())
    sound = [seam for seam in seams if seam is not None]
    if top.problems:
        raise InputProblems(top.problems)
    pattern = _made(top, lambda: Pattern(title, wearer, tuple(known.values()), tuple(sound), measures, origin, history))
    if pattern is None:
        raise InputProblems(top.problems)
    return Document(pattern, tuple({key: node.value for key, node in check.items()} for check in checks))


def _wearer(node: Node) -> Wearer:
    keys = node.fields(("name",), ("measurements",))
    lengths = tuple(_body_length(key, entry) for key, entry in keys["measurements"].entries())
    return Wearer(keys["name"].text(), lengths)


def _body_length(key: str, node: Node) -> BodyLength:
    keys = node.fields(("mm", "from"), ("source", "sd"))
    return BodyLength(
        key,
        keys["mm"].number(-_FAR, _FAR),
        keys["from"].choice(_SOURCES, "measured"),
        keys["source"].text(),
        keys["sd"].number_or_none(0.0, _FAR),
    )


def _piece(node: Node) -> Piece | None:
    before = len(node.problems)
    keys = node.fields(
        ("name", "outline"),
        ("cut", "darts", "notches", "grain", "lines", "points", "points_meant", "cutting_line"),
    )
    name = keys["name"].text(empty=False)
    edges = _named(keys["outline"].items(low=1), _edge, key="edge")
    _note_gaps(keys["outline"], edges)
    cut = _cut(keys["cut"])
    names = [edge.name for edge in edges if edge is not None] if len(node.problems) == before else None
    darts = tuple(_dart(dart, names) for dart in keys["darts"].items())
    notches = tuple(_notch(notch, names) for notch in keys["notches"].items())
    grain = _grain(keys["grain"])
    lines = tuple(_line(line) for line in keys["lines"].items())
    points = tuple(MarkPoint(key, _point(at)) for key, at in keys["points"].entries())
    meant = tuple(_edge_pair(pair, names) for pair in keys["points_meant"].items())
    for curve in keys["cutting_line"].items():
        _curve(curve)  # it follows from the outline; it is only looked at whether it could be one
    if len(node.problems) > before:
        return None
    outline = tuple(edge for edge in edges if edge is not None)
    return _made(node, lambda: Piece(name, outline, cut, grain, darts, notches, lines, points, meant))


def _cut(node: Node) -> Cut:
    if not node.there:
        return Cut()
    keys = node.fields((), ("count", "fold", "mirror"))
    return Cut(keys["count"].whole(1, 999, 1), keys["fold"].flag(), keys["mirror"].flag())


def _edge(node: Node) -> Edge | None:
    before = len(node.problems)
    keys = node.fields(("edge", "curves"), ("role", "allowance"))
    name = keys["edge"].text(empty=False)
    curves = tuple(_curve(curve) for curve in keys["curves"].items(low=1))
    role = Role(keys["role"].choice([role.value for role in Role], Role.SEAM.value))
    allowance = keys["allowance"].number(0.0, _FAR)
    if len(node.problems) > before:
        return None
    return _made(node, lambda: Edge(name, curves, role, allowance))


def _curve(node: Node) -> Curve:
    points = [_point(point) for point in node.items()]
    if len(points) == 2:
        return Line(points[0], points[1])
    if len(points) == 4:
        return Cubic(points[0], points[1], points[2], points[3])
    if isinstance(node.value, list):
        node.problem("two points (a line) or four (a curve)", read=f"a list of {len(points)}")
    return Line(_NOWHERE, _NOWHERE)


def _point(node: Node) -> Point:
    x_y = [part.number(-_FAR, _FAR) for part in node.items(low=2, high=2)]
    return Point(x_y[0], x_y[1]) if x_y else _NOWHERE


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
    one, other = (*(_known(name, edges, "an edge of this piece") for name in node.items(low=2, high=2)), "", "")[:2]
    return one, other


def _dart(node: Node, edges: Sequence[str] | None) -> Dart:
    keys = node.fields(("name", "legs", "apex"), ("aims_at",))
    legs = [_known(leg, edges, "an edge of this piece") for leg in keys["legs"].items(low=2, high=2)]
    one, other = legs or ("", "")
    return Dart(keys["name"].text(empty=False), (one, other), _point(keys["apex"]), keys["aims_at"].text())


def _notch(node: Node, edges: Sequence[str] | None) -> Notch:
    keys = node.fields(("name", "edge", "at"), ("from", "style", "number", "drawn"))
    end: End = "end" if keys["from"].choice(get_args(End), "start") == "end" else "start"
    style: NotchStyle = "double" if keys["style"].choice(get_args(NotchStyle), "single") == "double" else "single"
    edge = _known(keys["edge"], edges, "an edge of this piece")
    # the number and the lines follow from the rest, as the cutting line does
    keys["number"].whole(1, _MOST_NOTCHES, 1)
    _look_at_marks(keys["drawn"])
    return Notch(keys["name"].text(empty=False), Station(edge, keys["at"].number(-_FAR, _FAR), end), style)


def _look_at_marks(node: Node) -> None:
    """A notch as it is drawn: the two ends of a line, or two such lines."""
    parts = node.items(low=2, high=2)
    double = bool(parts) and isinstance(parts[0].value, list) and isinstance((*parts[0].value, None)[0], list)
    for part in parts:
        for end in part.items(low=2, high=2) if double else (part,):
            _point(end)


def _grain(node: Node) -> Grain | None:
    if node.value is None or not node.there:
        return None
    ends = [_point(end) for end in node.items(low=2, high=2)]
    return Grain(ends[0], ends[1]) if ends else None


def _line(node: Node) -> MarkLine:
    keys = node.fields(("name", "from", "to"), ("curves",))
    plain = MarkLine(keys["name"].text(empty=False), _point(keys["from"]), _point(keys["to"]))
    curves = tuple(_curve(curve) for curve in keys["curves"].items())
    return _made(node, lambda: replace(plain, curves=curves)) or plain


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
    return _made(node, lambda: Seam(name, a, b, ease, notches))


def _edge_ref(node: Node, pieces: Mapping[str, Piece] | None) -> EdgeRef:
    keys = node.fields(("piece", "edge"), ("backward",))
    piece = _known(keys["piece"], pieces, "a piece of this pattern")
    edges = [edge.name for edge in pieces[piece].edges] if pieces and piece in pieces else None
    return EdgeRef(piece, _known(keys["edge"], edges, f'an edge of "{piece}"'), keys["backward"].flag())


def _ease(node: Node) -> SeamEase | None:
    if not node.there:
        return PLAIN
    keys = node.fields(("wanted", "low", "high"))
    wanted, low, high = (keys[key].number(-_FAR, _FAR) for key in ("wanted", "low", "high"))
    return _made(node, lambda: SeamEase(wanted, low, high))


def _notch_pair(node: Node, pieces: Mapping[str, Piece] | None) -> tuple[NotchRef, NotchRef]:
    marks = [_notch_ref(mark, pieces) for mark in node.items(low=2, high=2)]
    return (marks[0], marks[1]) if marks else (NotchRef("", ""), NotchRef("", ""))


def _notch_ref(node: Node, pieces: Mapping[str, Piece] | None) -> NotchRef:
    text = node.text(empty=False)
    if pieces is None or not text:
        return NotchRef("", "")
    there = {
        f"{piece.name}/{notch.name}": (piece.name, notch.name) for piece in pieces.values() for notch in piece.notches
    }
    return NotchRef(*there.get(_known(node, there, "the piece and the notch, with a stroke between"), ("", "")))


def _measure(node: Node, pieces: Mapping[str, Piece] | None) -> Measure:
    keys = node.fields(("name", "tape"), ("key", "body", "ease", "least", "round", "snug"))
    tape = tuple(part for part in (_tape(part, pieces) for part in keys["tape"].items(low=1)) if part is not None)
    return Measure(
        keys["name"].text(empty=False),
        tape,
        keys["key"].text(),
        keys["body"].number_or_none(-_FAR, _FAR),
        keys["ease"].number(-_FAR, _FAR),
        keys["least"].number_or_none(-_FAR, _FAR),
        keys["round"].flag(),
        keys["snug"].number_or_none(-_FAR, _FAR),
    )


def _tape(node: Node, pieces: Mapping[str, Piece] | None) -> Tape | None:
    lay = node.value.get("lay") if isinstance(node.value, dict) else None
    if not isinstance(lay, str) or lay not in _LAYS:
        lays = ", ".join(f'"{name}"' for name in _LAYS)
        node.problem(f'a table with "lay" as one of {lays}')
        return None
    keys = node.fields(("lay", *_LAYS[lay]), ("times",))
    times = keys["times"].number(-_FAR, _FAR, 1.0)
    name = _known(keys["piece"], pieces, "a piece of this pattern")
    piece = pieces.get(name) if pieces else None
    lines = None if piece is None else [line.name for line in piece.lines]
    if lay == "across":
        return Across(name, _known(keys["line"], lines, f'a line of "{name}"'), times)
    if lay == "curved":
        line = _known(keys["line"], lines, f'a line of "{name}"')
        return Curved(name, line, keys["by"].number(-_FAR, _FAR), times)
    if lay == "bent":
        line, onward = (_known(keys[key], lines, f'a line of "{name}"') for key in ("line", "onward"))
        return Bent(name, line, onward, times)
    if lay == "along":
        edges = None if piece is None else [edge.name for edge in piece.edges]
        return Along(name, _known(keys["edge"], edges, f'an edge of "{name}"'), times)
    points = None if piece is None else [mark.name for mark in piece.points]
    one, other = (_known(keys[key], points, f'a marked point of "{name}"') for key in ("one", "other"))
    return Between(name, one, other, times)


def _origin(node: Node) -> Origin:
    keys = node.fields(("block",), ("options", "gave_way"))
    return Origin(
        keys["block"].text(empty=False),
        _options(keys["options"].entries()),
        tuple(sentence.text() for sentence in keys["gave_way"].items()),
    )


def _step(node: Node) -> Step:
    entries = dict(node.entries())
    alter = entries.pop("alter", None)
    if alter is None:
        if isinstance(node.value, dict):
            node.problem('a table with "alter", the name of the alteration')
        return Step("")
    return Step(alter.text(empty=False), _options(tuple(entries.items())))


def _options(entries: Sequence[tuple[str, Node]]) -> tuple[tuple[str, Plain], ...]:
    return tuple((key, node.plain()) for key, node in entries)


def _known(node: Node, names: Sequence[str] | Mapping[str, object] | None, what: str) -> str:
    """A text that is one of the names; any text when the names themselves could not be read."""
    name = node.text(empty=False)
    if name and names is not None and name not in names:
        node.problem(what, meant(name, names))
    return name


def _named(nodes: Sequence[Node], read: Callable[[Node], T | None], *, key: str = "name") -> list[T | None]:
    """Every node read, the second of two with one name noted."""
    taken: set[str] = set()
    found = []
    for node in nodes:
        found.append(read(node))
        name = node.value.get(key) if isinstance(node.value, dict) else None
        if isinstance(name, str) and name in taken:
            node.problem("a name of its own", read=f'a second "{name}"')
        elif isinstance(name, str):
            taken.add(name)
    return found


def _made(node: Node, make: Callable[[], T]) -> T | None:
    """What `make` makes; None, and a problem, where no pattern could have it."""
    try:
        return make()
    except NotAPattern as error:
        node.problem("what a pattern could have", read=f"something else ({error.where}: {error.reason})")
        return None
