"""The choice of a size in words and tables: the terminal and the page to print show the same ones."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from drafting.body.terms import measurement_for
from drafting.errors import listed
from drafting.fit.cloth_table import cloth_meant
from drafting.reading.units import inches, length_text, percent
from drafting.sizing.chart_lengths import LengthChange
from drafting.sizing.choose_size import SizeChoice
from drafting.sizing.full_bust import USUAL_GAP
from drafting.sizing.side_seam_blend import Blend
from drafting.sizing.size_level import SLACK, SizeLevel
from output.report.size_tables import ease_table, place_name, tape_table
from output.report.tables import Passage, Said

__all__ = ["blend_passage", "cloth_words", "edge_text", "size_passages", "take_sentence"]

_CHILD_WORDS: Final = (
    ("Your ", "The child's "),
    ("Yours was", "The child's was"),
    ("your ", "the child's "),
    ("you are size", "the child is size"),
    ("you have", "the child has"),
    ("you would have", "there would be"),
    ("leaves you", "leaves"),
)

_MOST_LET_OUT: Final = 80.0
"""mm round that a pattern can be let out at its side seams and still hang: 2 cm at each edge (common practice)."""

_WHERE: Final = {
    "back_waist_length": "at the lengthen-or-shorten line between armhole and waist, front and back alike",
    "arm_length": "in the sleeve, half above and half below the elbow",
    "shoulder_length": "at the armhole end of the shoulder, front and back alike",
    "interscye_mid_distance": "across the back, from nothing at the shoulder, with the armhole moved along",
    "waist_to_hip": "between waist and hip, front and back alike",
    "crotch_height": "in the leg, half above and half below the knee",
}
"""Where a length is changed (trade practice)."""


def take_sentence(choice: SizeChoice) -> str:
    """The recommendation: "Take size 14, with 16 at the waist and 18 at the hip."."""
    sizes = [f"{blend.size} at the {place_name(choice, blend.place)}" for blend in choice.blends]
    said = f"Take size {choice.size}" + (f", with {listed(sizes)}" if sizes else "")
    if choice.length_size is not None and choice.length_size != choice.size:
        said += f", in the length of size {choice.length_size}"
    shape = choice.shape
    if shape is not None and shape.cup:
        said += f", with the {shape.cup} cup"
    if shape is not None and shape.total:
        said += f", and {_text(choice, shape.total)} more across the front at the bust"
    small = choice.too_small()
    if small:
        where = listed([place_name(choice, each.place) for each in small])
        return f"No size of this chart is large enough at the {where}. The nearest is{said.removeprefix('Take')}."
    return f"{said}."


def size_passages(choice: SizeChoice) -> tuple[Said, ...]:
    """Everything that is told of a choice: what to take and why, the runner-up, what to alter, and the numbers."""
    chart = choice.chart.title or "the chart"
    title = f"{chart[0].upper()}{chart[1:]}, for {choice.person.name or 'you'}: {choice.kind.name}"
    said: list[Said] = [Passage(title, (take_sentence(choice), *_reasons(choice)))]
    if choice.runner_up is not None:
        said.append(Passage("Next best", (_runner_up(choice),)))
    blends = blend_passage(choice)
    said.extend([blends] if blends is not None else [])
    said.extend(_bust_passage(choice))
    lengths = [_length_sentence(choice, change) for change in choice.lengths]
    if lengths:
        said.append(Passage("Lengths", tuple(lengths)))
    table = ease_table(choice)
    said.extend([table] if table is not None else [])
    said.append(tape_table(choice))
    return tuple(said) if choice.person.body == "woman" else tuple(map(_of_a_child, said))


def _of_a_child(said: Said) -> Said:
    """The same, told to whoever sews for the child."""
    if isinstance(said, Passage):
        return replace(said, sentences=tuple(map(_not_hers, said.sentences)))
    return replace(said, below=tuple(map(_not_hers, said.below)))


def _not_hers(sentence: str) -> str:
    for hers, theirs in _CHILD_WORDS:
        sentence = sentence.replace(hers, theirs)
    return sentence


def edge_text(mm: float, unit: str) -> str:
    """How far an edge moves, as fine as it can be marked with a rule: whole millimetres, or sixteenths of an inch."""
    return inches(mm, parts=16) if unit == "in" else f"{round(mm):.0f} mm"


def blend_passage(choice: SizeChoice) -> Passage | None:
    """How to draw the change from one size to another on the side seams; None where there is none."""
    sentences = [_blend_sentence(choice, blend) for blend in choice.blends]
    sentences += [_unneeded_sentence(choice, place) for place in choice.unneeded]
    if choice.blends:
        sentences.append(
            "Draw one even curve without a corner from level to level, the same on front and back, on both sides; "
            "neck, shoulder and armhole stay those of the size you take."
        )
    return Passage("Blend at the side seams", tuple(sentences)) if sentences else None


def _blend_sentence(choice: SizeChoice, blend: Blend) -> str:
    """In words: how the side seam goes from one size to another, and what it is for."""
    way = "out" if blend.by > 0.0 else "in"
    place, origin = place_name(choice, blend.place), place_name(choice, blend.from_place)
    lead = f"From size {blend.from_size} at the {origin} to size {blend.size} at the {place}"
    if blend.size == blend.from_size:
        lead = f"From the {origin} to the {place} stay on size {blend.size}"
    said = (
        f"{lead}: there each of the four "
        f"side-seam edges lies {edge_text(abs(blend.by), _unit(choice))} {way} from the line of size {choice.size}, "
        f"{_text(choice, abs(4.0 * blend.by))} round."
    )
    if blend.ease_before is not None:
        short = "too little" if blend.by > 0.0 else "more than you want"
        has = f"you would have {_text(choice, blend.ease_before)} of ease there, {short}"
        if blend.ease_before < 0.0:
            has = f"it would be {_text(choice, -blend.ease_before)} smaller than your body there"
        said += f" Without that {has}."
    return said


def _unneeded_sentence(choice: SizeChoice, place: str) -> str:
    level = choice.level(place)
    ease = choice.ease_in(choice.size, place)
    name = place_name(choice, place)
    pick = level.pick if level is not None else ""
    if ease is None:
        return f"No blend at the {name}: you are size {pick} there, but a {choice.kind.name} is wide enough there."
    return (
        f"No blend at the {name}: you are size {pick} there, but size {choice.size} leaves you "
        f"{_text(choice, ease)} of ease, which is enough."
    )


def _reasons(choice: SizeChoice) -> Iterator[str]:
    """In words: why this size, from what rules it down to each level."""
    yield choice.kind.why
    shape = choice.shape
    if choice.rules == "upper chest" and shape is not None:
        chest = dict(choice.person.measurements)["upper_chest_girth"]
        assumed = "" if shape.from_row else f" (no high bust in the chart: {_text(choice, USUAL_GAP)} under its bust)"
        by_bust = _pick(choice, "bust")
        narrower = (
            f"; size {by_bust}, by the bust, would be too wide in the shoulders" if by_bust != choice.size else ""
        )
        yield f"Your high bust, {_text(choice, chest)}, asks for size {shape.size}{assumed}{narrower}."
    drawn_for = cloth_meant(choice.chart.cloth)
    if drawn_for is not None and (drawn_for.structure == "knit") != choice.cloth.knit:
        yield (
            f"The pattern is drawn for a woven cloth: in {choice.cloth.kind}, a knit, it has more room than it needs."
            if choice.cloth.knit
            else f"The pattern is drawn for a knit: in {choice.cloth.kind}, which does not give, it has to be larger, "
            "and may not go on without an opening."
        )
    for short in choice.too_small():
        place = place_name(choice, short.place)
        out = f": let each side-seam edge out by {edge_text(short.each_edge, _unit(choice))} there"
        out = out if short.by <= _MOST_LET_OUT else ", more than side seams can be let out by"
        yield f"The largest size lacks {_text(choice, short.by)} at the {place}{out}."
    for level in choice.levels:
        yield from _level_reasons(choice, level)
    if choice.person.body != "woman":
        yield from _child_reasons(choice)
    elif shape is None and choice.kind.rules == "shoulder":
        yield "Measure your high bust as well: the shoulders of a pattern go by it, and it was not measured."


def _level_reasons(choice: SizeChoice, level: SizeLevel) -> Iterator[str]:
    """In words: what one level says of the size."""
    name = place_name(choice, level.place)
    body = level.by_body
    if body is not None and body.is_beyond:
        end = "largest" if body.share > 1.0 else "smallest"
        yield f"Your {name}, {_text(choice, level.body)}, lies beyond the {end} size of the chart."
    if level.by_finished is not None:
        made = choice.chart.finished_mm(level.by_finished, level.place)
        full = choice.shape.total if choice.shape is not None and level.place == "bust" else 0.0
        if full:
            made = choice.chart.finished_mm(choice.size, level.place) or 0.0
            yield (
                f"At the bust size {choice.size} finishes at {_text(choice, made)}; with {_text(choice, full)} "
                f"more for the full bust that is {_more(choice, made + full - level.body)} than your body."
            )
        elif made is not None:
            said = (
                f"At the {name} size {level.by_finished} finishes at {_text(choice, made)}, "
                f"{_more(choice, made - level.body)} than your body; {_wants(choice, level)}"
            )
            if body is not None and body.size != level.by_finished:
                said += f" By the body alone it would be size {body.size}."
            yield said
    elif body is not None and not body.is_beyond:
        yield f"Your {name}, {_text(choice, level.body)}, is nearest to that of size {body.size}."
    if level.loose and choice.fit is not None and level.designed is not None:
        yield (
            f"The style itself is {_text(choice, level.designed)} wider than the body at the {name}: "
            "that is its look, and the body decides."
        )
    yield from _knit_reasons(choice, level)


def _wants(choice: SizeChoice, level: SizeLevel) -> str:
    """What ease is wanted, and the next smaller size where that would be too little."""
    cloth = choice.cloth.kind
    how = f"{choice.fit} fit" if choice.fit else "as the pattern is drawn"
    said = f"in {cloth}, {how}, {_ease_wanted(choice, level.wanted)} is wanted"
    below = [each for each in level.eases if each.ease < level.least - SLACK and each.size != level.by_finished]
    if all(each.ease < level.least - SLACK for each in level.eases):
        return f"{said}: too little, even in the largest size."
    if below and below[-1].ease >= 0.0 and not choice.cloth.knit:
        each = below[-1]
        said += (
            f", and {_text(choice, each.ease)}, as in size {each.size}, is too little: "
            f"{_text(choice, level.least)} is the least for comfort in this cloth"
        )
    return f"{said}."


def _ease_wanted(choice: SizeChoice, mm: float) -> str:
    return _text(choice, mm) if mm >= 0.0 else f"{_text(choice, -mm)} less than the body"


def _knit_reasons(choice: SizeChoice, level: SizeLevel) -> Iterator[str]:
    """What it means where a knit that is to be smaller than the body would finish larger."""
    meant = level.wanted < 0.0 or (level.designed is not None and level.designed < 0.0)
    if not choice.cloth.knit or not meant or level.place not in choice.kind.close:
        return
    candidates = dict.fromkeys(
        each for each in (level.by_body.size if level.by_body else None, level.by_finished) if each is not None
    )
    for size in candidates:
        made = choice.chart.finished_mm(size, level.place)
        if made is None:
            continue
        ease = made - level.body
        name = place_name(choice, level.place)
        if ease >= 0.0:
            yield (
                f"Size {size} would finish {_text(choice, ease)} over your {name}, though this pattern is meant to "
                "finish below it and to be held by the stretch: it would hang instead of clinging, and its neck and "
                f"hems would stand off.{_smaller_knit(choice, level, size)}"
            )
        elif size == level.by_finished:
            yield f"Size {size} {_strain(choice, level, made)}."


def _smaller_knit(choice: SizeChoice, level: SizeLevel, size: str) -> str:
    """What the next smaller size would be like; "" where there is none."""
    at = choice.chart.sizes.index(size)
    smaller = choice.chart.sizes[at - 1] if at else None
    made = choice.chart.finished_mm(smaller, level.place) if smaller else None
    if made is None:
        return ""
    feel = "as it is drawn to be" if made - level.body >= level.least - SLACK else "tight"
    return f" Size {smaller} {_strain(choice, level, made)}: {feel}."


def _strain(choice: SizeChoice, level: SizeLevel, made: float) -> str:
    """How far a knit of that girth is stretched on her."""
    worn = f"is stretched by {percent(round(max(0.0, level.body / made - 1.0), 2))} when it is worn"
    if not choice.cloth.stretch:
        return f"{worn}; how far your knit stretches was not told (--stretch)"
    return f"{worn}; {percent(round(choice.cloth.stretch / 3.0, 2))}, a third of what the cloth gives, is counted on"


def _child_reasons(choice: SizeChoice) -> Iterator[str]:
    yield "A child is sized by its height for length and by its chest for girth; between two sizes take the larger."
    if choice.length_size is not None and choice.length_size != choice.size:
        yield (
            f"The height asks for size {choice.length_size}, the chest for {choice.size}: take the girth of size "
            f"{choice.size} and draw its lengths from size {choice.length_size}."
        )


def _runner_up(choice: SizeChoice) -> str:
    """In words: how the second-best size would fit."""
    size = choice.runner_up or choice.size
    level = choice.level("bust" if choice.rules in ("upper chest", "bust") else choice.rules)
    ease = choice.ease_in(size, level.place) if level is not None else None
    if level is None or ease is None:
        smaller = choice.chart.sizes.index(size) < choice.chart.sizes.index(choice.size)
        return f"Size {size}: {'closer' if smaller else 'easier'} all round."
    name = place_name(choice, level.place)
    if ease < 0.0 and not choice.cloth.knit:
        return f"Size {size}: {_text(choice, -ease)} smaller than your body at the {name}."
    if ease < level.least:
        feel = "too tight for comfort, unless the cloth gives"
    elif ease < level.wanted:
        feel = "closer than it is meant to be, with less room to move"
    else:
        feel = "easier; the side seams can be taken in"
        feel += ", the shoulders not" if choice.kind.rules == "shoulder" else ""
    return f"Size {size}: {_text(choice, ease)} of ease at the {name}: {feel}."


def _bust_passage(choice: SizeChoice) -> Iterator[Passage]:
    """What is told of the bust: whether the pattern needs a full-bust alteration, and by how much."""
    shape = choice.shape
    if shape is None:
        return
    told = f"Your bust is {_more(choice, shape.own)} than your high bust"
    drawn = f"the pattern is drawn for {_text(choice, shape.drawn_for)} more"
    if shape.cup:
        drawn += f" in the {shape.cup} cup"
    if shape.total:
        yield Passage(
            "Bust",
            (
                f"{told}; {drawn}. So a full-bust alteration of {_text(choice, shape.total)} in all: spread each half "
                f"of the front by {edge_text(shape.per_side, _unit(choice))} at the bust point; neck, shoulder, "
                "armhole and the back stay.",
            ),
        )
    elif shape.flatter and shape.size != choice.size:
        yield Passage(
            "Bust",
            (
                f"{told}; {drawn}: your high bust asks for size {shape.size}. Should the shoulders of size "
                f"{choice.size} be narrow, take {shape.size} above the bust line and blend to {choice.size} at it.",
            ),
        )
    else:
        yield Passage("Bust", (f"{told}; {drawn}: no full-bust alteration is needed.",))


def _length_sentence(choice: SizeChoice, change: LengthChange) -> str:
    name = measurement_for(change.key, choice.person.body).name
    longer, shorter = ("widen", "narrow") if change.across else ("lengthen", "shorten")
    act = longer if change.by > 0.0 else shorter
    has = "the garment has" if change.finished else f"size {choice.size} is drawn for"
    own = f"{name[0].upper()}{name[1:]}: you have {_text(choice, change.own)}, {has} {_text(choice, change.has)}"
    if change.like:
        own = own.replace("you have", f"size {change.like} has")
    if change.sd is not None:
        capital = f"{name[0].upper()}{name[1:]}"
        return f"{capital}: {has} {_text(choice, change.has)}. Yours was not measured: measure it before you cut."
    return f"{own}: {act} by {_text(choice, abs(change.by))} {_WHERE[change.key]}."


def _pick(choice: SizeChoice, place: str) -> str:
    level = choice.level(place)
    return level.pick or "" if level is not None else ""


def _more(choice: SizeChoice, ease: float) -> str:
    return f"{_text(choice, abs(ease))} {'more' if ease >= 0.0 else 'less'}"


def _unit(choice: SizeChoice) -> str:
    return choice.person.unit


def _text(choice: SizeChoice, mm: float) -> str:
    return length_text(mm, choice.person.unit)


def cloth_words(choice: SizeChoice) -> str:
    """The cloth and the fit, for a heading: "denim, close fit"."""
    row = cloth_meant(choice.cloth.kind)
    fit = f"{choice.fit} fit" if choice.fit else "as the pattern is drawn"
    return f"{row.word if row is not None else choice.cloth.kind}, {fit}"
