"""The parts of a garment file, `[[part]]`, and what of the file it follows it leaves out, `without`."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from blocks.block import Block
from drafting.parts.part_table import PARTS, Part, find_part, part_of, rivals_of
from drafting.pattern import Derived, Site
from drafting.reading.options import Value, read_options
from drafting.reading.read_table import Reader

__all__ = ["in_use", "read_parts", "read_without", "sites_of"]


def in_use(reader: Reader) -> bool:
    """Whether a step or a part counts: one with `in_use = false` keeps its place in the file, and is not read."""
    used = "in_use" not in reader or reader.flag("in_use")
    if not used:
        reader.ignore_rest()
    return used


def read_parts(
    reader: Reader, before: Sequence[Derived], blocks: Sequence[Block], table: Sequence[Block]
) -> tuple[Derived, ...]:
    """The parts of a file joined to those of the file it follows, in the order in which they are drawn.

    What a file says of a part that was there already changes that one; what it does not say stays. Noted is a part
    that nothing has a place for, one that takes up the place of another, and two of one name.
    blocks: those that the garment is made of; table: those that there are
    """
    parts = {part.name: part for part in before}
    seen: set[str] = set()
    for inner in reader.tables("part"):
        if not in_use(inner):
            continue
        kind = inner.kind("name", [part.name for part in PARTS])
        if kind is None:
            continue
        part = find_part(kind)
        called = inner.text("called", default="") if part.several else ""
        name = called or kind
        if name in seen:
            mend = f'Give this one a name of its own: called = "{kind} 2".' if part.several else ""
            inner.problem("name", "each part once", mend)
        seen.add(name)
        _accept_place(inner, part, blocks, table)
        there = [find_part(each.part) for each in parts.values()]
        for rival in rivals_of(part, there):
            mend = f'Leave one of them out; one of the file that this one follows by without = ["{rival.name}"].'
            inner.problem("name", f'nothing that takes the place of the "{rival.name}"', mend)
        given = read_options(inner, part.options)
        kept: Mapping[str, Value] = dict(parts[name].options) if name in parts else {}
        parts[name] = part_of(part, {**given, **{key: v for key, v in kept.items() if key not in inner}}, called)
    return tuple(part for listed in PARTS for part in parts.values() if part.part == listed.name)


def _accept_place(reader: Reader, part: Part, blocks: Sequence[Block], table: Sequence[Block]) -> None:
    """Note a part for which these blocks have no place, or one that is sewn to something else."""
    sites = sites_of(blocks)
    if blocks and not part.fits(sites):
        bodies = {body for block in blocks for body in block.bodies}
        having = [block.name for block in table if part.fits(block.sites) and not bodies.isdisjoint(block.bodies)]
        if having:
            mend = f"Add the block {' or '.join(map(_quoted, having))}, or leave this part out."
        else:  # no block for this body has a place for it
            whose = (_quoted(block.name) for block in table if part.fits(block.sites))
            mend = f"Leave this part out: it is sewn to {' or '.join(whose)}."
        reader.problem("name", f"a part of what is made: {', '.join(block.name for block in blocks)}", mend)
    elif taken := part.in_place_of(sites):
        other = next(block.name for block in blocks if taken in block.sites)
        mine = next(site.part for site in part.needs if site in sites)
        mend = f'The {mine} is sewn to the {taken.part}: leave this part out, or the block "{other}".'
        reader.problem("name", f"no {part.name} where there is a {taken.part}", mend)


def sites_of(blocks: Iterable[Block]) -> tuple[Site, ...]:
    """Where something can be sewn to a garment of these blocks."""
    return tuple(dict.fromkeys(site for block in blocks for site in block.sites))


def _quoted(name: str) -> str:
    return f'"{name}"'


def read_without(reader: Reader, blocks: Sequence[str], others: Sequence[str]) -> tuple[str, ...]:
    """The blocks, alterations and parts of the file it follows that a file leaves out, by `without = ["sleeve"]`.

    blocks: the names of the blocks that were there; others: those of the alterations and parts
    """
    value = reader.written("without")
    if value is None:
        return ()
    names = [value] if isinstance(value, str) else value
    known = dict.fromkeys([*blocks, *others])
    expected = "a list of what is left out, of " + ", ".join(f'"{name}"' for name in known) if known else ""
    if "like" not in reader:
        reader.problem("without", "it together with like", "A garment that is like no other leaves nothing out.")
    elif not isinstance(names, list) or any(not isinstance(name, str) or name not in known for name in names):
        reader.problem("without", expected or "nothing")
    elif set(blocks) <= set(names) and "block" not in reader:
        reader.problem("without", "at least one block left to make", f"All there are would go: {', '.join(blocks)}.")
    else:
        return tuple(names)
    return ()
