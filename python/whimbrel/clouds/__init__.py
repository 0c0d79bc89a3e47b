"""Clouds of shots: where a player's balls finish."""
