"""A body and the way of the tape as a drawing to print: outlines in grey, the tape dark, clear without colour."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from output.figure.draw_figure import Side, draw_figure
from output.figure.silhouette import Silhouette
from output.figure.tape_lines import tape_line

__all__ = ["figure_svg"]

_LOOKS: Final[Mapping[str, str]] = {
    "skin": 'fill="#fff"',
    "suit": 'fill="#eceff1"',
    "hair": 'fill="#cfd4d8"',
    "line": 'fill="none" stroke="#6b7280" stroke-width=".55"',
    "fine": 'fill="none" stroke="#9aa1a9" stroke-width=".4"',
    "strand": 'fill="none" stroke="#fff" stroke-width=".3"',
}
_TAPE: Final = 'fill="none" stroke="#b3261e" stroke-width="1.5" stroke-linecap="round"'
_BEHIND: Final = 'fill="none" stroke="#b3261e" stroke-width=".8" stroke-dasharray="1.6 1.6"'
_LEVEL: Final = 'fill="none" stroke="#b3261e" stroke-width=".5" stroke-dasharray="2 1.5"'

_PAIR: Final = re.compile(r"(-?\d+\.?\d*) (-?\d+\.?\d*)")


def figure_svg(key: str, body: Silhouette) -> str:
    """The drawing of how one measurement is taken, by its key; the half of the body where the tape is, if it is in one.

    Without a width: it fills what it stands in.
    """
    tape = tape_line(key, body)
    side: Side = "back" if tape and tape["side"] == "back" else "front"
    drawn = draw_figure(body, side)
    paths = [f'<path d="{each["d"]}" {_LOOKS[each["kind"]]}/>' for each in drawn["paths"]]
    if tape:
        paths.insert(0, f'<path d="{tape["far"]}" {_BEHIND}/>' if tape["far"] else "")
        paths += [f'<path d="{tape[way]}" {look}/>' for way, look in (("level", _LEVEL), ("near", _TAPE)) if tape[way]]
        paths += [f'<path d="{tape["pins"]}" fill="#b3261e"/>'] if tape["pins"] else []
    box = _seen(str(drawn["box"]), str(tape["near"]) if tape else "", body)
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" aria-hidden="true">{"".join(paths)}</svg>'


def _seen(box: str, tape: str, body: Silhouette) -> str:
    """What of the drawing is shown: from the waist down or from the crotch up, where the tape lies there; or all."""
    left, top, wide, tall = map(float, box.split())
    levels = [float(y) for _, y in _PAIR.findall(tape)]
    bottom = body.y["crotch"] + 0.1 * body.height
    if levels and max(levels) < bottom:
        return f"{left:.1f} {top:.1f} {wide:.1f} {bottom - top:.1f}"
    above = body.y["waist"] - 0.03 * body.height
    if levels and min(levels) > above:
        return f"{left:.1f} {above:.1f} {wide:.1f} {top + tall - above:.1f}"
    return box
