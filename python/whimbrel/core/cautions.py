"""The cautions that every report, page and picture carries."""

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
#: One standard deviation of a full shot's carry, in percent of it (``validation/doubt``).
CARRY_SURE_TO = 2.5
HOW_SURE = (
    f"A carry here is within about {CARRY_SURE_TO} % of the true one two times in three, mostly because balls "
    "differ (13 present-day balls by 18 m: Lyu et al. 2018). What one change does with the same ball is far surer."
)
PLUS_MINUS = (
    "±: two times in three the true number is within this range, as balls, clubs and turfs of one name differ. "
    "What one change does with the same ball is far surer. Measurement errors in your numbers are not included."
)
IMPACT_BIAS = (
    "Impact here is the rigid-body model, for teaching: about 5 % too much spin with a driver, a quarter too "
    "little with a mid-iron or a short iron; ball speed within 1 %. "
    "Centred strikes only."
)
