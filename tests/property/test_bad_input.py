"""Laws of bad input: whatever stands in a file, it is met with plain sentences, never a traceback, and nothing written.

A hundred spoilt files are read, and drafted where they read well; forty go through the command itself. With --whole
250 are read.
"""

from __future__ import annotations

import random
from collections import Counter
from pathlib import Path

import pytest

from blocks.from_file.garment_file import read_garment
from drafting.errors import TrueseamError
from output.command import main
from output.command.draft import make_garment
from tests.output.running import FERRY, ODA, everything_in, ran, written
from tests.property.mutants import other_numbers, spoilt_bytes, spoilt_lines
from tests.sampling import some

Capsys = pytest.CaptureFixture[str]

GARMENT, PERSON = FERRY.read_bytes(), ODA.read_bytes()


def spoilt(seed: int) -> tuple[bytes, bytes]:
    """A garment file and its person's, one of them spoilt, or both with other numbers."""
    chance = random.Random(seed)
    match seed % 5:
        case 0:
            return spoilt_bytes(GARMENT, chance), PERSON
        case 1:
            return GARMENT, spoilt_bytes(PERSON, chance)
        case 2:
            return spoilt_lines(GARMENT.decode(), chance).encode(), PERSON
        case 3:
            return GARMENT, spoilt_lines(PERSON.decode(), chance).encode()
    return other_numbers(GARMENT.decode(), chance).encode(), other_numbers(PERSON.decode(), chance).encode()


def laid_down(folder: Path, seed: int) -> Path:
    """The spoilt files on the disk, as the examples lie; the path of the garment file."""
    garment, person = folder / "garments" / FERRY.name, folder / "people" / ODA.name
    for path, content in zip((garment, person), spoilt(seed), strict=True):
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(content)
    return garment


def outcome(path: Path) -> tuple[str, tuple[str, ...]]:
    """How drafting a file ends, and the sentences with which it is refused; any other error fails the test."""
    try:
        make_garment(read_garment(path))
    except TrueseamError as refused:
        return type(refused).__name__, refused.sentences()
    return "drafted", ()


@pytest.mark.parametrize("seeds", some([range(100), range(100, 250)], every=2))
def test_spoilt_files_are_drafted_or_refused_in_sentences(seeds: range, tmp_path: Path) -> None:
    outcomes: Counter[str] = Counter()
    for seed in seeds:
        how, sentences = outcome(laid_down(tmp_path, seed))
        outcomes[how] += 1
        assert how == "drafted" or sentences
        assert all(sentence and sentence.replace("\n", "").isprintable() for sentence in sentences), (seed, sentences)
    # each way has been gone: a test that only ever saw one of them would prove little
    assert min(outcomes["drafted"], outcomes["InputProblems"], 10 * outcomes["CannotDraft"]) > 3, outcomes


def test_forty_spoilt_files_end_the_command_with_a_status_and_sentences(tmp_path: Path, capsys: Capsys) -> None:
    statuses: Counter[int] = Counter()
    for seed in range(2500, 2540):
        path = laid_down(tmp_path, seed)
        before = everything_in(tmp_path)
        result = ran(capsys, "check", path)
        statuses[result.status] += 1
        assert result.status in (0, 1, 2), (seed, result.err)
        assert "Traceback" not in result.err
        assert bool(result.err) == (result.status == 2) == (not result.out), seed
        assert everything_in(tmp_path) == before
    assert statuses[0] > 0
    assert statuses[2] > 0


@pytest.mark.parametrize("seeds", some([range(2700, 2704), range(2704, 2725)], every=2))
def test_a_refused_draft_writes_nothing_and_another_writes_all(seeds: range, tmp_path: Path, capsys: Capsys) -> None:
    for seed in seeds:
        path = laid_down(tmp_path, seed)
        before = everything_in(tmp_path)
        to = tmp_path / str(seed)
        result = ran(capsys, "draft", path, "--to", to, "--json")
        assert result.status in (0, 1, 2), (seed, result.out)
        if result.status == 2:
            assert everything_in(tmp_path) == before
            assert not to.exists()
        else:
            assert {"report.html", "pattern.json", "pattern.dxf"} <= everything_in(to).keys()


@pytest.mark.parametrize("name", ["pattern.json", "pattern.dxf"])
def test_spoilt_patterns_are_checked_or_refused_in_sentences(name: str, tmp_path: Path, capsys: Capsys) -> None:
    assert main(["draft", str(written(tmp_path)), "--to", str(tmp_path / "whole")]) == 0
    whole = (tmp_path / "whole" / name).read_bytes()
    statuses: Counter[int] = Counter()
    for seed in range(40):
        path = tmp_path / name
        path.write_bytes(spoilt_bytes(whole, random.Random(seed)))
        result = ran(capsys, "check", path)
        statuses[result.status] += 1
        assert result.status in (0, 1, 2), (seed, result.err)
        assert "Traceback" not in result.err
    assert statuses[2] > 0
