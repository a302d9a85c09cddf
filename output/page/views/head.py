"""The head of the sheet: what is made for whom, how it went, what can be undone."""

from __future__ import annotations

from output.api.wording import counted
from output.page.views.shown import Data, Shown

__all__ = ["head"]


def head(shown: Shown) -> Data:
    """What stands at the top.

    title, wearer: what is made, and for whom; unit: what lengths are shown in
    state:  "calm", "warning" or "failed"; verdict: the same as a sentence
    undo, redo: what can be taken back and done again, in words; "" for nothing
    files:  the files that are written to
    """
    checks = shown.checks
    return {
        "title": shown.drafted.garment.title,
        "wearer": shown.drafted.garment.wearer.name,
        "unit": shown.unit,
        "state": state_of(shown),
        "verdict": counted(checks.rows).split(" Nothing was there")[0],
        "undo": shown.undo,
        "redo": shown.redo,
        "files": [name for name in (shown.file, shown.person_file) if name],
    }


def state_of(shown: Shown) -> str:
    """How the checks went: "calm", "warning" or "failed"."""
    return {"pass": "calm", "warn": "warning"}.get(shown.checks.verdict, "failed")
