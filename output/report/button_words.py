"""Buttons and buttonholes, in words."""

from __future__ import annotations

from typing import Final

from drafting.pattern import BodyPart, Landmark, PieceKind, Place, pieces_of, points_at
from drafting.pattern.buttons import BEYOND_CENTRE
from drafting.sewing import UNDERLAP, is_under_three
from output.report.knit_words import band_buttons_words
from output.report.step_text import StepText, StepWords

__all__ = ["buttons_words"]


def _shoulder_buttons(text: StepText) -> StepWords:
    """Shoulders that are closed by buttons: an underlap sewn to the back, the front turned in over it."""
    count = text.step.fastening.buttons if text.step.fastening else 0
    (strip,) = text.step.strips
    sleeved = any(piece.identity.part is BodyPart.SLEEVE for piece in text.pattern.pieces)
    over = ": the sleeve is sewn over both" if sleeved else ", within the allowance: it is finished over both"
    return StepWords(
        "Make the shoulders to open",
        (
            f"Cut four strips of the cloth {text.long(strip.width)} wide and {text.long(strip.length)} long, as the "
            f"shoulder with its allowances, {text.long(strip.allowance)} of seam in them; interface them.",
            "Sew one to each shoulder of the back, right sides together along the sewing line; fold it in half over "
            f"the edge, so that it reaches {text.long(UNDERLAP)} beyond the shoulder as an underlap, and sew it down.",
            "Face each shoulder of the front with one in the same way, turned in whole along the sewing line.",
            f"Lay the front on the back, sewing line on sewing line, and hold the two together at the armhole{over}.",
            f"{_held_by(text, count // 2)} each underlap, after the neck is finished.",
        ),
    )


def _held_by(text: StepText, count: int) -> str:
    return f"Set {count} ring snaps in" if is_under_three(text.pattern) else f"Sew {count} buttons or snaps to"


def buttons_words(text: StepText) -> StepWords:
    """Buttons and buttonholes of a stand, of the band of a cardigan, of shoulders that open."""
    if text.step.place is Place.SHOULDER:
        return _shoulder_buttons(text)
    if text.step.place is Place.CENTRE_FRONT:
        return band_buttons_words(text)
    fastening = text.step.fastening
    count, size = (fastening.buttons, fastening.size) if fastening else (0, 0.0)
    on_collar = sum(len(points_at(piece, Landmark.BUTTON)) for piece in pieces_of(text.pattern, PieceKind.COLLAR))
    return StepWords(
        "Buttons and buttonholes",
        (
            f"Sew {count - on_collar} buttonholes in the right front, on the lines at the marks, for "
            f"{text.long(size)} buttons: "
            f"each begins {text.long(BEYOND_CENTRE)} beyond the centre front, toward the edge, and runs "
            f"{text.long(size + BEYOND_CENTRE)} inward from there, the width of the button and its thickness. Try one "
            "on a scrap first.",
            *((_ON_COLLAR,) if on_collar else ()),
            "Lay the right front on the left, centre on centre, mark through the holes and sew the buttons on.",
        ),
    )


_ON_COLLAR: Final = (
    "Sew one more in the right end of the collar, along it, at its mark, and its button on the left end."
)
