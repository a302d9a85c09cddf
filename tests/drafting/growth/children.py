"""A girl for the tests of growth, as tall as she was on three days."""

from datetime import date

from drafting.body.person import Person, person

__all__ = ["BORN", "wren"]

BORN = date(2019, 5, 1)


def wren(*, height: float = 1200.0, **more: object) -> Person:
    """A girl of nearly seven, 120 cm tall; `more` in place of what stands here."""
    told: dict[str, object] = {
        "name": "Wren",
        "body": "girl",
        "born": BORN,
        "measured": date(2026, 3, 1),
        "earlier": {date(2024, 9, 1): {"height": 1105.0}, date(2025, 6, 1): {"height": 1155.0}},
    }
    return person({"height": height, "chest": 600, "waist": 550, "hip": 630}, **(told | more))  # type: ignore[arg-type]
