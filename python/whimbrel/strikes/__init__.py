"""Tables of strikes: how they are read, and their rows played."""
