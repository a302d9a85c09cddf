"""A waistband is as long as the finished waist and its underlap, twice as high as worn, and begins at the zip."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from drafting.alterations import Alteration, Lengthen, Opening, Wrap, apply_step
from drafting.errors import NotAPattern, StepRefused
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import BodyPart, Pattern, Piece, PieceKind, finished, pieces_of
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import sized
from tests.wardrobe import a_garment


def band(pattern: Pattern, **options: float) -> Piece:
    (piece,) = pieces_of(with_part(pattern, part_of(find_part("waistband"), options)), PieceKind.BAND)
    return piece


def skirt() -> Pattern:
    return sized(92, "skirt")


def trousers() -> Pattern:
    return a_garment("trousers")


def waist(pattern: Pattern) -> float:
    (found,) = (each.finished for each in finished(pattern) if each.name == "waist")
    return found


@pytest.mark.parametrize("size", [76, 92, 122])
@pytest.mark.parametrize(("height", "underlap"), [(30.0, 30.0), (15.0, 0.0), (80.0, 100.0)])
def test_it_is_a_rectangle_of_the_finished_waist_and_its_underlap_by_twice_its_height(
    size: int, height: float, underlap: float
) -> None:
    skirt = sized(size, "skirt")
    made = band(skirt, height=height, underlap=underlap)
    corners = [edge.start for edge in made.edges]
    assert max(point.x for point in corners) == pytest.approx(waist(skirt) + underlap, abs=1e-3)
    assert max(point.y for point in corners) == 2.0 * height
    assert [line.start.y for line in made.lines] == [height]


def test_it_begins_at_the_opening_and_its_quarters_follow_round() -> None:
    skirt = sized(92, "skirt")
    names = [edge.name for edge in band(skirt).edges]
    assert names[:5] == ["underlap", "right back", "right front", "left front", "left back"]


@pytest.mark.parametrize("lap", [Opening("centre front", "buttons", button=15.0), Wrap(overlap=120.0, slant=60.0)])
def test_where_the_skirt_laps_over_itself_the_band_reaches_as_far_and_has_no_underlap(lap: Alteration) -> None:
    skirt = sized(92, "skirt")
    made = band(apply_step(skirt, lap), underlap=30.0)
    assert "underlap" not in [edge.name for edge in made.edges]
    assert max(edge.end.x for edge in made.edges) > waist(skirt) + 20.0


def test_a_waist_that_is_sewn_to_a_bodice_has_none() -> None:
    with pytest.raises(NotAPattern, match="sewn to the bodice"):
        band(sized(92))
    with pytest.raises(NotAPattern, match="no skirt front"):
        band(sized(92, "bodice"))


def test_a_step_on_the_band_itself_is_refused_with_what_can_be_changed_of_it() -> None:
    banded = with_part(sized(92, "skirt"), part_of(find_part("waistband"), {}))
    with pytest.raises(StepRefused, match=r"give its \[\[part\]\] another height or underlap"):
        apply_step(banded, Lengthen("waistband", 20.0))


@pytest.mark.parametrize(("pattern", "part"), [(skirt, BodyPart.SKIRT), (trousers, BodyPart.TROUSERS)])
def test_it_belongs_to_what_it_is_sewn_to(pattern: Callable[[], Pattern], part: BodyPart) -> None:
    assert band(pattern()).identity.part is part
