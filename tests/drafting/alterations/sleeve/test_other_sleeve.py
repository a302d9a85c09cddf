"""Another garment's sleeve set in: refitted, or as it is, or refused with both lengths; and its history taken again."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from blocks.from_file.garment_file import read_garment
from blocks.garment import finish
from drafting.alterations import FullSleeve, PutSleeveIn, RoomToGrow, UpperArm, apply_step, replay
from drafting.alterations.sleeve.other_sleeve import with_sleeve_of
from drafting.alterations.sleeve.set_in_sleeve import cap_on, sleeve_edges
from drafting.errors import InputProblems, NotAPattern, StepRefused
from drafting.pattern import Curved, Pattern, finished, walk, with_pieces
from drafting.pattern.text import from_json, to_json
from tests.drafting.dress import dress
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks

EXAMPLES = Path(__file__).parents[4] / "examples" / "garments"


def other(*, wider: float = 30.0) -> Pattern:
    return apply_step(dress(), UpperArm(wider))


def test_a_sleeve_that_fits_goes_in_as_it_is() -> None:
    after = apply_step(dress(), with_sleeve_of(PutSleeveIn("other.toml", refit=False), other()))
    assert after.piece("sleeve").edges[2].length == pytest.approx(other().piece("sleeve").edges[2].length, abs=1e-6)
    assert [result for result in run_checks(after) if result.verdict.value == "fail"] == []


@pytest.mark.parametrize("size", [84, 100, 104])
def test_a_sleeve_of_another_size_is_refitted_and_keeps_its_width(size: int) -> None:
    theirs = sized(size, "bodice", "sleeve")
    after = apply_step(sized(92), with_sleeve_of(PutSleeveIn("other.toml"), theirs))
    assert cap_on(after.piece("sleeve")).width == pytest.approx(cap_on(theirs.piece("sleeve")).width, abs=1e-6)
    for name in ("front armhole", "back armhole"):
        walked, ours = walk(after, after.seam(name)), walk(theirs, theirs.seam(name))
        assert walked.a - walked.b == pytest.approx(ours.a - ours.b, abs=1e-3)
    assert [result.where for result in run_checks(after) if result.verdict.value == "fail"] == []


def test_a_puff_brings_its_gathers_along() -> None:
    puff = apply_step(other(), FullSleeve(cap=80.0))
    after = apply_step(dress(), with_sleeve_of(PutSleeveIn("other.toml"), puff))
    wanted = puff.seam("front armhole").ease.wanted
    assert after.seam("front armhole").ease.wanted == pytest.approx(wanted, abs=1e-3)
    assert [result for result in run_checks(after) if result.verdict.value == "fail"] == []


def test_a_sleeve_that_does_not_go_in_is_refused_with_both_lengths_and_why() -> None:
    with pytest.raises(StepRefused) as refusal:
        apply_step(sized(92), with_sleeve_of(PutSleeveIn("other.toml", refit=False), sized(116, "bodice", "sleeve")))
    said = str(refusal.value)
    assert said.count(" cm") >= 2
    assert "the armhole" in said
    assert "will sew" in said
    assert "refit = true" in said


def test_the_history_can_be_taken_again_without_the_other_file_also_from_text() -> None:
    after = apply_step(dress(), with_sleeve_of(PutSleeveIn("other.toml"), other()))
    assert replay(dress(), after.history) == after
    assert from_json(to_json(after)).history == after.history


def test_what_a_tuck_of_its_own_sleeve_takes_up_goes_with_that_sleeve() -> None:
    tucked = apply_step(dress(), RoomToGrow("sleeve", 20.0, at="tuck"))
    after = apply_step(tucked, with_sleeve_of(PutSleeveIn("other.toml", refit=False), other()), as_written=True)
    plain = apply_step(dress(), with_sleeve_of(PutSleeveIn("other.toml", refit=False), other()))
    assert any(isinstance(part, Curved) for measure in tucked.measures for part in measure.tape)
    assert finished(after) == finished(plain)


def test_a_sleeve_without_the_line_this_garment_is_measured_at_is_refused_by_name() -> None:
    theirs = with_pieces(replace(dress(), measures=()), replace(dress().piece("sleeve"), lines=()))
    with pytest.raises(StepRefused, match='no "biceps line", "elbow line", where this garment is') as refusal:
        apply_step(dress(), with_sleeve_of(PutSleeveIn("other.toml"), theirs))
    assert refusal.value.alteration == "put sleeve in"


@pytest.mark.parametrize("edge", ["cap back", "cap front", "underarm seam, back", "underarm seam, front"])
def test_a_piece_that_is_no_sleeve_is_told_what_it_lacks_in_the_words_of_the_sleeve_block(edge: str) -> None:
    whole = dress().piece("sleeve")
    edges = tuple(replace(each, place=None, half=None) if each.name == edge else each for each in whole.edges)
    with pytest.raises(NotAPattern, match=f'it has no edge "{edge}"$'):
        sleeve_edges(replace(whole, edges=edges))


def test_its_allowances_are_those_of_this_garment() -> None:
    after = apply_step(dress(), with_sleeve_of(PutSleeveIn("other.toml"), sized(100, "bodice", "sleeve")))
    ours = {edge.name: edge.allowance for edge in dress().piece("sleeve").edges}
    assert {edge.name: edge.allowance for edge in after.piece("sleeve").edges} == ours


def test_a_step_whose_sleeve_was_never_read_is_refused() -> None:
    with pytest.raises(StepRefused, match="has not been read"):
        apply_step(dress(), PutSleeveIn("other.toml"))
    with pytest.raises(StepRefused, match="cannot be read"):
        apply_step(dress(), PutSleeveIn("other.toml", sleeve="{}"))


def garment(folder: Path, name: str, step: str) -> Path:
    path = folder / name
    path.write_text(f'like = "{EXAMPLES / "ferry-dress.toml"}"\ntitle = "{name}"\n[[step]]\n{step}\n', encoding="utf-8")
    return path


def test_a_garment_file_names_the_garment_whose_sleeve_it_takes(tmp_path: Path) -> None:
    garment(tmp_path, "wide.toml", 'alter = "upper arm"\nby = "3 cm"')
    mine = garment(tmp_path, "mine.toml", 'alter = "put sleeve in"\ngarment = "wide.toml"')
    made = finish(read_garment(mine))
    theirs = finish(read_garment(tmp_path / "wide.toml"))
    assert cap_on(made.piece("sleeve")).width == pytest.approx(cap_on(theirs.piece("sleeve")).width, abs=1e-6)


@pytest.mark.parametrize(
    ("names", "says"),
    [("mine.toml", "this garment itself"), ("none.toml", "What is wrong with that file"), ("bare.toml", "no piece")],
)
def test_a_garment_without_a_sleeve_to_give_is_told_in_the_file(tmp_path: Path, names: str, says: str) -> None:
    bare = (EXAMPLES / "ferry-dress.toml").read_text(encoding="utf-8")
    start, end = bare.index('[[block]]\nname = "sleeve"'), bare.index('[[block]]\nname = "skirt"')
    bare = bare[:start] + bare[end : bare.index("[[step]]")]
    bare = bare.replace("../people", str(EXAMPLES.parent / "people"))
    (tmp_path / "bare.toml").write_text(bare, encoding="utf-8")
    mine = garment(tmp_path, "mine.toml", f'alter = "put sleeve in"\ngarment = "{names}"')
    with pytest.raises(InputProblems) as refusal:
        read_garment(mine)
    assert says in str(refusal.value)
