"""How the words of a command line are read, and how its help is drawn: argparse, with sentences of our own."""

from __future__ import annotations

from argparse import ArgumentError, ArgumentParser, Namespace
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from drafting.dataclass import dataclass
from drafting.errors import InputProblems, Problem, meant
from drafting.reading.units import printable

if TYPE_CHECKING:
    from output.command.answer import Answer

__all__ = ["Command", "Given", "command_named", "print_help", "print_overview", "read_words"]

_LINE: Final = "the command line"

_OPTIONS: Final[dict[str, dict[str, Any]]] = {
    "--to": {"metavar": "FOLDER", "help": "Where to write; left out, a folder here named after the garment file."},
    "--for": {
        "metavar": "PERSON",
        "nargs": "+",
        "dest": "people",
        "help": "Whom to draft it for in place of its wearer: files of people, or folders of such files.",
    },
    "--paper": {"metavar": "PAPER", "help": 'Another paper than the file\'s, or "roll 36 in" for a copy shop.'},
    "--sizes": {"metavar": "SIZES", "help": "Of a nest, the sizes to print, such as 88,96; left out, all."},
    "--width": {
        "metavar": "WIDTH",
        "help": 'How wide, such as "140 cm", or 140 in the unit of the file; left out, what it says.',
    },
    "--fold": {"metavar": "FOLD", "help": "How it lies: lengthwise (left out, this), double, single or across."},
    "--one-way": {"action": "store_true", "help": "All tops one way: the cloth has a nap, or an up and a down."},
    "--repeat": {"metavar": "LENGTH", "help": "How long the repeat of its pattern is, to be met at the notches."},
    "--repeat-across": {"metavar": "LENGTH", "help": "How wide it is: pieces lie on its middle."},
    "--have": {"metavar": "LENGTH", "help": 'How much of it you have, such as "1.8 m": is it enough, and if not?'},
    "--time": {
        "metavar": "SECONDS",
        "help": "How long to look for a shorter lay than the one found at once: 60 for a good one.",
    },
    "size --for": {
        "metavar": "GARMENT",
        "help": 'What it is: dress, top, knit top, skirt, "full skirt", trousers; left out, what the chart says.',
    },
    "size --to": {"metavar": "FOLDER", "help": "Where to write a page to print; left out, none is written."},
    "--cloth": {"metavar": "CLOTH", "help": "The cloth by name, such as denim; left out, what the pattern is for."},
    "--stretch": {"metavar": "SHARE", "help": 'How far your knit stretches, such as "40 %%"; left out, the usual.'},
    "--fit": {"metavar": "FIT", "help": "close, regular or loose; left out, as the pattern is drawn."},
    "--until": {"metavar": "DATE", "help": "The last day, such as 2027-08-01; left out, a year after the last height."},
    "--unit": {"metavar": "UNIT", "help": "cm, in or mm: the unit to show; left out, the one you write in."},
    "--ask": {"action": "store_true", "help": "Ask for one after another, with a drawing of each, and write it down."},
    "--sheet": {"metavar": "FILE.html", "help": "Write a sheet to print, with drawings and blanks to fill in."},
    "--body": {"metavar": "BODY", "help": "With --sheet and no file: whose body, woman, girl or boy."},
    "--garment": {
        "metavar": "GARMENT.toml",
        "help": "A garment of theirs: what measuring would improve in it, or until when it fits.",
    },
    "--no-browser": {"action": "store_true", "help": "Tell the address, and open no browser."},
    "--all": {"action": "store_true", "help": "Tell everything: every check, every measurement."},
    "--explain": {"action": "store_true", "help": "Tell what the steps would give in another order."},
    "--json": {"action": "store_true", "help": "Write the answer as JSON, for a program."},
    "--help": {"action": "store_true", "help": "Show this and stop."},
}
"""The options of all commands, as argparse takes them."""

_ALWAYS: Final = ("--json", "--help")
"""Every command has these."""


@dataclass(frozen=True, slots=True)
class Given:
    """What stands behind the command: its arguments, and what its options say."""

    arguments: list[str]
    options: Namespace

    @property
    def path(self) -> Path:
        """The first argument, a file."""
        return Path(self.arguments[0])


@dataclass(frozen=True, slots=True)
class Command:
    """One command.

    about, more: what it does: in a line, and in a few
    arguments:   the name of each argument, and what it is
    options:     those of `_OPTIONS` that it has beside --json and --help
    run:         does it; raises TrueseamError
    most, least: how many arguments it takes, and how many must be there; None for any number
    """

    name: str
    about: str
    more: str
    arguments: tuple[tuple[str, str], ...]
    options: tuple[str, ...]
    run: Callable[[Given], Answer]
    most: int | None = 1
    least: int = 1


def command_named(name: str, commands: Sequence[Command]) -> Command:
    """The command of that name. Raises InputProblems with those there are, and the nearest."""
    for command in commands:
        if command.name == name:
            return command
    names = [command.name for command in commands]
    expected = f"{', '.join(names[:-1])} or {names[-1]}"
    mend = meant(name, names) or "`trueseam --help` says what each of them does."
    raise InputProblems([Problem(_LINE, f'"{printable(name)}"', expected, mend)])


def read_words(command: Command, words: Sequence[str]) -> Given:
    """What the words behind the command say. Raises InputProblems with all that is wrong, unless help is asked for."""
    end = words.index("--") if "--" in words else len(words)  # behind it nothing is an option
    parser = ArgumentParser(add_help=False, allow_abbrev=False, exit_on_error=False)
    for name in (*command.options, *_ALWAYS):
        parser.add_argument(name, **_option(command, name))
    try:
        # the parser knows options only: arguments may stand anywhere between them, and are counted below
        options, rest = parser.parse_known_args(words[:end])
    except ArgumentError as error:
        raise InputProblems([_wrong_value(command, str(error.argument_name), words)]) from None
    given = Given([*rest, *words[end + 1 :]], options)
    problems = list(_unknown_options(command, rest)) or list(_miscounted(command, given.arguments, words))
    if problems and not options.help:
        raise InputProblems(problems)
    return given


def _option(command: Command, name: str) -> dict[str, Any]:
    """An option as this command takes it: its own, where it has one of that name."""
    return _OPTIONS.get(f"{command.name} {name}") or _OPTIONS[name]


def _wrong_value(command: Command, option: str, words: Sequence[str]) -> Problem:
    """What is wrong where an option lacks its value, or has one that it does not take."""
    where, metavar = f"{_LINE}, {command.name} {option}", _option(command, option).get("metavar")
    behind = words[words.index(option) + 1 :] if option in words else ()
    if metavar and behind and not behind[0].startswith("--"):
        read = f'"{printable(behind[0])}"'
        return Problem(where, read, f"a {metavar.lower()} that does not begin with a dash", _hint(command))
    if metavar:
        return Problem(where, "nothing after it", f"a {metavar.lower()}", _hint(command))
    return Problem(where, 'something after "="', f"{option} by itself", _hint(command))


def _unknown_options(command: Command, words: Sequence[str]) -> Iterator[Problem]:
    known = (*command.options, *_ALWAYS)
    for word in words:
        if word.startswith("-") and word != "-":
            expected = f"{', '.join(known[:-1])} or {known[-1]}"
            mend = meant(word, known) or _hint(command)
            yield Problem(f"{_LINE}, {command.name}", f'"{printable(word)}"', expected, mend)


def _miscounted(command: Command, arguments: Sequence[str], words: Sequence[str]) -> Iterator[Problem]:
    """What is missing, and what is too much."""
    where = f"{_LINE}, {command.name}"
    if len(arguments) < command.least:
        name, about = command.arguments[len(arguments)]
        people = "--for" in words and "nargs" in _option(command, "--for")
        swallowed = f"Put {name} first: what stands behind --for are people." if people else ""
        yield Problem(where, f"no {name}", f"{about[0].lower()}{about[1:].rstrip('.')}", swallowed or _hint(command))
    for word in arguments[command.most :] if command.most is not None else ():
        names = " and ".join(name for name, _ in command.arguments)
        yield Problem(where, f'"{printable(word)}" as well', f"{names} and no more", _hint(command))


def _hint(command: Command) -> str:
    return f"`trueseam {command.name} --help` says what it takes."


def print_help(command: Command) -> None:
    """Print what a command does and takes."""
    usage = f"trueseam {command.name} [options] {' '.join(name for name, _ in command.arguments)}"
    parser = ArgumentParser(add_help=False, usage=usage, description=command.about, epilog=command.more)
    arguments = parser.add_argument_group("arguments")
    for name, about in command.arguments:
        arguments.add_argument(name, help=about)
    options = parser.add_argument_group("options")
    for name in (*command.options, *_ALWAYS):
        options.add_argument(name, **_option(command, name))
    print(parser.format_help(), end="")


def print_overview(about: str, commands: Sequence[Command], ends: str) -> None:
    """Print which commands there are. ends: what the exit status says"""
    parser = ArgumentParser(add_help=False, usage="trueseam COMMAND ...", description=about, epilog=ends)
    named = parser.add_argument_group("commands")
    for command in commands:
        named.add_argument(command.name, help=command.about)
    options = parser.add_argument_group("options")
    options.add_argument("--version", action="store_true", help="Say which version this is.")
    options.add_argument("--help", **_OPTIONS["--help"])
    print(parser.format_help(), end="")  # print_help of argparse keeps silent where it cannot be written
