"""A garment file that names sizes instead of a wearer."""

from __future__ import annotations

from pathlib import Path

import pytest

from blocks.from_file.garment_file import read_garment
from blocks.garment import Garment, finish
from blocks.nest import nest_members
from drafting.alterations import Blend
from drafting.body.charts import chart_mm
from drafting.checks import Verdict
from drafting.errors import InputProblems
from tests.blocks.nests import draft_nest
from tests.quick_checks import run_checks

BLOCKS = "".join(f'[[block]]\nname = "{name}"\n' for name in ("bodice", "sleeve", "skirt"))
GRAVE = (Verdict.WARN, Verdict.FAIL, Verdict.ERROR)


def garment(folder: Path, sizes: str, *, rest: str = BLOCKS, head: str = 'title = "Dress"\n') -> Garment:
    path = folder / "dress.toml"
    path.write_text(f"{head}{sizes}\n{rest}", encoding="utf-8")
    return read_garment(path)


def problems(folder: Path, sizes: str, *, rest: str = BLOCKS, head: str = 'title = "Dress"\n') -> str:
    with pytest.raises(InputProblems) as wrong:
        garment(folder, sizes, rest=rest, head=head)
    return str(wrong.value)


def test_one_size_everywhere_is_the_body_of_the_chart(tmp_path: Path) -> None:
    pattern = finish(garment(tmp_path, "[sizes]\nbust = 92\nwaist = 92\nhip = 92"))
    assert pattern.history == ()
    assert pattern.wearer.name == "size 92"
    assert {length.source for length in pattern.wearer.lengths} == {"chart"}
    assert pattern.wearer.length("scye_depth").mm == chart_mm(92, "scye_depth")


def test_other_sizes_at_waist_and_hip_are_blended_in_before_any_step(tmp_path: Path) -> None:
    step = '[[step]]\nalter = "lengthen"\npiece = "sleeve"\nby = "2 cm"\n'
    made = garment(tmp_path, "[sizes]\nbust = 92\nwaist = 96\nhip = 100", rest=BLOCKS + step)
    assert made.steps[0] == Blend(waist=96, hip=100, bust=92)
    pattern = finish(made)
    assert [step.alter for step in pattern.history] == ["blend", "lengthen"]
    assert not [result for result in run_checks(pattern) if result.verdict in GRAVE]


def test_a_high_bust_choice_keeps_the_frame_of_the_upper_chest(tmp_path: Path) -> None:
    high = finish(garment(tmp_path, "[sizes]\nupper_chest = 88\nbust = 96\nwaist = 92"))
    plain = finish(garment(tmp_path, "[sizes]\nbust = 88"))
    assert high.piece("bodice back").edge("neck").length == plain.piece("bodice back").edge("neck").length
    assert high.wearer.length("bust_girth").mm == 960.0
    assert not [result for result in run_checks(high) if result.verdict in GRAVE]


def test_a_skirt_alone_is_chosen_by_the_hip(tmp_path: Path) -> None:
    pattern = finish(garment(tmp_path, "[sizes]\nhip = 100\nwaist = 96", rest='[[block]]\nname = "skirt"\n'))
    assert pattern.wearer.length("hip_girth").mm == chart_mm(100, "hip_girth")
    assert pattern.wearer.length("waist_girth").mm == chart_mm(96, "waist_girth")
    assert "A bodice is chosen by the bust" in problems(tmp_path, "[sizes]\nhip = 100")


def test_a_nest_is_drafted_in_each_size_with_every_step(tmp_path: Path) -> None:
    step = '[[step]]\nalter = "lengthen"\npiece = "sleeve"\nby = "2 cm"\n'
    nest = draft_nest(garment(tmp_path, "[sizes]\nnest = [84, 88, 92]", rest=BLOCKS + step))
    assert [each.size for each in nest.sizes] == ["84", "88", "92"]
    assert {len(each.pattern.history) for each in nest.sizes} == {1}
    assert nest.pattern("88").wearer.name == "size 88"


def test_one_size_is_no_nest(tmp_path: Path) -> None:
    assert nest_members(garment(tmp_path, "[sizes]\nbust = 92")) == ()


def test_a_wearer_and_sizes_do_not_go_together_and_one_is_needed(tmp_path: Path) -> None:
    both = problems(tmp_path, "[sizes]\nbust = 92", head='title = "Dress"\nwearer = "oda.toml"\n')
    assert "either a wearer or [sizes]" in both
    assert "the file of the person it is for, or sizes of the chart under [sizes]" in problems(tmp_path, "")


def test_a_file_that_follows_another_takes_its_sizes_or_gives_its_own(tmp_path: Path) -> None:
    garment(tmp_path, "[sizes]\nbust = 92\nwaist = 96")
    (tmp_path / "dress.toml").rename(tmp_path / "first.toml")
    same = garment(tmp_path, "", rest="", head='like = "first.toml"\n')
    other = garment(tmp_path, "[sizes]\nbust = 100", rest="", head='like = "first.toml"\n')
    assert same.sizes is not None
    assert (same.sizes.bust, same.steps) == (92, (Blend(waist=96, bust=92),))
    assert other.sizes is not None
    assert (other.sizes.bust, other.steps) == (100, ())
