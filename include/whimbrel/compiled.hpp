#pragma once
// The whole library for programs that link the compiled target `whimbrel::compiled`: the same names
// as `whimbrel.hpp`, with the flight's integrator and the derivatives linked rather than compiled again.
#include "whimbrel/batch/fly_alone.hpp"
#include "whimbrel/batch/play_all.hpp"
#include "whimbrel/batch/strike_all.hpp"
#include "whimbrel/batch/strike_alone.hpp"
#include "whimbrel/derivative/sensitivity.hpp"
#include "whimbrel/ground/stopping.hpp"
#include "whimbrel/inverse/doubt.hpp"
#include "whimbrel/shot/explain.hpp"
#include "whimbrel/shot/level_distance.hpp"
#include "whimbrel/swing/club_set.hpp"
#include "whimbrel/swing/delivered_on.hpp"
#include "whimbrel/swing/usual_delivery.hpp"
