#pragma once
// All of the library, header-only. Batches (`fly_all`, `strike_all`) and derivatives (`sensitivity`) also
// need the batch kernels: include `whimbrel/batch/kernels_here.hpp` in one file of the program.
#include "whimbrel/compiled.hpp"
#include "whimbrel/derivative/sloped_row.hpp"
#include "whimbrel/flight/fly_odeint.hpp"
