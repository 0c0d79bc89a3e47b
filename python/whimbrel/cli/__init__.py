"""The command `whimbrel`, a module a command."""
