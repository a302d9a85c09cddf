"""What an earlier step has made of a piece, so that a later one cannot be taken any more, and which step that was.

Almost every such refusal has one mend: the steps of a garment file in another order. So each names the alteration
before which the refused step is to be put, as data, from which the sentence is made. There is none where the cause is
not known.
"""

from __future__ import annotations

from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import Remedy, Setting, StepRefused
from drafting.pattern import BodyPart, Edge, NotchMark, Pattern, Piece, Place, Role, edge_at, edges_at

__all__ = [
    "ZIP_OR_POCKET",
    "EarlierStep",
    "cut_above",
    "cut_in_two",
    "has_zip",
    "in_the_way",
    "left_unsewn",
    "not_whole",
    "put_before",
    "refused_after",
    "stand_in_the_way",
    "taken_up",
    "top_cut_off",
    "was_there",
    "zip_of_block",
]

_CUTS_IN_TWO: Final = "dart into seam"
_CUT_TOPS_OFF: Final = ("shaped band", "skirt yoke")


ZIP_OR_POCKET: Final = (
    "a zip and a pocket do not go into one side seam: let the zip lie at the centre back, or take a patch pocket"
)


@dataclass(frozen=True, slots=True)
class EarlierStep:
    """What an earlier step has made of a piece, in words, and what helps."""

    said: str
    remedies: tuple[Remedy, ...] = ()


def put_before(alteration: str = "", *, otherwise: bool = False) -> Remedy:
    """The refused step is to be put before another, "" for whichever it came after.

    otherwise: whether it is told behind something else that helps
    """
    return Remedy("put before", alteration, lead="or" if otherwise else "")


def refused_after(step: str, earlier: EarlierStep | None, plain: str) -> StepRefused:
    """The refusal of a step for what an earlier one has made of a piece; in plain words where that is not why."""
    if earlier is None:
        return StepRefused(step, reason=plain)
    return StepRefused(step, reason=earlier.said, remedies=earlier.remedies)


_TAKES_UP: Final = {
    "smock": "lets the darts out into its gathers and hangs to a hem of its own",
    "raglan": "closes a dart that ends above its seam, and leaves neither shoulder nor armhole above it",
    "saddle shoulder": "closes a dart that ends in its strip",
    "yoke": "closes a dart that ends above its seam",
    "kimono": "cuts the sleeve in one with the bodice, and leaves no armhole",
    "empire seam": "closes the darts below its seam",
    "pleat skirt": "takes the darts into its pleats",
    "flare skirt": "closes the darts for its flare",
    "gather skirt": "lets the darts out into its gathers",
    "skirt yoke": "closes the darts in the yoke",
    "shaped band": "closes the darts in the band",
}
"""What a style does with the darts and the seams it takes up, in words."""

_CUT_ABOVE: Final = ("yoke", "smock", "raglan", "saddle shoulder")

_OF_SKIRTS: Final = ("pleat skirt", "flare skirt", "gather skirt", "skirt yoke", "shaped band")

_OF_ONE_DART: Final = {
    "dart into gathers": "leaves it unsewn",
    "dart into seam": "makes a seam of it",
    "move a dart": "moves it",
}


def cut_above(pattern: Pattern) -> str:
    """The step that cut the bodice in two above, and what to do, in words behind the reason; "" if there is none."""
    done = [step.alter for step in pattern.history if step.alter in _CUT_ABOVE]
    return f': "{done[-1]}" does that; leave out one of the two' if done else ""


def taken_up(pattern: Pattern, piece: str, what: str) -> str:
    """Why a piece has not, or no longer, a dart or an edge of that name, or is not there itself; "" if unknown.

    Told of the last step that may have taken it up: the dart itself, or those of the same part of the garment.
    """
    on = next((each.identity.part for each in pattern.pieces if each.name == piece), None)
    leave_out = "; leave out one of the two"
    for step in reversed(pattern.history):
        asked = dict(step.options)
        if (asked.get("piece"), asked.get("dart")) == (piece, what) and step.alter in _OF_ONE_DART:
            return f'"{step.alter}" {_OF_ONE_DART[step.alter]}{leave_out}'
        lower = step.alter in _OF_SKIRTS
        if step.alter in _TAKES_UP and (on is None or lower == (on in (BodyPart.SKIRT, BodyPart.TROUSERS))):
            return f'"{step.alter}" {_TAKES_UP[step.alter]}{leave_out}'
    return ""


def was_there(pattern: Pattern, piece: str, what: str = "") -> bool:
    """Whether there was a piece of that name before the finishing steps, and on it a dart or an edge of that name."""
    before = pattern.unfinished.pieces if pattern.unfinished else ()
    was = next((each for each in before if each.name == piece), None)
    names = {edge.name for edge in was.edges} | {dart.name for dart in was.darts} if was else set()
    return was is not None and (not what or what in names or what in {edge.place for edge in was.edges})


def not_whole(piece: Piece, place: Place) -> EarlierStep | None:
    """Why a piece has no whole edge at a place: what lies in it, or what became of the piece."""
    parts = edges_at(piece, place)
    if not parts:
        return in_the_way(piece)
    if any(edge.role is Role.OPENING for edge in parts):
        legs = piece.identity.part is BodyPart.TROUSERS and not edge_at(piece, Place.BIB)
        # the zip of trousers comes with their block, unless a step has opened them
        behind = Remedy("set in block", "trousers", (Setting("fastening", "back"),), lead="To open them behind")
        remedies = (put_before("opening"), *((behind,) if legs else ()))
        return EarlierStep(f'the {place} of "{piece.name}" has a zip in it', remedies)
    if any(notch.marks is NotchMark.POCKET for notch in piece.notches):
        return EarlierStep(f'the {place} of "{piece.name}" has a pocket in it; {ZIP_OR_POCKET}')
    dart = EarlierStep(f'the {place} of "{piece.name}" has a dart in it', (put_before("move a dart"),))
    return _gathers(piece, place) or dart


def has_zip(piece: Piece) -> bool:
    """Whether the side seam of a piece has a zip in it."""
    return any(side.role is Role.OPENING for side in edges_at(piece, Place.SIDE, Place.OUTSEAM))


def zip_of_block(pattern: Pattern, piece: Piece) -> bool:
    """Whether the zip in the side seam of a piece came with its block, and not by a step."""
    return has_zip(piece) and not any(step.alter == "opening" for step in pattern.history)


def in_the_way(piece: Piece, place: Place | str | None = None) -> EarlierStep | None:
    """Why a piece has no plain centre line, or why its edges at a place do not lie together."""
    if edge_at(piece, Place.STAND):
        return stand_in_the_way(piece)
    if edge_at(piece, Place.WRAP_EDGE):
        return EarlierStep(f'"{piece.name}" wraps over', (put_before("wrap over"),))
    if edge_at(piece, Place.POCKET_MOUTH):
        return EarlierStep(f'"{piece.name}" has a slanted pocket', (put_before("slanted pocket"),))
    if gathers := _gathers(piece, Place(place)) if place else None:
        return gathers
    if edge_at(piece, Place.PRINCESS):
        return EarlierStep(f'"{piece.name}" is a half of a piece that was cut in two', (put_before(_CUTS_IN_TWO),))
    return None


def stand_in_the_way(piece: Piece) -> EarlierStep:
    """The step that set buttons on the piece, which comes too early for what is asked now."""
    return EarlierStep(f'"{piece.name}" has a button stand', (put_before("opening"),))


def cut_in_two(pattern: Pattern, name: str, step: str = "") -> EarlierStep | None:
    """What a piece of that name was cut into; step: what the refused alteration is called."""
    if not any(step.alter == _CUTS_IN_TWO and dict(step.options).get("piece") == name for step in pattern.history):
        return None
    parts = [f'"{piece.name}"' for piece in pattern.pieces if edge_at(piece, Place.PRINCESS)]
    there = f'"{name}" was cut in two, and there is now {" and ".join(parts)}; name one of them'
    if step == _CUTS_IN_TWO:
        return EarlierStep(f"{there}, or leave this step out")
    return EarlierStep(there, (put_before(_CUTS_IN_TWO, otherwise=True),))


def top_cut_off(pattern: Pattern, piece: Piece) -> EarlierStep | None:
    """Why the waist of a piece is no longer its own: what was cut off above it."""
    cut = [step.alter for step in pattern.history if step.alter in _CUT_TOPS_OFF]
    if not cut or not edge_at(piece, Place.YOKE) or edge_at(piece, Place.WAIST):
        return None
    return EarlierStep("its top was cut off", (put_before(cut[0]),))


def left_unsewn(edge: Edge) -> bool:
    """Whether an edge lies over the mouth of a dart left unsewn."""
    return edge.drawn_up is not None


def _gathers(piece: Piece, place: Place) -> EarlierStep | None:
    """The gathers or the ease of a dart between the edges at a place."""
    found = [edge.name for edge in edges_at(piece, place) if left_unsewn(edge)]
    if not found:
        return None
    return EarlierStep(f'"{found[0]}" lie in the {place} of "{piece.name}"', (put_before("dart into gathers"),))
