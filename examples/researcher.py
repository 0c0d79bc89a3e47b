"""A researcher: a driver's carry and spin over attack angle and loft, and the slopes at the longest drive."""

import sys

import numpy as np

import whimbrel as wb
from whimbrel.units import deg, mph, rpm, yd

driver, teed = wb.clubs["driver"], wb.Terrain(tee_height=0.038)
attack, loft = np.linspace(-5, 6, 300) * deg, np.linspace(8, 22, 300) * deg
swept = wb.sweep(
    wb.Delivery(100 * mph),
    driver,
    attack_angle=attack,
    dynamic_loft=loft,
    terrain=teed,
    outputs=["carry", "spin_rate"],
)
print(swept)

best = swept.isel(swept.carry.argmax(...))
longest = wb.Delivery(100 * mph, attack_angle=float(best.attack_angle), dynamic_loft=float(best.dynamic_loft))
print(
    f"\nThe longest of {swept.carry.size:,} carries {best.carry / yd:.1f} yd, with attack"
    f" {best.attack_angle / deg:.1f}°, loft {best.dynamic_loft / deg:.1f}° and {best.spin_rate / rpm:,.0f} rpm.\n"
)
print(wb.sensitivity(longest, driver, of=["carry", "spin_rate"], terrain=teed))

wb.plot_sweep(swept, "carry", ridge="dynamic_loft").figure.savefig(
    sys.argv[1] if len(sys.argv) > 1 else "attack_and_loft.png", dpi=120
)
