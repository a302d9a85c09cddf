"""A garment after each alteration by itself, at several amounts, in figures that show any change.

Of every piece that the alteration touched: how many edges, their length, where they begin and how they turn, notches,
darts, lines, points and allowances, each as one sum that weighs what stands later more; then what was worked out,
what is promised, the seams and measurements. Words (names, places, what each thing is) are told by a code that is
another if any of them is. So a page stays short, and yet no edge, end, notch or word can change unseen.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import fields
from zlib import crc32

from drafting.alterations import ALTERATIONS, Alteration, apply_step
from drafting.errors import InputProblems, StepRefused
from drafting.geometry import run_ends
from drafting.pattern import Edge, Pattern, Piece, dart_width, finished
from tests.alteration_samples import Options, sample
from tests.wardrobe import Kind, a_garment, links_of

__all__ = ["altered_digest", "choices_digest", "rows_digest", "wardrobe_digest"]

_NUMBER = re.compile(r"-?\d+(\.\d+(e[-+]?\d+)?|e[-+]?\d+)|inf|nan")
_LOWERED = ", lowered="  # of every marked point; told as a number where it is one


def altered_digest(pattern: Pattern, samples: Mapping[str, Sequence[Options]]) -> str:
    """The page: the garment after each sample of each alteration, and at the most that it takes."""
    asked = [(name, each) for name, amounts in samples.items() for each in (*amounts, _at_the_most(name, amounts[0]))]
    return _page((pattern, name, options) for name, options in asked)


def choices_digest(pattern: Pattern, samples: Mapping[str, Sequence[Options]]) -> str:
    """The page: the garment after the first sample of each alteration, with every choice there is made in turn."""
    return _page(
        (pattern, name, amounts[0] | {option.name: choice})
        for name, amounts in samples.items()
        for option in ALTERATIONS.named(name).options
        for choice in (option.choices or ((True,) if option.kind == "flag" else ()))
        if choice not in (option.default, *(amount.get(option.name) for amount in amounts))
    )


def wardrobe_digest(kind: Kind, turn: int) -> str:
    """The page: a garment of a kind after each alteration that makes sense on it, at one of the amounts by turns."""
    pattern, amounts = a_garment(kind.name), dict[str, list[Options]]()
    for name, options in links_of(kind):
        amounts.setdefault(name, []).append(options)
    return _page((pattern, name, options[turn % len(options)]) for name, options in amounts.items())


def rows_digest(kind: str, rows: Iterable[Sequence[tuple[str, Options]]]) -> str:
    """The page: a garment of a kind after the last of some steps, the others taken before it as they are written."""
    return "".join(_row(a_garment(kind), row) for row in rows)


def _row(pattern: Pattern, row: Sequence[tuple[str, Options]]) -> str:
    *earlier, (name, options) = row
    for one, its in earlier:
        pattern = apply_step(pattern, sample(one, its), as_written=True)
    title = "".join(f"after {one}: {_told(its)}\n" for one, its in earlier)
    return f"{title}{_page([(pattern, name, options)], as_written=bool(earlier))}\n"


def _page(asked: Iterable[tuple[Pattern, str, Options]], *, as_written: bool = False) -> str:
    lines: list[str] = []
    for pattern, name, options in asked:
        lines += [f"{name}: {_told(options)}", *_after(pattern, name, options, as_written=as_written), ""]
    return "\n".join(lines)


def _told(options: Options) -> str:
    return ", ".join(f"{key} = {value}" for key, value in options.items())


def _at_the_most(name: str, options: Options) -> Options:
    """The same with every number at the most that its option takes."""
    most = {each.name: each.high for each in ALTERATIONS.named(name).options}
    return {key: most.get(key) or value if type(value) is float else value for key, value in options.items()}


def _after(pattern: Pattern, name: str, options: Options, *, as_written: bool) -> list[str]:
    try:
        step = sample(name, options)
        altered = apply_step(pattern, step, as_written=as_written)
    except (StepRefused, InputProblems) as refused:
        return [f"  refused: {' '.join(refused.sentences())}"]
    before = {piece.name: piece for piece in pattern.pieces}
    pieces = [f"  {each.name}: {_figures(each)}" for each in altered.pieces if before.get(each.name) != each]
    return [*pieces, *_of_the_whole(step, pattern, altered)]


def _of_the_whole(step: Alteration, pattern: Pattern, altered: Pattern) -> Iterator[str]:
    worked_out = step.came_to(pattern, altered)
    if worked_out:
        yield f"  came to: {', '.join(f'{name} {value:.2f}' for name, value in worked_out.items())}"
    promises = sorted(step.promises(pattern), key=lambda each: each.what)  # in whatever order they are made
    numbers = [each for promise in promises for each in (promise.measure(pattern), 100.0 * promise.change)]
    yield f"  promised: {len(promises)}, {_sum(numbers)}, words {_words([each.what for each in promises])}"
    if altered.seams != pattern.seams:
        eases = [each for seam in altered.seams for each in (seam.ease.wanted, seam.ease.low, seam.ease.high)]
        yield f"  seams: {_sum(eases)}, words {_words(altered.seams)}"
    if altered.measures != pattern.measures:
        yield f"  tapes: words {_words(altered.measures)}"
    yield f"  finished: {_sum(each.finished for each in finished(altered))}"


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
        "grain": _sum(
            each for grain in (piece.grain,) if grain for at in (grain.start, grain.end) for each in (at.x, at.y)
        ),
        "points": _sum(each for mark in piece.points for each in (mark.at.x, mark.at.y)),
        "lowered": _sum(mark.lowered for mark in piece.points if mark.lowered),
    }
    told = ", ".join(f"{name} {value}" for name, value in sums.items() if value)
    edges = [
        getattr(edge, field.name)
        for edge in piece.edges
        for field in fields(Edge)
        if field.repr and field.name != "curves"
    ]
    marks = (piece.darts, piece.notches, piece.lines, piece.points, piece.points_meant)
    return f"{len(piece.edges)} edges, {told}, words {_words([edges, *marks, piece.cut, piece.identity])}"


def _words(value: object) -> str:
    """A code for all words in a value, its numbers left out, which are told by themselves."""
    return f"{crc32(_NUMBER.sub('', repr(value)).replace(_LOWERED, '').encode()):08x}"


def _sum(values: Iterable[float]) -> str:
    found = list(values)
    return f"{round(sum(value * (1.0 + k / 7.0) for k, value in enumerate(found)), 2) + 0.0:.2f}" if found else ""
