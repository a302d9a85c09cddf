"""A pattern from elsewhere as a page shows it: read from its file, checked, told, drawn, put on paper."""

from __future__ import annotations

from pathlib import Path

from blocks.paper import Paper
from drafting.checks import Verdict, run_checks, worst
from drafting.dataclass import dataclass
from output.api.garment_files import Tell, on_paper, pattern_files
from output.api.pattern_reader import PATTERN_ENDINGS, load_pattern
from output.api.pattern_summary import pattern_told
from output.api.plain_passage import plain_passage
from output.api.writing import svg

__all__ = ["PATTERN_ENDINGS", "BroughtPattern", "brought_files", "look_at_pattern"]


@dataclass(frozen=True, slots=True)
class BroughtPattern:
    """A pattern that was read. said: passages and tables as plain values, the verdict first; picture: its pieces"""

    title: str
    verdict: Verdict
    said: tuple[dict[str, object], ...]
    picture: str


def look_at_pattern(path: Path, unit: str) -> BroughtPattern:
    """A pattern.json, or a DXF with what stands beside it, checked. Raises TrueseamError for what cannot be used."""
    pattern = load_pattern(path)
    results = run_checks(pattern)
    beside = path.with_suffix(".toml").name if path.suffix.casefold() == ".dxf" else ""
    said = pattern_told(pattern, results, unit, file=path.name, beside=beside)
    return BroughtPattern(pattern.title, worst(results), tuple(map(plain_passage, said)), svg(pattern))


def brought_files(path: Path, *, paper: str, unit: str, tell: Tell) -> dict[str, bytes]:
    """Every file of it by name: sheets and PDFs for this paper, pieces, DXF, pattern.json. Raises TrueseamError."""
    pattern = load_pattern(path)
    results = run_checks(pattern)
    return dict(pattern_files(pattern, results, on_paper(Paper(), paper), unit, tell=tell))
