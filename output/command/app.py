"""The words of the command line: what each command is given, and its help."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from drafting.errors import InputProblems, Problem
from output import __version__
from output.command.answer import give

__all__ = ["run"]

_app = typer.Typer(
    name="trueseam",
    help="Draft, alter and check sewing patterns from a person's measurements, and put them on paper at true scale.",
    epilog="Exit status: 0 all checks pass, 1 some check failed, 2 the input cannot be used and nothing is written, "
    "3 a fault of trueseam, 4 done but standard output cannot be written, 130 stopped.",
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)

_Explain = Annotated[bool, typer.Option("--explain", help="Tell what the steps would give in another order.")]
_Json = Annotated[bool, typer.Option("--json", help="Write the answer as JSON, for a program.")]
_All = Annotated[bool, typer.Option("--all", help="Tell everything: every check, every measurement.")]


class _Unit(StrEnum):
    CM = "cm"
    INCHES = "in"
    MM = "mm"


class _New(StrEnum):
    PERSON = "person"
    GARMENT = "garment"


_Show = Annotated[_Unit | None, typer.Option("--unit", help="The unit to show; left out, the one you write in.")]


def run(words: Sequence[str]) -> int:
    """Do what the words ask for; the exit status. Raises TrueseamError and typer.TyperException."""
    ended = _app(list(words), prog_name="trueseam", standalone_mode=False)
    return ended if isinstance(ended, int) else 0


@_app.callback(invoke_without_command=True)
def _begin(
    context: typer.Context,
    version: Annotated[bool, typer.Option("--version", help="Say which version this is.")] = False,
) -> None:
    if version:
        print(f"trueseam {__version__}")
        raise typer.Exit(0)
    if context.invoked_subcommand is None:
        print(context.get_help())


@_app.command()
def draft(
    garment: Annotated[Path, typer.Argument(metavar="GARMENT.toml", help="The garment file.")],
    to: Annotated[
        str | None,
        typer.Option(metavar="FOLDER", help="Where to write; left out, a folder here named after the garment file."),
    ] = None,
    paper: Annotated[str | None, typer.Option(metavar="PAPER", help="Another paper than the file's.")] = None,
    unit: _Show = None,
    everything: _All = False,
    explain: _Explain = False,
    as_json: _Json = False,
) -> int:
    """Draft, check and write a garment.

    Drafts it from its wearer's measurements, alters it, checks it, and writes the sheets to print, each piece whole,
    a DXF for a cutter, pattern.json and a report to open in a browser.
    """
    from output.command.nest import drafted_in_sizes

    answer = drafted_in_sizes(garment, to=_folder(to), paper=paper, quiet=as_json, unit=_named(unit), explain=explain)
    return give(answer, as_json=as_json, everything=everything)


@_app.command()
def check(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A garment file, a pattern.json, or a DXF of pieces.")],
    unit: _Show = None,
    everything: _All = False,
    explain: _Explain = False,
    as_json: _Json = False,
) -> int:
    """Check a pattern, writing nothing.

    Every seam is walked, and every notch, dart, corner, outline and grain line looked at.
    """
    from output.command.check import checked

    return give(checked(file, unit=_named(unit), explain=explain), as_json=as_json, everything=everything)


@_app.command()
def measure(
    person: Annotated[Path, typer.Argument(metavar="PERSON.toml", help="The person's file.")],
    unit: _Show = None,
    everything: _All = False,
    as_json: _Json = False,
) -> int:
    """Judge a person's measurements.

    Says what is measured, what is estimated and how surely, what looks wrong, and how to take each length.
    """
    from output.command.measure import judged

    return give(judged(person, unit=_named(unit)), as_json=as_json, everything=everything)


@_app.command("list")
def list_(
    what: Annotated[
        list[str],
        typer.Argument(
            metavar="WHAT",
            help="blocks, alterations, checks, measurements, sizes, papers, or the name of one of them",
        ),
    ],
    unit: _Show = None,
    as_json: _Json = False,
) -> int:
    """List what there is to choose from.

    `trueseam list alterations` shows them in a line each, `trueseam list lengthen` one with every option, its range
    and what stands when it is left out.
    """
    from output.command.listing import listed

    return give(listed(" ".join(what), unit=_named(unit) or "cm"), as_json=as_json)


@_app.command()
def new(
    what: Annotated[_New, typer.Argument(metavar="WHAT", help="person or garment")],
    file: Annotated[Path | None, typer.Argument(metavar="FILE.toml", help="The file to write.")] = None,
    unit: Annotated[_Unit | None, typer.Option("--unit", help="The unit you measure in.")] = None,
    as_json: _Json = False,
) -> int:
    """Write a file to start from: a person's, or a garment's.

    Every line in it says what it is for. It asks what it needs to know where somebody is there to answer, and never
    writes over a file that is there.
    """
    from output.command.new import begun

    return give(begun(what.value, file, unit=_named(unit), quiet=as_json), as_json=as_json)


def _named(unit: _Unit | None) -> str | None:
    return None if unit is None else unit.value


def _folder(to: str | None) -> Path | None:
    """The folder that was named, None where none was. An empty name would stand for the folder she is in."""
    if to is not None and not to.strip():
        raise InputProblems(
            [Problem("the command line, --to", "no name", "the folder to write to, such as harbour-skirt")]
        )
    return None if to is None else Path(to)
