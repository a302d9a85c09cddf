"""The head of the sheet: what is made for whom, how it went, what can be undone."""

from __future__ import annotations

from collections.abc import Mapping

from output.api.wording import counted
from output.page.views.data import Data, bare_unit
from output.page.views.shown import Shown

__all__ = ["head", "state_of", "state_of_verdict", "verdict_of"]


def head(shown: Shown) -> Data:
    """What stands at the top.

    title, wearer: what is made, and for whom; unit: what lengths are shown in
    state:  "calm", "warning" or "failed"; verdict: the same as a sentence
    undo, redo: what can be taken back and done again, in words; None for nothing
    pending: whether undo would first take back what was asked for and could not be had
    files:  the files that are written to; followed: those that it is made of besides
    bare:   the unit that plain numbers of the garment's file stand in; None where it says none
    units:  "cm" and "in", each with the edits after which lengths are shown in it; None where plain numbers in the
            file would come to mean something else
    """
    return {
        "title": shown.garment.title,
        "wearer": shown.garment.wearer.name,
        "unit": shown.unit,
        "state": state_of(shown),
        "verdict": verdict_of(shown),
        "undo": shown.undo,
        "redo": shown.redo,
        "pending": shown.pending,
        "files": [name for name in shown.files if name],
        "followed": list(shown.followed),
        "bare": bare_unit(shown.tables),
        "units": {unit: _shown_in(unit, shown) for unit in ("cm", "in")},
    }


def _shown_in(unit: str, shown: Shown) -> list[Data] | None:
    stated = "unit" in shown.tables
    if stated and any(_numbers(value) for key, value in shown.tables.items() if key != "sizes"):
        return None
    if shown.person.get("unit", "cm") == unit and shown.person:
        return [{"in": "garment", "do": "remove", "at": ["unit"]}] if stated else []
    return [{"in": "garment", "do": "set", "at": ["unit"], "value": unit}]


def _numbers(value: object) -> bool:
    """Whether a value of a file holds a plain number."""
    if isinstance(value, Mapping):
        return any(_numbers(each) for each in value.values())
    if isinstance(value, list):
        return any(_numbers(each) for each in value)
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def state_of(shown: Shown) -> str:
    """How the checks went: "calm", "warning" or "failed"."""
    return state_of_verdict(shown.checks.verdict)


def state_of_verdict(verdict: str) -> str:
    """A verdict of checks in a word of the page: "calm", "warning" or "failed"."""
    return {"pass": "calm", "warn": "warning"}.get(verdict, "failed")


def verdict_of(shown: Shown) -> str:
    """How the checks went, in one sentence."""
    return counted(shown.checks.rows).split(" Nothing was there")[0]
