"""Dungarees: legs with a bib before and behind, hung from straps that let out."""

from __future__ import annotations

from blocks.dungarees.draft import BACK, FRONT, STRAP, draft_dungarees

__all__ = ["BACK", "FRONT", "STRAP", "draft_dungarees"]
