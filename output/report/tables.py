"""What is said of a pattern, as plain tables and passages: the terminal and the report show the same ones."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import fields
from itertools import groupby
from typing import Final

from drafting.alterations import ALTERATIONS, AlterationTable
from drafting.alterations.alteration_words import WORDS, turned_word
from drafting.body.plausible import Doubt
from drafting.body.terms import measurement, measurement_for
from drafting.checks import Result, Verdict
from drafting.checks.giving import worn_stretched
from drafting.dataclass import dataclass
from drafting.errors import UnknownName
from drafting.fit.ease import EASE_WORDS, PLACES, Ease
from drafting.pattern import BodyLength, EdgeRef, Finished, Pattern, Step, finished, walk
from drafting.pattern.ease_found import armhole_depth_ease, cap_ease
from drafting.pattern.let_down import let_down_by
from drafting.reading.options import Required
from drafting.reading.units import cm, difference_text, fine_text, length_text, percent, sentence_in
from output.drawings.gather_notes import gather_words

__all__ = [
    "Column",
    "Passage",
    "Row",
    "Said",
    "Table",
    "check_tables",
    "counted",
    "doubt_passage",
    "ease_notes",
    "ease_sources_table",
    "estimate_table",
    "fault_lines",
    "finished_table",
    "gather_table",
    "gave_way_passage",
    "look_first_passages",
    "measured_table",
    "seam_table",
    "step_sentence",
    "steps_passage",
]


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table; numbers stand to its right."""

    name: str
    numbers: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """A row: a cell may hold several lines. The verdict says how much it is to stand out; None for not at all."""

    cells: tuple[str, ...]
    verdict: Verdict | None = None


@dataclass(frozen=True, slots=True)
class Table:
    """A table with what is said above it and below it."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    above: str = ""
    below: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Passage:
    """Sentences under a title, each a paragraph or a point of its own."""

    title: str
    sentences: tuple[str, ...]
    verdict: Verdict | None = None


Said = Table | Passage

_GRAVEST_FIRST: Final = (Verdict.ERROR, Verdict.FAIL, Verdict.WARN, Verdict.NOTHING, Verdict.PASS)
_VERDICT_WORDS: Final = {
    Verdict.PASS: "pass",
    Verdict.WARN: "warning",
    Verdict.FAIL: "FAILED",
    Verdict.ERROR: "NOT PROVED",
    Verdict.NOTHING: "nothing there",
}


def finished_table(pattern: Pattern, units: Sequence[str]) -> Table:
    """The finished garment against the body, in each of the units, one line of a cell to each."""
    stretched = worn_stretched(pattern)
    more = [let_down_by(pattern, measure) for measure in pattern.measures]
    columns = [Column(""), Column("body", True), Column("ease", True), Column("now" if any(more) else "finished", True)]
    columns += [Column("let down", True)] if any(more) else []
    columns += [Column("worn stretched", True)] if stretched else []
    rows = []
    for each, longer in zip(finished(pattern), more, strict=True):
        cells = [each.name, _lengths(each.body, units), _ease_shown(each, units), _lengths(each.finished, units)]
        cells += [_lengths(each.finished + longer, units) if longer else ""] if any(more) else []
        cells += [percent(stretched[each.name]) if each.name in stretched else ""] if stretched else []
        rows.append(Row(tuple(cells)))
    return Table("Finished measurements", tuple(columns), tuple(rows))


def _ease_shown(each: Finished, units: Sequence[str]) -> str:
    """The ease in each of the units: what is shown as finished less what is shown of the body."""
    body = each.body
    return "" if body is None else "\n".join(difference_text(each.finished, body, unit) for unit in units)


def gave_way_passage(pattern: Pattern, unit: str) -> Passage:
    """What gave way where measurements or wishes competed."""
    sentences = tuple(sentence_in(unit, sentence) for origin in pattern.origin for sentence in origin.gave_way)
    return Passage("What gave way", sentences or ("Nothing had to give way in the draft.",))


def ease_notes(ease: Iterable[Ease], unit: str) -> tuple[Passage, ...]:
    """The eases that were asked for and are not usual, as a passage; nothing where all are."""
    sentences = tuple(sentence_in(unit, each.note) for each in ease if each.note)
    return (Passage("Ease that is not usual", sentences),) if sentences else ()


def counted(results: Sequence[Result]) -> str:
    """How the checks went, in one sentence."""
    tally = {verdict: sum(result.verdict is verdict for result in results) for verdict in Verdict}
    failed, passed = tally[Verdict.FAIL] + tally[Verdict.ERROR], tally[Verdict.PASS]
    idle = ", ".join(dict.fromkeys(result.check for result in results if result.verdict is Verdict.NOTHING))
    unseen = f" Nothing was there to look at for: {idle}." if idle else ""
    if passed == len(results) - tally[Verdict.NOTHING] > 0:
        return f"All {passed} checks passed.{unseen}"
    parts = [f"{_several(passed, 'check')} passed"]
    if tally[Verdict.WARN]:
        parts.append(_several(tally[Verdict.WARN], "warning"))
    if failed:
        return f"{', '.join([*parts, f'{failed} failed'])}. Do not cut before this is mended.{unseen}"
    return f"{', '.join(parts)}.{unseen}" if passed else f"{', '.join(parts)}. Nothing is proved about this pattern."


def fault_lines(results: Sequence[Result], unit: str) -> tuple[str, ...]:
    """A sentence for each thing that failed, then for each that was warned of; lengths in the unit she works in."""
    shown = (Verdict.ERROR, Verdict.FAIL, Verdict.WARN)
    return tuple(
        f"{result.check}, {sentence_in(unit, result.where)}: {sentence_in(unit, result.remedy)}"
        for result in _gravest_first(results)
        if result.verdict in shown
    )


def check_tables(results: Sequence[Result], unit: str) -> tuple[Table, ...]:
    """Everything the checks found, a table to each check, with all numbers; what failed stands first.

    unit: what lengths are shown in: "in", or else millimetres, as fine as a seam is judged; the table names it
    """
    groups = [(name, list(found)) for name, found in groupby(results, key=lambda result: result.check)]
    groups.sort(key=lambda group: min(_GRAVEST_FIRST.index(result.verdict) for result in group[1]))
    columns = (Column(""), Column("found", True), Column("wanted", True), Column("allowed", True), Column("", True))
    return tuple(
        Table(
            name + _unit_of(found, unit),
            columns,
            tuple(_check_row(result, unit) for result in _gravest_first(found)),
        )
        for name, found in groups
    )


def seam_table(pattern: Pattern, unit: str) -> Table:
    """Every seam walked: how long its two sides are, and how much longer the first is."""
    rows = []
    for seam in pattern.seams:
        walked = walk(pattern, seam)
        wanted = (
            "equal"
            if seam.plain
            else f"{fine_text(seam.ease.wanted, unit)} {'gathered' if walked.gathered else 'eased'} in"
        )
        sides = (f"{_to_tenths(walked.a, unit)}\n{_pieces(seam.a)}", f"{_to_tenths(walked.b, unit)}\n{_pieces(seam.b)}")
        rows.append(Row((seam.name, *sides, fine_text(walked.a - walked.b, unit), wanted)))
    numbers = (Column(name, numbers=True) for name in ("one side", "the other", "difference", "wanted"))
    return Table("The seams walked", (Column(""), *numbers), tuple(rows))


def gather_table(pattern: Pattern, unit: str) -> Table:
    """What is gathered or eased in: on which piece, from where to where, and to what length; then onto what."""
    rows = []
    for each in gather_words(pattern, unit):
        held = each.held
        how = held.kind if held.longer else f"the other is {held.kind} onto it"
        lengths = (_to_tenths(held.length, unit), _to_tenths(held.to, unit))
        rows.append(Row((held.seam, held.piece, how, each.begin, each.end, *lengths)))
    columns = (
        *(Column(name) for name in ("", "piece", "how", "from", "to")),
        Column("cut", True),
        Column("sewn", True),
    )
    above = "" if rows else "Nothing: every seam is sewn flat."
    return Table("What is gathered or eased", columns, tuple(rows), above=above)


def estimate_table(lengths: Iterable[BodyLength], units: Sequence[str]) -> Table:
    """The estimated lengths, the least certain first, with how far off each may be and how to take it."""
    estimated = [length for length in lengths if length.source == "estimated"]
    estimated.sort(key=lambda length: (-(length.sd or 0.0) / length.mm, length.key))
    rows = (
        Row((_small_below(each.key), _lengths(each.mm, units), _lengths(each.sd, units), measurement(each.key).how))
        for each in estimated
    )
    above = (
        "These were not measured. Two bodies in three of this height and these girths come within the give or take. "
        "Once measured, write them into the person's file, under the name in one word."
        if estimated
        else "Nothing was estimated: every length that went into the pattern was measured."
    )
    columns = (Column(""), Column("estimated", True), Column("give or take", True), Column("how to measure it"))
    return Table("Estimated lengths, the least certain first", columns, tuple(rows), above=above)


def measured_table(lengths: Iterable[BodyLength], units: Sequence[str], *, child: bool) -> Table:
    """The measured lengths and how each is taken. child: whether they are a child's"""
    taken = [each for each in lengths if each.source != "estimated"]
    named = [(measurement_for(each.key, "girl" if child else "woman"), each.mm) for each in taken]
    rows = (Row((about.name, _lengths(mm, units), about.how)) for about, mm in named)
    return Table("Measured lengths", (Column(""), Column("measured", True), Column("how it is measured")), tuple(rows))


def look_first_passages(doubts: Sequence[Doubt], drawn_out: Sequence[str]) -> tuple[Passage, ...]:
    """What is to be looked at before anything is cut: lengths that look wrong, and estimates that reach far."""
    sentences = (*(doubt.sentence for doubt in doubts), *drawn_out)
    return (Passage("Look at this first", sentences, Verdict.WARN),) if sentences else ()


def doubt_passage(doubts: Sequence[Doubt]) -> Passage:
    """The measured lengths that look wrong."""
    if not doubts:
        return Passage("What looks wrong", ("Nothing: every measured length is one that such a body can have.",))
    return Passage("What looks wrong", tuple(doubt.sentence for doubt in doubts), Verdict.WARN)


_FOUND_WITHOUT_TAPE: Final = {"scye_depth": armhole_depth_ease, "cap_ease": cap_ease}
"""What the pattern has at places that no finished measurement goes to."""


def ease_sources_table(ease: Iterable[Ease], pattern: Pattern, units: Sequence[str]) -> Table:
    """The ease at each place: what was wanted, what the pattern has there, and whose figure it is."""
    has = {m.key: made for m, made in zip(pattern.measures, finished(pattern), strict=True) if m.key}
    rows = []
    for each in ease:
        made = has.get(PLACES[each.place] or "")
        found = _FOUND_WITHOUT_TAPE.get(each.place)
        there = _ease_shown(made, units) if made else _lengths(found(pattern), units) if found else ""
        place = EASE_WORDS.called(each.place).replace("_", " ")
        source = sentence_in(units[0], each.source)
        rows.append(Row((place, _lengths(each.mm, units), there, source)))
    columns = (
        Column(""),
        Column("wanted", True),
        Column("in the pattern", True),
        Column("where the figure comes from"),
    )
    return Table("Ease: how much larger the garment is than the body", columns, tuple(rows))


def steps_passage(pattern: Pattern, unit: str) -> Passage:
    """The alterations made, in their order."""
    sentences = tuple(f"{count}. {step_sentence(step, unit)}" for count, step in enumerate(pattern.history, start=1))
    return Passage("Alterations made", sentences or ("None.",))


def step_sentence(step: Step, unit: str, table: AlterationTable = ALTERATIONS) -> str:
    """An alteration in words, without the options that were left as they are."""
    try:
        alteration = table.named(step.alter)
        options = {option.name: option for option in alteration.options}
        brought = {field.name for field in fields(alteration)} - set(options)
    except UnknownName:
        options, brought = {}, set()
    lengths = {name: float(v) for name, v in step.options if isinstance(v, float | int) and not isinstance(v, bool)}
    turned = turned_word(step.alter, lengths, WORDS)
    piece = dict(step.options).get("piece")
    words = [str(piece)] if piece else []
    for name, value in step.options:
        option = options.get(name)
        as_it_was = option is not None and not isinstance(option.default, Required) and value == option.default
        if name == "piece" or as_it_was or name in brought:
            continue
        said = name.replace("_", " ")
        if isinstance(value, bool):
            words.append(said if value else f"{said} false")
        elif option is None or not isinstance(value, float | int):
            words.append(f"{said} {value}")
        elif option.kind == "length":
            shown = -float(value) if turned is not None and name in turned.turned else float(value)
            words.append(f"{said} {length_text(shown, unit)}")
        elif option.kind == "percent":
            words.append(f"{said} {percent(float(value))}")
        else:
            words.append(f"{said} {value:g}" + (" degrees" if option.kind == "angle" else ""))
    called = turned.word if turned is not None else step.alter
    return f"{called}: {', '.join(words)}" if words else called


def _check_row(result: Result, unit: str) -> Row:
    where = sentence_in(unit, result.where)
    if result.remedy:
        where = f"{where}\n{sentence_in(unit, result.remedy)}"
    numbers = (_found(result, result.measured, unit), _found(result, result.wanted, unit), _allowed(result, unit))
    return Row((where, *numbers, _VERDICT_WORDS[result.verdict]), result.verdict)


def _unit_of(results: Iterable[Result], unit: str) -> str:
    """The unit behind the name of a check, where any number was measured in it; "in" for mm where she works in it."""
    units = {result.unit for result in results if result.measured is not None or result.wanted is not None}
    if len(units) != 1:
        return ""
    (one,) = units
    return "" if one == "places" else f", {unit if one == 'mm' and unit == 'in' else one}"


def _found(result: Result, value: float | None, unit: str) -> str:
    """A number of a check without its unit, which stands above the table; a line that bends nowhere is "straight"."""
    if value is None:
        return ""
    if math.isinf(value):
        return "straight"
    if result.unit == "places":
        return f"{value:.0f}"
    return fine_text(value, unit).removesuffix(f" {unit}") if result.unit == "mm" and unit == "in" else _mm(value)


def _allowed(result: Result, unit: str) -> str:
    def shown(value: float) -> str:
        return _found(result, value, unit)

    if isinstance(result.allowed, tuple):
        low, high = result.allowed
        if low is not None and high is not None:
            return f"{shown(low)} to {shown(high)}"
        return f"{shown(low)} or more" if low is not None else f"{shown(high)} or less" if high is not None else ""
    if not result.allowed:
        return ""
    return f"{shown(result.allowed) if unit == 'in' else f'{result.allowed:g}'} either way"


def _gravest_first(results: Iterable[Result]) -> list[Result]:
    return sorted(results, key=lambda result: _GRAVEST_FIRST.index(result.verdict))


def _pieces(run: Iterable[EdgeRef]) -> str:
    return ", ".join(dict.fromkeys(ref.piece for ref in run))


def _to_tenths(mm: float, unit: str) -> str:
    """A length of a seam: to a tenth of a millimetre in centimetres, so that a difference can be seen."""
    return cm(mm, places=2) if unit == "cm" else length_text(mm, unit)


def _small_below(key: str) -> str:
    """The name of a measurement, and below it the word it has in a person's file, where that is another."""
    about = measurement(key)
    return about.name if about.name == about.word else f"{about.name}\n{about.word}"


def _lengths(mm: float | None, units: Sequence[str]) -> str:
    return "" if mm is None else "\n".join(length_text(mm, unit) for unit in units)


def _mm(value: float) -> str:
    """Tenths, without a minus before zero."""
    return f"{round(value, 1) + 0.0:.1f}"


def _several(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
