"""From a design to its equilibrium: meshes from coarse to fine, the hang angle kept on the way."""
