"""What the checks say of the example garments, sound and with one fault after another, in a page of plain text.

A check is its limits, its figures and its sentences: here every one of them stands beside what brought it out, so that
none can change unseen. The faults are made by rule: of each kind a few, at places that differ from garment to garment.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations import Lengthen, apply_step
from drafting.checks import Checked, Result, Verdict, check_pattern
from drafting.errors import TrueseamError
from drafting.geometry import Cubic, Curve, Line, Vec
from drafting.pattern import Pattern, Piece, SeamEase, with_edges, with_pieces
from tests.drafting.checks import breaks

__all__ = ["breaks_digest", "faults_digest"]

_STILL: Final = Vec(0.0, 0.0)

_ABOUT: Final = (
    "Sound: for each check how many results, the sums of what was measured, wanted, allowed, the units, and how many",
    "letters the names of what was looked at have. Then one fault a heading, and what the checks say now and did not",
    "before: a pass in figures, all else in full.",
)


def faults_digest(pattern: Pattern, which: int, each: int = 2) -> str:
    """The page of one garment.

    which: which one it is; that decides at which places the faults are made
    each:  how many faults of each kind
    """
    sound = check_pattern(pattern)
    lines = [pattern.title, *_ABOUT, *_sums(sound.results)]
    before = set(sound.results)
    for name, faulty in _faults(pattern, which, each):
        found = [each for each in check_pattern(faulty, known=sound).results if each not in before]
        lines += ["", name, *_news(found)]
    return "\n".join(lines) + "\n"


def breaks_digest(broken: Iterable[tuple[str, Pattern, Pattern]]) -> str:
    """What the checks say of patterns that were broken and did not of them before; each with what it is called."""
    lines: list[str] = []
    of_sound: dict[int, Checked] = {}
    for name, before, after in broken:
        sound = of_sound.setdefault(id(before), of_sound.get(id(before)) or check_pattern(before))
        said = set(sound.results)
        found = [each for each in check_pattern(after, known=sound).results if each not in said]
        lines += [name, *_news(found), ""]
    return "\n".join(lines)


def _news(found: Sequence[Result]) -> list[str]:
    """What was found, a pass in figures, all else in full."""
    faults = [f"  {_said(each)}" for each in found if each.verdict is not Verdict.PASS]
    return faults + [f"  {each}" for each in _sums(each for each in found if each.verdict is Verdict.PASS)]


def _sums(results: Iterable[Result]) -> list[str]:
    by_code: dict[str, list[Result]] = {}
    for each in results:
        by_code.setdefault(f"{each.code}, {each.check}", []).append(each)
    return [f"{code}: {_sum(found)}" for code, found in by_code.items()]


def _sum(results: Sequence[Result]) -> str:
    limits = [limit for each in results for limit in _limits(each)]
    verdicts = sorted({str(each.verdict) for each in results})
    sums = (sum(values) for values in (_known(each.measured for each in results), _known(e.wanted for e in results)))
    units = "/".join(sorted({each.unit for each in results}))
    letters = sum(len(each.where) for each in results)
    numbers = ", ".join(_number(each) for each in (*sums, sum(limits)))
    return f"{len(results)} {', '.join(verdicts)}; {numbers} {units}; {letters} letters"


def _known(values: Iterable[float | None]) -> list[float]:
    return [each for each in values if each is not None and math.isfinite(each)]


def _limits(result: Result) -> list[float]:
    allowed = result.allowed
    return _known(allowed if isinstance(allowed, tuple) else [allowed])


def _said(result: Result) -> str:
    figures = [*_known([result.measured]), *_known([result.wanted]), *_limits(result)]
    numbers = ", ".join(map(_number, figures))
    return f"{result.code}, {result.verdict}: {result.where} ({numbers} {result.unit}) {result.remedy}"


def _number(value: float) -> str:
    return f"{round(value, 2) + 0.0:.2f}"


Ways = Iterator[tuple[str, Callable[[], Pattern]]]


def _faults(pattern: Pattern, which: int, each: int) -> Iterator[tuple[str, Pattern]]:
    """The faults of one garment, by their names. One that makes no pattern at all is passed over."""
    for kind in (*_OF_EDGES, *_OF_MARKS, *_OF_THE_WHOLE):
        ways = list(kind(pattern))
        step = max(1, len(ways) // each)
        for name, make in ways[which % step :: step][:each]:
            try:
                yield name, make()
            except (TrueseamError, AssertionError, ValueError):
                continue


def _edges(pattern: Pattern) -> Iterator[tuple[Piece, int]]:
    return ((piece, k) for piece in pattern.pieces for k in range(len(piece.edges)))


def _allowances(pattern: Pattern) -> Ways:
    for n, (piece, k) in enumerate(_edges(pattern)):
        edge = piece.edges[k]
        to = (edge.allowance + 1.5, 0.0, edge.allowance + 12.0, 45.0)[n % 4]
        yield (
            f"{piece.name}, {edge.name}: an allowance of {to:.1f}",
            lambda p=piece, e=edge, to=to: breaks.allowed(pattern, p.name, e.name, to),
        )


def _corners(pattern: Pattern) -> Ways:
    for n, (piece, k) in enumerate(_edges(pattern)):
        by = (Vec(1.2, 0.0), Vec(0.0, 4.0), Vec(-9.0, 3.0), Vec(0.0, -25.0))[n % 4]
        yield (
            f"{piece.name}, end of {piece.edges[k].name}: moved by {by.x} and {by.y}",
            lambda p=piece, k=k, by=by: with_pieces(pattern, _corner_moved(p, k, by)),
        )


def _corner_moved(piece: Piece, k: int, by: Vec) -> Piece:
    """A piece whose corner at the end of its k-th edge lies elsewhere."""
    one, other = piece.edges[k], piece.edges[(k + 1) % len(piece.edges)]
    last, first = one.curves[-1], other.curves[0]
    return with_edges(
        piece,
        replace(one, curves=(*one.curves[:-1], _moved(last, at_end=by))),
        replace(other, curves=(_moved(first, at_start=by), *other.curves[1:])),
    )


def _moved(curve: Curve, *, at_start: Vec = _STILL, at_end: Vec = _STILL) -> Curve:
    if isinstance(curve, Line):
        return Line(curve.start + at_start, curve.end + at_end)
    return Cubic(curve.start + at_start, curve.c1 + at_start, curve.c2 + at_end, curve.end + at_end)


def _turned(pattern: Pattern) -> Ways:
    for n, (piece, k) in enumerate(_edges(pattern)):
        by, name = (3.0, -8.0, 14.0, -25.0)[n % 4], piece.edges[k].name
        yield (
            f"{piece.name}, {name}: turned at its ends by {by} degrees",
            lambda p=piece, e=name, by=by: breaks.turned(pattern, p.name, e, by),
        )


def _bulged(pattern: Pattern) -> Ways:
    for n, (piece, k) in enumerate(_edges(pattern)):
        if len(piece.edges[k].curves) == 1 and isinstance(piece.edges[k].curves[0], Cubic):
            by, name = ((0.2, 1.0), (1.0, 2.2), (0.4, 1.7))[n % 3], piece.edges[k].name
            yield (
                f"{piece.name}, {name}: handles {by[0]} and {by[1]} times as long",
                lambda p=piece, e=name, by=by: breaks.redrawn_by(pattern, p.name, e, *by),
            )


def _notches(pattern: Pattern) -> Ways:
    for n, (piece, notch) in enumerate((p, m) for p in pattern.pieces for m in p.notches):
        by = (0.8, -1.5, 4.0, 6000.0)[n % 4]
        yield (
            f"{piece.name}, {notch.name}: pushed by {by}",
            lambda p=piece, m=notch, by=by: breaks.notch_pushed(pattern, p.name, m.name, by),
        )


def _darts(pattern: Pattern) -> Ways:
    for n, (piece, dart) in enumerate((p, m) for p in pattern.pieces for m in p.darts):
        if n % 3 < 2:
            to = (40.0, 24.0)[n % 3]
            yield (
                f"{piece.name}, {dart.name}: {to} long",
                lambda p=piece, d=dart, to=to: breaks.dart_shortened(pattern, p.name, d.name, to),
            )
        else:
            yield f"{piece.name}: its darts forgotten", lambda p=piece: breaks.dart_dropped(pattern, p.name)


def _grains(pattern: Pattern) -> Ways:
    for n, piece in enumerate(pattern.pieces):
        by = (0.3, 2.0, 45.0, 90.0)[n % 4]
        yield (
            f"{piece.name}: its grain turned by {by} degrees",
            lambda p=piece, by=by: breaks.grain_turned(pattern, p.name, by),
        )


def _points(pattern: Pattern) -> Ways:
    for n, (piece, mark) in enumerate((p, m) for p in pattern.pieces for m in p.points):
        by = (Vec(4.0, 0.0), Vec(0.0, -9.0), Vec(0.0, 30.0))[n % 3]
        yield (
            f"{piece.name}, {mark.name}: moved by {by.x} and {by.y}",
            lambda p=piece, m=mark, by=by: with_pieces(
                pattern, replace(p, points=tuple(replace(e, at=e.at + by) if e is m else e for e in p.points))
            ),
        )


def _lines(pattern: Pattern) -> Ways:
    for n, (piece, line) in enumerate((p, m) for p in pattern.pieces for m in p.lines):
        by = (Vec(2.0, 0.0), Vec(0.0, -9.0), Vec(25.0, 30.0))[n % 3]
        yield (
            f"{piece.name}, {line.name}: its end moved by {by.x} and {by.y}",
            lambda p=piece, m=line, by=by: with_pieces(
                pattern,
                replace(p, lines=tuple(replace(e, end=e.end + by, curves=()) if e is m else e for e in p.lines)),
            ),
        )


def _cuts(pattern: Pattern) -> Ways:
    for piece in pattern.pieces:
        yield (
            f"{piece.name}: its fold forgotten, or a fold where there is none",
            lambda p=piece: breaks.fold_forgotten(pattern, p.name),
        )


def _seams(pattern: Pattern) -> Ways:
    for n, seam in enumerate(pattern.seams):
        name, ease = seam.name, seam.ease
        other = (
            SeamEase(ease.wanted + 2.0, ease.low + 1.5, ease.high + 2.5),
            SeamEase(ease.wanted - 6.0, ease.low - 6.0, ease.high - 5.0),
            SeamEase(ease.wanted, ease.low - 400.0, ease.high + 400.0),
        )[n % 3]
        if n % 4 == 3:
            yield f"{name}: taken out", lambda s=name: breaks.seam_taken_out(pattern, s)
        else:
            yield (
                f"{name}: {other.wanted:.1f} to be eased in, {other.low:.1f} to {other.high:.1f}",
                lambda s=name, e=other: breaks.with_ease(pattern, s, e),
            )


def _bodies(pattern: Pattern) -> Ways:
    for n, measure in enumerate(pattern.measures):
        by = (20.0, 60.0, 200.0)[n % 3]
        if measure.body is not None:
            yield (
                f"{measure.name}: of a body of {by} more",
                lambda m=measure, by=by: breaks.body_grown(pattern, m.name, by),
            )


def _wearers(pattern: Pattern) -> Ways:
    for n, length in enumerate(pattern.wearer.lengths):
        by = (0.15, -0.15, 0.5, -0.5)[n % 4] * length.mm
        yield (
            f"the wearer: {length.key} more by {by:.1f}",
            lambda key=length.key, by=by: breaks.wearer_length(pattern, key, by),
        )


def _guessed(pattern: Pattern) -> Ways:
    for length in pattern.wearer.lengths:
        if length.key in ("head_girth", "hand_girth", "neck_base_girth"):
            lengths = (replace(e, source="estimated", sd=25.0) if e is length else e for e in pattern.wearer.lengths)
            guessed = replace(pattern.wearer, lengths=tuple(lengths))
            yield f"the wearer: {length.key} only estimated", lambda w=guessed: replace(pattern, wearer=w)


def _held(pattern: Pattern) -> Ways:
    for n, piece in enumerate(pattern.pieces):
        by = (4.0, -30.0)[n % 2]
        yield (
            f"{piece.name}: longer by {by}, nothing else",
            lambda p=piece, by=by: apply_step(pattern, Lengthen(p.name, by, only=p.name)),
        )


def _stretches(pattern: Pattern) -> Ways:
    for to in (0.0, 0.1, 0.5):
        yield f"a stretch of {to}", lambda to=to: replace(pattern, stretch=to)
    yield "every opening sewn up", lambda: breaks.sewn_shut(pattern)


_OF_EDGES = (_allowances, _corners, _turned, _bulged)
_OF_MARKS = (_notches, _darts, _grains, _points, _lines)
_OF_THE_WHOLE = (_cuts, _seams, _bodies, _wearers, _guessed, _held, _stretches)
