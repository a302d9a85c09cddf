"""Whatever is given to a function of `output.api` in the place of what it takes, it is refused in a sentence."""

from __future__ import annotations

import datetime
import inspect
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from drafting.errors import Remedy, Setting, TrueseamError
from output import api
from output.api import (
    Cloth,
    Draft,
    Garment,
    Lengthen,
    Paper,
    alter,
    block,
    check,
    draft,
    draft_for,
    part,
    person,
    size_choice,
)

ODA = person({"height": 1680, "bust": 920, "waist": 740, "hip": 990}, name="Oda")
SKIRT = draft(Garment("Quay skirt", ODA, [block("skirt", length=600)], paper=Paper("A0")))  # type: ignore[arg-type]
PIM = person(
    {"height": 1120, "chest": 580, "waist": 540, "hip": 600},
    body="girl",
    born=datetime.date(2020, 5, 1),
    measured=datetime.date(2026, 9, 1),
)
REMEDY = Remedy("add", "lengthen", (Setting("piece", "skirt front"), Setting("by", 30.0, "mm")))
CHOICE = size_choice("women", ODA)

WRONG: tuple[object, ...] = (
    None,
    4_000,
    -1,
    math.nan,
    math.inf,
    10**400,
    True,
    "",
    "x",
    "\x00\ud800",
    "long" * 200,
    [],
    ["skirt"],
    [None],
    {},
    {3: 4},
    {"bust": "x"},
    object(),
    Lengthen,
    Cloth(),
    ODA,
    SKIRT,
    b"\xff",
    1j,
    Path("nowhere"),
)
"""Of each sort that one may give by mistake; some of them do in some places."""

NEVER: tuple[object, ...] = tuple(
    wrong for wrong in WRONG if isinstance(wrong, bytes | complex) or type(wrong) is object or wrong in ({3: 4}, [None])
)
"""What can be right nowhere."""

OURS = {
    *(("Garment", name) for name in ("sizes", "sources", "grow_until", "grow_ease", "place")),
    *(("Paper", name) for name in ("by_unit", "usual_seam")),
    ("growing", "place"),
}
"""What our own readers of files fill in, from values that they have judged: nobody gives it by hand."""

RIGHT: dict[str, dict[str, object]] = {
    "Cloth": {},
    "Garment": {"title": "Quay skirt", "wearer": ODA, "blocks": [block("skirt")]},
    "Paper": {},
    "alter": {"drafted": SKIRT, "step": "lengthen", "piece": "skirt front", "by": 30},
    "block": {"name": "skirt", "length": 600},
    "check": {"drafted": SKIRT, "after": None},
    "compare": {"before": SKIRT, "after": SKIRT},
    "draft": {"garment": SKIRT.garment},
    "draft_for": {"garment": SKIRT.garment, "people": [ODA], "to": None, "paper": "A0", "unit": None},
    "dxf": {"drafted": SKIRT},
    "edges": {"drafted": SKIRT},
    "garment_kinds": {},
    "growing": {"who": PIM, "until": None, "pattern": None},
    "lay": {"drafted": SKIRT, "material": "shell", "width": 1400, "fold": "single", "seconds": 0, "tell": print},
    "measurements": {"drafted": SKIRT},
    "over_time": {"person": ODA},
    "part": {"name": "waistband", "height": 35},
    "pdf": {"drafted": SKIRT, "paper": "A0"},
    "person": {
        "measurements": {"height": 1680, "bust": 920, "waist": 740, "hip": 990},
        "name": "Oda",
        "body": "woman",
        "measured": None,
        "born": None,
        "unit": "cm",
        "place": "",
        "earlier": {},
    },
    "read_garment": {"path": Path("nowhere.toml"), "wearer": None},
    "read_pattern": {"path": Path("nowhere.dxf"), "unit": None},
    "read_person": {"source": Path("nowhere.toml"), "place": "nowhere.toml"},
    "report": {"drafted": SKIRT},
    "sewing": {"drafted": SKIRT},
    "sheets": {"drafted": SKIRT, "paper": "A0"},
    "size_choice": {"chart": "women", "who": ODA, "kind": "dress", "cloth": None, "fit": None},
    "size_data": {"choice": CHOICE},
    "size_page": {"choice": CHOICE},
    "svg": {"drawn": SKIRT},
    "to_buy": {"drafted": SKIRT},
    "worth_measuring": {"drafted": SKIRT},
    "to_json": {"drafted": SKIRT, "checks": ()},
    "undo": {"drafted": SKIRT},
    "what_saves_cloth": {"drafted": SKIRT, "fold": "single", "seconds": 0},
    "write": {"drafted": SKIRT, "folder": "skirt", "paper": "A0"},
    "with_remedy": {"garment": SKIRT.garment, "remedy": REMEDY},
}
"""Arguments that do, by function; each is changed by itself."""


def _every_wrong_call() -> list[tuple[str, str]]:
    calls: dict[tuple[str, str], None] = {}
    for name, right in RIGHT.items():
        named = [each for each in inspect.signature(getattr(api, name)).parameters if each != "options"]
        calls |= dict.fromkeys((name, parameter) for parameter in (*right, *named))
    return list(calls)


def refused(call: Callable[[], object]) -> bool:
    """Whether it raises an error of ours, whose sentences are held to a length; any other error fails the test."""
    said: tuple[str, ...] = ()
    try:
        call()
    except TrueseamError as refusal:
        said = (str(refusal), *refusal.sentences())
    assert all(0 < len(sentence) < 2_000 for sentence in said)
    return said != ()


def test_every_function_that_is_documented_is_tried() -> None:
    called = {name for name in api.__all__ if callable(getattr(api, name))}
    assert called - {"Draft", "StepRefused", "TrueseamError"} == RIGHT.keys()


@pytest.mark.parametrize(("name", "parameter"), _every_wrong_call())
def test_a_wrong_argument_is_refused_in_a_sentence(
    name: str, parameter: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    function: Any = getattr(api, name)
    for wrong in WRONG:
        was = refused(lambda wrong=wrong: function(**{**RIGHT[name], parameter: wrong}))  # type: ignore[misc]
        assert was or (name, parameter) in OURS or not any(wrong is each for each in NEVER), wrong


@pytest.mark.parametrize(
    ("made", "told"),
    [
        (lambda: Garment("Quay", ODA, ["skirt"]), 'garment, blocks: read "skirt", expected a list of blocks: [block('),
        (lambda: Garment("Quay", ODA, block("skirt")), "garment, blocks: read a BlockOrder, expected a list of blocks"),
        (lambda: Garment("Quay", ODA, []), "garment, blocks: read an empty list, expected a list of blocks"),
        (lambda: Garment("Quay", ODA, [block("skirt")] * 2), 'Quay, blocks: read "skirt" twice, expected each block'),
        (lambda: Garment("Quay", ODA, [block("skirt")], paper="A4"), 'expected a paper: Paper("A4")'),
        (lambda: Garment("Quay", ODA, [block("skirt")], cloth="denim"), 'expected a cloth: Cloth("woven"'),
        (lambda: Garment("Quay", ODA, [block("skirt")], steps=["lengthen"]), "garment, steps: read "),
        (lambda: Garment("Quay", ODA, [block("skirt")], parts=["waistband"]), '[part("waistband")]'),
        (
            lambda: draft_for(SKIRT.garment, []),
            "an empty list, expected somebody to draft for. Put in whom it is for: [per",
        ),
        (lambda: Paper("A5"), 'There is no paper "A5". Did you mean "A4"'),
        (lambda: Paper("A17"), 'There is no paper "A17"'),
        (lambda: alter(SKIRT, Lengthen), "alter, step: read the class Lengthen, expected the name of an alteration"),
        (lambda: alter(SKIRT, Lengthen("skirt front", 30), by=3), "read by beside an alteration that is made already"),
        (lambda: check(SKIRT, after=3), "check, after: read 3, expected what an earlier check(...) found"),
        (lambda: person({"height": "1680", "bust": 920, "waist": 740, "hip": 990}), 'the person, height: read "1680"'),
        (lambda: person({3: 1680}), 'There is no measurement "3"'),
        (lambda: check(part("waistband")), "the draft: read a Derived, expected a draft, as draft(garment)"),
    ],
)
def test_it_says_what_was_given_and_what_to_write(made: Callable[[], Draft], told: str) -> None:
    with pytest.raises(TrueseamError) as refused:
        made()
    assert told in str(refused.value)
