"""The examples in the docstrings of the interface for scripts say what comes back.

Looked for in these modules alone: pytest's own search for examples reads every file of the tests too, which took each
process of the tests half a second before the first of them ran.
"""

from __future__ import annotations

import doctest
import pkgutil
from importlib import import_module

from output import api


def test_every_example_in_the_docstrings_gives_what_stands_there() -> None:
    modules = [api, *(import_module(f"{api.__name__}.{found.name}") for found in pkgutil.iter_modules(api.__path__))]
    tried = {module.__name__: doctest.testmod(module) for module in modules}
    assert tried[api.__name__].attempted > 5
    assert [name for name, result in tried.items() if result.failed] == []
