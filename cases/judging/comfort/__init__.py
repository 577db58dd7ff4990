"""How the person lies: measures of the lay and notes on it."""
