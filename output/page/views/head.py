"""The head of the sheet: what is made for whom, how it went, what can be undone."""

from __future__ import annotations

from output.api.wording import counted
from output.page.views.data import Data
from output.page.views.shown import Shown

__all__ = ["head", "state_of", "verdict_of"]


def head(shown: Shown) -> Data:
    """What stands at the top.

    title, wearer: what is made, and for whom; unit: what lengths are shown in
    state:  "calm", "warning" or "failed"; verdict: the same as a sentence
    undo, redo: what can be taken back and done again, in words; None for nothing
    files:  the files that are written to
    """
    return {
        "title": shown.garment.title,
        "wearer": shown.garment.wearer.name,
        "unit": shown.unit,
        "state": state_of(shown),
        "verdict": verdict_of(shown),
        "undo": shown.undo,
        "redo": shown.redo,
        "files": [name for name in shown.files if name],
    }


def state_of(shown: Shown) -> str:
    """How the checks went: "calm", "warning" or "failed"."""
    return {"pass": "calm", "warn": "warning"}.get(shown.checks.verdict, "failed")


def verdict_of(shown: Shown) -> str:
    """How the checks went, in one sentence."""
    return counted(shown.checks.rows).split(" Nothing was there")[0]
