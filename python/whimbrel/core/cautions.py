"""What every report, page and picture's words must warn of."""

SWING_CAUTION = "Swing changes can strain the body: ask a qualified professional, and a doctor where there is pain."
CAUTION = (
    "Predictions are for teaching, fitting and study. They are not for siting or sizing safety nets, fences, "
    "tees, paths or setbacks: a golf ball can injure or kill, and such work follows local codes and licensed "
    f"practice. {SWING_CAUTION}"
)
SHORT_CAUTION = (
    "For teaching, fitting and study; not for safety nets, fences, tees or setbacks: a golf ball can injure or "
    "kill."
)
BALL_SPREAD = (
    "Present-day balls differ by up to 18 m (20 yd) of carry for one launch (Lyu et al. 2018): "
    "a carry here is that of the ball model, to compare with others of the same model."
)
IMPACT_BIAS = (
    "Impact here is the rigid-body model, for teaching: about 5 % too much spin with a driver, a quarter too "
    "little with a mid-iron or a short iron; ball speed within 1 %. "
    "Centred strikes only."
)
