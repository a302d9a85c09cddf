"""Our dataclasses beside those of the standard library: whatever is asked of one gives the same of the other."""

from __future__ import annotations

import copy
import dataclasses
import inspect
import pickle
import pydoc
import subprocess
import sys
from collections.abc import Callable
from dataclasses import KW_ONLY, FrozenInstanceError, InitVar, field
from typing import Any, ClassVar, Generic, TypeVar

import pytest

import drafting.dataclass

T = TypeVar("T")


@drafting.dataclass.dataclass(frozen=True, slots=True)
class Pickled:
    """One that can be found again by its name."""

    x: float
    kept: dict[str, int] = field(default_factory=dict, init=False, repr=False, compare=False)


def classes(dataclass: Callable[..., Any]) -> dict[str, type]:
    """Classes of every kind there is in the house, made by that `dataclass`."""

    @dataclass(frozen=True, slots=True)
    class Empty:
        """Nothing."""

    @dataclass(frozen=True, slots=True)
    class One:
        x: int

    @dataclass(frozen=True, slots=True)
    class Three(Generic[T]):
        """With defaults of all kinds, and a variable of the class."""

        total: ClassVar[int] = 3
        x: T
        y: tuple[int, ...] = (1, 2)
        z: dict[str, int] = field(default_factory=dict, compare=False)
        known: list[int] = field(default_factory=list, init=False, repr=False, compare=False)

        @property
        def twice(self) -> T:
            return self.x

    @dataclass(frozen=True, slots=True)
    class Further(Three[int]):
        more: str = "more"

        def __post_init__(self) -> None:
            if self.more == "wrong":
                raise ValueError("wrong")
            object.__setattr__(self, "more", self.more.upper())

    @dataclass(frozen=True, slots=True, eq=False)
    class Itself:
        x: int

    @dataclass(frozen=True, slots=True, repr=False)
    class Silent:
        x: int

        def __repr__(self) -> str:
            return "..."

    @dataclass(frozen=True, slots=True)
    class OwnHash:
        x: int

        def __hash__(self) -> int:
            return 7

    @dataclass(frozen=True, slots=True)
    class OwnEquality:  # noqa: PLW1641
        x: int

        def __eq__(self, other: object) -> bool:
            return True

    @dataclass(frozen=True, slots=True)
    class Named:
        x: int
        _: KW_ONLY
        y: int
        z: int = 3

    @dataclass(frozen=True, slots=True)
    class Half:
        x: int = 1
        later: int = field(kw_only=True)

    @dataclass(frozen=True, slots=True)
    class Strange:
        """Fields called as what sets and makes them might be."""

        self: int
        set_self: int
        known: list[int] = field(default_factory=list)
        new_known: int = 2

    @dataclass(frozen=True, slots=False)
    class Loose:
        x: int = 4

    @dataclass(frozen=True, slots=True)
    class OnLoose(Loose):
        y: int = 5

    @dataclass
    class Bare:
        x: int

    return {
        made.__name__: made
        for made in (
            Empty,
            One,
            Three,
            Further,
            Itself,
            Silent,
            OwnHash,
            OwnEquality,
            Named,
            Half,
            Strange,
            OnLoose,
            Bare,
        )
    }


MAKERS = (drafting.dataclass.dataclass, dataclasses.dataclass)
OURS, THEIRS = classes(drafting.dataclass.dataclass), classes(dataclasses.dataclass)

GIVEN: dict[str, tuple[tuple[Any, ...], ...]] = {
    "Empty": ((),),
    "One": ((1,), (2,)),
    "Three": ((1,), (1, (3,)), (1, (3,), {"a": 1})),
    "Further": ((1,), (1, (3,)), (1, (3,), {}, "other")),
    "Itself": ((1,), (1,)),
    "Silent": ((1,), (2,)),
    "OwnHash": ((1,), (2,)),
    "OwnEquality": ((1,), (2,)),
    "Named": ((1, {"y": 2}), (1, {"y": 2, "z": 4})),
    "Half": (({"later": 2},), (3, {"later": 2})),
    "Strange": ((1, 2), (1, 2, [3], 4)),
    "OnLoose": ((), (1,), (1, 2)),
    "Bare": ((1,), (2,)),
}


def value_of(made: type, given: tuple[Any, ...]) -> Any:
    """A value of the class; a table at the end gives fields by their names."""
    named = given[-1] if given and isinstance(given[-1], dict) and made.__name__ in ("Named", "Half") else {}
    return made(*(given[:-1] if named else given), **named)


def outcome(ask: Callable[[], Any]) -> Any:
    """What comes of it, an error by its kind and words."""
    try:
        return ask()
    except Exception as raised:
        return type(raised), str(raised).replace("classes.<locals>.", "")


@pytest.mark.parametrize("name", GIVEN)
def test_values_are_made_compared_shown_and_hashed_alike(name: str) -> None:
    mine, theirs = ([value_of(made[name], values) for values in GIVEN[name]] for made in (OURS, THEIRS))
    assert [repr(each) for each in mine] == [repr(each) for each in theirs]
    assert [[a == b for a in mine] for b in mine] == [[a == b for a in theirs] for b in theirs]
    assert mine[0] != theirs[0] or name == "OwnEquality"
    if name != "Itself":
        assert [outcome(lambda each=each: hash(each)) for each in mine] == [  # type: ignore[misc]
            outcome(lambda each=each: hash(each))  # type: ignore[misc]
            for each in theirs
        ]
    told = [[(each.name, each.default, each.init, each.repr, each.compare) for each in dataclasses.fields(made[name])]
            for made in (OURS, THEIRS)]  # fmt: skip
    assert told[0] == told[1]
    assert OURS[name].__match_args__ == THEIRS[name].__match_args__  # type: ignore[attr-defined]
    assert vars(OURS[name]).get("__slots__") == vars(THEIRS[name]).get("__slots__")
    params = [repr(made[name].__dataclass_params__) for made in (OURS, THEIRS)]  # type: ignore[attr-defined]
    assert params[0] == params[1]
    for a, b in zip(mine, theirs, strict=True):
        assert outcome(lambda a=a: dataclasses.asdict(a)) == outcome(lambda b=b: dataclasses.asdict(b))  # type: ignore[misc]


@pytest.mark.parametrize("name", GIVEN)
@pytest.mark.parametrize("copied", [copy.copy, copy.deepcopy, dataclasses.replace])
def test_a_copy_is_alike(name: str, copied: Callable[[Any], Any]) -> None:
    mine, theirs = (value_of(made[name], GIVEN[name][-1]) for made in (OURS, THEIRS))
    assert repr(copied(mine)) == repr(copied(theirs))
    assert (copied(mine) == mine) is (copied(theirs) == theirs)


@pytest.mark.parametrize("name", GIVEN)
def test_what_help_and_notebooks_show_is_the_same_before_any_value_is_made(name: str) -> None:
    mine, theirs = (classes(made)[name] for made in (drafting.dataclass.dataclass, dataclasses.dataclass))
    assert inspect.signature(mine) == inspect.signature(theirs)
    assert mine.__doc__ == theirs.__doc__
    assert inspect.signature(mine.__init__) == inspect.signature(theirs.__init__)  # type: ignore[misc]
    heads = [pydoc.plaintext.document(made).partition("|  Methods")[0] for made in (mine, theirs)]
    assert heads[0] == heads[1]
    written = [made.__init__ for made in (mine, theirs)]  # type: ignore[misc]
    for asked in ("__name__", "__qualname__", "__module__", "__annotations__"):
        assert getattr(written[0], asked) == getattr(written[1], asked)


def test_a_signature_in_a_new_process_has_its_annotations() -> None:
    said = "import inspect, output.api as api; print(inspect.signature(api.Paper)); print(api.Paper.__init__)"
    told = subprocess.run([sys.executable, "-c", said], capture_output=True, text=True, check=True).stdout
    assert told.startswith("(size: 'str' = 'A4', seam_allowance: 'float' = 15.0, hem: 'float | None' = None")
    assert "Paper.__init__ at" in told


def test_a_plain_class_upon_one_keeps_its_own_attributes_and_the_fields_frozen() -> None:
    made = type("Plain", (OURS["One"],), {})
    value = made(1)
    value.more = 3
    del value.more
    with pytest.raises(FrozenInstanceError, match="cannot assign to field 'x'"):
        value.x = 2
    assert (value == OURS["One"](1), made.__init__) == (False, OURS["One"].__init__)  # type: ignore[misc]


def wrong(dataclass: Callable[..., Any], kind: str) -> None:
    if kind == "a default first":

        @dataclass(frozen=True, slots=True)
        class First:
            x: int = 1
            y: int  # type: ignore[misc]

    if kind == "it sets":

        @dataclass(frozen=True, slots=True)
        class Sets:
            x: int

            def __setattr__(self, name: str, value: object) -> None:
                """Nothing."""


@pytest.mark.parametrize("kind", ["a default first", "it sets"])
def test_a_class_that_cannot_be_made_is_refused_where_it_is_written(kind: str) -> None:
    mine, theirs = (outcome(lambda made=made: wrong(made, kind)) for made in MAKERS)  # type: ignore[misc]
    assert mine == theirs
    assert mine is not None


def test_an_init_var_is_refused_where_it_is_written() -> None:
    with pytest.raises(TypeError, match="has an InitVar"):

        @drafting.dataclass.dataclass(frozen=True, slots=True)
        class Told:
            x: InitVar[int]


@pytest.mark.parametrize("name", ["One", "Further"])
@pytest.mark.parametrize("values", [(), (1, 2, 3, 4, 5, 6)])
@pytest.mark.parametrize("named", [{}, {"x": 1}, {"strange": 1}, {"more": "wrong"}])
def test_what_cannot_be_made_is_refused_in_the_same_words(
    name: str, values: tuple[int, ...], named: dict[str, Any]
) -> None:
    assert outcome(lambda: repr(OURS[name](*values, **named))) == outcome(lambda: repr(THEIRS[name](*values, **named)))


@pytest.mark.parametrize("name", ["One", "Three", "Further"])
def test_nothing_can_be_set_or_deleted(name: str) -> None:
    for made in (OURS, THEIRS):
        value = made[name](1)
        with pytest.raises(FrozenInstanceError, match="cannot assign to field 'x'"):
            value.x = 2
        with pytest.raises(FrozenInstanceError, match="cannot delete field 'x'"):
            del value.x
        # the standard library's own answer for slots is a TypeError about super() in Python 3.11
        with pytest.raises((FrozenInstanceError, TypeError)):
            value.other = 2
        assert value.x == 1


def test_two_values_share_nothing_that_is_made_for_each() -> None:
    made = OURS["Three"]
    one, other = made(1), made(1)
    one.known.append(2)
    assert other.known == []
    assert dataclasses.replace(one, y=(5,)).known == []


def test_a_value_comes_back_from_a_pickle() -> None:
    value = Pickled(2.5)
    value.kept["a"] = 1
    back = pickle.loads(pickle.dumps(value))
    assert (back, back.kept) == (value, {"a": 1})
    assert repr(back) == "Pickled(x=2.5)"


def test_the_first_value_and_those_after_it_are_alike() -> None:
    made = classes(drafting.dataclass.dataclass)["Three"]
    before = vars(made)["__init__"]
    first, second = made(x=1), made(1)
    assert vars(made)["__init__"] is not before
    assert made.__init__ is vars(made)["__init__"]
    assert first == second


def test_a_class_of_the_standard_library_can_stand_upon_one_of_ours() -> None:
    @dataclasses.dataclass(frozen=True, slots=True)
    class Upon(Pickled):
        y: int = 2

    assert Upon(1.5) == Upon(1.5, 2)
    assert dataclasses.astuple(Upon(1.5)) == (1.5, {}, 2)
    with pytest.raises(FrozenInstanceError):
        Upon(1.5).y = 3  # type: ignore[misc]
    with pytest.raises(TypeError, match="non-frozen"):
        dataclasses.dataclass(type("Open", (Pickled,), {"__annotations__": {"y": int}}))


def test_any_other_kind_is_left_to_the_standard_library() -> None:
    @drafting.dataclass.dataclass()
    class Open:
        x: int = 0

    value = Open()
    value.x = 3
    assert value == Open(3)
