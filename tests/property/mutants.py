"""Garment and person files spoilt in every way a person, an editor or a disk could spoil them."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

__all__ = ["other_numbers", "spoilt_bytes", "spoilt_lines"]

VALUES = (
    """
nan | inf | -inf | -1 | 0 | 0.0 | -0.0 | 1e9 | 1e-9 | 1e400 | 7 | 98.5 | 171 | 999999999999999999999999 | 0x1f | 1_0
true | false | [] | {} | [[]] | [1,2] | [{}] | {bust=1} | {bust="6 cm"} | {bust={}} | 2026-10-03 | 2026-13-03
2026-10-03T10:00:00 | 10:00:00 | "" | " " | "x" | '' | "nan" | "1e9" | "-5 cm" | "0 cm" | "38 in" | "38 1/2 in"
"38 1/0 in" | "40 %" | "400 %" | "-3 %" | "95,5 cm" | "9 furlongs" | "cm" | "oda.toml" | "." | ".." | "../oda.toml"
"ferry-dress.toml" | "bodice" | "sleeve" | "skirt" | "bodise" | "woven" | "knit" | "close" | "loose" | "woman" | "girl"
"boy" | "A4" | "a4" | "A5" | "lengthen" | "lenghten" | "skirt front" | "\\u0000" | "\\n" | "ünïcode ½ in"
""".replace(" | ", "\n")
    .strip()
    .splitlines()
)
KEYS = re.findall(
    r"\w+",
    """
title wearer like date fit unit name body measured born kind width stretch shrinkage one_way length ease cap_ease
bust_dart alter piece by line only size seam_allowance hem stature bust_girth waist_girth hip_girth arm_length
wrist_girth back_waist_length scye_depth waste_girth bogus
bust waist hips height nape_to_waist sleeve_length high_bust weight without at armhole_depth
""",
)
HEADS = ("[cloth]", "[[block]]", "[[step]]", "[paper]", "[measurements]", "[[paper]]", "[block]", "[x]", "[[x]]", "[")


def spoilt_lines(text: str, chance: random.Random) -> str:
    """The text with one to four of its lines changed, lost, doubled, moved or added."""
    lines = text.splitlines()
    for _ in range(chance.randint(1, 4)):
        chance.choice(_WAYS)(lines, chance)
    return "\n".join(lines) + "\n"


def spoilt_bytes(raw: bytes, chance: random.Random) -> bytes:
    """The bytes with a few of them changed, lost, added or doubled, or cut off."""
    out = bytearray(raw)
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(len(out) + 1)
        match chance.randrange(5):
            case 0:
                out[at : at + 1] = bytes([chance.randrange(256)])
            case 1:
                del out[at : at + chance.randint(1, 12)]
            case 2:
                out[at:at] = bytes(chance.choice(b'"=[]{}\n#.,0123456789 -ein') for _ in range(chance.randint(1, 3)))
            case 3:
                out[at:at] = out[at : at + 40]
            case _:
                if chance.random() < 0.1:
                    del out[at:]
    return bytes(out)


def other_numbers(text: str, chance: random.Random) -> str:
    """The text with a good part of its numbers another size: files that read well, of bodies few people have."""

    def other(found: re.Match[str]) -> str:
        number = float(found[0])
        return f"{number * chance.uniform(0.6, 1.6):.1f}" if chance.random() < 0.3 else found[0]

    lines = (
        line
        if line.startswith(("date", "measured", "#", "wearer"))
        else re.sub(r"(?<![\w/.])\d+(\.\d+)?(?![\d/])", other, line)
        for line in text.splitlines()
    )
    return "\n".join(lines) + "\n"


def _value(lines: list[str], chance: random.Random) -> None:
    told = [i for i, line in enumerate(lines) if "=" in line]
    if told:
        at = chance.choice(told)
        lines[at] = f"{lines[at].partition('=')[0]}= {chance.choice(VALUES)}"


def _key(lines: list[str], chance: random.Random) -> None:
    told = [i for i, line in enumerate(lines) if "=" in line]
    if told:
        at = chance.choice(told)
        lines[at] = f"{chance.choice(KEYS)} ={lines[at].partition('=')[2]}"


def _lose(lines: list[str], chance: random.Random) -> None:
    if lines:
        del lines[chance.randrange(len(lines))]


def _double(lines: list[str], chance: random.Random) -> None:
    if lines:
        lines.insert(chance.randrange(len(lines) + 1), chance.choice(lines))


def _move(lines: list[str], chance: random.Random) -> None:
    if lines:
        lines.insert(chance.randrange(len(lines)), lines.pop(chance.randrange(len(lines))))


def _add(lines: list[str], chance: random.Random) -> None:
    lines.insert(chance.randrange(len(lines) + 1), f"{chance.choice(KEYS)} = {chance.choice(VALUES)}")


def _head(lines: list[str], chance: random.Random) -> None:
    lines.insert(chance.randrange(len(lines) + 1), chance.choice(HEADS))


_WAYS: tuple[Callable[[list[str], random.Random], None], ...] = (
    _value,
    _value,
    _key,
    _lose,
    _double,
    _move,
    _add,
    _head,
)
