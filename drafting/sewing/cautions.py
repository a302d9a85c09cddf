"""What to beware of in clothes for a child: cords and ties, small parts, nightwear, elastic round a neck.

Reminders, not the law: the current text of the rules where the child lives decides. Figures stand only where a source
was read: for cords in Europe summaries of EN 14682 in its text of 2007 (that of 2014 is in force), for the US
16 CFR 1120 with ASTM F1816 and 16 CFR 1501 and 1615, for the UK the Nightwear (Safety) Regulations 1985. What is known
by its name only is named.
"""

from __future__ import annotations

from typing import Final

from drafting.dataclass import dataclass
from drafting.pattern import ChildWearer, Pattern

__all__ = ["Caution", "cautions", "is_under_three", "possible_cautions"]

CORDS, SMALL_PARTS, NIGHTWEAR, ELASTIC = "cords", "small parts", "nightwear", "elastic"

_GROWN: Final = 1450.0
"""mm of height from which on a wearer is taken for grown where nothing says that it is a child: nearly all women of the
survey that the estimates come from are taller (ours)."""

_SMALL_TO: Final = 36
"""months: the age below which small parts are ruled out (16 CFR 1501; in Europe alike, from memory)."""

_YOUNG_TO: Final = 84
_YOUNG_TALL: Final = 1340.0
"""months and mm: to which a child is a young one for the rules on cords (EN 14682)."""

_CORDS_TO: Final = 14 * 12
"""months: to which children's clothes reach (EN 14682: 13 years and 11 months)."""

_ASK: Final = (
    "The current text of the rules in force where you live decides; ask the office for the safety of goods there."
)


@dataclass(frozen=True, slots=True)
class Caution:
    """One thing to beware of.

    kind:      "cords", "small parts", "nightwear" or "elastic"
    short:     the sentence that stands on the paper
    sentences: all that is to be told of it, the last of which sends to the rules in force
    """

    kind: str
    short: str
    sentences: tuple[str, ...]


def cautions(pattern: Pattern) -> tuple[Caution, ...]:
    """What to beware of for the child who wears it, by age and by where it lives; unknown, all that there is is told.

    Nothing for a wearer who is grown, or a child past the age of these rules.
    """
    return _for(pattern.wearer.child, _height(pattern))


def possible_cautions(pattern: Pattern) -> tuple[Caution, ...]:
    """The same, and all of it where a child may wear it: where nobody said whom it is for, or somebody small."""
    if pattern.wearer.child is None and _height(pattern) < _GROWN:
        return _for(ChildWearer("", None, ""), 0.0)
    return cautions(pattern)


def is_under_three(pattern: Pattern) -> bool:
    """Whether it is for a child who could swallow what comes off: nobody having said how old, it may be one."""
    child = pattern.wearer.child
    return child is not None and (child.months is None or child.months < _SMALL_TO)


def _for(child: ChildWearer | None, height: float) -> tuple[Caution, ...]:
    if child is None or (child.months is not None and child.months >= _CORDS_TO):
        return ()
    return tuple(
        Caution(kind, short, (short, *more, _ASK))
        for kind, short, more in (
            (CORDS, *_cords(child, height)),
            (ELASTIC, "No elastic and no drawn thread round a child's neck.", ()),
            (SMALL_PARTS, *_small_parts(child)),
            (NIGHTWEAR, *_nightwear(child)),
        )
        if short
    )


def _height(pattern: Pattern) -> float:
    return next((each.mm for each in pattern.wearer.lengths if each.key == "stature"), 0.0)


def _lives(child: ChildWearer, place: str) -> bool:
    """Whether the rules of a place may be those for a child; where nobody said, those of every place."""
    return child.lives in ("", place)


def _cords(child: ChildWearer, height: float) -> tuple[str, tuple[str, ...]]:
    """What is to be known of cords on a child's garment: in a sentence, then by the rules of where she lives."""
    short = "No cords, drawstrings or ties at a child's neck or hood: they catch and can strangle."
    young = child.months is None or child.months < _YOUNG_TO or 0.0 < height <= _YOUNG_TALL
    more = []
    if _lives(child, "EU") or _lives(child, "UK"):
        more.append(
            "Europe, EN 14682 (as its text of 2007 is summed up; that of 2014 is in force): "
            + (
                "under seven, or up to 134 cm (52 3/4 in), no cord at hood, neck or upper chest, and no ties behind "
                "the neck"
                if young
                else "at hood and neck no cord with free ends, and no loop of more than 150 mm (5 7/8 in) round"
            )
            + "; at waist and hem each end at most 140 mm (5 1/2 in) beyond its channel when that lies flat and open; "
            "nothing that ties at the back; a sash counts too."
        )
    if _lives(child, "US"):
        more.append(
            "United States, 16 CFR 1120 with ASTM F1816, for outer garments: no drawstring at hood or neck in sizes "
            "2T to 12; at waist and bottom, 2T to 16, at most 3 in (75 mm) beyond the channel, without knots or "
            "toggles, and sewn fast at the middle of the back."
        )
    return short, tuple(more)


def _small_parts(child: ChildWearer) -> tuple[str, tuple[str, ...]]:
    """What is to be known of buttons and snaps: in a sentence, then by the rules of where she lives."""
    if child.months is not None and child.months >= _SMALL_TO:
        return "Sew every button and snap on so that a child cannot pull it off.", ()
    short = (
        "Under three no buttons, snaps or beads that come off: a child could swallow them. Ring snaps set with a tool "
        "through four layers hold best; sew nothing on that you can pull off."
    )
    more = []
    if _lives(child, "US"):
        more.append(
            "United States, 16 CFR 1501: a small part is what goes wholly, not pressed together, into a tube 1 1/4 in "
            "(31.7 mm) across and 1 to 2 1/4 in (25.4 to 57.1 mm) deep; cloth, yarn and elastic are none."
        )
    if _lives(child, "EU") or _lives(child, "UK"):
        more.append("Europe: EN 71-1 has the test that toys are held to.")
    return short, tuple(more)


def _nightwear(child: ChildWearer) -> tuple[str, tuple[str, ...]]:
    """What is to be known of cloth that burns: in a sentence, then by the rules of where she lives."""
    short = "For a child to sleep in there are rules on how easily the cloth may burn and how close it fits."
    more = []
    if _lives(child, "UK"):
        more.append(
            "United Kingdom, Nightwear (Safety) Regulations 1985: children's nightdresses and dressing gowns meet "
            "BS 5722."
        )
    if _lives(child, "EU"):
        more.append("Europe: EN 14878, to 14 years.")
    if _lives(child, "US"):
        more.append(
            "United States, 16 CFR 1615 and 1616: the cloth goes out by itself in the test, or the garment fits as "
            "closely as its figures say; exempt are, to 9 months, one piece up to 25.75 in (64.8 cm) long or two up to "
            "15.75 in (40 cm)."
        )
    return short, tuple(more)
