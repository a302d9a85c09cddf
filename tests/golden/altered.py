"""A garment after each alteration by itself, at several amounts, in figures that show any change.

Of every piece that the alteration touched: how many edges, their length, where they begin and how they turn, notches,
darts, lines, points and allowances, each as one sum that weighs what stands later more. So a page stays short, and
yet no edge, end or notch can move unseen.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from drafting.alterations import ALTERATIONS, apply_step
from drafting.errors import InputProblems, StepRefused
from drafting.geometry import run_ends
from drafting.pattern import Pattern, Piece, dart_width, finished
from tests.alteration_samples import Options, sample

__all__ = ["altered_digest"]


def altered_digest(pattern: Pattern, samples: Mapping[str, Sequence[Options]]) -> str:
    """The page: the garment after each sample of each alteration, and at the most that it takes."""
    lines: list[str] = []
    for name, amounts in samples.items():
        for options in (*amounts, _at_the_most(name, amounts[0])):
            told = ", ".join(f"{key} = {value}" for key, value in options.items())
            lines += [f"{name}: {told}", *_after(pattern, name, options), ""]
    return "\n".join(lines)


def _at_the_most(name: str, options: Options) -> Options:
    """The same with every number at the most that its option takes."""
    most = {each.name: each.high for each in ALTERATIONS.named(name).options}
    return {key: most.get(key) or value if type(value) is float else value for key, value in options.items()}


def _after(pattern: Pattern, name: str, options: Options) -> list[str]:
    try:
        altered = apply_step(pattern, sample(name, options))
    except (StepRefused, InputProblems) as refused:
        return [f"  refused: {' '.join(refused.sentences())}"]
    before = {piece.name: piece for piece in pattern.pieces}
    pieces = [f"  {each.name}: {_figures(each)}" for each in altered.pieces if before.get(each.name) != each]
    seams = [f"  seams: {_sum(ease for seam in altered.seams for ease in (seam.ease.wanted, seam.ease.low))}"]
    made = [f"  finished: {_sum(each.finished for each in finished(altered))}"]
    return pieces + seams * (altered.seams != pattern.seams) + made


def _figures(piece: Piece) -> str:
    turns = [end for edge in piece.edges for end in run_ends(edge.curves)]
    sums = {
        "long": _sum(edge.length for edge in piece.edges),
        "at": _sum(each for edge in piece.edges for each in (edge.start.x, edge.start.y)),
        "turning": _sum(math.atan2(end.y, end.x) % math.tau for end in turns),
        "allowances": _sum(edge.allowance for edge in piece.edges),
        "notches": _sum(notch.station.at for notch in piece.notches),
        "darts": _sum(each for dart in piece.darts for each in (dart_width(piece, dart), dart.apex.x, dart.apex.y)),
        "lines": _sum(each for line in piece.lines for each in (line.start.x, line.start.y, line.end.x, line.end.y)),
        "points": _sum(each for mark in piece.points for each in (mark.at.x, mark.at.y)),
    }
    return f"{len(piece.edges)} edges, " + ", ".join(f"{name} {value}" for name, value in sums.items() if value)


def _sum(values: Iterable[float]) -> str:
    found = list(values)
    return f"{round(sum(value * (1.0 + k / 7.0) for k, value in enumerate(found)), 2) + 0.0:.2f}" if found else ""
