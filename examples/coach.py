"""A coach: the path was 4° in-to-out, and still the ball finished left. Why?"""

import whimbrel as wb
from whimbrel.units import deg, mph

hit = wb.Delivery(
    clubhead_speed=84 * mph,
    club_path=4 * deg,
    attack_angle=-6 * deg,
    face_angle=-1 * deg,
    dynamic_loft=24 * deg,
)
shot = wb.play(hit, wb.clubs["7 iron"])
plane = wb.d_plane(hit)

print(shot.in_words())
print(f"The face pointed {(hit.club_path - hit.face_angle) / deg:.0f}° left of the path,")
print(f"which tilts the spin axis {-plane.tilt / deg:.1f}° left at a spin loft of {plane.spin_loft / deg:.1f}°.")
