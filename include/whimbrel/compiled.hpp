#pragma once
// The whole library for programs that link the compiled target `whimbrel::compiled`: the same names
// as `whimbrel.hpp`, with the flight's integrator linked rather than compiled again.
#include "whimbrel/batch/play_all.hpp"
#include "whimbrel/shot/explain.hpp"
#include "whimbrel/shot/play.hpp"
#include "whimbrel/swing/club_set.hpp"
#include "whimbrel/swing/delivered_on.hpp"
