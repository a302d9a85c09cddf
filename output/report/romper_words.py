"""Snaps along the inseams and straps over the shoulders, in words."""

from __future__ import annotations

from drafting.pattern import Landmark, PieceKind, points_at
from drafting.sewing import STRIP_END
from output.report.step_text import StepText, StepWords

__all__ = ["lap_words", "snap_words", "strap_words"]


def snap_words(text: StepText) -> StepWords:
    """Inseams that open: each edge faced with a strip from hem to hem, the front lapped over the back."""
    fastening = text.step.fastening
    count = fastening.snaps if fastening else 0
    (strip,) = text.step.strips
    tape = ", and lay a tape that does not stretch behind it" if text.pattern.stretch else ""
    return StepWords(
        "Snaps along the inseams",
        (
            f"Cut two strips of the cloth {text.long(strip.width)} wide and {text.long(strip.length)} long, with "
            f"{text.long(strip.allowance)} of seam in them; interface them{tape}.",
            "Lay one along the inseams of the front, from the hem of one leg over the crotch to that of the other, "
            f"right sides together, its ends {text.long(STRIP_END)} beyond the hems; sew, turn it to the inside with "
            "both ends folded in, turn its inner edge under and sew it down. Face the back in the same way.",
            "Lap the front over the back, inseam on inseam as it is marked, and pin: the marks “snap” lie on each "
            "other.",
            f"Set {count} snaps at the marks, the one at the crotch in the middle, through cloth, facing and "
            "interfacing: a snap needs four layers to hold to.",
            "Pull hard at every one. One that moves comes off again: set a new one.",
        ),
    )


def lap_words(text: StepText) -> StepWords:
    """Lapped shoulders: bound first, then laid over each other and held at the armholes."""
    strip = text.step.strips[0] if text.step.strips else None
    with_what = (
        f"Cut two strips of the knit, its stretch along them, {text.long(strip.width)} wide and "
        f"{text.long(strip.length)} long, ends and all."
        if strip
        else "Take bias tape, one length for the front and one for the back."
    )
    return StepWords(
        "Bind the neck and lap the shoulders",
        (
            with_what,
            "Bind the front in one go: from the armhole along one lap, round the neck, and along the other lap to the "
            "armhole; cut the allowance off there first. Bind the back in the same way.",
            "Lay the laps of the back over those of the front, shoulder line on shoulder line: the end of each lap "
            "comes to the mark “lap to here” on the other's armhole. Sew the layers together along the armholes, "
            "within the allowance.",
            "The neck opens as far as the laps part. Nothing else closes it.",
        ),
    )


def strap_words(text: StepText) -> StepWords:
    """Straps: folded, sewn, turned; fast behind, with buttonholes in front that let them out."""
    strap = next(piece for piece in map(text.pattern.piece, text.step.pieces) if piece.identity.kind is PieceKind.STRAP)
    holes = len(points_at(strap, Landmark.STRAP))
    buttons = text.step.fastening.buttons if text.step.fastening else 0
    return StepWords(
        "Straps",
        (
            f"Fold each strap lengthwise on the fold line, right side in; sew the long edges and the end at the bib, "
            f"{text.allowance()}; trim the corners, turn it right side out, press and stitch round it.",
            f"Sew {holes} buttonholes in each, across the strap at the marks.",
            "Lay the open end behind the back bib at the mark “strap”, turned under, and sew a square with a cross in "
            "it through everything. The straps cross between the bibs: so they stay on the shoulders.",
            f"Sew {buttons} buttons to the front bib at the marks. Button the shortest buttonhole first; as the child "
            "grows, the next ones.",
            "No strap hangs loose: sew down what is longer than it is needed now.",
        ),
    )
