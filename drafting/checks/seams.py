"""Do the seams go together: their lengths, and the notches along them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain
from typing import Final

from drafting.checks.base import Allowed, Check, Look, OneSided, Result, Verdict, look, verdict_on
from drafting.checks.joined import one_sided, pieces_and_steps, seam_parts
from drafting.errors import Remedy
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import (
    MOST_EASED,
    Edge,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    Place,
    Seam,
    Step,
    Walked,
    WalkedNotch,
    Wearer,
    run_total,
    seam_places,
    walk,
)
from drafting.pattern.gathered import is_drawn_evenly
from drafting.pattern.seam import EdgeRef
from drafting.pattern.walk import NOTCH

__all__ = ["SEAM_PASS", "SEAM_WARN", "look_at_lengths", "look_at_notches"]

SEAM_PASS = 1.5
"""mm. A professional's 1/16 in, rounded down (a patternmaker's practice in Threads 200, 2020)."""

SEAM_WARN = 3.0
"""mm. The 1/8 in that many who sew at home are content with, rounded down (the same article)."""

_EASE_APART = 2.0 * MOST_EASED
_EASE_SHARE = 0.4
"""How far the least and the most ease of a seam may lie apart: the whole of what a cap is eased by, or where more is
gathered two fifths of it (our figures; gathers ask for a fifth, a dart gathered into the same seam for as much again).
A wider range would pass any lengths."""


def look_at_lengths(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Both runs of every seam, compared.

    measured is the first run minus the second, mm. Equal runs may differ by SEAM_PASS, and by SEAM_WARN with a
    warning. A seam with a declared range of ease passes anywhere inside its range and nowhere else: just outside, by
    no more than SEAM_PASS, it is a warning.
    """
    for seam in pattern.seams:
        yield look(_lengths, seam, *seam_parts(pattern, seam))


def _lengths(check: Check, seam: Seam, *parts: Piece | Step) -> Iterator[Result]:
    """Measured is how much longer the first side of a seam is than the second, mm; wanted is its ease."""
    pieces, held = pieces_and_steps(parts)
    joined, ease = _joined_pieces(seam, pieces), seam.ease
    a, b = run_total(joined, seam.a), run_total(joined, seam.b)
    measured = a - b
    if ease.low == ease.high:
        allowed: Allowed = SEAM_PASS
        verdict = verdict_on(abs(measured - ease.wanted), passing=SEAM_PASS, warning=SEAM_WARN)
    else:
        allowed = (ease.low, ease.high)
        outside = max(ease.low - measured, measured - ease.high)
        verdict = verdict_on(outside, passing=SAME_PLACE, warning=SEAM_PASS)
    most = max(_EASE_APART, _EASE_SHARE * abs(ease.wanted))
    wide = ease.high - ease.low > most
    too_wide = f"It is said to sew with {ease.low:.1f} to {ease.high:.1f} mm of ease, wider apart than {most:.0f} mm."
    yield check.result(
        seam.name,
        Verdict.FAIL if wide else verdict,
        measured=measured,
        wanted=ease.wanted,
        allowed=allowed,
        remedy=too_wide if wide else _length_remedy(seam, a, b),
        one_sided=() if wide else one_sided(seam, held),
        remedies=() if wide or seam.plain else _sleeve_fitted(joined, seam),
    )


_FOLDED: Final = (NotchMark.PLEAT_FOLD, NotchMark.PLEAT_PLACE)
"""What marks a pleat meets its like on its own piece, when that is folded."""


def look_at_notches(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every pair of notches, walked from where the two runs start together, and every notch left without a partner.

    measured is how much further along the first run its notch lies, mm. On an eased seam the first pair is met from
    the start, the last of several from either end, and a pair between them anywhere in the ease that is taken up; on a
    gathered one each may also be met at the same share of both runs. A stretch whose ends both meet one mark is drawn
    up to it first, as the gathers of a dart are: it counts for nothing on either run.
    """
    for seam in pattern.seams:
        if seam.notches:
            yield look(_pairs, seam, *seam_parts(pattern, seam))
    paired = {mark for seam in pattern.seams for pair in seam.notches for mark in pair}
    sewn = {(ref.piece, ref.edge) for seam in pattern.seams for ref in chain(seam.a, seam.b)}
    for piece in pattern.pieces:
        for notch in piece.notches:
            mark = NotchRef(piece.name, notch.name)
            if mark not in paired and _beyond_its_edge(pattern, mark):
                yield look(_off_its_edge, piece.name, notch, piece.edge(notch.station.edge))
            elif mark not in paired and (piece.name, notch.station.edge) in sewn and notch.marks not in _FOLDED:
                yield look(_without_partner, piece.name, notch, piece.edge(notch.station.edge))


def _pairs(check: Check, seam: Seam, *parts: Piece | Step) -> Iterator[Result]:
    pieces, held = pieces_and_steps(parts)
    pattern = _joined_pieces(seam, pieces)
    walked = walk(pattern, seam)
    one_sided_steps = one_sided(seam, held)
    pairs = sorted(walked.notches, key=lambda pair: (pair.along_b or 0.0, pair.along_a or 0.0))
    for count, pair in enumerate(pairs):
        is_first, is_last = count == 0, count == len(pairs) - 1
        place = "last" if is_last else "first" if is_first else "between"
        yield _pair_result(check, pattern, seam, pair, place, walked, one_sided_steps)


def _pair_result(
    check: Check,
    pattern: Pattern,
    seam: Seam,
    pair: WalkedNotch,
    place: str,
    walked: Walked,
    held: tuple[OneSided, ...],
) -> Result:
    """How one pair meets. held: what was held to one side, where it does not."""
    where = f"{seam.name}: {_notch(pair.a)} to {_notch(pair.b)}"
    for mark, along in ((pair.a, pair.along_a), (pair.b, pair.along_b)):
        if along is None or _beyond_its_edge(pattern, mark):
            remedy = f"The notch {_notch(mark)} does not lie on this seam: put it back on the seam line."
            return check.result(where, Verdict.FAIL, wanted=0.0, allowed=NOTCH, remedy=remedy)
    assert pair.along_a is not None
    assert pair.along_b is not None
    # what is drawn up to one mark is out of the way by the time the rest is laid together
    a, b = walked.sewn
    along_b = pair.along_b - walked.up_b.before(pair.along_b)
    off, taken_up = pair.along_a - walked.up_a.before(pair.along_a) - along_b, a - b
    ways = [off]
    if walked.gathered or is_drawn_evenly(pattern, seam):
        # gathers that are drawn up evenly, or a band evenly stretched, let it be met at the same share of both runs
        ways.append(off + along_b - walked.evenly(along_b, from_a=False))
    if place == "last" and seam.ease.low < seam.ease.high:
        # the same pair measured from the far end is off by what the whole seam takes up less
        ways.append(off - taken_up)
    off = min(ways, key=abs)
    if seam.ease.low == seam.ease.high or place != "between":
        low = high = 0.0
    else:
        low, high = min(0.0, taken_up), max(0.0, taken_up)
    outside = max(low - off, off - high)
    further, nearer = (pair.a, pair.b) if off > high else (pair.b, pair.a)
    remedy = (
        f"Walked from the start of the seam the notches miss each other by {outside:.1f} mm: move {_notch(further)} "
        f"back by that much, or {_notch(nearer)} on."
    )
    allowed: Allowed = NOTCH if low == high else (low - NOTCH, high + NOTCH)
    return check.result(
        where,
        verdict_on(outside, passing=NOTCH),
        measured=off,
        wanted=0.0 if low == high else None,
        allowed=allowed,
        remedy=remedy,
        remedies=_sleeve_fitted(pattern, seam),
        one_sided=held,
    )


def _off_its_edge(check: Check, piece: str, notch: Notch, edge: Edge) -> Iterator[Result]:
    where = f"{_notch(NotchRef(piece, notch.name))}, on {edge.name}"
    remedy = f"It lies at {notch.station.at:.1f} mm of a line {edge.length:.1f} mm long: put it back on its line."
    yield check.result(where, Verdict.FAIL, measured=notch.station.at, allowed=(0.0, edge.length), remedy=remedy)


def _without_partner(check: Check, piece: str, notch: Notch, edge: Edge) -> Iterator[Result]:
    """A notch on a seam that nothing meets. One at the end of its edge meets the end of the partner."""
    at, whole = notch.station.at, edge.length
    if min(abs(at), abs(whole - at)) > NOTCH:
        remedy = "No notch of the other piece meets it: mark its partner, or leave it out."
        yield check.result(f"{_notch(NotchRef(piece, notch.name))}, on {edge.name}", Verdict.WARN, remedy=remedy)


def _joined_pieces(seam: Seam, pieces: tuple[Piece, ...]) -> Pattern:
    """So much of a pattern as a seam joins."""
    return Pattern(seam.name, Wearer(""), pieces)


def _beyond_its_edge(pattern: Pattern, mark: NotchRef) -> bool:
    piece = pattern.piece(mark.piece)
    station = piece.notch(mark.notch).station
    return not -SAME_PLACE <= station.at <= piece.edge(station.edge).length + SAME_PLACE


def _length_remedy(seam: Seam, a: float, b: float) -> str:
    one, other = _run_in_words(seam.a), _run_in_words(seam.b)
    if seam.plain:
        longer, shorter = (one, other) if a > b else (other, one)
        by = abs(a - b)
        return f"{longer} is {by:.1f} mm longer than {shorter}: shorten the one or lengthen the other by {by:.1f} mm."
    ease, short_of = seam.ease, a - b - seam.ease.wanted
    change, far = ("Lengthen", -short_of) if short_of < 0.0 else ("Shorten", short_of)
    return (
        f"{one} is to be {ease.wanted:.1f} mm longer than {other} ({ease.low:.1f} to {ease.high:.1f} mm will sew) "
        f"and is {a - b:.1f} mm longer. {change} it by {far:.1f} mm."
    )


def _sleeve_fitted(joined: Pattern, seam: Seam) -> tuple[Remedy, ...]:
    """The alteration that draws the cap of a sleeve to its armhole; none for a seam without a cap."""
    if Place.CAP not in seam_places(joined, seam)[0]:
        return ()
    return (Remedy("add", "fit sleeve", lead="To have the cap drawn to the armhole"),)


def _run_in_words(refs: tuple[EdgeRef, ...]) -> str:
    return " + ".join(f"{ref.piece} {ref.edge}" for ref in refs)


def _notch(mark: NotchRef) -> str:
    return f"{mark.piece} / {mark.notch}"
