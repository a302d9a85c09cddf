"""How much cloth to buy stands on the first sheet, as the report says it."""

from __future__ import annotations

import re
from pathlib import Path

from output.api import draft, pdf, read_garment, report
from output.api.laying import cloth_lines
from tests.outside.read_pdf import text_of

SKIRT = Path(__file__).parents[3] / "examples" / "garments" / "slipway-skirt.toml"


def test_the_first_sheet_says_how_much_to_buy_as_the_report_does() -> None:
    skirt = draft(read_garment(SKIRT))
    shell, interfacing = cloth_lines(skirt)
    assert re.match(r"[\d.]+ m of shell, 140 cm wide; or [\d.]+ m of 90 cm, [\d.]+ m of 112 cm", shell)
    assert re.match(r"[\d.]+ m of interfacing, 90 cm wide; or ", interfacing)
    written = re.sub(r"\s+", " ", text_of(pdf(skirt))[0])
    assert shell in written
    assert interfacing in written
    # in the report the same length stands in the row of that width, folded lengthwise
    length = shell.split(" of ")[0]
    assert re.search(rf">140(?:\.0)? cm</t[hd]><td[^>]*>{re.escape(length)}<", report(skirt))
