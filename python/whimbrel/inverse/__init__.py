"""The row asked backwards, and how sure its numbers are."""
