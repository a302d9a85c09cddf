"""A stranger's eyes for our PDF files: pypdf reads boxes, operators, layers; pdfium renders and finds text.

Neither shares code with the writer (pikepdf over qpdf). Operators as ISO 32000-1 names them, in tables 51, 59 and 320.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from io import BytesIO
from typing import Any

import numpy as np
import pypdfium2 as pdfium
from pypdf import PdfReader, PdfWriter
from pypdf.generic import ArrayObject, NameObject
from shapely import LineString, MultiLineString

from tests.outside.read_svg import flat

MM = 25.4 / 72.0


@dataclass
class Sheet:
    """One page in millimetres, y up: lines by layer ("" for none), each with its weight; how far inked lines reach."""

    width: float
    height: float
    lines: dict[str, MultiLineString] = field(default_factory=dict)
    squares: list[LineString] = field(default_factory=list)
    inked: list[tuple[float, float, float, float]] = field(default_factory=list)


def read_pdf(data: bytes) -> list[Sheet]:
    return [_sheet(page) for page in PdfReader(BytesIO(data)).pages]


def _sheet(page: Any) -> Sheet:
    box = [float(edge) * MM for edge in page.mediabox]
    assert box[:2] == [0.0, 0.0]
    assert [float(edge) * MM for edge in page.cropbox] == box
    assert page.get("/UserUnit", 1) == 1
    assert page.get("/Rotate", 0) == 0
    sheet = Sheet(box[2], box[3])
    names = {mark: str(group.get_object()["/Name"]) for mark, group in page["/Resources"]["/Properties"].items()}
    found: dict[str, list[LineString]] = {}
    for layer, weight, lines in _strokes(page, names):
        found.setdefault(layer, []).extend(lines)
        for line in lines:
            left, bottom, right, top = line.bounds
            half = 0.5 * weight
            sheet.inked.append((left - half, bottom - half, right + half, top + half))
            if not layer and line.is_closed and len(line.coords) == 5 and min(right - left, top - bottom) > 90.0:
                sheet.squares.append(line)
    sheet.lines = {layer: MultiLineString(lines) for layer, lines in found.items()}
    return sheet


def _strokes(page: Any, names: dict[str, str]) -> Iterator[tuple[str, float, list[LineString]]]:
    """Each path that is stroked: its layer, its weight and its lines."""
    scale, weight, layers = MM, 1.0, [""]
    runs: list[list[tuple[float, float]]] = []
    for operands, operator in page.get_contents().operations:
        numbers = [float(each) for each in operands] if operator in (b"m", b"l", b"c", b"cm", b"w", b"re") else []
        match operator:
            case b"cm":
                assert numbers[1:3] == [0.0, 0.0]
                assert numbers[0] == numbers[3]
                assert numbers[4:] == [0.0, 0.0]
                scale *= numbers[0]
            case b"w":
                weight = numbers[0]
            case b"BDC":
                layers.append(names[operands[1]] if operands[0] == "/OC" else layers[-1])
            case b"EMC":
                layers.pop()
            case b"m":
                runs.append([(numbers[0], numbers[1])])
            case b"l":
                runs[-1].append((numbers[0], numbers[1]))
            case b"c":
                points = [(numbers[i], numbers[i + 1]) for i in (0, 2, 4)]
                runs[-1].extend(map(tuple, flat([runs[-1][-1], *points])[1:]))
            case b"h" if runs[-1][-1] != runs[-1][0]:
                runs[-1].append(runs[-1][0])
            case b"S":
                yield layers[-1], weight * scale, [LineString(np.array(run) * scale) for run in runs]
                runs = []
            case _:
                assert operator in (b"h", b"re", b"W", b"n", b"d", b"j", b"BT", b"ET", b"Tf", b"Tm", b"Tj"), operator


def rendered(data: bytes, page: int, dpi: float, window: tuple[float, float, float, float] | None = None) -> np.ndarray:
    """How dark each pixel is, 0 for white: a whole page, or a window of it (left, bottom, right, top in mm)."""
    with pdfium.PdfDocument(data) as document:
        sheet = document[page]
        crop = (0.0, 0.0, 0.0, 0.0)
        if window is not None:
            width, height = sheet.get_size()
            left, bottom, right, top = (edge / MM for edge in window)
            crop = (left, bottom, width - right, height - top)
        bitmap = sheet.render(scale=dpi / 72.0, grayscale=True, crop=crop)
        return 1.0 - bitmap.to_numpy().astype(float) / 255.0


def text_of(data: bytes) -> list[str]:
    """What can be searched and copied on each page."""
    with pdfium.PdfDocument(data) as document:
        return [page.get_textpage().get_text_range() for page in document]


def without_layers(data: bytes, *names: str) -> bytes:
    """The same file as a person leaves it who has hidden these layers."""
    writer = PdfWriter(clone_from=BytesIO(data))
    content: Any = writer._root_object["/OCProperties"]
    hidden = [group for group in content["/OCGs"] if group.get_object()["/Name"] in names]
    assert len(hidden) == len(names)
    content["/D"][NameObject("/OFF")] = ArrayObject(hidden)
    changed = BytesIO()
    writer.write(changed)
    return changed.getvalue()
