"""How the parts of a hammock are made from materials, what they then bear and what they weigh.

Formulas of handbooks on records of their own; nothing here knows a mesh or a solver.
"""

from .capacity import BASES, Basis, Capacity, Step, find_capacity
from .factor import FACTORS, Factor, Factors, Reductions
from .workmanship import Workmanship

__all__ = [
    "BASES",
    "FACTORS",
    "Basis",
    "Capacity",
    "Factor",
    "Factors",
    "Reductions",
    "Step",
    "Workmanship",
    "find_capacity",
]
