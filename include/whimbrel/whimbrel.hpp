#pragma once
// All of the library, header-only.
#include "whimbrel/compiled.hpp"
#include "whimbrel/derivative/sloped_row.hpp"
#include "whimbrel/flight/fly_odeint.hpp"
