"""A fitter: one player's 7 iron delivered with more and less loft; what it does to carry, height, descent."""

import numpy as np

import whimbrel as wb
from whimbrel.units import deg, mph, yd

loft = np.arange(20, 31, 2.0)
hit = wb.Delivery(clubhead_speed=84 * mph, attack_angle=-4 * deg, dynamic_loft=loft * deg)

print("dynamic loft   carry    apex    descent   landing speed")
for name in ("standard", "low drag"):
    shots = wb.play(hit, wb.clubs["7 iron"], ball=wb.balls[name])
    print(f"{name} ball")
    for i, row in enumerate(loft):
        flight = shots.flight
        print(
            f"{row:9.0f}° {flight.carry[i] / yd:10.1f} yd {flight.apex[i] / yd:5.1f} yd "
            f"{flight.descent_angle[i] / deg:7.1f}° {flight.landing_speed[i] / mph:11.1f} mph"
        )
