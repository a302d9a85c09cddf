"""Openings: a seam or a fold made into one, with a zip or with buttons; or closed again.

At a fold the piece is then cut twice, with an allowance (common practice). A zip of a skirt is 18 to 20 cm long, of a
dress at the back 55 to 60, and ends 1 to 2 cm below the hip line (common practice, from memory). At a side seam both
pieces are marked alike and only the left side is left open. For buttons see `button_stand.py`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.earlier_steps import EarlierStep, left_unsewn, put_before, refused_after
from drafting.alterations.finishes.button_stand import with_stands
from drafting.alterations.finishes.side_zip import side_zips, with_side_zip
from drafting.alterations.one_piece import ONLY
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, lengths_kept_but, seams_kept
from drafting.alterations.refusing import instead
from drafting.alterations.techniques.cutting.centre_line import CentreLine, centre_lines, centre_part, with_centre
from drafting.alterations.techniques.cutting.seam_for_fold import goes_on_cloth
from drafting.alterations.techniques.cutting.split_edges import cut_part
from drafting.alterations.techniques.sides.side_view import Side
from drafting.errors import NotAPattern, Remedy, Setting, StepRefused, TrueseamError
from drafting.parts.finishes.fly_facing import FLY
from drafting.pattern import (
    Half,
    Landmark,
    Level,
    Notch,
    NotchMark,
    Pattern,
    Piece,
    Place,
    Role,
    Seam,
    Station,
    edge_at,
    edges_at,
    free_name,
    lines_at,
    notches_marking,
    points_at,
    ref_edge,
    with_pieces,
)
from drafting.pattern.notches import ZIP_NOTCH

__all__ = ["Opening"]

CENTRE_BACK, CENTRE_FRONT, SIDE = "centre back", "centre front", "side"
ZIP, BUTTONS, CLOSED = "zip", "buttons", "closed"

_BELOW_HIP: Final = 15.0  # mm: where a zip ends (from memory, 1 to 2 cm)
_AT_SEAM: Final = 5.0  # mm: a zip that ends nearer than this to a seam or a hem ends at it (our figure)
_BUTTON: Final = 15.0  # mm: a dress button
_SMALLEST, _LARGEST = 6.0, 60.0
_FEWEST, _MOST = 2.0, 40.0  # buttons in a row (ours)


@alteration_class
class Opening(Alteration):
    """Open the garment at its centre back, its centre front or its left side; or close it there.

    Buttons go all the way down a centre line, beyond which a stand is as wide as a button. Closed, a straight centre
    line is put on the fold, another one is a seam. A zip that would end within 5 mm of a seam ends at the seam.
    """

    name = "opening"
    layer = Layer.OPENINGS
    about = "Make a seam or a fold an opening, with a zip or a button stand, or close it."
    leaves = "the finished widths and lengths; every other edge; how well every seam meets"
    carries = (
        "the pieces above and below along the same line; marks for zip or buttons; for buttons a stand and a facing"
    )

    at: str = option(
        "choice",
        "where; an opening that is there already stays one until a step closes it",
        choices=(CENTRE_BACK, CENTRE_FRONT, SIDE),
    )
    fasten: str = option("choice", "how it is fastened, or closed", choices=(ZIP, BUTTONS, CLOSED), default=ZIP)
    length: float | None = option(
        "length",
        "how long the zip is; left out, to a little below the hip line, at the side 18 cm below the waist and at "
        "most 16 cm above it",
        50.0,
        1500.0,
        default=None,
        goes_with=("fasten", (ZIP,)),
    )
    below: float | None = option(
        "length",
        "how much of a zip at the side lies below the waist; left out, 18 cm",
        0.0,
        600.0,
        default=None,
        goes_with=("at", (SIDE,)),
    )
    button: float = option(
        "length", "the diameter of the buttons", _SMALLEST, _LARGEST, default=_BUTTON, goes_with=("fasten", (BUTTONS,))
    )
    only: str = option("text", ONLY, default="", seldom=True)
    how_many: float | None = option(
        "number",
        "how many buttons; left out, one about every 8 cm",
        _FEWEST,
        _MOST,
        default=None,
        goes_with=("fasten", (BUTTONS,)),
    )

    def apply(self, pattern: Pattern) -> Pattern:
        if self.at == SIDE:
            return with_side_zip(pattern, _side_zips(self, pattern))
        lines = _lines(self, pattern)
        if self.how_many is not None and self.fasten != BUTTONS:
            raise StepRefused(
                self.name,
                reason="how_many is that of buttons; leave it out",
                remedies=instead(self.name, "fasten", BUTTONS),
            )
        if self.fasten == BUTTONS:
            _shoulders_closed(self, pattern)
            return _with_button_stands(self, pattern, lines)
        if self.fasten == CLOSED:
            for line in _to_close(self, pattern, lines):
                folded = _with_centre_sewn(pattern, line, Role.FOLD) if _may_fold(line) else None
                fits = folded is not None and goes_on_cloth(folded, folded.piece(line.piece.name))
                pattern = folded if folded is not None and fits else _with_centre_sewn(pattern, line, Role.SEAM)
            return pattern
        zipped = _zip_lengths(self, lines)
        if all(long >= line.length for line, long in zipped):
            _shoulders_closed(self, pattern)
        for line, long in zipped:
            if long:
                pattern = _with_centre_opened(pattern, line, long)
            elif any(edge.role is Role.OPENING for edge in line.edges):
                pattern = _with_centre_sewn(pattern, line, Role.SEAM)
        return pattern

    def comes_after(self, step: Alteration) -> bool:
        # what a kimono leaves of the side seam has to be known before a zip is drawn into it
        return self.at == SIDE and Place.SIDE in step.redraws

    def comes_before(self, step: Alteration) -> bool:
        # a stand on one side of a seam is laid at its end, which has to be found before the seam is gathered
        return self.fasten == BUTTONS and bool(self.only) and step.name == "dart into gathers"

    def came_to(self, before: Pattern, after: Pattern) -> Mapping[str, float]:
        if self.at == SIDE:
            return {"length": 0.5 * sum(long for _, long in _side_zips(self, before))}  # on front and back
        lines = _lines(self, before)
        if self.fasten == BUTTONS:
            rows = [points_at(after.piece(line.piece.name), Landmark.BUTTON) for line in lines]
            return {"how_many": float(sum(map(len, rows)))}
        return {"length": sum(long for _, long in _zip_lengths(self, lines))} if self.fasten == ZIP else {}

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        taking_part = set[tuple[str, str]]()
        if self.at == SIDE:
            taking_part = {(side.piece.name, side.edge) for side, _ in _side_zips(self, pattern)}
        else:
            lines = _lines(self, pattern)
            taking_part = {(line.piece.name, edge.name) for line in lines for edge in line.edges}
            if self.fasten == BUTTONS:
                taking_part |= {(line.piece.name, line.lower.name) for line in lines if line.lower.role is Role.HEM}
        yield from lengths_kept_but(pattern, taking_part)
        yield from finished_kept(pattern)
        yield from seams_kept(pattern)


def _side_zips(step: Opening, pattern: Pattern) -> list[tuple[Side, float]]:
    if step.fasten != ZIP:
        raise StepRefused(
            step.name, reason=f'at the side there is a "{ZIP}" or nothing; "{step.fasten}" goes with a centre'
        )
    return side_zips(step.name, pattern, step.length, step.below)


def _lines(step: Opening, pattern: Pattern) -> tuple[CentreLine, ...]:
    """The centre lines that are opened; StepRefused where there is none, or where an option is for another opening."""
    if step.below is not None:
        raise StepRefused(step.name, reason=f'below is for a zip at the "{SIDE}"; leave it out')
    if step.length is not None and step.fasten != ZIP:
        reason = f"length is that of a zip, and this one has {step.fasten}; leave it out"
        raise StepRefused(step.name, reason=reason)
    lines = centre_lines(pattern, step.at)
    if not lines:
        have = [piece.name for piece in pattern.pieces if _stands_at(piece, step.at)]
        plain = f"no piece has an edge at its {step.at}"
        raise StepRefused(step.name, reason=f'"{have[0]}" has a button stand there already' if have else plain)
    if step.fasten != CLOSED and step.at == CENTRE_FRONT and any(part.part == FLY for part in pattern.derived):
        lines = tuple(line for line in lines if not edges_at(line.piece, Place.CROTCH))
        if not lines:
            raise StepRefused(step.name, reason="the trousers open there by their fly already; leave this step out")
    if step.only:
        lines = tuple(line for line in lines if line.piece.name == step.only)
        if not lines:
            raise StepRefused(step.name, reason=f'"{step.only}" has no edge at its {step.at}')
    return lines


def _shoulders_closed(step: Opening, pattern: Pattern) -> None:
    """Raises StepRefused where the shoulders are open: a garment that opens from neck to hem needs no second way in."""
    for piece in pattern.pieces:
        if any(edge.role is Role.OPENING for edge in edges_at(piece, Place.SHOULDER)):
            raise StepRefused(
                step.name,
                reason=f'"{piece.name}" opens at its shoulders already, and would then open at its {step.at} as well',
                remedies=[
                    Remedy("set in block", step.name, (Setting("opening", "none"),), lead="Leave the shoulders closed")
                ],
            )


def _zip_lengths(step: Opening, lines: tuple[CentreLine, ...]) -> list[tuple[CentreLine, float]]:
    """How far down each centre line the zip runs, mm; zero for one that it does not reach."""
    total = sum(line.length for line in lines)
    left = _usual(lines) if step.length is None else step.length
    if left > total + _AT_SEAM:
        reason = f"the zip is {left / 10:.1f} cm long and the {step.at} {total / 10:.1f} cm; take a shorter one"
        raise StepRefused(step.name, reason=reason, too_much=("length",))
    out = []
    for line in lines:
        if left < _AT_SEAM:
            out.append((line, 0.0))
        else:
            out.append((line, line.length if abs(line.length - left) < _AT_SEAM else min(left, line.length)))
        left -= line.length
    return out


def _usual(lines: tuple[CentreLine, ...]) -> float:
    """From the top to a little below the hip line, or all the way where there is none."""
    gone = 0.0
    for line in lines:
        hips = [mark.start for mark in lines_at(line.piece, Level.HIP)]
        if hips:
            return gone + min(line.length, (line.top - hips[0]).norm() + _BELOW_HIP)
        gone += line.length
    return gone


def _with_centre_opened(pattern: Pattern, line: CentreLine, long: float) -> Pattern:
    """The piece open from its upper end for so many mm, a seam below."""
    centre = centre_part(line)
    parts = cut_part(centre, long if line.downward else centre.edge.length - long)
    upper, lower = parts if line.downward else parts[::-1]
    if upper is None or lower is None:
        return with_centre(pattern, line, [centre.with_role(Role.OPENING)], line.piece.cut.as_pair())
    taken = {edge.name for edge in line.piece.edges} - {edge.name for edge in line.edges}
    opening = upper.with_role(Role.OPENING).named(free_name(f"{centre.edge.name} opening", taken))
    seam = lower.named(free_name(f"{centre.edge.name} seam", taken))
    edges = [opening, seam] if line.downward else [seam, opening]
    pattern = with_centre(pattern, line, edges, line.piece.cut.as_pair())
    piece = pattern.piece(line.piece.name)
    kept = _without_end(piece)
    name = free_name(ZIP_NOTCH, {notch.name for notch in kept})
    end = Station(seam.edge.name, 0.0, "start" if line.downward else "end")
    return with_pieces(pattern, replace(piece, notches=(*kept, Notch(name, end, marks=NotchMark.OPENING_END))))


def _without_end(piece: Piece) -> tuple[Notch, ...]:
    """The notches of a piece without the one at the end of an opening in its centre line."""
    ends = {notch.name for notch in notches_marking(piece, NotchMark.OPENING_END)}
    beside = {notch.name for notch in piece.notches if piece.edge(notch.station.edge).place is Place.SIDE}
    return tuple(notch for notch in piece.notches if notch.name not in ends - beside)


def _stands_at(piece: Piece, at: str) -> bool:
    """Whether a piece ends in a button stand at that centre."""
    half = Half.FRONT if at == CENTRE_FRONT else Half.BACK
    return piece.identity.half is half and edge_at(piece, Place.STAND_EDGE) is not None


def _to_close(step: Opening, pattern: Pattern, lines: tuple[CentreLine, ...]) -> list[CentreLine]:
    """The centre lines that are not on the fold already: closed, a straight one comes on it where the cloth is wide
    enough, another is a seam; and those on the fold that the cloth is too narrow for.
    """
    found = [
        line
        for line in lines
        if any(edge.role is not Role.FOLD for edge in line.edges) or not goes_on_cloth(pattern, line.piece)
    ]
    if not found:
        raise StepRefused(step.name, reason=f'"{lines[0].piece.name}" is on the fold at its {step.at} as it is')
    return found


def _may_fold(line: CentreLine) -> bool:
    """Whether a centre line can lie on the fold of the cloth: it is straight, and does not go on through the crotch."""
    return line.straight and not edges_at(line.piece, Place.CROTCH)


def _with_centre_sewn(pattern: Pattern, line: CentreLine, role: Role) -> Pattern:
    """The centre line as one edge, a fold or a seam."""
    cut = line.piece.cut.on_fold() if role is Role.FOLD else line.piece.cut.as_pair()
    pattern = with_centre(pattern, line, [centre_part(line).with_role(role)], cut)
    piece = pattern.piece(line.piece.name)
    return with_pieces(pattern, replace(piece, notches=_without_end(piece)))


def _with_button_stands(step: Opening, pattern: Pattern, lines: tuple[CentreLine, ...]) -> Pattern:
    """The pattern with a button stand along each of these lines; StepRefused where none can be drawn."""
    for line in lines:
        if not line.straight:
            shaped = f'the {step.at} of "{line.piece.name}" is shaped, and a button stand has to be straight'
            gored = any(origin.block == "gored skirt" for origin in pattern.origin)
            six = Remedy("set in block", step.name, (Setting("gores", "6"),), lead="Take gores with no seam there")
            raise StepRefused(step.name, reason=shaped, remedies=[six] if gored else [])
        for seam in pattern.seams:
            meets = any(
                (ref.piece, ref.edge) == (line.piece.name, each.name)
                for ref in (*seam.a, *seam.b)
                for each in (line.upper, line.lower)
            )
            stood = {line.piece.name for line in lines}
            # where both sides get a stand, it is laid flat at the end of what is gathered
            if meets and not seam.plain and not all(any(r.piece in stood for r in run) for run in (seam.a, seam.b)):
                raise refused_after(step.name, *_gathered_in(pattern, line.piece.name, seam))
    with_buttons = partial(with_stands, step.name, pattern, step.at, lines, step.button)
    count = _count(step)
    try:
        return with_buttons(count)
    except NotAPattern as error:
        if count is None:
            raise
        raise StepRefused(
            step.name, reason=str(error), remedies=_other_count(step.name, with_buttons, count)
        ) from error


def _other_count(step: str, with_buttons: Callable[[int], Pattern], asked: int) -> tuple[Remedy, ...]:
    """The number of buttons nearest to the one asked for that finds room, fewer before more; none where none does."""
    for count in sorted(range(int(_FEWEST), int(_MOST) + 1), key=lambda each: (abs(each - asked), each)):
        try:
            with_buttons(count)
        except TrueseamError:
            continue
        return instead(step, "how_many", float(count))
    return ()


def _count(step: Opening) -> int | None:
    """How many buttons are asked for. Raises StepRefused for a part of one."""
    if step.how_many is None or step.how_many == int(step.how_many):
        return None if step.how_many is None else int(step.how_many)
    raise StepRefused(step.name, reason=f"how_many: {step.how_many:g} is no whole number")


def _gathered_in(pattern: Pattern, piece: str, seam: Seam) -> tuple[EarlierStep | None, str]:
    """Why a seam that is not plain takes no button stand, and what to do: for an earlier step, or in plain words."""
    said = f'"{piece}" is gathered or eased into "{seam.name}"'
    if any(left_unsewn(ref_edge(pattern.pieces, ref)) for ref in (*seam.a, *seam.b)):
        return EarlierStep(said, (put_before("dart into gathers"),)), ""
    take = "take a zip, or gather the other half of the skirt: only = ..."
    return None, f"{said}, and a button stand cannot cross that; {take}"
