"""One browser for all the tests of a process, and one folder that is served."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.outside.opened_page import FERRY, LANTERN, TOLLHOUSE, chromium, examples, put_back, serving


@pytest.fixture(scope="session")
def open_browser() -> Iterator[Any]:
    pytest.importorskip("playwright.sync_api")
    with chromium() as found:
        put_back(found)
        yield found


@pytest.fixture
def browser(open_browser: Any) -> Iterator[Any]:
    """The browser, with one plain page that is empty; whatever else a test opens is closed for it."""
    yield open_browser
    put_back(open_browser)


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Path, str, int]]:
    """A folder that is served, its address, and the process that serves it."""
    whole = tmp_path_factory.mktemp("folder")
    with serving(whole) as (address, process):
        yield whole, address, process


@pytest.fixture
def folder(server: tuple[Path, str, int], request: pytest.FixtureRequest) -> Iterator[Path]:
    """A part of it that only this test writes to. It is taken away again: every page lists all that is there."""
    mine = server[0] / request.node.name[:40]
    mine.mkdir()
    yield examples(mine, FERRY, LANTERN, TOLLHOUSE)
    shutil.rmtree(mine)
