"""Pictures of results. Reads results, computes no mechanics."""
