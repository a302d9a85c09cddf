"""Whether gathers can be sewn: marked often enough to be spread evenly by hand, and no more than can be drawn up."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.errors import Remedy, Setting
from drafting.pattern import Fullness, Pattern, Seam
from drafting.pattern.gathered import Held, held_in
from drafting.pattern.walk import notch_distance, run_total

__all__ = ["look_at_gathers"]

_GATHERED: Final = 1.2
"""Times the other edge from which one is gathered: below it cloth is eased in over the finger (common practice)."""

_APART: Final = 460.0
"""mm of the plain edge between two marks, at the most: a quarter of a wide tier (ours; quarters: common practice)."""

_FULL: Final = (2.5, 4.0)
"""Times the seam it is drawn up to from which a dart in gathers is warned of, and fails (common practice: 1.5 to 2 is
usual, 3 goes in thin cloth only; 4 times is ours)."""

_USUAL: Final = 2.0
"""Times the seam to which the gathers are spread by what is offered (common practice: the most that is usual)."""


def look_at_gathers(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every seam with one run gathered into the other: the longest stretch of the plain one without a mark, mm.

    And every dart that is gathered into its seam: how many times as long as what it is drawn up to the stretch is.
    """
    found = False
    for seam in pattern.seams:
        lengths = [run_total(pattern, run) for run in (seam.a, seam.b)]
        if min(lengths) > 0.0 and max(lengths) > _GATHERED * min(lengths) and not seam.plain:
            found = True
            yield look(_seam, seam.name, *_marks(pattern, seam, lengths))
    if any(edge.drawn_up is Fullness.GATHERED for piece in pattern.pieces for edge in piece.edges):
        for held in held_in(pattern):
            if held.longer and held.kind is Fullness.GATHERED and _has_mouth(pattern, held):
                found = True
                yield look(_full, held.seam, held.piece, held.length, held.to)
    if not found:
        yield look(_none)


def _has_mouth(pattern: Pattern, held: Held) -> bool:
    """Whether a dart left unsewn lies on the piece along this seam."""
    seam = pattern.seam(held.seam)
    refs = (ref for ref in (*seam.a, *seam.b) if ref.piece == held.piece)
    return any(pattern.piece(ref.piece).edge(ref.edge).drawn_up is Fullness.GATHERED for ref in refs)


def _marks(pattern: Pattern, seam: Seam, lengths: list[float]) -> tuple[float, ...]:
    """How far along the plain run its ends and the marks on it lie, mm."""
    plain = lengths.index(min(lengths))
    run = (seam.a, seam.b)[plain]
    at = (notch_distance(pattern, run, pair[plain]) for pair in seam.notches)
    return (0.0, *sorted(mm for mm in at if mm is not None), lengths[plain])


def _none(check: Check) -> Iterator[Result]:
    yield check.result("nothing is gathered", Verdict.PASS)


def _seam(check: Check, name: str, *marks: float) -> Iterator[Result]:
    longest = max(b - a for a, b in pairwise(marks))
    more = int(longest // _APART)
    yield check.result(
        f"{name}, between its marks",
        Verdict.PASS if longest <= _APART else Verdict.WARN,
        measured=longest,
        wanted=None,
        allowed=(0.0, _APART),
        remedy=f"{longest:.0f} mm of it have no mark: notch both edges in {more + 1} equal parts before you gather.",
    )


def _full(check: Check, seam: str, piece: str, long: float, to: float) -> Iterator[Result]:
    """How many times as long as what it is drawn up to a stretch is, and over how much seam it would be usual."""
    times, (full, most) = long / max(to, 0.1), _FULL
    beside = math.ceil((long - to) / (_USUAL - 1.0) / 2.0)
    spread = Remedy("change", "dart into gathers", (Setting("beside", beside, "mm"),), lead="To spread them further")
    yield check.result(
        f"{seam}, gathers of the {piece}",
        Verdict.PASS if times <= full else Verdict.WARN if times <= most else Verdict.FAIL,
        measured=times,
        wanted=None,
        allowed=(1.0, full),
        unit="times",
        remedy=(
            f"{long:.0f} mm are gathered into {to:.0f} mm, {times:.1f} times: {_USUAL:g} is usual, and more than "
            f"{full:g} is drawn up in thin cloth only. Move a part of the dart elsewhere and sew it there, or spread "
            "the gathers further."
        ),
        remedies=(spread,),
    )
