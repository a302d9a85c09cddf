"""How two edges are sewn together, in words: seams of the garment, and sleeves."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.errors import listed
from drafting.pattern import CENTRES, BodyPart, PieceKind, Place, edges_at
from drafting.pattern.cutting import is_slit
from drafting.pattern.unfinished import has_inner_layer
from drafting.sewing import Act
from output.drawings.gather_notes import gather_words
from output.report.pleat_words import last_pleat_words, yoke_laid_words
from output.report.pocket_words import mouth_words, round_pocket, slanted_words
from output.report.step_text import StepText, StepWords, capital, taped

__all__ = ["fullness_words", "join_words", "notch_words", "set_in_words"]


def join_words(text: StepText) -> StepWords:
    """A seam of the garment, or the centre seam of two like halves."""
    step = text.step
    if step.place is Place.POCKET_MOUTH:
        return mouth_words(text)
    if step.place is Place.POCKET_TOP:
        return slanted_words(text)
    if step.place is Place.CROTCH and len(step.pieces) > 1:
        return _crotch_words(text)
    if not step.seams:
        (piece,) = step.pieces
        below = " from the mark “the opening ends here” to the other end" if _opens(text) else ""
        places = {text.pattern.piece(piece).edge(ref.edge).place for ref in step.edges}
        if step.place is not Place.CROTCH and Place.CROTCH in places:
            below += " and on through the crotch"
        return StepWords(
            f"{capital(text.place)} seam of the {text.garment_part if step.part else piece}",
            (
                f"Lay the left {piece} on the right one, right sides together, and sew the {text.place}{below}, "
                f"{text.allowance()}.",
                *(("Secure the stitching at that mark: the zip ends there.",) if _opens(text) else ()),
                _neatened(text),
                *last_pleat_words(text, text.pattern.piece(piece)),
            ),
        )
    sentences = [yoke_laid_words(text, notch_words(text)) or _laying_words(text)]
    sentences += fullness_words(text)
    if text.step.place is Place.SIDE and _by_gusset(text):
        sentences.append(
            "These are two seams on each side: one from the waist up to the corner of the gusset, one from the wrist "
            "to its other corner. Stop at the corner, and do not sew over the gusset."
        )
    sentences.append(f"Sew {text.allowance()}.{_zip_left_open(text)}{round_pocket(text)}{_godet_waits(text)}")
    sentences += taped(text)
    sentences += _pressing_words(text)
    return StepWords(_join_title(text), tuple(sentences))


def _join_title(text: StepText) -> str:
    """What the step that joins pieces is called."""
    place = text.step.place
    if place in (Place.PRINCESS, Place.YOKE, Place.SADDLE, Place.EMPIRE):
        return f"Join {text.pieces}"
    if place is Place.GUSSET:
        return "Gussets"
    if place is Place.GODET:
        return "Godets"
    if place is Place.RAGLAN:
        return "Raglan seams"
    if place is Place.SIDE:
        with_sleeve = any(text.kind(name) is PieceKind.SLEEVE for name in text.step.pieces) or any(
            edges_at(text.pattern.piece(name), Place.OVERARM) for name in text.step.pieces
        )
        if with_sleeve:
            return "Side seams and underarm seams" if _by_gusset(text) else "Side and underarm seam in one"
        return f"Side seams of the {text.garment_part}"
    if place is Place.WAIST:
        return f"Join bodice and {_lower(text)} at the waist"
    return (
        {
            Place.SHOULDER: "Shoulder seams",
            Place.INSEAM: "Inside leg seams",
            Place.UNDERARM: "Underarm seams of the sleeves",
        }.get(place, f"{capital(text.place)} seam")
        if place
        else "Join"
    )


def _by_gusset(text: StepText) -> bool:
    """Whether the seams of this step end at a gusset that is sewn in before."""
    return any(edges_at(text.pattern.piece(name), Place.GUSSET) for name in text.step.pieces)


def _crotch_words(text: StepText) -> StepWords:
    """The seam through the crotch of two legs that are tubes already."""
    zips = {
        str(edge.place)
        for name in text.step.pieces
        for edge in text.pattern.piece(name).edges
        if edge.role == "opening" and edge.place in CENTRES
    }
    ends = f" On the {listed(sorted(zips))} leave open what is marked for the zip." if zips else ""
    return StepWords(
        "Crotch seam",
        (
            "Turn one leg right side out and put it into the other, right sides together, inside leg on inside leg; "
            "pin there first, then the notches and the waist in front and behind.",
            f"Sew from the waist in front through the crotch to the waist behind in one go, {text.allowance()}.{ends}",
            "Sew once more between the two notches, just inside the allowance: it carries all the strain of sitting. "
            f"Trim the allowance there to {'1/4 in' if text.unit == 'in' else '6 mm'} and leave it standing"
            + ("." if text.pattern.stretch else "; above the notches press it open."),
            *((_neatened(text),) if text.pattern.stretch else ()),
        ),
    )


def _lower(text: StepText) -> str:
    """What is sewn to the bodice."""
    parts = {text.pattern.piece(name).identity.part for name in text.step.pieces}
    return "trousers" if BodyPart.TROUSERS in parts else "skirt"


_CUT_OPEN: Final = (
    "First sew round the point of each slit with small stitches on the line, a scrap of cloth behind it, and cut the "
    "slit open down its middle to that point. Its allowance runs out to nothing there: lay the line of the slit, "
    "not its cut edge, on the sewing line of what is set in."
)


def _has_slits(text: StepText) -> bool:
    """Whether a piece of this step is slit, and not open at a seam."""
    pieces = map(text.pattern.piece, text.step.pieces)
    return any(is_slit(piece, edge) for piece in pieces for edge in piece.edges)


def _laying_words(text: StepText) -> str:
    """How the pieces are laid on each other before they are sewn."""
    step = text.step
    if step.place is Place.UNDERARM:
        sleeve = text.step.pieces[0]
        return f"Fold each {sleeve} lengthwise, right side in, its two long edges together{notch_words(text)}."
    if step.place is Place.WAIST:
        return (
            f"Lay the {_lower(text)} on the bodice, right sides together, waist edge on waist edge. Pin the centres, "
            f"then the side seams{notch_words(text, ' and ')}."
        )
    if step.place is Place.GUSSET:
        return (
            f"{_CUT_OPEN} Then lay the gusset on one edge of a slit after the other, right sides together, all four "
            f"sides{notch_words(text)}."
        )
    if step.place is Place.GODET:
        first = f"{_CUT_OPEN} " if _has_slits(text) else ""
        return f"{first}Lay each godet with one edge on one side of its opening, right sides together, then the other."
    if step.place is Place.RAGLAN:
        return (
            f"Lay each sleeve on front and back, right sides together, neck edge at neck edge and underarm at underarm"
            f"{notch_words(text)}. Front has single notches, back double ones."
        )
    names = [name for name in step.pieces if text.kind(name) is not PieceKind.POCKET]
    if step.place is Place.SIDE and any(text.kind(name) is PieceKind.SLEEVE for name in names):
        return (
            "Fold the garment at the shoulder, right side in, so that front lies on back: underarm edges together, "
            "side "
            f"edges together, the armhole seams on each other{notch_words(text)}."
        )
    return (
        f"Lay {listed(f'the {name}' for name in names)} right sides together along the "
        f"{_edge_word(text)}{notch_words(text)}."
    )


def _edge_word(text: StepText) -> str:
    return {
        Place.PRINCESS: "seam between them",
        Place.SIDE: "side edges",
        Place.INSEAM: "inside leg edges",
        Place.SHOULDER: "shoulder edges",
    }.get(text.step.place or Place.PRINCESS, f"{text.place} edges")


def notch_words(text: StepText, before: str = ", ") -> str:
    """Which notches meet, in words; "" for none."""
    numbers = text.step.notches
    if not numbers:
        return ""
    if len(numbers) == 1:
        return f"{before}notch {numbers[0]} on notch {numbers[0]}"
    return f"{before}notches {listed(map(str, numbers))} each on its own number"


def fullness_words(text: StepText) -> Iterator[str]:
    """What is gathered or eased, from where to where: in the words that stand on the piece."""
    words = [each for each in gather_words(text.pattern, text.unit) if each.held in text.step.held]
    said = [(each.words, each.held.piece) for each in words]
    for what, piece in dict.fromkeys(said):
        twice = said.count((what, piece)) > 1 or text.pattern.piece(piece).cut.fold
        halves = "on each half of" if twice else "on"
        yield f"{capital(what)}, {halves} the {piece}."
    if any(each.held.kind == "gathered" for each in words):
        yield (
            "To gather: sew two rows of your longest stitch on the lines drawn there, pull the lower threads together "
            "until the edge is as long as said, and spread the folds evenly. When the seam is sewn, take out the rows "
            "that show."
        )
    elif words and text.step.act is not Act.SET_IN:
        yield "To ease in: pin both ends, then the middle, and spread what is longer evenly between the pins; no folds."


def _zip_left_open(text: StepText) -> str:
    """What is left open for a zip in the left side seam; "" where there is none."""
    step = text.step
    if step.place is not Place.SIDE:
        return ""
    opens = any(
        edge.place is Place.SIDE and edge.role == "opening"
        for name in step.pieces
        for edge in text.pattern.piece(name).edges
    )
    return " On the left leave open what is marked for the zip; sew the right side all the way." if opens else ""


def _pressing_words(text: StepText) -> Iterator[str]:
    """How the edges are neatened and pressed once the seam is sewn."""
    place = text.step.place
    gathered = any(held.kind == "gathered" for held in text.step.held)
    if place is Place.WAIST:
        away = ", away from the gathers" if gathered else ""
        gives = "Sew with a stitch that gives. " if text.pattern.stretch else ""
        yield f"{gives}Neaten the edges together and press them up, toward the bodice{away}."
    elif place is Place.PRINCESS and gathered:
        yield "Neaten the edges together and press them to the side that is not gathered."
    elif place is Place.PRINCESS:
        snip = (
            "Where the seam is curved, snip the edge that curves inward every finger’s width, not into the stitching."
        )
        yield (
            f"{_neatened(text)} {snip}"
            if text.pattern.stretch
            else f"Neaten the edges. {snip} Press open over a rolled towel."
        )
    elif place is Place.GODET:
        yield (
            "Sew from the hem up and end exactly at the point: one stitch more makes a pucker there. Neaten the edges "
            "together and press them away from the godet."
        )
    elif place is Place.YOKE and any(has_inner_layer(text.pattern.piece(name)) for name in text.step.pieces):
        yield "Press the edges up, into the band: its inner layer covers them later."
    elif place is Place.YOKE and any(_is_cut_twice(text, name) for name in text.step.pieces):
        yield (
            "Lay the second yoke on the other side of the lower piece, right side to its wrong side, and sew all three "
            "in one. Fold both yokes up, so that the seam lies between them, and press. Leave the second one loose "
            "at the shoulders for now; at the neck and the armholes its edges go with those of the first."
        )
    elif place is Place.SHOULDER and any(_is_cut_twice(text, name) for name in text.step.pieces):
        yield _two_second_yokes(text) or (
            "Press the edges toward the yoke. Turn the shoulder edges of the second yoke under, lay them on the line "
            "of stitches and sew them down: the yoke then encloses both its seams."
        )
    elif place is Place.YOKE and (gathered or yoke_laid_words(text, "")):
        what = "gathers" if gathered else "pleats"
        yield f"Neaten the edges together and press them toward the yoke, away from the {what}."
    elif place is Place.GUSSET:
        yield (
            "Sew from the open end of a slit to its point and stop there, turn, and sew the next side; press the edges "
            "away from the gusset."
        )
    elif place is Place.RAGLAN:
        how = _neatened(text) if text.pattern.stretch else "Neaten the edges and press them open above."
        yield f"Snip where the seam curves inward, not into the stitching. {how}"
    elif place is Place.UNDERARM:
        yield _neatened(text, " over a rolled towel")
    else:
        yield _neatened(text)


def _godet_waits(text: StepText) -> str:
    """Where a seam stops above a godet that is set in later; "" where there is none."""
    pattern = text.pattern
    if text.step.place is Place.GODET:
        return ""
    set_in = {
        (ref.piece, ref.edge)
        for seam in pattern.seams
        if any(pattern.piece(ref.piece).edge(ref.edge).place is Place.GODET for ref in seam.b)
        for ref in seam.a
    }
    refs = [ref for name in text.step.seams for ref in pattern.seam(name).a]
    beside = {(ref.piece, edge.name) for ref in refs for edge in pattern.piece(ref.piece).beside(ref.edge)}
    if not beside & set_in:
        return ""
    return " Stop at the point of the godet and secure the stitching: below it the seam stays open for that."


def _two_second_yokes(text: StepText) -> str:
    """How shoulders are closed inside where the yokes of front and back are both cut twice; "" where one is."""
    if not all(_is_cut_twice(text, name) for name in text.step.pieces):
        return ""
    back, front = text.step.pieces
    return (
        f"Press the edges toward the {back}. Lay the shoulder edge of the second {front} flat over them and tack it "
        f"there; turn that of the second {back} under on its sewing line, lay it over the other on the line of "
        "stitches, and sew it down: the yokes then enclose all their seams."
    )


def _is_cut_twice(text: StepText, name: str) -> bool:
    """Whether a piece is a yoke of a bodice that is cut once more as its inside."""
    piece = text.pattern.piece(name)
    return piece.identity.kind is PieceKind.YOKE and piece.cut.layers > 1


def _neatened(text: StepText, over: str = "") -> str:
    """How the edges of a seam are finished: together in a knit, whose allowances are narrow and have to give."""
    if text.pattern.stretch:
        return "Sew with a stitch that gives; neaten the two edges together and press them to one side."
    return f"Neaten the edges and press them open{over}."


def set_in_words(text: StepText) -> StepWords:
    """Sleeves sewn into their armholes, in the round or flat."""
    step = text.step
    if step.in_the_round:
        first = (
            "Turn the garment inside out and the sleeve right side out; put the sleeve into the armhole, underarm "
            "seam on "
            f"side seam, the crown notch on {_shoulder(text)}{notch_words(text)}. Front has single notches, back "
            "double ones."
        )
        cap = [held for held in step.held if held.kind == "eased"]
        if cap:
            first += (
                " To draw the cap in, sew a row of long stitches in its allowance between these notches and pull the "
                "lower thread until the cap is as long as the armhole and lies without folds."
            )
        again = "Sew once more around the lower half, just inside the allowance: it carries the weight."
        title = "Set the sleeves in"
    else:
        saddled = any(edges_at(text.pattern.piece(name), Place.SADDLE) for name in step.pieces)
        meets = "from each saddle seam down to the side edge" if saddled else f"the crown notch on {_shoulder(text)}"
        first = (
            f"Lay the sleeve on the open armhole, right sides together, {meets}"
            f"{notch_words(text)}. Front has single notches, back double ones."
        )
        again = ""
        title = "Sew the sleeves to the open armholes"
    gives = "Sew with a stitch that gives. " if text.pattern.stretch else ""
    last = f"{gives}Neaten the edges together and press them into the sleeve; leave the cap itself unpressed."
    sentences = (
        first,
        *fullness_words(text),
        f"Sew {text.allowance()}, the sleeve uppermost, so that you see its fullness.",
        again,
        last,
    )
    return StepWords(title, tuple(sentence for sentence in sentences if sentence))


def _shoulder(text: StepText) -> str:
    """What the crown of the sleeve meets: of a shoulder that opens the front edge, which lies on its sewing line."""
    edges = (edge for name in text.step.pieces for edge in text.pattern.piece(name).edges)
    opens = any(edge.place is Place.SHOULDER and edge.role == "opening" for edge in edges)
    return "the finished front edge of the shoulder" if opens else "the shoulder seam"


def _opens(text: StepText) -> bool:
    """Whether there is an opening at the same place."""
    return any(
        edge.role == "opening" and edge.place is text.step.place
        for name in text.step.pieces
        for edge in text.pattern.piece(name).edges
    )
