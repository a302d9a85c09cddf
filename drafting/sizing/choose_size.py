"""Which size of a chart for this body, this cloth and this kind of garment: one answer, with what it rests on."""

from __future__ import annotations

from typing import Final

from drafting.body.complete import Body, complete
from drafting.body.person import Person
from drafting.dataclass import dataclass
from drafting.errors import InputProblems, Problem
from drafting.fit.cloth import Cloth
from drafting.fit.cloth_table import cloth_meant
from drafting.fit.ease import Fit, choose_ease
from drafting.fit.least_ease import least_ease
from drafting.fit.thickness import taken_up
from drafting.sizing.chart_lengths import LengthChange, length_changes
from drafting.sizing.full_bust import BustShape, bust_shape
from drafting.sizing.garment_kinds import GarmentKind
from drafting.sizing.pattern_chart import BODY_OF, PatternChart
from drafting.sizing.side_seam_blend import MARGIN, Blend, blends
from drafting.sizing.size_level import SizeAt, SizeLevel, size_by_body, size_level

__all__ = ["SizeChoice", "Tape", "TooSmall", "choose_size"]

_RULING: Final = {"shoulder": "bust", "bust": "bust", "waist": "waist", "hip": "hip"}


@dataclass(frozen=True, slots=True)
class Tape:
    """One measurement of hers beside the chart's bodies: her length, mm, and where it falls among the sizes."""

    key: str
    mm: float
    at: SizeAt


@dataclass(frozen=True, slots=True)
class TooSmall:
    """A level at which even the largest size is too small. by: what it lacks round to what is wanted, mm."""

    place: str
    by: float

    @property
    def each_edge(self) -> float:
        """The same for each of the four side-seam edges, mm."""
        return self.by / 4.0


@dataclass(frozen=True, slots=True)
class SizeChoice:
    """The size to take, and what it rests on.

    fit:       how close she wants it; None for as the pattern is drawn
    size:      the one to take
    rules:     the level it was chosen at: "upper chest", "bust", "waist" or "hip"
    levels:    what is known of each level of this kind of garment, from above
    runner_up: the size that comes next; None where the chart has no other near
    tapes:     every measurement that was taken and that the chart has a row for
    length_size: of a child, the size that its height asks for; None for a woman, or where the chart has no heights
    shape:     how her bust stands to her upper chest beside the chart's; None for a child, or where it is not measured
    blends:    where the pattern goes over into another size
    unneeded:  the levels of another size at which no blend is needed
    lengths:   where to lengthen or shorten, and by how much
    """

    chart: PatternChart
    person: Person
    kind: GarmentKind
    cloth: Cloth
    fit: Fit | None
    size: str
    rules: str
    levels: tuple[SizeLevel, ...]
    runner_up: str | None
    tapes: tuple[Tape, ...]
    length_size: str | None
    shape: BustShape | None
    blends: tuple[Blend, ...]
    unneeded: tuple[str, ...]
    lengths: tuple[LengthChange, ...]

    def level(self, place: str) -> SizeLevel | None:
        """What is known of that level; None where this kind of garment has none there, or the chart no row."""
        return next((level for level in self.levels if level.place == place), None)

    def too_small(self) -> tuple[TooSmall, ...]:
        """The levels at which no size is large enough; where the chart tells no finished measure, by its bodies."""
        found = []
        for level in self.levels:
            if level.place not in self.kind.close or (level.place == "bust" and self.shape and self.shape.total):
                continue
            ease = self.ease_in(self.chart.sizes[-1], level.place)
            at = level.by_body
            if ease is not None and ease < level.least - MARGIN:
                found.append(TooSmall(level.place, level.wanted - ease))
            elif ease is None and at is not None and at.is_beyond and at.share > 1.0:
                found.append(TooSmall(level.place, level.body - self.chart.body_row(BODY_OF[level.place])[-1]))
        return tuple(found)

    def ease_in(self, size: str, place: str) -> float | None:
        """The ease she has in a size at a level, mm; None where the chart has no finished row there."""
        made = self.chart.finished_mm(size, place)
        return None if made is None else made - dict(self.person.measurements)[BODY_OF[place]]


def choose_size(
    chart: PatternChart, who: Person, kind: GarmentKind, cloth: Cloth, *, fit: Fit | None = None
) -> SizeChoice:
    """The size of a chart for a person, in this cloth, for this kind of garment.

    fit: how close she wants it; None for as the pattern is drawn, or regular where its chart does not tell that

    Raises InputProblems where the chart has no row for any level of it, or is for another kind of body.
    """
    _accept(chart, who, kind)
    body = complete(who)
    levels = _levels(chart, body, kind, cloth, fit)
    child = who.body != "woman"
    shape = None if child or kind.rules != "shoulder" else bust_shape(chart, who)
    ruling = _ruling(levels, kind)
    size, rules = ruling.pick or chart.sizes[0], ruling.place
    if shape is not None and shape.apart:
        size, rules = shape.size, "upper chest"
    tapes = tuple(Tape(key, mm, at) for key, mm in who.measurements if (at := size_by_body(chart, key, mm)) is not None)
    length_size = next((tape.at.size for tape in tapes if child and tape.key == "stature"), None)
    shaped = shape is not None and shape.apart
    made, unneeded = blends(chart, levels, kind, size, shaped=shaped)
    lengths = length_changes(chart, body, size, kind, length_size=length_size)
    runner_up = _runner_up(chart, ruling, size)
    return SizeChoice(
        chart, who, kind, cloth, fit, size, rules, levels, runner_up, tapes, length_size, shape, made, unneeded, lengths
    )


def _levels(chart: PatternChart, body: Body, kind: GarmentKind, cloth: Cloth, fit: Fit | None) -> tuple[SizeLevel, ...]:
    """The size at each level of a garment that the chart has a row for, in the order of the kind of garment."""
    ease, loose = choose_ease(cloth, body, fit=fit or "regular"), choose_ease(cloth, body, fit="loose")
    least = {limit.place: limit for limit in least_ease(cloth, body)}
    drawn_for = cloth_meant(chart.cloth)
    thickness = drawn_for.thickness if drawn_for is not None else cloth.thickness

    def beyond(place: str) -> float | None:
        """What her cloth takes up more than the one the pattern is drawn for."""
        more = taken_up(cloth.beneath_at(place), cloth.thickness) - taken_up(0.0, thickness)
        return more if fit is None else None

    return tuple(
        size_level(chart, place, body.mm(BODY_OF[place]), ease, least, loosest=loose.mm(place), as_drawn=beyond(place))
        for place in kind.levels
        if chart.body_row(BODY_OF[place]) or chart.finished_row(place)
    )


def _ruling(levels: tuple[SizeLevel, ...], kind: GarmentKind) -> SizeLevel:
    """The level that the size is chosen at; where the chart has no row for it, the first that it has one for."""
    wanted = _RULING[kind.rules]
    return next((level for level in levels if level.place == wanted), levels[0])


def _runner_up(chart: PatternChart, ruling: SizeLevel, size: str) -> str | None:
    """The neighbour that comes next: the one whose ease, or whose body, is the nearer."""
    near = [each for each in chart.neighbours(size) if each != size]
    eases = {each.size: each.ease for each in ruling.eases}
    if all(each in eases for each in near):
        return min(near, key=lambda each: (abs(eases[each] - ruling.wanted), -eases[each]), default=None)
    row = chart.body_row(BODY_OF[ruling.place])
    if not row:
        return near[-1] if near else None
    return min(near, key=lambda each: abs(row[chart.sizes.index(each)] - ruling.body), default=None)


def _accept(chart: PatternChart, who: Person, kind: GarmentKind) -> None:
    """Raise InputProblems where the chart is for another kind of body, or has no row that this garment is judged by."""
    problems = []
    if (chart.body_kind == "woman") != (who.body == "woman"):
        whom = "a woman" if chart.body_kind == "woman" else "a girl or a boy"
        mend = '`girls`, `boys` and `babies` are the charts for children; a chart of your own says for = "girl".'
        expected = f"{whom}: {chart.place} is for no other body"
        problems.append(Problem(who.place or who.name, f'body = "{who.body}"', expected, mend))
    if not any(chart.body_row(BODY_OF[place]) or chart.finished_row(place) for place in kind.levels):
        levels = ", ".join(kind.levels)
        problems.append(
            Problem(chart.place, f"no row for a {kind.name}", f"a row for at least one of its levels: {levels}")
        )
    if problems:
        raise InputProblems(problems)
