"""Laws are tried on the same examples every time, so that a change is judged by itself and not by chance.

`--hypothesis-profile=wide` tries others, at random: what that finds is a fault, and becomes a test of its own.
"""

from __future__ import annotations

import gc
import os
import sys
import tomllib
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

if TYPE_CHECKING:
    from xdist.remote import Producer
    from xdist.scheduler import Scheduling

settings.register_profile("steady", derandomize=True, database=None)
settings.register_profile("wide", derandomize=False)
settings.load_profile("steady")

# Many tests start a process of ours: were what it compiles not kept, each would compile the whole house again.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
sys.dont_write_bytecode = False

# What collecting makes stays until the end: to look through it again and again for rubbish took half of collecting.
gc.disable()


def pytest_addoption(parser: pytest.Parser) -> None:
    """The option that takes the whole of the tests."""
    parser.addoption("--whole", action="store_true", help="also the tests marked `whole`: of many near kin, all")


def pytest_configure(config: pytest.Config) -> None:
    """Tell of the marks."""
    config.addinivalue_line("markers", "whole: near kin of tests that always run; runs with --whole, or by its name")
    config.addinivalue_line("markers", "longer: `whole` because it is dear (tests/longer.toml); .ci/run always runs it")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Without --whole, what is marked `whole` does not run, unless it is asked for by its name."""
    for item in items:
        if not longer_tests().isdisjoint((item.nodeid, item.nodeid.partition("[")[0])):
            item.add_marker("longer")
            item.add_marker("whole")
    if config.getoption("--whole") or any("::" in each for each in config.args):
        return
    kin = [item for item in items if item.get_closest_marker("whole")]
    if kin:
        config.hook.pytest_deselected(items=kin)
        items[:] = [item for item in items if not item.get_closest_marker("whole")]


@cache
def longer_tests() -> frozenset[str]:
    """The dear tests that the short run leaves out, as pytest names them."""
    told = tomllib.loads((Path(__file__).parent / "longer.toml").read_text(encoding="utf-8"))
    return frozenset(f"tests/{room}/{name}" for room, names in told.items() for name in names)


def pytest_collection_finish() -> None:
    """From here on rubbish is looked for only in what the tests themselves make, and a tenth as often as is usual."""
    gc.freeze()
    gc.set_threshold(7000, 20, 20)
    gc.enable()


@pytest.hookimpl(optionalhook=True, tryfirst=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Producer) -> Scheduling | None:
    """With -n, each process begins with a run of tests that stand together, so that what a file keeps is made once.

    Whoever is done first takes over from the others: no core waits at the end. `--dist` asks for another way.
    """
    if config.getoption("dist") != "load":  # what -n alone asks for
        return None
    from xdist.scheduler import WorkStealingScheduling

    return WorkStealingScheduling(config, log)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say at the end which tests did not run for want of a browser, and how to run them."""
    missed = _missed_for_want_of_a_browser(terminalreporter)
    if missed:
        files = sorted({each.nodeid.split("::")[0] for each in missed})
        terminalreporter.write_line(
            f"NOT run: {len(missed)} tests that look at the page and the report in a browser, in {', '.join(files)}. "
            "There is no Chromium here. Install it (Debian: apt-get install chromium), then run: "
            f".venv/bin/python -m pytest {' '.join(files)}",
            yellow=True,
        )


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session: pytest.Session) -> None:
    """With TRUESEAM_BROWSER=needed in the environment, as .ci/run sets it, what did not run is a failure."""
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if os.environ.get("TRUESEAM_BROWSER") == "needed" and reporter and _missed_for_want_of_a_browser(reporter):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


def _missed_for_want_of_a_browser(reporter: pytest.TerminalReporter) -> list[pytest.TestReport]:
    return [each for each in reporter.stats.get("skipped", []) if "no Chromium here" in str(each.longrepr)]
