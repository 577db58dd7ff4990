"""Where and how it hangs: trees, straps, heights, the ground."""
