"""Makes one file of a garment in a process of its own, which can be stopped.

Reads one JSON object from standard input: the folder, the garment's file, what is made, the options, and where to
write it. Writes a line of JSON for every step of the work, and a last one that says how it ended.
"""

from __future__ import annotations

import json
import signal
import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any, Final

__all__ = ["THINGS", "main"]

Tell = Callable[[str, float], None]

THINGS: Final = ("print-at-home", "copy-shop", "report", "dxf", "lay")
"""What can be made."""

_MOST_SENTENCES: Final = 20
_LONGEST: Final = 2000
"""Sentences that are told of a file that cannot be used, and letters of each (our figures)."""

_SECONDS: Final = 6.0
"""How long a shorter lay is looked for (our figure)."""


def main() -> None:
    """Make what stands on standard input."""
    signal.signal(signal.SIGTERM, signal.default_int_handler)  # so that what this has started is ended too
    asked = json.load(sys.stdin)

    def tell(doing: str, share: float) -> None:
        print(json.dumps({"doing": doing, "share": round(share, 3)}), flush=True)

    from output.api import TrueseamError

    try:
        name, content = _made(asked, tell)
        Path(asked["to"]).write_bytes(content)
        print(json.dumps({"name": name}), flush=True)
    except TrueseamError as refused:
        print(json.dumps({"sentences": _some(refused.sentences())}), flush=True)
    except KeyboardInterrupt:
        sys.exit(1)


def _some(sentences: Sequence[str]) -> list[str]:
    """As many sentences as anybody reads, and none longer than that."""
    more = len(sentences) - _MOST_SENTENCES
    rest = [f"And {more} more of these."] if more > 0 else []
    return [*(each[:_LONGEST] for each in sentences[:_MOST_SENTENCES]), *rest]


def _made(asked: Mapping[str, Any], tell: Tell) -> tuple[str, bytes]:
    """The name of the file that was asked for, and what is in it. Raises TrueseamError."""
    from output.api import check, dxf
    from output.api.garment_files import garment_report, pdf_to_print
    from output.api.several_sizes import draft_shown, in_each_size, pdf_of_sizes
    from output.page.folder import Folder
    from output.page.workshop import garment_of

    tell("drafting", 0.0)
    garment = garment_of(Folder(Path(asked["folder"])), asked["file"])
    drafted = draft_shown(garment)
    stem = Path(asked["file"]).stem
    only = [drafted.piece(name).name for name in asked["options"].get("pieces", [])]
    match asked["what"]:
        case "dxf":
            tell("writing the DXF", 0.5)
            return f"{stem}.dxf", dxf(drafted)
        case "lay":
            return f"{stem}-lay.html", _lay_page(drafted, tell).encode()
        case "report":
            results = check(drafted).rows
            tell("writing the report", 0.4)
            return f"{stem}-report.html", garment_report(drafted, results).encode()
        case what if garment.sizes and garment.sizes.nest:
            made, sizes = in_each_size(garment), asked["options"].get("sizes", [])
            content = pdf_of_sizes(made, for_shop=what == "copy-shop", chosen=sizes, only=only, tell=tell)
            return f"{stem}-{what}.pdf", content
        case what:
            results = check(drafted).rows
            content = pdf_to_print(drafted, results, for_shop=what == "copy-shop", only=only, tell=tell)
            return f"{stem}-{what}.pdf", content


def _lay_page(drafted: Any, tell: Tell) -> str:
    """The lay of every material, one below the other, as a page to print or to look at while cutting."""
    from html import escape

    from output.api import lay
    from output.api.laying import materials_of
    from output.api.wording import length_text

    materials = materials_of(drafted)
    drawn = []
    for place, material in enumerate(materials):

        def told(share: float, place: int = place, material: str = material) -> None:
            tell(f"laying the {material}", (place + share) / len(materials))

        found = lay(drafted, material, seconds=_SECONDS if material == "shell" else 1.0, tell=told)
        wide, takes, buy = (length_text(mm, drafted.unit) for mm in (found.cloth.width, found.length, found.to_buy))
        used = f"{100 * found.used:.0f} % of it ends up in pieces"
        words = f"{material}, {wide} wide: buy {buy}. The pieces take {takes}; {used}."
        drawn.append(f"<h2>{escape(words[:1].upper() + words[1:])}</h2>{found._repr_svg_()}")
    title = escape(f"{drafted.garment.title}: how it lies on the cloth")
    style = "body{font-family:sans-serif;margin:2rem}svg{max-width:100%;height:auto}"
    return (
        f'<!doctype html><html lang="en"><meta charset="utf-8"><title>{title}</title><style>{style}</style>'
        f"<h1>{title}</h1>{''.join(drawn)}</html>"
    )


if __name__ == "__main__":
    main()
