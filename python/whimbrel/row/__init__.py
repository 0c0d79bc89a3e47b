"""The row: from a swing to where the ball rests, a module a stage."""
