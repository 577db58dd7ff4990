"""How the parts of a hammock are made from materials, what they then bear and what they weigh.

Formulas of handbooks on records of their own; nothing here knows a mesh or a solver.
"""

from .bar import BarBuild, BarPart, Seat
from .bar_column import build_column
from .bar_faults import BarFault, find_bar_faults
from .bar_path import describe_path, list_untold
from .bar_strength import list_weaknesses
from .capacity import BASES, Basis, Capacity, Step, find_capacity
from .channel_strength import Sewn, find_fold_cloth, find_seam_cloth, find_strip_strength, is_usual
from .column import Column
from .factor import FACTORS, Factor, Factors, Reductions
from .fold import Fold, Strip, flatten_cord
from .fold_layer import Layer
from .fold_section import FoldSection, cut_fold
from .lock import Lock
from .stitching import Stitch, Stitching, find_lock_force, find_lock_strength, find_seam_strength
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
    "Fold",
    "FoldSection",
    "Layer",
    "Lock",
    "Reductions",
    "Seat",
    "Sewn",
    "Step",
    "Stitch",
    "Stitching",
    "Strip",
    "Substance",
    "Weakness",
    "Workmanship",
    "build_column",
    "cut_fold",
    "describe_path",
    "find_bar_faults",
    "find_capacity",
    "find_fold_cloth",
    "find_lock_force",
    "find_lock_strength",
    "find_seam_cloth",
    "find_seam_strength",
    "find_strip_strength",
    "find_substance",
    "flatten_cord",
    "is_usual",
    "list_untold",
    "list_weaknesses",
]
