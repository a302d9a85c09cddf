"""Which size of a bought pattern, from Python and for the page: a chart, a person, a cloth; plain values back."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from drafting.body.charts import CHARTS
from drafting.body.person import Person
from drafting.body.terms import measurement
from drafting.fit.cloth import Cloth
from drafting.fit.cloth_table import cloth_meant
from drafting.fit.ease import Fit
from drafting.reading.given import type_problem
from drafting.reading.read_table import refuse
from drafting.sizing.choose_size import SizeChoice, choose_size
from drafting.sizing.garment_kinds import GARMENT_KINDS, garment_kind
from drafting.sizing.pattern_chart import built_in_chart
from drafting.sizing.read_chart import read_chart
from drafting.sizing.size_level import SizeAt, SizeLevel
from output.api.plain_passage import plain_passage
from output.drawings.side_seam_picture import side_seam_picture
from output.report.size_page import size_html
from output.report.size_words import size_passages, take_sentence

if TYPE_CHECKING:
    from blocks.garment import Garment

__all__ = ["CHARTS", "accept_chart", "garment_kinds", "size_choice", "size_data", "size_page"]


def size_choice(
    chart: str | Path | Mapping[str, object] | Garment,
    who: Person,
    *,
    kind: str = "",
    cloth: Cloth | None = None,
    fit: Fit | None = None,
) -> SizeChoice:
    """The size to take of a chart.

    chart: a chart file, its tables as they would stand in one ({"unit": "in", "sizes": "8 10 12", "body": {"bust": "32
           34 36"}}), a garment made in [sizes], or the name of a built-in chart: "women", "girls", "boys", "babies"
    kind:  the kind of garment; "" for the chart's own, else a dress
    cloth: what she sews it in; None for what the pattern is drawn for
    fit:   how close; None for as the pattern is drawn
    Raises InputProblems with everything that is wrong, UnknownName for a kind of garment that is not there.
    """
    problems = (
        type_problem("size_choice, who", who, Person, "a person: read_person(...) or person(...)"),
        type_problem("size_choice, kind", kind, str, 'a kind of garment: "dress"'),
        type_problem("size_choice, cloth", cloth, (Cloth, type(None)), 'a cloth: Cloth("denim")'),
        type_problem("size_choice, fit", fit, (str, type(None)), '"close", "regular" or "loose"'),
    )
    refuse([*filter(None, problems)])
    if isinstance(chart, str) and chart in CHARTS:
        used = cloth or Cloth()
        return choose_size(
            built_in_chart(chart, used, fit or "regular"), who, garment_kind(kind or "dress"), used, fit=fit
        )
    if isinstance(chart, str | Path | Mapping):
        read = read_chart(chart)
    else:
        from blocks.garment import Garment
        from output.api.garment_chart import garment_chart  # drafts: not for a chart that is read

        problem = type_problem(
            "size_choice, chart", chart, Garment, "a chart file, what stands in one, or a garment in sizes"
        )
        refuse([problem] if problem else [])
        read = garment_chart(chart)
    row = cloth_meant(read.cloth)
    used = cloth or (Cloth(kind=row.word) if row is not None else Cloth())
    return choose_size(read, who, garment_kind(kind or read.garment or "dress"), used, fit=fit)


def accept_chart(chart: Mapping[str, object]) -> None:
    """Raise InputProblems with everything that is wrong in the tables of a chart."""
    read_chart(chart)


def garment_kinds() -> tuple[str, ...]:
    """Every kind of garment there is a rule for, as `kind` takes it."""
    return tuple(GARMENT_KINDS)


def _accept_choice(where: str, choice: object) -> None:
    problem = type_problem(f"{where}, choice", choice, SizeChoice, "what size_choice(...) gives")
    refuse([problem] if problem else [])


def size_page(choice: SizeChoice) -> str:
    """One page to print, as HTML."""
    _accept_choice("size_page", choice)
    return size_html(choice)


def size_data(choice: SizeChoice) -> dict[str, object]:
    """A choice as plain values, lengths in mm: what `--json` writes; the picture as SVG, "" where there is no blend."""
    _accept_choice("size_data", choice)
    shape = choice.shape
    return {
        "take": take_sentence(choice),
        "size": choice.size,
        "rules": choice.rules,
        "why": choice.kind.why,
        "runner_up": choice.runner_up,
        "for": choice.kind.name,
        "cloth": choice.cloth.kind,
        "fit": choice.fit,
        "length_size": choice.length_size,
        "levels": [_level(level) for level in choice.levels],
        "tapes": [
            {"measurement": tape.key, "name": measurement(tape.key).name, "mm": tape.mm, **_at(tape.at)}
            for tape in choice.tapes
        ],
        "blends": [
            {
                "at": blend.place,
                "size": blend.size,
                "from": blend.from_place,
                "from_size": blend.from_size,
                "each_edge_mm": blend.by,
                "round_mm": 4.0 * blend.by,
                "ease_without_mm": blend.ease_before,
            }
            for blend in choice.blends
        ],
        "too_small": [
            {"at": each.place, "lacks_mm": each.by, "each_edge_mm": each.each_edge} for each in choice.too_small()
        ],
        "no_blend_needed": list(choice.unneeded),
        "bust": None
        if shape is None
        else {
            "own_mm": shape.own,
            "drawn_for_mm": shape.drawn_for,
            "size_by_high_bust": shape.size,
            "cup": shape.cup,
            "full_bust_mm": shape.total,
            "each_half_mm": shape.per_side,
        },
        "lengths": [
            {
                "measurement": change.key,
                "name": measurement(change.key).name,
                "own_mm": change.own,
                "has_mm": change.has,
                "by_mm": change.by,
                "sd_mm": change.sd,
            }
            for change in choice.lengths
        ],
        "picture": side_seam_picture(choice) if choice.blends else "",
        "said": [plain_passage(said) for said in size_passages(choice)],
    }


def _level(level: SizeLevel) -> dict[str, object]:
    return {
        "at": level.place,
        "body_mm": level.body,
        "by_body": None if level.by_body is None else _at(level.by_body),
        "by_finished": level.by_finished,
        "size": level.pick,
        "ease_wanted_mm": level.wanted,
        "ease_least_mm": level.least,
        "ease_designed_mm": level.designed,
        "source": level.source,
        "eases": [{"size": each.size, "finished_mm": each.finished, "ease_mm": each.ease} for each in level.eases],
    }


def _at(at: SizeAt) -> dict[str, object]:
    return {"size": at.size, "between": list(at.between), "share": at.share}
