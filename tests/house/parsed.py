"""Every module of the program as Python parses it, read once for all tests that look at the code."""

from __future__ import annotations

import ast
import gc
from functools import cache
from pathlib import Path

__all__ = ["modules", "nodes"]

_ROOT = Path(__file__).parents[2]


@cache
def modules() -> dict[Path, ast.Module]:
    """Each by its path. Rubbish is not looked for meanwhile: there is none, and looking took most of the time."""
    gc.disable()
    paths = (path for package in ("drafting", "blocks", "output") for path in (_ROOT / package).rglob("*.py"))
    found = {path: ast.parse(path.read_text(encoding="utf-8")) for path in paths}
    gc.freeze()
    gc.enable()
    return found


@cache
def nodes(path: Path) -> tuple[ast.AST, ...]:
    """All that a module is made of, in the order of `ast.walk`, which takes longer than what is looked for in it."""
    return tuple(ast.walk(modules()[path]))
