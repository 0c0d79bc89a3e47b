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
#: What carries of full shots are sure to, in percent of them: one standard deviation (``validation/doubt``).
CARRIES_SURE_TO = (2, 3)
HOW_SURE = (
    f"A carry here is within {CARRIES_SURE_TO[0]} to {CARRIES_SURE_TO[1]} % of the true one two times in three: "
    "balls and clubs differ (13 present-day balls by 18 m: Lyu et al. 2018), and no law is known exactly. What a "
    "small change of one swing does is far surer."
)
PLUS_MINUS = (
    "±: two times in three the true number is that near: balls, clubs and turfs of one name differ, and no law is "
    "known exactly. What a small change of one swing does is far surer. How well the numbers you gave were "
    "measured is not in it, nor how the covers of balls differ."
)
IMPACT_BIAS = (
    "Impact here is the rigid-body model, for teaching: about 5 % too much spin with a driver, a quarter too "
    "little with a mid-iron or a short iron; ball speed within 1 %. "
    "Centred strikes only."
)
