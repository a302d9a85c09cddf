"""Sews a pattern on paper, step by step, and says what could not be done: shares no code with the order of sewing.

A piece cut twice is there as a left and a right one, a piece on the fold as two halves that hang together, any other
once. Corners are what meets: a seam makes the corners at its ends one, a dart those of its mouth. Then three things
can be asked of every step. Is the line it sews whole, or is a seam still open that it would have to run over? Is tube
sewn to tube and flat edge to flat edge? And does it end in an edge that is already finished?
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from drafting.pattern import MIDDLE_SEAMS, Edge, EdgeRef, Pattern, Piece, PieceKind, Place, Role, Seam
from drafting.sewing import Act, SewingStep

__all__ = ["handled", "not_sewable"]

Corner = tuple[str, str, int]
_CLOSES = (Act.FACE, Act.BIND, Act.BAND, Act.INNER_BAND, Act.HEM)
_ENDS_MEET = (Act.JOIN_FACINGS, Act.MAKE_COLLAR, Act.COLLAR, Act.CUFF)
"""What may be flat on a tube: the ends of a collar meet on it, a cuff ends on both sides of a slit."""
_MAY_CROSS = {
    Act.FACE: (Act.COLLAR, Act.FACE, Act.BIND, Act.BAND, Act.HEM, Act.ZIP, Act.BUTTONS),
    Act.BIND: (Act.FACE, Act.BIND, Act.HEM, Act.BAND, Act.ZIP, Act.BUTTONS),
    Act.HEM: (Act.HEM, Act.BUTTONS, Act.FACE),
    Act.BAND: (Act.BAND, Act.HEM, Act.BUTTONS),
    Act.INNER_BAND: (Act.HEM, Act.BUTTONS),
}
"""What may still be done at the end of an edge once it is finished."""


class _Paper:
    """The pieces of a pattern and which of their corners are one by now."""

    def __init__(self, pattern: Pattern) -> None:
        self.pattern = pattern
        self.one: dict[Corner, Corner] = {}
        self.finished: dict[Corner, Act] = {}
        pairs = {p.name for p in pattern.pieces if p.cut.fold or max(p.cut.count, p.cut.lining) > 1}
        self.halves = {p.name: ("left", "right") if p.name in pairs else ("whole",) for p in pattern.pieces}
        for piece in pattern.pieces:
            for k, edge in enumerate(piece.edges):
                if edge.role is Role.FOLD and piece.cut.fold:
                    for corner in (k, (k + 1) % len(piece.edges)):
                        self.join((piece.name, "left", corner), (piece.name, "right", corner))

    def root(self, corner: Corner) -> Corner:
        while (above := self.one.get(corner, corner)) != corner:
            corner = above
        return corner

    def join(self, one: Corner, other: Corner) -> None:
        one, other = self.root(one), self.root(other)
        if one != other:
            self.one[one] = other
            if one in self.finished:
                self.finished.setdefault(other, self.finished[one])

    def ends(self, ref: EdgeRef, half: str) -> tuple[Corner, Corner]:
        """The corners at which an edge begins and ends as it is walked."""
        piece = self.pattern.piece(ref.piece)
        k = piece.index(ref.edge)
        start, end = (piece.name, half, k), (piece.name, half, (k + 1) % len(piece.edges))
        return (end, start) if ref.backward else (start, end)


def handled(
    steps: Iterable[SewingStep],
) -> tuple[Counter[str], Counter[tuple[str, str]], Counter[tuple[str, str]]]:
    """How often each seam, each edge that is in no seam, and each dart is dealt with."""
    seams: Counter[str] = Counter()
    edges: Counter[tuple[str, str]] = Counter()
    darts: Counter[tuple[str, str]] = Counter()
    for step in steps:
        seams.update(step.seams)
        edges.update((ref.piece, ref.edge) for ref in step.edges)
        darts.update((dart.piece, dart.dart) for dart in step.darts)
    return seams, edges, darts


def not_sewable(pattern: Pattern, steps: Sequence[SewingStep]) -> list[str]:
    """A sentence for everything that could not be done when its step comes; empty where all can."""
    paper = _Paper(pattern)
    wrong: list[str] = []
    seen: set[tuple[EdgeRef, ...]] = set()
    for count, step in enumerate(steps, start=1):
        at = f"step {count}, {step.act} {step.place or ''}"
        for fold in step.darts:
            wrong += _sew_dart(paper, fold.piece, fold.dart, at)
        if step.act is Act.PLEATS:
            wrong += [f"{at}: a pleat goes over the {where}, which is still open" for where in _open_below(paper, step)]
        if step.act is Act.STRETCH_ON or (step.act is Act.BIND and step.seams):
            _close_bands(paper, step)
        runs = [pair for name in step.seams for pair in _runs(paper, pattern.seam(name), seen)]
        if step.apart:
            runs = [part for pair in runs for part in _apart(paper, pair)]
        wrong += _sew(paper, step, runs, at)
        wrong += _finish(paper, step, at)
    return wrong


def _sew_dart(paper: _Paper, name: str, dart: str, at: str) -> Iterator[str]:
    piece = paper.pattern.piece(name)
    into, out = piece.dart(dart).legs
    for half in paper.halves[name]:
        one, other = (name, half, piece.index(into)), (name, half, (piece.index(out) + 1) % len(piece.edges))
        if paper.root(one) != one or paper.root(other) != other or one in paper.one.values():
            yield f"{at}: the {dart} of the {name} opens at a seam that is sewn"
        paper.join(one, other)


def _open_below(paper: _Paper, step: SewingStep) -> Iterator[str]:
    """The sides and centres of pleated pieces that are still open, but for those that open in the garment."""
    joined = Counter(map(paper.root, [*paper.one, *set(paper.one.values())]))
    for piece in map(paper.pattern.piece, step.pieces):
        opens = {edge.place for edge in piece.edges if edge.role is Role.OPENING}
        for edge in piece.edges:
            if edge.role is Role.SEAM and edge.place in {Place.SIDE, *MIDDLE_SEAMS} - opens:
                corners = paper.ends(EdgeRef(piece.name, edge.name), paper.halves[piece.name][0])
                if any(joined[paper.root(corner)] < 2 for corner in corners):
                    yield f"{edge.name} of the {piece.name}"


_Run = list[tuple[Corner, Corner]]


def _runs(paper: _Paper, seam: Seam, seen: set[tuple[EdgeRef, ...]]) -> Iterator[tuple[_Run, _Run]]:
    """The two runs of a seam, once for each time it is sewn: left to left, right to right, or to a whole piece."""
    whole = [all(paper.halves[ref.piece] == ("whole",) for ref in run) for run in (seam.a, seam.b)]
    if any(whole) and not all(whole):
        run = seam.b if whole[0] else seam.a
        key = tuple(sorted((EdgeRef(ref.piece, ref.edge) for ref in run), key=lambda ref: (ref.piece, ref.edge)))
        half = "left" if key in seen else "right"
        seen.add(key)
        sides = [
            [paper.ends(ref, "whole" if paper.halves[ref.piece] == ("whole",) else half) for ref in side]
            for side in (seam.a, seam.b)
        ]
        yield sides[0], sides[1]
        return
    for half in paper.halves[seam.a[0].piece]:
        yield [paper.ends(ref, half) for ref in seam.a], [paper.ends(ref, half) for ref in seam.b]


def _apart(paper: _Paper, pair: tuple[_Run, _Run]) -> Iterator[tuple[_Run, _Run]]:
    """What hangs together of two runs by now, each of it with what lies opposite."""
    parts: list[list[_Run]] = []
    for run in pair:
        found: list[_Run] = [[run[0]]]
        for before, here in pairwise(run):
            if paper.root(before[1]) == paper.root(here[0]):
                found[-1].append(here)
            else:
                found.append([here])
        parts.append(found)
    yield from zip(*parts, strict=True)


def _sew(paper: _Paper, step: SewingStep, runs: Sequence[tuple[_Run, _Run]], at: str) -> Iterator[str]:
    for run in (run for pair in runs for run in pair):
        for (_, end), (start, _) in pairwise(run):
            if paper.root(end) != paper.root(start) and step.act is not Act.CUFF:  # the slit lies between
                yield f"{at}: it would run over a seam or a dart that is still open, between {end} and {start}"
    if runs:
        loops = [_closed(paper, [ends for pair in runs for ends in pair[side]]) for side in (0, 1)]
        # the four sides of a gusset make a ring, the slits they are sewn into do not
        if loops[0] != loops[1] and step.act not in _ENDS_MEET and step.place is not Place.GUSSET:
            yield f"{at}: one side is a tube and the other is flat"
        if step.act is Act.SET_IN and step.in_the_round != loops[0]:
            yield f"{at}: it is said to be sewn {'in the round' if step.in_the_round else 'flat'}, and is not"
    for one, other in runs:
        for ends in (one[0][0], one[-1][1], other[0][0], other[-1][1]):
            yield from _too_late(paper, step, ends, at)
    for one, other in runs:
        paper.join(one[0][0], other[0][0])
        paper.join(one[-1][1], other[-1][1])


def _with_neighbours(piece: Piece, edge: str) -> list[Edge]:
    names = [each.name for each in piece.edges]
    at = names.index(edge)
    return [piece.edges[at - 1], piece.edges[at], piece.edges[(at + 1) % len(names)]]


def _close_bands(paper: _Paper, step: SewingStep) -> None:
    """A band or a bias strip is closed to a ring before it is sewn on; not where the garment opens there."""
    if any(
        edge.role is Role.OPENING
        for name in step.seams
        for ref in paper.pattern.seam(name).a
        for edge in _with_neighbours(paper.pattern.piece(ref.piece), ref.edge)
    ):
        return
    for name in dict.fromkeys(ref.piece for ref in step.edges):
        ends = [ref for ref in step.edges if ref.piece == name]
        found = [ref for ref in ends if paper.pattern.piece(name).edge(ref.edge).place is Place.BAND_END]
        for one, other in zip(found[::2], found[1::2], strict=True):
            for half in paper.halves[name]:
                for a, b in zip(paper.ends(one, half), reversed(paper.ends(other, half)), strict=True):
                    paper.join(a, b)


def _finish(paper: _Paper, step: SewingStep, at: str) -> Iterator[str]:
    """Edges that are in no seam: a centre seam of two like pieces, a hem, an opening."""
    for ref in step.edges:
        for half in paper.halves[ref.piece]:
            for corner in paper.ends(ref, half):
                if step.act in (Act.JOIN, Act.ZIP, Act.HEM):
                    yield from _too_late(paper, step, corner, at)
        edge = paper.pattern.piece(ref.piece).edge(ref.edge)
        if step.act in (Act.JOIN, Act.JOIN_FACINGS) and edge.place in MIDDLE_SEAMS:
            left, right = (paper.ends(ref, half) for half in ("left", "right"))
            for one, other in zip(left, right, strict=True):
                paper.join(one, other)
    if step.act in _CLOSES:
        refs = [
            *step.edges,
            *(
                ref
                for name in step.seams
                for run in (paper.pattern.seam(name).a, paper.pattern.seam(name).b)
                for ref in run
            ),
        ]
        for ref in refs:
            if paper.pattern.piece(ref.piece).identity.kind is not PieceKind.FACING:
                for half in paper.halves[ref.piece]:
                    for corner in paper.ends(ref, half):
                        paper.finished.setdefault(paper.root(corner), step.act)


def _too_late(paper: _Paper, step: SewingStep, corner: Corner, at: str) -> Iterator[str]:
    before = paper.finished.get(paper.root(corner))
    if before is not None and step.act not in _MAY_CROSS[before]:
        yield f"{at}: it ends at {corner}, where an edge is finished ({before})"


def _closed(paper: _Paper, edges: Iterable[tuple[Corner, Corner]]) -> bool:
    """Whether edges end to end make one ring or several, and leave no end."""
    ends: Counter[Corner] = Counter()
    for one, other in edges:
        ends.update((paper.root(one), paper.root(other)))
    return all(times % 2 == 0 for times in ends.values())
