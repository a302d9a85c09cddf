"""Frozen dataclasses with slots, as those of the standard library, made in a fifth of its time.

A command that checks a garment makes more than two hundred classes before it begins. The standard library compiles six
functions for each of them, which took 40 % of that command's time. Here they share all but `__init__`: what each class
has of its own is a getter of its values. `__init__` is written when the first value of the class is made; most classes
of a run never have one. It sets the slots themselves, past the refusal to set anything, so it is quicker too.

    @dataclass(frozen=True, slots=True)
    class Allowance:
        mm: float

Everything that looks at dataclasses (`fields`, `replace`, `asdict`, matching, pickling) finds what it expects. Any
other kind of dataclass is left to the standard library.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from operator import attrgetter
from reprlib import recursive_repr
from typing import TYPE_CHECKING, Any, TypeVar

__all__ = ["dataclass"]

T = TypeVar("T")


def _dataclass(
    *, frozen: bool = False, slots: bool = False, repr: bool = True, eq: bool = True, **more: bool
) -> Callable[[type[T]], type[T]]:
    """What makes a class a dataclass: for a frozen one with slots the way of this module."""
    if not (frozen and slots) or more:
        return dataclasses.dataclass(frozen=frozen, slots=slots, repr=repr, eq=eq, **more)
    return lambda cls: _frozen(cls, shown=repr, compared=eq)


def _frozen(cls: type[T], *, shown: bool, compared: bool) -> type[T]:
    own = cls.__dict__
    own_hash = "__hash__" in own and (own["__hash__"] is not None or "__eq__" not in own)
    if not cls.__doc__:
        cls.__doc__ = cls.__name__  # else the standard library works out a signature for it
    # the fields, the slots, what matching goes by; no function is compiled for these. The standard library lets only
    # a frozen class stand upon a frozen one: one upon another is made so at once, the first is called so afterwards
    further = any(dataclasses.is_dataclass(base) for base in cls.__mro__[1:])
    made = dataclasses.dataclass(init=False, repr=False, eq=False, slots=True, frozen=further)(cls)
    made.__dataclass_params__.frozen = True  # type: ignore[attr-defined]
    fields = dataclasses.fields(made)  # type: ignore[arg-type]
    names = frozenset(field.name for field in fields)
    given: dict[str, Any] = {
        "__init__": _first_init(made),
        "__setattr__": _refused("assign to", made, names),
        "__delattr__": _refused("delete", made, names),
        "__getstate__": _state,
        "__setstate__": _restore,
    }
    if shown:
        given["__repr__"] = _repr([field.name for field in fields if field.repr])
    if compared:
        given["__eq__"] = _equal(_getter([field.name for field in fields if field.compare]))
        if not own_hash:
            hashed = [field.name for field in fields if (field.compare if field.hash is None else field.hash)]
            given["__hash__"] = _hash(_getter(hashed))
    for name, function in given.items():
        if name not in own or own[name] is None:  # a class with an `__eq__` of its own has None for its `__hash__`
            setattr(made, name, function)
    return made


def _first_init(cls: type) -> Callable[..., None]:
    """What stands for `__init__` until the first value is made, and then puts the true one in its own place."""

    def first(self: object, /, *values: object, **named: object) -> None:
        written = _init(cls)
        cls.__init__ = written  # type: ignore[misc]
        written(self, *values, **named)

    return first


def _init(cls: type) -> Callable[..., None]:
    """The `__init__` of a class: a line for each field, that sets its slot."""
    known: dict[str, Any] = {"left_out": dataclasses.MISSING}
    asked, lines = [], []
    for field in dataclasses.fields(cls):
        name = field.name
        known[f"set_{name}"] = getattr(cls, name).__set__
        if field.default_factory is not dataclasses.MISSING:
            known[f"new_{name}"] = field.default_factory
            value = f"new_{name}() if {name} is left_out else {name}" if field.init else f"new_{name}()"
            default = "=left_out"
        elif field.default is not dataclasses.MISSING:
            known[f"default_{name}"] = field.default
            value, default = name if field.init else f"default_{name}", f"=default_{name}"
        elif field.init:
            value, default = name, ""
        else:
            continue
        if field.init:
            asked.append(name + default)
        lines.append(f" set_{name}(self, {value})")
    if hasattr(cls, "__post_init__"):
        lines.append(" self.__post_init__()")
    made: dict[str, Any] = {}
    exec("\n".join((f"def __init__({', '.join(('self', *asked))}):", *lines, " return None")), known, made)
    written: Callable[..., None] = made["__init__"]
    written.__qualname__ = f"{cls.__qualname__}.__init__"
    return written


def _getter(names: list[str]) -> Callable[[object], tuple[Any, ...]]:
    """What gives the values of these fields as a tuple."""
    if len(names) > 1:
        return attrgetter(*names)
    return (lambda value: (getattr(value, names[0]),)) if names else (lambda _: ())


def _equal(values: Callable[[object], tuple[Any, ...]]) -> Callable[[object, object], bool]:
    def equal(self: object, other: object) -> bool:
        return values(self) == values(other) if other.__class__ is self.__class__ else NotImplemented

    return equal


def _hash(values: Callable[[object], tuple[Any, ...]]) -> Callable[[object], int]:
    def hashed(self: object) -> int:
        return hash(values(self))

    return hashed


def _repr(names: list[str]) -> Callable[[object], str]:
    @recursive_repr()
    def shown(self: object) -> str:
        told = ", ".join(f"{name}={getattr(self, name)!r}" for name in names)
        return f"{self.__class__.__qualname__}({told})"

    return shown


def _refused(what: str, cls: type, names: frozenset[str]) -> Callable[..., None]:
    """What stands for setting or deleting an attribute: of the class itself, or one of its fields, it is refused."""

    def refuse(self: object, name: str, *value: object) -> None:
        if type(self) is cls or name in names:
            raise dataclasses.FrozenInstanceError(f"cannot {what} field {name!r}")
        getattr(super(cls, self), "__setattr__" if value else "__delattr__")(name, *value)

    return refuse


def _state(self: Any) -> list[object]:
    return [getattr(self, field.name) for field in dataclasses.fields(self)]


def _restore(self: Any, state: list[object]) -> None:
    for field, value in zip(dataclasses.fields(self), state, strict=True):
        object.__setattr__(self, field.name, value)


if TYPE_CHECKING:
    from dataclasses import dataclass
else:
    dataclass = _dataclass
