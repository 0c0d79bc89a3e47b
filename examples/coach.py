"""A coach: why a shot finished left, whether a session changed anything, and the page to take home."""

import sys
from pathlib import Path

import whimbrel as wb
from whimbrel.units import deg, mph, yd

# In-to-out by 4°, and still it finished left. Why?
hit = wb.Delivery(84 * mph, club_path=4 * deg, attack_angle=-6 * deg, face_angle=-1 * deg, dynamic_loft=24 * deg)
shot = wb.play(hit, wb.clubs["7 iron"])
print(wb.explain(shot, plane_inclination=62 * deg))

# Did the session change anything, and what to work on? The player and the strikes are invented.
strikes = Path(__file__).parent / "data" / "invented_practice.csv"
told = wb.session(strikes, quantities=["face_angle", "carry", "offline"], target=wb.targets.Corridor(25 * yd))
print()
print(told.in_words())

# One page for the player.
page = Path(sys.argv[1] if len(sys.argv) > 1 else "lesson.html")
page.write_text(wb.lesson(told), encoding="utf-8")
print(f"\nLesson: {page}")
