"""Everything public in the program is used by the program, or offered to whoever writes a script."""

from __future__ import annotations

import ast
import re
from collections import Counter
from collections.abc import Iterator

from output import api
from tests.house.parsed import modules
from tests.house.test_house import ROOT

KEPT: dict[str, str] = {}
"""Names that only tests and tools use, each with the reason why it stands in the program."""


def public(tree: ast.Module) -> Iterator[str]:
    """The functions, classes and constants of a module that are no one's own."""
    for node in tree.body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            names = [node.name]
        elif isinstance(node, ast.Assign):
            names = [to.id for to in node.targets if isinstance(to, ast.Name)]
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            names = [node.target.id]
        else:
            continue
        yield from (name for name in names if not name.startswith("_"))


def used(tree: ast.Module) -> Iterator[str]:
    """Every name that a module reads: by itself, behind a point, or in a text that says where something is found."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load):
            yield node.id
        elif isinstance(node, ast.Attribute):
            yield node.attr
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield from re.findall(r"^[\w.]+:(\w+)$", node.value)


def test_what_is_public_is_used_by_the_program_or_offered_to_scripts() -> None:
    read = Counter(name for tree in modules().values() for name in used(tree))
    unused = {
        name: str(path.relative_to(ROOT))
        for path, tree in modules().items()
        for name in public(tree)
        if not read[name] and name not in api.__all__ and name not in KEPT
    }
    assert unused == {}


def test_what_is_kept_for_tools_is_there_and_unused() -> None:
    there = {name for tree in modules().values() for name in public(tree)}
    assert set(KEPT) <= there
