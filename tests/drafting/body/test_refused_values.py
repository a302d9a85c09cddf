"""Every word that a person, a size or a cloth is told by is looked up when the value is made, not only when read."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from drafting.body.person import Person
from drafting.body.sizes import Sizes
from drafting.errors import UnknownName
from drafting.fit.cloth import Cloth

WHO = {"name": "Oda", "body": "woman", "measurements": ()}


@pytest.mark.parametrize(
    ("make", "option", "kind"),
    [
        (Person, "body", "kind of body"),
        (Person, "lives", "place"),
        (Person, "unit", "unit"),
        (Sizes, "height", "height"),
        (Cloth, "weight", "weight"),
    ],
)
def test_a_word_that_is_none_of_those_known_is_refused_with_those(
    make: Callable[..., Any], option: str, kind: str
) -> None:
    with pytest.raises(UnknownName) as refused:
        make(**{**(WHO if make is Person else {}), option: "mauve"})
    assert (refused.value.kind, refused.value.name) == (kind, "mauve")
    assert refused.value.known
