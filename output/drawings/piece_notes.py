"""What is written on a piece so that it can be cut and sewn without looking anything up.

Words only, and the stretch of line or the place each belongs to; where they find room is drawn_piece.py's business.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Curve, Point, end_tangents
from drafting.parts.finishes.facing_strip import V_POINT
from drafting.pattern import (
    CENTRES,
    Cut,
    Edge,
    Landmark,
    MarkPoint,
    Notch,
    NotchMark,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    edges_at,
    notches_marking,
    pieces_of,
    place,
    points_at,
)
from drafting.pattern.casings import casings
from drafting.pattern.cutting import is_slit, pressed
from drafting.pattern.gathered import beside_threads
from drafting.pattern.neck_band import neck_band
from drafting.pattern.pockets import is_patch, marked_for_pockets, one_sided, pockets
from drafting.pattern.unfinished import unfinished_edges
from drafting.reading.units import length_text
from drafting.sewing import cautions, is_under_three
from output.drawings.gather_notes import gather_words

__all__ = ["Along", "PieceWords", "allowance_note", "cut_note", "piece_words", "point_name", "still_to_finish"]


_ALIKE: Final = 1e-6  # mm
_SLANTING: Final = 0.3
"""how far a neck that comes to the centre leans up for each mm of it where it is a V (ours)"""


@dataclass(frozen=True, slots=True)
class Along:
    """Words that belong to a stretch of line; large ones are seen from afar.

    short: what is said where there is no room for them; "" for nothing shorter
    """

    words: str
    curves: tuple[Curve, ...]
    large: bool = False
    short: str = ""


@dataclass(frozen=True, slots=True)
class PieceWords:
    """What is written on one piece.

    number: which piece of how many, "piece 2 of 5"; "" for one that stands alone
    along:  what is written along lines, the most needed first
    spots:  what is written beside places
    notes:  what is written in the block with the piece's name, one line each
    """

    number: str = ""
    along: tuple[Along, ...] = ()
    spots: tuple[tuple[str, Point], ...] = ()
    notes: tuple[str, ...] = ()


def piece_words(piece: Piece, pattern: Pattern | None, unit: str) -> PieceWords:
    """What is written on a piece of a pattern, lengths in `unit`; for one without a pattern what it tells by itself."""
    number = ""
    eased: tuple[Along, ...] = ()
    beware: tuple[str, ...] = ()
    pocket: tuple[str, ...] = ()
    if pattern is not None:
        beware = _beware(piece, pattern)
        names = [each.name for each in pattern.pieces]
        number = f"piece {names.index(piece.name) + 1} of {len(names)}"
        eased = tuple(_held(piece, pattern, unit))
        pocket = _pocket_on_one_side(piece, pattern)
    along = (*_folds(piece), *_edges(piece, pattern, unit), *_collar_ends(piece), *eased, *_darts(piece))
    return PieceWords(
        number, along, _spots(piece), (*allowance_note(piece, unit), *_fused(piece), *_unlike(piece), *pocket, *beware)
    )


def _beware(piece: Piece, pattern: Pattern) -> tuple[str, ...]:
    """What to beware of on a piece that lies at the neck of a child, or has an opening to be fastened."""
    if piece.identity.kind is PieceKind.FACING or not cautions(pattern):
        return ()
    told = ["for a child: no cord, tie or elastic at the neck"] if edges_at(piece, Place.NECK) else []
    lapped = bool(edges_at(piece, Place.LAP_END))  # nothing fastens a lapped shoulder
    opens = any(edge.role is Role.OPENING and not (lapped and edge.place is Place.SHOULDER) for edge in piece.edges)
    if opens and (short := _small_parts(pattern)):
        told.append(short)
    if piece.identity.kind is PieceKind.TIE:
        told.append("for a child: tied in front, its ends no longer than the rules let them be")
    if piece.identity.kind is PieceKind.STRAP:
        told += ["for a child: no strap ties or hangs loose", _small_parts(pattern)]
    return tuple(told)


def _small_parts(pattern: Pattern) -> str:
    return (
        "under three: no buttons or snaps that come off" if is_under_three(pattern) else "sew buttons and snaps on fast"
    )


def cut_note(piece: Piece) -> tuple[str, ...]:
    """How many to cut, in words: "cut 2: a pair, one left and one right". Where it is cut of other cloth too, in short
    lines, since such pieces are narrow: "cut 2 of shell:", "a pair, one left and one right", "and 2 of interfacing".

    Never "2 in interfacing", which whoever works in inches would read as a length. A pocket on one half of the body
    says on which: "cut 1, left front only".
    """
    cut = piece.cut
    others = (("lining", cut.lining), ("interfacing", cut.interfacing))
    more = tuple(f"and {count} of {cloth}" for cloth, count in others if count)
    if not cut.count and cut.lining:
        return (f"{_cut_words(replace(cut, count=cut.lining))}, of lining",)
    plain = _cut_words(cut)
    if not more:
        return (f"{plain}{_half_only(piece)}",)
    counted = f"cut {cut.count}"
    how = plain.removeprefix(counted).lstrip(" ,:")
    return (f"{counted} of shell:", how, *more) if how else (f"{counted} of shell", *more)


def short_cut_note(piece: Piece) -> str:
    """The same where there is little room, of the cloth of the garment alone: "cut 1 on fold", "cut 2, a pair"."""
    cut = piece.cut
    count = cut.count or cut.lining
    if cut.fold:
        return "cut 1 on fold" if count == 1 else f"cut {count}, each on fold"
    if cut.mirror and count > 1:
        return f"cut {count}, {'a pair' if count == 2 else f'{count // 2} pairs'}"
    return f"cut {count}{_half_only(piece)}"


def _half_only(piece: Piece) -> str:
    """For which half of the body a patch is that goes on one alone; "" for any other piece."""
    identity = piece.identity
    return f", {identity.side} {identity.of} only" if identity.side and is_patch(piece) else ""


def _cut_words(cut: Cut) -> str:
    if cut.fold:
        return "cut 1 on the fold" if cut.count == 1 else f"cut {cut.count}, each on the fold"
    if cut.mirror and cut.count > 1:
        pairs = "a pair" if cut.count == 2 else f"{cut.count // 2} pairs"
        return f"cut {cut.count}: {pairs}, one left and one right"
    return f"cut {cut.count}"


_AT_WRAP: Final = "at the wrap edge"
_CASED: Final = "for the casing"
_ALLOWED: Final = {Role.SEAM: "for seams", Role.OPENING: "at the opening", Role.HEM: "for the hem"}


def allowance_note(piece: Piece, unit: str) -> tuple[str, ...]:
    """What the cutting line adds to the sewing line, a line each: "the cutting line includes", "1.5 cm for seams,"."""
    found: dict[str, set[float]] = {
        word: set() for word in ("for seams", "at the opening", _AT_WRAP, _CASED, "for the hem")
    }
    for edge in piece.edges:
        word = _AT_WRAP if edge.place is Place.WRAP_EDGE else _ALLOWED.get(edge.role)
        if edge.role is Role.HEM and edge.place in (Place.WAIST, Place.NECK):
            word = _CASED
        if word and edge.allowance > 0.0:
            found[word].add(edge.allowance)
    parts = [
        f"{' and '.join(length_text(mm, unit) for mm in sorted(each))} {word}" for word, each in found.items() if each
    ]
    if not parts:
        return ("no allowances drawn:", "add them when you cut")
    return ("the cutting line includes", *(f"{part}," for part in parts[:-1]), parts[-1])


def still_to_finish(pattern: Pattern) -> tuple[str, ...]:
    """What no piece of the pattern finishes yet, in sentences; none where everything is."""
    names: dict[Place, list[str]] = {}
    for piece, _, line in unfinished_edges(pattern):
        if line is Place.NECK and neck_band(pattern) is not None:
            continue  # the order of sewing tells how its band is cut
        whose = names.setdefault(line, [])
        if piece.name not in whose:
            whose.append(piece.name)
    return tuple(f"The {edge} of {' and '.join(whose)} is bare: {_FINISH[edge]}" for edge, whose in names.items())


_FINISH: Final = {
    Place.NECK: 'no neck facing is drawn yet. Face it, by a [[part]] with name = "neck facing", or bind it.',
    Place.WAIST: 'no waistband is drawn yet. Sew one on, by a [[part]] with name = "waistband", face it or bind it.',
    Place.ARMHOLE: "there is no sleeve. Face it or bind it.",
    Place.BIB: "bind it, or line the bib.",
}


def point_name(piece: Piece, mark: MarkPoint) -> str:
    """What is written beside a marked point: the lower end of a V neck lies nowhere near the pit of the neck."""
    if mark.landmark is Landmark.NECK_PIT and piece.grain:
        up = piece.grain.direction
        for edge in edges_at(piece, Place.NECK):
            for at, run in ((edge.start, edge.curves[0]), (edge.end, edge.curves[-1])):
                along = end_tangents(run)[0 if at is edge.start else 1]
                if at.near(mark.at) and abs(along.dot(up)) > _SLANTING:
                    return V_POINT
    return mark.name


def _folds(piece: Piece) -> Iterator[Along]:
    for edge in piece.edges:
        if edge.role is Role.FOLD:
            words = "place on fold of cloth" if piece.cut.fold else "fold"
            short = "on fold" if piece.cut.fold else "fold"
            yield Along(f"{centre}: {words}" if (centre := _centre(edge)) else words, edge.curves, True, short)


def _edges(piece: Piece, pattern: Pattern | None, unit: str) -> Iterator[Along]:
    """What is done with an edge, and which way round the piece lies."""
    bare = _bare_edges(piece, pattern) if pattern is not None else {}
    faced = _faced(piece, pattern) if pattern is not None else {}
    rings = casings(pattern) if pattern is not None else ()
    cased = {(ref.piece, ref.edge) for casing in rings for ref in casing.edges}
    for edge in piece.edges:
        centre = _centre(edge)
        if (piece.name, edge.name) in cased:
            yield Along(f"casing: turn in {length_text(edge.allowance, unit)} here", edge.curves)
        elif edge.role is Role.HEM:
            turned = f" {length_text(edge.allowance, unit)}" if edge.allowance else ""
            yield Along(f"finished hem: turn up{turned} here", edge.curves)
        elif edge.name in faced and edge.place is Place.STAND:
            continue  # too short to write on, and said beside it
        elif edge.name in faced:
            yield Along(f"faced: sew the {faced[edge.name]} here", edge.curves)
        elif edge.role is Role.OPENING:
            sided = edge.place is Place.SIDE
            lapped = edge.place is Place.SHOULDER and edges_at(piece, Place.LAP_END)  # it is bound like the neck
            open_ = "to be bound, laps over" if lapped else f"left open{'' if sided else ', to be fastened'}"
            yield Along(f"{centre or edge.name}: {open_}", edge.curves)
            if sided:
                yield Along("on the left side only; sew the right side up", edge.curves)
        elif edge.name in bare:
            yield Along(f"{bare[edge.name]}: to be bound or faced", edge.curves)
        elif is_slit(piece, edge):
            what = "gusset" if edge.place is Place.GUSSET else "godet"
            yield Along(f"cut open only when the {what} is set in", edge.curves)
        elif edge.place is Place.FACING_EDGE:
            across = _across(piece, edge, pattern) if pattern is not None else ""
            yield Along(f"sew the {across} here" if across else "free edge: neaten it", edge.curves)
        elif centre and edge.role is Role.SEAM:
            yield Along(f"{centre}: seam", edge.curves)
        elif edge.half and edge.place is Place.UNDERARM and edge.role is Role.SEAM and not piece.identity.half:
            yield Along(f"{edge.half} of the {piece.name}", edge.curves, large=True)


def _collar_ends(piece: Piece) -> Iterator[Along]:
    """Which end of half a collar goes to the front and which behind; of one on the fold that is plain."""
    if piece.cut.mirror:
        yield from (Along(edge.name, edge.curves) for edge in edges_at(piece, Place.COLLAR_END))


def _bare_edges(piece: Piece, pattern: Pattern) -> dict[str, Place]:
    """Of what is bare, the longest stretch between darts of each line, with the line: it tells for the others."""
    longest: dict[Place, Edge] = {}
    for each, edge, line in unfinished_edges(pattern):
        if each.name == piece.name:
            longest[line] = max(edge, longest.get(line, edge), key=lambda one: one.length)
    return {edge.name: line for line, edge in longest.items()}


def _centre(edge: Edge) -> str:
    return str(edge.place) if edge.place in CENTRES else ""


def _across(piece: Piece, edge: Edge, pattern: Pattern) -> str:
    """The piece that an edge of a facing is sewn to, a lining; "" where nothing is."""
    for seam in pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            if any((ref.piece, ref.edge) == (piece.name, edge.name) for ref in run):
                return " and ".join(dict.fromkeys(ref.piece for ref in other))
    return ""


def _faced(piece: Piece, pattern: Pattern) -> dict[str, str]:
    """The facing that is sewn to each faced edge."""
    out: dict[str, str] = {}
    facings = {each.name for each in pieces_of(pattern, PieceKind.FACING)}
    for seam in pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            facing = next((ref.piece for ref in other if ref.piece in facings), "")
            if facing and piece.name not in facings:
                out |= {ref.edge: facing for ref in run if ref.piece == piece.name}
    return out


def _held(piece: Piece, pattern: Pattern, unit: str) -> Iterator[Along]:
    """Where this piece is gathered or held in a little to fit the one it is sewn to, or another is onto it.

    Of what is only eased the longer piece alone tells.
    """
    said = set[str]()
    for each in gather_words(pattern, unit):
        held = each.held
        if held.piece == piece.name and (held.longer or held.kind == "gathered") and each.words not in said:
            said.add(each.words)  # on a piece on the fold both halves say the same
            yield Along(each.words, beside_threads(held) if held.longer and held.kind == "gathered" else held.curves)


def _darts(piece: Piece) -> Iterator[Along]:
    for dart in piece.darts:
        words = f"{dart.name}: press {pressed(piece, dart)}"
        yield Along(words, piece.edge(dart.legs[0]).curves)


def _spots(piece: Piece) -> tuple[tuple[str, Point], ...]:
    """Where an opening ends; on a band, what each of its notches meets."""
    if piece.identity.kind in (PieceKind.BAND, PieceKind.BINDING):
        return tuple((notch.name, place(piece, notch.station)[0]) for notch in piece.notches)
    ends = notches_marking(piece, NotchMark.OPENING_END)
    return tuple((f"the opening ends here{_side_of(piece, notch)}", place(piece, notch.station)[0]) for notch in ends)


def _side_of(piece: Piece, notch: Notch) -> str:
    """Which side alone is left open, where left and right are cut alike and sewn unlike."""
    return ", left side only" if piece.edge(notch.station.edge).place is Place.SIDE else ""


def _unlike(piece: Piece) -> tuple[str, ...]:
    """Where the left piece and the right one, cut alike, are made unlike (common practice for women)."""
    if points_at(piece, Landmark.BUTTON):
        return ("buttonholes, the short lines,", "in the right piece,", "buttons on the left one")
    if edges_at(piece, Place.WRAP_EDGE):
        return ("the right piece laps over the left",)
    return ()


def _pocket_on_one_side(piece: Piece, pattern: Pattern) -> tuple[str, ...]:
    """On which half of the body alone a pocket goes, for the piece that bears its marks."""
    own = [each for each in pockets(pattern) if is_patch(each) and piece in marked_for_pockets(pattern, each)]
    sides = dict.fromkeys(each.identity.side for each in own if one_sided(each, pattern))
    return tuple(f"the pocket on the {side} half only" for side in sides)


def _fused(piece: Piece) -> tuple[str, ...]:
    along = piece.grain.end - piece.grain.start if piece.grain else None
    if piece.identity.kind in (PieceKind.BINDING, PieceKind.LOOP) and along and abs(along.x - along.y) < _ALIKE:
        return ("cut it on the bias",)
    return ("fuse or interline it",) if piece.identity.kind is PieceKind.FACING and not piece.cut.interfacing else ()
