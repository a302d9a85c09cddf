"""A pattern as text (pattern.json): the neutral result that every `draft` writes and that any program can read.

Its shape is fixed by pattern.schema.json beside this file (JSON Schema, draft 2020-12). Lengths are millimetres,
y up; a curve is a list of two points (a line) or four (a cubic: start, two handles, end). The text depends on the
pattern alone, so the same pattern gives the same bytes.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from enum import StrEnum
from typing import Final, Protocol

from drafting.errors import InputProblems, NotAPattern, Remedy
from drafting.geometry import Curve, Line, Point
from drafting.pattern.cutting import cutting_line
from drafting.pattern.derived import Derived, EdgeAs
from drafting.pattern.gathered import Held, held_in
from drafting.pattern.measure import Across, Along, Bent, Curved, Measure, Tape
from drafting.pattern.notches import notch_ends
from drafting.pattern.pattern import BodyLength, ChildWearer, Origin, Pattern, Step, Wearer, finished
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import Cut, Dart, MarkLine, Notch
from drafting.pattern.seam import EdgeRef, Seam
from drafting.pattern.seam_ends import Sewn, sewn
from drafting.pattern.text_lines import laid_out
from drafting.pattern.text_read import FORMAT, VERSION, Document, from_json, read_document
from drafting.pattern.text_read_origin import USUAL_UNIT
from drafting.reading.read_json import load_json

__all__ = ["Document", "Outcome", "from_json", "read_document", "seams_json", "to_json", "with_seams"]

_PLACES: Final = 9
"""Decimals of a millimetre in the text: below the rounding of metre-long pieces (1e-10 is half of it), so that what
is read back is the same pattern, while the last bits of a sine, which differ between machines, stay out of it."""

_MEASURED_PLACES: Final = 4
"""Decimals of a length that was measured on a curve: `tolerance.LENGTH`, the error it may have."""


class Outcome(Protocol):
    """What a check found, as far as it is written down here."""

    @property
    def code(self) -> str: ...
    @property
    def check(self) -> str: ...
    @property
    def where(self) -> str: ...
    @property
    def measured(self) -> object: ...
    @property
    def wanted(self) -> object: ...
    @property
    def allowed(self) -> object: ...
    @property
    def unit(self) -> str: ...
    @property
    def verdict(self) -> str: ...
    @property
    def remedy(self) -> str: ...
    @property
    def remedies(self) -> Sequence[Remedy]: ...


def to_json(pattern: Pattern, results: Iterable[Outcome] = ()) -> str:
    """The pattern, what follows from it and the outcomes of its checks as JSON text, ending in a line break.

    What follows from it: the finished measurements, what is gathered or eased in from where to where, the cutting line
    of each piece, its notches as they are drawn.
    What is written has been read back: `from_json` gives the same pattern, coordinates rounded to 1e-9 mm.
    Raises InputProblems for a pattern that no file could hold (a name that is empty or longer than one line).
    """
    table = _pattern(pattern)
    written = from_json(json.dumps(table, allow_nan=False), place=f'the pattern "{pattern.title}"')
    table["pieces"] = _pieces(written, drawn=True)
    table["finished"] = [
        {
            "name": found.name,
            "finished": round(found.finished, _MEASURED_PLACES),
            "body": _number(found.body),
            "ease": None if found.ease is None else round(found.ease, _MEASURED_PLACES),
            "least": _number(found.least),
        }
        for found in finished(written)
    ]
    table["held_in"] = [_held(each) for each in held_in(written)]
    table["checks"] = [_outcome(result) for result in results]
    return laid_out(table) + "\n"


_OF_SEAMS: Final = ("seams", "derived")
_OF_CLOTH: Final = ("stretch",)
_SHOWN_IN: Final = "unit"


def seams_json(pattern: Pattern) -> str:
    """The seams and the derived pieces as JSON on one line, as in pattern.json; how far a knit stretches, and
    the unit she works in where that is not centimetres; nothing else of the wearer.
    """
    table = _pattern(pattern)
    kept = {key: table[key] for key in (*_OF_SEAMS, *_OF_CLOTH) if key in table}
    unit = {_SHOWN_IN: pattern.wearer.unit} if pattern.wearer.unit != USUAL_UNIT else {}
    return json.dumps(kept | unit, separators=(",", ":"))


def with_seams(pattern: Pattern, text: str, *, place: str = "the seams") -> Pattern:
    """The pattern with what `seams_json` kept in that text. Raises InputProblems where it does not go with it."""
    top = load_json(text, place=place)
    top.fields(_OF_SEAMS, (*_OF_CLOTH, _SHOWN_IN))
    if top.problems:
        raise InputProblems(top.problems)
    kept = top.value if isinstance(top.value, dict) else {}
    wearer = _wearer(pattern.wearer) | ({_SHOWN_IN: kept[_SHOWN_IN]} if _SHOWN_IN in kept else {})
    table = _pattern(pattern) | {key: kept[key] for key in (*_OF_SEAMS, *_OF_CLOTH) if key in kept}
    return from_json(json.dumps(table | {"wearer": wearer}), place=place)


def _held(held: Held) -> dict[str, object]:
    return {
        "seam": held.seam,
        "piece": held.piece,
        "how": held.kind if held.longer else "plain",
        "from": held.begin,
        "to": held.end,
        "length": round(held.length, _MEASURED_PLACES),
        "sewn": round(held.to, _MEASURED_PLACES),
        "curves": [_curve(curve) for curve in held.curves],
    }


def _pattern(pattern: Pattern) -> dict[str, object]:
    """The pattern as tables and lists for JSON; what is usual is left out."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "unit": "mm",
        "title": pattern.title,
        "wearer": _wearer(pattern.wearer),
        "pieces": _pieces(pattern, drawn=False),
        "seams": [_seam(seam) for seam in pattern.seams],
        "measures": [_measure(measure) for measure in pattern.measures],
        "origin": [_origin(origin) for origin in pattern.origin],
        "history": [_step(step) for step in pattern.history],
        "derived": [_derived(part) for part in pattern.derived],
        **({"stretch": pattern.stretch} if pattern.stretch else {}),
        **({"cloth_width": pattern.cloth_width} if pattern.cloth_width else {}),
        **({"unfinished": _unfinished(pattern, pattern.unfinished)} if pattern.unfinished else {}),
    }


def _wearer(wearer: Wearer) -> dict[str, object]:
    return {
        "name": wearer.name,
        "measurements": {length.key: _body_length(length) for length in wearer.lengths},
        **({"child": _child(wearer.child)} if wearer.child else {}),
        **({"unit": wearer.unit} if wearer.unit != USUAL_UNIT else {}),
    }


def _child(child: ChildWearer) -> dict[str, object]:
    return {"body": child.body, "months": child.months, "lives": child.lives}


def _unfinished(pattern: Pattern, before: Pattern) -> dict[str, object]:
    """The pattern before its finishing steps: what they leave as it is stands there by its name alone."""
    pieces = {piece.name: piece for piece in pattern.pieces}
    seams = {seam.name: seam for seam in pattern.seams}
    measures = {measure.name: measure for measure in pattern.measures}
    return {
        "steps": len(before.history),
        "pieces": [each.name if each == pieces.get(each.name) else _piece(each) for each in before.pieces],
        "seams": [each.name if each == seams.get(each.name) else _seam(each) for each in before.seams],
        "measures": [each.name if each == measures.get(each.name) else _measure(each) for each in before.measures],
        "derived": [_derived(part) for part in before.derived],
    }


def _body_length(length: BodyLength) -> dict[str, object]:
    table: dict[str, object] = {"mm": _number(length.mm), "from": length.source, "source": length.how}
    return table if length.sd is None else table | {"sd": _number(length.sd)}


def _pieces(pattern: Pattern, *, drawn: bool) -> list[dict[str, object]]:
    """The pieces; where they are to be drawn, with their cutting lines, and their notches as lines with numbers."""
    if not drawn:
        return [_piece(piece) for piece in pattern.pieces]
    by_name = sewn(pattern)
    return [_drawn_piece(piece, by_name[piece.name]) for piece in pattern.pieces]


def _drawn_piece(piece: Piece, of_seams: Sewn) -> dict[str, object]:
    try:
        cutting = cutting_line(piece, of_seams)
    except NotAPattern:  # its allowances leave nothing to cut
        return _piece(piece)
    table = _piece(piece)
    notches = []
    for notch in piece.notches:
        marks = [[_point(end) for end in mark] for mark in notch_ends(piece, notch, cutting)]
        number = of_seams.numbers.get(notch.name)
        numbered = {} if number is None else {"number": number}
        notches.append(_notch(notch) | numbered | {"drawn": marks if len(marks) > 1 else marks[0]})
    return table | {"notches": notches, "cutting_line": [_curve(curve) for curve in cutting]}


def _piece(piece: Piece) -> dict[str, object]:
    """A piece as a table for JSON."""
    identity = piece.identity
    lowered = {mark.name: _number(mark.lowered) for mark in piece.points if mark.lowered}
    return {
        "name": piece.name,
        **_words(kind=identity.kind, part=identity.part, of=identity.of, side=identity.side),
        "cut": _cut(piece.cut),
        "outline": [
            {
                "edge": edge.name,
                "role": edge.role.value,
                **_words(place=edge.place, half=edge.half, drawn_up=edge.drawn_up),
                "allowance": _number(edge.allowance),
                "curves": [_curve(curve) for curve in edge.curves],
            }
            for edge in piece.edges
        ],
        "darts": [_dart(dart) for dart in piece.darts],
        "notches": [_notch(notch) for notch in piece.notches],
        "grain": None if piece.grain is None else [_point(piece.grain.start), _point(piece.grain.end)],
        "lines": [_line(line) for line in piece.lines],
        "points": {mark.name: _point(mark.at) for mark in piece.points},
        "landmarks": {mark.name: str(mark.landmark) for mark in piece.points if mark.landmark is not None},
        **({"lowered": lowered} if lowered else {}),
        "points_meant": [list(pair) for pair in piece.points_meant],
    }


def _cut(cut: Cut) -> dict[str, object]:
    table: dict[str, object] = {"count": cut.count, "fold": cut.fold, "mirror": cut.mirror}
    return table | {key: n for key, n in (("lining", cut.lining), ("interfacing", cut.interfacing)) if n}


def _words(**words: StrEnum | None) -> dict[str, str]:
    """The words of the vocabulary that are known."""
    return {key: str(word) for key, word in words.items() if word is not None}


def _dart(dart: Dart) -> dict[str, object]:
    table: dict[str, object] = {"name": dart.name, "legs": list(dart.legs), "apex": _point(dart.apex)}
    return table | {"aims_at": dart.aims_at} if dart.aims_at else table


def _line(line: MarkLine) -> dict[str, object]:
    table: dict[str, object] = {"name": line.name, "from": _point(line.start), "to": _point(line.end)}
    table |= _words(level=line.level)
    table |= {"onward": True} if line.onward else {}
    return table | {"curves": [_curve(curve) for curve in line.curves]} if line.curves else table


def _notch(notch: Notch) -> dict[str, object]:
    station = notch.station
    return {
        "name": notch.name,
        "edge": station.edge,
        "at": _number(station.at),
        "from": station.end,
        "style": notch.style,
        **_words(marks=notch.marks),
    }


def _seam(seam: Seam) -> dict[str, object]:
    ease = seam.ease
    return {
        "name": seam.name,
        "a": [_edge_ref(ref) for ref in seam.a],
        "b": [_edge_ref(ref) for ref in seam.b],
        "ease": {"wanted": _number(ease.wanted), "low": _number(ease.low), "high": _number(ease.high)},
        "notches": [[f"{mark.piece}/{mark.notch}" for mark in pair] for pair in seam.notches],
    }


def _edge_ref(ref: EdgeRef) -> dict[str, object]:
    table: dict[str, object] = {"piece": ref.piece, "edge": ref.edge}
    return table | {"backward": True} if ref.backward else table


def _measure(measure: Measure) -> dict[str, object]:
    beyond = {"beyond": _number(measure.beyond)} if measure.beyond else {}
    return {
        "name": measure.name,
        "tape": [_tape(part) for part in measure.tape],
        "key": measure.key,
        "body": _number(measure.body),
        "ease": _number(measure.ease),
        "least": _number(measure.least),
        "snug": _number(measure.snug),
        "round": measure.round,
        **beyond,
    }


def _tape(part: Tape) -> dict[str, object]:
    times = _number(part.times)
    if isinstance(part, Across):
        return {"lay": "across", "piece": part.piece, "line": part.line, "times": times}
    if isinstance(part, Along):
        return {"lay": "along", "piece": part.piece, "edge": part.edge, "times": times}
    if isinstance(part, Bent):
        return {"lay": "bent", "piece": part.piece, "line": part.line, "onward": part.onward, "times": times}
    if isinstance(part, Curved):
        return {"lay": "curved", "piece": part.piece, "line": part.line, "by": _number(part.by), "times": times}
    return {"lay": "between", "piece": part.piece, "one": part.one, "other": part.other, "times": times}


def _origin(origin: Origin) -> dict[str, object]:
    return {
        "block": origin.block,
        "options": {key: _plain(value) for key, value in origin.options},
        "gave_way": list(origin.gave_way),
    }


def _step(step: Step) -> dict[str, object]:
    return {"alter": step.alter} | {key: _plain(value) for key, value in step.options}


def _derived(part: Derived) -> dict[str, object]:
    """A derived part as a table for JSON: what it is drawn to, its options, and what it made."""
    return {
        "part": part.part,
        **({"called": part.called} if part.called else {}),
        "drawn_to": [
            {
                **_words(place=to.place, kind=to.identity.kind, part=to.identity.part, of=to.identity.of),
                **({"piece": to.piece} if to.piece else {}),
            }
            for to in part.to
        ],
        "options": {key: _plain(value) for key, value in part.options},
        "pieces": list(part.pieces),
        "seams": list(part.seams),
        "notches": [f"{mark.piece}/{mark.notch}" for mark in part.notches],
        **({"lines": [f"{mark.piece}/{mark.line}" for mark in part.lines]} if part.lines else {}),
        **({"edges": [_edge_as(edge) for edge in part.edges]} if part.edges else {}),
    }


def _edge_as(edge: EdgeAs) -> dict[str, object]:
    return {"piece": edge.piece, "edge": edge.edge, "role": str(edge.role), "allowance": _number(edge.allowance)}


def _outcome(result: Outcome) -> dict[str, object]:
    return {
        "code": result.code,
        "check": result.check,
        "where": result.where,
        "measured": _found(result.measured),
        "wanted": _found(result.wanted),
        "allowed": _found(result.allowed),
        "unit": result.unit,
        "verdict": str(result.verdict),
        "remedy": result.remedy,
        **({"remedies": [remedy.data() for remedy in result.remedies]} if result.remedies else {}),
    }


def _found(value: object) -> object:
    """A measured value: a number, a low and a high, a word, or null for what is not a finite number."""
    if isinstance(value, tuple | list):
        return [_found(part) for part in value]
    if isinstance(value, float):
        return round(value, _MEASURED_PLACES) + 0.0 if abs(value) < 1e15 else None
    return value


def _curve(curve: Curve) -> list[list[float]]:
    if isinstance(curve, Line):
        return [_point(curve.start), _point(curve.end)]
    return [_point(curve.start), _point(curve.c1), _point(curve.c2), _point(curve.end)]


def _point(point: Point) -> list[float]:
    return [round(point.x, _PLACES) + 0.0, round(point.y, _PLACES) + 0.0]


def _number(value: float | None) -> float | None:
    # adding zero makes a minus zero plain, which would else be written "-0.0"
    return None if value is None else round(float(value), _PLACES) + 0.0


def _plain(value: object) -> object:
    return _number(value) if isinstance(value, float) else value
