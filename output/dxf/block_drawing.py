"""What is drawn in one block of a DXF, or loose in the drawing: its lines and points in millimetres, layer by layer."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import field, replace
from itertools import groupby, islice
from typing import TYPE_CHECKING, Final, TypeVar

from drafting.dataclass import dataclass
from drafting.errors import Problem
from drafting.geometry import Point, run_bounds
from drafting.pattern.text_values import FAR, MOST_CURVES, MOST_PIECES
from output.drawings.drawing import Box
from output.dxf.close_outlines import JOINED, Strand, closed_loops, without_copies
from output.dxf.dxf_layers import Layer
from output.dxf.entity_data import DRAW_AGAIN, SOUND_NUMBERS, is_line, kept_data, layer_of, line_name

if TYPE_CHECKING:
    from ezdxf.entities.dxfentity import DXFEntity

__all__ = ["BlockReading", "place_text"]

T = TypeVar("T")

_FLAT: Final = 0.01
"""How near the polyline of an arc or a spline in another's file comes to it, mm."""

_MOST_PLACES: Final = MOST_CURVES
"""Of one line: a hem of three metres has a place for each 0.6 mm then."""

_MOST_IN_ALL: Final = 200_000
"""Places of all lines of a file; a nest of six sizes has a tenth."""

_MOST_TOLD: Final = 40
"""Faults of one file that are told; a file with more of them is not mended one by one."""


class DrawnLines:
    """The lines of a drawing that were read already, and how many places they have in all."""

    def __init__(self) -> None:
        self.by_entity: dict[int, tuple[Point, ...]] = {}
        self.places = 0


@dataclass(frozen=True, slots=True)
class BlockReading:
    """One piece being read.

    entities: what is drawn of it: those of its block, or of its place in the drawing itself
    name:     that of its block, "" where it has none
    scale:    millimetres to the unit of the file
    drawn:    the lines that were read already, of this block and others
    """

    entities: Sequence[DXFEntity]
    name: str
    scale: float
    place: str
    problems: list[Problem]
    drawn: DrawnLines = field(default_factory=DrawnLines)

    def on(self, layer: Layer) -> list[DXFEntity]:
        """The entities of the block on a layer."""
        return [entity for entity in self.entities if layer_of(entity) == layer.value]

    def strands(self, layer: Layer | None) -> list[Strand]:
        """The lines on a layer, or on all: arcs and splines flattened, places that repeat dropped."""
        entities = self.entities if layer is None else self.on(layer)
        found = (Strand(self._along(entity), kept_data(entity)) for entity in entities)
        return without_copies(strand for strand in found if len(strand.points) > 1)

    def places(self, layer: Layer) -> list[tuple[Point, tuple[object, ...]]]:
        """The points on a layer, with what is kept on them."""
        dots = [entity for entity in self.on(layer) if entity.dxftype() == "POINT"]
        found = [(self._scaled(entity.dxf.get("location", (0.0, 0.0))), kept_data(entity)) for entity in dots]
        return [(at, data) for at, data in found if self._near(at)]

    def parted(self) -> list[BlockReading]:
        """Each closed line that lies in no other, with all that is drawn within it, as a piece of its own.

        Everything as one, where lines are drawn and none is closed; nothing, where none is drawn.
        """
        outlines = self.strands(Layer.BOUNDARY) or self.strands(Layer.SEW_LINES) or self.strands(None)
        boxes = [Box(*run_bounds(Strand(loop).lines())).grown(JOINED) for loop in closed_loops(outlines)]
        outer: list[Box] = []
        for box in sorted(boxes, key=lambda box: -box.width * box.height):
            low, high = Point(box.left, box.bottom), Point(box.right, box.top)
            if not any(other.holds(low) and other.holds(high) for other in outer):
                outer.append(box)
            if len(outer) > MOST_PIECES:
                self.problem(f"more than {MOST_PIECES} closed lines side by side", "the pieces of one pattern")
                return []
        if not outer:
            return [self] if outlines else []
        within: dict[Box, list[DXFEntity]] = {box: [] for box in outer}
        for entity in self.entities:
            at = self._begins(entity)
            for box in [each for each in outer if at is not None and each.holds(at)][:1]:
                within[box].append(entity)
        return [replace(self, entities=entities) for entities in within.values()]

    def _begins(self, entity: DXFEntity) -> Point | None:
        """A place of what is drawn; None where it has none that is known."""
        for key in ("location", "insert"):
            if entity.is_supported_dxf_attrib(key) and entity.dxf.hasattr(key):
                return self._scaled(entity.dxf.get(key))
        return next(iter(self._along(entity)), None)

    def _along(self, entity: DXFEntity) -> tuple[Point, ...]:
        """The places of a line, mm; none where it is no line, or is damaged, which is noted."""
        if id(entity) not in self.drawn.by_entity:
            along = self._flattened(entity) if self.drawn.places <= _MOST_IN_ALL else ()
            self.drawn.by_entity[id(entity)] = along
            self.drawn.places += len(along)
            if self.drawn.places > _MOST_IN_ALL:
                self.problem(f"lines of more than {_MOST_IN_ALL:,} places", "the pieces of clothing")
        return self.drawn.by_entity[id(entity)]

    def _flattened(self, entity: DXFEntity) -> tuple[Point, ...]:
        """The points of a line or curve, mm, closely enough for what is cut; () for what is no line."""
        from ezdxf import path

        try:
            drawn = path.make_path(entity)
            corners = [self._scaled(corner) for corner in drawn.control_vertices()]
        except (TypeError, ValueError, ArithmeticError):
            if is_line(entity):
                self.problem(_damage(entity), SOUND_NUMBERS, DRAW_AGAIN)
            return ()  # a text, say, is no line
        if not all(self._near(corner) for corner in corners):
            return ()
        drawn_as = list(islice(drawn.flattening(_FLAT / self.scale), _MOST_PLACES + 1))
        if len(drawn_as) > _MOST_PLACES:
            self.problem(f"a line of more than {_MOST_PLACES:,} places", "the outline of a piece of clothing")
            return ()
        return tuple(point for point, _ in groupby(map(self._scaled, drawn_as)))

    def _scaled(self, place: Sequence[float]) -> Point:
        return Point(place[0] * self.scale, place[1] * self.scale)

    def _near(self, at: Point) -> bool:
        if abs(at.x) <= FAR and abs(at.y) <= FAR:
            return True
        self.problem(f"a place at {place_text(at)}", f"numbers from {-FAR:,.0f} to {FAR:,.0f} mm")
        return False

    def up_to(self, most: int, what: str, found: list[T]) -> list[T]:
        """What was found, up to so many; more is noted."""
        if len(found) > most:
            self.problem(f"{len(found):,} {what}", f"up to {most} of one piece")
        return found[:most]

    def problem(self, read: str, expected: str, mend: str = "") -> None:
        """Note what is wrong here: once, and no more than can be mended one by one."""
        problem = Problem(self.place, read, expected, mend)
        if len(self.problems) < _MOST_TOLD and problem not in self.problems:
            self.problems.append(problem)


def _damage(entity: DXFEntity) -> str:
    bulges = (corner[4] for corner in getattr(entity, "lwpoints", ()))
    amiss = next((bulge for bulge in bulges if not math.isfinite(bulge)), None)
    return f"a damaged {line_name(entity)}" if amiss is None else f"a bulge of {amiss} in the {line_name(entity)}"


def place_text(point: Point) -> str:
    """A place as it is told, mm: "(120.0, 35.5)"."""
    return f"({_number(point.x)}, {_number(point.y)})"


def _number(mm: float) -> str:
    return f"{mm:.1f}" if abs(mm) <= FAR else f"{mm:.3g}"
