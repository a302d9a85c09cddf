"""The mark up to which gathers or ease at one place of a seam are drawn: it moves with that place."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from drafting.geometry import Point
from drafting.pattern import (
    Edge,
    EdgeRef,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Seam,
    Station,
    free_name,
    notch_distance,
    walk,
    with_pieces,
    without_notches,
)

__all__ = ["drawn_up_to", "marks_met", "notches_evenly", "station_along", "without_stretches"]


def marks_met(pattern: Pattern, *, only: str = "") -> Pattern:
    """The pattern with every such mark put where what is drawn up to it begins, wherever an alteration has left that.

    The two ends of the gathers are the ends of an edge and go with it; the mark on the partner has only its distance.
    only: the one piece that may change; empty for all
    """
    for seam in pattern.seams:
        for mark, first, on_a in drawn_up_to(pattern, seam):
            pattern = _met_at(pattern, seam, mark, first, on_a=on_a, only=only)
            for own, beside in _gather_end_pairs(pattern, seam, mark, on_a=on_a):
                along = notch_distance(pattern, seam.b if on_a else seam.a, own)
                if along is not None:
                    pattern = _met_at(pattern, seam, beside, along, on_a=on_a, only=only)
    return pattern


def _met_at(pattern: Pattern, seam: Seam, mark: NotchRef, along: float, *, on_a: bool, only: str) -> Pattern:
    """The pattern with a mark of one run where a place of the other is sewn to it."""
    met = walk(pattern, seam).met(along, from_a=not on_a)
    piece, station = station_along(pattern, seam.a if on_a else seam.b, met)
    if piece != mark.piece or only not in ("", piece):
        return pattern
    found = pattern.piece(piece)
    notches = (replace(n, station=station) if n.name == mark.notch else n for n in found.notches)
    return with_pieces(pattern, replace(found, notches=tuple(notches)))


def _gather_end_pairs(
    pattern: Pattern, seam: Seam, mark: NotchRef, *, on_a: bool
) -> Iterator[tuple[NotchRef, NotchRef]]:
    """The notches between which a run is gathered, on both sides of its mark, and their partners at the mark.

    Each is counted from the end of its edge at which what is drawn up begins or ends.
    """
    pairs = [pair[::-1] if on_a else pair for pair in seam.notches]
    ends: set[Point] = set()
    for own, met in pairs:
        if met == mark:
            edge = _with_edge(pattern, own)[1]
            ends |= {edge.start, edge.end}
    for own, met in pairs:
        notch, edge = _with_edge(pattern, own)
        counted_from = edge.start if notch.station.end == "start" else edge.end
        if notch.marks is NotchMark.DRAWN_UP_BESIDE and counted_from in ends:
            yield own, met


def _with_edge(pattern: Pattern, mark: NotchRef) -> tuple[Notch, Edge]:
    """A notch and the edge that it is on."""
    piece = pattern.piece(mark.piece)
    notch = piece.notch(mark.notch)
    return notch, piece.edge(notch.station.edge)


def without_stretches(pattern: Pattern, seam: Seam) -> Pattern:
    """The pattern with no stretch of the seam's first run drawn up by itself any more: the notches of each are gone."""
    marks = {mark for mark, _, on_a in drawn_up_to(pattern, seam) if not on_a}
    gone = {mark for pair in seam.notches if pair[1] in marks for mark in pair}
    gone |= {each for mark in marks for pair in _gather_end_pairs(pattern, seam, mark, on_a=False) for each in pair}
    return without_notches(pattern, gone)


def drawn_up_to(pattern: Pattern, seam: Seam) -> Iterator[tuple[NotchRef, float, bool]]:
    """The marks of a seam that a stretch of its other run is drawn up to, each with how far along that one it begins.

    Then whether the mark lies on the first run.
    """
    for on_a in (True, False):
        times = Counter(pair[0 if on_a else 1] for pair in seam.notches)
        other = seam.b if on_a else seam.a
        for mark in (each for each, count in times.items() if count > 1):
            ends = (pair[1 if on_a else 0] for pair in seam.notches if mark in pair)
            places = [at for end in ends if (at := notch_distance(pattern, other, end)) is not None]
            if len(places) > 1:
                yield mark, min(places), on_a


def station_along(pattern: Pattern, run: Sequence[EdgeRef], along: float) -> tuple[str, Station]:
    """The piece and the station so far along a run, counted from where its edge begins on the walk."""
    for ref in run:
        long = pattern.piece(ref.piece).edge(ref.edge).length
        if along <= long or ref is run[-1]:
            return ref.piece, Station(ref.edge, min(along, long), "end" if ref.backward else "start")
        along -= long
    raise LookupError("a run without edges")


def notches_evenly(pattern: Pattern, seam: Seam) -> Pattern:
    """The pattern with each notch of a gathered waist at the same share of its edge as its partner.

    One that comes to lie beyond the end of its piece goes over to the next.
    """
    walked = walk(pattern, seam)
    pieces = {ref.piece: pattern.piece(ref.piece) for ref in seam.a}
    pairs = dict(zip(seam.notches, seam.notches, strict=True))
    for pair in walked.notches:
        if pair.along_b is None:
            continue
        where, station = station_along(pattern, seam.a, walked.met(pair.along_b, from_a=False))
        old, to = pieces[pair.a.piece], pieces[where]
        notch = replace(old.notch(pair.a.notch), station=station)
        if where == pair.a.piece:
            kept = tuple(notch if each.name == notch.name else each for each in old.notches)
            pieces[where] = replace(old, notches=kept)
            continue
        notch = replace(notch, name=free_name(notch.name, {each.name for each in to.notches}))
        pieces[old.name] = replace(old, notches=tuple(each for each in old.notches if each.name != pair.a.notch))
        pieces[where] = replace(to, notches=(*to.notches, notch))
        pairs[pair.a, pair.b] = (NotchRef(where, notch.name), pair.b)
    marked = replace(seam, notches=tuple(pairs.values()))
    bare = with_pieces(replace(pattern, seams=()), *pieces.values())
    return replace(bare, seams=tuple(marked if each.name == seam.name else each for each in pattern.seams))
