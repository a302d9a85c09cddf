"""What every sentence about a step of sewing is made of: the step with its pattern, and small helpers."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.dataclass import dataclass
from drafting.errors import listed
from drafting.pattern import BodyPart, Pattern, PieceKind, Place
from drafting.pattern.let_down import usual_allowance
from drafting.reading.units import length_text
from drafting.sewing import SewingStep, Stay, StayKind

__all__ = ["StepText", "StepWords", "capital", "taped"]


@dataclass(frozen=True, slots=True)
class StepWords:
    """What is said of one step: its title without a number, and its sentences in the order in which they are done."""

    title: str
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StepText:
    """A step with the pattern it belongs to and the unit she works in."""

    pattern: Pattern
    step: SewingStep
    unit: str

    def long(self, mm: float) -> str:
        """A length in her unit."""
        return length_text(mm, self.unit)

    @property
    def pieces(self) -> str:
        """The pieces in hand, "the sleeve and the bodice front"."""
        return listed(f"the {name}" for name in self.step.pieces)

    @property
    def place(self) -> str:
        """Where it is, in words."""
        return str(self.step.place or "")

    @property
    def garment_part(self) -> str:
        """What is sewn: "skirt", "sleeves"; "garment" for a top that is all there is: a romper, a T-shirt, a smock."""
        part = self.step.part
        covered = {piece.identity.part for piece in self.pattern.pieces} - {None, BodyPart.SLEEVE}
        if part is BodyPart.BODICE and covered == {BodyPart.BODICE}:
            return "garment"
        return str(part or "garment")

    def kind(self, piece: str) -> PieceKind | None:
        """What kind of piece one is."""
        return self.pattern.piece(piece).identity.kind

    def allowance(self) -> str:
        """How far from the cut edge the seam is sewn."""
        refs = [ref for name in self.step.seams for ref in self.pattern.seam(name).b] or list(self.step.edges)
        pieces = [(self.pattern.piece(ref.piece), ref.edge) for ref in refs]
        found = sorted({usual_allowance(piece, piece.edge(edge)) for piece, edge in pieces} - {0.0})
        return f"{listed(self.long(mm) for mm in found)} from the cut edge" if found else "along the sewing line"


def taped(text: StepText) -> Iterator[str]:
    """A sentence for every tape of a step: how long it is cut, and where it goes."""
    for stay in (stay for stay in text.step.stays if stay.kind is not StayKind.STITCHES):
        yield _tape(text, stay)


def _tape(text: StepText, stay: Stay) -> str:
    """In words: how long a tape or an elastic is cut and where it is sewn."""
    where = f"the {stay.place} of {listed(dict.fromkeys(f'the {ref.piece}' for ref in stay.edges))}"
    if stay.kind is StayKind.ELASTIC:
        return (
            f"Cut one piece of clear elastic {text.long(stay.cut)} long, as long as the whole waist is when it is "
            "sewn, and sew it along the seam as you go, without pulling it: it keeps the waist to its size, and still "
            "gives when you put it on."
        )
    if stay.place is Place.WAIST:
        return (
            f"Cut one stay tape {text.long(stay.cut)} long, as long as the whole waist is when it is sewn, and sew it "
            "along the seam as you go, so that the waist cannot stretch."
        )
    each = "" if stay.times == 1 else f"{_times(stay.times)}: "
    shorter = (
        f", {text.long(stay.length - stay.cut)} shorter than the edge, and hold the edge in to it"
        if stay.cut < stay.length
        else ", exactly as long as the seam"
    )
    return (
        f"Stay {where}, {each}cut the tape {text.long(stay.cut)} long{shorter}; sew it on the wrong side over the "
        "sewing line."
    )


def capital(words: str) -> str:
    """The words with a capital letter in front."""
    return words[:1].upper() + words[1:]


def _times(count: int) -> str:
    return "twice" if count == 2 else f"{count} times"
