"""What is shipped: the sources build the wheel, the wheel goes into a fresh environment, and its command drafts there.

Nothing is fetched: the build uses the setuptools that is here, and the fresh environment borrows the libraries (not
the project) of the one the tests run in.
"""

from __future__ import annotations

import email
import shutil
import subprocess
import sys
import sysconfig
import tarfile
import zipfile
from collections.abc import Iterator
from email.message import Message
from pathlib import Path

import numpy
import pytest

from tests.house.test_house import ROOT, kept

PACKAGES = ("drafting", "blocks", "output")


def run(*words: str | Path, cwd: Path) -> str:
    done = subprocess.run([str(word) for word in words], cwd=cwd, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def build(what: str, source: Path, to: Path) -> Path:
    """The one distribution that a hook of the build backend makes of a source tree."""
    hook = f"import sys; sys.path.insert(0, '.ci'); import backend; print(backend.build_{what}({str(to)!r}))"
    return to / run(sys.executable, "-c", hook, cwd=source).splitlines()[-1]


def sources() -> Iterator[Path]:
    """What git holds, as paths from the top."""
    for path in kept():
        yield path.relative_to(ROOT)


@pytest.fixture(scope="module")
def shipped(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a source distribution, unpacked."""
    place = tmp_path_factory.mktemp("sources")
    for path in sources():
        (place / "tree" / path).parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(ROOT / path, place / "tree" / path)
    packed = build("sdist", place / "tree", place)
    with tarfile.open(packed) as archive:
        archive.extractall(place, filter="data")
    return place / packed.name.removesuffix(".tar.gz")


@pytest.fixture(scope="module")
def wheel(shipped: Path) -> Path:
    return build("wheel", shipped, shipped.parent)


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the commands of a fresh environment that holds the wheel, and the libraries of this one."""
    place = tmp_path_factory.mktemp("fresh")
    run(sys.executable, "-m", "venv", "--without-pip", "here", cwd=place)
    folder = Path(sysconfig.get_path("scripts", vars={"base": str(place / "here")}))
    python = folder / Path(sys.executable).name
    pip = (
        sys.executable,
        "-m",
        "pip",
        "--python",
        python,
        "install",
        "--quiet",
        "--no-deps",
        "--no-index",
        "--no-compile",
    )
    run(*pip, wheel, cwd=place)
    found = run(python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))", cwd=place).strip()
    # a folder named in a .pth file is searched, but not for .pth files: the project, which is there by one, stays out
    Path(found, "libraries.pth").write_text(f"{Path(numpy.__file__).parents[1]}\n")
    return folder


def metadata(wheel: Path) -> Message:
    with zipfile.ZipFile(wheel) as archive:
        (name,) = (name for name in archive.namelist() if name.endswith(".dist-info/METADATA"))
        return email.message_from_bytes(archive.read(name))


def test_the_source_distribution_holds_all_that_git_holds(shipped: Path) -> None:
    assert [str(path) for path in sources() if not (shipped / path).is_file()] == []


def test_the_wheel_holds_every_module_and_table_and_nothing_else(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        there = {name for name in archive.namelist() if ".dist-info/" not in name}
    assert there == {path.as_posix() for path in sources() if path.parts[0] in PACKAGES}


def test_the_wheel_says_what_it_is(wheel: Path) -> None:
    told = metadata(wheel)
    assert (told["Name"], told["License-Expression"], told["Requires-Python"]) == (
        "trueseam",
        "MIT AND Apache-2.0 AND Bitstream-Vera",
        ">=3.11",
    )
    assert told["Summary"]
    assert told["Keywords"]
    assert "Typing :: Typed" in told.get_all("Classifier", [])
    assert "# trueseam" in str(told.get_payload())


def test_the_command_of_the_wheel_drafts_in_a_fresh_environment(installed: Path, wheel: Path, tmp_path: Path) -> None:
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    command = installed / "trueseam"
    assert run(command, "--version", cwd=tmp_path).split() == ["trueseam", metadata(wheel)["Version"]]
    run(command, "draft", "examples/garments/slipway-skirt.toml", "--to", "skirt", "--paper", "A0", cwd=tmp_path)
    assert (tmp_path / "skirt" / "report.html").is_file()
    assert (tmp_path / "skirt" / "pattern.dxf").is_file()
    where = "import drafting, blocks, output; print(drafting.__file__, blocks.__file__, output.__file__)"
    came_from = run(installed / "python", "-c", where, cwd=tmp_path).split()
    assert [path for path in came_from if str(installed.parent) not in path] == []
