"""`trueseam open`: the page, until it is ended."""

from __future__ import annotations

import json
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from drafting.errors import InputProblems, Problem
from drafting.reading.units import printable

if TYPE_CHECKING:  # heavy: an open page is not kept waiting for it
    from output.command.answer import Answer

__all__ = ["open_page"]


def open_page(arguments: Sequence[str], *, browse: bool, as_json: bool) -> Answer:
    """Show a folder in the browser until Ctrl-C. Raises InputProblems where there is no such folder."""
    folder = Path(arguments[0] if arguments else ".")
    if not folder.is_dir():
        read = "a file" if folder.exists() else "no such folder"
        where, mend = printable(str(folder), most=200), "Name the folder that holds your people and garments."
        raise InputProblems([Problem(where, read, "a folder", mend)])
    from output.page.serve import serve

    def tell(address: str) -> None:
        said = f"{address}\nOpen this address in a browser of this machine, if none has opened. Ctrl-C ends it."
        print(json.dumps({"address": address}) if as_json else said, flush=True)

    with suppress(KeyboardInterrupt):  # which is how it is ended
        serve(folder, browse=browse, tell=tell)
    from output.command.answer import Answer
    from output.report.tables import Passage

    return Answer(0, (Passage("Ended", ("What you changed is in your files.",)),), {"ended": True})
