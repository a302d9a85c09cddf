"""Documents as PDF 1.7 (ISO 32000-1) in true millimetres, lines as lines and writing as writing.

Kinds of line are told apart as in the SVG drawings (`LINE_STYLES`). Each layer can be shown and hidden (optional
content). A reader is asked not to scale when it prints. The same document gives the same bytes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from io import BytesIO
from typing import TYPE_CHECKING, Final

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

if TYPE_CHECKING:
    from pikepdf import Object, Pdf

__all__ = ["POINTS_PER_MM", "document_pdf"]

POINTS_PER_MM: Final = 72.0 / 25.4
"""A page is measured in points, 72 to the inch."""

_CAP_HEIGHT: Final = 729
"""Of both faces, in thousandths of the size: the height of their H."""

_FONT_NAMES: Final = {False: "/Regular", True: "/Bold"}
_SIDEWAYS: Final = {"start": 0.0, "middle": 0.5, "end": 1.0}


def document_pdf(document: Document) -> bytes:
    """The document as the bytes of a PDF file."""
    import pikepdf
    from pikepdf import Array, Dictionary, Name, String

    faces = _faces(document)
    layers = {name: f"/Layer{n}" for n, name in enumerate(_layers(document), start=1)}
    written = BytesIO()
    with pikepdf.new() as pdf:
        fonts = Dictionary({_FONT_NAMES[bold]: _font(pdf, each) for bold, each in faces.items()})
        groups = {
            name: pdf.make_indirect(Dictionary(Type=Name.OCG, Name=String(name), Intent=Name.View)) for name in layers
        }
        resources = pdf.make_indirect(
            Dictionary(Font=fonts, Properties=Dictionary({mark: groups[name] for name, mark in layers.items()}))
        )
        for page in document.pages:
            added = pdf.add_blank_page(page_size=(_points(page.width), _points(page.height)))
            added.Contents = pdf.make_stream(_content(page, faces, layers))
            added.Resources = resources
        shown = Array(groups.values())
        pdf.Root.OCProperties = Dictionary(OCGs=shown, D=Dictionary(Name=String("as printed"), Order=shown))
        pdf.Root.ViewerPreferences = Dictionary(
            PrintScaling=Name("/None"), Duplex=Name.Simplex, PickTrayByPDFSize=True, DisplayDocTitle=True
        )
        pdf.Root.Lang = String("en")
        pdf.Root.PageMode = Name.UseOutlines
        pdf.docinfo = pdf.make_indirect(Dictionary(Title=String(printable(document.title))))
        _outline(pdf, document.bookmarks)
        pdf.save(written, min_version="1.7", deterministic_id=True)
    return written.getvalue()


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
    return [f"/OC {mark} BDC", *lines, "EMC"] if mark else list(lines)


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
    return f"{_FONT_NAMES[text.bold]} {number_text(text.size)} Tf {matrix} Tm <{codes}> Tj"


def _font(pdf: Pdf, face: Face) -> Object:
    """The face as a font whose letters have the numbers of `face.codes`, with what each number stands for."""
    from pikepdf import Array, Dictionary, Name, String

    name = Name(f"/{face.name}")
    program = pdf.make_stream(face.program)
    program.Length1 = len(face.program)
    descriptor = pdf.make_indirect(
        Dictionary(
            Type=Name.FontDescriptor,
            FontName=name,
            Flags=4,  # letters beyond those of the standard set
            FontBBox=Array(face.box),
            ItalicAngle=0,
            Ascent=face.ascent,
            Descent=face.descent,
            CapHeight=_CAP_HEIGHT,
            StemV=80,
            FontFile2=program,
        )
    )
    places = b"".join(glyph.to_bytes(2, "big") for glyph in (0, *face.glyphs))
    letters = pdf.make_indirect(
        Dictionary(
            Type=Name.Font,
            Subtype=Name.CIDFontType2,
            BaseFont=name,
            CIDSystemInfo=Dictionary(Registry=String("Adobe"), Ordering=String("Identity"), Supplement=0),
            FontDescriptor=descriptor,
            W=Array([1, Array(face.advances)]),
            CIDToGIDMap=pdf.make_stream(places),
        )
    )
    return pdf.make_indirect(
        Dictionary(
            Type=Name.Font,
            Subtype=Name.Type0,
            BaseFont=name,
            Encoding=Name("/Identity-H"),
            DescendantFonts=Array([letters]),
            ToUnicode=pdf.make_stream(_unicode_table(face.codes)),
        )
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


def _outline(pdf: Pdf, bookmarks: Sequence[Bookmark]) -> None:
    from pikepdf import OutlineItem

    with pdf.open_outline() as outline:
        for each in bookmarks:
            left, top = _points(each.at.x), _points(each.at.y)
            outline.root.append(OutlineItem(printable(each.words), each.page, "XYZ", left=left, top=top))
