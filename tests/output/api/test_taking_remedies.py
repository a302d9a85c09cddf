"""What is offered as data is taken: the garment ordered so is drafted, and the checks say of it what was told."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.errors import Remedy, Setting
from output.api import ALTERATIONS, Garment, TrueseamError, block, check, draft, part, person, with_remedy

ODA = person({"height": 1680, "bust": 920, "waist": 740, "hip": 990}, name="Oda")


def dress(*steps: tuple[str, dict[str, str | float]], parts: list[str] | None = None, **settings: object) -> Garment:
    made = tuple(ALTERATIONS.named(name)(**options) for name, options in steps)
    blocks = [block("bodice"), block("sleeve"), block("skirt")]
    return Garment("Quay dress", ODA, blocks, steps=made, parts=[part(name) for name in parts or []], **settings)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("garment", "act"),
    [
        (dress(("take in", {"waist": 300.0})), "change"),
        (dress(("lengthen", {"piece": "sleeve", "by": 30.0}), ("neckline", {"depth": 200.0})), "change"),
        (dress(("full sleeve", {"hem": 140.0}), parts=["cuff"]), "set in part"),
        (dress(("gather skirt", {"ratio": 1.5}), ("take in", {"waist": 20.0}), order="as written"), "put before"),
    ],
)
def test_what_a_refusal_offers_can_be_had(garment: Garment, act: str) -> None:
    with pytest.raises(TrueseamError) as refused:
        draft(garment)
    remedies: tuple[Remedy, ...] = refused.value.remedies  # type: ignore[attr-defined]
    assert act in [each.act for each in remedies]
    for remedy in remedies:
        found = check(draft(with_remedy(garment, remedy)))
        assert remedy.verdict in ("", str(found.verdict)), remedy


def test_what_a_failed_check_offers_passes_there() -> None:
    garment = dress(("take in", {"waist": 150.0}))
    drafted = draft(garment)
    failed = [result for result in check(drafted).faults if str(result.verdict) == "fail"]
    offered = [(result, remedy) for result in failed for remedy in result.remedies]
    assert offered
    for result, remedy in offered:
        again = check(draft(with_remedy(garment, remedy))).found.results
        (now,) = (each for each in again if (each.code, each.where) == (result.code, result.where))
        assert str(now.verdict) in ("pass", "warn")


def test_each_act_orders_the_garment_anew() -> None:
    lengthen, lower = ("lengthen", {"piece": "sleeve", "by": 30.0}), ("neckline", {"depth": 20.0})
    garment = dress(lower, lengthen, parts=["cuff"])  # taken the other way round
    first, second = (ALTERATIONS.named(name)(**options) for name, options in (lengthen, lower))
    assert with_remedy(garment, Remedy("leave out", "lengthen", step=1)).steps == (second,)
    assert with_remedy(garment, Remedy("leave out", "lengthen", step=1, onward=True)).steps == ()
    less = with_remedy(garment, Remedy("change", "lengthen", (Setting("by", 10.0, "mm"),), step=1))
    assert less.steps == (second, replace(first, by=10.0))  # type: ignore[call-arg]
    other = with_remedy(garment, Remedy("instead", "upper arm", (Setting("by", 10.0, "mm"),), step=1))
    assert [step.name for step in other.steps] == ["neckline", "upper arm"]
    moved = with_remedy(garment, Remedy("put before", "lengthen", (Setting("step", 1.0),), step=2))
    assert (moved.steps, moved.order) == ((second, first), "as written")
    added = with_remedy(garment, Remedy("add", "upper arm", (Setting("by", 10.0, "mm"),)))
    assert [step.name for step in added.steps] == ["neckline", "lengthen", "upper arm"]
    darts = with_remedy(garment, Remedy("set in block", "bodice", (Setting("front_darts", "one"),)))
    assert [order.options.get("front_darts") for order in darts.blocks] == ["one", None, "one"]
    cuffs = with_remedy(garment, Remedy("set in part", "cuff", (Setting("height", 70.0, "mm"),)))
    assert dict(cuffs.parts[0].options)["height"] == 70.0
    paper = with_remedy(garment, Remedy("set in paper", "seam_allowance", (Setting("seam_allowance", 10.0, "mm"),)))
    assert paper.paper.seam_allowance == 10.0


@pytest.mark.parametrize(
    "remedy",
    [
        Remedy("change", "lengthen", (Setting("by", 10.0, "mm"),), step=2),
        Remedy("change", "lengthen", (Setting("by", 10.0, "mm"),)),
        Remedy("put before", "lengthen", step=1),
        Remedy("set in part", "cuff", (Setting("height", 70.0, "mm"),)),
        Remedy("set in block", "trousers", (Setting("fastening", "fly"),)),
    ],
)
def test_a_remedy_of_another_garment_is_refused(remedy: Remedy) -> None:
    with pytest.raises(TrueseamError, match='a remedy for "Quay dress"'):
        with_remedy(dress(("lengthen", {"piece": "sleeve", "by": 30.0})), remedy)
