"""The objects of a PDF file (ISO 32000-1, 7.3 and 7.5) and the file that is made of them.

A value is what Python has for it: dict (keys without their slash), list or tuple, str for text, float, int, bool,
None; `Name` and `Reference` are what Python has nothing for.
"""

from __future__ import annotations

import hashlib
import zlib
from collections.abc import Mapping
from typing import Final

__all__ = ["Name", "PdfFile", "Reference"]

_DIGITS: Final = 5  # behind the point: far more than a thousandth of a mm asks for
_BINARY: Final = b"%PDF-1.7\n%\xbf\xf7\xa2\xfe\n"  # letters that no text has, so that nobody takes the file for text


class Name(str):
    """A name, without its slash."""

    __slots__ = ()


class Reference(int):
    """The number of an object that stands elsewhere in the file."""

    __slots__ = ()


class PdfFile:
    """Objects with their numbers, in the order in which they were asked for. The same objects give the same bytes."""

    def __init__(self) -> None:
        self._bodies: list[bytes | None] = []

    def reserve(self) -> Reference:
        """A number for an object that is put there later, so that others can name it before."""
        self._bodies.append(None)
        return Reference(len(self._bodies))

    def put(self, place: Reference, value: object) -> None:
        """The object for a number that was reserved."""
        self._bodies[place - 1] = _text(value).encode("ascii")

    def add(self, value: object) -> Reference:
        """An object, and its number."""
        place = self.reserve()
        self.put(place, value)
        return place

    def stream(self, data: bytes, **more: object) -> Reference:
        """Bytes, packed, and the number of their object. more: what stands in its dictionary beside their length."""
        packed = zlib.compress(data)
        told = _text({**more, "Length": len(packed), "Filter": Name("FlateDecode")}).encode("ascii")
        self._bodies.append(told + b"\nstream\n" + packed + b"\nendstream")
        return Reference(len(self._bodies))

    def written(self, *, root: Reference, info: Reference) -> bytes:
        """The file. Its identifier is made from its bytes, so that the same document is the same file."""
        parts, places, at = [_BINARY], [0], len(_BINARY)
        for number, body in enumerate(self._bodies, start=1):
            assert body is not None, f"object {number} was reserved and never put"
            part = b"%d 0 obj\n%s\nendobj\n" % (number, body)
            parts.append(part)
            places.append(at)
            at += len(part)
        identifier = hashlib.sha256(b"".join(parts)).hexdigest()[:32]
        rows = ["0000000000 65535 f ", *(f"{place:010} 00000 n " for place in places[1:])]
        trailer = (
            f"<< /Info {_text(info)} /Root {_text(root)} /Size {len(places)} /ID [<{identifier}><{identifier}>] >>"
        )
        end = ["xref", f"0 {len(places)}", *rows, "trailer", trailer, "startxref", str(at), "%%EOF\n"]
        return b"".join((*parts, "\n".join(end).encode("ascii")))


def _text(value: object) -> str:
    """A value as it stands in the file."""
    match value:
        case Mapping():
            return " ".join(("<<", *(f"/{key} {_text(each)}" for key, each in value.items()), ">>"))
        case list() | tuple():
            return " ".join(("[", *map(_text, value), "]"))
        case Name():
            return f"/{value}"
        case str():
            return _string(value)
        case None | bool():
            return {None: "null", False: "false", True: "true"}[value]
        case Reference():
            return f"{int(value)} 0 R"
        case int() | float():
            return f"{value:.{_DIGITS}f}".rstrip("0").rstrip(".")
    raise TypeError(f"a PDF file holds no {type(value).__name__}")


def _string(words: str) -> str:
    """Text: plain where it is ASCII, else as UTF-16 in hexadecimal digits (7.9.2.2)."""
    if words.isascii():
        escaped = words.replace("\\", r"\\").replace("(", r"\(").replace(")", r"\)")
        return f"({escaped})"
    return f"<FEFF{words.encode('utf-16-be').hex().upper()}>"
