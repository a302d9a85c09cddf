"""A dress from five measurements, its sleeve lengthened, drawn and written as sheets, DXF, JSON and report.

python examples/draw_a_dress.py out/quay-dress
"""

import sys
from pathlib import Path

from output.api import Garment, alter, block, check, draft, measurements, person, svg, write

folder = Path(sys.argv[1] if len(sys.argv) > 1 else "out/quay-dress")
oda = person({"height": 1680, "bust": 920, "waist": 740, "hip": 990, "arm_length": 590}, name="Oda")
blocks = [block("bodice"), block("sleeve"), block("skirt", length=600)]
dress = draft(Garment("Quay dress", oda, blocks))
dress = alter(dress, "lengthen", piece="sleeve", by=30)
print(check(dress).verdict)
print(measurements(dress))
write(dress, folder)
(folder.parent / f"{folder.name}.svg").write_text(svg(dress), encoding="utf-8")
