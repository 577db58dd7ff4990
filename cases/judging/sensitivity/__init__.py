"""Uncertainty of each factor of safety: its range, the inputs it comes from, how to measure them at home."""
