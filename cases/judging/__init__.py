"""Read one equilibrium: strength, cloth, comfort, trees, weight. Nothing here solves anything."""
