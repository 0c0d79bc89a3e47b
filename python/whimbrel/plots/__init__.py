"""Results as pictures, by matplotlib, a module a view."""
