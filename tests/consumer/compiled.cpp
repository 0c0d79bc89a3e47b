#include <whimbrel/compiled.hpp>

#include "carry.hpp"

int main() { print_carry("compiled"); }
