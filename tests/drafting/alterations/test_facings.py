"""Facings follow their pieces: whatever is done after an edge was faced, its facing is as that edge, or refused."""

from __future__ import annotations

from functools import cache

import pytest
from shapely import LineString, Point, Polygon, unary_union

from drafting.alterations import Alteration, Hem, Lengthen, MoveDart, NeckGape, Neckline, Opening, Wrap, apply_step
from drafting.errors import BrokenPromise, StepRefused
from drafting.geometry import Curve, polyline
from drafting.parts.finishes.facing_strip import FREE_EDGE
from drafting.pattern import Pattern, Piece, Place
from tests.alteration_samples import SAMPLES, Options, sample
from tests.drafting.dress import dress
from tests.drafting.dresses import failed
from tests.drafting.sizes import sized
from tests.sampling import some

FACED: dict[str, Alteration] = {
    "hem": Hem("skirt front", depth=100.0, finish="facing"),
    "front": Opening("centre front", "buttons", button=15.0),
    "back": Opening("centre back", "buttons", button=15.0),
    "wrap": Wrap(overlap=120.0, slant=60.0),
}
ROWS = [
    (faced, name, options)
    for turn, faced in enumerate(FACED)
    for name, rows in SAMPLES.items()
    for options in (rows[turn :: len(FACED)] or rows[:1])
]
"""Every alteration after every facing; its options are dealt out over the four."""
NEAR = 0.1
"""mm by which a facing may miss its piece: less than a pencil line; curves are drawn as lines within a hundredth."""


@cache
def faced(name: str, *, chart: bool) -> Pattern:
    pattern = apply_step(sized(92) if chart else dress(), FACED[name])
    assert loose(pattern) == []
    return pattern


def line(run: tuple[Curve, ...]) -> LineString:
    return LineString([(p.x, p.y) for p in polyline(run, 0.01)])


def loose(pattern: Pattern) -> list[str]:
    """The facings that are not what their piece is along the faced edge, by the word of a stranger (shapely)."""
    strips = [piece for piece in pattern.pieces if is_strip(piece)]
    assert strips
    return [strip.name for strip in strips if not lies_on(strip, *sewn_to(pattern, strip))]


def sewn_to(pattern: Pattern, strip: Piece) -> list[Piece]:
    """What a facing faces: a piece, or both panels of one that was cut in two."""
    met = {ref.piece for seam in pattern.seams if {each.piece for each in seam.a} == {strip.name} for ref in seam.b}
    return [piece for piece in pattern.pieces if piece.name in met and not is_strip(piece)]


def is_strip(piece: Piece) -> bool:
    return any(edge.name == FREE_EDGE for edge in piece.edges)


def lies_on(strip: Piece, *pieces: Piece) -> bool:
    """Whether the strip lies on the pieces and all of its edges but the free one lie on their outlines."""
    outlines = [line(piece.outline) for piece in pieces]
    whole = unary_union([Polygon(outline).buffer(NEAR) for outline in outlines])
    rims = unary_union([outline.buffer(NEAR) for outline in outlines])
    edges = [line(edge.curves) for edge in strip.edges if edge.name != FREE_EDGE]
    return bool(whole.contains(line(strip.outline)) and all(edge.within(rims) for edge in edges))


def depths(strip: Piece, own: str) -> list[float]:
    free = line(strip.edge(FREE_EDGE).curves)
    along = line(strip.edge(own).curves)
    inner = [along.interpolate(share, normalized=True) for share in (0.35, 0.5, 0.65)]
    return [free.distance(Point(place.x, place.y)) for place in inner]


@pytest.mark.parametrize(("at", "name", "options"), some(ROWS, every=6))
def test_after_any_step_each_facing_is_as_its_piece_is_or_the_step_is_refused(
    at: str, name: str, options: Options
) -> None:
    before = faced(at, chart=name == "blend")
    try:
        after = apply_step(before, sample(name, options))
    except BrokenPromise:
        raise
    except StepRefused:
        return
    if name == "smock" and at in ("hem", "wrap"):  # it hangs in the place of the skirt, and of what that is faced with
        assert not any(map(is_strip, after.pieces))
        return
    assert (at, name) == ("back", "move a dart") or loose(after) == []  # traced with that dart closed, see below
    assert [(each.where, each.remedy) for each in failed(after, before)] == []


def test_a_facing_that_was_not_touched_is_the_very_same() -> None:
    before = faced("front", chart=False)
    after = apply_step(before, sample("sway back", {"depth": 12.0}))
    assert all(after.piece(piece.name) is piece for piece in before.pieces if is_strip(piece))


@pytest.mark.parametrize("amount", [3.0, 12.0])
def test_a_facing_is_as_deep_after_it_followed_as_it_was(amount: float) -> None:
    # a gape turned into the bust dart takes the top of the front with it, and of its facing
    before = faced("front", chart=False)
    after = apply_step(before, NeckGape(amount))
    assert after.piece("bodice front facing") != before.piece("bodice front facing")
    assert depths(after.piece("bodice front facing"), "front edge") == pytest.approx([60.0] * 3, abs=0.05)


INTO_NECK = MoveDart("bodice back", "shoulder dart", "neck", beyond=38.0)


def test_a_facing_over_a_dart_is_drawn_with_the_dart_closed() -> None:
    flat = faced("back", chart=False).piece("bodice back facing")
    after = apply_step(faced("back", chart=False), INTO_NECK)
    strip = after.piece("bodice back facing")
    assert not strip.darts
    assert depths(strip, "back edge") == pytest.approx([60.0] * 3, abs=0.05)
    own = [edge.length for edge in strip.edges if edge.place is Place.NECK]
    assert len(own) == 2  # the neck beside the dart's mouth, on both sides of it
    assert sum(own) == pytest.approx(sum(e.length for e in flat.edges if e.place is Place.NECK), abs=1.5)
    assert failed(after) == []


@pytest.mark.parametrize("name", ["flare skirt", "take in", "blend", "lengthen", "opening"])
def test_a_faced_hem_is_no_hindrance_to_what_comes_later(name: str) -> None:
    before = faced("hem", chart=True)
    for options in SAMPLES[name]:
        after = apply_step(before, sample(name, options))
        assert loose(after) == []
        assert failed(after) == []


def test_what_is_drawn_to_a_piece_is_not_altered_by_itself() -> None:
    with pytest.raises(StepRefused, match="alter the piece it is sewn to, or the step that made it"):
        apply_step(faced("hem", chart=False), Lengthen("skirt front hem facing", 30.0))


def test_taken_first_a_neckline_has_its_facing_cut_to_it() -> None:
    deep = Neckline(depth=60.0)
    after = apply_step(apply_step(dress(), deep), FACED["front"])
    assert loose(after) == []
    assert failed(after) == []
