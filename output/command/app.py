"""The commands: what each is given, what it says of itself, and what it calls."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final

from drafting.errors import InputProblems, Problem, meant
from drafting.reading.units import NotRead, parse_file_unit, printable
from output import __version__
from output.command.command_line import Command, Given, command_named, print_help, print_overview, read_words

if TYPE_CHECKING:
    from output.command.answer import Answer

__all__ = ["run"]

_ABOUT: Final = (
    "Draft, alter and check sewing patterns from a person's measurements, and put them on paper at true scale. "
    "`trueseam COMMAND --help` says what a command takes."
)
_ENDS: Final = (
    "Exit status: 0 all checks pass, 1 some check failed, 2 the input cannot be used and nothing is written, "
    "3 a fault of trueseam, 4 done but standard output cannot be written, 130 stopped."
)
_BEGINNINGS: Final = ("person", "garment", "chart")


def run(words: Sequence[str]) -> int:
    """Do what the words ask for; the exit status. Raises TrueseamError, and Untold from `give`."""
    if not words or words[0] in ("--help", "-h"):
        print_overview(_ABOUT, _COMMANDS, _ENDS)
        return 0
    if words[0] == "--version":
        print(f"trueseam {__version__}")
        return 0
    command = command_named(words[0], _COMMANDS)
    given = read_words(command, words[1:])
    if given.options.help:
        print_help(command)
        return 0
    answer = command.run(given)
    from output.command.answer import write_answer

    return write_answer(answer, as_json=given.options.json, everything=getattr(given.options, "all", True))


def _draft(given: Given) -> Answer:
    """The answer to `trueseam draft`: of a garment, of a pattern that was drafted, in sizes, or for several people."""
    from output.api.pattern_reader import PATTERN_ENDINGS
    from output.command.draft_pattern import draft_pattern_to_folder
    from output.command.nest import draft_sizes_to_folder

    asked = given.options
    to, unit = _folder(asked.to), _unit(asked.unit)
    if asked.people:
        from output.command.wearers import draft_for_people

        if asked.sizes is not None:
            expected = "nothing: --for drafts it to the measurements of each"
            raise InputProblems([Problem("the command line, --sizes", f'"{printable(asked.sizes)}"', expected)])
        return draft_for_people(given.path, asked.people, to=to, paper=asked.paper, unit=unit, quiet=asked.json)
    if given.path.suffix.casefold() in PATTERN_ENDINGS:
        if asked.sizes is not None:
            expected = "nothing: a pattern that was drafted already has one size"
            raise InputProblems([Problem("the command line, --sizes", f'"{printable(asked.sizes)}"', expected)])
        return draft_pattern_to_folder(given.path, to=to, paper=asked.paper, quiet=asked.json, unit=unit)
    return draft_sizes_to_folder(
        given.path,
        to=to,
        paper=asked.paper,
        sizes=asked.sizes,
        quiet=asked.json,
        unit=unit,
        explain=asked.explain,
    )


def _check(given: Given) -> Answer:
    from output.command.check import check_file

    return check_file(given.path, unit=_unit(given.options.unit), explain=given.options.explain)


def _measure(given: Given) -> Answer:
    """The answer to `trueseam measure`: a sheet, questions one by one, or a judgement of a person's file."""
    asked = given.options
    garment = None if asked.garment is None else Path(asked.garment)
    if asked.sheet is not None:
        from output.command.measuring_sheet import write_measuring_sheet

        whose, unit = given.path if given.arguments else None, _unit(asked.unit)
        return write_measuring_sheet(
            asked.sheet, whose=whose, body=asked.body, unit=unit, garment=garment, every=asked.all
        )
    if not given.arguments:
        mend = "`trueseam measure --sheet FILE.html` needs none: it prints a sheet for anybody."
        raise InputProblems([Problem("the command line, measure", "no PERSON.toml", "the person's file", mend)])
    if asked.body is not None:
        expected = "nothing: it is for --sheet, the person's file says whose body it is"
        raise InputProblems([Problem("the command line, --body", f'"{printable(asked.body)}"', expected)])
    if asked.ask:
        from output.command.ask import ask_measurements

        return ask_measurements(given.path, garment=garment, every=asked.all, quiet=asked.json)
    from output.command.measure import judge_measurements

    return judge_measurements(given.path, unit=_unit(asked.unit), garment=garment)


def _grow(given: Given) -> Answer:
    from output.command.grow import tell_growth

    asked = given.options
    return tell_growth(
        given.path,
        until=asked.until,
        garment=Path(asked.garment) if asked.garment else None,
        to=_folder(asked.to),
        unit=_unit(asked.unit),
    )


def _size(given: Given) -> Answer:
    """The answer to `trueseam size`: which size of a chart, and why."""
    from output.command.size import choose_from_chart

    asked = given.options
    chart, person = given.arguments
    return choose_from_chart(
        chart,
        Path(person),
        kind=getattr(asked, "for"),
        cloth=asked.cloth,
        stretch=asked.stretch,
        fit=asked.fit,
        to=_folder(asked.to),
        unit=_unit(asked.unit),
    )


def _list(given: Given) -> Answer:
    from output.command.folder_unit import folder_unit
    from output.command.listing import list_named

    unit = _unit(given.options.unit) or folder_unit(Path()) or "cm"
    return list_named(" ".join(given.arguments), unit=unit)


def _new(given: Given) -> Answer:
    from output.command.new import begin_file

    what, *file = given.arguments
    if what not in _BEGINNINGS:
        expected, mend = f"{', '.join(_BEGINNINGS[:-1])} or {_BEGINNINGS[-1]}", meant(what, _BEGINNINGS)
        raise InputProblems([Problem("the command line, new", f'"{printable(what)}"', expected, mend)])
    path = Path(file[0]) if file else None
    return begin_file(what, path, unit=_unit(given.options.unit), quiet=given.options.json)


def _open(given: Given) -> Answer:
    from output.command.open_page import open_page

    return open_page(given.arguments, browse=not given.options.no_browser, as_json=given.options.json)


def _lay(given: Given) -> Answer:
    from output.command.lay import read_wishes
    from output.command.lay_nest import laid_in_each_size

    asked = given.options
    wishes = read_wishes(asked, given.path)
    return laid_in_each_size(given.path, wishes, to=_folder(asked.to), unit=_unit(asked.unit), quiet=asked.json)


def _unit(text: str | None) -> str | None:
    """The unit that was named, None where none was. Raises InputProblems for what is no unit."""
    if text is None:
        return None
    try:
        return parse_file_unit(text)
    except NotRead:
        expected = "cm, in or mm"
        raise InputProblems([Problem("the command line, --unit", f'"{printable(text)}"', expected)]) from None


def _folder(to: str | None) -> Path | None:
    """The folder that was named, None where none was. An empty name would stand for the folder she is in."""
    if to is not None and not to.strip():
        raise InputProblems(
            [Problem("the command line, --to", "no name", "the folder to write to, such as harbour-skirt")]
        )
    return None if to is None else Path(to)


_COMMANDS: Final = (
    Command(
        "open",
        "Open a folder in the browser: see it while you change it.",
        "Shows the people and garments of the folder on a page of your own machine, and writes what you change there "
        "to their files. Nothing is sent anywhere. Ctrl-C ends it.",
        (("FOLDER", "The folder; left out, the one you are in."),),
        ("--no-browser",),
        _open,
        least=0,
    ),
    Command(
        "draft",
        "Draft, check and write a garment.",
        "Drafts it from its wearer's measurements, alters it, checks it, and writes the sheets to print, each piece "
        "whole, a DXF for a cutter, pattern.json and a report to open in a browser. "
        "A pattern.json or a DXF of pieces in its place is put on paper as it is.",
        (("GARMENT.toml", "The garment file."),),
        ("--to", "--for", "--paper", "--sizes", "--unit", "--all", "--explain"),
        _draft,
    ),
    Command(
        "check",
        "Check a pattern, writing nothing.",
        "Every seam is walked, and every notch, dart, corner, outline and grain line looked at.",
        (("FILE", "A garment file, a pattern.json, or a DXF of pieces."),),
        ("--unit", "--all", "--explain"),
        _check,
    ),
    Command(
        "lay",
        "Lay the pieces on cloth: how much to buy.",
        "Says how much of each usual width to buy, draws how the pieces lie, to follow while cutting, and tries what "
        "would save most. Ctrl-C ends the search with the best lay so far.",
        (("GARMENT.toml", "The garment file."),),
        ("--to", "--width", "--fold", "--one-way", "--repeat", "--repeat-across", "--have", "--time", "--unit"),
        _lay,
    ),
    Command(
        "measure",
        "Judge a person's measurements.",
        "Says what is measured, what is estimated and how surely, what looks wrong, and how to take each length.",
        (("PERSON.toml", "The person's file."),),
        ("--ask", "--garment", "--sheet", "--body", "--unit", "--all"),
        _measure,
        least=0,
    ),
    Command(
        "grow",
        "Say how a child grows, and what fits until when.",
        "Says her own centile, the height to expect and its range, which size fits until when, and "
        "how much cloth to leave now so that it can be let down. --to writes a page with the chart.",
        (("PERSON.toml", "The file of a girl or a boy, with the day of birth and the day of measuring."),),
        ("--until", "--garment", "--to", "--unit"),
        _grow,
    ),
    Command(
        "size",
        "Choose the size of a bought pattern.",
        "Says which size of a chart to take for this cloth and this kind of garment, and why; where to blend into "
        "another size and by how much, what to add at the bust, where to lengthen. The chart is a file "
        "(`trueseam new chart` begins one), or one that is built in: women, girls, boys, babies.",
        (("CHART.toml", "The chart file, or women, girls, boys, babies."), ("PERSON.toml", "The person's file.")),
        ("--for", "--cloth", "--stretch", "--fit", "--to", "--unit"),
        _size,
        least=2,
        most=2,
    ),
    Command(
        "list",
        "List what there is to choose from.",
        "`trueseam list alterations` shows them in a line each, `trueseam list lengthen` one with every option, its "
        "range and what stands when it is left out.",
        (("WHAT", "Blocks, alterations, parts, checks, measurements, sizes, papers, or the name of one of them."),),
        ("--unit",),
        _list,
        most=None,
    ),
    Command(
        "new",
        "Write a file to start from: a person's, a garment's, or a bought pattern's chart.",
        "Every line in it says what it is for. It asks what it needs to know where somebody is there to answer, and "
        "never writes over a file that is there.",
        (
            ("WHAT", "Person, garment or chart."),
            ("FILE.toml", "The file to write; left out, named after what you answer."),
        ),
        ("--unit",),
        _new,
        most=2,
    ),
)
