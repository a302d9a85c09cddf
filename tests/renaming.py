"""Every piece, edge, dart, notch, line, point and seam given another name, and whether anything but names differs then.

Two ways of naming: in another script ("ж7"), and crosswise, where every part has the name of another of its kind, so
that whoever goes by a word goes wrong.

    python -m tests.renaming                what differs, pattern by pattern
    python -m tests.renaming "full sleeve"  of these alterations alone
    python -m tests.renaming --every 8      of every eighth case; --from 3 begins with the third

Exit status 1 where anything differs or breaks off.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from enum import Enum
from functools import cache
from itertools import islice, product

from drafting.alterations import apply_step
from drafting.checks import Checked, check_pattern
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
    "Names",
    "Pair",
    "base_pattern",
    "cases",
    "compared",
    "first_difference",
    "main",
    "names_for",
    "pair",
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
class Pair:
    """A pattern and the same one with other names, and what the checks found on both.

    A step is taken on both as they are, and not before their finishing steps: the names are those of this state.
    """

    base: Pattern
    other: Pattern
    names: Names
    known: tuple[Checked, Checked]


def pair(base: Pattern, naming: str) -> Pair:
    """The pattern beside itself renamed."""
    base = replace(base, unfinished=None)
    names = names_for(base, NAMINGS[naming])
    other = renamed(base, names)
    return Pair(base, other, names, (check_pattern(base), check_pattern(other)))


def compared(of: Pair, name: str, options: Mapping[str, Value]) -> str:
    """What an alteration makes of both, and what the checks find on what it made: one of `ALIKE`, or what differs.

    Never raises: what breaks off is told, and the rest can be tried.
    """
    told = {key: of.names.option(options, key) for key in options}
    one, refused = _altered(of.base, name, options)
    two, refused_too = _altered(of.other, name, told)
    if one is None or two is None:
        return "refused alike" if one is two else f"refused of one alone: {refused or refused_too}"
    try:
        if difference := first_difference(plain(one), plain(two)):
            return f"pattern{difference}"
        found, found_too = (_found(each, known) for each, known in zip((one, two), of.known, strict=True))
    except Exception as error:  # what is left to do is told to the end
        return f"broken off: {error!r}"
    if found != found_too:
        pairs = zip(found, found_too, strict=False)
        return f"checks: {next((each for each in pairs if each[0] != each[1]), (len(found), len(found_too)))}"
    return "same"


def _found(pattern: Pattern, known: Checked) -> list[object]:
    results = check_pattern(pattern, known=known).results
    return [(each.code, str(each.verdict), each.measured, each.wanted) for each in results]


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


def cases(only: Sequence[str] = ()) -> Iterator[tuple[str, str, str, Mapping[str, Value]]]:
    """Every pattern, naming, alteration and its options; of the alterations named only, where some are named."""
    tried = [(name, options) for name in only or SAMPLES for options in SAMPLES[name]]
    return ((base, naming, *each) for base, naming, each in product(BASES, NAMINGS, tried))


@cache
def _pair(base: str, naming: str) -> Pair:
    return pair(base_pattern(base), naming)


def main(words: Sequence[str] | None = None) -> int:
    """Compare what the words ask for, print what differs as it is found; the exit status."""
    about = (__doc__ or "").partition("\n")[0]
    parser = argparse.ArgumentParser(prog="python -m tests.renaming", description=about)
    parser.add_argument("only", nargs="*", help="alterations")
    parser.add_argument("--every", type=int, default=1, metavar="N", help="every Nth case")
    parser.add_argument("--from", type=int, default=1, metavar="N", dest="first", help="the case to begin with")
    asked = parser.parse_args(words)
    tally: Counter[str] = Counter()
    for base, naming, name, options in islice(cases(asked.only), asked.first - 1, None, asked.every):
        outcome = compared(_pair(base, naming), name, options)
        tally[outcome if outcome in ALIKE else "different"] += 1
        if outcome not in ALIKE:
            print(f"{base} | {name} {dict(options)} | {naming} | {outcome}", flush=True)
    print(f"{sum(tally.values())} tried: {', '.join(f'{count} {word}' for word, count in tally.items())}")
    return int(tally["different"] > 0)


if __name__ == "__main__":
    sys.exit(main())
