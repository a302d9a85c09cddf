"""Writes the golden files anew: `python -m tests.golden`. Look at the difference before it is committed."""

from __future__ import annotations

from tests.golden import test_altered, test_faults
from tests.golden.test_golden import GOLDEN, digests

for name, text in (digests() | dict(test_faults.pages()) | dict(test_altered.pages())).items():
    (GOLDEN / name).write_text(text, encoding="utf-8", newline="\n")
    print(GOLDEN / name)
