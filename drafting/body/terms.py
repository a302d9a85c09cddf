"""The measurements a block can ask for: what each is called, how it is taken and what a body can have.

The terms follow ISO 8559-1 (Size designation of clothes: anthropometric definitions). The standard itself was
not at hand: the `term` column is from memory and marked "own" where we know of none. The definitions are those of
the surveys the estimates rest on (`tables/SOURCES.md`), said in our own words.

The ranges refuse slips of the tape and of the unit, not bodies: they reach well beyond both surveys.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Literal, get_args

from drafting.dataclass import dataclass
from drafting.errors import UnknownName
from drafting.reading.key_words import file_word

__all__ = [
    "BASICS",
    "BODY_KINDS",
    "KEYS",
    "MEASUREMENTS",
    "BodyKind",
    "Kind",
    "Measurement",
    "limits",
    "measurement",
    "measurement_for",
    "measurements_for",
]

BodyKind = Literal["woman", "girl", "boy"]
Kind = Literal["girth", "length", "breadth", "height"]

BODY_KINDS: tuple[BodyKind, ...] = get_args(BodyKind)
BASICS = ("stature", "bust_girth", "waist_girth", "hip_girth")
"""The four that cannot be estimated: every other length is guessed from them."""


@dataclass(frozen=True, slots=True)
class Measurement:
    """One body measurement.

    key:   its name in the code and in pattern.json; a person's file may call it so too
    name:  what it is called wherever a person reads it
    term:  the ISO 8559-1 term, from memory; "own" where we know of none
    kind:  girth (round the body), length (tape along the body), breadth (straight across) or height (from the floor)
    how:   where the tape goes, from where to where
    again: what to look to when it is taken a second time
    woman: plausible low and high, mm
    child: plausible low and high for a girl or a boy from birth, mm
    also:  other words for it in common use, which a person's file may call it by
    """

    key: str
    name: str
    term: str
    kind: Kind
    how: str
    again: str
    woman: tuple[float, float]
    child: tuple[float, float]
    also: tuple[str, ...] = ()

    @property
    def word(self) -> str:
        """Its name as it is written in a person's file: "back_waist_length", "across_back"."""
        return file_word(self.name.replace(" the ", " "))

    def limits(self, body: BodyKind) -> tuple[float, float]:
        """The plausible low and high for this kind of body, mm."""
        return self.woman if body == "woman" else self.child


def measurement(key: str) -> Measurement:
    """The measurement of that key. Raises UnknownName."""
    try:
        return _BY_KEY[key]
    except KeyError:
        raise UnknownName("measurement", key, KEYS) from None


def measurement_for(key: str, body: BodyKind) -> Measurement:
    """The measurement of that key as it is called and taken on such a body: a child has a chest. Raises UnknownName."""
    return _CHEST if key == "bust_girth" and body != "woman" else measurement(key)


def measurements_for(body: BodyKind) -> tuple[Measurement, ...]:
    """What can be measured on such a body, as it is called there: nobody looks for the bust points of a child."""
    if body == "woman":
        return MEASUREMENTS
    return tuple(measurement_for(each.key, body) for each in MEASUREMENTS if each.key not in _OF_A_BUST)


def limits(body: BodyKind) -> Mapping[str, tuple[float, float]]:
    """The plausible low and high (mm) of every measurement for this kind of body, by key."""
    return _LIMITS[body]


def _cm(low: float, high: float) -> tuple[float, float]:
    return low * 10.0, high * 10.0


_OF_A_BUST = ("upper_chest_girth", "under_bust_girth", "bust_point_breadth", "neck_to_bust_point", "bust_height")

_LEVEL = "Keep the tape level all the way round, close but not tight, and breathe out."
_UPRIGHT = "Stand barefoot against a wall, looking straight ahead, and use a book held level."
_RELAXED = "Let the arm hang and do not tense it; the tape lies close without denting."
_LANDMARKS = "Mark both ends on the skin or on a close vest first, and have somebody else hold the tape."

MEASUREMENTS: tuple[Measurement, ...] = (
    Measurement(
        "stature", "height", "stature", "height",
        "From the floor to the top of the head.", _UPRIGHT, _cm(120, 215), _cm(45, 205),
        ("stature", "body height", "tall"),
    ),
    Measurement(
        "bust_girth", "bust", "bust girth", "girth",
        "Level round the body over the fullest part of the bust.", _LEVEL, _cm(60, 190), _cm(28, 150),
        ("bust line", "fullest bust"),
    ),
    Measurement(
        "waist_girth", "waist", "waist girth", "girth",
        "Round the natural waist, where the body bends to the side.",
        "Tie a string round the waist, bend to the side and let it settle; measure where it lies.",
        _cm(45, 190), _cm(26, 150),
        ("natural waist", "waist line"),
    ),
    Measurement(
        "hip_girth", "hip", "hip girth", "girth",
        "Level round the fullest part of the seat.", "Feet together; look from the side where the seat is fullest.",
        _cm(60, 200), _cm(26, 160),
        ("hips", "seat", "full hip", "low hip", "bottom"),
    ),
    Measurement(
        "upper_chest_girth", "high bust", "upper chest girth", "girth",
        "Round the body high under the arms, above the bust.", _LEVEL, _cm(60, 180), _cm(28, 150),
        ("upper chest", "upper bust", "chest above bust"),
    ),
    Measurement(
        "under_bust_girth", "under bust", "under-bust girth", "girth",
        "Level round the body just below the bust.", _LEVEL, _cm(50, 170), _cm(26, 140),
        ("underbust", "ribcage", "rib cage", "band"),
    ),
    Measurement(
        "head_girth", "head", "head girth", "girth",
        "Round the head at its largest, over the brow and the back of the skull.",
        "Keep the hair flat; the tape lies just above the ears.", _cm(47, 66), _cm(30, 64),
        ("head circumference", "round head", "hat size"),
    ),
    Measurement(
        "neck_base_girth", "neck", "neck base girth", "girth",
        "Round the foot of the neck, through the nape, the side-neck points and the hollow of the neck.",
        "Stand the tape on its edge where a fine chain would lie.", _cm(26, 60), _cm(16, 52),
        ("neck base", "base of neck", "foot of neck"),
    ),
    Measurement(
        "shoulder_length", "shoulder length", "shoulder length", "length",
        "From the side-neck point along the shoulder to the shoulder bone.", _LANDMARKS, _cm(7, 22), _cm(2.5, 20),
        ("shoulder", "shoulder seam", "neck to shoulder"),
    ),
    Measurement(
        "interscye_mid_distance", "across the back", "across back width", "length",
        "Across the back from arm to arm, half way between the shoulder bone and the crease of the armpit.",
        "Let the arms hang; the tape ends where the arms begin.", _cm(20, 60), _cm(10, 52),
        ("cross back", "back width", "across back width", "upper back"),
    ),
    Measurement(
        "interscye_distance", "across the back at the armpits", "own", "length",
        "Across the back between the creases of the armpits.",
        "Let the arms hang; the tape ends at the creases.", _cm(20, 60), _cm(10, 52),
        ("arm to arm across the back",),
    ),
    Measurement(
        "biacromial_breadth", "shoulder to shoulder", "shoulder breadth", "breadth",
        "Straight across, from one shoulder bone to the other.",
        "Measure the straight way between two books, not along the back.", _cm(24, 50), _cm(10, 48),
        ("shoulder breadth", "cross shoulder", "across shoulder", "across shoulders"),
    ),
    Measurement(
        "bust_point_breadth", "between bust points", "bust point width", "breadth",
        "Straight across, from one bust point to the other.",
        "Keep the tape straight between the points; it does not dip into the middle.", _cm(8, 38), _cm(4, 32),
        ("bust points apart", "bust point to bust point", "bust point width", "bust span",
         "apex to apex", "bust separation", "nipple to nipple"),
    ),
    Measurement(
        "neck_to_bust_point", "side neck to bust point", "side neck point to bust point", "length",
        "From the side-neck point down to the bust point of the same side.",
        "Find the side-neck point where the shoulder seam would meet the neck.", _cm(14, 50), _cm(5, 40),
        ("neck to bust", "shoulder to bust point", "shoulder to bust", "shoulder to apex",
         "neck to apex", "bust depth", "side neck to bust"),
    ),
    Measurement(
        "back_waist_length", "back waist length", "back waist length", "length",
        "From the nape down the middle of the back to the natural waist.",
        "Bend the head to find the nape, stand straight again, and measure to the string round the waist.",
        _cm(24, 58), _cm(10, 54),
        ("back waist", "nape to waist", "back length", "back neck to waist", "centre back length",
         "centre back neck to waist", "back bodice length", "back length to waist"),
    ),
    Measurement(
        "front_waist_length_from_neck_pit", "front waist length", "front waist length", "length",
        "From the hollow of the neck down the middle of the front to the natural waist.",
        "Begin between the collar bones and end at the string round the waist.",
        _cm(18, 58), _cm(8, 52),
        ("front waist", "front waist length from neck pit", "centre front length", "front neck to waist",
         "centre front neck to waist", "neck pit to waist", "front bodice length"),
    ),
    Measurement(
        "scye_depth", "armhole depth", "scye depth", "length",
        "From the nape down the middle of the back to the level of the armpits.",
        "Hold a card level under both arms and measure to its upper edge.", _cm(10, 34), _cm(5, 30),
        ("armscye depth", "depth of armhole", "nape to armpit", "armpit depth"),
    ),
    Measurement(
        "scye_girth", "round the armhole", "armscye girth", "girth",
        "Round the arm's joint, over the shoulder bone and through the armpit, with the arm hanging.",
        "The tape follows the joint closely: this is the body, not an armhole.", _cm(22, 75), _cm(10, 60),
        ("armscye", "scye", "armhole", "arm joint"),
    ),
    Measurement(
        "shoulder_drop", "shoulder drop", "own", "height",
        "How much lower the shoulder bone lies than the side-neck point: the difference of their heights.",
        "Take both heights from the floor in one go and subtract.", _cm(1, 14), _cm(0.5, 12),
        ("shoulder slope",),
    ),
    Measurement(
        "upper_arm_girth", "upper arm", "upper arm girth", "girth",
        "Round the thickest part of the upper arm, at the armpit.", _RELAXED, _cm(15, 65), _cm(8, 52),
        ("bicep", "biceps", "top arm"),
    ),
    Measurement(
        "elbow_girth", "elbow", "elbow girth", "girth",
        "Round the elbow of the straight arm.", _RELAXED, _cm(14, 50), _cm(7, 42),
    ),
    Measurement(
        "wrist_girth", "wrist", "wrist girth", "girth",
        "Round the wrist over its bone.", _RELAXED, _cm(9, 30), _cm(6, 28),
    ),
    Measurement(
        "arm_length", "arm length", "arm length", "length",
        "From the shoulder bone along the outside of the hanging, straight arm to the wrist bone.",
        _LANDMARKS, _cm(35, 80), _cm(10, 75),
        ("sleeve length", "shoulder to wrist", "outside arm", "outer arm", "sleeve"),
    ),
    Measurement(
        "shoulder_to_elbow", "shoulder to elbow", "upper arm length", "length",
        "From the shoulder bone to the tip of the bent elbow.", _LANDMARKS, _cm(20, 52), _cm(6, 50),
        ("upper arm length",),
    ),
    Measurement(
        "waist_to_hip", "waist to hip", "waist to hips", "height",
        "Straight down from the natural waist to the level of the hip girth: the difference of their heights.",
        "Measure down at the side, from the string round the waist to the tape round the hip.",
        _cm(8, 38), _cm(3, 34),
        ("waist to hips", "hip depth", "hip length"),
    ),
    Measurement(
        "cervicale_height", "nape to floor", "cervical height", "height",
        "From the floor to the nape.", _UPRIGHT, _cm(95, 195), _cm(30, 185),
        ("height of nape", "nape height", "cervical height"),
    ),
    Measurement(
        "neck_side_height", "side neck to floor", "own", "height",
        "From the floor to the side-neck point.", _UPRIGHT, _cm(95, 195), _cm(30, 185),
        ("height of side neck",),
    ),
    Measurement(
        "neck_pit_height", "front neck to floor", "own", "height",
        "From the floor to the hollow of the neck.", _UPRIGHT, _cm(90, 190), _cm(28, 180),
        ("height of neck pit", "neck pit to floor"),
    ),
    Measurement(
        "shoulder_height", "shoulder to floor", "shoulder height", "height",
        "From the floor to the shoulder bone.", _UPRIGHT, _cm(88, 188), _cm(28, 180),
        ("height of shoulder",),
    ),
    Measurement(
        "axilla_height", "armpit to floor", "own", "height",
        "From the floor to the fold of the armpit in front.", _UPRIGHT, _cm(80, 175), _cm(24, 170),
        ("height of armpit", "armpit height", "underarm to floor"),
    ),
    Measurement(
        "bust_height", "bust point to floor", "bust height", "height",
        "From the floor to the bust point.", _UPRIGHT, _cm(75, 170), _cm(22, 160),
        ("height of bust", "bust to floor"),
    ),
    Measurement(
        "waist_height", "waist to floor", "waist height", "height",
        "From the floor to the natural waist.", _UPRIGHT, _cm(65, 145), _cm(16, 140),
        ("height of waist",),
    ),
    Measurement(
        "hip_height", "hip to floor", "hip height", "height",
        "From the floor to the level of the hip girth.", _UPRIGHT, _cm(50, 125), _cm(10, 120),
        ("height of hip",),
    ),
    Measurement(
        "crotch_height", "inside leg", "inside leg length", "height",
        "From the floor straight up to the crotch.", _UPRIGHT, _cm(45, 115), _cm(8, 112),
        ("inseam", "inside leg length", "crotch to floor"),
    ),
    Measurement(
        "knee_height", "knee to floor", "knee height", "height",
        "From the floor to the middle of the kneecap.", _UPRIGHT, _cm(25, 75), _cm(5, 72),
        ("height of knee",),
    ),
    Measurement(
        "crotch_length", "crotch length", "total crotch length", "length",
        "From the natural waist in front, through the crotch, to the natural waist behind.",
        "Measure to the string round the waist, front and back, with the tape close but not tight.",
        _cm(45, 130), _cm(22, 115),
        ("through crotch", "rise", "full rise"),
    ),
    Measurement(
        "thigh_girth", "thigh", "thigh girth", "girth",
        "Round the thickest part of the thigh, just below the seat.", _LEVEL, _cm(35, 110), _cm(12, 95),
    ),
    Measurement(
        "knee_girth", "knee", "knee girth", "girth",
        "Round the middle of the kneecap, with the leg straight.", _LEVEL, _cm(24, 75), _cm(10, 62),
    ),
    Measurement(
        "calf_girth", "calf", "calf girth", "girth",
        "Round the thickest part of the calf.", _LEVEL, _cm(22, 70), _cm(9, 58),
    ),
    Measurement(
        "ankle_girth", "ankle", "ankle girth", "girth",
        "Round the leg just above the ankle bones, at its thinnest.", _LEVEL, _cm(14, 45), _cm(6, 38),
    ),
)  # fmt: skip
"""Every measurement there is, in the order a report lists them."""

KEYS = tuple(each.key for each in MEASUREMENTS)
_BY_KEY = MappingProxyType({each.key: each for each in MEASUREMENTS})
_CHEST = replace(
    _BY_KEY["bust_girth"],
    name="chest",
    how="Level round the body under the arms, over the fullest part of the chest.",
)
_LIMITS: Mapping[BodyKind, Mapping[str, tuple[float, float]]] = MappingProxyType(
    {kind: MappingProxyType({each.key: each.limits(kind) for each in MEASUREMENTS}) for kind in BODY_KINDS}
)
