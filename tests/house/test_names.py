"""Code goes by what a thing is (drafting/pattern/places.py), never by what it is called."""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

import pytest

from tests.house.parsed import modules

_ROOT = Path(__file__).parents[2]
_READER = "drafting/pattern/old_names.py"  # takes the types of an old file from its names: the one place that may
_FREE = (
    "drafting/body",
    "drafting/reading",
    "drafting/errors.py",
    "drafting/alterations/alteration_words.py",  # what she wrote is read there
    "output/dxf/load_ezdxf.py",
    _READER,
)

_LOOKUPS = {"edge", "line", "point", "dart", "notch", "piece", "seam"}
_HELD = {"name", "edge", "piece", "notch", "aims_at"}
_WORD_TESTS = {
    "startswith",
    "endswith",
    "split",
    "removeprefix",
    "removesuffix",
    "partition",
    "rpartition",
    "find",
    "index",
}
_WORD_CHANGES = {"lower", "upper", "casefold", "strip", "lstrip", "rstrip", "replace"}
_COMPARED_BY = {"re.match", "re.search", "re.fullmatch", "operator.eq", "operator.ne", "operator.contains"}
_GROUPS = {"frozenset", "set", "tuple", "list", "sorted"}
_OTHER_NAMES = {
    "blocks/child/openings.py": {"self.name in (BUTTON_SHOULDER, LAPPED)"},  # a way of closing
    "blocks/room_for_growth.py": {"each.place.name == 'straps'", "each.name == _LET_OUT"},  # a place to grow, an option
    "blocks/rows/asked.py": {"name == 'below_waist'"},  # an option
    "drafting/alterations/skirt/godet.py": {"piece.split(',')"},  # for the name of a new piece
    "drafting/dataclass.py": {"'self' in {field.name for field in fields}"},  # a field of a class
    "drafting/pattern/find.py": {"f' {name}'.rstrip(' 0123456789').endswith(f' {word}')"},  # whether one is new
    "output/api/garment_files.py": {"name.casefold() != 'roll'"},  # a paper
    "output/api/wearers.py": {"name.casefold() in {INDEX, *map(str.casefold, names)}"},  # a file
    "output/report/cloth_words.py": {"name in _TORSO"},  # a place of ease
    "output/report/knit_words.py": {"name.rpartition(' to ')"},  # shown to a person, shorter
    "output/report/report_page.py": {"PurePosixPath(name).name.removesuffix('.svg')"},  # a file
    "output/report/tables.py": {"name == 'piece'"},  # an option
    "output/sheets/sheet_map.py": {"name.split()"},  # written in lines
}
"""What else has a name, or is not asked what it means: what stands there, by file."""

_OTHERS = {"step", "option", "entry", "alteration", "order", "block", "self.step"}
"""What else has a name: an alteration and its options are words of the engine."""


def _files() -> list[str]:
    of_output = ("api", "drawings", "dxf", "figure", "lay", "report", "sheets")
    rooms = ("drafting", "blocks", *(f"output/{room}" for room in of_output))
    found = (path.relative_to(_ROOT).as_posix() for room in rooms for path in sorted((_ROOT / room).rglob("*.py")))
    return [path for path in found if not path.startswith(_FREE)]


def _tree(file: Path) -> ast.Module:
    return modules().get(file) or ast.parse(file.read_text())


@cache
def _constants(path: str) -> frozenset[str]:
    """The names of a module that stand for words: strings, or groups of them, its own or brought in."""
    file = _ROOT / path
    if not file.exists():
        return frozenset()
    found: set[str] = set()
    for node in _tree(file).body:
        if isinstance(node, ast.Assign | ast.AnnAssign) and node.value is not None and _is_words(node.value, found):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            found |= {target.id for target in targets if isinstance(target, ast.Name)}
        elif isinstance(node, ast.ImportFrom) and node.module:
            loud = [alias for alias in node.names if alias.name.isupper()]
            known = _constants(node.module.replace(".", "/") + ".py") if loud else frozenset()
            found |= {alias.asname or alias.name for alias in loud if alias.name in known}
    return frozenset(found)


def _is_words(node: ast.expr, constants: set[str] | frozenset[str]) -> bool:
    """Whether an expression is a word written in the code, or a group that holds one."""
    if isinstance(node, ast.Constant):
        return isinstance(node.value, str) and node.value != ""
    if isinstance(node, ast.Name):
        return node.id in constants
    if isinstance(node, ast.JoinedStr):
        return any(isinstance(part, ast.Constant) for part in node.values)
    if isinstance(node, ast.Tuple | ast.List | ast.Set):
        return any(_is_words(each, constants) for each in node.elts)
    if isinstance(node, ast.Dict):
        return any(key is not None and _is_words(key, constants) for key in node.keys)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in {"frozenset", "set", "tuple"}:
        return any(_is_words(each, constants) for each in node.args)
    return False


def _is_name(node: ast.expr, called: frozenset[str] = frozenset()) -> bool:
    """Whether an expression is, by the look of it, what a part of a pattern is called, or a group of such names.

    called: the variables that hold one
    """
    if isinstance(node, ast.Attribute):
        return node.attr in _HELD and ast.unparse(node.value) not in _OTHERS
    if isinstance(node, ast.Name):
        return node.id == "name" or node.id.endswith("_name") or node.id in called
    return any(_is_name(each, called) for each in _held_in(node))


def _held_in(node: ast.expr) -> Iterable[ast.expr]:
    """What of an expression is a name if the whole is: what is asked or changed of it, what a group holds."""
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
        return [node.func.value] if node.func.attr in _WORD_TESTS | _WORD_CHANGES else ()
    if isinstance(node, ast.Call):
        return node.args[:1] if isinstance(node.func, ast.Name) and node.func.id in _GROUPS | {"str"} else ()
    if isinstance(node, ast.Subscript | ast.FormattedValue):
        return [node.value]
    if isinstance(node, ast.Tuple | ast.List | ast.Set):
        return node.elts
    if isinstance(node, ast.SetComp | ast.ListComp | ast.GeneratorExp):
        return [node.elt]
    if isinstance(node, ast.JoinedStr | ast.BoolOp):
        return node.values
    return ()


def _called(tree: ast.AST) -> frozenset[str]:
    """The variables of a module, wherever in it, that are given a name as it stands."""
    held = [node for node in ast.walk(tree) if isinstance(node, ast.Assign | ast.NamedExpr)]
    return frozenset(
        target.id
        for node in held
        if isinstance(node.value, ast.Attribute) and _is_name(node.value)
        for target in (node.targets if isinstance(node, ast.Assign) else [node.target])
        if isinstance(target, ast.Name)
    )


def _compared(path: str) -> Iterator[tuple[int, str]]:
    """Where a file goes by a name: line and what stands there."""
    words, tree = _constants(path), _tree(_ROOT / path)
    called = _called(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.Match):
            cases = [
                each.value for case in node.cases for each in ast.walk(case.pattern) if isinstance(each, ast.MatchValue)
            ]
            if _is_name(node.subject, called) and any(_is_words(each, words) for each in cases):
                yield node.lineno, f"match {ast.unparse(node.subject)}"
        elif isinstance(node, ast.expr) and _is_asked(node, words, called):
            yield node.lineno, ast.unparse(node)


def _is_asked(node: ast.expr, words: frozenset[str], called: frozenset[str]) -> bool:
    """Whether an expression asks whether a name is one of these words."""
    if isinstance(node, ast.Compare):
        sides = [node.left, *node.comparators]
    elif isinstance(node, ast.BinOp) and isinstance(node.op, ast.BitAnd):
        sides = [node.left, node.right]
    elif isinstance(node, ast.Subscript):
        return isinstance(node.value, ast.Name) and node.value.id in words and _is_name(node.slice, called)
    elif isinstance(node, ast.Call):
        if _asks_by_name(node, any(_is_words(each, words) for each in node.args), called):
            return True
        sides = node.args if ast.unparse(node.func) in _COMPARED_BY else []
    else:
        return False
    return any(_is_name(side, called) for side in sides) and any(_is_words(side, words) for side in sides)


def _asks_by_name(call: ast.Call, told: bool, called: frozenset[str]) -> bool:
    """Whether a call looks into a name for a word, or asks for a part by one; told: whether a word is handed over."""
    if isinstance(call.func, ast.Name):
        return told and call.func.id == "across"
    if not isinstance(call.func, ast.Attribute):
        return False
    if call.func.attr in {"startswith", "endswith"} and ast.unparse(call.func.value) == "piece":
        return told  # a piece's name in a variable of that name
    if call.func.attr in _WORD_TESTS:
        return _is_name(call.func.value, called) and (told or call.func.attr == "split")
    return told and call.func.attr in _LOOKUPS


@pytest.mark.parametrize("path", _files())
def test_nothing_goes_by_a_name(path: str) -> None:
    known = _OTHER_NAMES.get(path, set())
    assert [f"{path}:{line}: {what}" for line, what in _compared(path) if what not in known] == []


def test_what_is_let_pass_stands_there_still() -> None:
    for path, known in _OTHER_NAMES.items():
        assert known <= {what for _, what in _compared(path)}, path


def test_a_comparison_with_a_word_is_seen(tmp_path: Path) -> None:
    lines = (
        'BUST = "bust line"',
        'if piece.name == "bodice front": pass',
        'if edge.name.startswith(("neck", "waist")): pass',
        'if "back" in piece.name.split(): pass',
        "at = piece.line(BUST)",
        "if line.name in (BUST,): pass",
        'if ref.edge.endswith("opening"): pass',
        'width = across(piece, "hip line")',
        "if edge.name in names: pass",
        'if step.name == "hem": pass',
        'if piece.endswith(" yoke"): pass',
        "if BUST in (edge.name, after.name): pass",
        'if "front" in {edge.name for edge in edges}: pass',
        'match piece.name:\n    case "front": pass',
        "TABLE = {BUST: 1}",
        "if TABLE[piece.name]: pass",
        "called = piece.name",
        "if called == BUST: pass",
        'if re.match("front", piece.name): pass',
        'if {edge.name for edge in edges} & {"front"}: pass',
        'if piece.name.lower() == "front": pass',
        'if f"{piece.name}" == "front": pass',
        'if piece.name.find("front") >= 0: pass',
        'if "front" == str(piece.name): pass',
        'if ("front", "x") == (ref.piece, ref.edge): pass',
        'if operator.eq(piece.name, "front"): pass',
        'if (piece.name or "").casefold().startswith("front"): pass',
    )
    file = tmp_path / "sample.py"
    file.write_text("\n".join(lines) + "\n")
    assert sorted({line for line, _ in _compared(str(file))}) == [
        2,
        3,
        4,
        5,
        6,
        7,
        8,
        11,
        12,
        13,
        14,
        17,
        *range(19, 29),
    ]


if __name__ == "__main__":
    for each in _files():
        for line, what in _compared(each):
            print(f"{each}:{line}: {what}")
