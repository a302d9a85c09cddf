"""Writes the golden files anew: `python -m tests.golden`. Look at the difference before it is committed."""

from __future__ import annotations

from tests.golden import test_altered, test_faults, test_left_out, test_readings, test_shapes, test_slips
from tests.golden.test_golden import GOLDEN, digests

others = (test_faults, test_altered, test_left_out, test_shapes, test_readings, test_slips)
pages = [page for each in others for page in each.pages()]
for name, text in (*digests().items(), *pages):
    (GOLDEN / name).write_text(text, encoding="utf-8", newline="\n")
    print(GOLDEN / name)
