"""Writes the golden files anew: `python -m tests.golden`. Look at the difference before it is committed."""

from __future__ import annotations

from tests.examples import NAMES, example_pattern
from tests.golden.faults import faults_digest
from tests.golden.test_golden import GOLDEN, digests

faults = {f"faults/{name}.txt": faults_digest(example_pattern(name), k) for k, name in enumerate(NAMES)}
for name, text in (digests() | faults).items():
    (GOLDEN / name).write_text(text, encoding="utf-8", newline="\n")
    print(GOLDEN / name)
