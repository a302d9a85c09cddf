"""How much cloth to buy stands on the first sheet, as the report says it."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from output.api import draft, pdf, read_garment, report
from output.api.laying import lay, materials_of, to_buy
from output.lay.how_much import shop_length
from tests.examples import GARMENTS
from tests.outside.read_pdf import text_of
from tests.sampling import some

SKIRT = Path(__file__).parents[3] / "examples" / "garments" / "slipway-skirt.toml"


def test_the_first_sheet_says_how_much_to_buy_as_the_report_does() -> None:
    skirt = draft(read_garment(SKIRT))
    bought = to_buy(skirt)
    shell, interfacing = bought[:2]
    assert re.match(r"shell, 140 cm wide: [\d.]+ m; or [\d.]+ m of 90 cm, [\d.]+ m of 112 cm", shell.line)
    assert re.match(r"interfacing, 90 cm wide: [\d.]+ m for skirt front facing; or ", interfacing.line)
    written, page = re.sub(r"\s+", " ", text_of(pdf(skirt))[0]), report(skirt)
    kinds = {each.kind for each in bought}
    assert kinds >= {"shell", "interfacing", "thread"}
    for each in bought:
        assert each.line in written
        assert f"{each.what}</t" in page
        assert each.how_much in page
    # in the report the same length stands in the row of that width, folded lengthwise
    assert re.search(rf">140(?:\.0)? cm</t[hd]><td[^>]*>{re.escape(shell.how_much)}<", page)


@pytest.mark.parametrize(
    ("path", "unit"),
    some([(path, ("cm", "in")[turn % 2]) for turn, path in enumerate(GARMENTS)], every=6),
    ids=lambda each: getattr(each, "stem", each),
)
def test_the_lay_by_itself_and_the_list_tell_one_length(path: Path, unit: str) -> None:
    ordered = read_garment(path)
    drafted = draft(replace(ordered, wearer=replace(ordered.wearer, unit=unit)))
    told = {each.kind: each.how_much for each in to_buy(drafted)}
    for material in materials_of(drafted):
        assert told[material] == shop_length(lay(drafted, material).to_buy, unit)
    assert unit == "cm" or not any(re.search(r"\d (cm|mm|m)\b", each.line) for each in to_buy(drafted))
