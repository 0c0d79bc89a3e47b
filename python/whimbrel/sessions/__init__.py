"""Tables of strikes answered: how good, did it change, what to work on, what to aim at."""
