"""Sweeps: a design with everything that varies in it, solved in every combination and stored."""
