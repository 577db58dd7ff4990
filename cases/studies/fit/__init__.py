"""Stiffnesses found from what was measured on a hammock and on strips of its cloth."""
