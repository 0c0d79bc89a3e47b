"""A player: 150 yards, nine yards uphill, into a breeze. What does it play like, and which club is it?"""

import whimbrel as wb
from whimbrel.units import mph, yd

bag = wb.usual_bag(driver_speed=95 * mph)  # or wb.typical_bag("my_strikes.csv")
choice = wb.choose_club(
    bag, distance=150 * yd, rise=9 * yd, wind=wb.Wind.head(8 * mph), turf=wb.turfs["medium green"]
)
print(choice.course_shot.in_words())
for name, carry, past in zip(choice.names, choice.carry, choice.rests, strict=True):
    print(f"{name:<15} carries {carry / yd:5.1f} yd here and stops {past / yd:+6.1f} yd past the target")
