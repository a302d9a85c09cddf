"""What looks wrong on a body: lengths far from their estimate, and lengths that no body can have together."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable

from drafting.body.complete import Body, Measured, uncertain_first
from drafting.body.consistency import Odd, any_inconsistent, judges, odd_ones
from drafting.body.estimate import SURVEYED, beyond_survey, estimate, younger_share
from drafting.body.person import Person
from drafting.body.terms import BASICS, KEYS, BodyKind, measurement, measurement_for
from drafting.body.worked_out import YOUNGER_TO
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft
from drafting.reading.units import length_text

__all__ = ["Contradiction", "Doubt", "contradictions", "doubts", "drawn_out", "require_possible"]

_DOUBTFUL = 3.0
"""Residual standard deviations; of a normal distribution one in 370 lies further out."""

_BABIES_FROM = 56.0
"""cm of height of the smallest baby in the chart (`tables/babies_chart.csv`)."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """A measured length far from what a body with the other lengths has.

    off: how many standard deviations it lies from that, with the sign of measured - expected
    swapped_with: the measurement it probably stands in place of, "" for none
    """

    key: str
    mm: float
    expected_mm: float
    sd_mm: float
    off: float
    sentence: str
    swapped_with: str = ""


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Lengths that no body has together.

    keys:  the measurements at odds
    by_mm: how far they are from what could just be
    """

    keys: tuple[str, ...]
    by_mm: float
    sentence: str


def doubts(body: Body, *, among: Iterable[str] = KEYS) -> tuple[Doubt, ...]:
    """The measured lengths that look like slips, the furthest off first.

    They are judged by all other measured lengths (`together.py`) where it is known how those of such bodies go
    together, else by their line, from which 3 residual standard deviations are too far.
    `among` are the measurements to look at: all, or those a garment is drawn from.
    """
    wanted = frozenset(among)
    if judges(body.person.body):
        odd = (each for each in _odd(body) if wanted & {each.key, each.swapped_with})
        return tuple(
            Doubt(each.key, each.mm, each.expected_mm, each.sd_mm, each.off, _oddity(each, body), each.swapped_with)
            for each in odd
        )
    basics = {basic: body.mm(basic) for basic in BASICS}
    found = []
    for value in body.known():
        key = value.key
        likely = estimate(key, basics, body.person.body)
        if value.source != "measured" or key not in wanted or key in BASICS or likely is None:
            continue
        expected, sd = likely.mm, likely.sd_mm
        off = (value.mm - expected) / sd
        if abs(off) > _DOUBTFUL:
            sentence = _doubt(key, value.mm, expected, sd, body.person)
            found.append(Doubt(key, value.mm, expected, sd, off, sentence))
    return tuple(sorted(found, key=lambda doubt: (-abs(doubt.off), doubt.key)))


def contradictions(body: Body, *, among: Iterable[str] = KEYS) -> tuple[Contradiction, ...]:
    """The lengths of this body that cannot go together, the worst first. Estimated lengths count, and are named so.

    `among` are the measurements to look at: all, or those a garment is drawn from; the four basics always count.
    """
    wanted = frozenset((*among, *BASICS))
    found = []
    for rule in _RULES:
        if all(key in wanted and key in body for key in rule.keys) and _may_judge(rule, body):
            room = rule.room(*(body.mm(key) for key in rule.keys))
            least = _least(rule, body)
            if room < least:
                odd = {key for each in _odd(body) for key in (each.key, each.swapped_with)}
                by = least - room
                found.append(Contradiction(rule.keys, by, _at_odds(rule, by, body, odd)))
    found += [
        _out_of_reach(value, body) for value in uncertain_first(body, wanted) if _beyond(value, body.person.body) > 0
    ]
    return tuple(sorted(found, key=lambda each: (-each.by_mm, each.keys)))


def drawn_out(body: Body, *, among: Iterable[str] = KEYS) -> tuple[str, ...]:
    """A sentence where lengths among these were estimated for a body unlike those the estimates come from."""
    if not uncertain_first(body, among):
        return ()
    unit, kind = body.person.unit, body.person.body
    basics = {key: body.mm(key) for key in BASICS}
    beyond = [
        f"{measurement_for(key, kind).name} {length_text(basics[key], unit)} "
        f"({length_text(SURVEYED[kind][key][0], unit)} to {length_text(SURVEYED[kind][key][1], unit)})"
        for key in beyond_survey(kind, basics)
    ]
    if younger_share(kind, basics["stature"]) == 1.0:
        low, high = (length_text(10.0 * end, unit) for end in (_BABIES_FROM, YOUNGER_TO))
        where = (
            f"What is estimated for a baby is read off a chart by height, for those of {low} to {high}, at second hand"
        )
        return (f"{where}: it is less sure, measure what you can.",)
    if beyond:
        where = f"Beyond the bodies that were measured: {', '.join(beyond)}."
    elif any_inconsistent(basics, kind):
        chest = measurement_for("bust_girth", kind).name
        where = f"Nobody who was measured had such a height, {chest}, waist and hip together."
    else:
        return ()
    return (f"{where} What is estimated from them is drawn out along its line and less sure: measure what you can.",)


def require_possible(body: Body, *, among: Iterable[str] = KEYS) -> None:
    """Make sure that there is no contradiction among these measurements.

    Raises CannotDraft that names every measurement at odds and says by how much they disagree.
    """
    found = contradictions(body, among=among)
    if found:
        at_odds = dict.fromkeys(key for each in found for key in each.keys)
        swapped = [each for each in doubts(body) if each.swapped_with and {each.key, each.swapped_with} & set(at_odds)]
        sentences = [*(each.sentence for each in found), *(each.sentence for each in swapped)]
        raise CannotDraft(at_odds, "\n".join(sentences))


@dataclass(frozen=True, slots=True)
class _Rule:
    """`room` of the lengths named is at least `least` millimetres on every body.

    `least` stands back from the smallest value among the 1,104 women of the open 1988 survey: a tape slips by a
    centimetre, and bodies differ more than a survey shows. What remains is anatomy, not custom. An `exact` rule is
    arithmetic: estimates, each the best guess for itself, need not add up, so it asks measured lengths only.
    """

    keys: tuple[str, ...]
    room: Callable[..., float]
    least: float
    why: str
    exact: bool = False


def _less(part: float, whole: float) -> float:
    return whole - part


_RULES: tuple[_Rule, ...] = (
    # lengths along one limb or one side of the trunk
    _Rule(("shoulder_to_elbow", "arm_length"), _less, 50, "the forearm lies between the elbow and the wrist"),
    _Rule(("scye_depth", "back_waist_length"), _less, 50, "the armpits lie above the waist"),
    _Rule(("shoulder_drop", "shoulder_length"), _less, 20, "the drop is the upright side of the shoulder's slope"),
    _Rule(
        ("bust_point_breadth", "neck_to_bust_point"),
        lambda apart, down: down - apart / 2,
        30,
        "the bust point lies further down than out from the neck",
    ),
    # girths round one limb, and across against round
    _Rule(("wrist_girth", "elbow_girth"), _less, 10, "the arm is thinner at the wrist than at the elbow"),
    _Rule(("elbow_girth", "upper_arm_girth"), _less, -30, "the upper arm is hardly thinner than the elbow"),
    _Rule(("upper_arm_girth", "scye_girth"), _less, 0, "the arm is thinner than its joint"),
    _Rule(("ankle_girth", "calf_girth"), _less, 0, "the leg is thinner at the ankle than at the calf"),
    _Rule(("knee_girth", "thigh_girth"), _less, 0, "the leg is thinner at the knee than at the thigh"),
    _Rule(("thigh_girth", "hip_girth"), _less, 100, "the seat goes round both thighs"),
    _Rule(("under_bust_girth", "bust_girth"), _less, -30, "the bust is hardly less than the body below it"),
    _Rule(
        ("interscye_mid_distance", "bust_girth"),
        lambda across, round_: round_ / 2 - across,
        -40,
        "the back is hardly wider than half the way round",
    ),
    _Rule(
        ("interscye_distance", "bust_point_breadth", "bust_girth"),
        lambda back, front, round_: round_ - back - front,
        100,
        "both arms find room between the back and the bust points",
    ),
    _Rule(
        ("shoulder_length", "shoulder_drop", "biacromial_breadth"),
        lambda long, drop, across: across / 2 - max(long**2 - drop**2, 0.0) ** 0.5,
        0,
        "the neck stands between the two shoulders",
    ),
    # levels, from the top down
    _Rule(("cervicale_height", "stature"), _less, 80, "the head stands above the nape"),
    _Rule(("neck_pit_height", "cervicale_height"), _less, 0, "the hollow of the neck lies lower than the nape"),
    _Rule(("shoulder_height", "neck_side_height"), _less, 0, "the shoulder bone lies lower than the side neck"),
    _Rule(("axilla_height", "shoulder_height"), _less, 30, "the armpit lies below the shoulder"),
    _Rule(("bust_height", "axilla_height"), _less, -40, "the bust point lies hardly higher than the armpit"),
    _Rule(("waist_height", "bust_height"), _less, 0, "the waist lies below the bust"),
    _Rule(("hip_height", "waist_height"), _less, 50, "the hip lies below the waist"),
    _Rule(("crotch_height", "hip_height"), _less, -10, "the crotch lies below the hip"),
    _Rule(("knee_height", "crotch_height"), _less, 80, "the knee lies below the crotch"),
    # a tape along the body against the drop of its two ends
    _Rule(
        ("back_waist_length", "cervicale_height", "waist_height"),
        lambda tape, top, bottom: tape - (top - bottom),
        -40,
        "a tape along the back is no shorter than the drop from the nape to the waist",
    ),
    _Rule(
        ("front_waist_length_from_neck_pit", "neck_pit_height", "waist_height"),
        lambda tape, top, bottom: tape - (top - bottom),
        -20,
        "a tape down the front is no shorter than the drop from the neck to the waist",
    ),
    _Rule(
        ("neck_to_bust_point", "neck_side_height", "bust_height"),
        lambda tape, top, bottom: tape - (top - bottom),
        -20,
        "a tape from the neck to the bust point is no shorter than the drop between them",
    ),
    _Rule(
        ("crotch_length", "waist_height", "crotch_height"),
        lambda tape, top, bottom: tape - 2 * (top - bottom),
        0,
        "a tape through the crotch goes down and up again",
    ),
    # a difference against the two heights it is the difference of
    _Rule(
        ("waist_to_hip", "waist_height", "hip_height"),
        lambda drop, top, bottom: -abs(drop - (top - bottom)),
        -30,
        "waist to hip is the difference of the two heights",
        exact=True,
    ),
    _Rule(
        ("shoulder_drop", "neck_side_height", "shoulder_height"),
        lambda drop, top, bottom: -abs(drop - (top - bottom)),
        -30,
        "the shoulder drop is the difference of the two heights",
        exact=True,
    ),
)


def _may_judge(rule: _Rule, body: Body) -> bool:
    """Whether a tape may have slipped: what was only estimated may be at odds, and that is no slip of hers."""
    taken = [body[key].source == "measured" for key in rule.keys]
    return all(taken) if rule.exact else any(taken)


def _least(rule: _Rule, body: Body) -> float:
    """The least room, mm: on a child shorter than any of those women, less in proportion."""
    return rule.least * min(1.0, body.mm("stature") / SURVEYED["woman"]["stature"][0]) if rule.least > 0 else rule.least


def _beyond(value: Measured, body: BodyKind) -> float:
    """How far (mm) a length lies outside what a body can have; zero or less inside."""
    low, high = measurement(value.key).limits(body)
    return max(low - value.mm, value.mm - high)


def _out_of_reach(value: Measured, body: Body) -> Contradiction:
    """An estimate no body could have: the basics lie too far from anybody surveyed, or one of them is a slip."""
    unit, kind = body.person.unit, body.person.body
    name = measurement_for(value.key, kind).name
    basics = ", ".join(f"{measurement_for(key, kind).name} {length_text(body.mm(key), unit)}" for key in BASICS)
    by = _beyond(value, body.person.body)
    return Contradiction(
        (*BASICS, value.key),
        by,
        f"From {basics} the {name} would be estimated at {length_text(value.mm, unit)}, which is "
        f"{length_text(by, unit)} beyond what a body can have. Look at these four again, and measure the {name}.",
    )


def _doubt(key: str, mm: float, expected: float, sd: float, who: Person) -> str:
    unit, about = who.unit, measurement_for(key, who.body)
    return (
        f"{about.name}: {length_text(mm, unit)} was measured; bodies of this height and these girths have "
        f"{length_text(expected, unit)}, give or take {length_text(3 * sd, unit)}. "
        f"Measure it again: {about.how} {about.again}"
    )


def _odd(body: Body) -> tuple[Odd, ...]:
    """What of that which was taken with the tape does not go with the rest."""
    taken = {key: mm for key, mm in body.person.measurements if body[key].source == "measured"}
    return odd_ones(taken, body.person.body)


def _oddity(odd: Odd, body: Body) -> str:
    """The sentence about a measurement that does not go with the rest: what was expected, how to measure again."""
    unit, about = body.person.unit, measurement_for(odd.key, body.person.body)
    if odd.swapped_with:
        other = measurement_for(odd.swapped_with, body.person.body)
        both = f"{about.name} {length_text(odd.mm, unit)} and {other.name} {length_text(body.mm(other.key), unit)}"
        return (
            f"{both} may each stand in the other's place: the other way round they go with the rest. Look at both; if "
            "they are right, leave them."
        )
    return (
        f"{about.name}: {length_text(odd.mm, unit)} was measured; a body with the other measurements has "
        f"{length_text(odd.expected_mm, unit)}, give or take {length_text(3 * odd.sd_mm, unit)}. "
        f"Measure it again: {about.how} {about.again}"
    )


def _at_odds(rule: _Rule, by: float, body: Body, odd: Collection[str]) -> str:
    """The contradiction in words; where just one of the lengths does not go with all others either, that one is named.

    odd: the lengths that do not go with the rest
    """
    unit, kind = body.person.unit, body.person.body
    values = [
        f"{measurement_for(key, kind).name} {length_text(body.mm(key), unit)}"
        + ("" if body[key].source == "measured" else f" ({body[key].source})")
        for key in rule.keys
    ]
    measured = [measurement_for(key, kind).name for key in rule.keys if body[key].source == "measured"]
    guessed = [measurement_for(key, kind).name for key in rule.keys if body[key].source != "measured"]
    mend = [f"measure {' and '.join(measured)} again"] if measured else []
    mend += [f"measure {' and '.join(guessed)} too"] if guessed else []
    out = [measurement_for(key, kind).name for key in rule.keys if key in odd]
    first = f" It is {out[0]} that does not go with the other measurements either." if len(out) == 1 else ""
    return (
        f"{', '.join(values[:-1])} and {values[-1]} cannot all be right: {rule.why}. "
        f"They disagree by {length_text(by, unit)}; {', and '.join(mend)}.{first}"
    )
