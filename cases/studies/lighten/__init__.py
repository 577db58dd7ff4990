"""Lighter materials: every part of a design in other materials of the library, one by one and together."""
