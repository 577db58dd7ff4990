"""Questions that take more than one equilibrium."""
