"""The strips that a step of sewing needs beside the pieces of the pattern: of an open shoulder, of a knit's neck."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Final

from drafting.pattern import EdgeRef, Pattern, Piece, PieceKind, Place, Role, Seam, edges_at
from drafting.pattern.neck_band import neck_band
from drafting.sewing.sewing_step import Strip
from drafting.sewing.stays import times_cut

__all__ = [
    "BINDING_ENDS",
    "KNIT_BINDING",
    "SNAP_FACING",
    "STRIP_END",
    "UNDERLAP",
    "binding_strips",
    "collar_strips",
    "opening_strips",
]

UNDERLAP: Final = 20.0
_SHOULDER_SEAM: Final = 10.0
"""mm: how far the back reaches under the front at an open shoulder, and the seam of its strip (common practice)."""

SNAP_FACING: Final = 25.0
TURNED_UNDER: Final = 6.0
STRIP_END: Final = 10.0
"""mm: how wide a facing behind snaps is, how much of its inner edge and of its ends is turned under (2 to 3 cm is
common practice; the rest is ours)."""

KNIT_BINDING: Final = 10.0
"""mm: how wide the binding of a knit is, so its strip four times that (common practice, from memory)."""

BINDING_ENDS: Final = 100.0
"""mm of binding beyond the edge: both ends turned in or joined, and a slanting join on the way (common practice)."""


COVER: Final = 30.0
COVER_ENDS: Final = 20.0
"""mm: how wide a bias strip is that covers the seam of a collar inside, and what its turned-in ends take (common
practice)."""


def binding_strips(pattern: Pattern, place: Place, edges: Iterable[EdgeRef]) -> tuple[Strip, ...]:
    """The strip of knit that binds a bare edge; none in a woven, which is bound with tape that is bought."""
    found = [(pattern.piece(ref.piece), pattern.piece(ref.piece).edge(ref.edge)) for ref in edges]
    if place is Place.NECK and (band := neck_band(pattern)) is not None:
        allowance = max(edge.allowance for _, edge in found)
        other = band.stretch if band.stretch > pattern.stretch else 0.0
        return (Strip(1, band.rest + 2.0 * allowance, 2.0 * (band.width + allowance), allowance, stretch=other),)
    if not pattern.stretch:
        return ()
    long: dict[str, float] = {}
    for piece, edge in found:
        long[piece.name] = long.get(piece.name, 0.0) + times_cut(piece) * edge.length
    if place is Place.NECK and any(_opens_at_shoulder(piece) for piece, _ in found):
        return tuple(_bound(1, each) for each in long.values())  # front and back each by themselves
    whole = sum(long.values())
    return (_bound(2, 0.5 * whole) if place is Place.ARMHOLE else _bound(1, whole),)


def _bound(count: int, long: float) -> Strip:
    return Strip(count, long + BINDING_ENDS, 4.0 * KNIT_BINDING, KNIT_BINDING)


def _opens_at_shoulder(piece: Piece) -> bool:
    return any(edge.role is Role.OPENING for edge in edges_at(piece, Place.SHOULDER))


def collar_strips(pattern: Pattern, seams: Iterable[Seam]) -> tuple[Strip, ...]:
    """The bias strip that covers the seam of a collar inside; none where a facing does."""
    necks = {ref for seam in seams for ref in seam.a}
    for seam in pattern.seams:
        faced = any(pattern.piece(ref.piece).identity.kind is PieceKind.FACING for ref in seam.a)
        if faced and necks.intersection(replace(ref, backward=way) for ref in seam.b for way in (True, False)):
            return ()
    found = {(ref.piece, ref.edge) for ref in necks}
    long = sum(times_cut(pattern.piece(piece)) * pattern.piece(piece).edge(edge).length for piece, edge in found)
    return (Strip(1, long + COVER_ENDS, COVER, 0.0),)


def opening_strips(pattern: Pattern, place: Place, edges: Iterable[EdgeRef]) -> tuple[Strip, ...]:
    """The strips that an opening is faced with: at shoulders and inseams; none elsewhere."""
    if place is Place.SHOULDER:
        return _shoulder_strips(pattern, edges)
    return _inseam_strips(pattern, edges) if place is Place.INSEAM else ()


def _inseam_strips(pattern: Pattern, edges: Iterable[EdgeRef]) -> tuple[Strip, ...]:
    """Two strips, one behind the front and one behind the back, from the hem of one leg to that of the other."""
    found = [pattern.piece(ref.piece).edge(ref.edge) for ref in edges]
    long, allowance = max(edge.length for edge in found), max(edge.allowance for edge in found)
    wide = SNAP_FACING + allowance + TURNED_UNDER
    return (Strip(2, 2.0 * (long + STRIP_END), wide, allowance, interfaced=True),)


def _shoulder_strips(pattern: Pattern, edges: Iterable[EdgeRef]) -> tuple[Strip, ...]:
    """The four strips of shoulders that are left open, two an underlap and two a facing."""
    refs = tuple(edges)
    long = max(pattern.piece(ref.piece).edge(ref.edge).length for ref in refs)
    beside = (
        edge for ref in refs for edge in pattern.piece(ref.piece).edges if edge.place in (Place.NECK, Place.ARMHOLE)
    )
    allowance = max((edge.allowance for edge in beside), default=0.0)
    return (Strip(4, long + 2.0 * allowance, 2.0 * (UNDERLAP + _SHOULDER_SEAM), _SHOULDER_SEAM, interfaced=True),)
