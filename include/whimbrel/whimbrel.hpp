#pragma once
// All of the library, header-only.
#include "whimbrel/compiled.hpp"
#include "whimbrel/derivative/sensitivity.hpp"
#include "whimbrel/flight/fly_odeint.hpp"
