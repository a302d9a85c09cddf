"""What a refusal or a failed check gives to type is data: its sentence is made of a `Remedy`, a page makes a button.

So no sentence of the engine holds an option with its value, `depth = "2 cm"`, or a step, `alter = "hem"`, in letters of
its own. Read off the source, so that none is missed and it costs nothing; what stays is listed, each with its reason.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from tests.house.parsed import modules

_ROOT: Final = Path(__file__).parents[2]
_ROOMS: Final = ("drafting/alterations/", "drafting/parts/", "drafting/checks/", "blocks/")
_TYPED: Final = re.compile(r'\b([a-z_]+ = (?:"[^"{]*"?|\{+ [a-z_]+|-?\d+))')

_EXAMPLE: Final = "no amount was given: what it looks like is shown, and no amount is known to be right"
_TABLE: Final = "a problem of the file, told with its place there (`Problem`), which is no refusal of a step or part"
_OWN: Final = "data of its own: `OneSided`, from which the sentence is made"
_EASE: Final = "an ease of the garment, and a remedy sets none"
_CLOTH: Final = "the cloth, and a remedy sets none"
_TWO: Final = "two changes that go together, and a remedy is one"
_BLOCK: Final = "measurements stand in the way, for which `Way` is the data; its option is told beside them"
_OTHER_BLOCK: Final = "an option of a block that the garment has not, and a remedy orders no block"
_LEFT_OUT: Final = "an option that is to be left out, and a setting has a value"
_UNKNOWN: Final = "the check or the step does not know which part, piece or step it is of"
_GAVE_WAY: Final = "no refusal: what was done, told with how it is had otherwise"

EXCEPTIONS: Final = {
    'blocks/block_table.py: body = "': _TABLE,
    'blocks/from_file/garment_file.py: piece = "': _TABLE,
    'blocks/from_file/part_file.py: called = "': _TABLE,
    'blocks/rows/romper.py: leg_end = "plain"': _TABLE,
    'blocks/rows/romper.py: leg_length = "4 cm"': _TABLE,
    'blocks/child/skirt.py: waist = "gathered"': _BLOCK,
    'blocks/rows/asked.py: below_waist = "': _BLOCK,
    'blocks/shared/dartless_frame.py: band_stretch = "80 %"': _BLOCK,
    'blocks/shared/dartless_frame.py: opening = "lapped shoulder"': _BLOCK,
    'blocks/skirts/circle.py: circle = "': _BLOCK,
    'blocks/rows/trousers.py: alter = "opening"': _TWO,
    'blocks/rows/trousers.py: at = "side"': _TWO,
    'blocks/rows/trousers.py: fastening = "side"': _LEFT_OUT,
    'blocks/skirts/gored.py: fastening = "side"': _LEFT_OUT,
    'drafting/alterations/bodice/armhole.py: cut_in = "1 cm"': _EXAMPLE,
    'drafting/alterations/bodice/armhole.py: lower = "2 cm"': _EXAMPLE,
    'drafting/alterations/bodice/bust.py: by = "3 cm"': _EXAMPLE,
    'drafting/alterations/bodice/neckline.py: shape = "V"': _EXAMPLE,
    'drafting/alterations/finishes/hem.py: depth = "6 cm"': _EXAMPLE,
    'drafting/alterations/skirt/flare_skirt.py: hem = "30 cm"': _EXAMPLE,
    'drafting/alterations/sleeve/full_sleeve.py: cap = "8 cm"': _EXAMPLE,
    'drafting/alterations/sleeve/full_sleeve.py: hem = "20 cm"': _EXAMPLE,
    'drafting/alterations/trousers/crotch_curve.py: by = "5 mm"': _EXAMPLE,
    'drafting/alterations/trousers/crotch_length.py: back = "1 cm"': _EXAMPLE,
    'drafting/alterations/trousers/crotch_length.py: by = "1 cm"': _EXAMPLE,
    'drafting/alterations/trousers/full_thigh.py: by = "2 cm"': _EXAMPLE,
    'drafting/alterations/trousers/leg_line.py: by = "-1 cm"': _EXAMPLE,
    "drafting/alterations/whole_garment/blend_sizes.py: waist = 96": _EXAMPLE,
    'drafting/alterations/whole_garment/room_to_grow.py: line = "..."': _EXAMPLE,
    'drafting/alterations/whole_garment/take_in.py: waist = "2 cm"': _EXAMPLE,
    "drafting/alterations/whole_garment/take_in.py: ease = { waist": _EASE,
    'drafting/alterations/whole_garment/take_in.py: hip = "6 cm"': _EASE,
    'drafting/alterations/finishes/button_stand.py: only = "bodice front"': _UNKNOWN,
    'drafting/alterations/styles/smock.py: length = "': _GAVE_WAY,
    'drafting/checks/base.py: only = "': _OWN,
    'drafting/checks/closings.py: at = "centre back"': _TWO,
    'drafting/checks/closings.py: at = "centre front"': _TWO,
    'drafting/checks/closings.py: fasten = "buttons"': _TWO,
    'drafting/checks/closings.py: fasten = "closed"': _TWO,
    'drafting/checks/closings.py: fastening = "back"': _UNKNOWN,
    'drafting/checks/collars.py: fall = "': _UNKNOWN,
    'drafting/parts/bands/front_band.py: front = "open"': _OTHER_BLOCK,
    'drafting/parts/bands/knit_stretch.py: kind = "jersey"': _CLOTH,
}
"""What stays, by file and what is typed, and why."""

_WORDS: Final = "drafting/alterations/alteration_words.py"
"""Answers to a word that may mean several steps: which was meant, and how much, is not known."""


def typed_in(tree: ast.AST) -> Iterator[str]:
    """The options with their values that stand in texts of a module; in no docstring."""
    skipped = {id(each.value) for each in ast.walk(tree) if isinstance(each, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            skipped |= {id(part) for part in node.values}
            said = "".join(str(part.value) if isinstance(part, ast.Constant) else "{}" for part in node.values)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in skipped:
            said = node.value
        else:
            continue
        yield from (match[1] for match in _TYPED.finditer(said))


def _found() -> set[str]:
    named = ((path.relative_to(_ROOT).as_posix(), tree) for path, tree in modules().items())
    return {
        f"{name}: {typed}"
        for name, tree in named
        if name.startswith(_ROOMS) and name != _WORDS
        for typed in typed_in(tree)
    }


def test_no_sentence_gives_to_type_what_is_no_data() -> None:
    """The other way too: what is listed stands there still."""
    assert _found() == set(EXCEPTIONS)


def test_what_is_typed_is_found() -> None:
    """In a plain text, in one that is filled in, in pieces; not in a docstring or in code."""
    source = '''
def refuse(mm):
    """Say depth = "2 cm"."""
    length = "a"
    raise Error('open it: alter = "opening"', f'the most: depth = "{mm} mm", '
                'count = 3')
'''
    assert list(typed_in(ast.parse(source))) == ['alter = "opening"', 'depth = "', "count = 3"]


def test_where_a_step_is_to_be_put_is_data() -> None:
    """The sentence is made of a `Remedy` in one place, and nothing is found by its words."""
    words = "this step before"
    telling = {
        path.relative_to(_ROOT).as_posix()
        for path, tree in modules().items()
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and words in node.value
    }
    assert telling == {"drafting/errors.py"}
