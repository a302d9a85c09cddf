"""The whole body: what was measured as it was measured, and the rest estimated, each with how sure it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import Literal

from drafting.body.estimate import beyond_survey, estimate, how_estimated, younger_share
from drafting.body.person import Person
from drafting.body.terms import BASICS, KEYS, BodyKind, measurement, measurement_for
from drafting.dataclass import dataclass
from drafting.errors import InputProblems, Problem, UnknownName
from drafting.reading.read_table import refuse

__all__ = ["Body", "Measured", "Source", "complete", "require", "uncertain_first"]

Source = Literal["measured", "estimated", "chart"]

_INDEX = MappingProxyType({key: place for place, key in enumerate(KEYS)})

# Each is the difference of two heights: whatever two of the three were measured give the third.
_DIFFERENCES = (
    ("shoulder_drop", "neck_side_height", "shoulder_height"),
    ("waist_to_hip", "waist_height", "hip_height"),
)


@dataclass(frozen=True, slots=True)
class Measured:
    """One length of a body and where it comes from.

    mm:    the length
    sd_mm: how far off it may be (one standard deviation); None for what was measured
    how:   a phrase for the report
    """

    key: str
    mm: float
    source: Source
    sd_mm: float | None
    how: str


@dataclass(frozen=True, slots=True)
class Body:
    """A person with every length that could be had: `values` in the order of `MEASUREMENTS`, None for no length."""

    person: Person
    values: tuple[Measured | None, ...]

    def __getitem__(self, key: str) -> Measured:
        """The length of that name.

        Raises UnknownName for a name that is no measurement, InputProblems for one that was not measured and
        cannot be estimated for this kind of body.
        """
        if key not in _INDEX:
            raise UnknownName("measurement", key, KEYS)
        value = self.values[_INDEX[key]]
        if value is None:
            raise InputProblems([_wanting(self.person, key)])
        return value

    def __contains__(self, key: str) -> bool:
        return key in _INDEX and self.values[_INDEX[key]] is not None

    def mm(self, key: str) -> float:
        """The length of that name in millimetres; raises as `body[key]` does."""
        return self[key].mm

    def known(self) -> tuple[Measured, ...]:
        """Every length there is, in the order of `MEASUREMENTS`."""
        return tuple(value for value in self.values if value is not None)


def complete(who: Person) -> Body:
    """The body of a person: her measurements as she took them, and estimates for the rest where there are any."""
    known = {key: Measured(key, mm, "measured", None, "measured") for key, mm in who.measurements}
    known |= {value.key: value for value in _from_differences(dict(who.measurements))}
    measured = {key: value.mm for key, value in known.items()}
    beyond = beyond_survey(who.body, {key: measured[key] for key in BASICS})
    return Body(who, tuple(known.get(key) or _estimated(key, measured, who.body, beyond) for key in KEYS))


def require(body: Body, keys: Iterable[str]) -> None:
    """Make sure that a body has all these lengths.

    Raises InputProblems that names each one missing and how to take it; UnknownName for what is no measurement.
    """
    wanted = [measurement(key).key for key in keys]
    refuse([_wanting(body.person, key) for key in wanted if key not in body])


def uncertain_first(body: Body, keys: Iterable[str] = KEYS) -> tuple[Measured, ...]:
    """The estimated lengths among `keys`, the least certain first: by how far off each may be for its own size."""
    wanted = frozenset(keys)
    estimated = (value for value in body.known() if value.source == "estimated" and value.key in wanted)
    return tuple(sorted(estimated, key=lambda value: (-(value.sd_mm or 0.0) / value.mm, value.key)))


def _from_differences(taken: Mapping[str, float]) -> Iterator[Measured]:
    """The lengths that two measured ones give by adding or subtracting; none that would not be above zero."""
    for drop, upper, lower in _DIFFERENCES:
        for key, one, sign, other in ((drop, upper, -1, lower), (upper, lower, +1, drop), (lower, upper, -1, drop)):
            if key not in taken and one in taken and other in taken:
                mm = taken[one] + sign * taken[other]
                if mm > 0:
                    word = "and" if sign > 0 else "less"
                    how = f"{measurement(one).name} {word} {measurement(other).name}, both measured"
                    yield Measured(key, mm, "measured", None, how)


def _estimated(key: str, measured: Mapping[str, float], body: BodyKind, beyond: tuple[str, ...]) -> Measured | None:
    found = estimate(key, measured, body)
    if found is None:
        return None
    younger = younger_share(body, measured["stature"])
    how = how_estimated(key, body, follows=found.follows, beyond=beyond, younger=younger)
    return Measured(key, found.mm, "estimated", found.sd_mm, how)


def _wanting(who: Person, key: str) -> Problem:
    where = f"{who.place or who.name}, [measurements] {measurement_for(key, who.body).word}"
    expected = f"a length: it cannot be estimated for a {who.body}"
    return Problem(where, "nothing", expected, f"Measure it: {measurement_for(key, who.body).how}")
