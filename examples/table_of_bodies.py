"""One skirt for many bodies: what each comes out at, or why it cannot be had (one hip is given in centimetres).

python examples/table_of_bodies.py
"""

from itertools import product

from output.api import Garment, TrueseamError, block, check, draft, measurements, person

print(f"{'height':>6} {'waist':>6} {'hip':>6}   {'waist':>6} {'hip':>6}   checks")
for height, waist, hip in product((1550, 1700), (680, 820, 960), (920, 1080, 99)):
    try:
        wearer = person({"height": height, "bust": waist + 180, "waist": waist, "hip": hip}, name="table")
        skirt = draft(Garment("Table skirt", wearer, [block("skirt", length=580)]))
    except TrueseamError as refused:
        print(f"{height:6} {waist:6} {hip:6}   {refused.sentences()[0].splitlines()[0]}")
        continue
    made = measurements(skirt)
    sizes = f"{made['waist'].finished:6.0f} {made['hip'].finished:6.0f}"
    print(f"{height:6} {waist:6} {hip:6}   {sizes}   {check(skirt).verdict}")
