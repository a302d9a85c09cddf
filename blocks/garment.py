"""A garment: blocks drafted for a wearer one after another, joined, altered step by step, given its allowances."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import field, replace
from functools import partial
from typing import Final, Literal, get_args

from blocks.allowances import with_allowances
from blocks.block_table import Block, accept_body, drafted_as, rival_pairs
from blocks.conflicts import conflict_named, option_named
from blocks.handover import Drafted, Order, Planned
from blocks.paper import Paper
from blocks.parts_of_blocks import all_parts, ends_for, options_for_steps, with_part_room
from blocks.pulled_on import as_pulled_on, ease_to_pull_on, is_pulled_on
from blocks.step_offers import part_refused
from blocks.take_steps import alter
from blocks.unmet_ease import unmet_ease
from blocks.usual_hems import flat_hems, narrow_hem, usual_hem
from drafting.alterations import ALTERATIONS, Alteration, order_of_steps
from drafting.alterations.notch_spacing import met_notches
from drafting.body.complete import Body, complete, require
from drafting.body.person import Person, months_old
from drafting.body.plausible import require_possible
from drafting.body.sizes import Sizes, sizes_body
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft, InputProblems, NotAPattern, Problem, UnknownName
from drafting.fit.cloth import Cloth
from drafting.fit.ease import EASE_LIMITS, FITS, PLACES, EaseSet, Fit, choose_ease, with_more
from drafting.fit.least_ease import least_ease
from drafting.parts.collars.two_layers import turned_for
from drafting.parts.part_table import find_part, rivals_of
from drafting.parts.redraw import PartRefused, drawn_again
from drafting.pattern import BodyLength, ChildWearer, Derived, Origin, Pattern, Wearer
from drafting.reading import given
from drafting.reading.given import Given, number_problem, option_problems, plain_number
from drafting.reading.options import Required, Value
from drafting.reading.read_table import refuse
from drafting.reading.units import sentence_in

__all__ = [
    "ORDERS",
    "BlockOrder",
    "Garment",
    "Prepared",
    "StepOrder",
    "draft",
    "finish",
    "in_order",
    "order_taken",
    "plan_block",
    "prepare",
    "redrafted_with",
    "with_allowances",
    "with_options",
]

StepOrder = Literal["by layer", "as written"]

ORDERS: Final[tuple[StepOrder, ...]] = get_args(StepOrder)
"""In which order the steps of a garment may be taken; "by layer" is what `order_of_steps` says."""


@dataclass(frozen=True, slots=True)
class BlockOrder(Given):
    """A block that a garment is made of, and its options: lengths in mm, angles in degrees.

    Raises UnknownName for an option that the block has not, InputProblems for a value that it cannot have.
    """

    block: Block
    options: Mapping[str, Value] = field(default_factory=dict)

    def __post_init__(self) -> None:
        refuse(list(option_problems(self.block.name, self.block.options, self.options)))
        object.__setattr__(self, "options", {name: plain_number(value) for name, value in self.options.items()})


@dataclass(frozen=True, slots=True)
class Garment(Given):
    """A garment as it was ordered: for whom, of what cloth, from which blocks (in any order), with which steps.

    sizes: those of a chart it is made in; the wearer is then the body that the chart gives
    ease: mm by place, where it was asked for; else the table's. grow_ease: mm by place, added to it for growth
    date: of the order, as the person wrote it; grow_until: till when its steps leave a child room to grow
    parts: facings and bands drawn to its pieces. sources: where each step is written; place: its file; empty for none
    order: whether the steps are taken in the order that suits them, or as they are written
    """

    title: str
    wearer: Person
    blocks: tuple[BlockOrder, ...]
    cloth: Cloth = Cloth()
    fit: Fit = "regular"
    ease: Mapping[str, float] = field(default_factory=dict)
    steps: tuple[Alteration, ...] = ()
    parts: tuple[Derived, ...] = ()
    paper: Paper = Paper()
    date: datetime.date | None = None
    sizes: Sizes | None = None
    sources: tuple[str, ...] = ()
    order: StepOrder = "by layer"
    grow_until: datetime.date | None = None
    grow_ease: Mapping[str, float] = field(default_factory=dict)
    place: str = ""

    def __post_init__(self) -> None:
        self._accept_types()
        for what, said, known in (("order", self.order, ORDERS), ("fit", self.fit, FITS)):
            if said not in known:
                raise UnknownName(what, str(said), known)
        problems: list[Problem | None] = []
        blocks, parts = [order.block.name for order in self.blocks], [part.name for part in self.parts]
        for what, names in (("block", blocks), ("part", parts)):
            for name in dict.fromkeys(name for name in names if names.count(name) > 1):
                problems.append(Problem(f"{self.title}, {what}s", f'"{name}" twice', f"each {what} once"))
        ordered = [find_part(part.part) for part in self.parts]
        for rivals in {frozenset((part.name, other.name)) for part in ordered for other in rivals_of(part, ordered)}:
            both = " and ".join(f'"{name}"' for name in sorted(rivals))
            problems.append(Problem(f"{self.title}, parts", both, "one of them: they take the place of each other"))
        for both in rival_pairs([order.block for order in self.blocks]):
            one = "one of them: they clothe the same part of the body"
            problems.append(Problem(f"{self.title}, blocks", both, one))
        object.__setattr__(self, "blocks", tuple(sorted(self.blocks, key=lambda order: drafted_as(order.block))))
        for place, mm in self.ease.items():
            if place not in EASE_LIMITS:
                raise UnknownName("ease", place, EASE_LIMITS)
            problems.append(number_problem(f"{self.title}, {place} ease", "length", mm, *EASE_LIMITS[place]))
        refuse([*filter(None, problems)])

    @property
    def hem(self) -> float:
        """How much is turned up for a hem, mm: as asked for, or as is usual for the wearer."""
        return usual_hem(self.wearer) if self.paper.hem is None else self.paper.hem

    def _accept_types(self) -> None:
        """Raise InputProblems for what is none of what a garment is made of."""
        problems = (
            given.text_problem("garment, title", self.title),
            given.type_problem("garment, wearer", self.wearer, Person, "a person: read_person(...) or person(...)"),
            *given.list_problems("garment, blocks", self.blocks, BlockOrder, 'blocks: [block("skirt")]', least=1),
            *given.list_problems("garment, parts", self.parts, Derived, 'parts: [part("waistband")]'),
            *given.list_problems("garment, steps", self.steps, Alteration, 'alterations: [Lengthen("sleeve", 30)]'),
            given.type_problem("garment, cloth", self.cloth, Cloth, 'a cloth: Cloth("woven", width=1400)'),
            given.type_problem("garment, paper", self.paper, Paper, 'a paper: Paper("A4")'),
            given.type_problem("garment, ease", self.ease, Mapping, 'millimetres by place: {"waist": 40}'),
            given.type_problem("garment, date", self.date, (datetime.date, type(None)), "a day: date(2026, 9, 12)"),
        )
        refuse([*filter(None, problems)])


@dataclass(frozen=True, slots=True)
class Prepared:
    """A body with every length the garment needs, and the ease chosen for it.

    least: mm by place, with less it cannot be worn
    snug:  mm by the measurement of the body, with less it is tighter than is usual
    """

    body: Body
    ease: EaseSet
    least: Mapping[str, float]
    snug: Mapping[str, float] = field(default_factory=dict)


def prepare(garment: Garment) -> Prepared:
    """Everything known before drafting.

    Raises InputProblems for a block that is not drawn for this kind of body, for a measurement that was not taken and
    cannot be estimated, and for a nest, whose sizes are drafted one by one (`nest_members`); CannotDraft for
    measurements that no body has together.
    """
    wearer = garment.wearer
    accept_body([order.block for order in garment.blocks], wearer.body, wearer.place or wearer.name)
    if garment.sizes is not None and garment.sizes.nest:
        where = f"{garment.title}, [sizes] nest"
        wanted, mend = "one size to be drafted", "Name one size, or draft the nest as a whole."
        raise InputProblems([Problem(where, garment.sizes.name, wanted, mend)])
    body = complete(garment.wearer) if garment.sizes is None else sizes_body(garment.sizes)
    require(body, needed(garment))
    require_possible(body, among=needed(garment))
    ease = choose_ease(garment.cloth, body, fit=garment.fit, given=garment.ease)
    ease = with_more(with_part_room(ease, garment.parts, garment.steps, body, garment.ease), garment.grow_ease)
    limits = least_ease(garment.cloth, body)
    least = {limit.place: limit.fails_below for limit in limits}
    snug = {str(PLACES[limit.place]): limit.warns_below for limit in limits if PLACES[limit.place] is not None}
    return Prepared(body, ease, least, snug)


def needed(garment: Garment) -> tuple[str, ...]:
    """The measurements that the garment's blocks are drawn from, each once."""
    basics = ("stature", "bust_girth", "waist_girth", "hip_girth")
    return tuple(dict.fromkeys((*basics, *(key for order in garment.blocks for key in order.block.needs))))


def draft(garment: Garment, prepared: Prepared, *, made: Sequence[Drafted] | None = None) -> Pattern:
    """The garment as its blocks give it, before any step, with its parts drawn to that; one may wait for a step.

    made: what each block gave, where they have been drafted already
    Raises CannotDraft that names what stands in the way, and by how much (`conflicts.py`).
    """
    try:
        made = made or _drafted(garment, prepared)
        pattern = _joined(garment, prepared, made)
    except (CannotDraft, NotAPattern) as refused:
        raise _explained(garment, prepared, refused) from refused
    try:
        return _with_parts(garment, made, pattern)
    except PartRefused as refused:
        redrafted = partial(_drafts_with_parts, garment, prepared)
        raise part_refused(refused, garment.wearer.unit, redrafted) from refused


def _with_parts(garment: Garment, made: Sequence[Drafted], pattern: Pattern) -> Pattern:
    """The pattern with the parts that were ordered, and those of its blocks, drawn to it. Raises PartRefused."""
    parts = all_parts(garment.parts, made)
    asked = replace(pattern, derived=tuple(turned_for(part, garment.cloth.thickness) for part in parts))
    return drawn_again(asked, asked if garment.steps else pattern)


def _drafts_with_parts(garment: Garment, prepared: Prepared, options: Mapping[str, Value]) -> bool | None:
    """Whether it can be drafted with its parts and these options set in every block that has them; None for none."""
    if with_options(garment, options) is garment:
        return None
    return _can_be_drafted(with_options(garment, options), prepared, parts=True)


def redrafted_with(garment: Garment, prepared: Prepared, options: Mapping[str, Value]) -> Pattern:
    """The garment before any step, with these options set. Raises as `draft`; UnknownName where no block has them."""
    changed = with_options(garment, options)
    if changed is garment:
        raise UnknownName("option", ", ".join(options), ())
    return draft(changed, prepared)


def with_options(garment: Garment, options: Mapping[str, Value]) -> Garment:
    """The garment with these options set in every block that has them; itself where none has."""
    known = {option.name for order in garment.blocks for option in order.block.options}
    if known.isdisjoint(options):
        return garment
    orders = []
    for order in garment.blocks:
        own = {option.name for option in order.block.options} & set(options)
        orders.append(BlockOrder(order.block, {**order.options, **{name: options[name] for name in own}}))
    return replace(garment, blocks=tuple(orders))


def _explained(garment: Garment, prepared: Prepared, refused: CannotDraft | NotAPattern) -> CannotDraft:
    """The refusal with what stands in the way, in the unit of the wearer."""
    if isinstance(refused, NotAPattern):
        refused = CannotDraft((), f"{refused}.")
    elif not refused.measurements:
        return refused  # nothing of her body stands in the way: the cloth, or what does not go together
    refused = CannotDraft(refused.measurements, sentence_in(garment.wearer.unit, refused.reason))
    needs = needed(garment)
    for place, order in enumerate(garment.blocks):
        for option in order.block.options:
            name, left_out = option.name, option.default
            tried, asked = partial(_with_option, garment, prepared, place, name), order.options.get(name, left_out)
            if not isinstance(left_out, Required) and asked != left_out and tried(left_out):
                return option_named(refused, order.block.name, option, asked, tried, garment.wearer.unit)

    def drafts(body: Body, asked: Mapping[str, float]) -> bool:
        ease = choose_ease(garment.cloth, body, fit=garment.fit, given=asked)
        try:
            require_possible(body, among=needs)
        except CannotDraft:
            return False
        return _can_be_drafted(garment, Prepared(body, ease, prepared.least))

    usual = choose_ease(garment.cloth, prepared.body, fit=garment.fit).by_place()
    return conflict_named(refused, prepared.body, needs, garment.ease, usual, drafts)


def _with_option(garment: Garment, prepared: Prepared, place: int, option: str, value: Value) -> bool:
    """Whether it can be drafted with another value of an option of one of its blocks."""
    changed = BlockOrder(garment.blocks[place].block, {**garment.blocks[place].options, option: value})
    others = (*garment.blocks[:place], changed, *garment.blocks[place + 1 :])
    return _can_be_drafted(replace(garment, blocks=others), prepared)


def _can_be_drafted(garment: Garment, prepared: Prepared, *, parts: bool = False) -> bool:
    try:
        pattern = _joined(garment, prepared, made := _drafted(garment, prepared))
        if parts:
            _with_parts(garment, made, pattern)
    except (CannotDraft, NotAPattern):
        return False
    return True


def _drafted(garment: Garment, prepared: Prepared) -> list[Drafted]:
    """What each block gives, one after another."""
    made: list[Drafted] = []
    for order in garment.blocks:
        made.append(plan_block(garment, prepared, order, made).draft())
    return made


def plan_block(garment: Garment, prepared: Prepared, order: BlockOrder, made: Sequence[Drafted]) -> Planned:
    """What one block of a garment gives after those `made` before it. Raises CannotDraft or NotAPattern."""
    waist = next((drafted.waist for drafted in made if drafted.waist), None)
    on = waist is None and is_pulled_on(order.block, garment.parts)
    ease = prepared.ease.by_place()
    asked = Order(
        body=prepared.body,
        ease=ease_to_pull_on(prepared.body, ease) if on else ease,
        least=prepared.least,
        options=options_for_steps(order.block.options, order.options, garment.steps),
        armhole=next((drafted.armhole for drafted in made if drafted.armhole), None),
        waist=waist,
        with_sleeve=any("cap_ease" in each.block.places for each in garment.blocks),
        cloth=garment.cloth,
        asked=garment.ease,
        seam_allowance=garment.paper.seam_allowance,
        pulled_on=on,
        hem_allowance=garment.hem,
        ends=ends_for(garment.parts, order.block.sites),
    )
    return as_pulled_on(order.block.draft(asked)).planned if on else order.block.planned(asked)


def _joined(garment: Garment, prepared: Prepared, made: Sequence[Drafted]) -> Pattern:
    """What the blocks gave as one pattern."""
    names, ease = [order.block.name for order in garment.blocks], prepared.ease.by_place()
    child = prepared.body.person.body != "woman"
    narrow = partial(narrow_hem, hem=garment.hem, asked=garment.paper.hem, steps=garment.steps)
    pattern = Pattern(
        title=garment.title,
        wearer=_wearer(garment, prepared.body),
        pieces=tuple(piece for drafted in made for piece in drafted.pieces),
        seams=tuple(seam for drafted in made for seam in drafted.seams),
        measures=tuple(
            replace(measure, snug=prepared.snug.get(measure.key)) if measure.least is not None else measure
            for drafted in made
            for measure in drafted.measures
        ),
        origin=tuple(
            Origin(
                name,
                drafted.options,
                (*drafted.gave_way, *narrow(name, drafted), *unmet_ease(drafted, ease, garment.ease, child=child)),
            )
            for name, drafted in zip(names, made, strict=True)
        ),
        stretch=garment.cloth.stretch if garment.cloth.knit else 0.0,
        cloth_width=garment.cloth.width or 0.0,
    )
    flat = {} if garment.paper.hem is not None else {p.name: each.hem for each in made for p in each.pieces if each.hem}
    pattern = with_allowances(pattern, seam=garment.paper.seam_allowance, hem=garment.hem, flat=flat)
    return met_notches(flat_hems(pattern) if child and garment.paper.hem is None else pattern)


def order_taken(garment: Garment) -> tuple[int, ...]:
    """The places of its steps, from 0, in the order in which they are taken."""
    if garment.order == "as written":
        return tuple(range(len(garment.steps)))
    return order_of_steps(garment.steps, ALTERATIONS)


def in_order(garment: Garment) -> Garment:
    """The garment with its steps, and where each of them is written, in the order in which they are taken."""
    taken = order_taken(garment)
    sources = tuple(garment.sources[place] for place in taken if place < len(garment.sources))
    return replace(garment, steps=tuple(garment.steps[place] for place in taken), sources=sources, order="as written")


def finish(garment: Garment, *, drafted: Pattern | None = None) -> Pattern:
    """From an order to the altered pattern: prepare, draft, alter, step by step in the order that is asked for.

    drafted: the pattern before its steps, where it has been drafted already
    """
    garment = in_order(garment)
    return alter(drafted or draft(garment, prepare(garment)), garment.steps, sources=garment.sources)


def _wearer(garment: Garment, body: Body) -> Wearer:
    used = tuple(BodyLength(m.key, m.mm, m.source, m.how, m.sd_mm) for m in map(body.__getitem__, needed(garment)))
    who = garment.wearer
    if who.body == "woman":
        return Wearer(who.name, used, unit=who.unit)
    child = ChildWearer(who.body, months_old(who, garment.date), who.lives)
    return Wearer(who.name, used, child, who.unit)
