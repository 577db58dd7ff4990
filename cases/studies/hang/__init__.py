"""Tree spacings that fit: trees, straps, heights, the ground."""
