"""From a design to its equilibrium: a sequence of meshes from coarse to fine that keeps the hang angle."""
