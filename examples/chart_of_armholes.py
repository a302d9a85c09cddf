"""A chart: how long the armhole of a bodice is, front and back, for busts from 80 to 120 cm.

python examples/chart_of_armholes.py out/armholes.svg
"""

import sys
from pathlib import Path

from output.api import Garment, block, draft, edges, person

WIDE, HIGH, BORDER = 640, 400, 50

busts = range(800, 1201, 50)
lengths: dict[str, list[float]] = {"bodice front": [], "bodice back": []}
for bust in busts:
    wearer = person({"height": 1680, "bust": bust, "waist": bust - 180, "hip": bust + 60}, name="chart")
    bodice = edges(draft(Garment("Chart bodice", wearer, [block("bodice"), block("sleeve")])))
    for piece, found in lengths.items():
        found.append(bodice[f"{piece}, armhole"].length)

low, high = (pick(mm for found in lengths.values() for mm in found) for pick in (min, max))


def place(bust: float, mm: float) -> str:
    """Where a pair of numbers lies on the page."""
    across = BORDER + (WIDE - 2 * BORDER) * (bust - busts[0]) / (busts[-1] - busts[0])
    up = HIGH - BORDER - (HIGH - 2 * BORDER) * (mm - low) / (high - low)
    return f"{across:.1f},{up:.1f}"


lines = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE} {HIGH}" font-family="sans-serif">']
for (piece, found), dash in zip(lengths.items(), ("", "6 4"), strict=True):
    points = " ".join(place(bust, mm) for bust, mm in zip(busts, found, strict=True))
    lines.append(f'<polyline points="{points}" fill="none" stroke="black" stroke-dasharray="{dash}"/>')
    x, y = place(busts[-1], found[-1]).split(",")
    lines.append(f'<text x="{x}" y="{float(y) - 8:.1f}" text-anchor="end" font-size="12">{piece}</text>')
for bust in busts[::2]:
    x, _ = place(bust, low).split(",")
    lines.append(f'<text x="{x}" y="{HIGH - 20}" text-anchor="middle" font-size="12">{bust / 10:.0f} cm</text>')
for mm in (low, high):
    _, y = place(busts[0], mm).split(",")
    lines.append(f'<text x="{BORDER - 8}" y="{y}" text-anchor="end" font-size="12">{mm / 10:.1f}</text>')
lines.append(f'<text x="{WIDE / 2}" y="20" text-anchor="middle" font-size="14">armhole, cm, by bust</text></svg>')

chart = Path(sys.argv[1] if len(sys.argv) > 1 else "out/armholes.svg")
chart.parent.mkdir(parents=True, exist_ok=True)
chart.write_text("\n".join(lines), encoding="utf-8")
print(f"front {lengths['bodice front'][0]:.0f} to {lengths['bodice front'][-1]:.0f} mm, written to {chart}")
