"""What the skirts of this room are drawn from, and what they give once their quarters are drawn."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from types import MappingProxyType
from typing import Final

from blocks.handover import Drafted, Order, WaistHalf, WaistSeam
from blocks.skirts.panels import (
    Quarter,
    Run,
    gore_seams,
    hip_tape,
    pieces_of_quarter,
    side_seams,
    tier_seam,
    waist_seam,
    waist_tape,
)
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft
from drafting.geometry import run_bounds, run_ends
from drafting.pattern import Along, Half, Measure, Piece, Place, edges_at
from drafting.pattern.cloth_room import SELVEDGES, USUAL_CLOTH

__all__ = ["Asked", "asked_of", "drafted_of", "fitting", "pieced"]

_ABOVE_HIP: Final = 15.0  # mm: a zip ends a little above the hip line (from memory, 1-2 cm)
_BELOW_HIP: Final = 10.0  # mm that a hem lies below the hip line where that is drawn
_NARROW_HEM: Final = 10.0  # mm: turned twice by 5 mm, on any hem of a skirt (common practice)
_TURNED: Final = 0.0149  # of the radius of a hem: so deep it can be turned up and lies flat (ours, as it is checked)
_LEAST_BELOW: Final = 40.0  # mm of seam below an opening (ours)


@dataclass(frozen=True, slots=True)
class Asked:
    """What every skirt here is drawn from, mm.

    waist:  of each half, from the centre to the side
    alone:  whether it is sewn to nothing
    hip:    the whole hip with its ease
    depth:  from the waist to the hip line
    long:   from the waist to the hem
    opened: how far down from the waist it is left open
    wide:   what lies between the selvedges
    seam, hem: what is added there
    """

    waist: WaistSeam
    alone: bool
    hip: float
    depth: float
    long: float
    opened: float
    wide: float
    seam: float
    hem: float

    @property
    def round_waist(self) -> float:
        """The whole waist as it is sewn, mm."""
        return 2.0 * (self.waist.front.length + self.waist.back.length)

    @property
    def has_hip(self) -> bool:
        """Whether it goes on below the hip line."""
        return self.long > self.depth + _BELOW_HIP


def asked_of(order: Order, long: float) -> Asked:
    """What was asked for. Raises CannotDraft for a skirt that is too short for its opening."""
    body, ease, waist = order.body, order.ease, order.waist
    alone = waist is None
    if waist is None:
        quarter = 0.25 * (body.mm("waist_girth") + ease["waist"])
        half = WaistHalf(quarter, (), 0.5 * quarter, ())
        waist = WaistSeam(half, half)
    depth = body.mm("waist_to_hip")
    opened = 0.0 if order.pulled_on else depth - _ABOVE_HIP if waist.open_back is None else waist.open_back
    least = max(opened + _LEAST_BELOW, 60.0)
    if long < least:
        raise CannotDraft(
            ("waist_to_hip",),
            f"A skirt {long:.0f} mm long is too short for its opening, {opened:.0f} mm from the waist down: make it "
            f"{math.ceil(least)} mm or longer.",
        )
    wide = (order.cloth.width or USUAL_CLOTH) - SELVEDGES
    hip = body.mm("hip_girth") + ease["hip"]
    return Asked(waist, alone, hip, depth, long, opened, wide, order.seam_allowance, order.hem_allowance)


def fitting(
    half: Half, asked: Asked, drawn: Callable[[int, bool], Quarter], ways: Iterable[tuple[int, bool]]
) -> Quarter:
    """The first way of dividing a quarter, into so many panels, the centre on the fold or not, that the cloth allows.

    Raises CannotDraft where none does.
    """
    for count, on_fold in ways:
        quarter = drawn(count, on_fold)
        if all(wide <= asked.wide for wide in _widths(quarter, asked)):
            return quarter
    raise CannotDraft(
        (),
        f"The {half} of the skirt is too wide for the cloth, of which {asked.wide:.0f} mm can be used, in any parts.",
    )


def _widths(quarter: Quarter, asked: Asked) -> Iterator[float]:
    """How wide its panels lie across the cloth with what is added round them, mm."""
    below = asked.hem if quarter.bottoms is Place.HEM else asked.seam
    for k, panel in enumerate(quarter.panels):
        left, _, right, _ = run_bounds((*panel.top, *panel.outer, *panel.bottom, *panel.inner))
        outer, inner = (_beside(run, asked.seam, below) for run in (panel.outer, panel.inner))
        yield 2.0 * (right - left + outer) if k == 0 and quarter.on_fold else right - left + outer + inner


def _beside(edge: Run, seam: float, hem: float) -> float:
    """How far allowances reach out sideways where an edge comes to its lower end, mm: that of its own and the hem's."""
    _, down = run_ends(edge)
    return seam * abs(down.y) + hem * abs(down.x)


def drafted_of(
    order: Order,
    asked: Asked,
    rows: Sequence[tuple[Quarter, Quarter]],
    *,
    options: Sequence[tuple[str, str | float | bool | None]],
    given: Mapping[str, float] = MappingProxyType({}),
    gave_way: Sequence[str] = (),
    bends: float = 0.0,
) -> Drafted:
    """The skirt of a front and a back quarter, or of several such rows from the waist down.

    given: the ease it has at places other than the waist; bends: the radius that its hem is curved by, mm, 0 for none
    """
    pieces = tuple(piece for half in zip(*rows, strict=True) for each in half for piece in pieces_of_quarter(each))
    seams = [seam for row in rows for quarter in row for seam in gore_seams(quarter)]
    seams += [seam for above, below in pairwise(rows) for seam in map(tier_seam, below, above)]
    for k, (front, back) in enumerate(rows, start=1):
        name = "skirt side seam" if len(rows) == 1 else f"skirt side seam, tier {k}"
        seams.append(side_seams(back, front, pieces, name))
    seams += [seam for quarter in rows[0] if (seam := waist_seam(quarter, pieces)) is not None]
    body, ease, least = order.body, order.ease, order.least
    measures = []
    if asked.alone:
        tape = tuple(part for quarter in rows[0] for part in waist_tape(quarter))
        girth = body.mm("waist_girth")
        measures.append(Measure("waist", tape, "waist_girth", girth, ease["waist"], least.get("waist"), round=True))
    hips = tuple(part for row in rows for quarter in row for part in hip_tape(quarter, pieces))
    if hips:
        girth = body.mm("hip_girth")
        measures.append(Measure("hip", hips, "hip_girth", girth, ease["hip"], least.get("hip"), round=True))
    measures.append(Measure("skirt length", _length_tape(pieces)))
    return Drafted(
        pieces=pieces,
        seams=tuple(seams),
        measures=tuple(measures),
        options=tuple(options),
        given=given,
        gave_way=tuple(gave_way),
        hem=max(_NARROW_HEM, math.floor(_TURNED * bends)) if bends else None,
    )


def _length_tape(pieces: Sequence[Piece]) -> tuple[Along, ...]:
    """Where the tape lies for its length: down the centre front."""
    return tuple(Along(piece.name, edge.name) for piece in pieces for edge in edges_at(piece, Place.CENTRE_FRONT))


def pieced(quarters: Sequence[Quarter], asked: Asked, wanted: int = 1) -> Iterator[str]:
    """What the width of the cloth asked for: a sentence for each half that has more seams than it would have."""
    for quarter in quarters:
        made = []
        if quarter.half is Half.FRONT and not quarter.on_fold:
            made.append("a seam at the centre")
        if (more := len(quarter.panels) - wanted) > 0:
            made.append(f"{more} more seam{'s' if more > 1 else ''} between the centre and each side")
        if made:
            wide = asked.wide + SELVEDGES
            yield f"The {quarter.called} has {' and '.join(made)}, because the cloth is {wide:.0f} mm wide."
