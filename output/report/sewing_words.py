"""The order of sewing in plain words: a title and a few sentences to each step, each one thing to do.

How each thing is done is common practice, as sewing books for beginners have it; what, where and how much comes from
the pattern.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from typing import Final

from drafting.checks import CHECKS, Verdict, named, run_checks
from drafting.errors import listed
from drafting.pattern import (
    BodyPart,
    Pattern,
    PieceKind,
    Place,
    Role,
)
from drafting.pattern.unfinished import unfinished_edges
from drafting.sewing import Act, SewingStep, StayKind, is_under_three, sewing_order
from drafting.sewing.flared_skirt import Drop, drops
from output.report.attached_words import attached_words
from output.report.bound_edge_words import bound_edge_words
from output.report.button_words import buttons_words
from output.report.child_words import child_caution
from output.report.collar_words import collar_words, make_collar_words
from output.report.cuff_words import cuff_words, slit_words
from output.report.facing_words import face_words, join_facings_words
from output.report.fly_words import fly_words
from output.report.inner_band_words import inner_band_words
from output.report.join_words import fullness_words, join_words, notch_words, set_in_words
from output.report.knit_words import casing_words, stretch_on_words
from output.report.let_down_words import let_down_words, tuck_words
from output.report.lining_words import line_words, lining_hem_words, make_lining_words
from output.report.pleat_words import pleat_words
from output.report.pocket_words import patch_words
from output.report.romper_words import lap_words, snap_words, strap_words
from output.report.step_text import StepText, StepWords, taped

__all__ = ["sewing_data", "step_words"]


def step_words(pattern: Pattern, step: SewingStep, unit: str) -> StepWords:
    """A step in words, lengths in `unit`."""
    words = _WORDS[step.act](StepText(pattern, step, unit))
    left = let_down_words(StepText(pattern, step, unit))
    return replace(words, sentences=(*words.sentences, *left, *child_caution(pattern, step)))


def sewing_data(pattern: Pattern, unit: str, *, knit: bool) -> list[dict[str, object]]:
    """Every step of sewing as data for a program: what it sews, with the sentences that say how."""
    steps = sewing_order(pattern, knit=knit)
    return [
        {
            "act": str(step.act),
            "place": str(step.place) if step.place else None,
            "seams": list(step.seams),
            "pieces": list(step.pieces),
            "notches": list(step.notches),
            "title": words.title,
            "sentences": list(words.sentences),
        }
        for step, words in ((step, step_words(pattern, step, unit)) for step in steps)
    ]


def _fuse(text: StepText) -> StepWords:
    hemmed = [
        name for name in text.step.pieces if any(edge.role is Role.HEM for edge in text.pattern.piece(name).edges)
    ]
    off = f"Cut the interfacing of {listed(f'the {name}' for name in hemmed)} off at the line “finished hem”."
    return StepWords(
        "Fuse the interfacing",
        (
            *((off,) if hemmed else ()),
            f"Iron the interfacing onto the wrong side of {text.pieces}: press down and lift, do not slide, and let it "
            "cool before you move it.",
        ),
    )


def _stay(text: StepText) -> StepWords:
    """In words: how edges are kept from stretching."""
    stitches = [stay for stay in text.step.stays if stay.kind is StayKind.STITCHES]
    sentences = []
    if stitches:
        where = listed(f"the {stay.place} of the {stay.edges[0].piece}" for stay in stitches)
        line = (
            "just inside the sewing line, as the allowance is cut off where it is bound"
            if _bound(text)
            else "just outside the sewing line, in the allowance"
        )
        sentences.append(
            f"Sew one row of plain stitches through the single cloth along {where}, {line}. It keeps the curve from "
            "stretching while you handle it, and stays in."
        )
    sentences += taped(text)
    return StepWords("Keep the edges from stretching", tuple(sentences))


def _bound(text: StepText) -> bool:
    """Whether what is stayed here is bound later, and loses its allowance."""
    bare = {(piece.name, edge.name) for piece, edge, _ in unfinished_edges(text.pattern)}
    return any((ref.piece, ref.edge) in bare for stay in text.step.stays for ref in stay.edges)


def _darts(text: StepText) -> StepWords:
    """In words: how the darts of a piece are sewn and pressed."""
    folds = text.step.darts
    name = listed(f"the {fold.dart}" for fold in folds)
    (piece,) = text.step.pieces
    ways: dict[str, list[str]] = {}
    for fold in folds:
        ways.setdefault(fold.pressed, []).append(f"the {fold.dart}")
    press = "; ".join(f"{listed(darts)} {way}" for way, darts in ways.items())
    twice = "" if not text.pattern.piece(piece).cut.mirror else ", on the left and on the right piece"
    if text.pattern.piece(piece).cut.fold:
        twice = ", on both sides of the fold"
    return StepWords(
        f"Darts of the {piece}",
        (
            f"Fold {name} with the right side in, so that its two lines lie on each other{twice}; pin."
            if len(folds) == 1
            else f"Fold each dart, {name}, with the right side in, so that its two lines lie "
            f"on each other{twice}; pin.",
            "Sew from the wide end to the point, the last stitches along the fold itself. Tie the threads at the "
            "point; "
            "stitching back would make a bump.",
            f"Press {press}.",
        ),
    )


def _wraps(text: StepText) -> bool:
    return any(edge.place is Place.WRAP_EDGE for piece in text.pattern.pieces for edge in piece.edges)


def _band(text: StepText) -> StepWords:
    """In words: how a waistband is sewn on."""
    wrap = _wraps(text)
    beyond = "its ends come to the wrap edges" if wrap else "what is left beyond the opening is the underlap"
    sentences = [
        "Press the band in half lengthwise, wrong side in, and open it again. Lay its marked long edge on the waist, "
        f"right sides together: centres and side seams on their marks{notch_words(text, ' and ')}; "
        f"{beyond}.",
        *fullness_words(text),
        f"Sew {text.allowance()} and press the edges into the band.",
        "Fold the band right side in, close both ends, trim the corners and turn.",
        "Turn the inner edge under on its sewing line and sew it down by hand, or from the right side in the "
        "groove of the seam.",
    ]
    if not wrap:
        sentences.append("Fasten the underlap with a hook and eye or a button, above the opening.")
    return StepWords("Sew the waistband on", tuple(sentences))


def _lap(text: StepText) -> StepWords:
    band = any(text.kind(name) is PieceKind.BAND for name in text.step.pieces)
    on, end = ("the band", "end of the band") if band else ("the waist", "corner")
    return StepWords(
        "Fasten the wrap, inside and outside",
        (
            "Try it on, the right front over the left, centre front on centre front, and pin it at the waist.",
            f"Inside: where the {end} of the left front comes to lie, sew a button, a snap or a tie to the inside of "
            f"{on}, and its buttonhole, its other half or a second tie to that {end}. It carries the under half.",
            f"Outside: where the {end} of the right front comes to lie, sew a button, a snap or a tie to the outside "
            f"of {on}, and its buttonhole, its other half or a second tie to that {end}.",
        ),
    )


def _zip(text: StepText) -> StepWords:
    """In words: how a zip is sewn in."""
    fastening = text.step.fastening
    long = text.long(fastening.length) if fastening else ""
    where = "left side" if text.step.place is Place.SIDE else text.place
    if fastening and fastening.separating:
        end = "It is open at both ends: use a zip that comes apart, made shorter at its upper end, or hooks, or lacing."
    else:
        end = (
            f"Put the stop of the zip at {_lower_mark(text)}. A longer zip is made shorter there: sew over its teeth a "
            "few times and cut off the rest."
        )
    return StepWords(
        f"Zip at the {where}",
        (
            f"The opening is {long} long. {end}",
            "Press both edges in on the sewing line, neatened if they are raw, lay the closed zip under them so that "
            "the edges meet over its teeth, and tack.",
            "Sew both sides from the lower end up with the zip foot, so that both are pushed the same way.",
            *_above_zip(text),
        ),
    )


def _parts_open(text: StepText) -> set[BodyPart]:
    """The parts of the body on which what is open here lies."""
    return {part for name in text.step.pieces if (part := text.pattern.piece(name).identity.part)}


def _lower_mark(text: StepText) -> str:
    """The mark at which a zip ends below: the one of the skirt, where bodice and skirt have one each."""
    both = text.step.place is Place.SIDE and len(_parts_open(text)) > 1
    return f"the {'lower ' if both else ''}mark “the opening ends here”{', the one on the skirt' if both else ''}"


def _above_zip(text: StepText) -> Iterator[str]:
    """What is done where the zip ends at the neck."""
    fastening = text.step.fastening
    if text.step.place is Place.SIDE and len(_parts_open(text)) > 1:
        yield (
            "At the upper mark fold the two ends of the tape out of the way behind the allowances, and sew them down "
            "there by hand, so that the slider cannot leave the teeth."
        )
    if fastening is None or not fastening.hooks:
        return
    if any(text.kind(name) is PieceKind.FACING for name in (ref.piece for ref in text.step.edges)):
        yield (
            "Fold the facing over the zip to the inside, turn its two ends under, clear of the teeth, and slip-stitch "
            "them to the zip tape."
        )
    if is_under_three(text.pattern):
        yield "Set a ring snap above the zip with a tool, so that the neck closes edge to edge: no hook, it comes off."
        return
    yield "Sew a hook and eye above the zip, so that the neck closes edge to edge."


def _how_far(text: StepText) -> str:
    return "from faced edge to faced edge" if _faced_ends(text) else "all round"


def _faced_ends(text: StepText) -> bool:
    """Whether a facing comes down into the hem at an edge that laps over."""
    return any(text.kind(ref.piece) is PieceKind.FACING for ref in text.step.edges)


def _facing_at_hem(text: StepText) -> Iterator[str]:
    """How the hem of a facing is finished at an edge that laps over, before the rest is turned up."""
    if _faced_ends(text):
        yield (
            "First fold the facing out along the front edge, right side on right side, and sew across it and the front "
            f"on the line “finished hem”. Trim the facing to {'1/4 in' if text.unit == 'in' else '6 mm'} below that "
            "seam, cut the corner off and turn."
        )


def _eased_hem(text: StepText) -> Iterator[str]:
    """What is done where the raw edge is longer than what it is turned up on, as the checks measure it."""
    hems = {f"{ref.piece} {ref.edge}" for ref in text.step.edges}
    turned = run_checks(text.pattern, checks=named(CHECKS, ["turned-in-lies"]))
    if any(each.where in hems and each.verdict is Verdict.WARN and (each.measured or 0.0) > 0.0 for each in turned):
        yield (
            "The cut edge is longer than what it comes to lie on: sew a row of long stitches close to it, "
            "pull the lower thread until the hem lies flat, and press the fullness away."
        )


def _hang(text: StepText) -> StepWords:
    return StepWords(
        "Let it hang",
        (
            "Hang the garment up for a day: where the cloth lies on the bias it drops. Then measure the hem up "
            "from the floor, all round, and cut it level.",
            *_dropping(text),
        ),
    )


def _dropping(text: StepText) -> Iterator[str]:
    """Where it drops and how far, by a rule of thumb: it is for her to see, never cut off beforehand."""
    told = [f"the {each.piece} by {text.long(each.mm)}, {_how_far_along(text, each)}" for each in drops(text.pattern)]
    if told:
        yield (
            f"Expect it there, in cloth that stretches as crepe does: {listed(told)}. A fine lawn drops a sixth of "
            "that, a heavy loose cloth nearly twice as much. Cut nothing off before it has hung."
        )


def _how_far_along(text: StepText, drop: Drop) -> str:
    far = f"{text.long(drop.along)} along its hem from" if drop.along > _AT_END else "at"
    return f"{far} the {drop.place}"


def _hem(text: StepText) -> StepWords:
    """In words: how a hem is turned up and sewn."""
    if any(text.kind(name) is PieceKind.LINING for name in text.step.pieces):
        return lining_hem_words(text)
    what = "sleeves" if text.step.place is Place.WRIST else text.place if text.step.place is not Place.HEM else ""
    title = f"Hem the {what or text.garment_part}"
    return StepWords(
        title,
        (
            *_facing_at_hem(text),
            f"Turn up {text.long(text.step.depth)} on the line marked “finished hem”, {_how_far(text)}; press.",
            *_eased_hem(text),
            _STRETCH_HEM if text.pattern.stretch else _ROLLED if text.step.depth <= _NARROW else _HEM,
        ),
    )


_HEM: Final = (
    "Neaten the cut edge, or turn it in a little, and sew it down by hand with small loose stitches, or by machine."
)
_AT_END: Final = 10.0  # mm: nearer than that is at the end of a hem
_NARROW: Final = 10.0  # mm: no wider than that a hem is turned twice by half (common practice)
_ROLLED: Final = (
    "So narrow, it is turned in twice, each time by half: sew close to the cut edge, which draws a curve in, turn that "
    "in, turn in once more, and sew along the fold."
)
_STRETCH_HEM: Final = (
    "Sew it down from the right side with a twin needle for knits, or with a narrow zigzag, so that the hem gives with "
    "the cloth. A knit does not fray: its cut edge may stay as it is."
)
"""Common practice; a straight stitch breaks when a knit is stretched."""


_WORDS: Final[Mapping[Act, Callable[[StepText], StepWords]]] = {
    Act.FUSE: _fuse,
    Act.STAY: _stay,
    Act.DARTS: _darts,
    Act.JOIN: join_words,
    Act.JOIN_FACINGS: join_facings_words,
    Act.FACE: face_words,
    Act.SET_IN: set_in_words,
    Act.BAND: _band,
    Act.INNER_BAND: inner_band_words,
    Act.STRETCH_ON: stretch_on_words,
    Act.CASING: casing_words,
    Act.MAKE_COLLAR: make_collar_words,
    Act.COLLAR: collar_words,
    Act.SLIT: slit_words,
    Act.CUFF: cuff_words,
    Act.BIND: bound_edge_words,
    Act.PATCH: patch_words,
    Act.PLEATS: pleat_words,
    Act.MAKE_LINING: make_lining_words,
    Act.LINE: line_words,
    Act.ZIP: _zip,
    Act.FLY: fly_words,
    Act.BUTTONS: buttons_words,
    Act.SNAPS: snap_words,
    Act.LAP_SHOULDERS: lap_words,
    Act.ATTACH: attached_words,
    Act.STRAPS: strap_words,
    Act.LAP: _lap,
    Act.HANG: _hang,
    Act.TUCK: tuck_words,
    Act.HEM: _hem,
}
