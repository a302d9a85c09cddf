"""Frozen dataclasses with slots, as those of the standard library, made in a fifth of its time.

A command that checks a garment makes more than two hundred classes before it begins. The standard library compiles six
functions for each of them, which took 40 % of that command's time. Here they share all but `__init__`: what each class
has of its own is a getter of its values. `__init__` is written when somebody asks for it, be it to make the first
value; for most classes of a run nobody does. It sets the slots themselves, past the refusal to set anything, so it is
quicker too.

    @dataclass(frozen=True, slots=True)
    class Allowance:
        mm: float

Everything that looks at dataclasses (`fields`, `replace`, `asdict`, matching, pickling, `help`, signatures) finds what
it expects. An InitVar is refused here; any other kind of dataclass is left to the standard library.
"""

from __future__ import annotations

import dataclasses
import sys
from collections.abc import Callable
from inspect import signature
from operator import attrgetter
from reprlib import recursive_repr
from typing import TYPE_CHECKING, Any, TypeVar

__all__ = ["dataclass"]

T = TypeVar("T")

_LEFT_OUT = getattr(dataclasses, "_HAS_DEFAULT_FACTORY", dataclasses.MISSING)
"""What stands for a value that is made anew for each: shown in a signature as the standard library shows it."""


def _dataclass(
    cls: type | None = None,
    /,
    *,
    frozen: bool = False,
    slots: bool = False,
    repr: bool = True,
    eq: bool = True,
    **more: bool,
) -> Any:
    """The class made a dataclass, or what makes one: for a frozen one with slots the way of this module."""
    if not (frozen and slots) or more:
        return dataclasses.dataclass(cls, frozen=frozen, slots=slots, repr=repr, eq=eq, **more)
    if cls is not None:
        return _frozen(cls, shown=repr, compared=eq)
    return lambda cls: _frozen(cls, shown=repr, compared=eq)


def _frozen(cls: type[T], *, shown: bool, compared: bool) -> type[T]:
    """Raises TypeError for what the standard library refuses, and for an InitVar, which is not made here."""
    own = cls.__dict__
    for name in ("__setattr__", "__delattr__"):
        if name in own:
            raise TypeError(f"Cannot overwrite attribute {name} in class {cls.__name__}")
    own_hash = "__hash__" in own and (own["__hash__"] is not None or "__eq__" not in own)
    told = bool(cls.__doc__)
    if not told:
        cls.__doc__ = cls.__name__  # else the standard library works out a signature for it
    # the fields, the slots, what matching goes by; no function is compiled for these. The standard library lets only
    # a frozen class stand upon a frozen one: one upon another is made so at once, the first is called so afterwards
    further = any(dataclasses.is_dataclass(base) for base in cls.__mro__[1:])
    made = dataclasses.dataclass(init=False, repr=False, eq=False, slots=True, frozen=further)(cls)
    params = made.__dataclass_params__  # type: ignore[attr-defined]
    params.init, params.repr, params.eq, params.frozen = True, shown, compared, True
    fields = dataclasses.fields(made)  # type: ignore[arg-type]
    _accept(made, fields)
    names = frozenset(field.name for field in fields)
    given: dict[str, Any] = {
        "__init__": _InitLater(made),
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
    if not told:
        made.__doc__ = _DocLater(made)  # type: ignore[assignment]
    return made


def _accept(cls: type, fields: tuple[dataclasses.Field[Any], ...]) -> None:
    """Raise TypeError where a field without a default comes after one with it, or where there is an InitVar."""
    named = cls.__dataclass_fields__  # type: ignore[attr-defined]
    if len(named) > len(fields) and any(repr(each._field_type) == "_FIELD_INITVAR" for each in named.values()):
        raise TypeError(f"{cls.__qualname__} has an InitVar: that is made by the standard library's dataclass alone")
    defaults = False
    for field in fields:
        if field.init and not field.kw_only:
            if _has_default(field):
                defaults = True
            elif defaults:
                raise TypeError(f"non-default argument {field.name!r} follows default argument")


def _has_default(field: dataclasses.Field[Any]) -> bool:
    left_out = dataclasses.MISSING
    return field.default is not left_out or field.default_factory is not left_out


class _InitLater:
    """What stands for `__init__` until somebody asks for it, and then puts the true one in its own place."""

    def __init__(self, cls: type) -> None:
        self.cls = cls

    def __get__(self, value: object | None, owner: type | None = None) -> Any:
        if vars(self.cls)["__init__"] is self:
            self.cls.__init__ = _init(self.cls)
        return vars(self.cls)["__init__"].__get__(value, owner)


class _DocLater:
    """What stands for the docstring of a class that has none: its signature, worked out when it is asked for."""

    def __init__(self, cls: type) -> None:
        self.cls = cls

    def __get__(self, value: object | None, owner: type | None = None) -> str:
        return f"{self.cls.__name__}{str(signature(self.cls)).replace(' -> None', '')}"


def _init(cls: type) -> Callable[..., None]:
    """The `__init__` of a class: a line for each field, that sets its slot.

    What it needs stands in the function round it, under names that no field has.
    """
    fields = dataclasses.fields(cls)
    this = "__dataclass_self__" if "self" in {field.name for field in fields} else "self"
    needed: dict[str, Any] = {"__dataclass_left_out__": _LEFT_OUT}
    asked: list[str] = []
    named: list[str] = []
    lines: list[str] = []
    for field in fields:
        name, default, value = field.name, "", field.name
        usual, new = f"__dataclass_default_{name}__", f"__dataclass_new_{name}__"
        if field.default_factory is not dataclasses.MISSING:
            needed[new], default = field.default_factory, "=__dataclass_left_out__"
            value = f"{new}() if {name} is __dataclass_left_out__ else {name}" if field.init else f"{new}()"
        elif field.default is not dataclasses.MISSING:
            needed[usual], default = field.default, f"={usual}"
            value = name if field.init else usual
        elif not field.init:
            continue
        if field.init:
            (named if field.kw_only else asked).append(name + default)
        needed[f"__dataclass_set_{name}__"] = getattr(cls, name).__set__
        lines.append(f"  __dataclass_set_{name}__({this}, {value})")
    if hasattr(cls, "__post_init__"):
        lines.append(f"  {this}.__post_init__()")
    head = ", ".join((this, *asked, *(("*", *named) if named else ())))
    text = "\n".join((f"def round_it({', '.join(needed)}):", f" def __init__({head}):", *lines, "  return None",
                      " return __init__"))  # fmt: skip
    made: dict[str, Any] = {}
    exec(text, getattr(sys.modules.get(cls.__module__), "__dict__", {}), made)
    written: Callable[..., None] = made["round_it"](**needed)
    written.__qualname__ = f"{cls.__qualname__}.__init__"
    written.__annotations__ = {**{field.name: field.type for field in fields if field.init}, "return": None}
    return written


def _getter(names: list[str]) -> Callable[[object], tuple[Any, ...]]:
    """What gives the values of these fields as a tuple."""
    if len(names) > 1:
        return attrgetter(*names)
    return (lambda value: (getattr(value, names[0]),)) if names else (lambda _: ())


def _equal(values: Callable[[object], tuple[Any, ...]]) -> Callable[[object, object], bool]:
    def __eq__(self: object, other: object) -> bool:  # noqa: N807
        return values(self) == values(other) if other.__class__ is self.__class__ else NotImplemented

    return __eq__


def _hash(values: Callable[[object], tuple[Any, ...]]) -> Callable[[object], int]:
    def __hash__(self: object) -> int:  # noqa: N807
        return hash(values(self))

    return __hash__


def _repr(names: list[str]) -> Callable[[object], str]:
    @recursive_repr()
    def __repr__(self: object) -> str:  # noqa: N807
        told = ", ".join(f"{name}={getattr(self, name)!r}" for name in names)
        return f"{self.__class__.__qualname__}({told})"

    return __repr__


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
