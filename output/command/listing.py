"""`trueseam list`: everything there is, with every option, its unit, its range and what stands when it is left out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from blocks.garment import BlockOrder, Garment, draft, ready
from blocks.table import BLOCKS
from drafting.alterations import ALTERATIONS
from drafting.body.charts import SIZES, chart_length
from drafting.body.sizes import Sizes, sizes_body
from drafting.body.terms import BASICS, MEASUREMENTS, measurement
from drafting.checks import CHECKS
from drafting.fit.ease import EASE_LIMITS
from drafting.pattern import Piece, Role
from drafting.reading.options import Option, Required
from drafting.reading.units import length_text, percent
from output.command.answer import Answer
from output.papers import PAPERS
from output.tables import Column, Row, Table

__all__ = ["LISTS", "listed"]

_Listing = tuple[list[Table], list[dict[str, object]]]

_ANY_SIZE: Final = 92

_SIZED: Final = ("bust_girth", "upper_chest_girth", "waist_girth", "hip_girth")

_OPTIONS: Final = (Column("option"), Column("what it says"), Column("range"), Column("left out"))


def listed(what: str) -> Answer:
    """The list of that name, one of `LISTS`."""
    tables, data = LISTS[what]()
    return Answer(0, tuple(tables), {what: data})


def _blocks() -> _Listing:
    tables: list[Table] = []
    data: list[dict[str, object]] = []
    drawn = {piece.name: piece for piece in _drafted()}
    for block in BLOCKS:
        named = [_named(drawn[name]) for name in block.pieces]
        ease = [_ease_option(place) for place in block.places]
        options = [*map(_option, block.options), *ease]
        needs = ", ".join(measurement(key).name for key in block.needs)
        tables.append(
            Table(
                f'name = "{block.name}"',
                _OPTIONS,
                tuple(_option_row(option) for option in options),
                above=f"{block.about[0].upper()}{block.about[1:]}.",
                below=(*map(_named_told, named), f"Drawn from: {needs}.", f"Follows: {block.source}."),
            )
        )
        data.append(
            {
                "name": block.name,
                "about": block.about,
                "pieces": list(block.pieces),
                "named": named,
                "needs": list(block.needs),
                "options": options,
                "source": block.source,
            }
        )
    return tables, data


def _drafted() -> tuple[Piece, ...]:
    """The pieces of all blocks as they are drafted: what their parts are called is the same in every size."""
    sizes = Sizes(bust=_ANY_SIZE)
    blocks = tuple(BlockOrder(block) for block in BLOCKS)
    garment = Garment("names", sizes_body(sizes).person, blocks, sizes=sizes)
    return draft(garment, ready(garment)).pieces


def _named(piece: Piece) -> dict[str, object]:
    """What a step may name of a piece."""
    return {
        "piece": piece.name,
        "edges": [edge.name for edge in piece.edges if edge.role is not Role.DART_LEG],
        "darts": [dart.name for dart in piece.darts],
        "lines": [line.name for line in piece.lines],
    }


def _named_told(named: Mapping[str, object]) -> str:
    parts = ((kind, named[kind]) for kind in ("edges", "darts", "lines"))
    quoted = ((kind, [f'"{name}"' for name in names]) for kind, names in parts if isinstance(names, list))
    told = (f"{kind} {', '.join(names)}" for kind, names in quoted if names)
    return f'piece = "{named["piece"]}": {"; ".join(told)}.'


def _alterations() -> _Listing:
    tables: list[Table] = []
    data: list[dict[str, object]] = []
    for entry in ALTERATIONS:
        options = [_option(option) for option in entry.options]
        tables.append(
            Table(
                f'alter = "{entry.name}"',
                _OPTIONS,
                tuple(_option_row(option) for option in options),
                above=f"{entry.about} Also looked for as: {', '.join(entry.also)}." if entry.also else entry.about,
                below=(f"Leaves exactly as they were: {entry.leaves}.", f"Carries to: {entry.carries}."),
            )
        )
        data.append(
            {
                "name": entry.name,
                "about": entry.about,
                "also": list(entry.also),
                "leaves": entry.leaves,
                "carries": entry.carries,
                "options": options,
            }
        )
    return tables, data


def _checks() -> _Listing:
    rows = tuple(Row((check.name, check.about, check.code)) for check in CHECKS)
    columns = (Column("check"), Column("what it looks at"), Column("code"))
    data: list[dict[str, object]] = [{"code": check.code, "name": check.name, "about": check.about} for check in CHECKS]
    return [Table("Checks", columns, rows)], data


def _measurements() -> _Listing:
    rows = tuple(
        Row((f"{each.name}\n{each.key}", each.how, _range(*each.woman), _range(*each.child))) for each in MEASUREMENTS
    )
    basics = ", ".join(measurement(key).name for key in BASICS)
    table = Table(
        "Measurements",
        (Column("measurement"), Column("how it is measured"), Column("a woman"), Column("a child")),
        rows,
        above="In cm, mm or in, under [measurements] of a person's file, by the second name.",
        below=(f"Needed: {basics}. The others are estimated where they are left out.",),
    )
    data: list[dict[str, object]] = [
        {
            "key": each.key,
            "name": each.name,
            "term": each.term,
            "kind": each.kind,
            "take": each.how,
            "needed": each.key in BASICS,
            "woman_mm": list(each.woman),
            "child_mm": list(each.child),
        }
        for each in MEASUREMENTS
    ]
    return [table], data


def _sizes() -> _Listing:
    girths = {size: [chart_length(size, key).mm for key in _SIZED] for size in SIZES}
    table = Table(
        "Sizes",
        (Column("size"), *(Column(measurement(key).name, True) for key in _SIZED)),
        tuple(Row((str(size), *(length_text(mm, "cm") for mm in girths[size]))) for size in SIZES),
        above="The chart for women. Under [sizes], and in blend, it is the size that is written, not the girth.",
    )
    data: list[dict[str, object]] = [{"size": size, **dict(zip(_SIZED, girths[size], strict=True))} for size in SIZES]
    return [table], data


def _papers() -> _Listing:
    rows = tuple(
        Row((paper.name, _size(paper.width, paper.height), _size(paper.area_width, paper.area_height)))
        for paper in PAPERS.values()
    )
    columns = (Column("paper"), Column("its size, mm", True), Column("drawn on, mm", True))
    data: list[dict[str, object]] = [
        {
            "name": paper.name,
            "mm": [paper.width, paper.height],
            "drawn_mm": [paper.area_width, paper.area_height],
        }
        for paper in PAPERS.values()
    ]
    return [Table("Papers", columns, rows)], data


LISTS: Final[Mapping[str, Callable[[], _Listing]]] = MappingProxyType(
    {
        "blocks": _blocks,
        "alterations": _alterations,
        "checks": _checks,
        "measurements": _measurements,
        "sizes": _sizes,
        "papers": _papers,
    }
)
"""What can be listed."""


def _option(option: Option) -> dict[str, object]:
    """An option as data: its range and default in mm, as a fraction of one, or in degrees."""
    required = isinstance(option.default, Required)
    return {
        "name": option.name,
        "about": option.about,
        "kind": option.kind,
        "low": option.low,
        "high": option.high,
        "choices": list(option.choices),
        "required": required,
        "default": None if isinstance(option.default, Required) else option.default,
    }


def _ease_option(place: str) -> dict[str, object]:
    low, high = EASE_LIMITS[place]
    plain = place == "cap_ease"
    about = "how much longer the cap is than the armhole" if plain else f"ease added at: {place.replace('_', ' ')}"
    return {
        "name": place if plain else f"ease.{place}",
        "about": about,
        "kind": "length",
        "low": low,
        "high": high,
        "choices": [],
        "required": False,
        "default": "by cloth and fit",
    }


def _option_row(option: Mapping[str, object]) -> Row:
    kind = str(option["kind"])
    choices = option["choices"]
    ranged = ", ".join(map(str, choices)) if isinstance(choices, list) and choices else _span(kind, option)
    default = option["default"]
    if option["required"]:
        left_out = "must be given"
    elif default is None or default == "":
        left_out = "see what it says" if default is None else "none"
    elif isinstance(default, str):
        left_out = default
    elif isinstance(default, bool):
        left_out = "true" if default else "false"
    else:
        left_out = _shown(kind, default)
    return Row((str(option["name"]), str(option["about"]), ranged, left_out))


def _span(kind: str, option: Mapping[str, object]) -> str:
    low, high = option["low"], option["high"]
    unit = " degrees" if kind == "angle" else ""
    if low is None and high is None:
        return {"text": "a name", "flag": "true or false"}.get(kind, f"any {kind}")
    if low is None or high is None:
        limit = f"{_shown(kind, high)} or less" if low is None else f"{_shown(kind, low)} or more"
        return limit + unit
    return f"{_shown(kind, low)} to {_shown(kind, high)}{unit}"


def _shown(kind: str, value: object) -> str:
    number = float(value) if isinstance(value, float | int) else 0.0
    if kind == "length":
        return length_text(number, "cm")
    return percent(number) if kind == "percent" else f"{number:g}"


def _range(low: float, high: float) -> str:
    return f"{low / 10:g} to {high / 10:g} cm"


def _size(width: float, height: float) -> str:
    return f"{width:g} by {height:g}"
