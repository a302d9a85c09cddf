"""However long a chain of files or a list of steps, it is read or refused in a sentence, and soon."""

from __future__ import annotations

from pathlib import Path

import pytest

from blocks.from_file.garment_file import MOST_FILES, MOST_STEPS, read_garment
from drafting.errors import InputProblems
from tests.output.running import SKIRT, ran, written

STEP = """[[step]]
alter = "lengthen"
piece = "skirt front"
by = "1 mm"
"""


def refusals(path: Path) -> tuple[str, ...]:
    with pytest.raises(InputProblems) as caught:
        read_garment(path)
    return caught.value.sentences()


def followed(folder: Path, count: int, more: str = "") -> Path:
    """So many garment files, each like the one before; the path of the last."""
    path = written(folder)
    for n in range(1, count):
        path, before = folder / f"{n}.toml", path
        path.write_text(f'like = "{before.name}"\n{more}', encoding="utf-8")
    return path


def test_a_chain_of_as_many_files_as_may_be_is_read(tmp_path: Path) -> None:
    garment = read_garment(followed(tmp_path, MOST_FILES, STEP))
    assert garment.title == "Quay skirt"
    assert len(garment.steps) == MOST_FILES - 1


@pytest.mark.parametrize("count", [MOST_FILES + 1, 500, 3000])
def test_a_longer_chain_is_refused_in_one_sentence(count: int, tmp_path: Path) -> None:
    said = refusals(followed(tmp_path, count))
    assert [sentence for sentence in said if f"{MOST_FILES} garment files or fewer" in sentence]
    # what the files beyond would have told is missing too: nothing else is complained of but that
    assert len(said) <= 2


def test_the_command_refuses_a_deep_chain_as_what_she_wrote_and_not_as_a_fault(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    result = ran(capsys, "check", followed(tmp_path, 500))
    assert result.status == 2
    assert "fault of trueseam" not in result.err


def test_as_many_steps_as_may_be_are_read(tmp_path: Path) -> None:
    path = written(tmp_path, SKIRT + STEP * MOST_STEPS)
    assert len(read_garment(path).steps) == MOST_STEPS


@pytest.mark.parametrize("count", [MOST_STEPS + 1, 2 * MOST_STEPS])
def test_more_steps_are_refused_in_one_sentence(count: int, tmp_path: Path) -> None:
    (said,) = refusals(written(tmp_path, SKIRT + STEP * count))
    assert f"{count} times [[step]]" in said
    assert f"expected {MOST_STEPS} or fewer" in said


def test_steps_of_the_files_it_follows_count_too(tmp_path: Path) -> None:
    path = written(tmp_path, SKIRT + STEP * (MOST_STEPS - 1))
    follows = tmp_path / "follows.toml"
    follows.write_text(f'like = "{path.name}"\n{STEP * 2}', encoding="utf-8")
    (said,) = refusals(follows)
    assert "expected 1 or fewer" in said
    assert f"are {MOST_STEPS - 1} already" in said


def test_sleeves_taken_from_files_that_take_sleeves_do_not_multiply(tmp_path: Path) -> None:
    """Ten steps a file and six files deep would be a million files to read."""
    written(tmp_path)
    dress = 'title = "Dress"\nwearer = "inga.toml"\n[[block]]\nname = "bodice"\n[[block]]\nname = "sleeve"\n'
    (tmp_path / "0.toml").write_text(dress, encoding="utf-8")
    for n in range(1, 7):
        step = f'[[step]]\nalter = "put sleeve in"\ngarment = "{n - 1}.toml"\n'
        (tmp_path / f"{n}.toml").write_text(dress + step * 10, encoding="utf-8")
    assert any(f"{MOST_FILES} garment files or fewer" in sentence for sentence in refusals(tmp_path / "6.toml"))


def test_blocks_without_number_are_refused_in_one_sentence(tmp_path: Path) -> None:
    (said,) = refusals(written(tmp_path, SKIRT + '[[block]]\nname = "skirt"\n' * 900))
    assert "901 times [[block]]" in said


@pytest.mark.parametrize("part", [STEP, '[[block]]\nname = "skirt"\n'])
def test_names_without_number_are_refused_before_they_are_read(part: str, tmp_path: Path) -> None:
    (said,) = refusals(written(tmp_path, SKIRT + part * 10_000))
    assert "names and headings, expected a file of up to 2,000" in said
