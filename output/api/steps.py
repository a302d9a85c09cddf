"""The steps of a garment file one by one: what each can be set to, what it moved, whether two could change places."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from blocks.garment import Garment, order_taken
from drafting.alterations import ALTERATIONS, Alteration, read_step
from drafting.alterations.alteration_table import OPTION_WORDS, words_for
from drafting.alterations.alteration_words import ASKED, WORDS, Word, plain_word, turned_word
from drafting.alterations.swapped_steps import Swapped, swapped
from drafting.dataclass import dataclass
from drafting.errors import Problem, Remedy, Setting
from drafting.pattern import Pattern, Role
from drafting.pattern.compare import Moved, moved
from drafting.reading.key_words import file_word
from drafting.reading.options import Option, Value
from drafting.reading.read_table import Reader
from drafting.reading.units import length_text, percent, sentence_in
from output.api.making import Draft

__all__ = [
    "Neighbours",
    "Remedy",
    "WrittenOption",
    "WrittenStep",
    "alteration_list",
    "names_for",
    "neighbours",
    "other_words",
    "remedy_words",
    "step_moves",
    "taken_places",
    "typed",
    "typed_setting",
    "typed_settings",
    "words_answered",
    "written_step",
]

_STAND_FOR_A_LENGTH: Final = ("by", "amount", "how_much", "how_far")
"""What she may write for the one length that a step is about; see `read_step`."""


@dataclass(frozen=True, slots=True)
class WrittenOption:
    """An option of a step as a garment file gives it.

    option:  what it can be; its range is turned round where the word of the step turns its number ("shorten")
    key:     what it is called in the file
    written: what stands there; None for nothing
    value:   that as it was read, or what stands for it where it is left out: mm, a fraction of one, degrees, a text
    is_told: whether the word of the step says it already, so that it cannot be written ("V neck" says the shape)
    """

    option: Option
    key: str
    written: object
    value: Value
    is_told: bool = False


@dataclass(frozen=True, slots=True)
class WrittenStep:
    """A `[[step]]` of a garment file.

    called:   the word that is written, as it was meant ("shorten"); "" where there is none
    entry:    the alteration that the word stands for; None where it is not known
    options:  each with what is written
    problems: what cannot be read
    """

    called: str
    entry: type[Alteration] | None
    options: tuple[WrittenOption, ...] = ()
    problems: tuple[Problem, ...] = ()

    def turns(self, option: str) -> bool:
        """Whether the word that is written turns the number of an option round: above zero in the file, below here."""
        word = _word(self.called)
        return word is not None and option in word.turned


@dataclass(frozen=True, slots=True)
class Neighbours:
    """Two steps that were taken one after the other, tried the other way round.

    first:    the place of the one that was taken first, among those that were taken, from 0
    matters:  whether the pattern would be another
    sentence: what would come out differently, in the wearer's unit
    """

    first: int
    matters: bool
    sentence: str


def written_step(table: Mapping[str, object], *, unit: str | None = None) -> WrittenStep:
    """What a `[[step]]` says, whether it is in use or not. unit: what plain numbers stand in; None where none is said.

    Nothing is refused here: what cannot be read is in `problems`, and a harmless value stands in its place.
    """
    problems: list[Problem] = []
    asked = {key: value for key, value in table.items() if key != "in_use"}
    step = read_step(Reader(asked, place="", problems=problems, unit=unit), ALTERATIONS)
    word = _word(table.get("alter"))
    if step is None or word is None:
        return WrittenStep(str(table.get("alter", "")), None, problems=tuple(problems))
    entry = ALTERATIONS.named(word.name)
    options = tuple(_written(option, table, step, word, entry) for option in entry.options)
    return WrittenStep(word.word, entry, options, tuple(problems))


def words_answered() -> Mapping[str, str]:
    """Words for which there is no one alteration, each with a sentence to a reader who writes no file."""
    return {word: said for word, said in ASKED.items() if "alter =" not in said and "[[" not in said}


def other_words(name: str) -> tuple[Word, ...]:
    """Every other word for an alteration, with what it turns round or says already: "crop" for "lengthen"."""
    return words_for(name)


def names_for(option: str, pattern: Pattern, piece: str = "") -> tuple[str, ...]:
    """The names that an option of that name may be given on a pattern; nothing where any text will do.

    piece: the piece that the step names, whose darts, lines and edges are meant; of all pieces where it names none
    """
    drawn = {name for part in pattern.derived for name in part.pieces}  # drawn to the garment, altered with it
    free = [each for each in pattern.pieces if each.name not in drawn]
    pieces = [each for each in free if each.name == piece] or free
    edges = [edge.name for each in pieces for edge in each.edges if edge.role is not Role.DART_LEG]
    darts = [dart.name for each in pieces for dart in each.darts]
    found: Mapping[str, Sequence[str]] = {
        "piece": [each.name for each in free],
        "only": [each.name for each in free],
        "dart": darts,
        "line": [line.name for each in pieces for line in each.lines],
        "to": [*edges, *darts],
        "measured_from": [*edges, *darts],
    }
    return tuple(dict.fromkeys(found.get(option, ())))


def step_moves(drafted: Draft) -> tuple[tuple[Moved, ...], ...]:
    """What each step moved, in the order in which they were taken: finished lengths, seams, darts, edges, mm."""
    stages = drafted.stages
    return tuple(moved(before, after) for before, after in pairwise(stages))


def neighbours(drafted: Draft) -> Iterator[Neighbours]:
    """Every two steps that were taken one after the other, tried the other way round."""
    taken = drafted.taken.steps
    for each in swapped(drafted.stages, taken):
        yield Neighbours(each.first - 1, each.matters, _other_way_round(each, drafted.unit))


def _other_way_round(swap: Swapped, unit: str) -> str:
    """What would come out differently, the most telling length first."""
    if swap.refused:
        return f"The order matters: the other way round they cannot be had. {swap.refused}"
    if not swap.matters:
        return "In either order these two give the same pattern."
    lengths = [each for each in swap.moved if each.before is not None and each.after is not None]
    largest = min(lengths, key=lambda each: (each.kind != "finished", -abs(each.by)), default=None)
    if largest is None:
        return "The order matters: the other way round some lines would lie elsewhere."
    before, after = (length_text(mm or 0.0, unit) for mm in (largest.before, largest.after))
    if before == after:
        return "The order matters by less than a hair: what shows of the lengths would be the same."
    name = largest.name if largest.kind == "finished" else f"{largest.name} of the {largest.where}"
    return f"The order matters: the other way round “{name}” would be {after} instead of {before}."


def _word(written: object) -> Word | None:
    """The word behind `alter`, with what it says besides; None where it is none."""
    if not isinstance(written, str):
        return None
    plain = plain_word(written)
    for name in ALTERATIONS.names:
        if plain_word(name) == plain:
            return Word(name, name)
    return next((word for word in WORDS if plain_word(word.word) == plain), None)


def _written(
    option: Option, table: Mapping[str, object], step: Alteration, word: Word, entry: type[Alteration]
) -> WrittenOption:
    key = _key(option, table, word, entry)
    value: Value = getattr(step, option.name)
    if option.name in word.turned:
        low = None if option.low is None else -option.low
        option = replace(option, low=0.0, high=low)
        value = -value if isinstance(value, float) else value
    return WrittenOption(option, key, table.get(key), value, option.name in word.sets)


def _key(option: Option, table: Mapping[str, object], word: Word, entry: type[Alteration]) -> str:
    """What an option is called in this table: the key that is written, or the word it is listed by."""
    listed = OPTION_WORDS.get(option.name, option.name)
    lengths = [each for each in entry.options if each.kind == "length"]
    needed = [each for each in lengths if not isinstance(each.default, (str, float, bool, type(None)))]
    one = word.by or next((some[0].name for some in (needed, lengths) if len(some) == 1), "")
    names = {each.name for each in entry.options}
    also = [each for each in _STAND_FOR_A_LENGTH if each not in names] if option.name == one else []
    meant = {file_word(each) for each in (listed, option.name, *also)}
    return next((key for key in table if file_word(key) in meant), listed)


def taken_places(garment: Garment) -> tuple[int, ...]:
    """For each step in the order taken, its place among the steps as they are written, from 0."""
    return order_taken(garment)


def alteration_list() -> tuple[type[Alteration], ...]:
    """Every alteration there is, in the order in which steps are taken."""
    return tuple(ALTERATIONS)


def typed(value: float, unit: str, *, at_most: bool) -> str:
    """A length to be typed, from mm, in her unit: rounded so that it is no more than this, or no less, from zero."""
    if unit != "in":
        return f"{value / 10.0:.10g} cm" if unit == "cm" else f"{value:.10g} mm"
    return sentence_in(unit, f'"{value:.10g} mm"', at_most=at_most).strip('"')


def typed_settings(remedy: Remedy, step: WrittenStep | None, unit: str) -> dict[str, str | bool | float]:
    """What a remedy sets, as it is typed in a garment file: {"by": "10.5 cm"}.

    step: the step that it changes, whose word may turn the number round; None for a step that is added
    """
    at_most = remedy.act == "change"
    options = {each.option.name: each for each in step.options} if step else {}
    found: dict[str, str | bool | float] = {}
    for each in remedy.settings:
        key = options[each.option].key if each.option in options else OPTION_WORDS.get(each.option, each.option)
        sign = -1.0 if step is not None and step.turns(each.option) else 1.0
        found[key] = typed_setting(each, sign, unit, at_most=at_most)
    return found


def remedy_words(remedy: Remedy, unit: str) -> str:
    """What a remedy does, for a button: "Shorten by 10.5 cm", "Lengthen by 2 cm, only the skirt back"."""
    if remedy.act == "set in block" and all(isinstance(each.value, str) for each in remedy.settings):
        return remedy.lead
    only = next((each.value for each in remedy.settings if each.option == "only"), None)
    numbers = {each.option: float(each.value) for each in remedy.settings if each.unit == "mm"}
    word = turned_word(remedy.alteration, numbers, [each for each in WORDS if not each.sets])
    at_most = remedy.act == "change"
    parts = []
    for each in remedy.settings:
        if each.option == "only" or (only and each.option == "piece"):
            continue  # which piece it is, is said at the end
        sign = -1.0 if word is not None and each.option in word.turned else 1.0
        value = typed_setting(each, sign, unit, at_most=at_most)
        parts.append(str(value) if isinstance(each.value, str) else f"{each.option.replace('_', ' ')} {value}")
    if remedy.act == "set in paper":
        return ", ".join(parts).capitalize()
    called = word.word if word is not None else remedy.alteration
    if remedy.alteration == "move a dart":
        return _dart_words(remedy, unit)
    said = ", ".join(parts).removeprefix("amount ")
    between = " " if said.startswith("by ") else ": "
    where = "" if only is None else f", only the {only}" if only else " what is sewn to it as well"
    though = ", though a check fails then" if remedy.verdict == "fail" else ""
    return f"{called.capitalize()}{between if said else ''}{said}{where}{though}"


def _dart_words(remedy: Remedy, unit: str) -> str:
    """How a dart is moved: "Move 45 % of the waist dart of the bodice front to the side"."""
    told = {each.option: typed_setting(each, 1.0, unit, at_most=False) for each in remedy.settings}
    part = f"{told['part']} of " if "part" in told else ""
    where = f", {told['at']} along it" if "at" in told else ""
    which, piece, to = (told.get(key, "") for key in ("dart", "piece", "to"))
    of = f" of the {piece}" if piece else ""
    return f"Move {part}the {which or 'dart'}{of}{f' to the {to}' if to else ''}{where}"


def typed_setting(setting: Setting, sign: float, unit: str, *, at_most: bool) -> str | bool | float:
    """The value of a setting as it is typed in her unit; sign: -1 for a word that turns the number round."""
    value = setting.value
    if isinstance(value, bool | str):
        return value
    if setting.unit == "mm":
        return typed(sign * value, unit, at_most=at_most)
    if setting.unit == "%":
        return percent(value)
    return f"{value:.10g} deg" if setting.unit == "deg" else value
