"""What pattern.json may say of a remedy is what a remedy may be."""

from __future__ import annotations

import json
from pathlib import Path
from typing import get_args, get_type_hints

import drafting.pattern
from drafting.errors import Remedy, Setting


def test_the_schema_knows_every_act_of_a_remedy() -> None:
    schema = json.loads((Path(drafting.pattern.__file__).parent / "pattern.schema.json").read_text("utf-8"))
    acts = [
        each["properties"]["act"]["enum"] for each in schema["$defs"].values() if "act" in each.get("properties", {})
    ]
    assert acts == [list(get_args(get_type_hints(Remedy)["act"]))]


def test_every_act_is_typed_where_it_belongs() -> None:
    wide = (Setting("width", 23.0, "mm"),)
    typed = {act: Remedy(act, "neck binding", wide).typed() for act in get_args(get_type_hints(Remedy)["act"])}
    assert typed == {
        "add": 'alter = "neck binding", width = "23 mm"',
        "change": 'width = "23 mm"',
        "instead": 'alter = "neck binding", width = "23 mm"',
        "leave out": 'leave out "neck binding"',
        "put before": 'put this step before "neck binding"',
        "set in block": 'width = "23 mm" in the block',
        "set in part": 'width = "23 mm" in the part "neck binding"',
        "set in sizes": 'width = "23 mm" alone under [sizes]',
        "set in paper": 'width = "23 mm" under [paper]',
    }
    onward = Remedy("leave out", "neck binding", onward=True)
    assert onward.typed() == 'leave out "neck binding" and the steps after it'
