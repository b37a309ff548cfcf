"""Measurements: how fast the program is, how much memory it takes and how near its answers are to the best possible."""
