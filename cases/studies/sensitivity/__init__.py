"""Uncertainty of the checks: likely range of their factors, and which input to measure first."""
