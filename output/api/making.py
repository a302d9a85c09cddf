"""From a person, blocks and steps to a draft: a garment as it was drafted and altered."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from itertools import takewhile
from pathlib import Path
from typing import TypeVar

from blocks import garment as garments
from blocks.begin_alike import begin_alike, ordered_alike
from blocks.block_table import BLOCKS, find_block
from blocks.from_file import garment_file
from blocks.garment import BlockOrder, Garment, Prepared
from blocks.step_offers import after_steps
from blocks.take_steps import stages
from drafting.alterations import ALTERATIONS, Alteration, apply_step, order_of_steps
from drafting.body.person import Person
from drafting.body.plausible import Doubt, doubts, drawn_out
from drafting.checks import CHECKS
from drafting.dataclass import dataclass
from drafting.errors import InputProblems, Problem, Setting, StepRefused, TrueseamError, UnknownName
from drafting.fit.ease import Ease
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Derived, Pattern, Piece
from drafting.reading.given import option_problems, path_problem, type_problem
from drafting.reading.options import Required, Value
from drafting.reading.read_table import refuse
from drafting.reading.units import FILE_UNITS
from output.api.nearest_value import nearest_tried
from output.api.shared_parts import sharing

__all__ = [
    "Draft",
    "DraftedPiece",
    "ReadPattern",
    "accept",
    "accept_draft",
    "accept_drawn",
    "alter",
    "alteration",
    "block",
    "draft",
    "draft_from",
    "part",
    "read_garment",
    "read_pattern",
    "undo",
]


@dataclass(frozen=True, slots=True, repr=False)
class Draft:
    """A garment, drafted and altered. In a notebook it draws its pieces side by side.

    garment:  what was ordered, with every step taken
    prepared: the wearer's lengths, measured and estimated, and the ease that was chosen
    stages:   the pattern as drafted, and after each step
    """

    garment: Garment
    prepared: Prepared
    stages: tuple[Pattern, ...]

    @property
    def pattern(self) -> Pattern:
        """The pattern after the last step."""
        return self.stages[-1]

    @property
    def taken(self) -> Garment:
        """The order with its steps as they were taken, one between each two stages."""
        return garments.in_order(self.garment)

    @property
    def unit(self) -> str:
        """What tables and drawings show lengths in: "cm", "in" or "mm", as the wearer works."""
        return self.garment.wearer.unit

    @property
    def ease(self) -> tuple[Ease, ...]:
        """The ease that the blocks were given, place by place, with whose figure it is."""
        places = {place for order in self.garment.blocks for place in order.block.places}
        return tuple(ease for ease in self.prepared.ease.values if ease.place in places)

    @property
    def doubts(self) -> tuple[Doubt, ...]:
        """The measured lengths that look like slips of the tape, the furthest off first."""
        return doubts(self.prepared.body, among=garments.needed(self.garment))

    @property
    def drawn_out(self) -> tuple[str, ...]:
        """A sentence where estimates reach beyond the bodies they come from."""
        return drawn_out(self.prepared.body, among=garments.needed(self.garment))

    @property
    def dated(self) -> str:
        """The date of the order; "" for none."""
        return self.garment.date.isoformat() if self.garment.date else ""

    @property
    def pieces(self) -> tuple[DraftedPiece, ...]:
        """Every piece, in the order of the pattern."""
        return tuple(DraftedPiece(self.pattern, piece, self.unit, self.dated) for piece in self.pattern.pieces)

    def piece(self, name: str) -> DraftedPiece:
        """The piece of that name. Raises UnknownName, with the nearest."""
        return DraftedPiece(self.pattern, self.pattern.piece(name), self.unit, self.dated)

    def __repr__(self) -> str:
        return _in_short("Draft", self.pattern)

    def _repr_svg_(self) -> str:
        from output.drawings.pictures import pieces_picture

        return pieces_picture(self.pattern)


@dataclass(frozen=True, slots=True, repr=False)
class ReadPattern:
    """A pattern that was read from its file, and altered since. In a notebook it draws its pieces side by side.

    stages: the pattern as it was read, and after each step
    unit:   what tables and drawings show lengths in: "cm", "in" or "mm"
    steps:  in the order in which they were given
    """

    stages: tuple[Pattern, ...]
    unit: str = "cm"
    steps: tuple[Alteration, ...] = ()

    @property
    def pattern(self) -> Pattern:
        """The pattern after the last step."""
        return self.stages[-1]

    @property
    def taken(self) -> tuple[Alteration, ...]:
        """The steps as they were taken, one between each two stages."""
        return tuple(self.steps[at] for at in order_of_steps(self.steps, ALTERATIONS))

    @property
    def pieces(self) -> tuple[DraftedPiece, ...]:
        """Every piece, in the order of the pattern."""
        return tuple(DraftedPiece(self.pattern, piece, self.unit) for piece in self.pattern.pieces)

    def piece(self, name: str) -> DraftedPiece:
        """The piece of that name. Raises UnknownName, with the nearest."""
        return DraftedPiece(self.pattern, self.pattern.piece(name), self.unit)

    def __repr__(self) -> str:
        return _in_short("Pattern", self.pattern)

    def _repr_svg_(self) -> str:
        from output.drawings.pictures import pieces_picture

        return pieces_picture(self.pattern)


_Drawn = TypeVar("_Drawn", Draft, ReadPattern)


def _in_short(what: str, pattern: Pattern) -> str:
    """A pattern on one line: its title, for whom it is, its pieces and the steps taken."""
    names = ", ".join(piece.name for piece in pattern.pieces)
    steps = ", ".join(step.alter for step in pattern.history)
    whom = f" for {pattern.wearer.name}" if pattern.wearer.name else ""
    return f'<{what} "{pattern.title}"{whom}: {names}; steps: {steps or "none"}>'


@dataclass(frozen=True, slots=True, repr=False)
class DraftedPiece:
    """One piece of a draft. In a notebook it draws itself."""

    pattern: Pattern
    piece: Piece
    unit: str = "cm"
    dated: str = ""

    @property
    def name(self) -> str:
        """What it is called."""
        return self.piece.name

    def __repr__(self) -> str:
        return f'<Piece "{self.name}": {", ".join(edge.name for edge in self.piece.edges)}>'

    def _repr_svg_(self) -> str:
        from output.drawings.pictures import pieces_picture

        return pieces_picture(self.pattern, [self.name])


def block(name: str, **options: Value) -> BlockOrder:
    """A block to draft, by its name in `BLOCKS`, with its options: `block("skirt", length=600)`.

    Raises UnknownName, with the nearest, for a block or an option that is not there, and InputProblems for a value
    that the option cannot have.
    """
    return BlockOrder(find_block(name, BLOCKS), options)


def part(name: str, *, called: str = "", **options: Value) -> Derived:
    """A part to be drawn to the garment, with its options: `part("waistband", height=35)`.

    Give it to `Garment` in `parts`; `called` is a name of its own, for one that can be ordered more than once. Raises
    as `block` does.
    """
    listed = find_part(name)
    accept(f"{name}, called", called, str, 'a name of its own: called = "front patch"')
    refuse(list(option_problems(name, listed.options, options)))
    return part_of(listed, options, called)


def read_garment(path: str | Path, *, wearer: Person | None = None) -> Garment:
    """The garment that a file orders, with its wearer. Raises InputProblems with everything that is wrong in it.

    wearer: whom it is for, in place of the person whose file it names
    """
    problem = path_problem("the garment", path, 'the path of a garment file: read_garment("ferry-dress.toml")')
    refuse([problem] if problem else [])
    accept("the garment, wearer", wearer, (Person, type(None)), "a person: read_person(...) or person(...)")
    return garment_file.read_garment(Path(path), wearer=wearer)


def read_pattern(path: str | Path, *, unit: str | None = None) -> ReadPattern:
    """The pattern in a pattern.json or a DXF of pieces, to be checked, altered, measured, drawn and written.

    unit: what it is shown in, "cm", "in" or "mm"; left out, what whoever drafted it works in, or centimetres
    Raises InputProblems for what cannot be read, StepRefused for a step in the file beside a DXF that makes no sense.
    """
    from output.api.pattern_reader import load_pattern

    if unit is not None and unit not in FILE_UNITS:
        raise UnknownName("unit", str(unit), FILE_UNITS)
    pattern = load_pattern(path)
    return ReadPattern((pattern,), unit or pattern.wearer.unit)


def draft(garment: Garment, *, after: Draft | None = None) -> Draft:
    """The garment drafted, and altered by its steps.

    after: an earlier draft of the same garment. What has not changed since is not drafted again; what comes out is
           the same

    Raises InputProblems for what cannot be used, CannotDraft where no pattern has all these measurements, and
    StepRefused for a step that makes no sense.
    """
    accept("draft", garment, Garment, 'a garment: Garment("Quay skirt", oda, [block("skirt")])')
    accept("draft, after", after, (Draft, type(None)), "an earlier draft of the same garment")
    alike = after is not None and ordered_alike(after.garment, garment)
    made = _altered(after, garment) if after is not None and alike else _with_steps_taken(_start(garment), garment)
    if after is None or made.pattern is after.pattern:
        return made
    return replace(made, stages=(*made.stages[:-1], sharing(made.pattern, after.pattern)))


def draft_from(garment: Garment, pattern: Pattern) -> Draft:
    """The garment altered by its steps, where its pattern before any step has been drafted already."""
    drafted = Draft(replace(garment, steps=(), sources=()), garments.prepare(garment), (pattern,))
    return _with_steps_taken(drafted, garment)


def _start(garment: Garment) -> Draft:
    """The garment drafted for its steps, none of which is taken yet."""
    prepared = garments.prepare(garment)
    return Draft(replace(garment, steps=(), sources=()), prepared, (garments.draft(garment, prepared),))


def alteration(name: str, **options: Value) -> Alteration:
    """An alteration by its name in `ALTERATIONS`, with its options: `alteration("hem", piece="sleeve", depth=30)`.

    Raises UnknownName, with the nearest, for a name or an option that is not there, and InputProblems for a value that
    an option cannot have, and for one that is missing.
    """
    found = ALTERATIONS.named(name)
    problems = [*option_problems(name, found.options, options)]
    missing = [each for each in found.options if isinstance(each.default, Required) and each.name not in options]
    problems += [Problem(f"{name}, {each.name}", "nothing", each.about) for each in missing]
    refuse(problems)
    return found(**options)


def alter(drafted: _Drawn, step: str | Alteration, **options: Value) -> _Drawn:
    """The draft, or the pattern that was read, with one more step: an alteration, or its name and its options.

    The step is taken where it belongs among the others, as in a garment file. Raises StepRefused for a step that makes
    no sense, and as `alteration` does.
    """
    accept_drawn(drafted)
    accept("alter, step", step, (str, Alteration), 'the name of an alteration, or one: Lengthen("sleeve", 30)')
    if options and not isinstance(step, str):
        read = f"{', '.join(options)} beside an alteration that is made already"
        raise InputProblems([Problem("alter", read, "the name of an alteration and its options, or an alteration")])
    one = _alteration_for(drafted, step, options) if isinstance(step, str) else step
    return _with_step(drafted, one) if isinstance(drafted, Draft) else _read_altered(drafted, (*drafted.steps, one))


def _alteration_for(drafted: Draft | ReadPattern, name: str, options: Mapping[str, Value]) -> Alteration:
    """The alteration. Raises as it does; for a number beyond its range with the nearest that can be had."""

    def drafts(_: Problem, setting: Setting) -> bool:
        try:
            one = alteration(name, **{**options, setting.option: setting.value})
            if isinstance(drafted, Draft):
                garment = replace(drafted.garment, steps=(*drafted.garment.steps, one), sources=())
                return after_steps(_begun(drafted, garment).stages[0], garments.in_order(garment).steps) is not None
            _read_altered(drafted, (*drafted.steps, one))
        except TrueseamError:
            return False
        return True

    try:
        return alteration(name, **options)
    except InputProblems as wrong:
        raise nearest_tried(wrong, drafts, "mm", typed=False) from None


def undo(drafted: _Drawn) -> _Drawn:
    """The draft, or the pattern that was read, without the step added last. Raises StepRefused where there is none."""
    accept_drawn(drafted)
    if isinstance(drafted, ReadPattern):
        if not drafted.steps:
            raise StepRefused("undo", reason="no step has been taken since it was read")
        return _read_altered(drafted, drafted.steps[:-1])
    return _without_last(drafted)


def _with_step(drafted: Draft, step: Alteration) -> Draft:
    garment = drafted.garment
    written = garment.sources or tuple(f"step {count}" for count in range(1, len(garment.steps) + 1))
    sources = (*written, f"step {len(garment.steps) + 1}")
    return _altered(drafted, replace(garment, steps=(*garment.steps, step), sources=sources))


def _without_last(drafted: Draft) -> Draft:
    garment = drafted.garment
    if not garment.steps:
        raise StepRefused("undo", reason="no step has been taken yet")
    return _altered(drafted, replace(garment, steps=garment.steps[:-1], sources=garment.sources[:-1]))


def accept(where: str, value: object, of: type | tuple[type, ...], expected: str) -> None:
    """Raise InputProblems for a value that is none of these types."""
    if problem := type_problem(where, value, of, expected):
        raise InputProblems([problem])


def accept_draft(given: object) -> None:
    """Raise InputProblems for what is no draft."""
    accept("the draft", given, Draft, "a draft, as draft(garment) or alter(...) gives it")


def accept_drawn(given: object) -> None:
    """Raise InputProblems for what is neither a draft nor a pattern that was read."""
    expected = "a draft, as draft(garment) or alter(...) gives it, or what read_pattern(...) gives"
    accept("the draft", given, (Draft, ReadPattern), expected)


def _read_altered(read: ReadPattern, steps: tuple[Alteration, ...]) -> ReadPattern:
    """The pattern as it was read with these steps, each where it belongs: before finishing steps of its file, too."""
    made = [read.stages[0]]
    for at in order_of_steps(steps, ALTERATIONS):
        made.append(apply_step(made[-1], steps[at]))
    return ReadPattern(tuple(made), read.unit, steps)


def _altered(drafted: Draft, garment: Garment) -> Draft:
    """The draft with the steps of the garment, which is drafted anew where they ask something else of its blocks."""
    return _with_steps_taken(_begun(drafted, garment), garment)


def _begun(drafted: Draft, garment: Garment) -> Draft:
    """The draft that the steps of the garment may go on from: the one given, or one of its own, before any step."""
    return drafted if begin_alike(drafted.garment, garment) else _start(garment)


def _with_steps_taken(drafted: Draft, garment: Garment) -> Draft:
    """The draft with the steps of the garment: those that it begins with are not taken again."""
    before, now = drafted.taken, garments.in_order(garment)
    same = sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(before.steps, now.steps, strict=False)))
    taken = zip(drafted.stages[:same], now.steps[:same], strict=True)
    rest = stages(
        drafted.stages[same],
        now.steps[same:],
        sources=now.sources[same:],
        unit=now.wearer.unit,
        checks=CHECKS,
        before=tuple(taken),
        redrafted=partial(garments.redrafted_with, now, drafted.prepared),
    )
    return Draft(garment, drafted.prepared, (*drafted.stages[:same], *rest))
