"""Results in plain sentences, a module a view."""
