"""Lay and comfort: measures of the lay and notes on it."""
