"""Makes one file of a garment in a process of its own, which can be stopped.

Reads one JSON object from standard input: the folder, the garment's file, what is made, the options, and where to
write it. Writes a line of JSON for every step of the work, and a last one that says how it ended.
"""

from __future__ import annotations

import json
import signal
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

__all__ = ["THINGS", "main"]

Tell = Callable[[str, float], None]

BROUGHT: Final = "brought-files"
THINGS: Final = ("print-at-home", "copy-shop", "report", "dxf", "lay", "all-files", BROUGHT)
"""What can be made; the last of a pattern from elsewhere, all else of a garment."""

SAID: Final = ("for", "paper", "unit", "fold", "width", "repeat_across", "have", "seconds")
"""What may be said of it besides, as texts; "" for as the file has it."""

_MOST_SENTENCES: Final = 20
_LONGEST: Final = 2000
"""Sentences that are told of a file that cannot be used, and letters of each (our figures)."""


def main() -> None:
    """Make what stands on standard input."""
    signal.signal(signal.SIGTERM, signal.default_int_handler)  # so that what this has started is ended too
    asked = json.load(sys.stdin)

    def tell(doing: str, share: float) -> None:
        print(json.dumps({"doing": doing, "share": round(share, 3)}), flush=True)

    from output.api import TrueseamError
    from output.page.edits import CannotEdit

    try:
        name, content = _made(asked, tell)
        Path(asked["to"]).write_bytes(content)
        print(json.dumps({"name": name}), flush=True)
    except TrueseamError as refused:
        print(json.dumps({"sentences": _some(refused.sentences())}), flush=True)
    except CannotEdit as refused:
        print(json.dumps({"sentences": [refused.sentence]}), flush=True)
    except KeyboardInterrupt:
        sys.exit(1)


def _some(sentences: Sequence[str]) -> list[str]:
    """As many sentences as anybody reads, and none longer than that."""
    more = len(sentences) - _MOST_SENTENCES
    rest = [f"And {more} more of these."] if more > 0 else []
    return [*(each[:_LONGEST] for each in sentences[:_MOST_SENTENCES]), *rest]


def _made(asked: Mapping[str, Any], tell: Tell) -> tuple[str, bytes]:
    """The name of the file that was asked for, and what is in it. Raises TrueseamError."""
    from output.api import check, dxf, read_person
    from output.api.garment_files import garment_files, garment_report, on_paper, pdf_to_print
    from output.api.several_sizes import draft_shown, in_each_size, pdf_of_sizes
    from output.page.folder import Folder
    from output.page.lay_page import lay_page, lay_wishes
    from output.page.workshop import garment_of

    folder, said, stem = Folder(Path(asked["folder"])), asked["options"], Path(asked["file"]).stem
    if asked["what"] == BROUGHT:
        return f"{stem}.zip", _brought(folder.pattern(asked["file"]), said, tell)
    tell("drafting", 0.0)
    garment = garment_of(folder, asked["file"])
    if said.get("for"):
        garment = replace(garment, wearer=read_person(folder.file(said["for"])), sizes=None)
        stem = f"{stem}-{Path(said['for']).stem}"
    if said.get("paper"):
        garment = replace(garment, paper=on_paper(garment.paper, said["paper"]))
    drafted = draft_shown(garment)
    only = [drafted.piece(name).name for name in said.get("pieces", [])]
    match asked["what"]:
        case "dxf":
            tell("writing the DXF", 0.5)
            return f"{stem}.dxf", dxf(drafted)
        case "lay":
            return f"{stem}-lay.html", lay_page(drafted, lay_wishes(said, drafted.unit), tell).encode()
        case "report":
            results = check(drafted).rows
            tell("writing the report", 0.4)
            return f"{stem}-report.html", garment_report(drafted, results).encode()
        case "all-files":
            return f"{stem}.zip", _zipped(garment_files(drafted, check(drafted).rows, tell=tell))
        case what if garment.sizes and garment.sizes.nest:
            made, sizes = in_each_size(garment), said.get("sizes", [])
            content = pdf_of_sizes(made, for_shop=what == "copy-shop", chosen=sizes, only=only, tell=tell)
            return f"{stem}-{what}.pdf", content
        case what:
            results = check(drafted).rows
            content = pdf_to_print(drafted, results, for_shop=what == "copy-shop", only=only, tell=tell)
            return f"{stem}-{what}.pdf", content


def _brought(path: Path, said: Mapping[str, Any], tell: Tell) -> bytes:
    """Every file of a pattern from elsewhere in one. Raises TrueseamError."""
    from output.api.brought_pattern import brought_files

    tell("reading", 0.0)
    return _zipped(
        brought_files(path, paper=said.get("paper") or "A4", unit=said.get("unit") or "cm", tell=tell).items()
    )


def _zipped(files: Iterable[tuple[str, bytes]]) -> bytes:
    """Files by name in one ZIP, the same bytes every time."""
    import io
    import zipfile

    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as kept:
        for name, content in files:
            kept.writestr(zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0)), content, zipfile.ZIP_DEFLATED)
    return held.getvalue()


if __name__ == "__main__":
    main()
