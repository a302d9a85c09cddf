"""A lapped shoulder is bound like the neck and fastened by nothing: its piece says so."""

from __future__ import annotations

from pathlib import Path

from output.api import draft, read_garment, svg

SANNE = Path(__file__).parents[3] / "examples" / "people" / "sanne.toml"


def test_a_lapped_shoulder_is_told_to_be_bound_and_not_to_be_fastened(tmp_path: Path) -> None:
    path = tmp_path / "top.toml"
    path.write_text(
        f'title = "Top"\nwearer = "{SANNE.as_posix()}"\ndate = 2026-11-20\n[cloth]\nkind = "jersey"\n'
        '[[block]]\nname = "child\'s bodice"\nopening = "lapped shoulder"\nbelow_waist = "12 cm"\n',
        encoding="utf-8",
    )
    for piece in draft(read_garment(path)).pieces:
        drawn = svg(piece)
        assert "shoulder: to be bound, laps over" in drawn
        assert "to be fastened" not in drawn
