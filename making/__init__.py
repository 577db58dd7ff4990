"""How the parts of a hammock are made from materials, what they then bear and what they weigh.

Formulas of handbooks on records of their own; nothing here knows a mesh or a solver.
"""

from .bar import BarBuild, BarPart, Seat
from .bar_column import build_column
from .bar_faults import BarFault, find_bar_faults
from .bar_path import describe_path, list_untold
from .bar_strength import list_weaknesses
from .capacity import BASES, Basis, Capacity, Step, find_capacity
from .column import Column
from .factor import FACTORS, Factor, Factors, Reductions
from .substance import Substance, find_substance
from .weakness import Weakness
from .workmanship import Workmanship

__all__ = [
    "BASES",
    "FACTORS",
    "BarBuild",
    "BarFault",
    "BarPart",
    "Basis",
    "Capacity",
    "Column",
    "Factor",
    "Factors",
    "Reductions",
    "Seat",
    "Step",
    "Substance",
    "Weakness",
    "Workmanship",
    "build_column",
    "describe_path",
    "find_bar_faults",
    "find_capacity",
    "find_substance",
    "list_untold",
    "list_weaknesses",
]
