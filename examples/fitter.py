"""A fitter: one player's 7 iron by loft, head and ball: carry, height, descent, and whether it stops."""

from dataclasses import replace

import numpy as np

import whimbrel as wb
from whimbrel.units import deg, ft, mph, rpm, yd

loft = np.arange(20, 31, 2.0)
hit = wb.Delivery(clubhead_speed=84 * mph, attack_angle=-4 * deg, dynamic_loft=loft * deg)
iron = wb.clubs["7 iron"]
heads = {"the set's head": iron, "20 g heavier": replace(iron, mass=iron.mass + 0.02)}
green = wb.green(stimp=10 * ft, firmness=0.6)

print("dynamic loft      carry     apex   descent      spin   run on the green")
for ball in ("standard", "low drag"):
    for head, club in heads.items():
        print(f"{ball} ball, {head}")
        shots = wb.play(hit, club, ball=wb.balls[ball], turf=green)
        for i, row in enumerate(loft):
            print(
                f"{row:11.0f}° {shots.carry[i] / yd:7.1f} yd {shots.flight.apex[i] / yd:5.1f} yd"
                f" {shots.flight.descent_angle[i] / deg:8.1f}° {shots.launch.spin_rate[i] / rpm:5,.0f} rpm"
                f" {shots.run.distance[i] / yd:15.1f} yd"
            )
