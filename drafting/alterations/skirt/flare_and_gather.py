"""A flared skirt and a gathered one.

The trade's way. Flare from a dart: close it about its point, and the hem opens below it, by w (T - l) / l for a dart of
width w and length l on a skirt of length T (plane geometry: 2 by 12 cm on 60 cm gives 8 cm). More flare: slash from hem
to waist at several places and spread the hem, never all at the side (a teaching page on slash and open: 6 in over 3
slashes are 2 in at each). Gathers: slash all the way, spread evenly, leave the darts unsewn; 1.5 to 3 times the seam it
joins, 2 being usual (a sewing teacher on ruffles).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from typing import ClassVar, Final

from drafting.alterations.alteration import Alteration, Promise
from drafting.alterations.alteration_table import Entry, Layer
from drafting.alterations.earlier_steps import in_the_way, not_whole
from drafting.alterations.finishes.button_stand import gathers_beyond_stands
from drafting.alterations.one_piece import ONLY, taking_part
from drafting.alterations.promises import finer_length, lengths_kept, places_kept, run_surplus, surplus_becomes
from drafting.alterations.skirt.skirt_fullness import (
    darts_closed,
    flared,
    gained_at_hem,
    gathered_to,
    let_out_length,
    waist_darts,
    waist_length,
)
from drafting.alterations.skirt.skirt_quarter import Quarter, quarters
from drafting.alterations.techniques.marks.gather_marks import notches_evenly, without_stretches
from drafting.alterations.techniques.marks.seam_ease import gathered, with_ease
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import SAME_PLACE, SOLVED
from drafting.pattern import (
    Along,
    EdgeRef,
    Measure,
    Pattern,
    Piece,
    Place,
    Seam,
    Tape,
    edge_at,
    edges_at,
    walk,
    with_pieces,
)
from drafting.reading.options import Option

__all__ = ["FLARE_SKIRT", "GATHER_SKIRT", "FlareSkirt", "GatherSkirt"]

_DARTS, _SLASHES = "darts", "slashes"
_MOST_FLARE = 6000.0
_MOST_CUTS = 20
_LEAST_RATIO, _MOST_RATIO = 1.1, 4.0
_LEAST_MORE = 0.005  # of a ratio: less than that more would be spread by less than a pencil line at each slash


@dataclass(frozen=True, slots=True)
class FlareSkirt(Alteration):
    """Flare a skirt, by closing its waist darts or by slashes that hang together at the waist.

    hem:  how much wider the hem is to be, mm round the whole skirt; None to close the darts altogether
    how:  "darts" or "slashes", by which darts are closed too where the hem is to be wider than that makes it
    cuts: how many slashes in each quarter
    only: the one piece to be flared; empty for all
    """

    name: ClassVar[str] = "flare skirt"
    lesser: ClassVar[tuple[str, ...]] = ("hem",)

    hem: float | None = None
    how: str = _DARTS
    cuts: float = 3.0
    only: str = ""

    def apply(self, pattern: Pattern) -> Pattern:
        found = _found(self, pattern)
        return with_pieces(pattern, *_made(self, found, _flare(self, found)))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        found = _found(self, pattern)
        for quarter in found:
            yield from lengths_kept(quarter.piece, (quarter.side.name, *(edge.name for edge in quarter.sewn)))
            yield from places_kept(quarter.piece, _at_centre(quarter))
        if self.hem is not None:
            yield Promise("the hem all round", partial(_hems, found), self.hem)
        yield from _others_kept(pattern, found)


FLARE_SKIRT: Final = Entry(
    FlareSkirt,
    Layer.FULLNESS,
    "Flare a skirt by closing its waist darts, or by slashing it from the hem and spreading it there.",
    "the waist seam, edge by edge; the side seams; the centre line; all but the skirt",
    "the hem and its allowance, which follow the flare",
    (
        Option(
            "hem",
            "length",
            "how much wider all round the hem; left out, what closing the darts gives",
            1.0,
            _MOST_FLARE,
            default=None,
        ),
        Option(
            "how",
            "choice",
            "what is opened; slashed wider than its darts give, it loses these",
            default=_DARTS,
            choices=(_DARTS, _SLASHES),
        ),
        Option("cuts", "number", "how many slashes in each quarter", 1, _MOST_CUTS, default=3.0),
        ONLY,
    ),
    also=("flare", "flared skirt", "A line"),
)


@dataclass(frozen=True, slots=True)
class GatherSkirt(Alteration):
    """Gather a skirt into its waist: darts let out, every quarter slashed and spread evenly from waist to hem.

    ratio: how many times as long as the waist it is sewn to the waist of the skirt is cut
    cuts:  how many slashes in each quarter
    only:  the one piece to be gathered; empty for all
    """

    name: ClassVar[str] = "gather skirt"

    ratio: float = 2.0
    cuts: float = 4.0
    only: str = ""

    def apply(self, pattern: Pattern) -> Pattern:
        found = _found(self, pattern)
        _accept_ratio(self, pattern, found)
        totals = {quarter.piece.name: self.ratio * _joined(pattern, quarter) for quarter in found}
        pieces = _made(self, found, lambda q: gathered_to(q, int(self.cuts), totals[q.piece.name]))
        shares = {q.piece.name: totals[q.piece.name] / _sewn_length(pattern, q) for q in found}
        altered = with_pieces(pattern, *pieces)
        measures = tuple(_gathered_in(measure, found, shares) for measure in altered.measures)
        altered = replace(altered, measures=measures)
        for quarter in found:
            seam = _waist_seam(pattern, quarter)
            if seam is not None:
                altered = without_stretches(altered, seam)
                altered = with_ease(altered, seam.name, gathered(run_surplus(altered, seam)))
                altered = notches_evenly(altered, altered.seam(seam.name))
        return gathers_beyond_stands(altered)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        found = _found(self, pattern)
        for quarter in found:
            yield from lengths_kept(quarter.piece, (quarter.side.name,))
            yield from places_kept(quarter.piece, _at_centre(quarter))
            seam = _waist_seam(pattern, quarter)
            if seam is not None:
                surplus = self.ratio * _joined(pattern, quarter) - finer_length(pattern, _waist_run(pattern, seam))
                yield surplus_becomes(pattern, seam, surplus)
        yield from _others_kept(pattern, found)


GATHER_SKIRT: Final = Entry(
    GatherSkirt,
    Layer.FULLNESS,
    "Gather a skirt into its waist: its darts let out, every quarter spread evenly from waist to hem.",
    "the side seams; the centre line; all but the skirt",
    "the gathers declared for the waist seam, and its notches",
    (
        Option("ratio", "number", "how many times the waist it is sewn to", _LEAST_RATIO, _MOST_RATIO, default=2.0),
        Option("cuts", "number", "how many slashes in each quarter", 1, _MOST_CUTS, default=4.0),
        ONLY,
    ),
    also=("gathers", "gathered skirt"),
)


def _found(step: FlareSkirt | GatherSkirt, pattern: Pattern) -> tuple[Quarter, ...]:
    """The quarters that take part. Raises StepRefused for options that make no sense."""
    if step.cuts != int(step.cuts) or not 1 <= step.cuts <= _MOST_CUTS:
        raise StepRefused(step.name, f"cuts: {step.cuts:g} is no whole number from 1 to {_MOST_CUTS}")
    try:
        found = quarters(pattern)
    except NotAPattern as error:
        raise StepRefused(step.name, _why_not(pattern.pieces, error)) from error
    if not found:
        raise StepRefused(step.name, _no_quarter(pattern))
    if isinstance(step, GatherSkirt):
        if not _LEAST_RATIO <= step.ratio <= _MOST_RATIO:
            raise StepRefused(step.name, f"ratio: {step.ratio:g} is not from {_LEAST_RATIO:g} to {_MOST_RATIO:g}")
    elif step.how not in (_DARTS, _SLASHES):
        raise StepRefused(step.name, f'how: "{step.how}" is neither "{_DARTS}" nor "{_SLASHES}"')
    names = taking_part(step.name, step.only, [quarter.piece.name for quarter in found])
    return tuple(quarter for quarter in found if quarter.piece.name in names)


def _no_quarter(pattern: Pattern) -> str:
    """Why no piece of the pattern is a quarter of a skirt."""
    for piece in pattern.pieces:
        if edge_at(piece, Place.HEM) and edge_at(piece, Place.WAIST) and len(edges_at(piece, Place.SIDE)) != 1:
            return not_whole(piece, Place.SIDE) or f'"{piece.name}" has no {Place.SIDE}'
    return "there is no skirt: no piece has a waist, a side seam and a hem"


def _why_not(pieces: Iterable[Piece], error: NotAPattern) -> str:
    """Why a quarter cannot be flared or gathered: what an earlier step has made of it, else the bare reason."""
    piece = next((piece for piece in pieces if piece.name == error.where), None)
    return (in_the_way(piece) if piece else "") or str(error)


def _accept_ratio(step: GatherSkirt, pattern: Pattern, found: tuple[Quarter, ...]) -> None:
    """Raise StepRefused where the waist is as long as that already, or where something beside the skirt lies in it."""
    try:
        least = max(let_out_length(quarter, int(step.cuts)) / _joined(pattern, quarter) for quarter in found)
    except NotAPattern as error:
        raise StepRefused(step.name, _why_not((quarter.piece for quarter in found), error)) from error
    if step.ratio < least + _LEAST_MORE:
        raise StepRefused(
            step.name,
            f"with its darts let out its waist is {least:.2f} times as long already; ratio = "
            f"{math.ceil(100.0 * (least + _LEAST_MORE)) / 100.0:.2f} or more",
        )
    for quarter in found:
        edges = {(quarter.piece.name, edge.name) for edge in quarter.sewn}
        for seam in pattern.seams:
            run = {(ref.piece, ref.edge) for ref in (*seam.a, *seam.b)}
            if edges & run and _waist_seam(pattern, quarter) is None:
                other = next(
                    iter(sorted(edge for _, edge in {(ref.piece, ref.edge) for ref in seam.a} - edges)), seam.name
                )
                plain = f'"{other}" lies in the {seam.name} as well, and gathers cannot cross that'
                part = in_the_way(quarter.piece) if edge_at(quarter.piece, Place.PRINCESS) else ""
                raise StepRefused(step.name, part or f"{plain}; gather the other half of the skirt: only = ...")


def _flare(step: FlareSkirt, found: tuple[Quarter, ...]) -> Callable[[Quarter], Piece]:
    """How each quarter is flared."""
    if step.hem is not None and not SAME_PLACE < step.hem <= _MOST_FLARE:
        raise StepRefused(step.name, f"hem: {step.hem / 10:.1f} cm is not from 0 to {_MOST_FLARE / 10:.0f} cm")
    if step.how == _SLASHES:
        if step.hem is None:
            raise StepRefused(step.name, 'say by how much: hem = "30 cm"')
        by = step.hem / _times(found)
        # a skirt so wide that its darts can be closed into it has none (common practice)
        closing = all(gained_at_hem(quarter, 1.0) <= by for quarter in found)
        return lambda quarter: flared(quarter, int(step.cuts), by, closing=closing)
    try:
        most = 2.0 * sum(gained_at_hem(quarter, 1.0) for quarter in found)
        if not any(waist_darts(quarter) for quarter in found):
            raise StepRefused(step.name, f'there is no dart in its waist to close; how = "{_SLASHES}"')
        share = 1.0
        if step.hem is not None and step.hem < most - SAME_PLACE:
            wanted = step.hem
            share = solve(
                lambda share: 2.0 * sum(gained_at_hem(quarter, share) for quarter in found) - wanted,
                wanted / most,
                0.01,
            )
        elif step.hem is not None and step.hem > most + SAME_PLACE:
            raise StepRefused(
                step.name,
                f"closing its darts opens the hem by {most / 10:.1f} cm and no more; leave hem out, or slash it "
                f'instead: how = "{_SLASHES}"',
            )
    except NotAPattern as error:
        raise StepRefused(step.name, str(error)) from error
    return lambda quarter: darts_closed(quarter, share)


def _hems(found: tuple[Quarter, ...], pattern: Pattern) -> float:
    """The length of the hems all round, mm."""
    lengths = (pattern.piece(q.piece.name).edge(q.hem_name).length_within(SOLVED / 4) for q in found)
    return 2.0 * sum(lengths)


def _times(found: tuple[Quarter, ...]) -> float:
    """How many quarters there are in the whole skirt: every piece is cut twice or on the fold."""
    return 2.0 * len(found)


def _made(
    step: FlareSkirt | GatherSkirt, found: tuple[Quarter, ...], make: Callable[[Quarter], Piece]
) -> tuple[Piece, ...]:
    try:
        return tuple(make(quarter) for quarter in found)
    except NotAPattern as error:
        raise StepRefused(step.name, _why_not((quarter.piece for quarter in found), error)) from error


def _at_centre(quarter: Quarter) -> tuple[str, ...]:
    """The edges that neither belong to the waist, nor are the side seam or the hem."""
    moved = {quarter.side.name, quarter.hem_name, *(edge.name for edge in quarter.waist)}
    return tuple(edge.name for edge in quarter.piece.edges if edge.name not in moved)


def _others_kept(pattern: Pattern, found: tuple[Quarter, ...]) -> Iterator[Promise]:
    taking_part = {quarter.piece.name for quarter in found}
    for piece in pattern.pieces:
        if piece.name not in taking_part:
            yield from places_kept(piece, (edge.name for edge in piece.edges))


def _waist_seam(pattern: Pattern, quarter: Quarter) -> Seam | None:
    """The seam by which the waist of this quarter is sewn to something, the skirt's side first.

    A button stand may lie in it as well, as long as what it meets.
    """
    edges = {(quarter.piece.name, edge.name) for edge in quarter.sewn}
    for seam in pattern.seams:
        run = {(ref.piece, ref.edge) for ref in seam.a}
        beside = [ref for ref in seam.a if (ref.piece, ref.edge) not in edges]
        if edges <= run and all(ref.piece == quarter.piece.name and _is_stand(pattern, ref) for ref in beside):
            return seam
    return None


def _waist_run(pattern: Pattern, seam: Seam) -> tuple[EdgeRef, ...]:
    """What the waist of a quarter is sewn to, the button stand left out."""
    return tuple(ref for ref in seam.b if not _is_stand(pattern, ref))


def _is_stand(pattern: Pattern, ref: EdgeRef) -> bool:
    return pattern.piece(ref.piece).edge(ref.edge).place is Place.STAND


def _joined(pattern: Pattern, quarter: Quarter) -> float:
    """The length that the waist is gathered to: of what it is sewn to when that is drawn up, else its own, mm."""
    seam = _waist_seam(pattern, quarter)
    if seam is None:
        return waist_length(quarter)
    return finer_length(pattern, _waist_run(pattern, seam)) - walk(pattern, seam).up_b.total


def _sewn_length(pattern: Pattern, quarter: Quarter) -> float:
    """The length of its own waist when what a dart has left to be gathered in it is drawn up, mm."""
    seam = _waist_seam(pattern, quarter)
    return waist_length(quarter) - (0.0 if seam is None else walk(pattern, seam).up_a.total)


def _gathered_in(measure: Measure, found: tuple[Quarter, ...], shares: dict[str, float]) -> Measure:
    """A measurement along the waist as it is once the gathers are drawn in, which take up the added length.

    Laid along all of the waist, that too which a dart left to be gathered.
    """
    tape: list[Tape] = []
    for part in measure.tape:
        quarter = next((q for q in found if isinstance(part, Along) and q.piece.name == part.piece), None)
        names = () if quarter is None else tuple(edge.name for edge in quarter.sewn)
        if not isinstance(part, Along) or part.edge not in names:
            tape.append(part)
            continue
        times = part.times / shares[part.piece]
        laid = {each.edge for each in measure.tape if isinstance(each, Along) and each.piece == part.piece}
        first = next(name for name in names if name in laid) == part.edge
        tape += [Along(part.piece, name, times) for name in names if first and name not in laid]
        tape.append(replace(part, times=times))
    return replace(measure, tape=tuple(tape))
