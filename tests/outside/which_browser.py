"""Which browser the page is looked at in, if there is one."""

from __future__ import annotations

import shutil

__all__ = ["CHROMIUM"]

CHROMIUM = next(
    filter(None, map(shutil.which, ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome"))), None
)
