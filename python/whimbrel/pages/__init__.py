"""Pages to take home."""
