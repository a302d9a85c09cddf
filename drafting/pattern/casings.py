"""Elastic in a casing: which edges it is turned from, how long the elastic is cut, and what has to pass through.

The elastic is as long as the body is round where it lies, less or more by a little; closed by it, the edge has to open
again to what passes through it on the way, so far as elastic stretches and the cloth is wide (plane arithmetic). How
much less or more is common practice: a waist 2 in less (1 to 4 in, a sewing teacher) or 0.93 of a child's, a wrist 0.5
cm more (0 to 1.5), an upper arm 1.5 cm more (1 to 2), a leg 0.5 cm more and never a centimetre less, a neck a tenth
less than where it lies.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Final

from drafting.dataclass import dataclass
from drafting.pattern.derived import Derived
from drafting.pattern.find import edges_at, line_at, point_at
from drafting.pattern.pattern import Pattern
from drafting.pattern.piece import Piece
from drafting.pattern.places import Landmark, Level, Place
from drafting.pattern.seam import EdgeRef
from drafting.pattern.stretch_used import USED_PUTTING_ON

__all__ = [
    "CASINGS",
    "ELASTIC_GIVES",
    "HAND",
    "ROOM",
    "TURNED_IN",
    "Body",
    "Casing",
    "body_at",
    "casing_depth",
    "casings",
    "least_wrist",
    "usual_elastic",
]

ELASTIC_GIVES: Final = 0.8
"""How far elastic is pulled to let a body through, as a share of its length (common practice, from memory: it could
be pulled to twice its length, and would not last)."""

WIDER: Final = 3.0
TURNED_IN: Final = 6.0
"""mm: how much wider than its elastic a casing is, and what is turned in at its inner edge (common practice)."""

CASINGS: Final[Mapping[str, Place]] = MappingProxyType(
    {
        "wrist elastic": Place.WRIST,
        "waist elastic": Place.WAIST,
        "leg elastic": Place.LEG_OPENING,
        "neck elastic": Place.NECK,
    }
)
"""The parts that put elastic into an edge, and where."""

ROOM: Final = 20.0
"""mm that the cloth of a casing has beyond what passes through it (common practice)."""

_WAIST_LESS: Final = 50.8  # 2 in
_CHILDS_WAIST: Final = 0.93
_WRIST_MORE, _ARM_MORE, _LEG_MORE = 5.0, 15.0, 5.0
_NECK_SHARE: Final = 0.9
_LOWER: Final = 60.0  # mm: how much further round a gathered neck lies than the foot of the neck (ours)
_HEAD: Final = 560.0  # mm round a head that was not measured (from memory)
_NEAR: Final = 40.0  # mm from the elbow or the wrist within which a sleeve ends there, in words (ours)
HAND: Final = 1.31
"""How many times the wrist the hand is round: 21 to 16 cm (common practice)."""


@dataclass(frozen=True, slots=True)
class Body:
    """The body where an elastic lies: how far round, what passes through on the way, mm; 0.0 where nothing is known.

    passes: what that is, in words
    where:  "wrist", "forearm", "elbow", "upper arm" where a sleeve ends
    """

    girth: float
    through: float
    passes: str
    where: str = ""


@dataclass(frozen=True, slots=True)
class Casing:
    """One casing, as often as its edges are in the garment.

    width:   of the elastic; heading: what stands beyond the casing as a frill; elastic: how long it is cut without its
             join, edge: the cloth round it, mm
    count:   how many there are
    gives:   the fraction by which the cloth itself gives to let something through
    """

    part: str
    place: Place
    edges: tuple[EdgeRef, ...]
    width: float
    heading: float
    elastic: float
    edge: float
    count: int
    body: Body
    gives: float = 0.0

    @property
    def name(self) -> str:
        """What it is called, by where it lies: "upper arm elastic"."""
        return f"{self.body.where or self.place} elastic"

    @property
    def opens(self) -> float:
        """How far round the cloth opens, mm."""
        return self.edge * (1.0 + self.gives)


def least_wrist(wrist: float) -> float:
    """How far round the end of a sleeve is at the least for an elastic, mm: the hand passes it, and 2 cm more."""
    return HAND * wrist + ROOM


def casing_depth(width: float, heading: float) -> float:
    """How much is turned in for a casing, mm, the turning of its raw edge counted in."""
    return heading + width + WIDER + TURNED_IN


def casings(pattern: Pattern) -> Iterator[Casing]:
    """Every casing of a pattern, as it was drawn."""
    for part in pattern.derived:
        if part.part in CASINGS and part.edges:
            yield _casing(pattern, part)


def _casing(pattern: Pattern, part: Derived) -> Casing:
    """What a part makes of its edges as a casing: how long the elastic is, what it lies round and what passes, mm."""
    place = CASINGS[part.part]
    refs = tuple(EdgeRef(each.piece, each.edge) for each in part.edges)
    pieces = {ref.piece: pattern.piece(ref.piece) for ref in refs}
    tubes = place in (Place.WRIST, Place.LEG_OPENING)  # one on either side of the body
    whole = sum(pieces[ref.piece].cut.drawn_times * pieces[ref.piece].edge(ref.edge).length for ref in refs)
    count = 2 if tubes else 1
    body = body_at(pattern, place, next(iter(pieces.values())))
    return Casing(
        part.part,
        place,
        refs,
        part.length("width"),
        part.length("heading"),
        part.length_or("length", usual_elastic(pattern, place, body)),
        whole / count,
        count,
        body,
        USED_PUTTING_ON * pattern.stretch,
    )


def usual_elastic(pattern: Pattern, place: Place, body: Body) -> float:
    """How long the elastic is that is cut where nothing is said, mm, its join left out."""
    girth = body.girth
    if place is Place.WAIST:
        usual = _CHILDS_WAIST * girth if pattern.wearer.child else girth - _WAIST_LESS
        return min(girth, max(usual, body.through / (1.0 + ELASTIC_GIVES)))
    if place is Place.NECK:
        return max(_NECK_SHARE * girth, body.through / (1.0 + ELASTIC_GIVES))
    if place is Place.LEG_OPENING:
        return girth + _LEG_MORE
    return girth + (_ARM_MORE if body.passes == _ARM else _WRIST_MORE)


_ARM: Final = "bent arm"


def body_at(pattern: Pattern, place: Place, piece: Piece) -> Body:
    """The body where an elastic lies at that place of a piece."""
    mm = {length.key: length.mm for length in pattern.wearer.lengths}
    if place is Place.WAIST:
        return Body(mm.get("waist_girth", 0.0), mm.get("hip_girth", 0.0), "hips")
    if place is Place.NECK:
        foot = mm.get("neck_base_girth", 0.0)
        return Body(foot + _LOWER if foot else 0.0, mm.get("head_girth", _HEAD), "head")
    if place is Place.LEG_OPENING:
        leg = _leg(mm, piece)
        return Body(leg, leg, "thigh")
    return _arm(mm, piece)


def _leg(mm: Mapping[str, float], piece: Piece) -> float:
    """How thick the leg is where a leg of the garment ends: the thigh at the crotch, evenly thinner to the ankle."""
    thigh, ankle, long = (mm.get(key, 0.0) for key in ("thigh_girth", "ankle_girth", "crotch_height"))
    down = sum(edge.length for edge in edges_at(piece, Place.INSEAM))
    return thigh + (ankle - thigh) * min(1.0, down / long) if ankle and long else thigh


def _arm(mm: Mapping[str, float], sleeve: Piece) -> Body:
    """The arm where a sleeve ends: as thick as the tape had it at wrist, elbow and upper arm, evenly in between."""
    wrist, elbow, upper = (mm.get(f"{key}_girth", 0.0) for key in ("wrist", "elbow", "upper_arm"))
    long, down_to_elbow = mm.get("arm_length", 0.0), mm.get("shoulder_to_elbow", 0.0)
    crown, ends = point_at(sleeve, Landmark.CROWN), edges_at(sleeve, Place.WRIST)
    if crown is None or not ends or not (wrist and elbow and upper and long > down_to_elbow > 0.0):
        return Body(wrist, HAND * wrist, "hand", "wrist")
    down = crown.at.y - min(min(edge.start.y, edge.end.y) for edge in ends)
    biceps = line_at(sleeve, Level.BICEPS)
    widest = crown.at.y - biceps.start.y if biceps else 0.5 * down_to_elbow
    if down >= down_to_elbow:
        share = min(1.0, (down - down_to_elbow) / (long - down_to_elbow))
        girth = elbow + (wrist - elbow) * share
        where = "elbow" if down < down_to_elbow + _NEAR else "wrist" if down > long - _NEAR else "forearm"
        return Body(girth, max(girth, HAND * wrist), "hand", where)
    share = max(0.0, min(1.0, (down - widest) / max(1.0, down_to_elbow - widest)))
    girth = upper + (elbow - upper) * share
    where = "elbow" if down > down_to_elbow - _NEAR else "upper arm"
    return Body(girth, max(girth, HAND * wrist), _ARM, where)
