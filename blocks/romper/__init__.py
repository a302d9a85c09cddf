"""Romper: the child's bodice straight through, its lower end shaped into legs with snaps between them."""

from __future__ import annotations

from blocks.romper.draft import BACK, ELASTIC, FRONT, LEG_ENDS, PLAIN, draft_romper

__all__ = ["BACK", "ELASTIC", "FRONT", "LEG_ENDS", "PLAIN", "draft_romper"]
