"""How the parts of a hammock are made from materials, what they then bear and what they weigh.

Formulas of handbooks on records of their own; nothing here knows a mesh or a solver.
"""

from .capacity import BASES, Basis, Capacity, Step, find_capacity
from .channel_strength import Sewn, find_fold_cloth, find_seam_cloth, find_strip_strength, is_usual
from .factor import FACTORS, Factor, Factors, Reductions
from .fold import Fold, Strip, flatten_cord
from .fold_layer import Layer
from .fold_section import FoldSection, cut_fold
from .lock import Lock
from .stitching import Stitch, Stitching, find_lock_force, find_lock_strength, find_seam_strength
from .workmanship import Workmanship

__all__ = [
    "BASES",
    "FACTORS",
    "Basis",
    "Capacity",
    "Factor",
    "Factors",
    "Fold",
    "FoldSection",
    "Layer",
    "Lock",
    "Reductions",
    "Sewn",
    "Step",
    "Stitch",
    "Stitching",
    "Strip",
    "Workmanship",
    "cut_fold",
    "find_capacity",
    "find_fold_cloth",
    "find_lock_force",
    "find_lock_strength",
    "find_seam_cloth",
    "find_seam_strength",
    "find_strip_strength",
    "flatten_cord",
    "is_usual",
]
