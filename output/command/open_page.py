"""`trueseam open`: the page, until it is ended."""

from __future__ import annotations

import gc
import json
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

from drafting.errors import InputProblems, Problem
from drafting.reading.units import printable
from output.command.answer import Answer
from output.report.tables import Passage

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

    gc.freeze()  # what was loaded by now stays as long as the server
    gc.enable()  # the command does without, as it ends soon; this one does not
    with suppress(KeyboardInterrupt):  # which is how it is ended
        serve(folder, browse=browse, tell=tell)
    return Answer(0, (Passage("Ended", ("What you changed is in your files.",)),), {"ended": True})
