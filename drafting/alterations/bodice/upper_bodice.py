"""The upper half of a bodice piece: neck, shoulder and armhole, and what is sewn to them.

Each of the three is walked away from the centre line: the neck from the centre, the shoulder from the neck, the armhole
from the shoulder. The shoulder is judged with its darts folded, as it is sewn.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.earlier_steps import in_the_way, refused_after
from drafting.alterations.refusing import instead
from drafting.alterations.techniques.marks.seam_ease import with_ease
from drafting.alterations.techniques.pivoting.fold_darts import (
    Redrawn,
    Stretch,
    folds,
    regrouped,
    stretch_of,
    unfolded,
    unfolds,
)
from drafting.alterations.techniques.redrawing.fair_armhole import (
    Ends,
    Held,
    Way,
    accept_bend,
    ends_of,
    fairest,
    held_at,
)
from drafting.alterations.techniques.redrawing.fair_neck import neck_drawn
from drafting.alterations.techniques.redrawing.redraw_run import (
    bent_at_ends,
    cut_near_joint,
    ends_moved,
    exact_length,
    with_length_kept,
)
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import STAY, Curve, Line, Move, Point, Vec, end_tangents, length, moved_all
from drafting.geometry.solve import solve
from drafting.pattern import (
    PLAIN,
    Edge,
    Half,
    MarkPoint,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    WalkedEdge,
    edges_at,
    from_start,
    is_front,
    pieces_of,
    sewn_runs,
    walk,
)

__all__ = [
    "CENTRE",
    "Hinge",
    "Turned",
    "UpperBodice",
    "armhole_redrawn",
    "armhole_through",
    "centre_edge",
    "centre_lengthened",
    "comes_to_point",
    "hinge_of",
    "neck_turned",
    "shoulder_seam",
    "upper_bodice_of",
    "with_points_at",
    "with_shoulder_ease",
]

CENTRE: Final = (Place.CENTRE_FRONT, Place.CENTRE_BACK)

MOST_EASE: Final = 12.0
"""mm by which a back shoulder may be longer than the front one and still be eased in (common practice: up to half an
inch in woven cloth)."""


_AT_CORNER: Final = 1e-3
"""mm. A marked point no further from a corner of the outline marks that corner."""


@dataclass(frozen=True, slots=True)
class UpperBodice:
    """The upper half of a piece, each stretch walked away from the centre line.

    neck_point, tip: the two ends of the shoulder where they lie with its darts folded
    """

    piece: Piece
    neck: Stretch
    shoulder: Stretch
    armhole: Stretch
    neck_point: Point
    tip: Point

    @property
    def slope(self) -> Vec:
        """The step from the neck to the end of the folded shoulder."""
        return self.tip - self.neck_point

    @property
    def arriving(self) -> Vec:
        """The direction in which the folded shoulder comes to its end."""
        return end_tangents(self.shoulder.folded[-1][-1])[1]

    @property
    def fold(self) -> Move:
        """The move that folds every dart of the shoulder, as far as its end is concerned."""
        return folds(self.shoulder)[-1]

    @property
    def unfold(self) -> Move:
        """The move that opens them again."""
        return unfolds(self.shoulder)[-1]


@dataclass(frozen=True, slots=True)
class Hinge:
    """The place on the armhole that is held when its ends are moved: its notch, where front or back is narrowest.

    upper, lower: the armhole above it and below it, as far as the first dart in it
    upper_lengths: of the curves above it, mm, because it is led a dozen times before it has the length that is sought
    """

    at: Point
    upper: tuple[Curve, ...]
    lower: tuple[Curve, ...]
    upper_lengths: tuple[float, ...]

    @property
    def held(self) -> Held:
        """How the armhole is held there: by its narrowness alone where it runs upright, so where it is narrowest."""
        return held_at(self.at, self.upper[-1])


def upper_bodice_of(step: str, pattern: Pattern, half: Half) -> UpperBodice:
    """The front or the back that has a shoulder. Raises StepRefused where there is not just one, whole piece."""
    halves = pieces_of(pattern, PieceKind(half))
    found = [piece for piece in halves if any(edge.role is Role.SEAM for edge in edges_at(piece, Place.SHOULDER))]
    parts = [piece for piece in halves if any(piece.identity == each.identity for each in found)]
    if len(found) != 1 or len(parts) != 1:
        why = in_the_way(parts[0]) if len(parts) > 1 else None
        have = " and ".join(f'"{piece.name}"' for piece in found) + " have one" if found else "no piece has one"
        raise refused_after(step, why, f"it is for a garment with one {half} that has a shoulder; here {have}")
    piece = found[0]
    shoulder = stretch_of(step, piece, Place.SHOULDER, start=(Place.NECK,))
    folded = shoulder.folded
    return UpperBodice(
        piece,
        stretch_of(step, piece, Place.NECK, end=(Place.SHOULDER,)),
        shoulder,
        stretch_of(step, piece, Place.ARMHOLE, start=(Place.SHOULDER,)),
        folded[0][0].start,
        folded[-1][-1].end,
    )


def hinge_of(top: UpperBodice) -> Hinge:
    """The armhole's notch nearest to its middle; the middle where it has none; a dart where that comes first."""
    part, run = top.armhole.parts[0], top.armhole.open[0]
    whole = exact_length(run)
    places = []
    for notch in top.piece.notches:
        if notch.station.edge == part.name:
            at = from_start(part, notch.station)
            places.append(whole - at if top.armhole.backward else at)
    inner = [at for at in places if 0.2 * whole < at < 0.8 * whole]
    if len(top.armhole.parts) > 1 and not inner:
        return Hinge(run[-1].end, run, (), tuple(map(length, run)))
    along = min(inner, key=lambda at: abs(at - 0.5 * whole), default=0.5 * whole)
    upper, lower = cut_near_joint(run, along)
    return Hinge(upper[-1].end, upper, lower, tuple(map(length, upper)))


def armhole_redrawn(
    top: UpperBodice, hinge: Hinge, at_tip: Callable[[float], Move], *, below: Move = STAY, grown: float = 0.0
) -> tuple[float, Redrawn]:
    """The armhole led by a move of the shoulder end, longer by exactly `grown` mm, its notch where it was.

    at_tip: the move of the shoulder end by how far (mm, zero at first) it is let slide to get the length
    below:  a rigid move of notch, underarm and all between
    Comes with how far the end slid. Raises NotAPattern where no such armhole can be drawn.
    """
    wanted = exact_length(hinge.upper) + exact_length(hinge.lower) + grown

    slides: dict[tuple[Curve, ...], float] = {}

    def of_length(way: Way) -> tuple[Curve, ...]:
        def armhole_at(slide: float) -> tuple[Curve, ...]:
            return armhole_through(hinge, at_tip(slide), below.point(hinge.at), below, way)

        slide = solve(lambda slide: exact_length(armhole_at(slide)) - wanted, 0.0, 0.5)
        # a fair line may jump by a hair where it is held from turning back: its length is made good by its handles
        run = with_length_kept(armhole_at(slide), wanted)
        slides[run] = slide
        return run

    try:
        run = fairest(of_length, hinge.held)
    except NotAPattern as error:
        raise NotAPattern(top.piece.name, reason="no smooth armhole of the length it had lies there") from error
    armhole, slide = top.armhole, slides[run]
    accept_bend(armhole.parts[0], run)
    parts = [armhole.drawn(armhole.parts[0], run)]
    parts += [armhole.drawn(part, moved_all(armhole.walked(part), below)) for part in armhole.parts[1:]]
    return slide, Redrawn(tuple(parts))


def armhole_through(hinge: Hinge, at_tip: Move, at: Point, at_under: Move, way: Way) -> tuple[Curve, ...]:
    """The first part of an armhole led by the moves of its two ends, its notch brought to a place.

    Between its ends it is the fairest line through that place, as the block draws it; where a dart cuts it short of its
    notch, it is led as it is.
    """
    if not hinge.lower:
        return ends_moved(hinge.upper, at_tip, at_under, lengths=hinge.upper_lengths)
    was = ends_of((*hinge.upper, *hinge.lower))
    ends = Ends(at_tip.point(was.start), at_tip.vec(was.leaving), at_under.point(was.end), at_under.vec(was.arriving))
    return way(ends, held_at(at, hinge.upper[-1]))


@dataclass(frozen=True, slots=True)
class Turned:
    """A neck turned at its shoulder end: how it is drawn, and where it ends, before and now."""

    redrawn: Redrawn
    was: Point
    high: Point

    def placed(self, piece: Piece) -> Piece:
        """The piece with what marks the corner at the neck moved to where it lies now."""
        return piece if self.was == self.high else with_points_at(piece, [(self.was, self.high)])


def neck_turned(top: UpperBodice, turned: float, *, neck: Move = STAY) -> Turned:
    """The neck turned at its shoulder end by so many radians, so that its corner there stays; its length stays too.

    neck: a rigid move of the whole neck and of a dart in it. Raises NotAPattern where no such neck can be drawn.
    """
    run = [curve for part in top.neck.folded for curve in part]
    was = moved_all(run, neck)
    apexes = [None if dart is None else neck.point(dart.apex) for dart in top.neck.darts]
    if len(was) == 1 and not is_front(top.piece):
        drawn = _turned_by_end(was[0], turned, top.neck.sewn_length)
    else:
        drawn = with_length_kept(_turned_at_end(was, turned), top.neck.sewn_length)
    parts = regrouped(top.neck, drawn)
    for edge, part in zip(top.neck.parts, parts, strict=True):
        accept_bend(edge, part)
    moved = drawn[-1].end - was[-1].end
    high = neck.point(top.neck_point) + moved
    return Turned(unfolded(top.neck, parts, apexes=apexes), top.neck_point, high)


def _turned_by_end(was: Curve, turned: float, wanted: float) -> tuple[Curve, ...]:
    """A back neck turned at its shoulder end, which goes level by the millimetre that keeps it `wanted` mm long."""
    leaving, arriving = end_tangents(was)

    def drawn(level: float) -> tuple[Curve, ...]:
        return neck_drawn(was.start, leaving, was.end + leaving.unit() * level, arriving.turned(turned))

    return drawn(solve(lambda level: exact_length(drawn(level)) - wanted, 0.0, 1.0))


def _turned_at_end(run: Sequence[Curve], turned: float) -> tuple[Curve, ...]:
    """A neck turned at its shoulder end: of one curve as the block draws it, else as a beam bends."""
    if len(run) > 1:
        return bent_at_ends(run, 0.0, turned)
    (leaving, arriving), ends = end_tangents(run[0]), (run[0].start, run[0].end)
    return neck_drawn(ends[0], leaving, ends[1], arriving.turned(turned))


def comes_to_point(top: UpperBodice) -> bool:
    """Whether the neck comes to a point at the centre line, as a V does."""
    centre = {edge.name for edge in edges_at(top.piece, *CENTRE)}
    return any(top.neck.names[0] in pair and not centre.isdisjoint(pair) for pair in top.piece.points_meant)


def centre_edge(step: str, stretch: Stretch) -> WalkedEdge:
    """The edge of the centre line, walked to where a stretch begins. Raises StepRefused where there is none."""
    edge = stretch.piece.beside(stretch.names[0])[1 if stretch.backward else 0]
    if edge.place not in CENTRE:
        plain = f'on "{stretch.piece.name}" no centre line lies next to "{stretch.parts[0].name}"'
        raise refused_after(step, in_the_way(stretch.piece), plain)
    return WalkedEdge(edge, stretch.backward)


def centre_lengthened(piece: Piece, centre: WalkedEdge, by: float) -> tuple[Edge, Point]:
    """The centre line `by` mm longer (shorter, below zero) at the end it is walked to, and that end.

    Raises NotAPattern where it is not that long.
    """
    run = centre.run
    if by < 0.0:
        if -by >= exact_length(run) - 1.0:
            raise NotAPattern(piece.name, reason=f'its "{centre.name}" is only {exact_length(run):.0f} mm long')
        run, _ = cut_near_joint(run, exact_length(run) + by)
    elif by > 0.0:
        last = run[-1]
        end = last.end + end_tangents(last)[1] * by
        run = (*run[:-1], Line(last.start, end)) if isinstance(last, Line) else (*run, Line(last.end, end))
    return centre.redrawn(run), run[-1].end


def with_points_at(piece: Piece, moves: Iterable[tuple[Point, Point]]) -> Piece:
    """The piece with every marked point that marks one of these corners moved to where the corner now lies."""
    pairs = tuple(moves)

    def at_its_corner(mark: MarkPoint) -> MarkPoint:
        return next((mark.placed(to) for at, to in pairs if mark.at.near(at, _AT_CORNER)), mark)

    return replace(piece, points=tuple(at_its_corner(mark) for mark in piece.points))


def shoulder_seam(pattern: Pattern, top: UpperBodice) -> Seam | None:
    """The seam that the shoulder of a piece is sewn in, None where there is none."""
    return next((seam for seam, *_ in sewn_runs(pattern, top.piece.name, [top.shoulder.parts[0].name])), None)


def with_shoulder_ease(step: str, pattern: Pattern, back: UpperBodice) -> Pattern:
    """The pattern with what its back shoulder is longer than the front one declared as eased in.

    Raises StepRefused for more than can be eased in, and for a back shoulder shorter than the front one.
    """
    seam = shoulder_seam(pattern, back)
    if seam is None:
        return pattern
    on_a = any(ref.piece == back.piece.name for ref in seam.a)
    walked = walk(pattern, seam)
    ease = walked.a - walked.b if on_a else walked.b - walked.a
    if ease > MOST_EASE:
        raise StepRefused(
            step,
            reason=f"the back shoulder would have {ease:.1f} mm to be eased in, and {MOST_EASE:.0f} mm is the most "
            "that will go",
            remedies=instead(step, "into", "dart"),
        )
    if ease < -0.5:
        reason = f"the back shoulder would be {-ease:.1f} mm shorter than the front one, which cannot be eased"
        raise StepRefused(step, reason=reason, remedies=instead(step, "into", "dart"))
    wanted = max(0.0, ease)
    new = SeamEase(wanted, 0.0, MOST_EASE) if on_a else SeamEase(-wanted, -MOST_EASE, 0.0)
    return with_ease(pattern, seam.name, PLAIN if wanted < 1e-6 else new)
