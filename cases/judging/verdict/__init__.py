"""One verdict: what a design has to stand, and whether one equilibrium, or several together, earn it."""
