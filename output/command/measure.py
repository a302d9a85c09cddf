"""`trueseam measure`: what is known of a body and how surely, what looks wrong on it, how each length is taken."""

from __future__ import annotations

from pathlib import Path

from drafting.body.complete import Body, complete, uncertain_first
from drafting.body.person import read_person
from drafting.body.plausible import Contradiction, contradictions, doubts
from drafting.body.terms import MEASUREMENTS
from drafting.checks import Verdict
from drafting.pattern import BodyLength
from output.command.answer import Answer
from output.tables import Column, Passage, Row, Said, Table, doubts_told, estimates_told, measured_told

__all__ = ["judged"]


def judged(path: Path) -> Answer:
    """What a person's file tells. Exit status 1 where measurements cannot go together. Raises InputProblems."""
    person = read_person(path)
    body = complete(person)
    suspect, at_odds = doubts(body), contradictions(body)
    lengths = [BodyLength(m.key, m.mm, m.source, m.how, m.sd_mm) for m in body.known()]
    dated = f"measured {person.measured.isoformat()}" if person.measured else ""
    told: list[Said] = [
        Passage(person.name, (", ".join(part for part in (person.body, dated) if part),)),
        measured_told(lengths, [person.unit]),
        estimates_told(lengths, [person.unit]),
    ]
    if missing := [each for each in MEASUREMENTS if each.key not in body]:
        rows = tuple(Row((f"{each.name}\n{each.key}", each.how)) for each in missing)
        columns = (Column(""), Column("how to measure it"))
        told.append(Table(f"Not measured, and not to be estimated for a {person.body}", columns, rows))
    told.append(doubts_told(suspect))
    told.append(_at_odds_told(at_odds))
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
            for doubt in suspect
        ],
        "contradictions": [
            {"measurements": list(odds.keys), "by_mm": round(odds.by_mm, 1), "sentence": odds.sentence}
            for odds in at_odds
        ],
    }
    return Answer(1 if at_odds else 0, tuple(told), data)


def _at_odds_told(at_odds: tuple[Contradiction, ...]) -> Passage:
    if not at_odds:
        return Passage("What cannot go together", ("Nothing: a body can have all of these lengths at once.",))
    return Passage("What cannot go together", tuple(odds.sentence for odds in at_odds), Verdict.FAIL)


def _data(body: Body) -> list[dict[str, object]]:
    found: list[dict[str, object]] = []
    for each in MEASUREMENTS:
        about: dict[str, object] = {"key": each.key, "name": each.name, "take": each.how}
        if each.key in body:
            value = body[each.key]
            about |= {"mm": round(value.mm, 2), "from": value.source, "source": value.how}
            if value.sd_mm is not None:
                about["sd"] = round(value.sd_mm, 2)
        found.append(about)
    return found
