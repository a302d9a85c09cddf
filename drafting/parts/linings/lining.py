r"""A lining: the pieces of the garment once more, of lining cloth, sewn together as they are, inside them.

Traced from the shell as it is now, with its darts and on its grain. It ends above the hem by 2 to 2.5 cm (common
practice), and where the neck has a facing at the free edge of that; without one it goes to the neck itself. At a zip it
is sewn to the tape, at a waist or an armhole whose other side is not lined it is caught in that seam (common practice).

        shell            lining
      __/~~~\__        _         _      the facing of the neck stays outside it
     (         )      ( \_______/ )
      |       |        |         |
      |_______|        |_________|      above the hem
       - - - -  hem
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace
from typing import Final

from drafting.errors import NotAPattern
from drafting.parts.drawn import Drawn
from drafting.parts.finishes.edge_facing import HEM_FACING
from drafting.parts.finishes.facing_in_one import LINING, NECK_FACING
from drafting.parts.finishes.neck_facing import neck_strips
from drafting.parts.finishes.neck_over_sleeve import sleeve_at_neck
from drafting.parts.finishes.strip_seams import Strip
from drafting.parts.linings.back_pleat import with_back_pleat
from drafting.parts.linings.cut_away import cut_away, grain_off_hem
from drafting.parts.linings.flat_pleats import with_flat_pleats
from drafting.parts.linings.inside_edge import with_edges_inside
from drafting.parts.linings.lining_seams import LinedPiece, copied_seams, seams_to_shell
from drafting.parts.linings.raised_hem import with_hem_raised
from drafting.parts.linings.whole_fronts import with_whole_fronts
from drafting.pattern import (
    BodyPart,
    Derived,
    DrawnTo,
    EdgeRef,
    Identity,
    Landmark,
    Level,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    edges_at,
    free_name,
    free_piece_name,
    pieces_drawn_to,
    seam_allowance,
)

__all__ = ["BACK_PLEAT", "LINED", "LINING_TO", "SHORTER", "draw_lining"]

WHOLE, BODICE, BELOW = "whole garment", "bodice", "below the waist"
LINED: Final = (WHOLE, BODICE, BELOW)
"""What of a garment can be lined."""

SHORTER: Final = 25.0
"""mm. How far above the hem a lining ends: 2 to 2.5 cm (common practice)."""

BACK_PLEAT: Final = 15.0
"""mm. How deep the pleat at the centre back of a lining is: 1.5 to 2 cm (a tailoring teacher)."""

_PARTS: Final[Mapping[str, tuple[BodyPart, ...]]] = {
    WHOLE: (BodyPart.BODICE, BodyPart.SKIRT, BodyPart.TROUSERS, BodyPart.SLEEVE),
    BODICE: (BodyPart.BODICE, BodyPart.SLEEVE),
    BELOW: (BodyPart.SKIRT, BodyPart.TROUSERS),
}
_LARGE: Final = (PieceKind.FRONT, PieceKind.BACK, PieceKind.SLEEVE, PieceKind.YOKE, PieceKind.PANEL)
_KINDS: Final = (*_LARGE, PieceKind.GUSSET)
_HEMS: Final = (Place.HEM, Place.WRIST, Place.LEG_OPENING)
_OF_SHELL: Final = 0.9  # of the hem of the shell, which is narrow where it is curved (ours)
_TURNED_UP: Final = 20.0  # mm: the hem of a lining (common practice)
_NO_MORE: Final = (Level.HEM, Level.LET_DOWN, Level.TUCK, Level.POCKET)
_NO_MARKS: Final = (
    *(Landmark.BUTTON, Landmark.POCKET, Landmark.NAPE, Landmark.NECK_PIT, Landmark.SIDE_NECK),
    Landmark.WRIST,  # the lining ends above it
)
"""Lines and points that say nothing of a lining."""

LINING_TO: Final = tuple(
    DrawnTo(place, Identity(kind, part))
    for part, places in (
        (BodyPart.BODICE, (Place.ARMHOLE, Place.NECK, Place.SIDE)),
        (BodyPart.SKIRT, (Place.SIDE, Place.WAIST)),
        (BodyPart.TROUSERS, (Place.SIDE,)),
        (BodyPart.SLEEVE, (Place.UNDERARM,)),
    )
    for place in places
    for kind in _LARGE
)
"""What a lining is drawn to."""


def draw_lining(pattern: Pattern, derived: Derived) -> Drawn:
    """The lining; of: what of the garment, shorter: than the finished hem, mm.

    Raises NotAPattern where there is nothing to line, and where a facing cannot be left out of it.
    """
    pattern = with_flat_pleats(with_whole_fronts(pattern))
    options = dict(derived.options)
    parts, shorter = _PARTS[str(options["of"])], derived.length("shorter")
    shells = [piece for piece in pattern.pieces if piece.identity.kind in _KINDS and piece.identity.part in parts]
    if not shells:
        raise NotAPattern(LINING, reason=f"there is nothing to line: {options['of']}")
    facings = _facings(pattern)
    lined: list[LinedPiece] = []
    for shell in shells:
        name = free_piece_name(pattern, f"{shell.name} {LINING}", [each.lining.name for each in lined])
        one = _lined(pattern, shell, name, facings.get(shell.name), shorter)
        deep = 0.0 if pattern.stretch else derived.length("pleat")
        lined.append(replace(one, lining=with_back_pleat(one.lining, deep)) if deep else one)
    lined = with_edges_inside(pattern, lined, derived.length_or("smaller", 0.0))
    by_shell = {each.shell.name: each for each in lined}
    seams = (*copied_seams(pattern, by_shell), *seams_to_shell(pattern, lined))
    met = {mark for seam in seams for pair in seam.notches for mark in pair}
    return Drawn(tuple(_with_notches_that_meet(each.lining, met) for each in lined), seams)


def _with_notches_that_meet(piece: Piece, met: Collection[NotchRef]) -> Piece:
    """The piece without the balance notches that none of the lining or the shell meets."""
    kept = (n for n in piece.notches if n.marks is not NotchMark.BALANCE or NotchRef(piece.name, n.name) in met)
    return replace(piece, notches=tuple(kept))


def _facings(pattern: Pattern) -> dict[str, Strip]:
    """The strips of the neck facing there is, by the piece that they face."""
    facing = next((each for each in pattern.derived if each.part == NECK_FACING), None)
    if facing is None:
        return {}
    if (sleeve := sleeve_at_neck(pattern)) is not None:
        reason = f'the neck facing goes on over the "{sleeve.name}", and no lining is cut away along it there'
        raise NotAPattern(LINING, reason=f"{reason}: leave the facing out, and the lining is sewn to the neck itself")
    without = replace(pattern, derived=tuple(each for each in pattern.derived if each is not facing))
    _, _, strips = neck_strips(without, facing, lined=True)
    return {ref.piece: strip for strip in strips for ref in strip.faced}


def _lined(pattern: Pattern, shell: Piece, name: str, faced: Strip | None, shorter: float) -> LinedPiece:
    """The lining of one piece."""
    faced_hems = _faced_hems(pattern)
    made, allowance = shell, seam_allowance(shell)
    if faced is not None:
        edge = free_name("edge at the facing", [each.name for each in shell.edges])
        made = cut_away(made, faced, edge, Role.SEAM, Place.FACING_EDGE, allowance)
    for place in _HEMS:
        ends = edges_at(made, place)
        hems = [edge for edge in ends if edge.role is Role.HEM or EdgeRef(shell.name, edge.name) in faced_hems]
        for hem in hems:  # beside a slit or a dart there are two
            deep = min(_TURNED_UP, _OF_SHELL * hem.allowance)
            made = with_hem_raised(pattern, made, hem, f"{name} above its hem", by=shorter, allowance=deep)
        if hems:
            made = replace(made, grain=grain_off_hem(made.grain, hems[0].start, shorter))
    darts = tuple(dart for dart in made.darts if {*dart.legs} <= {edge.name for edge in made.edges})
    cut = replace(made.cut, count=0, lining=made.cut.count, interfacing=0)
    return LinedPiece(
        shell,
        replace(
            made,
            name=name,
            cut=cut,
            darts=darts,
            lines=tuple(line for line in made.lines if line.level not in _NO_MORE),
            points=tuple(point for point in made.points if point.landmark not in _NO_MARKS),
            identity=replace(shell.identity, kind=PieceKind.LINING, of=shell.identity.kind),
        ),
        faced,
    )


def _faced_hems(pattern: Pattern) -> frozenset[EdgeRef]:
    """The hems that are sewn to a facing: a lining ends above them as above any other."""
    parts = [part for part in pattern.derived if part.part == HEM_FACING]
    return frozenset(
        EdgeRef(piece.name, edge.name)
        for part in parts
        for to in part.to
        for piece in pieces_drawn_to(pattern, to)
        for edge in edges_at(piece, to.place)
    )
