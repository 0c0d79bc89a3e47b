"""The base of values and results: numbers with units, labels and blocks; files; optional packages."""
