"""What every value and result is made of: numbers with units, labels and blocks; files; optional packages."""
