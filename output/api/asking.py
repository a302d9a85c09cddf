"""What a draft is asked: do its checks pass, what does it measure, how long are its edges, what did a step change."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Generic, TypeVar, overload

from blocks.remedies.block_at_fault import Ordered
from blocks.remedies.step_at_fault import checked_after
from drafting.alterations import Alteration
from drafting.checks import Checked, Result, Verdict, check_pattern, worst
from drafting.dataclass import dataclass
from drafting.errors import UnknownName
from drafting.pattern import Finished, Fullness, Piece, Role, finished, run_total
from drafting.pattern.compare import SHOWS, Moved, moved
from drafting.pattern.gathered import held_in
from drafting.reading.units import length_text
from output.api.making import Draft, ReadPattern, accept, accept_drawn
from output.drawings.pictures import changes_picture
from output.report.before_after import moved_table, redrawn
from output.report.table_html import passage_html, table_html
from output.report.table_text import lines_of
from output.report.tables import Column, Passage, Row, Table, check_tables, counted, fault_lines, finished_table

__all__ = [
    "Checks",
    "Comparison",
    "EdgeLength",
    "Rows",
    "SewnTo",
    "check",
    "compare",
    "edges",
    "measurements",
]

T = TypeVar("T")

_WIDTH = 98
"""Letters in a line of a table as text."""


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Rows(Sequence[T], Generic[T]):
    """Values that show as a table: as text where they are printed, as HTML in a notebook.

    A row is got by its number, or by its name.
    """

    rows: tuple[T, ...]
    shown: Callable[[], tuple[Table | Passage, ...]]
    called: Callable[[T], str]

    def __len__(self) -> int:
        return len(self.rows)

    @overload
    def __getitem__(self, place: int | str) -> T: ...
    @overload
    def __getitem__(self, place: slice) -> tuple[T, ...]: ...
    def __getitem__(self, place: int | str | slice) -> T | tuple[T, ...]:
        if not isinstance(place, str):
            return self.rows[place]
        for row in self.rows:
            if self.called(row) == place:
                return row
        raise UnknownName("row", place, [self.called(row) for row in self.rows])

    def __repr__(self) -> str:
        return "\n".join(line.text for line in lines_of(self.shown(), _WIDTH))

    def _repr_html_(self) -> str:
        return "\n".join(_html(self.shown()))


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Checks(Rows[Result]):
    """What the checks found. A row is called by its check and its place: "seam length, shoulder".

    found: the results as the checks gave them and what they looked at, by which the next check need look at less
    """

    found: Checked

    @property
    def verdict(self) -> Verdict:
        """The gravest of all verdicts: "pass", "warn", "fail" or "error"."""
        return worst(self.rows)

    @property
    def faults(self) -> tuple[Result, ...]:
        """What failed or was warned of, each with its remedy."""
        return tuple(each for each in self.rows if each.verdict not in (Verdict.PASS, Verdict.NOTHING))


@dataclass(frozen=True, slots=True, repr=False, eq=False)
class Comparison(Rows[Moved]):
    """What differs between two drafts: every length that moved, and every piece before under after."""

    title: str
    pieces: tuple[tuple[Piece | None, Piece | None], ...]

    def _repr_svg_(self) -> str:
        return changes_picture(self.title, self.pieces)

    def _repr_html_(self) -> str:
        return "\n".join([self._repr_svg_(), *_html(self.shown())])


@dataclass(frozen=True, slots=True)
class SewnTo:
    """What an edge is sewn to: in which seam, to which pieces.

    own, other: how long the whole run that the edge is part of is, and what it is sewn to, mm
    held:       "eased" or "gathered", of the longer of the two; "" where they are as long as each other
    """

    seam: str
    pieces: tuple[str, ...]
    own: float
    other: float
    held: str


@dataclass(frozen=True, slots=True)
class EdgeLength:
    """How long an edge of a piece is, mm; what it is there for: "seam", "fold", "hem", "opening", "dart leg".

    sewn: every seam that it is in
    """

    piece: str
    edge: str
    length: float
    role: Role
    sewn: tuple[SewnTo, ...] = ()


def check(drafted: Draft | ReadPattern, *, after: Checks | None = None) -> Checks:
    """What the checks find; a failed one says which step it came with, and how much less of that passes.

    after: what they found on another state of the same garment. What has not changed since is not looked at again, so
           that it goes quickly while one number is tried after another; what comes out is the same
    """
    accept_drawn(drafted)
    accept("check, after", after, (Checks, type(None)), "what an earlier check(...) found")
    found = check_pattern(drafted.pattern, known=after.found if after else None)
    steps, sources, ordered = _judged_by(drafted)
    results = checked_after(drafted.stages, steps, sources=sources, unit=drafted.unit, last=found, ordered=ordered)

    def shown() -> tuple[Table | Passage, ...]:
        first = Passage("Checks", (counted(results), *fault_lines(results, drafted.unit)), worst(results))
        return first, *check_tables(results, drafted.unit)

    return Checks(results, shown, lambda result: f"{result.check}, {result.where}", found)


def _judged_by(drafted: Draft | ReadPattern) -> tuple[tuple[Alteration, ...], tuple[str, ...], Ordered | None]:
    """The steps as they were taken, where each is written, and the order it was drafted from, where that is known."""
    if isinstance(drafted, ReadPattern):
        return drafted.taken, (), None
    taken = drafted.taken
    return taken.steps, taken.sources, Ordered(taken, drafted.prepared, by_layer=drafted.garment.order == "by layer")


def measurements(drafted: Draft | ReadPattern) -> Rows[Finished]:
    """What the finished garment measures against the body, mm. A row is called as it is shown: "waist"."""
    accept_drawn(drafted)
    pattern = drafted.pattern
    return Rows(finished(pattern), lambda: (finished_table(pattern, [drafted.unit]),), lambda each: each.name)


def edges(drafted: Draft | ReadPattern) -> Rows[EdgeLength]:
    """Every edge of every piece: its length, mm, what it is sewn to. A row is called by both names: "sleeve, wrist"."""
    accept_drawn(drafted)
    sewn = _sewn_to(drafted)
    found = tuple(
        EdgeLength(piece.name, edge.name, edge.length, edge.role, tuple(sewn.get((piece.name, edge.name), ())))
        for piece in drafted.pattern.pieces
        for edge in piece.edges
    )
    columns = (Column("piece"), Column("edge"), Column("length", True), Column("sewn as"))
    rows = tuple(
        Row((each.piece, each.edge, length_text(each.length, drafted.unit), each.role.value)) for each in found
    )
    return Rows(found, lambda: (Table("Edges", columns, rows),), lambda each: f"{each.piece}, {each.edge}")


def _sewn_to(drafted: Draft | ReadPattern) -> dict[tuple[str, str], list[SewnTo]]:
    pattern = drafted.pattern
    gathered = {held.seam for held in held_in(pattern) if held.kind is Fullness.GATHERED}
    found: dict[tuple[str, str], list[SewnTo]] = {}
    for seam in pattern.seams:
        a, b = (run_total(pattern, run) for run in (seam.a, seam.b))
        held = "" if abs(a - b) < SHOWS else "gathered" if seam.name in gathered else "eased"
        for run, other, own, there in ((seam.a, seam.b, a, b), (seam.b, seam.a, b, a)):
            pieces = tuple(dict.fromkeys(ref.piece for ref in other))
            for ref in run:
                found.setdefault((ref.piece, ref.edge), []).append(SewnTo(seam.name, pieces, own, there, held))
    return found


def compare(before: Draft | ReadPattern, after: Draft | ReadPattern) -> Comparison:
    """What differs: every length that moved, mm, and the pieces that were redrawn, one state over the other."""
    accept_drawn(before)
    accept_drawn(after)
    changes = moved(before.pattern, after.pattern)
    table = moved_table(changes, after.unit)
    pairs = tuple(redrawn(before.pattern, after.pattern))
    return Comparison(changes, lambda: (table,), lambda each: each.name, after.pattern.title, pairs)


def _html(shown: Sequence[Table | Passage]) -> Iterator[str]:
    for part in shown:
        yield from table_html(part, level=4) if isinstance(part, Table) else passage_html(part, level=4)
