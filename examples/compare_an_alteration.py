"""What an alteration does: every length that it moves, and the pieces before under after, as one picture.

python examples/compare_an_alteration.py out/compared.svg
"""

import sys
from pathlib import Path

from output.api import StepRefused, alter, compare, draft, read_garment, svg, undo

picture = Path(sys.argv[1] if len(sys.argv) > 1 else "out/compared.svg")
garments = Path(__file__).parent / "garments"
before = draft(read_garment(garments / "ferry-dress.toml"))
after = alter(before, "full sleeve", hem=80)
print(compare(before, after))
picture.parent.mkdir(parents=True, exist_ok=True)
picture.write_text(svg(compare(before, after)), encoding="utf-8")

# a step that cannot be taken says what can, as data: here the most that a sleeve can be shortened by
try:
    alter(before, "lengthen", piece="sleeve", by=-500)
except StepRefused as refused:
    (remedy,) = refused.remedies
    print(refused)
    less = {setting.option: setting.value for setting in remedy.settings}
    shorter = alter(before, remedy.alteration, piece="sleeve", **less)
    print(compare(undo(shorter), shorter))
