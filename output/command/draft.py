"""`trueseam draft`: from a garment file to a folder of sheets, pieces, pattern and report."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict, replace
from functools import partial
from pathlib import Path
from typing import Final

from blocks.from_file.garment_file import read_garment
from blocks.garment import Garment, draft, in_order, order_taken, prepare, redrafted_with
from blocks.paper import Paper
from blocks.remedies.block_at_fault import Ordered
from blocks.remedies.step_at_fault import checked_after, where_written
from blocks.take_steps import stages
from drafting.alterations.alteration_words import as_written
from drafting.alterations.swapped_steps import swapped
from drafting.body.plausible import Doubt
from drafting.checks import CHECKS, Result, Verdict, worst
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft, InputProblems, Problem, Setting, StepRefused, UnknownName, meant
from drafting.fit.ease import Ease
from drafting.pattern import Pattern
from drafting.pattern.text import to_json
from drafting.reading.files import load_toml
from drafting.reading.units import NotRead, printable, sentence_in
from output.api.garment_files import COPY_SHOP_PDF, HOME_PDF, garment_files, last_drafted, on_paper
from output.api.making import Draft
from output.api.nearest_value import can_be_drafted, nearest_tried, with_value
from output.command.answer import Answer
from output.command.brief import Summary, summaries
from output.command.progress import progress
from output.command.streams import print_error
from output.report.before_after import order_passage, steps_data
from output.report.cloth_words import cloth_data, cloth_passages
from output.report.since_last import since_last, since_last_briefly
from output.report.step_order import order_taken_passage
from output.report.tables import (
    Passage,
    Said,
    check_tables,
    counted,
    ease_notes,
    estimate_table,
    fault_lines,
    finished_table,
    gave_way_passage,
    look_first_passages,
)
from output.sheets.papers import PAPERS, sheet_count_words

__all__ = [
    "MadeGarment",
    "draft_to_folder",
    "make_garment",
    "paper_problems",
    "pattern_data",
    "pattern_sections",
    "pattern_summaries",
    "print_lines",
    "read_order",
    "status_of",
    "step_order_passages",
]

_FAILED: Final = (Verdict.FAIL, Verdict.ERROR, Verdict.NOTHING)


@dataclass(frozen=True, slots=True)
class MadeGarment:
    """A garment drafted, altered and checked, with what is told about it.

    reordered: whether the steps were taken in another order than they are written in
    drawn_out: a sentence where estimates reach beyond the bodies measured
    """

    draft: Draft
    results: tuple[Result, ...]
    doubts: tuple[Doubt, ...]
    drawn_out: tuple[str, ...] = ()
    reordered: bool = False

    @property
    def garment(self) -> Garment:
        """What was ordered."""
        return self.draft.garment

    @property
    def pattern(self) -> Pattern:
        """The pattern after the last step."""
        return self.draft.pattern


def draft_to_folder(
    path: Path,
    *,
    to: Path | None,
    paper: str | None,
    quiet: bool,
    unit: str | None = None,
    explain: bool = False,
) -> Answer:
    """Draft a garment file and write everything to a folder, or nothing.

    to:      the folder; None for one named after the garment file, in the current folder
    paper:   the paper to use instead of the file's
    quiet:   whether nobody is to be shown how far it has come
    unit:    what lengths are shown in; None for the wearer's own
    explain: whether to tell the order of the steps, and what neighbours would give in the other order

    Raises TrueseamError for what cannot be used, and CannotWrite for a folder that cannot be written.
    """
    from output.files.write_folder import write_all

    folder = to if to is not None else Path(path.stem)
    with progress(watched=not quiet) as tell:
        tell("reading", 0.0)
        garment = read_order(path, paper, unit)
        tell("drafting", 0.05)
        whole = make_garment(garment)
        order = step_order_passages(whole, explain=explain)
        before = last_drafted(folder)
        files = garment_files(whole.draft, whole.results, order=order, before=before, tell=tell)
        written = write_all(folder, dict(files), print_error)
    names = [str(name.relative_to(folder)) for name in written]
    written_told = _written(whole, folder, names)
    changed = since_last(before, whole.pattern, whole.garment.wearer.unit)
    said = (*((changed,) if changed else ()), *pattern_sections(whole, explain=explain), written_told)
    ways = pattern_summaries(whole, explain=explain, written=written_told)
    brief = tuple((*since_last_briefly(before, whole.pattern, whole.garment.wearer.unit), *way) for way in ways)

    def data() -> dict[str, object]:
        from output.api.laying import to_buy

        bought = [asdict(each) for each in to_buy(whole.draft)]
        return {**pattern_data(whole), "to_buy": bought, "folder": str(folder), "files": names}

    return Answer(status_of(whole.results), said, data, brief)


def make_garment(garment: Garment, *, drafted: Pattern | None = None) -> MadeGarment:
    """The garment drafted, altered and checked. Raises CannotDraft or StepRefused, with the place, or InputProblems.

    drafted: its pattern before any step, where it has been drafted already
    """
    try:
        prepared = prepare(garment)
        pattern = drafted or draft(garment, prepared)
    except CannotDraft as refused:
        raise _told(refused, garment) from refused
    taken, chosen = order_taken(garment), garment.order == "by layer"
    garment = in_order(garment)
    try:
        unit = garment.wearer.unit
        again = partial(redrafted_with, garment, prepared)
        taking = stages(pattern, garment.steps, sources=garment.sources, unit=unit, checks=CHECKS, redrafted=again)
        whole = tuple(taking)
    except CannotDraft as refused:
        raise _told(refused, garment) from refused
    except StepRefused as refused:
        said = sentence_in(garment.wearer.unit, as_written(refused.sentence(), refused.alteration), at_most=True)
        if chosen and any(each.act == "put before" for each in refused.remedies):
            said += '; the steps are taken as they are written with order = "as written"'
        raise StepRefused(
            refused.alteration, reason=refused.reason, remedies=refused.remedies, step=refused.step, worded=said
        ) from refused
    ordered = Ordered(garment, prepared, by_layer=chosen)
    results = checked_after(whole, garment.steps, sources=garment.sources, unit=garment.wearer.unit, ordered=ordered)
    taken_through = Draft(garment, prepared, whole)
    told = tuple(_as_written(each) for each in results)
    return MadeGarment(
        taken_through, told, taken_through.doubts, taken_through.drawn_out, reordered=taken != tuple(sorted(taken))
    )


def _told(refused: CannotDraft, garment: Garment) -> CannotDraft:
    """The refusal with whose fault it is, in her unit."""
    asked_too_much = refused.ways and all(way.of != "measurement" for way in refused.ways)
    who, order = garment.wearer.place or garment.wearer.name, garment.place or garment.title
    if asked_too_much:
        who = f"{order}, [[block]]"
    elif not refused.measurements and not refused.ways:  # a part that cannot be drawn: no body is at fault
        who = f"{order}, [[part]]" if garment.parts else order
    lines = refused.reason.splitlines()
    reason = "\n".join(f"{who}: {sentence_in(garment.wearer.unit, line)}" for line in lines)
    return CannotDraft(refused.measurements, reason, refused.ways, refused.part, refused.remedies)


def _as_written(result: Result) -> Result:
    """The result, what it gives to type in place of a step told as that step is written."""
    remedy, came, step = result.remedy.partition(" It came with ")
    return replace(result, remedy=f"{remedy}{came}{as_written(step, step)}") if came else result


def status_of(results: Sequence[Result]) -> int:
    """The exit status that the checks ask for: 1 when one failed, or when nothing was proved at all."""
    return 1 if worst(results) in _FAILED else 0


def step_order_passages(whole: MadeGarment, *, explain: bool) -> tuple[Passage, ...]:
    """The order in which the steps were taken, and why, where they are written in another.

    explain: whether to tell as well what every two neighbouring steps would give the other way round
    """
    steps, sources = whole.garment.steps, whole.garment.sources
    written = [where_written(sources, count) for count in range(len(steps))]
    taken = [order_taken_passage(steps, written)] if whole.reordered else []
    swaps = swapped(whole.draft.stages, steps) if explain else ()
    other = [order_passage(swaps, whole.pattern.history, whole.garment.wearer.unit)] if explain else []
    return (*taken, *other)


def pattern_sections(whole: MadeGarment, *, explain: bool = False) -> tuple[Said, ...]:
    """What is said about a garment: its checks, what gave way, what was guessed, how large it comes out.

    explain: whether to tell the order of its steps as well, and what they would give in another
    """
    unit = whole.garment.wearer.unit
    used = whole.pattern.wearer.lengths
    title = ", ".join((whole.pattern.title, _about(whole)))
    return (
        Passage(title, (counted(whole.results), *fault_lines(whole.results, unit)), worst(whole.results)),
        *look_first_passages(whole.doubts, whole.drawn_out),
        gave_way_passage(whole.pattern, unit),
        *cloth_passages(whole.garment.cloth, whole.pattern, unit),
        *ease_notes(whole.draft.ease, unit),
        estimate_table(used, [unit]),
        finished_table(whole.pattern, [unit]),
        *(step_order_passages(whole, explain=True) if explain else ()),
        *check_tables(whole.results, unit),
    )


def pattern_summaries(
    whole: MadeGarment, *, explain: bool = False, written: Said | None = None
) -> tuple[tuple[Said, ...], ...]:
    """The same in few lines, the fullest way first; what is told of the order of steps stands behind all of them."""
    place = whole.garment.wearer.place
    told = Summary(
        whole.pattern,
        whole.results,
        whole.garment.wearer.unit,
        about=_about(whole),
        doubts=whole.doubts,
        drawn_out=whole.drawn_out,
        ease=whole.draft.ease,
        measure=f"trueseam measure {place} --all" if place.endswith(".toml") else "",
        written=(written,) if written is not None else (),
    )
    order = step_order_passages(whole, explain=True) if explain else ()
    return tuple((*way, *order) for way in summaries(told))


def pattern_data(whole: MadeGarment) -> dict[str, object]:
    """The same for a program: lengths in millimetres, checks as in pattern.json."""
    from drafting.sewing import cautions
    from output.report.sewing_words import sewing_data

    document = json.loads(to_json(whole.pattern, whole.results))
    return {
        "title": whole.pattern.title,
        "wearer": document["wearer"],
        "verdict": worst(whole.results).value,
        "finished": document["finished"],
        "ease": [_ease_data(ease) for ease in whole.draft.ease],
        "cloth": cloth_data(whole.garment.cloth, whole.pattern),
        "gave_way": [sentence for origin in whole.pattern.origin for sentence in origin.gave_way],
        "doubts": [{"measurement": doubt.key, "sentence": doubt.sentence} for doubt in whole.doubts],
        "drawn_out": list(whole.drawn_out),
        "history": document["history"],
        "steps": steps_data(whole.draft.stages),
        "sewing": sewing_data(whole.pattern, whole.garment.wearer.unit, knit=whole.garment.cloth.knit),
        "cautions": [{"kind": each.kind, "sentences": list(each.sentences)} for each in cautions(whole.pattern)],
        "checks": document["checks"],
    }


def _ease_data(ease: Ease) -> dict[str, object]:
    data: dict[str, object] = {"place": ease.place, "mm": round(ease.mm, 4), "source": ease.source}
    return data | ({"note": ease.note} if ease.note else {})


def read_order(path: Path, paper: str | None, unit: str | None = None) -> Garment:
    """The garment file, on the paper and in the unit asked for; what is wrong is reported together."""
    problems = paper_problems(paper) if paper is not None else []
    try:
        garment = read_garment(path)
    except InputProblems as wrong:
        if not problems:
            wrong = _with_nearest(path, wrong)
        raise InputProblems([*problems, *wrong.problems]) from None
    if problems:
        raise InputProblems(problems)
    if unit is not None:
        garment = replace(garment, wearer=replace(garment.wearer, unit=unit))
    if paper is None:
        return garment
    return replace(garment, paper=on_paper(garment.paper, paper))


def _with_nearest(path: Path, wrong: InputProblems) -> InputProblems:
    """The problems of a garment file, with the nearest that can be had for a number beyond its range."""
    problem = wrong.problems[0]
    if problem.nearest is None or not problem.where.startswith(f"{printable(str(path), most=200)}, "):
        return wrong  # of a file that it follows, or of the person's
    tables = load_toml(path)

    def ordered(setting: Setting) -> Garment:
        changed = with_value(tables, problem, setting)
        return read_garment(path, load=lambda other: changed if other == path else load_toml(other))

    try:
        unit = ordered(problem.nearest).wearer.unit
    except InputProblems:
        return wrong
    return nearest_tried(wrong, lambda _, setting: can_be_drafted(lambda: ordered(setting)), unit)


def paper_problems(paper: str) -> list[Problem]:
    """What is wrong with a paper named on the command line."""
    place, read = "the command line, --paper", f'"{printable(paper)}"'
    try:
        on_paper(Paper(), paper)
    except UnknownName:
        return [Problem(place, read, f'{", ".join(PAPERS)} or "roll 36 in"', meant(paper, PAPERS))]
    except NotRead as wrong:
        return [Problem(place, read, f'"roll" and its width: {wrong.expected}', wrong.mend)]
    return []


def _about(whole: MadeGarment) -> str:
    about = [f"for {whole.pattern.wearer.name}", whole.draft.dated, f"{len(whole.pattern.pieces)} pieces"]
    return ", ".join(part for part in about if part)


def print_lines(paper: Paper, folder: Path, names: Sequence[str]) -> tuple[str, ...]:
    """Where the files to print are, and on what paper; `names` of all that was written to the folder."""
    sheets = sheet_count_words(sum(name.startswith("sheets/") for name in names))
    large = "a roll" if paper.roll else paper.size if HOME_PDF not in names else "A0"
    if HOME_PDF not in names:
        return (f"{folder / COPY_SHOP_PDF}: for a copy shop, {sheets} of {large}, at 100 %, never fitted to the page",)
    why = ' (as you write inches; for the other, size = "A4" below [paper])' if paper.by_unit else ""
    return (
        f"{folder / HOME_PDF}: {sheets} of {paper.size}{why}, to be printed at 100 %, never fitted to the page",
        f"{folder / COPY_SHOP_PDF}: the same for a copy shop, on {large}",
    )


def _written(whole: MadeGarment, folder: Path, names: Sequence[str]) -> Passage:
    return Passage(
        "Written",
        (
            f"{folder / 'report.html'}: open it in a browser first",
            *print_lines(whole.garment.paper, folder, names),
            "beside them sheets and pieces (as SVG), pattern.dxf (for a cutter), pattern.json (for other programs)",
        ),
    )
