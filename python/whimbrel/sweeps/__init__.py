"""Shots over any of their inputs, as labelled arrays."""
