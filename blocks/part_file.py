"""The parts of a garment file, `[[part]]`, and what of the file it follows it leaves out, `without`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drafting.parts.part_table import PARTS, find_part, part_of
from drafting.pattern import Derived
from drafting.reading.options import Value, read_options
from drafting.reading.read_table import Reader

__all__ = ["in_use", "read_parts", "read_without"]


def in_use(reader: Reader) -> bool:
    """Whether a step or a part counts: one with `in_use = false` keeps its place in the file, and is not read."""
    used = "in_use" not in reader or reader.flag("in_use")
    if not used:
        reader.ignore_rest()
    return used


def read_parts(reader: Reader, before: Sequence[Derived], blocks: Sequence[str]) -> tuple[Derived, ...]:
    """The parts of a file joined to those of the file it follows, each once, in the order in which they are drawn.

    What a file says of a part that was there already changes that one; what it does not say stays. Noted is a part of
    a block that the garment has not, and a waistband on a waist that is sewn to a bodice.
    blocks: the names of those that the garment is made of
    """
    parts = {part.part: part for part in before}
    seen: set[str] = set()
    for inner in reader.tables("part"):
        if not in_use(inner):
            continue
        name = inner.kind("name", [part.name for part in PARTS])
        if name is None:
            continue
        part = find_part(name)
        if name in seen:
            inner.problem("name", "each part once")
        seen.add(name)
        if blocks and not part.fits(blocks):
            mend = f'Add the block "{part.needs}", or leave this part out.'
            inner.problem("name", f"a part of what is made: {', '.join(blocks)}", mend)
        elif other := part.in_place_of(blocks):
            mend = f'The {part.needs} is sewn to the {part.unless}: leave this part out, or the block "{other}".'
            inner.problem("name", f"no {name} where there is a {part.unless}", mend)
        given = read_options(inner, part.options)
        kept: Mapping[str, Value] = dict(parts[name].options) if name in parts else {}
        parts[name] = part_of(part, {**given, **{key: v for key, v in kept.items() if key not in inner}})
    return tuple(parts[part.name] for part in PARTS if part.name in parts)


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
