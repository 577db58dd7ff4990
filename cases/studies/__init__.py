"""Studies that need more than one equilibrium."""
