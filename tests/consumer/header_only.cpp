#include <whimbrel/whimbrel.hpp>

#include "carry.hpp"

int main() { print_carry("header-only"); }
