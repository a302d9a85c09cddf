"""trueseam from Python: draft a garment, alter it, ask what it measures, draw it. All else is internal and may change.

Lengths are millimetres. Whatever cannot be had is a `TrueseamError` whose `sentences()` say why and what to do.

>>> from output.api import Garment, alter, block, check, draft, measurements, part, person, sewing, svg
>>> oda = person({"height": 1680, "bust": 920, "waist": 740, "hip": 990}, name="Oda")
>>> blocks = [block("bodice"), block("sleeve"), block("skirt", length=600)]
>>> dress = draft(Garment("Quay dress", oda, blocks))
>>> longer = alter(dress, "lengthen", piece="sleeve", by=30)
>>> print(check(longer).verdict)
pass
>>> round(measurements(longer)["shoulder to wrist"].finished - measurements(dress)["shoulder to wrist"].finished, 6)
30.0
>>> drawing = svg(longer)
>>> sewing(longer)["Shoulder seams"].seams
('shoulder',)
>>> skirt = draft(Garment("Quay skirt", oda, [block("skirt")], parts=[part("waistband", height=35)]))
>>> [piece.name for piece in skirt.pieces]
['skirt front', 'skirt back', 'waistband']

A person is read from her file with `read_person`, a garment from its file with `read_garment`; a DXF of pieces or a
pattern.json with `read_pattern`: it is checked, altered, measured, drawn and written as a draft is. `alter` takes the
name of an alteration and its options, as above, or a value of its class: every class in `ALTERATIONS` can be imported
from here (`from output.api import Lengthen`). In a notebook a draft, a pattern that was read, one of the pieces and a
comparison draw themselves, checks and measurements show as tables.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from blocks.block_table import BLOCKS as BLOCKS
    from blocks.garment import Garment as Garment
    from blocks.paper import Paper as Paper
    from drafting.alterations import ALTERATIONS as ALTERATIONS
    from drafting.body.person import person as person
    from drafting.body.person import read_person as read_person
    from drafting.errors import StepRefused as StepRefused
    from drafting.errors import TrueseamError as TrueseamError
    from drafting.fit.cloth import Cloth as Cloth
    from output import __version__ as __version__
    from output.api.asking import check as check
    from output.api.asking import compare as compare
    from output.api.asking import edges as edges
    from output.api.asking import measurements as measurements
    from output.api.body import worth_measuring as worth_measuring
    from output.api.child_growth import growing as growing
    from output.api.laying import lay as lay
    from output.api.laying import what_saves_cloth as what_saves_cloth
    from output.api.making import Draft as Draft
    from output.api.making import alter as alter
    from output.api.making import block as block
    from output.api.making import draft as draft
    from output.api.making import part as part
    from output.api.making import read_garment as read_garment
    from output.api.making import read_pattern as read_pattern
    from output.api.making import undo as undo
    from output.api.measured_before import over_time as over_time
    from output.api.sewing_it import sewing as sewing
    from output.api.sewing_it import to_buy as to_buy
    from output.api.sizing import garment_kinds as garment_kinds
    from output.api.sizing import size_choice as size_choice
    from output.api.sizing import size_data as size_data
    from output.api.sizing import size_page as size_page
    from output.api.taking_remedies import with_remedy as with_remedy
    from output.api.wearers import draft_for as draft_for
    from output.api.writing import dxf as dxf
    from output.api.writing import pdf as pdf
    from output.api.writing import report as report
    from output.api.writing import sheets as sheets
    from output.api.writing import svg as svg
    from output.api.writing import to_json as to_json
    from output.api.writing import write as write

_HOMES: Final = {
    "blocks.block_table": ("BLOCKS",),
    "blocks.garment": ("Garment",),
    "blocks.paper": ("Paper",),
    "drafting.alterations": ("ALTERATIONS",),
    "drafting.body.person": ("person", "read_person"),
    "drafting.errors": ("StepRefused", "TrueseamError"),
    "drafting.fit.cloth": ("Cloth",),
    "output.api.asking": ("check", "compare", "edges", "measurements"),
    "output.api.body": ("worth_measuring",),
    "output.api.child_growth": ("growing",),
    "output.api.laying": ("lay", "what_saves_cloth"),
    "output.api.making": ("Draft", "alter", "block", "draft", "part", "read_garment", "read_pattern", "undo"),
    "output.api.measured_before": ("over_time",),
    "output.api.taking_remedies": ("with_remedy",),
    "output.api.wearers": ("draft_for",),
    "output.api.sewing_it": ("sewing", "to_buy"),
    "output.api.sizing": ("garment_kinds", "size_choice", "size_data", "size_page"),
    "output.api.writing": ("dxf", "pdf", "report", "sheets", "svg", "to_json", "write"),
}
"""Where each name comes from; it is imported when it is first asked for, so that a start costs nothing."""

__all__ = [
    "ALTERATIONS",
    "BLOCKS",
    "Cloth",
    "Draft",
    "Garment",
    "Paper",
    "StepRefused",
    "TrueseamError",
    "alter",
    "block",
    "check",
    "compare",
    "draft",
    "draft_for",
    "dxf",
    "edges",
    "garment_kinds",
    "growing",
    "lay",
    "measurements",
    "over_time",
    "part",
    "pdf",
    "person",
    "read_garment",
    "read_pattern",
    "read_person",
    "report",
    "sewing",
    "sheets",
    "size_choice",
    "size_data",
    "size_page",
    "svg",
    "to_buy",
    "to_json",
    "undo",
    "what_saves_cloth",
    "with_remedy",
    "worth_measuring",
    "write",
]


def __getattr__(name: str) -> Any:
    from importlib import import_module

    home = next((module for module, names in _HOMES.items() if name in names), None)
    if home is not None:
        return getattr(import_module(home), name)
    try:
        return getattr(import_module("drafting.alterations"), name)
    except AttributeError:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}") from None


def __dir__() -> list[str]:
    return sorted(__all__)
