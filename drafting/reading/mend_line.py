"""A line that cannot be read, mended as its writer most likely meant it: quotes put round it, a bracket closed."""

from __future__ import annotations

import re
import tomllib

from drafting.dataclass import dataclass

__all__ = ["Mended", "mended"]

_DOUBLE = "“”„‟″«»"
_SINGLE = "‘’‚‛′"
_CURLY = str.maketrans(dict.fromkeys(_DOUBLE, '"') | dict.fromkeys(_SINGLE, "'"))
_LISTS = ("block", "step")
"""What a garment file may hold several of, each begun with double brackets."""

_MEANT = {"yes": "true", "no": "false", "true": "true", "false": "false"}
_SAID = re.compile(r"""(?P<key>["']?\w[\w -]*?["']?)\s*(?P<sign>[=:])\s*(?P<value>[^\s=:].*)""")
_SAID_WITHOUT_SIGN = re.compile(r"(?P<key>\w[\w-]*)(?P<sign>\s+)(?P<value>[^\s=:].*)")
_INCHES = re.compile(r"""([0-9][0-9 ./,½¼¾⅓⅔⅛⅜⅝⅞-]*)(?:"|'')""")


@dataclass(frozen=True, slots=True)
class Mended:
    """A line as it can be read, and what was wrong with it, in words."""

    line: str
    expected: str


def mended(line: str, *, unit: str = "") -> Mended | None:
    """The line as it was most likely meant; None where no mending makes it one that can be read.

    unit: what bare numbers of the file are in ("cm", "mm", "in"), to tell an inch mark from a lost quotation mark
    """
    plain = line.strip().translate(_CURLY)
    if plain.startswith("["):
        return _bracket(plain)
    if _reads(plain):
        return Mended(plain, "straight quotation marks") if plain != line.strip() else None
    statement, comment = _without_comment(plain)
    found = _SAID.fullmatch(statement) or _SAID_WITHOUT_SIGN.fullmatch(statement)
    if found is None:
        return None
    key = _key(found["key"])
    value = _value(found["value"], unit)
    whole = f"{key} = {value}{comment}"
    if not _reads(whole):
        return None
    if found["sign"] != "=":
        return Mended(whole, "a = between a name and what is said of it")
    if key != found["key"]:
        return Mended(whole, "a name in one word, joined by _")
    if value in ("true", "false"):
        return Mended(whole, "true or false in small letters")
    escaped = "\\" in found["value"] and found["value"][:1] in ("'", '"')
    return Mended(whole, "a text without a backslash" if escaped else "it in quotes")


def _bracket(line: str) -> Mended | None:
    found = re.fullmatch(r"\[+\s*([\w -]+?)\s*\]*\s*(#.*)?", line)
    if found is None:
        return None
    name = _key(found[1].casefold())
    whole = f"[[{name}]]" if name in _LISTS else f"[{name}]"
    return Mended(whole, "it in brackets that are closed")


def _reads(line: str) -> bool:
    try:
        tomllib.loads(line)
    except (ValueError, RecursionError):
        return False
    return True


def _key(written: str) -> str:
    return "_".join(re.findall(r"\w+", written)) if re.search(r"\s", written.strip("\"'")) else written


def _without_comment(line: str) -> tuple[str, str]:
    """The line up to a comment behind it, and the comment with what stands before it."""
    found = re.search(r"""\s+#[^"']*$""", line)
    return (line[: found.start()], found[0]) if found else (line, "")


def _value(written: str, unit: str) -> str:
    """What is said, in quotes where it needs them."""
    value = written.strip().rstrip(",;").strip()
    if value.startswith("{"):
        inside = value.removeprefix("{").removesuffix("}")
        parts = (part.partition("=") for part in inside.split(",") if part.strip())
        return "{ " + ", ".join(f"{_key(key.strip())} = {_value(value, unit)}" for key, _, value in parts) + " }"
    if value.startswith("["):
        inside = value.removeprefix("[").removesuffix("]")
        return "[" + ", ".join(_value(part, unit) for part in inside.split(",") if part.strip()) + "]"
    if not value or _reads(f"x = {value}"):
        return value or '""'
    if value.casefold() in _MEANT:
        return _MEANT[value.casefold()]
    inches = _INCHES.fullmatch(value)
    if inches and unit not in ("cm", "mm"):
        return f'"{inches[1].strip()} in"'
    inner = value.strip("\"'").replace("\\", "/").replace('"', " in").replace("'", " ft")
    return f'"{" ".join(inner.split())}"'
