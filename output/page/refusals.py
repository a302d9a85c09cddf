"""What cannot be had, as the page shows it: where it stands, why, and what can be had in its place, as edits."""

from __future__ import annotations

from collections.abc import Sequence

from output.api import Garment, StepRefused, TrueseamError
from output.api.showing import CannotDraft, InputProblems, Problem
from output.api.steps import typed_setting
from output.page.edits import CannotEdit, Tables
from output.page.views.at_odds import at_odds
from output.page.views.data import Data
from output.page.views.refused import refused_step
from output.page.views.refused_part import made_at, refused_part

__all__ = ["problems_of"]


def problems_of(
    refused: TrueseamError | CannotEdit, person: str, garment: Garment | None, tables: Tables, lengths: Tables
) -> tuple[Data, ...]:
    """Each problem: {"in", "at", "sentences", "offers"}; `refused_step` says what a refused step has beside these.

    of: what the card is called of the block or the part that it comes from, where it comes from one

    person:  the name of the file of the wearer; lengths: what stands in it
    garment: as it was ordered, where it could be read; tables: what stands in its file
    """
    if isinstance(refused, CannotEdit):
        return (_problem("garment", None, [refused.sentence]),)
    if isinstance(refused, InputProblems):
        return tuple(_of_a_file(each, person, tables, lengths) for each in dict.fromkeys(refused.problems))
    if isinstance(refused, StepRefused) and garment is not None:
        return (refused_step(refused, garment, tables),)
    if isinstance(refused, CannotDraft) and refused.part and garment is not None:
        return (refused_part(refused, garment, tables),)
    if isinstance(refused, CannotDraft):
        return (at_odds(refused, garment, tables, lengths),)
    return (_problem("garment", None, refused.sentences()),)


def _of_a_file(problem: Problem, person: str, tables: Tables, lengths: Tables) -> Data:
    """What is wrong in a file. Where its place is known the sentence stands beside it, and need not name it."""
    where = "person" if person and problem.where.partition(",")[0] == person else "garment"
    if not problem.at:
        return _problem(where, None, [problem.sentence()])
    said = f"It says {problem.read}; what fits here is {problem.expected}. {problem.mend}".rstrip()
    unit = tables.get("unit") or lengths.get("unit") or "cm"
    of = made_at(tuple(problem.at), tables) if where == "garment" else ""
    return _problem(where, list(problem.at), [said], _nearest(problem, where, str(unit))) | ({"of": of} if of else {})


def _nearest(problem: Problem, where: str, unit: str) -> list[Data]:
    """The button that sets the nearest that can be had, for a number beyond its range; none for anything else."""
    if problem.nearest is None or where != "garment":
        return []
    value = typed_setting(problem.nearest, 1.0, unit, at_most=True)
    words = f"{problem.nearest.option} {value}".replace("_", " ").capitalize()
    return [{"words": words, "edits": [{"in": where, "do": "set", "at": list(problem.at), "value": value}]}]


def _problem(where: str, at: list[str | int] | None, sentences: Sequence[str], offers: Sequence[Data] = ()) -> Data:
    return {"in": where, "at": at, "sentences": list(sentences), "offers": list(offers)}
