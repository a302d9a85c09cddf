"""Parting and joining the edges of a piece, and carrying what refers to them: seams, measurements, notches.

A dart that is let into an edge parts it in two, and one that is taken out joins two again. Whoever does that says of
which stretches of the old edges each new edge is made; everything else follows from that.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from drafting.errors import NotAPattern
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import (
    Along,
    Edge,
    EdgeRef,
    Measure,
    Notch,
    Pattern,
    Piece,
    Seam,
    Station,
    Tape,
    from_start,
    with_pieces,
)

__all__ = ["Fragment", "Made", "joined_name", "part_name", "renamed_notches", "whole", "with_parted"]

_AT = " at "


@dataclass(frozen=True, slots=True)
class Fragment:
    """A stretch of an edge as it was: from `low` to `high` mm from its start."""

    edge: str
    low: float
    high: float

    @property
    def long(self) -> float:
        """Its length, mm."""
        return self.high - self.low


Made = Mapping[str, tuple[Fragment, ...]]
"""The stretches of the old edges that each new edge is made of, in outline order."""


def whole(edge: Edge) -> tuple[Fragment, ...]:
    """An edge as the one stretch of itself."""
    return (Fragment(edge.name, 0.0, edge.length),)


def part_name(base: str, beside: Edge, dart: str) -> str:
    """What a part of an edge is called: after the edge that lies at its other end.

    "side seam" has the parts "side seam at armhole" and "side seam at waist". A part between two darts is called after
    the other of them, `dart`.
    """
    return f"{base}{_AT}{dart or _short(beside.name)}"


def joined_name(one: str, other: str) -> str | None:
    """What two parts of one edge are called when they are joined again; None where they are not parts of one."""
    base, cut, _ = one.rpartition(_AT)
    return base if cut and base == other.rpartition(_AT)[0] else None


def with_parted(pattern: Pattern, before: Piece, after: Piece, made: Made) -> Pattern:
    """The pattern with a piece whose edges were parted or joined in the place of what it was.

    Its seams and its measurements run over the same cloth as before. Raises NotAPattern where two edges were joined
    that are not sewn one after the other to the same partner.
    """
    pieces = with_pieces(replace(pattern, seams=(), measures=()), after).pieces
    atoms = {(fragment.edge, fragment.low): name for name, parts in made.items() for fragment in parts}
    seams = tuple(_seam(seam, before.name, made, atoms) for seam in pattern.seams)
    measures = tuple(_measure(measure, before.name, made) for measure in pattern.measures)
    return replace(pattern, pieces=pieces, seams=seams, measures=measures)


def renamed_notches(before: Piece, made: Made) -> tuple[Notch, ...]:
    """The notches of a piece at the same places of the same cloth, counted from the ends they were counted from."""
    return tuple(_notch(before, notch, made) for notch in before.notches)


def _short(name: str) -> str:
    """What an edge's neighbours are called after it: "waist at side" is "waist", "side seam" is "side"."""
    plain = name.partition(_AT)[0].partition(",")[0]
    first, _, rest = plain.partition(" ")
    return first if first == "centre" or rest in ("seam", "opening") else plain


def _seam(seam: Seam, piece: str, made: Made, atoms: Mapping[tuple[str, float], str]) -> Seam:
    if not any(ref.piece == piece for ref in (*seam.a, *seam.b)):
        return seam
    sides = [_run(seam.name, run, piece, made, atoms) for run in (seam.a, seam.b)]
    return replace(seam, a=sides[0], b=sides[1])


def _run(
    seam: str, run: Sequence[EdgeRef], piece: str, made: Made, atoms: Mapping[tuple[str, float], str]
) -> tuple[EdgeRef, ...]:
    found: list[EdgeRef] = []
    met: dict[str, list[tuple[str, float]]] = {}
    for ref in run:
        if ref.piece != piece:
            found.append(ref)
            continue
        parts = sorted(key for key in atoms if key[0] == ref.edge)
        for key in reversed(parts) if ref.backward else parts:
            name = atoms[key]
            if name not in met:
                found.append(EdgeRef(piece, name, ref.backward))
            met.setdefault(name, []).append(key)
    for name, keys in met.items():
        if len(keys) != len(made[name]):
            raise NotAPattern(piece, f'"{name}" would be sewn only in part in the seam "{seam}"')
    return tuple(found)


def _measure(measure: Measure, piece: str, made: Made) -> Measure:
    tape: list[Tape] = []
    for part in measure.tape:
        if isinstance(part, Along) and part.piece == piece:
            names = [name for name, parts in made.items() if any(each.edge == part.edge for each in parts)]
            laid = [replace(part, edge=name) for name in names]
            tape += [new for new in laid if new not in tape]
        else:
            tape.append(part)
    return replace(measure, tape=tuple(tape))


def _notch(before: Piece, notch: Notch, made: Made) -> Notch:
    station = notch.station
    at = from_start(before.edge(station.edge), station)
    for name, offset, fragment, rest in _laid_out(made):
        if fragment.edge == station.edge and fragment.low - SAME_PLACE <= at <= fragment.high + SAME_PLACE:
            if station.end == "start":
                along = offset + station.at - fragment.low
            else:
                along = rest + station.at - (before.edge(station.edge).length - fragment.high)
            return replace(notch, station=Station(name, along, station.end))
    return notch


def _laid_out(made: Made) -> Iterator[tuple[str, float, Fragment, float]]:
    """Every fragment with its new edge, what lies before it there, and what lies after it, mm."""
    for name, parts in made.items():
        total, gone = sum(part.long for part in parts), 0.0
        for part in parts:
            yield name, gone, part, total - gone - part.long
            gone += part.long
