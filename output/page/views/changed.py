"""What is changed, and how: a card for each step of the garment's file, and what else there is to change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from types import MappingProxyType
from typing import Any, Final

from output.api import ALTERATIONS, TrueseamError
from output.api.order_options import PARTS, blocks_for, other_names, sites_of, sites_text
from output.api.steps import (
    WrittenOption,
    WrittenStep,
    alteration_list,
    names_for,
    neighbours,
    other_words,
    step_moves,
    words_answered,
    written_step,
)
from output.api.wording import length_text, sentence_in
from output.page.views.data import Data, bare_unit
from output.page.views.fields import asked_text, field_of, has_meaning, shown_first
from output.page.views.offers import steps_in_file
from output.page.views.shown import Shown

__all__ = ["changed", "more", "order"]

_NOTHING: Final[Mapping[str, float]] = MappingProxyType({})

_SEVERAL: Final = 4
"""So many lengths that moved are told on a card; the report tells all."""


def changed(shown: Shown) -> Data:
    """The cards, in the order of the file, each:

    at:        where it is written; number: its place, from 1; turn: when it is taken, from 1, 0 while it is off
    alter, called: the alteration, and the word for it that is written; title, about: the same to be read
    piece:     what it is done to; "" where it says none
    in_use:    whether it is taken at all
    fields:    what can be set (`fields.py`)
    moved:     the lengths that it moved, the largest first: name, where, before, after, by
    more:      how many more than these
    untouched: what was measured to be as it was
    Beside them `elsewhere`: a sentence that tells how many steps more are taken, and what for; "" for none.
    """
    steps = steps_in_file(shown.garment, shown.tables)
    moves = step_moves(shown.draft)
    turns = {place: turn for turn, place in enumerate(steps.taken) if place is not None}
    cards = [_card(shown, place, table, turns.get(place), moves) for place, table in enumerate(steps.tables)]
    return {"cards": cards, "elsewhere": _elsewhere(shown, sum(place is None for place in steps.taken))}


def _elsewhere(shown: Shown, count: int) -> str:
    if not count:
        return ""
    reasons = {
        "in the file that this one follows": bool(shown.followed),
        "for its sizes": shown.garment.sizes is not None,
        "for room to grow": shown.garment.grow_until is not None,
    }
    told = " and ".join(words for words, there in reasons.items() if there) or "before these"
    return f"{count} more {'is' if count == 1 else 'are'} taken {told}."


def order(shown: Shown) -> Data:
    """Between which cards the order matters: `between`, for each two steps taken one after the other.

    first, second: their places in the file; matters, sentence: whether they could change places, and what would differ
    as_written: whether the steps are taken as they stand in the file
    """
    steps = steps_in_file(shown.garment, shown.tables)
    found = []
    for each in neighbours(shown.draft):
        first, second = steps.taken[each.first], steps.taken[each.first + 1]
        if first is not None and second is not None:
            found.append({"first": first, "second": second, "matters": each.matters, "sentence": each.sentence})
    return {"between": found, "as_written": shown.garment.order == "as written"}


def more(shown: Shown) -> Data:
    """What she may ask for. `more`: everything that can be changed: alter, title, about, layer, the fields it has, and
    other words for it.

    not_here: why it can do nothing for this garment, whatever is said of it; "" where it may; instead: what does the
              nearest then, "" for nothing
    words: each with what it does to the fields: turned are the options whose number it turns round, told those that it
           says already, each with what it says; by: the one that it is about, "" for the usual one
    blocks_and_parts: name, about, also (other words), more (words of its options), not_here: as above
    asked: what is answered to words that are none of these
    """
    pattern = shown.draft.pattern
    return {
        "more": [
            entry
            | {"fields": [field | {"choices": field["choices"] or _names(field, pattern, "")} for field in fields]}
            | {"not_here": sentence_in(shown.unit, ALTERATIONS.named(entry["alter"]).not_here(pattern))}
            for entry, fields in _listed(shown.unit)
        ],
        "blocks_and_parts": list(_blocks_and_parts(shown)),
        "asked": dict(words_answered()),
    }


def _blocks_and_parts(shown: Shown) -> Iterator[Data]:
    """Every block and part as data for the search, and why one that does not fit is not to be had."""
    sites = sites_of(order.block for order in shown.garment.blocks)
    blocks = [(each, "") for each in blocks_for(shown.garment.wearer.body)]
    parts = [(each, "" if each.fits(sites) else f"it is sewn to {sites_text(each.needs)}") for each in PARTS]
    entries: list[tuple[Any, str]] = [*blocks, *parts]
    for each, not_here in entries:
        words = {word for option in each.options for word in (option.name.replace("_", " "), *option.choices)}
        yield {
            "name": each.name,
            "about": sentence_in(shown.unit, each.about),
            "also": list(other_names(each.name)),
            "more": " ".join(sorted(words)),
            "not_here": not_here,
        }


@cache
def _listed(unit: str) -> tuple[tuple[Data, tuple[Data, ...]], ...]:
    """What is said of each alteration on any garment, and its fields."""
    return tuple(
        (
            {
                "alter": entry.name,
                "title": _title(entry.name),
                "about": sentence_in(unit, entry.about),
                "layer": str(entry.layer),
                "instead": entry.instead,
                "words": [_word(each) for each in other_words(entry.name)],
            },
            tuple(shown_first(_fields(blank.options, unit, readable=not blank.problems))),
        )
        for entry in alteration_list()
        for blank in [written_step({"alter": entry.name}, unit=unit)]
    )


def _word(word: Any) -> Data:
    return {"word": word.word, "turned": list(word.turned), "told": dict(word.sets), "by": word.by}


def _card(shown: Shown, place: int, table: Mapping[str, Any], turn: int | None, moves: Sequence[Any]) -> Data:
    """The card of one step as data: its fields, what it moved most, and what it leaves as it was.

    turn: when it was taken, from 0; None where it was not taken
    """
    unit = shown.unit
    step = written_step(table, unit=bare_unit(shown.tables))
    stage = shown.draft.stages[turn if turn is not None else -1]
    piece = next((str(each.value) for each in step.options if each.option.name == "piece" and each.value), "")
    lengths = sorted(moves[turn], key=lambda each: (each.kind != "finished", -abs(each.by))) if turn is not None else []
    return {
        "at": ["step", place],
        "number": place + 1,
        "turn": 0 if turn is None else turn + 1,
        "alter": step.entry.name if step.entry else "",
        "called": step.called,
        "title": _title(step.called),
        "piece": piece,
        "about": sentence_in(unit, step.entry.about) if step.entry else "",
        "in_use": table.get("in_use") is not False,
        "fields": [
            field
            | {
                "choices": field["choices"] or _names(field, stage, piece),
                "asked": asked_text(shown, "garment", "step", place, field["key"]),
            }
            for field in _of_card(shown, step, turn)
        ],
        "moved": [_moved(each, unit) for each in lengths[:_SEVERAL]],
        "more": max(0, len(lengths) - _SEVERAL),
        "untouched": step.entry.leaves if step.entry else "",
    }


def _title(word: str) -> str:
    return word[:1].upper() + word[1:]


def _of_card(shown: Shown, step: WrittenStep, turn: int | None) -> list[Data]:
    """The options of a step that have a meaning beside each other, with what those came to that are left out."""
    values = {each.option.name: each.value for each in step.options}
    came_to = _came_to(shown, turn) if None in values.values() else {}
    options = [each for each in step.options if each.written is not None or has_meaning(each.option, values)]
    return shown_first(_fields(options, shown.unit, came_to, readable=not step.problems))


def _came_to(shown: Shown, turn: int | None) -> Mapping[str, float]:
    """What stands for the options that a step leaves out and works out itself; {} while it is off."""
    if turn is None:
        return {}
    stages = shown.draft.stages
    try:
        return shown.draft.taken.steps[turn].came_to(stages[turn], stages[turn + 1])
    except TrueseamError:  # a finishing step is drawn on another pattern than the one before it
        return {}


def _fields(
    options: Iterable[WrittenOption], unit: str, came_to: Mapping[str, float] = _NOTHING, *, readable: bool = True
) -> Iterator[Data]:
    """A field for each option of a step that she may set, with what stands in it.

    readable: whether the step can be read, so that its values are those that it has
    """
    for each in options:
        name, default = each.option.name, each.option.default
        if each.is_told or name == "drafted_gap":
            continue
        plain = default if isinstance(default, (str, float, int, bool)) else None
        value = each.value if each.written is not None or readable else plain
        stands = came_to.get(name) if value is None else value
        yield {"option": name, **field_of(each.option, each.key, each.written, stands, unit)}


def _names(field: Data, pattern: Any, piece: str) -> list[str]:
    """What there is to choose from on a pattern, where the option names something of it."""
    return list(names_for(field["option"], pattern, piece)) if field["kind"] == "text" else []


def _moved(each: Any, unit: str) -> Data:
    return {
        "name": each.name,
        "kind": each.kind,
        "where": each.where,
        "before": "" if each.before is None else length_text(each.before, unit),
        "after": "" if each.after is None else length_text(each.after, unit),
        "by": length_text(abs(each.by), unit),
        "way": "more" if each.by > 0 else "less",
    }
