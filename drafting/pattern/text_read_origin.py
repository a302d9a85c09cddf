"""How a pattern came to be, read from a pattern.json: its wearer, its blocks and steps; and its derived parts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern.derived import Derived, DrawnTo, EdgeAs, LineRef
from drafting.pattern.pattern import BodyLength, ChildWearer, Origin, Step, Wearer
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import Role
from drafting.pattern.places import BodyPart, Identity, PieceKind, Place
from drafting.pattern.seam import NotchRef
from drafting.pattern.text_values import FAR, known_name, one_of, read_curve
from drafting.reading.read_json import Node, Plain
from drafting.reading.units import FILE_UNITS

__all__ = [
    "USUAL_UNIT",
    "accept_held",
    "read_derived",
    "read_notch_ref",
    "read_origin",
    "read_taken_step",
    "read_wearer",
]

USUAL_UNIT: Final = "cm"  # of a wearer whose own is not said
_LONGEST: Final = 100_000.0  # mm, as in pattern.schema.json
_SOURCES: Final = ("measured", "estimated", "chart")
_CHILDREN: Final = ("girl", "boy", "")


def read_wearer(node: Node) -> Wearer:
    """Whom the pattern was drafted for, and her measurements."""
    keys = node.fields(("name",), ("measurements", "child", "unit"))
    lengths = tuple(_body_length(key, entry) for key, entry in keys["measurements"].entries())
    child = _child(keys["child"]) if keys["child"].there else None
    return Wearer(keys["name"].text(), lengths, child, keys["unit"].choice(FILE_UNITS, USUAL_UNIT))


def _child(node: Node) -> ChildWearer:
    keys = node.fields(("body", "months", "lives"))
    months = keys["months"].number_or_none(0.0, 300.0)
    body = keys["body"].choice(_CHILDREN, "")
    return ChildWearer(body, None if months is None else int(months), keys["lives"].text())


def _body_length(key: str, node: Node) -> BodyLength:
    keys = node.fields(("mm", "from"), ("source", "sd"))
    return BodyLength(
        key,
        keys["mm"].number(SAME_PLACE, FAR),
        keys["from"].choice(_SOURCES, "measured"),
        keys["source"].text(),
        keys["sd"].number_or_none(0.0, FAR),
    )


def read_origin(node: Node) -> Origin:
    """A block the pattern was drafted from."""
    keys = node.fields(("block",), ("options", "gave_way"))
    return Origin(
        keys["block"].text(empty=False),
        _options(keys["options"].entries()),
        tuple(sentence.text() for sentence in keys["gave_way"].items()),
    )


def read_taken_step(node: Node) -> Step:
    """A step that was taken."""
    entries = dict(node.entries())
    alter = entries.pop("alter", None)
    if alter is None:
        if isinstance(node.value, dict):
            node.problem('a table with "alter", the name of the alteration')
        return Step("")
    return Step(alter.text(empty=False), _options(tuple(entries.items())))


def read_derived(node: Node, pieces: Mapping[str, Piece] | None) -> Derived:
    """A part; pieces: those of the pattern by name, None where they could not be read."""
    keys = node.fields(("part", "drawn_to", "pieces"), ("called", "options", "seams", "notches", "edges", "lines"))
    return Derived(
        keys["part"].text(empty=False),
        tuple(to for to in map(_drawn_to, keys["drawn_to"].items(low=1)) if to is not None),
        _options(keys["options"].entries()),
        tuple(known_name(name, pieces, "a piece of this pattern") for name in keys["pieces"].items()),
        tuple(name.text(empty=False) for name in keys["seams"].items()),
        tuple(read_notch_ref(mark, pieces) for mark in keys["notches"].items()),
        keys["called"].text(),
        tuple(_edge_as(edge, pieces) for edge in keys["edges"].items()),
        tuple(_line_ref(mark, pieces) for mark in keys["lines"].items()),
    )


def _line_ref(node: Node, pieces: Mapping[str, Piece] | None) -> LineRef:
    """A marked line, written as piece/line."""
    there = {
        f"{piece.name}/{line.name}": (piece.name, line.name)
        for piece in (pieces or {}).values()
        for line in piece.lines
    }
    if pieces is None:
        return LineRef("", "")
    return LineRef(*there.get(known_name(node, there, "the piece and the line, with a stroke between"), ("", "")))


def _edge_as(node: Node, pieces: Mapping[str, Piece] | None) -> EdgeAs:
    keys = node.fields(("piece", "edge", "role", "allowance"))
    piece = known_name(keys["piece"], pieces, "a piece of this pattern")
    role = one_of(keys["role"], Role) or Role.SEAM
    return EdgeAs(piece, keys["edge"].text(empty=False), role, keys["allowance"].number(0.0, _LONGEST))


def _drawn_to(node: Node) -> DrawnTo | None:
    keys = node.fields(("place",), ("kind", "part", "of", "piece"))
    place = one_of(keys["place"], Place)
    identity = Identity(one_of(keys["kind"], PieceKind), one_of(keys["part"], BodyPart), one_of(keys["of"], PieceKind))
    return None if place is None else DrawnTo(place, identity, keys["piece"].text())


def _options(entries: Sequence[tuple[str, Node]]) -> tuple[tuple[str, Plain], ...]:
    return tuple((key, node.plain()) for key, node in entries)


def read_notch_ref(node: Node, pieces: Mapping[str, Piece] | None) -> NotchRef:
    """A notch, written as piece/notch."""
    text = node.text(empty=False)
    if pieces is None or not text:
        return NotchRef("", "")
    there = {
        f"{piece.name}/{notch.name}": (piece.name, notch.name) for piece in pieces.values() for notch in piece.notches
    }
    return NotchRef(*there.get(known_name(node, there, "the piece and the notch, with a stroke between"), ("", "")))


def accept_held(node: Node) -> None:
    """Note what is wrong with a stretch that is gathered or eased in; it follows from the seams and is not kept."""
    keys = node.fields(("seam", "piece", "how", "from", "to", "length", "sewn", "curves"))
    keys["seam"].text(empty=False)
    keys["piece"].text(empty=False)
    keys["how"].choice(("gathered", "eased", "plain"), "plain")
    keys["from"].text()
    keys["to"].text()
    keys["length"].number(0.0, _LONGEST)
    keys["sewn"].number(0.0, _LONGEST)
    for curve in keys["curves"].items():
        read_curve(curve)
