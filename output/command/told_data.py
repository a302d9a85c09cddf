"""What a command tells a program: data as JSON. Nothing heavy is imported, so that a page opens at once."""

from __future__ import annotations

import json
import sys
from collections.abc import Mapping

__all__ = ["OutputFailed", "as_text"]


class OutputFailed(Exception):
    """The answer could not be written to standard output. status: that of the answer; reason: why not"""

    def __init__(self, status: int, reason: OSError) -> None:
        self.status = status
        self.reason = reason
        super().__init__(status, reason)


def as_text(data: Mapping[str, object]) -> str:
    """Data as JSON; where standard output has not every letter in it, all but ASCII is escaped."""
    text = json.dumps(data, ensure_ascii=False, indent=1)
    try:
        text.encode(sys.stdout.encoding or "utf-8")
    except UnicodeEncodeError:
        return json.dumps(data, indent=1)
    return text
