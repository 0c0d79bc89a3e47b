"""Statistics on plain arrays: spread, tests, shares, random numbers, targets."""
