"""A TrueType font read as far as a PDF needs it, and cut down to some of its shapes (ISO/IEC 14496-22, OpenType).

Read is what our own two font files hold: a table of letters of format 4, and a width for every shape.
"""

from __future__ import annotations

import struct
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

__all__ = ["NO_LETTER", "TrueType"]

NO_LETTER: Final = 0
"""The number of the shape that stands for what the font lacks: an empty box."""

_NEEDED: Final = ("glyf", "head", "hhea", "hmtx", "loca", "maxp")  # ISO 32000-1, 9.9, table 126: what TrueType needs
_CHECK: Final = 0xB1B0AFBA  # what the sum of a whole font file comes to

# flags of a part of a shape that is put together from others
_ARE_WORDS, _SCALED, _MORE, _SCALED_APART, _TWO_BY_TWO = 0x0001, 0x0008, 0x0020, 0x0040, 0x0080


class TrueType:
    """A font file. Shapes go by their numbers in it; lengths are in units of the em."""

    def __init__(self, data: bytes) -> None:
        count = struct.unpack_from(">H", data, 4)[0]
        self._version = data[:4]
        self._tables = {}
        for n in range(count):
            name, _, start, length = struct.unpack_from(">4sLLL", data, 12 + 16 * n)
            self._tables[name.decode("ascii")] = data[start : start + length]
        head, hhea, maxp = (self._tables[name] for name in ("head", "hhea", "maxp"))
        self.units_per_em: int = struct.unpack_from(">H", head, 18)[0]
        self.box: tuple[int, int, int, int] = struct.unpack_from(">4h", head, 36)
        self.ascent, self.descent = struct.unpack_from(">2h", hhea, 4)
        self._shapes: int = struct.unpack_from(">H", maxp, 4)[0]
        self._widths: int = struct.unpack_from(">H", hhea, 34)[0]
        self._long = bool(struct.unpack_from(">h", head, 50)[0])  # whether places are counted in bytes, not in twos
        places = struct.unpack_from(f">{self._shapes + 1}{'L' if self._long else 'H'}", self._tables["loca"])
        self._places: Sequence[int] = places if self._long else [2 * place for place in places]
        self._letters = _Letters(self._tables["cmap"])

    def shape_of(self, letter: str) -> int:
        """The shape of a letter; `NO_LETTER` where the font has none."""
        return self._letters.shape(ord(letter))

    def advance(self, shape: int) -> int:
        """How far the next letter stands from this one."""
        width: int = self._metric(shape)[0]
        return width

    def with_parts(self, shapes: Iterable[int]) -> list[int]:
        """The shapes and whatever they are put together from, with the empty box, in their order in the font."""
        kept: set[int] = set()
        waiting = [NO_LETTER, *shapes]
        while waiting:
            shape = waiting.pop()
            if shape not in kept:
                kept.add(shape)
                waiting.extend(part for _, part in _parts(self._outline(shape)))
        return sorted(kept)

    def cut_down(self, shapes: Sequence[int]) -> bytes:
        """The font file with these shapes alone, in this order; their parts are to be among them."""
        place = {shape: number for number, shape in enumerate(shapes)}
        outlines = [_renumbered(self._outline(shape), place) for shape in shapes]
        ends = [0]
        for outline in outlines:
            ends.append(ends[-1] + len(outline))
        tables = {name: self._tables[name] for name in _NEEDED}
        tables["glyf"] = b"".join(outlines)
        ends = ends if self._long else [end // 2 for end in ends]
        tables["loca"] = struct.pack(f">{len(ends)}{'L' if self._long else 'H'}", *ends)
        tables["hmtx"] = b"".join(struct.pack(">Hh", *self._metric(shape)) for shape in shapes)
        tables["head"] = _put(tables["head"], 8, ">L", 0)  # the sum of the whole file, put there at the end
        tables["hhea"] = _put(tables["hhea"], 34, ">H", len(shapes))
        tables["maxp"] = _put(tables["maxp"], 4, ">H", len(shapes))
        return _file(self._version, tables)

    def _outline(self, shape: int) -> bytes:
        return self._tables["glyf"][self._places[shape] : self._places[shape + 1]]

    def _metric(self, shape: int) -> tuple[int, int]:
        """The width of a shape and where it begins; the last width stands for all that follow."""
        if shape < self._widths:
            both: tuple[int, int] = struct.unpack_from(">Hh", self._tables["hmtx"], 4 * shape)
            return both
        width = struct.unpack_from(">H", self._tables["hmtx"], 4 * (self._widths - 1))[0]
        begins = struct.unpack_from(">h", self._tables["hmtx"], 4 * self._widths + 2 * (shape - self._widths))[0]
        return width, begins


class _Letters:
    """Which shape stands for which letter: a table "cmap" of format 4, runs of letters in their order."""

    def __init__(self, cmap: bytes) -> None:
        count = struct.unpack_from(">H", cmap, 2)[0]
        starts = (struct.unpack_from(">HHL", cmap, 4 + 8 * n)[2] for n in range(count))
        start = next(start for start in starts if struct.unpack_from(">H", cmap, start)[0] == 4)
        runs = struct.unpack_from(">H", cmap, start + 6)[0] // 2
        at = start + 14
        self._ends = struct.unpack_from(f">{runs}H", cmap, at)
        self._firsts = struct.unpack_from(f">{runs}H", cmap, at + 2 * runs + 2)
        self._shifts = struct.unpack_from(f">{runs}H", cmap, at + 4 * runs + 2)
        self._offsets_at = at + 6 * runs + 2
        self._cmap = cmap

    def shape(self, code: int) -> int:
        run = bisect_left(self._ends, code)
        if run == len(self._ends) or code < self._firsts[run]:
            return NO_LETTER
        here = self._offsets_at + 2 * run
        offset = struct.unpack_from(">H", self._cmap, here)[0]
        if offset == 0:
            moved: int = (code + self._shifts[run]) % 0x10000
            return moved
        # the offset counts from where it stands itself
        shape: int = struct.unpack_from(">H", self._cmap, here + offset + 2 * (code - self._firsts[run]))[0]
        return (shape + self._shifts[run]) % 0x10000 if shape else NO_LETTER


def _parts(outline: bytes) -> Iterator[tuple[int, int]]:
    """The shapes that one is put together from, each with where in the outline its number stands."""
    if not outline or struct.unpack_from(">h", outline)[0] >= 0:
        return
    at, flags = 10, _MORE
    while flags & _MORE:
        flags, shape = struct.unpack_from(">HH", outline, at)
        yield at + 2, shape
        at += 8 if flags & _ARE_WORDS else 6
        at += 2 if flags & _SCALED else 4 if flags & _SCALED_APART else 8 if flags & _TWO_BY_TWO else 0


def _renumbered(outline: bytes, place: Mapping[int, int]) -> bytes:
    """The outline with its parts by their new numbers, filled up to an even number of bytes."""
    for at, shape in list(_parts(outline)):
        outline = _put(outline, at, ">H", place[shape])
    return outline + bytes(len(outline) % 2)


def _put(data: bytes, at: int, form: str, value: int) -> bytes:
    """The bytes with a number in the place of another."""
    written = struct.pack(form, value)
    return data[:at] + written + data[at + len(written) :]


def _file(version: bytes, tables: Mapping[str, bytes]) -> bytes:
    """A font file of these tables, in the order of their names, with its sums."""
    power = len(tables).bit_length() - 1
    reach = 16 << power
    directory = version + struct.pack(">4H", len(tables), reach, power, 16 * len(tables) - reach)
    at = len(directory) + 16 * len(tables)
    starts = {}
    for name, data in sorted(tables.items()):
        directory += struct.pack(">4sLLL", name.encode("ascii"), _sum(data), at, len(data))
        starts[name] = at
        at += len(data) + -len(data) % 4
    whole = directory + b"".join(data + bytes(-len(data) % 4) for _, data in sorted(tables.items()))
    return _put(whole, starts["head"] + 8, ">L", (_CHECK - _sum(whole)) % 2**32)


def _sum(data: bytes) -> int:
    """The sum of the bytes, taken four at a time."""
    filled = data + bytes(-len(data) % 4)
    total: int = sum(struct.unpack(f">{len(filled) // 4}L", filled))
    return total % 2**32
