"""What every rule of the order of sewing goes by: the stages, a pattern and what every rule asks of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from enum import IntEnum, auto
from typing import Final

from drafting.dataclass import dataclass
from drafting.pattern import MIDDLE_SEAMS, BodyPart, EdgeRef, Pattern, Piece, Place, Role, Seam
from drafting.pattern.gathered import Held
from drafting.sewing.seam_kinds import SeamKind, part_of, pieces_in
from drafting.sewing.sewing_step import Act, SewingStep
from drafting.sewing.stays import seam_stays

__all__ = ["DARTS", "PANELS", "SIDES", "Found", "Sewing", "Stage", "centre_seams", "left_over", "part_covered"]


class Stage(IntEnum):
    """When a step comes."""

    PREPARE = auto()
    COLLAR = auto()
    BODICE_DARTS = auto()
    BODICE_PANELS = auto()
    SHOULDERS = auto()
    NECK = auto()
    FLAT_SLEEVES = auto()
    BODICE_SIDES = auto()
    SKIRT_DARTS = auto()
    SKIRT_PANELS = auto()
    SKIRT_SIDES = auto()
    GODETS = auto()
    CROTCH = auto()
    WAIST = auto()
    EDGES = auto()
    COLLAR_OVER_STAND = auto()
    ZIP = auto()
    BAND = auto()
    SLEEVE_DARTS = auto()
    SLEEVES = auto()
    ARMHOLES = auto()
    LINING = auto()
    OVER_LINING = auto()
    TUCKS = auto()
    HEMS = auto()
    BUTTONS = auto()


DARTS: Final = {
    BodyPart.SKIRT: Stage.SKIRT_DARTS,
    BodyPart.TROUSERS: Stage.SKIRT_DARTS,
    BodyPart.SLEEVE: Stage.SLEEVE_DARTS,
}
PANELS: Final = {
    BodyPart.SKIRT: Stage.SKIRT_PANELS,
    BodyPart.TROUSERS: Stage.SKIRT_PANELS,
    BodyPart.SLEEVE: Stage.SLEEVE_DARTS,
}
SIDES: Final = {BodyPart.SKIRT: Stage.SKIRT_SIDES, BodyPart.TROUSERS: Stage.SKIRT_SIDES}


@dataclass(frozen=True, slots=True)
class Sewing:
    """A pattern and what every rule asks of it, found once."""

    pattern: Pattern
    knit: bool
    kinds: dict[str, SeamKind]
    numbers: dict[str, tuple[int, ...]]
    held: tuple[Held, ...]

    def seams(self, *kinds: SeamKind) -> tuple[Seam, ...]:
        return tuple(seam for seam in self.pattern.seams if self.kinds[seam.name] in kinds)

    def step(self, act: Act, seams: Iterable[Seam], *, place: Place | None = None, **more: object) -> SewingStep:
        """A step that sews these seams, with their notches, their fullness and their stays."""
        sewn = tuple(seams)
        names = tuple(seam.name for seam in sewn)
        parts = {part_of(self.pattern, seam) for seam in sewn}
        step: dict[str, object] = {
            "place": place,
            "part": parts.pop() if len(parts) == 1 else None,
            "pieces": pieces_in(sewn),
            "seams": names,
            "held": tuple(held for held in self.held if held.seam in names and held.longer),
            "notches": tuple(sorted({number for name in names for number in self.numbers[name]})),
            "stays": seam_stays(self.pattern, sewn, knit=self.knit),
        }
        return SewingStep(act, **(step | more))  # type: ignore[arg-type]


Found = Iterator[tuple[Stage, SewingStep]]


def part_covered(piece: Piece) -> BodyPart:
    """The part of the body that a piece covers; the bodice where that is not known."""
    return piece.identity.part or BodyPart.BODICE


def centre_seams(pattern: Pattern, piece: Piece) -> Iterator[EdgeRef]:
    """The edges along which the left one of a piece is sewn to its right one: no seam of the pattern names them."""
    if piece.cut.mirror:
        for ref in left_over(pattern, piece):
            edge = piece.edge(ref.edge)
            if edge.place in MIDDLE_SEAMS and edge.role is Role.SEAM:
                yield ref


def left_over(pattern: Pattern, piece: Piece) -> Iterator[EdgeRef]:
    """The edges of a piece that no seam names, but for folds, darts and what is turned up."""
    sewn = _sewn_edges(pattern)
    for edge in piece.edges:
        if (piece.name, edge.name) not in sewn and edge.role not in (Role.FOLD, Role.DART_LEG, Role.HEM):
            yield EdgeRef(piece.name, edge.name)


def _sewn_edges(pattern: Pattern) -> set[tuple[str, str]]:
    return {(ref.piece, ref.edge) for seam in pattern.seams for ref in (*seam.a, *seam.b)}
