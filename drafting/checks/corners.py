"""Do lines run on truly where pieces are joined: at the ends of seams, over closed darts, at folds."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from itertools import chain
from typing import Final, Literal

from drafting.checks.base import Check, Look, OneSided, Result, Verdict, look, verdict_on
from drafting.checks.joined import one_sided, pieces_and_steps, seam_parts
from drafting.dataclass import dataclass
from drafting.pattern import MIDDLE_SEAMS, Edge, EdgeRef, Pattern, Piece, Place, Role, Seam, Step, corner_at

__all__ = ["CORNER", "CORNER_UNIT", "look_at_corners"]

CORNER = 3.0
"""degrees by which a joined line may bend where its two parts meet: less than a curve drawn with a rule would show
(our figure; that the corners must add up to a straight line is common practice)."""

HEM_CORNER = 14.0
"""degrees by which a hem may bend at a seam: 7 to a side. A fold that is turned up deeper than a centimetre has to be
straight to lie on the cloth, so where the sides lean in, as in a sleeve, their taper shows there as a shallow corner
(our figure; that the hem wins is common practice)."""

CORNER_UNIT = "degrees"


_End = Literal["start", "end"]
_ENDS: Final[tuple[_End, ...]] = ("start", "end")


@dataclass(frozen=True, slots=True)
class _Corner:
    """One corner of a piece seen from an edge: the number of the edge that begins in it, and the edge that lies beside.

    meant: whether a point is meant there, so that it need not make a line with anything
    """

    piece: Piece
    at: int
    beside: Edge
    meant: bool

    @property
    def name(self) -> str:
        return f"{self.piece.name} {self.beside.name}"

    @property
    def angle(self) -> float:
        """The angle of cloth in the corner, degrees."""
        return 180.0 - math.degrees(corner_at(self.piece, self.at))


def look_at_corners(_check: Check, pattern: Pattern, *, points: Collection[str] = ()) -> Iterator[Look]:
    """The corners that make one line of two edges; measured is what they add up to, degrees.

    At the end of each seam the two edges beside it run on into each other when neither is sewn, or when both are sewn
    only later: the seams of a pattern stand in the order of sewing, and a line is trued in that order (the shoulder
    before the armhole, the side seam before the armhole base and the hem; common practice). Where a piece is sewn to
    itself it makes a tube, and both rims are lines whatever the order. The angles must add up to 180 degrees. So must
    the two beside a dart, closed, and twice the angle at a fold or a centre line, where a piece meets its own mirror
    image.

    A hem may bend by HEM_CORNER at a seam: where the sides taper it is folded straight all the same.
    A corner that the piece says is meant (a V neck) is left out; points names further ones by the `where` of results.
    """
    for seam in pattern.seams:
        yield look(_over_seam, points, pattern.seams, seam, *seam_parts(pattern, seam))
    for piece in pattern.pieces:
        yield look(_corners_of_piece, points, piece)


def _over_seam(
    check: Check, points: Collection[str], order: tuple[Seam, ...], seam: Seam, *parts: Piece | Step
) -> Iterator[Result]:
    """Measured is the angle at which an outline runs on over each end of a seam, degrees; 180 is straight."""
    pieces, held = pieces_and_steps(parts)
    if _wrong_way_round(pieces, seam):
        remedy = (
            "Its two sides begin at opposite ends, so that no line runs on over it: walk one of them the other way."
        )
        yield check.result(f"{seam.name}: way round", Verdict.FAIL, remedy=remedy)
        return
    for end in _ENDS:
        one, other = _corner_at_end(pieces, seam.a, end), _corner_at_end(pieces, seam.b, end)
        if one.meant or other.meant or not _runs_on(one, other, order, seam):
            continue
        where = f"{seam.name}, {end}: {one.name} to {other.name}"
        if where not in points:
            line = one.beside.name if one.beside.name == other.beside.name else "joined line"
            cure = "redraw it across the seam until it runs straight on"
            allowed = HEM_CORNER if _tapers(one, other) else CORNER
            more = one_sided(seam, held)
            yield _judged(check, where, one.angle + other.angle, f"The {line} has", cure, more, allowed=allowed)


def _wrong_way_round(pieces: tuple[Piece, ...], seam: Seam) -> bool:
    """Whether the lines beside a seam have other lines at both ends, and would have one were a side walked backward."""
    (one, other), (far, beyond) = (
        (_line(_corner_at_end(pieces, seam.a, end)), _line(_corner_at_end(pieces, seam.b, end))) for end in _ENDS
    )
    return one != other and one == beyond and far == other


def _line(corner: _Corner) -> object:
    """The line that an edge beside a corner is a part of: its place, else itself."""
    return (corner.beside.place, corner.beside.half) if corner.beside.place else corner.beside.name


def _tapers(one: _Corner, other: _Corner) -> bool:
    """Whether a hem, or a wrist sewn to a cuff, goes straight over a seam towards which both pieces lean alike."""
    hems = one.beside.role is other.beside.role is Role.HEM or one.beside.place is other.beside.place is Place.WRIST
    leans = [corner.angle - 90.0 for corner in (one, other)]
    return hems and abs(leans[0] - leans[1]) <= CORNER and max(map(abs, leans)) <= 0.5 * HEM_CORNER


def _corners_of_piece(check: Check, points: Collection[str], piece: Piece) -> Iterator[Result]:
    for result in chain(_dart_mouths(check, piece), _centre_lines(check, piece)):
        if result.where not in points:
            yield result


def _runs_on(one: _Corner, other: _Corner, order: tuple[Seam, ...], seam: Seam) -> bool:
    """Whether the edges beside a seam make one line when it is sewn."""
    # darts and centre lines are looked at for themselves; an opening stops at a seam
    apart = (Role.FOLD, Role.OPENING, Role.DART_LEG)
    if one.beside.role in apart or other.beside.role in apart:
        return False
    if one.piece is other.piece:
        return True
    if (one.beside.place is Place.STAND) is not (other.beside.place is Place.STAND):
        return False  # a button stand ends at the seam, where only what is above it is buttoned
    if _sewn_together(order, one, other):  # the seam itself runs on there, as a binding's does from a button stand
        return False
    turns = [_turn(order, corner) for corner in (one, other)]
    if turns[0] is None or turns[1] is None:
        return turns[0] is turns[1]
    return min(turns[0], turns[1]) > order.index(seam)


def _sewn_together(order: Sequence[Seam], one: _Corner, other: _Corner) -> bool:
    """Whether the edges beside two corners are sewn to each other: they lie on the two sides of a seam."""
    return any(
        (_lies_in(seam.a, one) and _lies_in(seam.b, other)) or (_lies_in(seam.a, other) and _lies_in(seam.b, one))
        for seam in order
    )


def _lies_in(run: Sequence[EdgeRef], corner: _Corner) -> bool:
    """Whether the edge beside a corner is one of a run."""
    edge, piece = corner.beside.name, corner.piece.name
    return any(ref.edge == edge and ref.piece == piece for ref in run)


def _turn(order: tuple[Seam, ...], corner: _Corner) -> int | None:
    """When the edge beside is sewn: the place of its last seam in the order; None where it is in none."""
    edge, piece = corner.beside.name, corner.piece.name
    for count in reversed(range(len(order))):
        for ref in (*order[count].a, *order[count].b):
            if ref.edge == edge and ref.piece == piece:
                return count
    return None


def _dart_mouths(check: Check, piece: Piece) -> Iterator[Result]:
    for dart in piece.darts:
        before, after = _corner(piece, dart.legs[0], "start"), _corner(piece, dart.legs[1], "end")
        if before.meant or after.meant or Role.DART_LEG in (before.beside.role, after.beside.role):
            continue
        where = f"{piece.name}: mouth of {dart.name}"
        subject = f'With "{dart.name}" closed the seam line has'
        cure = "fold the dart, redraw the line across it and unfold"
        yield _judged(check, where, before.angle + after.angle, subject, cure)


def _centre_lines(check: Check, piece: Piece) -> Iterator[Result]:
    for edge in piece.edges:
        if not _mirrored(edge):
            continue
        for end in _ENDS:
            corner = _corner(piece, edge.name, end)
            if corner.meant or _mirrored(corner.beside) or corner.beside.role is Role.DART_LEG:
                continue  # a V, two stretches of one centre line, or a dart that lies in it
            where = f"{piece.name}: {corner.beside.name} at {edge.name}"
            subject = f"Opened out at the {edge.name}, the {corner.beside.name} has"
            yield _judged(check, where, 2.0 * corner.angle, subject, "draw it square to that line")


def _mirrored(edge: Edge) -> bool:
    """Whether the piece meets its own mirror image here: at a fold, or along a centre line of two mirrored halves."""
    return edge.role is Role.FOLD or (edge.role is not Role.DART_LEG and edge.place in MIDDLE_SEAMS)


def _judged(
    check: Check,
    where: str,
    both: float,
    subject: str,
    cure: str,
    held: Sequence[OneSided] = (),
    *,
    allowed: float = CORNER,
) -> Result:
    """The result for a line that runs on at this angle, degrees; 180 is straight.

    subject, cure: the beginning and the end of the sentence that says how it is mended
    """
    bend = both - 180.0
    remedy = f"{subject} a {'hollow' if bend > 0.0 else 'peak'} of {abs(bend):.1f} degrees: {cure}."
    verdict = verdict_on(abs(bend), passing=allowed)
    return check.result(
        where,
        verdict,
        measured=both,
        wanted=180.0,
        allowed=allowed,
        unit=CORNER_UNIT,
        remedy=remedy,
        one_sided=held,
    )


def _corner_at_end(pieces: tuple[Piece, ...], run: tuple[EdgeRef, ...], end: _End) -> _Corner:
    ref = run[0] if end == "start" else run[-1]
    at_its_start = (end == "start") != ref.backward
    piece = next(piece for piece in pieces if piece.name == ref.piece)
    return _corner(piece, ref.edge, "start" if at_its_start else "end")


def _corner(piece: Piece, edge: str, end: _End) -> _Corner:
    """The corner at one end of an edge, seen from that edge."""
    own, following = piece.index(edge), (piece.index(edge) + 1) % len(piece.edges)
    beside, at = (piece.edges[own - 1], own) if end == "start" else (piece.edges[following], following)
    meant = any({edge, beside.name} == set(pair) for pair in piece.points_meant)
    return _Corner(piece, at, beside, meant)
