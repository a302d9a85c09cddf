"""A band lies the way in which the pattern takes fewer sheets of paper."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from drafting.pattern import PieceKind, pieces_of
from output.api import draft, read_garment
from output.sheets import large_sheet
from output.sheets.large_sheet import lay_out
from output.sheets.papers import PAPERS

TOWPATH = Path(__file__).parents[3] / "examples" / "garments" / "towpath-skirt.toml"


@pytest.mark.parametrize("paper", ["A4", "Letter", "A3"])
def test_a_band_is_turned_where_that_takes_fewer_sheets_and_never_for_more(
    paper: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    pattern = draft(read_garment(TOWPATH)).pattern
    laid = lay_out(pattern, paper=PAPERS[paper])
    monkeypatch.setattr(large_sheet, "_band_turned", lambda pattern, _paper: pattern)
    upright = lay_out(pattern, paper=PAPERS[paper])
    assert len(laid.cells) <= len(upright.cells)
    if paper == "A4":
        assert len(laid.cells) < len(upright.cells)


def test_a_pattern_without_a_band_is_arranged_once(monkeypatch: pytest.MonkeyPatch) -> None:
    pattern = draft(read_garment(TOWPATH)).pattern
    (band,) = pieces_of(pattern, PieceKind.BAND)
    without = replace(
        pattern,
        pieces=tuple(piece for piece in pattern.pieces if piece is not band),
        seams=tuple(s for s in pattern.seams if all(ref.piece != band.name for ref in (*s.a, *s.b))),
        derived=(),
    )
    count = []
    arrange = large_sheet.arrange
    monkeypatch.setattr(large_sheet, "arrange", lambda *given: (count.append(1), arrange(*given))[1])
    lay_out(without, paper=PAPERS["A4"])
    assert len(count) == 1
