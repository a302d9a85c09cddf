"""A sheet to print and to measure by: for a person, with what she measured last, or for anybody."""

from __future__ import annotations

from collections.abc import Sequence

from blocks.garment import Garment
from drafting.body.charts import chart_body
from drafting.body.complete import complete
from drafting.body.person import Person, person
from drafting.body.terms import BASICS, BodyKind, measurement_for
from drafting.reading.units import length_text
from output.api.measuring import measuring_order
from output.figure.silhouette import silhouette
from output.report.measuring_sheet import measuring_sheet

__all__ = ["anybody", "example_body", "sheet_to_measure"]

_GIRL = 116
"""The height of the child whose drawing stands in for one that has not been measured yet, cm."""


def example_body(body: BodyKind) -> dict[str, float]:
    """The lengths of a body of middle size (mm by key), for a drawing where nothing is measured yet."""
    found = chart_body(92) if body == "woman" else chart_body(_GIRL, chart=f"{body}s")
    return {each.key: each.mm for each in complete(found.person).known()}


def anybody(body: BodyKind) -> Person:
    """A person of middle size without a name."""
    lengths = example_body(body)
    return person({key: lengths[key] for key in BASICS}, body=body)


def sheet_to_measure(
    who: Person | None,
    body: BodyKind = "woman",
    *,
    unit: str | None = None,
    garments: Sequence[Garment] = (),
    every: bool = False,
) -> tuple[str, tuple[str, ...]]:
    """The sheet as one HTML document, for A4 and Letter alike, and the measurements on it by key.

    who:      whose drawing it has, and whose last lengths; None for anybody with such a body
    unit:     what the lengths are written in; None for her own, or cm
    garments: those that it is measured for; every: whether all measurements that there are stand on it
    """
    kind = body if who is None else who.body
    shown = unit or ("cm" if who is None else who.unit)
    lengths = example_body(kind) if who is None else {each.key: each.mm for each in complete(who).known()}
    last = {} if who is None else {key: length_text(mm, shown) for key, mm in who.measurements}
    keys = measuring_order(kind, garments, every=every)
    title = f"Measuring {who.name if who is not None and who.name else f'a {kind}'}"
    taken = [measurement_for(key, kind) for key in keys]
    return measuring_sheet(title, taken, silhouette(lengths, kind), shown, last), keys
