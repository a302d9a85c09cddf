"""One-token changes of a module: each leaves a program that still runs and means something else.

How: the source is read as a tree; every change replaces the text of one node and leaves the rest as it was written, so
that what is printed is what a reader sees, and line numbers stay.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

__all__ = ["Mutation", "changed", "compiles", "mutations"]

_COMPARED: Final[dict[type[ast.cmpop], str]] = {
    ast.Lt: "<=",
    ast.LtE: "<",
    ast.Gt: ">=",
    ast.GtE: ">",
    ast.Eq: "!=",
    ast.NotEq: "==",
    ast.Is: "is not",
    ast.IsNot: "is",
    ast.In: "not in",
    ast.NotIn: "in",
}
_SIGNS: Final[dict[type[ast.cmpop], str]] = {
    ast.Lt: "<",
    ast.LtE: "<=",
    ast.Gt: ">",
    ast.GtE: ">=",
    ast.Eq: "==",
    ast.NotEq: "!=",
    ast.Is: "is",
    ast.IsNot: "is not",
    ast.In: "in",
    ast.NotIn: "not in",
}
_COUNTED: Final[dict[type[ast.operator], tuple[str, str]]] = {
    ast.Add: ("+", "-"),
    ast.Sub: ("-", "+"),
    ast.Mult: ("*", "/"),
    ast.Div: ("/", "*"),
}
_JOINED: Final[dict[type[ast.boolop], tuple[str, str]]] = {ast.And: ("and", "or"), ast.Or: ("or", "and")}
_NAME: Final = re.compile(r"[\w-][\w .,%/-]{0,29}")
"""A text that names something. How a sentence is worded is not looked at."""

_EITHER_WAY: Final = {"min", "max", "hypot", "distance", "isclose"}
"""Functions that give the same whichever of their arguments is named first."""

_SWAPPED: Final = {True: "False", False: "True"}


@dataclass(frozen=True, slots=True)
class Mutation:
    """One change: the text from `start` to `end` (bytes of the file) becomes `after`.

    within: the function it stands in, by its qualified name; "" for the module itself
    about:  of a comparison, the two texts that are compared; of arguments, the name of what is called; of a constant,
            what stands before it in its line
    """

    kind: str
    line: int
    within: str
    start: int
    end: int
    before: str
    after: str
    about: tuple[str, ...] = ()

    @property
    def at_the_limit(self) -> bool:
        """Whether it changes only what is said of two numbers that are equal."""
        return {self.before, self.after} in ({"<", "<="}, {">", ">="})


def changed(source: bytes, mutation: Mutation) -> bytes:
    """The source with the change made."""
    return source[: mutation.start] + mutation.after.encode() + source[mutation.end :]


def mutations(source: bytes) -> tuple[Mutation, ...]:
    """Every change there is to a module, in the order of its lines; a few of them may not compile."""
    tree = ast.parse(source)
    starts = [0]
    for line in source.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))
    return tuple(sorted(_of(tree, source, starts), key=lambda each: (each.start, each.end, each.after)))


def compiles(source: bytes) -> bool:
    """Whether it is a module that can be run."""
    try:
        compile(source, "mutant", "exec")
    except SyntaxError:
        return False
    return True


class _Text:
    """Where the nodes of a tree stand in the bytes of their file."""

    def __init__(self, source: bytes, starts: list[int]) -> None:
        self.source, self.starts = source, starts

    def begin(self, node: ast.expr | ast.stmt) -> int:
        return self.starts[node.lineno - 1] + node.col_offset

    def end(self, node: ast.expr | ast.stmt) -> int:
        return self.starts[(node.end_lineno or node.lineno) - 1] + (node.end_col_offset or 0)

    def of(self, node: ast.expr | ast.stmt) -> str:
        return self.source[self.begin(node) : self.end(node)].decode()

    def between(self, one: ast.expr, other: ast.expr, sign: str) -> tuple[int, int] | None:
        """Where an operator stands between two nodes."""
        low, high = self.end(one), self.begin(other)
        at = self.source.find(sign.encode(), low, high)
        return None if at < 0 else (at, at + len(sign))


def _of(tree: ast.AST, source: bytes, starts: list[int]) -> Iterator[Mutation]:
    """The changes in a tree, the functions in it by turns. Names of types and docstrings are left alone."""
    text = _Text(source, starts)
    waiting: list[tuple[ast.AST, str, str]] = [(tree, "", "")]
    while waiting:
        node, prefix, inside = waiting.pop()
        for kind, start, end, after, *about in _one(node, text):
            line = source.count(b"\n", 0, start) + 1
            yield Mutation(kind, line, inside, start, end, source[start:end].decode(), after, tuple(about))
        if isinstance(node, ast.FunctionDef):
            inside, prefix = f"{prefix}{node.name}", f"{prefix}{node.name}.<locals>."
        elif isinstance(node, ast.ClassDef):
            prefix = f"{prefix}{node.name}."
        waiting.extend((child, prefix, inside) for child in _children(node))


def _children(node: ast.AST) -> Iterator[ast.AST]:
    for name, value in ast.iter_fields(node):
        if name in ("annotation", "returns", "type_params") or (isinstance(node, ast.JoinedStr) and name == "values"):
            continue
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.AST) and not _said(child) and not _is_key(node, child):
                yield child


def _is_key(node: ast.AST, child: ast.AST) -> bool:
    """Whether it is only the word under which something is remembered, and read again by the same word."""
    return isinstance(node, ast.Call) and _called(node) == "remembered" and node.args[:1] == [child]


def _said(node: ast.AST) -> bool:
    """Whether it is only said to the reader or to a type checker: a docstring, `__all__`, a type's choice of words."""
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
        return True
    if isinstance(node, ast.Assign) and any(isinstance(to, ast.Name) and to.id == "__all__" for to in node.targets):
        return True
    if isinstance(node, ast.keyword) and node.arg in ("frozen", "slots"):
        return True  # a test of the house asks for both
    if isinstance(node, ast.keyword) and node.arg == "strict":
        return True  # where two runs of things are as many, it says so to the reader
    if isinstance(node, ast.keyword) and node.arg == "lead" and isinstance(node.value, ast.Constant):
        return True  # the first words of a sentence
    if isinstance(node, ast.Subscript) and isinstance(node.value, ast.Name) and node.value.id == "Literal":
        return True
    typing = isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"
    called = node.func if isinstance(node, ast.Call) else None
    return typing or (isinstance(called, ast.Name) and called.id in ("cast", "TypeVar", "TypeVarTuple"))


def _one(node: ast.AST, text: _Text) -> Iterator[tuple[str, int, int, str, *tuple[str, ...]]]:
    """The changes of one node itself: what kind, from where to where, to what; and what it is about."""
    if isinstance(node, ast.expr):
        yield from _operator(node, text)
        yield from _value(node, text)
    elif isinstance(node, ast.Return) and node.value is not None and text.of(node.value) not in ("None", "False"):
        yield "return", text.begin(node.value), text.end(node.value), "None"


def _operator(node: ast.expr, text: _Text) -> Iterator[tuple[str, int, int, str, *tuple[str, ...]]]:
    if isinstance(node, ast.Compare):
        left = node.left
        for op, right in zip(node.ops, node.comparators, strict=True):
            if at := text.between(left, right, _SIGNS[type(op)]):
                yield "comparison", *at, _COMPARED[type(op)], text.of(left), text.of(right)
            left = right
    elif isinstance(node, ast.BoolOp):
        sign, other = _JOINED[type(node.op)]
        if at := text.between(node.values[0], node.values[1], sign):
            yield "and, or", *at, other
    elif isinstance(node, ast.BinOp) and type(node.op) in _COUNTED:
        sign, other = _COUNTED[type(node.op)]
        if at := text.between(node.left, node.right, sign):
            yield "sum", *at, other
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub | ast.Not):
        yield "sign", text.begin(node), text.end(node), f"({text.of(node.operand)})"


def _value(node: ast.expr, text: _Text) -> Iterator[tuple[str, int, int, str, *tuple[str, ...]]]:
    if isinstance(node, ast.Constant):
        for after in _nudged(node.value):
            begin = text.begin(node)
            yield "constant", begin, text.end(node), after, text.source[:begin].rpartition(b"\n")[2].decode()
    elif isinstance(node, ast.IfExp):
        one, test, other = text.of(node.body), text.of(node.test), text.of(node.orelse)
        yield "branches", text.begin(node), text.end(node), f"{other} if {test} else {one}"
    elif isinstance(node, ast.Call) and len(node.args) > 1 and _called(node) not in _EITHER_WAY:
        one, other = node.args[:2]
        if not isinstance(one, ast.Starred) and not isinstance(other, ast.Starred) and text.of(one) != text.of(other):
            gap = text.source[text.end(one) : text.begin(other)].decode()
            yield "arguments", text.begin(one), text.end(other), f"{text.of(other)}{gap}{text.of(one)}", _called(node)


def _called(node: ast.Call) -> str:
    """The name of what is called, without what it is of."""
    return node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")


def _nudged(value: object) -> Iterator[str]:
    """A constant by a little off: a tenth of a number, the other truth, a word with a letter more.

    A millionth and less is what counts as nothing; nobody could see a tenth of that.
    """
    if isinstance(value, bool):
        yield _SWAPPED[value]
    elif isinstance(value, int):
        yield str(value + 1)
    elif isinstance(value, float) and not 0.0 < value <= 1e-6:
        yield repr(value * 1.1 if value else 1.0)
    elif isinstance(value, str) and _NAME.fullmatch(value):
        yield repr(f"{value}x")
