"""Documents as PDF 1.7 (ISO 32000-1) in true millimetres, lines as lines and writing as writing.

Kinds of line are told apart as in the SVG drawings (`LINE_STYLES`). Each layer can be shown and hidden (optional
content). A reader is asked not to scale when it prints. The same document gives the same bytes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from drafting.geometry import Curve
from output.drawings.document import Bookmark, Document, Page
from output.drawings.drawing import (
    LINE_STYLES,
    LineKind,
    Stroke,
    Text,
    layer_of,
    number_text,
    printable,
    trace,
)
from output.drawings.font import Face, face, shown_words
from output.drawings.pdf_file import Name, PdfFile, Reference

__all__ = ["POINTS_PER_MM", "document_pdf"]

POINTS_PER_MM: Final = 72.0 / 25.4
"""A page is measured in points, 72 to the inch."""

_CAP_HEIGHT: Final = 729
"""Of both faces, in thousandths of the size: the height of their H."""

_FONT_NAMES: Final = {False: "Regular", True: "Bold"}
_SIDEWAYS: Final = {"start": 0.0, "middle": 0.5, "end": 1.0}


def document_pdf(document: Document) -> bytes:
    """The document as the bytes of a PDF file."""
    pdf = PdfFile()
    faces = _faces(document)
    layers = {name: f"Layer{n}" for n, name in enumerate(_layers(document), start=1)}
    groups = {name: pdf.add({"Type": Name("OCG"), "Name": name, "Intent": Name("View")}) for name in layers}
    fonts = {_FONT_NAMES[bold]: _font(pdf, each) for bold, each in faces.items()}
    resources = pdf.add({"Font": fonts, "Properties": {mark: groups[name] for name, mark in layers.items()}})
    tree = pdf.reserve()
    pages = [
        pdf.add(
            {
                "Type": Name("Page"),
                "Parent": tree,
                "MediaBox": (0, 0, _points(page.width), _points(page.height)),
                "Contents": pdf.stream(_content(page, faces, layers)),
                "Resources": resources,
            }
        )
        for page in document.pages
    ]
    pdf.put(tree, {"Type": Name("Pages"), "Count": len(pages), "Kids": pages})
    shown = tuple(groups.values())
    root = pdf.add(
        {
            "Type": Name("Catalog"),
            "Pages": tree,
            "Outlines": _outline(pdf, document.bookmarks, pages),
            "OCProperties": {"OCGs": shown, "D": {"Name": "as printed", "Order": shown}},
            "ViewerPreferences": {
                "PrintScaling": Name("None"),
                "Duplex": Name("Simplex"),
                "PickTrayByPDFSize": True,
                "DisplayDocTitle": True,
            },
            "Lang": "en",
            "PageMode": Name("UseOutlines"),
        }
    )
    return pdf.written(root=root, info=pdf.add({"Title": printable(document.title)}))


def _points(mm: float) -> float:
    return round(mm * POINTS_PER_MM, 5)


def _texts(document: Document) -> Iterator[Text]:
    return (item for page in document.pages for item in page.items if isinstance(item, Text))


def _faces(document: Document) -> dict[bool, Face]:
    """The regular and the bold face, each with the letters that are written in it."""
    letters: dict[bool, set[str]] = {}
    for text in _texts(document):
        letters.setdefault(text.bold, set()).update(shown_words(text.words))
    return {bold: face(used, bold=bold) for bold, used in sorted(letters.items())}


def _layers(document: Document) -> tuple[str, ...]:
    """The layers there are, in the order in which they first appear."""
    found = dict.fromkeys(layer_of(item) for page in document.pages for item in page.items)
    return tuple(name for name in found if name)


class _PathPen:
    """A pen that writes the operators of a path."""

    def __init__(self) -> None:
        self.data: list[str] = []

    def move(self, x: float, y: float) -> None:
        self.data.append(f"{number_text(x)} {number_text(y)} m")

    def line(self, x: float, y: float) -> None:
        self.data.append(f"{number_text(x)} {number_text(y)} l")

    def cubic(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        self.data.append(" ".join(map(number_text, (x1, y1, x2, y2, x, y))) + " c")

    def close(self) -> None:
        self.data.append("h")


def _content(page: Page, faces: Mapping[bool, Face], layers: Mapping[str, str]) -> bytes:
    """The operators that draw a page: lines by layer and kind, then writing by layer, clipped."""
    strokes: dict[tuple[str, LineKind], list[Curve]] = {}
    texts: dict[str, list[Text]] = {}
    for item in page.items:
        if isinstance(item, Stroke):
            strokes.setdefault((layer_of(item), item.kind), []).extend(item.curves)
        else:
            texts.setdefault(layer_of(item), []).append(item)
    lines = [f"{POINTS_PER_MM:.10f} 0 0 {POINTS_PER_MM:.10f} 0 0 cm", "1 j"]
    for (layer, kind), curves in strokes.items():
        lines += _layered(layers.get(layer, ""), _path(kind, curves))
    clip = " ".join(map(number_text, (page.clip.left, page.clip.bottom, page.clip.width, page.clip.height)))
    lines.append(f"{clip} re W n")
    for layer, written in texts.items():
        lines += _layered(layers.get(layer, ""), ["BT", *(_text(text, faces[text.bold]) for text in written), "ET"])
    return "\n".join(lines).encode("ascii")


def _layered(mark: str, lines: Sequence[str]) -> list[str]:
    return [f"/OC /{mark} BDC", *lines, "EMC"] if mark else list(lines)


def _path(kind: LineKind, curves: Iterable[Curve]) -> list[str]:
    style = LINE_STYLES[kind]
    pen = _PathPen()
    trace(curves, pen)
    dash = " ".join(map(number_text, style.dash))
    return [f"{number_text(style.weight)} w [{dash}] 0 d", *pen.data, "S"]


def _text(text: Text, face: Face) -> str:
    words = shown_words(text.words)
    turn = math.radians(text.angle)
    c, s = math.cos(turn), math.sin(turn)
    back = _SIDEWAYS[text.anchor] * face.width(words, text.size)
    place = " ".join(map(number_text, (text.at.x - c * back, text.at.y - s * back)))
    codes = "".join(f"{face.codes[letter]:04X}" for letter in words)
    matrix = f"{c:.6f} {s:.6f} {-s:.6f} {c:.6f} {place}"
    return f"/{_FONT_NAMES[text.bold]} {number_text(text.size)} Tf {matrix} Tm <{codes}> Tj"


def _font(pdf: PdfFile, face: Face) -> Reference:
    """The face as a font whose letters have the numbers of `face.codes`, with what each number stands for."""
    name = Name(face.name)
    descriptor = pdf.add(
        {
            "Type": Name("FontDescriptor"),
            "FontName": name,
            "Flags": 4,  # letters beyond those of the standard set
            "FontBBox": face.box,
            "ItalicAngle": 0,
            "Ascent": face.ascent,
            "Descent": face.descent,
            "CapHeight": _CAP_HEIGHT,
            "StemV": 80,
            "FontFile2": pdf.stream(face.program, Length1=len(face.program)),
        }
    )
    letters = pdf.add(
        {
            "Type": Name("Font"),
            "Subtype": Name("CIDFontType2"),
            "BaseFont": name,
            "CIDSystemInfo": {"Registry": "Adobe", "Ordering": "Identity", "Supplement": 0},
            "FontDescriptor": descriptor,
            "W": (1, face.advances),
            "CIDToGIDMap": pdf.stream(b"".join(glyph.to_bytes(2, "big") for glyph in (0, *face.glyphs))),
        }
    )
    return pdf.add(
        {
            "Type": Name("Font"),
            "Subtype": Name("Type0"),
            "BaseFont": name,
            "Encoding": Name("Identity-H"),
            "DescendantFonts": [letters],
            "ToUnicode": pdf.stream(_unicode_table(face.codes)),
        }
    )


def _unicode_table(codes: Mapping[str, int]) -> bytes:
    """Which letter each number stands for, so that writing can be searched and copied (ISO 32000-1, 9.10.3)."""
    rows = [f"<{code:04X}> <{letter.encode('utf-16-be').hex().upper()}>" for letter, code in codes.items()]
    lines = ["/CIDInit /ProcSet findresource begin", "12 dict begin", "begincmap", "/CMapType 2 def"]
    lines += ["1 begincodespacerange", "<0000> <FFFF>", "endcodespacerange"]
    for start in range(0, len(rows), 100):  # no more than a hundred in one go
        some = rows[start : start + 100]
        lines += [f"{len(some)} beginbfchar", *some, "endbfchar"]
    lines += ["endcmap", "CMapName currentdict /CMap defineresource pop", "end", "end"]
    return "\n".join(lines).encode("ascii")


def _outline(pdf: PdfFile, bookmarks: Sequence[Bookmark], pages: Sequence[Reference]) -> Reference:
    """The list of contents (ISO 32000-1, 12.3.3): every line knows the one before it and the one after it."""
    contents = pdf.reserve()
    lines = [pdf.reserve() for _ in bookmarks]
    for n, (line, each) in enumerate(zip(lines, bookmarks, strict=True)):
        beside = {"Prev": lines[n - 1]} if n > 0 else {}
        if n + 1 < len(lines):
            beside["Next"] = lines[n + 1]
        corner = (pages[each.page], Name("XYZ"), _points(each.at.x), _points(each.at.y), 0)
        pdf.put(line, {"Title": printable(each.words), "Parent": contents, **beside, "Dest": corner})
    ends = {"First": lines[0], "Last": lines[-1]} if lines else {}
    pdf.put(contents, {"Type": Name("Outlines"), "Count": len(lines), **ends})
    return contents
