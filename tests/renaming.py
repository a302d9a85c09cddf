"""Every piece, edge, dart, notch, line, point and seam given another name, and whether anything but names differs then.

Two ways of naming: in another script ("ж7"), and crosswise, where every part has the name of another of its kind, so
that whoever goes by a word goes wrong.

    python -m tests.renaming                what differs, alteration by alteration
    python -m tests.renaming "full sleeve"  of these alone, with the first place where the two part
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from enum import Enum

from drafting.alterations import apply_step
from drafting.checks import run_checks
from drafting.errors import TrueseamError
from drafting.pattern import (
    Along,
    Bent,
    Between,
    EdgeRef,
    Measure,
    NotchRef,
    Pattern,
    Piece,
    Seam,
)
from drafting.pattern.derived import Derived
from drafting.reading.options import Value
from tests.alteration_samples import SAMPLES, sample
from tests.drafting.sizes import sized
from tests.examples import NAMES, example_pattern

__all__ = [
    "ALIKE",
    "BASES",
    "NAMINGS",
    "Compared",
    "Names",
    "base_pattern",
    "compared",
    "first_difference",
    "plain",
    "renamed",
]

Naming = Callable[[str, Sequence[str]], Sequence[str]]

_NAMING_OPTIONS = ("piece", "dart", "only", "to", "into", "edge", "measured_from")
"""The options of an alteration that may hold the name of a part."""


def in_another_script(kind: str, names: Sequence[str]) -> Sequence[str]:
    letter = dict(zip(("piece", "edge", "dart", "notch", "line", "point", "seam"), "щжфыюэя", strict=True))[kind]
    return [f"{letter}{count}" for count, _ in enumerate(names)]


def crosswise(_kind: str, names: Sequence[str]) -> Sequence[str]:
    return [*names[1:], *names[:1]] if len(names) > 1 else [f"{name}, the other one" for name in names]


ALIKE = ("same", "refused alike")

NAMINGS: Mapping[str, Naming] = {"another script": in_another_script, "crosswise": crosswise}


@dataclass(frozen=True)
class Names:
    """The new names of a pattern's parts, by kind and old name; those on a piece by the piece's old name too."""

    pieces: Mapping[str, str]
    seams: Mapping[str, str]
    on: Mapping[tuple[str, str], Mapping[str, str]]

    def edge(self, piece: str, name: str) -> str:
        return self.on[piece, "edge"][name]

    def notch(self, mark: NotchRef) -> NotchRef:
        return NotchRef(self.pieces[mark.piece], self.on[mark.piece, "notch"][mark.notch])

    def ref(self, ref: EdgeRef) -> EdgeRef:
        return replace(ref, piece=self.pieces[ref.piece], edge=self.edge(ref.piece, ref.edge))

    def option(self, options: Mapping[str, Value], key: str) -> Value:
        """An option as whoever sees the new names would write it; words that are no name stay."""
        value = options[key]
        if key not in _NAMING_OPTIONS or not isinstance(value, str):
            return value
        piece = str(options.get("piece", ""))
        tables = (
            [self.pieces] if key in ("piece", "only") else [self.on.get((piece, kind), {}) for kind in ("dart", "edge")]
        )
        return next((table[value] for table in tables if value in table), value)


def names_for(pattern: Pattern, naming: Naming) -> Names:
    def table(kind: str, names: Sequence[str]) -> Mapping[str, str]:
        return dict(zip(names, naming(kind, names), strict=True))

    on: dict[tuple[str, str], Mapping[str, str]] = {}
    for piece in pattern.pieces:
        for kind, group in (
            ("edge", piece.edges),
            ("dart", piece.darts),
            ("notch", piece.notches),
            ("line", piece.lines),
            ("point", piece.points),
        ):
            on[piece.name, kind] = table(kind, [each.name for each in group])
    pieces = table("piece", [piece.name for piece in pattern.pieces])
    return Names(pieces, table("seam", [seam.name for seam in pattern.seams]), on)


def renamed(pattern: Pattern, names: Names) -> Pattern:
    """The pattern with these names and nothing else changed."""
    return replace(
        pattern,
        pieces=tuple(_piece(piece, names) for piece in pattern.pieces),
        seams=tuple(_seam(seam, names) for seam in pattern.seams),
        measures=tuple(_measure(measure, names) for measure in pattern.measures),
        derived=tuple(_derived(part, names) for part in pattern.derived),
        history=tuple(
            replace(step, options=tuple((key, names.option(dict(step.options), key)) for key, _ in step.options))
            for step in pattern.history
        ),
        unfinished=None,
    )


def _derived(part: Derived, names: Names) -> Derived:
    return replace(
        part,
        to=tuple(replace(each, piece=names.pieces.get(each.piece, each.piece and "gone")) for each in part.to),
        pieces=tuple(names.pieces[piece] for piece in part.pieces),
        seams=tuple(names.seams[seam] for seam in part.seams),
        notches=tuple(map(names.notch, part.notches)),
        edges=tuple(
            replace(each, piece=names.pieces[each.piece], edge=names.edge(each.piece, each.edge)) for each in part.edges
        ),
        lines=tuple(
            replace(each, piece=names.pieces[each.piece], line=names.on[each.piece, "line"][each.line])
            for each in part.lines
        ),
    )


def _piece(piece: Piece, names: Names) -> Piece:
    edge, dart, notch, line, point = (names.on[piece.name, kind] for kind in ("edge", "dart", "notch", "line", "point"))
    return replace(
        piece,
        name=names.pieces[piece.name],
        edges=tuple(replace(each, name=edge[each.name]) for each in piece.edges),
        darts=tuple(
            replace(
                each,
                name=dart[each.name],
                legs=(edge[each.legs[0]], edge[each.legs[1]]),
                aims_at=point.get(each.aims_at, each.aims_at),
            )
            for each in piece.darts
        ),
        notches=tuple(
            replace(each, name=notch[each.name], station=replace(each.station, edge=edge[each.station.edge]))
            for each in piece.notches
        ),
        lines=tuple(replace(each, name=line[each.name]) for each in piece.lines),
        points=tuple(replace(each, name=point[each.name]) for each in piece.points),
        points_meant=tuple((edge[one], edge[other]) for one, other in piece.points_meant),
    )


def _seam(seam: Seam, names: Names) -> Seam:
    return replace(
        seam,
        name=names.seams[seam.name],
        a=tuple(map(names.ref, seam.a)),
        b=tuple(map(names.ref, seam.b)),
        notches=tuple((names.notch(one), names.notch(other)) for one, other in seam.notches),
    )


def _measure(measure: Measure, names: Names) -> Measure:
    return replace(measure, tape=tuple(_tape(part, names) for part in measure.tape))


def _tape(part: object, names: Names) -> object:
    changed: dict[str, str] = {"piece": names.pieces[part.piece]}
    kind = "edge" if isinstance(part, Along) else "point" if isinstance(part, Between) else "line"
    keys = ("one", "other") if kind == "point" else ("edge",) if kind == "edge" else ("line",)
    if isinstance(part, Bent):
        keys = ("line", "onward")
    for key in keys:
        changed[key] = names.on[part.piece, kind][getattr(part, key)]
    return replace(part, **changed)


def plain(pattern: Pattern) -> object:
    """A pattern with every name put as the count of its part, so that two that differ in names alone are equal.

    History and origin are left out; of a measurement its own name stays, which is none of a part.
    """
    return _plain(renamed(replace(pattern, history=(), origin=()), names_for(pattern, in_another_script)))


def _plain(value: object) -> object:
    if isinstance(value, Enum):
        return str(value)
    if is_dataclass(value) and not isinstance(value, type):
        compared = [field.name for field in fields(value) if field.compare and not field.name.startswith("_")]
        return {name: _plain(getattr(value, name)) for name in compared}
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    return value


def first_difference(one: object, other: object, where: str = "") -> str:
    """Where two plain patterns part first; "" where they are equal."""
    if isinstance(one, dict) and isinstance(other, dict) and one.keys() == other.keys():
        return next((told for key in one if (told := first_difference(one[key], other[key], f"{where}.{key}"))), "")
    if isinstance(one, list) and isinstance(other, list):
        if len(one) != len(other):
            return f"{where}: {len(one)} and {len(other)}"
        pairs = enumerate(zip(one, other, strict=True))
        return next((told for k, (a, b) in pairs if (told := first_difference(a, b, f"{where}[{k}]"))), "")
    return "" if one == other else f"{where}: {one} and {other}"


@dataclass(frozen=True)
class Compared:
    """One alteration with its options, under one naming: "same", "refused alike", or what differs."""

    pattern: str
    alteration: str
    options: Mapping[str, Value]
    naming: str
    outcome: str


def compared(base: Pattern, name: str, options: Mapping[str, Value], naming: str) -> Compared:
    """What an alteration makes of a pattern and of the same one renamed, and what the checks find on both."""
    base = replace(base, unfinished=None)  # a step is taken on both as they are: the names are those of this state
    names = names_for(base, NAMINGS[naming])
    told = {key: names.option(options, key) for key in options}
    return Compared(base.title, name, options, naming, _outcome(base, name, options, renamed(base, names), told))


def _outcome(base: Pattern, name: str, options: Mapping[str, Value], other: Pattern, told: Mapping[str, Value]) -> str:
    one, refused = _altered(base, name, options)
    two, refused_too = _altered(other, name, told)
    if one is None or two is None:
        return "refused alike" if one is two else f"refused of one alone: {refused or refused_too}"
    if difference := first_difference(plain(one), plain(two)):
        return f"pattern{difference}"
    found, found_too = (
        [(r.code, str(r.verdict), r.measured, r.wanted) for r in run_checks(each)] for each in (one, two)
    )
    if found != found_too:
        pairs = zip(found, found_too, strict=False)
        return f"checks: {next((pair for pair in pairs if pair[0] != pair[1]), (len(found), len(found_too)))}"
    return "same"


def _found(pattern: Pattern) -> list[object]:
    return [(each.code, str(each.verdict), each.measured, each.wanted) for each in run_checks(pattern)]


def _altered(pattern: Pattern, name: str, options: Mapping[str, Value]) -> tuple[Pattern | None, str]:
    try:
        return apply_step(pattern, sample(name, options)), ""
    except TrueseamError as error:
        return None, str(error)
    except Exception as error:  # what is left to do is told to the end
        return None, f"not even refused: {error!r}"


_CHART = "size 92"
BASES = (_CHART, *NAMES)


def base_pattern(name: str) -> Pattern:
    """The dress of the chart, or an example as it is with all of its steps."""
    return sized(92) if name == _CHART else example_pattern(name)


def _main(asked: Sequence[str]) -> None:
    tally: Counter[str] = Counter()
    for base in map(base_pattern, BASES[:1] if asked else BASES):
        for name in asked or SAMPLES:
            for naming in NAMINGS:
                for options in SAMPLES[name]:
                    found = compared(base, name, options, naming)
                    tally[found.outcome if found.outcome in ALIKE else "different"] += 1
                    if found.outcome not in ALIKE:
                        print(f"{found.pattern} | {name} {dict(options)} | {naming} | {found.outcome}")
    print(f"{sum(tally.values())} tried: {', '.join(f'{count} {word}' for word, count in tally.items())}")


if __name__ == "__main__":
    _main(sys.argv[1:])
