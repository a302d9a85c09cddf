"""What is said in the report of clothes that a child may wear: the cautions, and the band of a knit neck."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.pattern import Pattern, Place
from drafting.pattern.neck_band import neck_band
from drafting.reading.units import percent
from drafting.sewing import Act, SewingStep, cautions, possible_cautions
from output.report.step_text import StepText
from output.report.tables import Passage

__all__ = ["band_words", "caution_passage", "child_caution"]

_IN_STEPS = {
    Act.BUTTONS: ("small parts",),
    Act.LAP: ("small parts", "cords"),
    Act.BIND: ("elastic", "cords"),
    Act.FACE: ("elastic", "cords"),
}
"""The cautions that a step is the place for."""


def caution_passage(pattern: Pattern) -> tuple[Passage, ...]:
    """All that is to be told of a garment for a child, in one passage; none for a grown wearer."""
    told = tuple(" ".join(each.sentences) for each in cautions(pattern))
    return (Passage("For a child", told),) if told else ()


def child_caution(pattern: Pattern, step: SewingStep) -> Iterator[str]:
    """What to beware of in a step where the wearer is or may be a child."""
    kinds = _IN_STEPS.get(step.act, ())
    if step.act in (Act.BIND, Act.FACE) and step.place is not Place.NECK:
        return
    for each in possible_cautions(pattern):
        if each.kind in kinds:
            yield f"For a child: {each.short[:1].lower()}{each.short[1:]} {each.sentences[-1]}"


def band_words(text: StepText) -> tuple[str, ...]:
    """How the neck of a knit is bound with its band; nothing where it is bound with something else."""
    band = neck_band(text.pattern) if text.step.place is Place.NECK else None
    if band is None:
        return ()
    deep, allowance = (
        2.0 * band.width,
        max(text.pattern.piece(ref.piece).edge(ref.edge).allowance for ref in text.step.edges),
    )
    return (
        f"Cut a strip of a knit that stretches by {percent(band.stretch)} or more, the stretch along it: "
        f"{text.long(band.rest + 2.0 * allowance)} long and {text.long(deep + 2.0 * allowance)} wide, "
        f"{text.long(allowance)} of allowance all round in it.",
        "Sew its ends together, fold it lengthwise, and mark its quarters: centre back, centre front and half way "
        "between.",
        f"Mark the quarters of the neck edge, {text.long(band.edge)} round, in the same way: not at the shoulder "
        "seams. "
        f"Lay right sides together, mark on mark, and sew, stretching the band to the neck as you go: it is "
        f"{percent(band.share)} of the edge, so that it lies flat.",
    )
