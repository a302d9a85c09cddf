"""A dart left unsewn: the cloth that it would take up is gathered or eased into the seam it lies in.

The trade's way (common practice): leave the legs out, and draw the seam line in one sweep over the open mouth. Notch
the beginning and the end of the mouth; the partner has one notch, and both are drawn up to it. No thread draws cloth
up to a point, so a little of the seam on both sides is gathered too, and notched on both pieces. The seam keeps the
length that it was sewn to; the width of the mouth becomes the declared ease of the seam.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from itertools import pairwise
from typing import Final, Literal

from drafting.alterations.alteration import Alteration, Layer, Promise, find_dart, find_piece
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import lengths_kept
from drafting.alterations.refusing import instead
from drafting.alterations.techniques.marks.gather_marks import station_along
from drafting.errors import StepRefused
from drafting.geometry import fair, tangent
from drafting.pattern import (
    Dart,
    Edge,
    EdgeRef,
    Fullness,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    free_name,
    from_start,
    run_total,
    walk,
    with_pieces,
)
from drafting.pattern.notches import DOUBLE_NOTCH, LEAST_APART
from drafting.pattern.piece_parts import End

__all__ = ["DartIntoGathers"]

How = Literal["gathers", "ease"]
_HOWS: Final = ("gathers", "ease")

_MOST_EASED: Final = 0.08
"""How much can be eased in, as a share of the seam it is sewn to (our figure: a centimetre on a shoulder is usual)."""

_BESIDE: Final = 25.0
_OF_BESIDE: Final = 0.6
_LEAST_BESIDE: Final = 8.0
"""mm of seam on each side of a mouth into which it is gathered unless asked, at most so much of what is sewn there, and
where less is left there is no notch (our figures): no thread draws cloth up to a point."""

_OF_MOUTH: Final = 0.5
"""The share of a wide mouth that is gathered into on each side of it: 2 to 1 (common practice: 1.5 to 2 is usual)."""

_ROOM: Final = LEAST_APART + DOUBLE_NOTCH
"""mm between such a notch and another: as far apart as the two look like two, though the other be a double one, on both
pieces."""

_EASE_GIVES: Final = 1.5
"""mm by which the ease of a seam may come out otherwise: what two edges that are to be equal may differ."""

_GATHERS_GIVE: Final = 0.1
"""The share of gathers by which they may come out otherwise: they are drawn up to what is there (our figure)."""


@alteration_class
class DartIntoGathers(Alteration):
    """Leave a dart unsewn, and gather or ease what it would take up into the seam it lies in."""

    name = "dart into gathers"
    layer = Layer.FULLNESS
    about = "Leave a dart unsewn and gather or ease what it takes up into its seam."
    leaves = "the length of every edge, and of what is sewn"
    carries = "the declared ease of the seam, and a notch on the partner"

    piece: str = option("text", "the piece the dart is on")
    dart: str = option("text", "the dart that is left unsewn")
    how: How = option("choice", "gathered, or eased in where it is little", choices=_HOWS, default="gathers")
    beside: float | None = option(
        "length",
        "over how much seam on each side of the dart, where there is room; left out, so that they are 2 to 1",
        _LEAST_BESIDE,
        150.0,
        default=None,
    )

    def apply(self, pattern: Pattern) -> Pattern:
        piece, dart, before, after = self._found(pattern)
        seam, on_a, at = _seam_of_dart(self.name, pattern, piece.name, before, after)
        over = _over_mouth(piece, dart, before, after, self.how)
        own, other = (seam.a, seam.b) if on_a else (seam.b, seam.a)
        self._accept(over.length, run_total(pattern, other))
        run = (*own[: at + 1], EdgeRef(piece.name, over.name, own[at].backward), *own[at + 1 :])
        gathered = _without_legs(piece, dart, over)
        gathered = _with_ends_notched(gathered, over)
        beside = _gather_end_notches(own[at], own[at + 1], piece, self._far(over.length))
        walked, mouth = walk(pattern, seam), run_total(pattern, own[: at + 1])
        along = walked.met(mouth, from_a=on_a)
        partner, mark = _with_mark(pattern, other, along, over.name, NotchMark.DRAWN_UP_INTO)
        if partner.name == piece.name:
            raise StepRefused(self.name, reason=f'"{piece.name}" is sewn to itself there')
        met = [(NotchRef(piece.name, notch.name), mark) for notch in gathered.notches[len(piece.notches) :]]
        for word, sign, station in beside:
            notch = _free_notch(gathered, f"{over.name} {word}", station, NotchMark.DRAWN_UP_BESIDE)
            gathered = replace(gathered, notches=(*gathered.notches, notch))
            place = walked.met(mouth + sign * station.at, from_a=on_a)
            if 0.0 < place < run_total(pattern, other):
                partner, there = _with_mark(
                    with_pieces(pattern, partner), other, place, notch.name, NotchMark.DRAWN_UP_BESIDE
                )
                met.append((NotchRef(piece.name, notch.name), there))
        pairs = (*seam.notches, *(pair if on_a else pair[::-1] for pair in met))
        sides = (run, seam.b) if on_a else (seam.a, run)
        ease = _with_more(seam.ease, over.length, self.how, on_a)
        sewn = Seam(seam.name, *sides, ease, pairs)
        seams = tuple(sewn if each.name == seam.name else each for each in pattern.seams)
        return replace(with_pieces(replace(pattern, seams=()), gathered, partner), seams=seams)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        piece, dart, before, after = self._found(pattern)
        seam, _, _ = _seam_of_dart(self.name, pattern, piece.name, before, after)
        yield from lengths_kept(piece, [edge.name for edge in piece.edges if edge.name not in dart.legs])
        yield Promise(
            f"how much the two sides of the {seam.name} differ, the ease left out", partial(_ease_error, seam.name)
        )

    def came_to(self, before: Pattern, after: Pattern) -> Mapping[str, float]:  # noqa: ARG002
        piece, dart, one, other = self._found(before)
        over = _over_mouth(piece, dart, one, other, self.how)
        return {"beside": self._far(over.length)} if self.beside is None else {}

    def comes_after(self, step: Alteration) -> bool:
        # a shoulder cut in one with its sleeve has no seam to gather into: what is left of its dart lies in the new one
        return Place.SHOULDER in step.redraws or Place.SIDE in step.redraws

    def _found(self, pattern: Pattern) -> tuple[Piece, Dart, Edge, Edge]:
        """The piece, the dart, and the edges beside it."""
        piece = find_piece(self.name, pattern, self.piece)
        dart = find_dart(self.name, piece, self.dart, pattern=pattern)
        k = piece.index(dart.legs[0])
        return piece, dart, piece.edges[k - 1], piece.edges[(k + 2) % len(piece.edges)]

    def _far(self, mouth: float) -> float:
        """Over how much seam on each side of a mouth so long it is to be gathered, mm, where there is room."""
        if self.beside is not None:
            return self.beside
        return max(_BESIDE, _OF_MOUTH * mouth) if self.how == "gathers" else _BESIDE

    def _accept(self, eased: float, partner: float) -> None:
        if self.how == "ease" and eased > _MOST_EASED * partner:
            said = f"{eased:.0f} mm, {eased / partner:.1%} of the seam, would have to be eased in"
            reason = f"{said}, and {_MOST_EASED:.1%} is the most that will go"
            raise StepRefused(self.name, reason=reason, remedies=instead(self.name, "how", "gathers"))


def _seam_of_dart(step: str, pattern: Pattern, piece: str, before: Edge, after: Edge) -> tuple[Seam, bool, int]:
    """The seam the dart lies in, whether on its first side, and after which edge of that side."""
    names = {before.name, after.name}
    for seam in pattern.seams:
        for on_a, run in ((True, seam.a), (False, seam.b)):
            for at, (one, other) in enumerate(pairwise(run)):
                if one.piece == other.piece == piece and {one.edge, other.edge} == names:
                    return seam, on_a, at
    reason = f'nothing is sewn to "{before.name}" and "{after.name}" that could hold the gathers'
    drawn_later = "a facing, a binding or a band is drawn after the gathers, to the edge as long as it is then"
    raise StepRefused(
        step, reason=f"{reason}: {drawn_later}; move the dart into a seam between two pieces, such as the shoulder"
    )


def _over_mouth(piece: Piece, dart: Dart, before: Edge, after: Edge, how: str) -> Edge:
    """The seam line in one sweep over the open mouth."""
    curve = fair(before.end, tangent(before.curves[-1], 1.0), after.start, tangent(after.curves[0], 0.0))
    name = free_name(f"{dart.name} {how}", {edge.name for edge in piece.edges})
    drawn_up = Fullness.GATHERED if how == _HOWS[0] else Fullness.EASED
    return Edge(name, (curve,), Role.SEAM, before.allowance, before.place, before.half, drawn_up)


def _without_legs(piece: Piece, dart: Dart, over: Edge) -> Piece:
    """The piece with the mouth drawn over."""
    edges = tuple(over if edge.name == dart.legs[0] else edge for edge in piece.edges if edge.name != dart.legs[1])
    return replace(piece, edges=edges, darts=tuple(each for each in piece.darts if each.name != dart.name))


def _with_ends_notched(piece: Piece, over: Edge) -> Piece:
    """The piece with the two ends of what is gathered notched."""
    ends: tuple[tuple[str, End, NotchMark], ...] = (
        ("begin", "start", NotchMark.DRAWN_UP_FROM),
        ("end", "end", NotchMark.DRAWN_UP_TO),
    )
    marks = (_free_notch(piece, f"{over.name} {word}", Station(over.name, 0.0, end), what) for word, end, what in ends)
    return replace(piece, notches=(*piece.notches, *marks))


def _free_notch(piece: Piece, name: str, station: Station, marks: NotchMark) -> Notch:
    """A notch there, by another name where the piece has the mark of its partner's gathers by this one already."""
    return Notch(free_name(name, {notch.name for notch in piece.notches}), station, marks=marks)


def _gather_end_notches(
    first: EdgeRef, second: EdgeRef, piece: Piece, far: float
) -> Iterator[tuple[str, float, Station]]:
    """The notches between which it is gathered: so far before and after the mouth, mm, or as there is room.

    Each with the word it is called by, and on which side of the mouth it lies as the seam is walked. A notch that is
    there already is left its room: the new one lies nearer to the mouth.
    """
    for word, sign, ref in (("from", -1.0, first), ("to", 1.0, second)):
        edge = piece.edge(ref.edge)
        # the mouth is where the one edge ends on the walk and where the other begins
        towards: End = "end" if (sign < 0.0) != ref.backward else "start"
        at = min(far, _OF_BESIDE * edge.length)
        for off in sorted((_from_mouth(edge, notch, towards) for notch in _notches_on(piece, edge)), reverse=True):
            at = off - _ROOM if abs(at - off) < _ROOM else at
        if at >= _LEAST_BESIDE:
            yield word, sign, Station(ref.edge, at, towards)


def _notches_on(piece: Piece, edge: Edge) -> Iterator[Notch]:
    return (notch for notch in piece.notches if notch.station.edge == edge.name)


def _from_mouth(edge: Edge, notch: Notch, mouth: End) -> float:
    """How far along its edge a notch lies from the end where the mouth is, mm."""
    at = from_start(edge, notch.station)
    return at if mouth == "start" else edge.length - at


def _with_mark(
    pattern: Pattern, run: Sequence[EdgeRef], along: float, name: str, marks: NotchMark
) -> tuple[Piece, NotchRef]:
    """The piece on the other side, notched so far along its run, mm, where both ends of the gathers meet."""
    where, station = station_along(pattern, run, along)
    piece = pattern.piece(where)
    notch = _free_notch(piece, name, station, marks)
    return replace(piece, notches=(*piece.notches, notch)), NotchRef(piece.name, notch.name)


def _with_more(ease: SeamEase, more: float, how: str, on_a: bool) -> SeamEase:
    """The ease of a seam after one side became longer by so much, mm; it is below zero for the second side."""
    give = _GATHERS_GIVE * more if how == "gathers" else _EASE_GIVES
    change = more if on_a else -more
    return SeamEase(ease.wanted + change, ease.low + change - give, ease.high + change + give)


def _ease_error(seam: str, pattern: Pattern) -> float:
    found = pattern.seam(seam)
    return abs(run_total(pattern, found.a) - run_total(pattern, found.b) - found.ease.wanted)
