"""Reading a garment file: every problem in it, in the person's file and in the file it follows, in one go."""

from __future__ import annotations

import datetime
import os
from collections.abc import Mapping, Sequence
from dataclasses import field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Final, TypeVar

from blocks.block_table import BLOCKS, Block, find_block, lacks_armhole, rival_pairs
from blocks.from_file.chart_wearer import chart_wearer, names_a_file
from blocks.from_file.grow_file import grow_asked, grown
from blocks.from_file.paper_file import NO_SIZE, paper_for, read_paper
from blocks.from_file.part_file import in_use, read_parts, read_without
from blocks.from_file.step_pieces import accept_piece, known_names, of_piece_meant
from blocks.garment import ORDERS, BlockOrder, Garment, StepOrder, finish
from blocks.paper import Paper
from drafting.alterations import ALTERATIONS, Alteration, read_step
from drafting.alterations.alteration_words import which_turned
from drafting.body.person import LIVES, Person, read_person
from drafting.body.sizes import SIZE_WORDS, Sizes, read_sizes, sizes_body
from drafting.dataclass import dataclass
from drafting.errors import InputProblems, Problem, TrueseamError
from drafting.fit.cloth import Cloth, read_cloth
from drafting.fit.ease import EASE_WORDS, FITS, Fit, read_ease
from drafting.pattern import Derived
from drafting.reading.files import LoadTables, load_toml
from drafting.reading.options import read_options
from drafting.reading.read_table import Reader, refuse
from drafting.reading.units import printable, unit_written

if TYPE_CHECKING:
    from blocks.room_for_growth import Grow

__all__ = ["MOST_FILES", "MOST_STEPS", "read_garment"]
_Word = TypeVar("_Word", bound=str)

MOST_FILES: Final = 30
"""How many garment files one may be made from, those it follows and those it takes a sleeve of (our figure)."""

MOST_STEPS: Final = 100
"""How many alterations one garment may be given, those of the files it follows counted in (our figure)."""


@dataclass(frozen=True, slots=True)
class _Partial:
    """What files have said of a garment so far."""

    title: str | None = None
    wearer: Person | None = None
    unit: str | None = None
    sizes: Sizes | None = None
    blocks: tuple[BlockOrder, ...] = ()
    cloth: Cloth = Cloth()
    fit: Fit = "regular"
    ease: Mapping[str, float] | None = None
    steps: tuple[Alteration, ...] = ()
    parts: tuple[Derived, ...] = ()
    sources: tuple[str, ...] = ()
    paper: Paper = NO_SIZE
    date: datetime.date | None = None
    order: StepOrder = "by layer"
    grow: Grow | None = None


@dataclass(frozen=True, slots=True)
class _Reading:
    """What is known while files are read.

    blocks: what there is to choose from; problems: what was found wrong so far
    load:   gives the tables of a file by its path; None where they come from the disk
    wearer: whom it is read for, in place of the one it names; None for that one
    opened: every garment file that was read, one that was read twice counted twice
    """

    blocks: tuple[Block, ...]
    problems: list[Problem]
    load: LoadTables | None
    wearer: Person | None = None
    opened: list[Path] = field(default_factory=list)


def read_garment(
    path: Path,
    *,
    blocks: tuple[Block, ...] = BLOCKS,
    load: LoadTables | None = None,
    wearer: Person | None = None,
) -> Garment:
    """The garment a file orders, and the person it is for.

    load, wearer: as in `_Reading`
    What a file does not say is as in the one it follows (`like = "other.toml"`), whose steps come before its own.
    Raises InputProblems with everything that is wrong in any of the files.
    """
    reading = _Reading(blocks, [], load, wearer)
    partial = _read(path, (), reading)
    refuse(reading.problems)
    return _garment(path, partial)


def _garment(path: Path, partial: _Partial) -> Garment:
    """The garment that was read, where no problem was noted."""
    if partial.title is None or partial.wearer is None:  # nothing was noted, so both are there
        raise InputProblems([Problem(str(path), "a garment without title or wearer", "both")])
    blended = _blended(partial)
    garment = Garment(
        title=partial.title,
        wearer=partial.wearer,
        blocks=partial.blocks,
        cloth=partial.cloth,
        fit=partial.fit,
        ease=partial.ease or {},
        steps=(*blended, *partial.steps),
        parts=partial.parts,
        paper=paper_for(partial.paper, partial.wearer.unit),
        date=partial.date,
        sizes=partial.sizes,
        sources=(*(f"{printable(str(path), most=200)}, [sizes]" for _ in blended), *partial.sources),
        order=partial.order,
        place=printable(str(path), most=200),
    )
    return grown(garment, partial.grow)


def _read(path: Path, chain: tuple[Path, ...], reading: _Reading) -> _Partial:
    """What a file tells, and those it follows. chain: the files that led here, which it must not lead back to."""
    reading.opened.append(path)
    try:
        table = (reading.load or load_toml)(path)
    except InputProblems as unread:
        reading.problems.extend(unread.problems)
        return _Partial(title="", wearer=None)
    if "measurements" in table and not {"block", "wearer", "like", "title"} & table.keys():
        where, mend = printable(str(path), most=200), "`trueseam new garment` begins one, and asks whose it is."
        reading.problems.append(Problem(where, "a person's file", "a garment file, with [[block]]", mend))
        return _Partial(title="", wearer=None)
    reader = Reader(table, place=str(path), problems=reading.problems)
    unit = reader.file_unit()
    reader.shows = unit_written(table)
    partial = _followed(reader, path, (*chain, path.resolve()), reading)
    reader.unit = unit = unit or partial.unit
    follows = "like" in reader
    reader.hint("nest", "Put it under [sizes]: a line [sizes], and below it nest = [92, 96].")
    title = reader.text("title", default=partial.title) if follows else reader.text("title")
    wearer, sizes = _for_whom(reader, path, partial, follows, reading)
    if wearer is not None and unit is not None:
        wearer = replace(wearer, unit=unit)  # whoever states a unit for a garment reads of it in that unit
    lives = reader.choice("lives", LIVES, default="")
    if wearer is not None and lives:
        wearer = replace(wearer, lives=lives)
    reader.shows = reader.shows or (wearer.unit if wearer is not None else None)
    partial = replace(
        partial,
        title=title,
        wearer=wearer,
        unit=unit,
        sizes=sizes,
        fit=_one_of(reader, "fit", FITS, partial.fit),
        order=_one_of(reader, "order", ORDERS, partial.order),
        date=reader.date("date", default=partial.date),
        grow=grow_asked(reader, partial.grow),
        cloth=read_cloth(reader.table("cloth")) if "cloth" in reader else partial.cloth,
        paper=read_paper(reader.table("paper"), partial.paper),
    )
    blocks = [order.block.name for order in partial.blocks]
    left_out = read_without(
        reader, blocks, [*(step.name for step in partial.steps), *(part.name for part in partial.parts)]
    )
    partial = _steps_kept(reader, partial, left_out)
    partial = _blocks(reader, partial, left_out, reading.blocks)
    kept, made = [part for part in partial.parts if part.name not in left_out], [each.block for each in partial.blocks]
    partial = replace(partial, parts=read_parts(reader, kept, made, reading.blocks))
    if "sizes" in reader and partial.sizes is not None and not partial.sizes.nest:
        _bust_for_bodice(reader, partial.sizes, partial.blocks)
    partial = _steps(reader, partial, path, chain, reading)
    reader.finish()
    return partial


def _followed(reader: Reader, path: Path, chain: tuple[Path, ...], reading: _Reading) -> _Partial:
    """What the file named by `like` tells; nothing when there is none."""
    name = reader.text("like", default=None)
    if name is None:
        return _Partial()
    other = _tidy(path.parent / name)
    if other.resolve() in chain:
        way = " -> ".join(link.name for link in (*chain, other))
        reader.problem(
            "like", "a garment file that does not lead back to this one", f"The files follow each other: {way}."
        )
        return _Partial()
    if len(reading.opened) >= MOST_FILES:
        reader.problem("like", *_too_many_files())
        return _Partial()
    return _read(other, chain, reading)


def _too_many_files() -> tuple[str, str]:
    """What is expected where more files are named than a garment may be made from, and how to mend it."""
    return f"{MOST_FILES} garment files or fewer behind one garment", "Write out here what the files far back say."


def _for_whom(
    reader: Reader, path: Path, partial: _Partial, follows: bool, reading: _Reading
) -> tuple[Person | None, Sizes | None]:
    """The person the garment is for, or the sizes it is made in and the body that the chart gives for them."""
    if reading.wearer is not None:
        if "sizes" in reader:
            expected = f"no sizes of a chart: it is to be drafted for {reading.wearer.name}"
            reader.problem("sizes", expected, "Leave [sizes] out.", read="[sizes]")
            reader.table("sizes").ignore_rest()
        reader.text("wearer", default=None)
        return reading.wearer, None
    if "sizes" in reader:
        if "wearer" in reader:
            reader.problem("wearer", "either a wearer or [sizes]", "Leave one of them out.")
        reader.text("wearer", default=None)
        table = reader.table("sizes", SIZE_WORDS)
        if names_a_file(table):
            return chart_wearer(table, path.parent, reading.load) or partial.wearer, None
        sizes = read_sizes(table)
        return replace(sizes_body(sizes).person, unit=reader.unit or reader.shows or "cm"), sizes
    if "wearer" not in reader and not follows and "nest" not in reader:
        expected = "the file of the person it is for, or sizes of the chart under [sizes]"
        reader.problem("wearer", expected, "It cannot be left out.")
    name = reader.text("wearer", default=None)
    if not name:
        return partial.wearer, partial.sizes
    hers = _tidy(path.parent / name)
    try:
        return read_person(reading.load(hers) if reading.load else hers, place=str(hers)), None
    except InputProblems as wrong:
        reading.problems.extend(
            replace(each, where=reader.where("wearer"), read=f"{each.where}, {each.read}")
            if each.where == printable(str(hers), most=200)  # the file as a whole: said where it is named
            else each
            for each in wrong.problems
        )
        return partial.wearer, partial.sizes


def _bust_for_bodice(reader: Reader, sizes: Sizes, ordered: Sequence[BlockOrder]) -> None:
    """Note where a bodice is to be drafted and nobody said for which bust."""
    written = reader.peek("sizes")
    named = {SIZE_WORDS.key(str(word)) for word in written} if isinstance(written, Mapping) else {}
    if any("bust" in order.block.places for order in ordered) and "bust" not in named and sizes.hip is not None:
        reader.problem("sizes", "a size at the bust as well", "A bodice is chosen by the bust.", read="no bust")


def _blended(partial: _Partial) -> tuple[Alteration, ...]:
    """The step that blends the block into other sizes at the waist and the hip; none where there are no others."""
    sizes = partial.sizes
    if sizes is None or sizes.nest or sizes.drafted_apart:
        return ()
    reaches_hip = any("hip" in order.block.places for order in partial.blocks)
    waist = sizes.waist if sizes.waist != sizes.frame else None
    hip = sizes.hip if sizes.hip != sizes.frame and reaches_hip else None
    if waist is None and hip is None:
        return ()
    from drafting.alterations.whole_garment.blend_sizes import Blend

    return (Blend(waist=waist, hip=hip, bust=sizes.bust, upper_chest=sizes.upper_chest, chart=sizes.chart),)


def _one_of(reader: Reader, key: str, words: Sequence[_Word], default: _Word) -> _Word:
    chosen = reader.choice(key, words, default=default)
    return next(word for word in words if word == chosen)


def _blocks(reader: Reader, partial: _Partial, left_out: Sequence[str], table: tuple[Block, ...]) -> _Partial:
    """The blocks of a file joined to those of the file it follows, each named once, in the order they are drafted in.

    What a file says of a block that was there already changes that one; what it does not say stays.

    left_out: the blocks that were there and are to be no longer
    """
    problems_before = len(reader.problems)
    tables = reader.tables("block")
    names = [block.name for block in table]
    if not tables and not partial.blocks and "like" not in reader and len(reader.problems) == problems_before:
        reader.problem("block", "one [[block]] or more, each with a name", f"There is: {', '.join(names)}.")
    orders = {order.block.name: order for order in partial.blocks if order.block.name not in left_out}
    ease: dict[str, float] = dict(partial.ease or {})
    asked: dict[str, float] = {}
    seen: set[str] = set()
    for inner in tables:
        name = inner.kind("name", names)
        if name is None:
            continue
        block = find_block(name, table)
        if name in seen:
            inner.problem("name", "each block once")
        seen.add(name)
        for place, mm in _block_ease(inner, block).items():
            if abs(asked.setdefault(place, mm) - mm) > 1e-9:
                inner.problem(
                    "ease", f"the same {place} ease as the block before it", "They are sewn to each other there."
                )
        for word, told in block.explained:
            inner.hint(word, told)
        given = read_options(inner, block.options)
        before = orders[name].options if name in orders else {}
        orders[name] = BlockOrder(block, {**given, **{key: v for key, v in before.items() if key not in inner}})
    for each in [order.block for order in orders.values()]:
        if lacks_armhole(each, [order.block for order in orders.values()]) and len(seen) == len(tables):
            expected = f'a [[block]] named "{each.after}" as well'
            reader.problem("block", expected, "A sleeve is drawn to the armhole it goes into.", read="none")
    ordered = tuple(orders[name] for name in names if name in orders)
    for both in rival_pairs([order.block for order in ordered]):
        reader.problem("block", "one of them", "They clothe the same part of the body: leave one out.", read=both)
    return replace(partial, blocks=ordered, ease={**ease, **asked})


def _block_ease(reader: Reader, block: Block) -> dict[str, float]:
    """The ease asked for in a block: its `ease` table, and the cap ease, which is an option of its own."""
    inner = [place for place in block.places if place != "cap_ease"]
    given = dict(read_ease(reader.table("ease", EASE_WORDS), places=inner))
    if "cap_ease" in block.places:
        given.update(read_ease(reader, places=["cap_ease"]))
    return given


def _steps(reader: Reader, partial: _Partial, path: Path, chain: tuple[Path, ...], reading: _Reading) -> _Partial:
    """What was read, with the steps of this file behind those of the file it follows."""
    steps, sources = list(partial.steps), list(partial.sources)
    left = MOST_STEPS - len(steps)
    before = f" Those of the files it follows are {len(steps)} already." if steps else ""
    pieces = [piece for order in partial.blocks for piece in order.block.pieces]
    tables = reader.tables("step", most=left, mend=f"A garment may have {MOST_STEPS} steps.{before}")
    for inner in tables:
        if not in_use(inner):
            continue
        if "piece" not in inner and pieces:
            first = next((piece for piece in pieces if "front" in piece), pieces[0])
            inner.hint(
                "piece", f'which piece, {known_names("piece", pieces)}; for one of them a line piece = "{first}"'
            )
        step = read_step(inner, ALTERATIONS)
        if step is None:
            continue
        step = of_piece_meant(step, pieces)
        if garment := getattr(step, "garment", ""):
            step = _with_its_sleeve(inner, step, path.parent / garment, (*chain, path.resolve()), reading)
        accept_piece(inner, step, pieces, reading.blocks, is_alone=len(tables) + len(partial.steps) == 1)
        steps.append(step)
        turned = which_turned(inner.peek("alter"))
        sources.append(f"{inner.where()} ({turned.word})" if turned is not None else inner.where())
    return replace(partial, steps=tuple(steps), sources=tuple(sources))


def _steps_kept(reader: Reader, partial: _Partial, left_out: Sequence[str]) -> _Partial:
    """What the file it follows tells, with those of its steps that are not left out."""
    kept = [each for each in zip(partial.steps, partial.sources, strict=True) if each[0].name not in left_out]
    pieces = {piece: order.block.name for order in partial.blocks for piece in order.block.pieces}
    for step, where in kept:
        block = pieces.get(getattr(step, "piece", ""))
        if block in left_out:
            names = ", ".join(f'"{name}"' for name in dict.fromkeys((*left_out, step.name)))
            mend = f"It is altered by {where}. To leave that out as well: without = [{names}]."
            reader.problem("without", "no step left that alters it", mend, read=f'"{block}"')
    return replace(partial, steps=tuple(step for step, _ in kept), sources=tuple(where for _, where in kept))


def _with_its_sleeve(
    reader: Reader, step: Alteration, path: Path, chain: tuple[Path, ...], reading: _Reading
) -> Alteration:
    """The step with the sleeve of the garment it names, which is drafted for it; the step as it was where it cannot."""
    from drafting.alterations.sleeve.other_sleeve import PutSleeveIn, with_sleeve_of

    if not isinstance(step, PutSleeveIn):
        return step
    expected = "a garment file whose sleeve can be put in"
    if path.resolve() in chain:
        reader.problem("garment", expected, "It is this garment itself, or one that is made from it.")
        return step
    if len(reading.opened) >= MOST_FILES:
        reader.problem("garment", *_too_many_files())
        return step
    problems: list[Problem] = []
    partial = _read(path, chain, replace(reading, problems=problems))
    if partial.sizes is not None and partial.sizes.nest:
        reader.problem("garment", expected, f"That one is ordered in {partial.sizes.name}: name one that has one size.")
    elif problems:
        said = " ".join(problem.sentence() for problem in dict.fromkeys(problems))
        reader.problem("garment", expected, f"What is wrong with that file: {said}")
    else:
        try:
            return with_sleeve_of(step, finish(_garment(path, partial)))
        except TrueseamError as refusal:
            reader.problem("garment", expected, f"What is wrong with that file: {' '.join(refusal.sentences())}")
    return step


def _tidy(path: Path) -> Path:
    """The path without detours ("garments/../people"), as a person would write it."""
    return Path(os.path.normpath(path))
