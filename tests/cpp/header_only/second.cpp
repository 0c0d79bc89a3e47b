#include <whimbrel/whimbrel.hpp>

double carry_of_another_file(const whimbrel::Launch<>& launch) { return whimbrel::fly(launch).carry; }
