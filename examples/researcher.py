"""A researcher: a driver's carry over attack angle and loft, 90,000 flights, to a contour picture."""

import sys

import matplotlib.pyplot as plt
import numpy as np

import whimbrel as wb
from whimbrel.units import deg, mph, yd

attack, loft = np.linspace(-5, 6, 300), np.linspace(8, 22, 300)
hit = wb.Delivery(clubhead_speed=100 * mph, attack_angle=attack[:, None] * deg, dynamic_loft=loft[None, :] * deg)
carry = wb.play(hit, wb.clubs["driver"], terrain=wb.Terrain(tee_height=0.038)).carry / yd
best = loft[np.argmax(carry, axis=1)]

figure, axes = plt.subplots(figsize=(7.5, 5), layout="constrained")
levels = axes.contourf(attack, loft, carry.T, levels=np.arange(170, 260, 5), cmap="cividis", extend="min")
axes.plot(attack, best, color="white", lw=2.5, ls="--", label="most carry for each attack angle")
axes.set(xlabel="attack angle, °", ylabel="dynamic loft, °", title="Carry of a driver at 100 mph")
axes.legend(loc="lower left", frameon=False, labelcolor="white")
figure.colorbar(levels, label="carry, yd")
figure.savefig(sys.argv[1] if len(sys.argv) > 1 else "attack_and_loft.png", dpi=120)
