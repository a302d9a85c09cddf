"""`trueseam measure`: what is known of a body and how surely, what looks wrong on it, how each length is taken."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from blocks.block_table import plain_blocks
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.body.complete import Body, complete, uncertain_first
from drafting.body.earlier import HeightSlip, height_slips
from drafting.body.person import Person, read_person
from drafting.body.plausible import Contradiction, Doubt, contradictions, doubts, drawn_out
from drafting.body.terms import BASICS, MEASUREMENTS, measurement, measurement_for, measurements_for
from drafting.checks import Verdict
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft
from drafting.pattern import BodyLength
from drafting.reading.units import length_text
from output.api.measuring import unlike_children
from output.command.answer import Answer
from output.command.measure_more import (
    over_time_data,
    over_time_tables,
    worth_data,
    worth_for_garment,
    worth_passages,
)
from output.report.tables import Column, Passage, Row, Said, Table, doubt_passage, estimate_table, measured_table

__all__ = ["judge_measurements"]

_NAMED = (20, 14, 8, 4, 0)
"""Estimates that are shown, in fewer and fewer lines."""


@dataclass(frozen=True, slots=True)
class _Judged:
    """A body, and what was found of it.

    unlike:    what of a child is unlike other children of that height, in sentences
    slips:     heights that one body did not have on two days
    refused:   why the blocks there are cannot be drafted for it; nothing where they can be
    drawn_out: a sentence where estimates reach beyond the bodies measured
    """

    person: Person
    body: Body
    suspect: tuple[Doubt, ...]
    at_odds: tuple[Contradiction, ...]
    slips: tuple[HeightSlip, ...] = ()
    unlike: tuple[str, ...] = ()
    refused: tuple[str, ...] = ()
    drawn_out: tuple[str, ...] = ()

    @property
    def title(self) -> str:
        """Who she is, and when she was measured."""
        dated = f"measured {self.person.measured.isoformat()}" if self.person.measured else ""
        return ", ".join(part for part in (self.person.name, self.person.body, dated) if part)

    def verdict(self, most: int | None = None) -> Passage:
        """What is at odds and what looks wrong, the gravest first."""
        told = " ".join(self.refused)
        wrong = [*(each.sentence for each in self.at_odds), *(each.sentence for each in self.slips)]
        wrong += [*(each.sentence for each in self.suspect), *self.unlike]
        found = [*self.refused, *(sentence for sentence in wrong if sentence not in told), *self.drawn_out]
        kept = found[:most]
        if len(kept) < len(found):
            kept.append(f"And {len(found) - len(kept)} more: --all tells them.")
        if self.at_odds:
            return Passage(self.title, ("These cannot go together:", *kept), Verdict.FAIL)
        if self.refused:
            return Passage(self.title, ("Bodice, sleeve and skirt cannot be drafted from these:", *kept), Verdict.FAIL)
        if self.suspect or self.slips or self.unlike:
            return Passage(self.title, ("This looks like a slip of the tape:", *kept), Verdict.WARN)
        if self.drawn_out:
            return Passage(self.title, tuple(kept), Verdict.WARN)
        return Passage(self.title, ("Nothing looks wrong: a body can have all of these lengths at once.",))


def judge_measurements(path: Path, *, unit: str | None = None, garment: Path | None = None) -> Answer:
    """What a person's file tells. Exit status 1 where measurements cannot go together, or nothing can be drafted.

    Raises InputProblems, and what a garment that cannot be drafted raises.

    unit:    what lengths are shown in; None for the one of the file
    garment: the file of a garment, to tell which lengths are worth measuring for it
    """
    person = read_person(path)
    if unit is not None:
        person = replace(person, unit=unit)
    body = complete(person)
    at_odds = contradictions(body)
    refused = () if at_odds else _refused(person)
    slips = height_slips(person.over_time("stature"), person.body, person.unit)
    taken = dict(person.measurements)
    unlike = tuple(filter(None, (unlike_children(key, taken, person.body, person.unit) for key in BASICS)))
    found = _Judged(person, body, doubts(body), at_odds, slips, unlike, refused, drawn_out(body))
    worth = worth_for_garment(garment, person) if garment and not at_odds else None
    passages = worth_passages(*worth, person.unit) if worth else ()
    data = {
        "name": person.name,
        "body": person.body,
        "measurements": _data(body),
        "least_certain_first": [value.key for value in uncertain_first(body)],
        "doubts": [
            {
                "measurement": doubt.key,
                "mm": doubt.mm,
                "expected_mm": round(doubt.expected_mm, 1),
                "sentence": doubt.sentence,
            }
            for doubt in found.suspect
        ],
        "contradictions": [
            {"measurements": list(odds.keys), "by_mm": round(odds.by_mm, 1), "sentence": odds.sentence}
            for odds in found.at_odds
        ],
        "height_slips": [
            {"before": each.before.isoformat(), "after": each.after.isoformat(), "sentence": each.sentence}
            for each in found.slips
        ],
        "unlike_others": list(found.unlike),
        "refused": list(found.refused),
        "drawn_out": list(found.drawn_out),
        "over_time": over_time_data(person),
        **(worth_data(*worth) if worth else {}),
    }
    summaries = tuple((*_brief_passages(found, most, worth=passages), *passages) for most in _NAMED)
    return Answer(1 if found.at_odds or found.refused else 0, (*passages, *_passages(found)), data, summaries)


def _refused(person: Person) -> tuple[str, ...]:
    """Why the blocks that are drawn for such a body cannot be drafted from its lengths, with the usual ease."""
    blocks = tuple(BlockOrder(block) for block in plain_blocks(person.body))
    if not blocks:
        return ()
    garment = Garment(person.name, person, blocks)
    try:
        draft(garment, prepare(garment))
    except CannotDraft as refused:
        return tuple(refused.reason.splitlines())
    return ()


def _passages(found: _Judged) -> Iterator[Said]:
    """Everything: each length with how it is taken."""
    person, body = found.person, found.body
    lengths = [BodyLength(m.key, m.mm, m.source, m.how, m.sd_mm) for m in body.known()]
    yield found.verdict()
    yield from over_time_tables(person, most=None)
    yield measured_table(lengths, [person.unit], child=person.body != "woman")
    yield estimate_table(lengths, [person.unit])
    if missing := [each for each in measurements_for(person.body) if each.key not in body]:
        rows = tuple(Row((f"{each.name}\n{each.word}", each.how)) for each in missing)
        columns = (Column(""), Column("how to measure it"))
        yield Table(f"Not measured, and not to be estimated for a {person.body}", columns, rows)
    if found.suspect and found.at_odds:
        yield doubt_passage(found.suspect)


def _brief_passages(found: _Judged, most: int, *, worth: Sequence[Said]) -> Iterator[Said]:
    """What goes on one screen: the verdict, what was measured, the least certain of what was not.

    worth: what is told of a garment, which then stands in place of the least certain
    """
    unit, body = found.person.unit, found.body
    yield found.verdict(max(1, most // 4))
    taken = [value for value in body.known() if value.source != "estimated"]
    told = ", ".join(
        f"{measurement_for(value.key, body.person.body).name} {length_text(value.mm, unit)}" for value in taken
    )
    yield Passage("Measured", (f"{told}.",))
    yield from over_time_tables(found.person)
    if (estimated := uncertain_first(body)) and not worth:
        rows = tuple(
            Row((measurement(value.key).name, length_text(value.mm, unit), length_text(value.sd_mm or 0.0, unit)))
            for value in estimated[:most]
        )
        more = f"And {len(estimated) - len(rows)} more. " if len(estimated) > len(rows) else ""
        below = (
            f"{more}--all tells how each is taken, and the word it has in the file. "
            "--garment GARMENT.toml tells which of them are worth measuring for a garment."
        )
        columns = (Column(""), Column("estimated", True), Column("give or take", True))
        yield Table("Estimated, the least certain first", columns, rows, below=(below,))
    if missing := _names([each.key for each in measurements_for(body.person.body) if each.key not in body]):
        yield Passage(f"Not to be estimated for a {found.person.body}", (f"{missing}.",))


def _names(keys: Sequence[str]) -> str:
    return ", ".join(measurement(key).name for key in keys)


def _data(body: Body) -> list[dict[str, object]]:
    found: list[dict[str, object]] = []
    for each in MEASUREMENTS:
        named = measurement_for(each.key, body.person.body)
        about: dict[str, object] = {"key": each.key, "name": named.name, "take": named.how}
        if each.key in body:
            value = body[each.key]
            about |= {"mm": round(value.mm, 2), "from": value.source, "source": value.how}
            if value.sd_mm is not None:
                about["sd"] = round(value.sd_mm, 2)
        found.append(about)
    return found
