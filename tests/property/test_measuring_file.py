"""Laws of a file that is measured into: whatever is typed in whatever order, it holds that, and all that was there."""

from __future__ import annotations

import datetime
import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.body.person import read_person
from drafting.body.terms import limits
from drafting.reading.units import length_text, parse_length
from output.command.measuring_file import open_to_measure

TODAY, BEFORE = datetime.date(2026, 11, 28), datetime.date(2026, 3, 1)
LIMITS = limits("girl")

STARTS = (
    """name = "Pim"
body = "girl"
unit = "cm"
measured = 2026-03-01
[measurements]
height = 108 # the door
chest = "22 in"
waist = 53
hips = 59
""",
    """# by hand
measurements = { height = "108 cm", bust = "56 cm", waist = "53 cm", hip = "59 cm" } # all
body = "girl"
name = "Pim"
measured = "2026-03-01"
""",
    """body = "girl"
name = "Pim"
unit = "mm"
measured = 2026-03-01

[[earlier]]
measured = "2025-03-01" # a year
height = 1030

[measurements]
height = 1080
chest = 560
waist = 530
hip = 590
""",
    """body = "girl"
name = "Pim"
unit = "in"
measured = 2026-03-01
[measurements]
height = 42.5 # hers
chest = 22
waist = 21
hip = 23
""".replace("\n", "\r\n"),
)
KEYS = ("stature", "bust_girth", "waist_girth", "hip_girth", "arm_length", "neck_base_girth", "head_girth")


@given(
    st.sampled_from(STARTS), st.lists(st.tuples(st.sampled_from(KEYS), st.floats(0.2, 0.8), st.booleans()), max_size=6)
)
@settings(max_examples=25, deadline=None)
def test_every_length_is_kept_and_what_it_replaced_stands_below_its_day(
    start: str, typed: list[tuple[str, float, bool]]
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "pim.toml"
        path.write_bytes(start.encode())
        old = read_person(path)
        file, wanted = open_to_measure(path, TODAY), dict(old.measurements)
        for key, share, inches in typed:
            low, high = LIMITS[key]
            told = length_text(low + share * (high - low), "in" if inches else "cm")
            file = file.write(key, f'"{told}"')
            wanted[key] = parse_length(told, unit=None)
        new = read_person(path)
        assert dict(new.measurements) == wanted
        replaced = {key for key, _, _ in typed} & dict(old.measurements).keys()
        kept = {each.measured: dict(each.measurements) for each in new.earlier}
        assert kept.get(BEFORE, {}) == {key: dict(old.measurements)[key] for key in replaced}
        assert all(kept[each.measured] == dict(each.measurements) for each in old.earlier)
        assert new.measured == (TODAY if typed else BEFORE)
        text = path.read_bytes().decode()
        comments = [line.split("#", 1)[1] for line in start.splitlines() if "#" in line]
        assert all(f"#{comment}" in text for comment in comments)
        assert ("\r\n" in text) == ("\r\n" in start)
