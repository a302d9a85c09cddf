"""Reading a garment file: every problem in it, in the person's file and in the file it follows, in one go."""

from __future__ import annotations

import datetime
import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from blocks.garment import BlockOrder, Garment, Paper, finish
from blocks.table import BLOCKS, Block
from drafting.alterations import ALTERATIONS, Alteration, Blend, PutSleeveIn, read_step, with_sleeve_of
from drafting.body.person import Person, read_person
from drafting.body.sizes import Sizes, read_sizes, sizes_body
from drafting.errors import InputProblems, Problem, TrueseamError, nearest
from drafting.fit.cloth import Cloth, read_cloth
from drafting.fit.ease import FITS, Fit, read_ease
from drafting.reading.files import load_toml
from drafting.reading.options import read_options
from drafting.reading.table import Reader, refuse

__all__ = ["read_garment"]


@dataclass(frozen=True, slots=True)
class _Told:
    """What files have told of a garment so far."""

    title: str | None = None
    wearer: Person | None = None
    sizes: Sizes | None = None
    blocks: tuple[BlockOrder, ...] = ()
    cloth: Cloth = Cloth()
    fit: Fit = "regular"
    ease: Mapping[str, float] | None = None
    steps: tuple[Alteration, ...] = ()
    paper: Paper = Paper()
    date: datetime.date | None = None


def read_garment(path: Path, *, papers: Sequence[str], blocks: tuple[Block, ...] = BLOCKS) -> Garment:
    """The garment a file orders, and the person it is for.

    papers: the sheets there are, as the writers know them
    A garment file may follow another one (`like = "other.toml"`): what it does not say itself is as it is there, and
    its steps come after the other's. Raises InputProblems with everything that is wrong in any of the files.
    """
    problems: list[Problem] = []
    told = _read(path, (), papers, blocks, problems)
    refuse(problems)
    return _garment(path, told)


def _garment(path: Path, told: _Told) -> Garment:
    """What was told as a garment, where no problem was noted."""
    if told.title is None or told.wearer is None:  # nothing was noted, so both are there
        raise InputProblems([Problem(str(path), "a garment without title or wearer", "both")])
    return Garment(
        title=told.title,
        wearer=told.wearer,
        blocks=told.blocks,
        cloth=told.cloth,
        fit=told.fit,
        ease=told.ease or {},
        steps=(*_blended(told), *told.steps),
        paper=told.paper,
        date=told.date,
        sizes=told.sizes,
    )


def _read(
    path: Path, chain: tuple[Path, ...], papers: Sequence[str], blocks: tuple[Block, ...], problems: list[Problem]
) -> _Told:
    try:
        table = load_toml(path)
    except InputProblems as unread:
        problems.extend(unread.problems)
        return _Told(title="", wearer=None)
    reader = Reader(table, place=str(path), problems=problems)
    reader.file_unit()
    told = _followed(reader, path, (*chain, path.resolve()), papers, blocks, problems)
    follows = "like" in reader
    title = reader.text("title", default=told.title) if follows else reader.text("title")
    wearer, sizes = _for_whom(reader, path, told, follows, problems)
    told = replace(
        told,
        title=title,
        wearer=wearer,
        sizes=sizes,
        fit=_fit(reader, told.fit),
        date=reader.date("date", default=told.date),
        cloth=read_cloth(reader.table("cloth")) if "cloth" in reader else told.cloth,
        paper=_paper(reader.table("paper"), told.paper, papers),
    )
    told = _blocks(reader, told, blocks)
    if "sizes" in reader and told.sizes is not None and not told.sizes.nest:
        _bust_for_bodice(reader, told.sizes, told.blocks)
    told = replace(told, steps=(*told.steps, *_steps(reader, told, path, chain, papers, blocks)))
    reader.finish()
    return told


def _followed(
    reader: Reader,
    path: Path,
    chain: tuple[Path, ...],
    papers: Sequence[str],
    blocks: tuple[Block, ...],
    problems: list[Problem],
) -> _Told:
    """What the file named by `like` tells; nothing when there is none."""
    name = reader.text("like", default=None)
    if name is None:
        return _Told()
    other = _tidy(path.parent / name)
    if other.resolve() in chain:
        way = " -> ".join(link.name for link in (*chain, other))
        reader.problem(
            "like", "a garment file that does not lead back to this one", f"The files follow each other: {way}."
        )
        return _Told()
    return _read(other, chain, papers, blocks, problems)


def _for_whom(
    reader: Reader, path: Path, told: _Told, follows: bool, problems: list[Problem]
) -> tuple[Person | None, Sizes | None]:
    """The person the garment is for, or the sizes it is made in and the body that the chart gives for them."""
    if "sizes" in reader:
        if "wearer" in reader:
            reader.problem("wearer", "either a wearer or [sizes]", "Leave one of them out.")
        reader.text("wearer", default=None)
        sizes = read_sizes(reader.table("sizes"))
        return replace(sizes_body(sizes).person, unit=reader.unit or "cm"), sizes
    if "wearer" not in reader and not follows:
        reader.problem("wearer", "the file of the person it is for, or a table [sizes]", "It cannot be left out.")
    name = reader.text("wearer", default=None)
    if not name:
        return told.wearer, told.sizes
    try:
        return read_person(_tidy(path.parent / name)), None
    except InputProblems as wrong:
        problems.extend(wrong.problems)
        return told.wearer, told.sizes


def _bust_for_bodice(reader: Reader, sizes: Sizes, ordered: Sequence[BlockOrder]) -> None:
    """Note where a bodice is to be drafted and nobody said for which bust."""
    names = [order.block.name for order in ordered]
    if "bodice" in names and sizes.bust is None and sizes.hip is not None:
        reader.problem("sizes", "a size at the bust as well", "A bodice is chosen by the bust.", read="no bust")


def _blended(told: _Told) -> tuple[Alteration, ...]:
    """The step that blends the block into other sizes at the waist and the hip; none where there are no others."""
    sizes = told.sizes
    if sizes is None or sizes.nest:
        return ()
    reaches_hip = any(order.block.name == "skirt" for order in told.blocks)
    waist = sizes.waist if sizes.waist != sizes.frame else None
    hip = sizes.hip if sizes.hip != sizes.frame and reaches_hip else None
    if waist is None and hip is None:
        return ()
    return (Blend(waist=waist, hip=hip, bust=sizes.bust, upper_chest=sizes.upper_chest, chart=sizes.chart),)


def _fit(reader: Reader, default: Fit) -> Fit:
    chosen = reader.choice("fit", FITS, default=default)
    return next(fit for fit in FITS if fit == chosen)


def _paper(reader: Reader, told: Paper, papers: Sequence[str]) -> Paper:
    return Paper(
        size=reader.choice("size", papers, default=told.size),
        seam_allowance=reader.length("seam_allowance", default=told.seam_allowance, low=0.0, high=60.0),
        hem=reader.length("hem", default=told.hem, low=0.0, high=250.0),
    )


def _blocks(reader: Reader, told: _Told, table: tuple[Block, ...]) -> _Told:
    """The blocks a file orders, in the order in which they are drafted; none ordered leaves what was told before."""
    tables = reader.tables("block")
    if not tables:
        if "block" not in reader and not told.blocks:
            reader.problem("block", "one [[block]] or more, each with a name", _known("block", [b.name for b in table]))
        return told
    orders: dict[str, BlockOrder] = {}
    ease: dict[str, float] = dict(told.ease or {})
    asked: dict[str, float] = {}
    names = [block.name for block in table]
    for inner in tables:
        name = inner.choice("name", names)
        block = next(block for block in table if block.name == name)
        if name in orders and inner.where("name") != "":
            inner.problem("name", "each block once")
        given = _block_ease(inner, block)
        for place, mm in given.items():
            if abs(asked.setdefault(place, mm) - mm) > 1e-9:
                inner.problem(
                    "ease", f"the same {place} ease as the block before it", "They are sewn to each other there."
                )
        orders[name] = BlockOrder(block, read_options(inner, block.options))
    if "sleeve" in orders and "bodice" not in orders:
        reader.problem("block", 'a [[block]] named "bodice" as well', "A sleeve is drawn to the armhole it goes into.")
    ordered = tuple(orders[name] for name in names if name in orders)
    return replace(told, blocks=ordered, ease={**ease, **asked})


def _block_ease(reader: Reader, block: Block) -> dict[str, float]:
    """The ease asked for in a block: its `ease` table, and the cap ease, which is an option of its own."""
    inner = [place for place in block.places if place != "cap_ease"]
    given = dict(read_ease(reader.table("ease"), places=inner))
    if "cap_ease" in block.places:
        given.update(read_ease(reader, places=["cap_ease"]))
    return given


def _steps(
    reader: Reader,
    told: _Told,
    path: Path,
    chain: tuple[Path, ...],
    papers: Sequence[str],
    blocks: tuple[Block, ...],
) -> tuple[Alteration, ...]:
    steps: list[Alteration] = []
    pieces = [piece for order in told.blocks for piece in order.block.pieces]
    for inner in reader.tables("step"):
        step = read_step(inner, ALTERATIONS)
        if step is None:
            continue
        if isinstance(step, PutSleeveIn) and step.garment:
            step = _with_its_sleeve(inner, step, path.parent / step.garment, (*chain, path.resolve()), papers, blocks)
        steps.append(step)
        piece = getattr(step, "piece", None)
        if pieces and isinstance(piece, str) and piece and piece not in pieces:
            near = nearest(piece, pieces)
            mend = f'Did you mean "{near}"?' if near else ""
            inner.problem("piece", _known("piece", pieces), mend)
    return tuple(steps)


def _with_its_sleeve(
    reader: Reader,
    step: PutSleeveIn,
    path: Path,
    chain: tuple[Path, ...],
    papers: Sequence[str],
    blocks: tuple[Block, ...],
) -> PutSleeveIn:
    """The step with the sleeve of the garment it names, which is drafted for it; the step as it was where it cannot."""
    expected = "a garment file whose sleeve can be put in"
    if path.resolve() in chain:
        reader.problem("garment", expected, "It is this garment itself, or one that is made from it.")
        return step
    problems: list[Problem] = []
    told = _read(path, chain, papers, blocks, problems)
    if problems:
        reader.problem("garment", expected, f"What is wrong with that file: {problems[0].sentence()}")
        return step
    try:
        return with_sleeve_of(step, finish(_garment(path, told)))
    except TrueseamError as refusal:
        reader.problem("garment", expected, " ".join(refusal.sentences()))
        return step


def _known(kind: str, names: Sequence[str]) -> str:
    return f"a {kind} of " + ", ".join(f'"{name}"' for name in names)


def _tidy(path: Path) -> Path:
    """The path without detours ("garments/../people"), as a person would write it."""
    return Path(os.path.normpath(path))
