"""Invented materials for searches: cloths and cords, some of which cannot hold, so that the lightest are no answer."""

LIBRARY = """
[fabric."cobweb"]
base = "ripstop nylon 22 g/m2"
source = "invented for a test"
status = "memory"
areal_mass = "12 g/m2"
strength_warp = "1.2 N/mm"
strength_weft = "1.2 N/mm"

[fabric."filmy"]
base = "ripstop nylon 30 g/m2"
source = "invented for a test"
status = "memory"
areal_mass = "26 g/m2"

[cord."hair"]
base = "12-strand UHMWPE 1.75 mm"
source = "invented for a test"
status = "memory"
linear_mass = "0.9 g/m"
breaking_load = "900 N"

[cord."thin"]
base = "12-strand UHMWPE 2 mm"
source = "invented for a test"
status = "memory"
linear_mass = "1.6 g/m"
"""
