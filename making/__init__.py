"""How the parts of a hammock are made from materials, what they then bear and what they weigh.

Formulas of handbooks on records of their own; nothing here knows a mesh or a solver.
"""

from .bend import bend_cord, find_bend_share
from .capacity import BASES, Basis, Capacity, Step, find_capacity
from .corner import Corner, CornerPlate, TipLoop
from .ending import Ending, Method, Share, find_share, measure_bury, name_fibre
from .factor import FACTORS, Factor, Factors, Reductions
from .rigging import Rigging
from .strap import Hitch, Trees, TreeStrap, Wrap
from .workmanship import Workmanship

__all__ = [
    "BASES",
    "FACTORS",
    "Basis",
    "Capacity",
    "Corner",
    "CornerPlate",
    "Ending",
    "Factor",
    "Factors",
    "Hitch",
    "Method",
    "Reductions",
    "Rigging",
    "Share",
    "Step",
    "TipLoop",
    "TreeStrap",
    "Trees",
    "Workmanship",
    "Wrap",
    "bend_cord",
    "find_bend_share",
    "find_capacity",
    "find_share",
    "measure_bury",
    "name_fibre",
]
