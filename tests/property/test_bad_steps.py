"""Steps as a hurried dressmaker or a malicious tester would write them, on every kind of garment there is.

Every option is tried at both ends of its range and just outside, with what is no value at all, and with sensible
amounts; every alteration on garments of every choice of blocks. A garment is checked, or refused in sentences.
"""

from __future__ import annotations

import json
import random
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from drafting.alterations import ALTERATIONS, Alteration
from drafting.reading.options import Option
from tests.alteration_samples import SAMPLES, TROUSER_SAMPLES
from tests.output.running import ODA, Ran, everything_in, ran
from tests.sampling import some

Capsys = pytest.CaptureFixture[str]

KINDS = (("bodice",), ("skirt",), ("bodice", "sleeve"), ("bodice", "skirt"), ("bodice", "sleeve", "skirt"))
WRONG = (
    *("nan", "-inf", "1e308", "0", "-7", "2.5", "99999999999999999999", "true", "[]", "{}", "2026-10-03", '""', '"x"'),
    *('"3"', '"3 furlongs"', '"0 cm"', '"-3 cm"', '"1/0 in"', '"50 %"', '"500 %"', '"\\u0000"', '"[red]x[/red]"'),
    *('"sleeve"', '"bodice front, side"', '"../other.toml"', '"other.toml"', '"garment.toml"', '"."'),
)

REFUSED = '[[step]]\nalter = "take in"\nwaist = "0 cm"\n'
"""A step that reads well and cannot be taken."""


def head(kind: tuple[str, ...], whose: str) -> str:
    blocks = "".join(f'[[block]]\nname = "{block}"\n' for block in kind)
    return f'title = "Tide"\n{whose}\n{blocks}'


def written_as(option: Option, value: object) -> str:
    """A value as a garment file gives it."""
    if isinstance(value, bool | str):
        return json.dumps(value)
    assert isinstance(value, int | float)
    match option.kind:
        case "length":
            return f'"{value:.6f} mm"'
        case "percent":
            return f'"{100 * value:.6f} %"'
    return f"{value:g}"


def at_its_ends(option: Option) -> Iterator[float]:
    """The ends of its range, and a little outside and inside of both."""
    little = 1.0 if option.kind == "number" else 0.001
    for end in (option.low, option.high):
        if end is not None:
            yield from (end - little, end, end + little)


def a_step(entry: type[Alteration], chance: random.Random) -> str:
    """One step of this alteration: a sensible one, with one of its options at an end or wrong more often than not."""
    told = dict(chance.choice({**SAMPLES, **TROUSER_SAMPLES}[entry.name]))
    if "garment" in told:
        told["garment"] = "other.toml"
    options = {option.name: option for option in entry.options}
    lines = {key: written_as(options[key], value) for key, value in told.items()}
    option = chance.choice(entry.options)
    match chance.randrange(5):
        case 0:
            lines[option.name] = chance.choice(WRONG)
        case 1 | 2:
            if ends := list(at_its_ends(option)):
                lines[option.name] = written_as(option, chance.choice(ends))
        case 3:
            if option.choices:
                lines[option.name] = written_as(option, chance.choice(option.choices))
    return f'[[step]]\nalter = "{entry.name}"\n' + "".join(f"{key} = {text}\n" for key, text in lines.items())


def a_garment(seed: int) -> str:
    """A garment of one to three steps; every alteration is the first of them in its turn."""
    chance = random.Random(seed)
    table = tuple(ALTERATIONS)
    entries = [table[seed % len(table)], *chance.choices(table, k=chance.choice((0, 0, 1, 2)))]
    whose = chance.choice(('wearer = "oda.toml"', "[sizes]\nbust = 92", "[sizes]\nbust = 116"))
    return head(chance.choice(KINDS), whose) + "".join(a_step(entry, chance) for entry in entries)


def checked(capsys: Capsys, folder: Path, seed: int) -> Ran:
    (folder / "garment.toml").write_text(a_garment(seed), encoding="utf-8")
    return ran(capsys, "check", folder / "garment.toml", "--json")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a wearer and another garment in it."""
    (tmp_path / "oda.toml").write_bytes(ODA.read_bytes())
    (tmp_path / "other.toml").write_text(head(KINDS[-1], "[sizes]\nbust = 96"), encoding="utf-8")
    return tmp_path


@pytest.mark.parametrize("turn", some((0, 1), every=2))
def test_every_step_on_every_kind_of_garment_is_taken_or_refused_in_sentences(
    turn: int, folder: Path, capsys: Capsys
) -> None:
    statuses: Counter[int] = Counter()
    for seed in range(turn * len(ALTERATIONS), (turn + 1) * len(ALTERATIONS)):
        result = checked(capsys, folder, seed)
        statuses[result.status] += 1
        assert result.status in (0, 1, 2), (seed, result.out)
        assert not result.err, seed
        if result.status < 2:
            assert not [each for each in result.data["checks"] if each["verdict"] == "error"], seed
            continue
        for problem in result.data["problems"]:
            sentence = problem["sentence"]
            assert sentence.isprintable(), (seed, sentence)
            assert sentence.startswith(str(folder)), (seed, sentence)
            assert "Traceback" not in sentence, (seed, sentence)
            assert " was to leave " not in sentence, (seed, sentence)
    assert min(statuses[0], statuses[2]) > 8, statuses


def test_a_refused_draft_with_steps_leaves_no_folder_behind(folder: Path, capsys: Capsys) -> None:
    before = everything_in(folder)
    for seed in range(4):
        (folder / "garment.toml").write_text(a_garment(seed) + REFUSED, encoding="utf-8")
        result = ran(capsys, "draft", folder / "garment.toml", "--to", folder / "out", "--explain")
        assert result.status == 2
        assert everything_in(folder).keys() - before.keys() == {"garment.toml"}
