"""What is taken where nothing is said, in the rooms of the pattern and the checks: the defaults of every function and
value there, as when last looked at (`python -m tests.golden`)."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Iterator
from dataclasses import MISSING, fields, is_dataclass
from pathlib import Path
from types import ModuleType
from typing import Final

import drafting.checks
import drafting.pattern

LEFT_OUT: Final = Path(__file__).parent / "defaults" / "left_out.txt"


def left_out_digest() -> str:
    """The page: a line for each."""
    return "\n".join(line for room in (drafting.checks, drafting.pattern) for line in _of_room(room)) + "\n"


def pages() -> Iterator[tuple[str, str]]:
    """The page by the name of its file."""
    yield f"defaults/{LEFT_OUT.name}", left_out_digest()


def _of_room(room: ModuleType) -> Iterator[str]:
    for info in sorted(pkgutil.iter_modules(room.__path__), key=lambda each: each.name):
        module = importlib.import_module(f"{room.__name__}.{info.name}")
        for name, value in sorted(vars(module).items()):
            if getattr(value, "__module__", "") == module.__name__ and (
                inspect.isclass(value) or inspect.isfunction(value)
            ):
                for inner, each in [(name, value), *((f"{name}.{k}", v) for k, v in sorted(_methods(value)))]:
                    if told := ", ".join(_defaults(each)):
                        yield f"{module.__name__.removeprefix('drafting.')}.{inner}: {told}"


def _methods(value: object) -> list[tuple[str, object]]:
    if not inspect.isclass(value):
        return []
    return [
        (name, each) for name, each in vars(value).items() if inspect.isfunction(each) and not name.startswith("__")
    ]


def _defaults(value: object) -> Iterator[str]:
    if isinstance(value, type) and is_dataclass(value):
        for field in fields(value):
            if field.init and (field.default, field.default_factory) != (MISSING, MISSING):
                yield f"{field.name} = {'made anew' if field.default is MISSING else repr(field.default)}"
    elif inspect.isfunction(value):
        for each in inspect.signature(value).parameters.values():
            if each.default is not inspect.Parameter.empty:
                yield f"{each.name} = {each.default!r}"


def test_what_is_taken_where_nothing_is_said_is_what_it_was() -> None:
    assert left_out_digest().splitlines() == LEFT_OUT.read_text(encoding="utf-8").splitlines()
