"""From a hammock to a discrete structure: outline, graded mesh, body load, start shape."""
