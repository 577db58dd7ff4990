"""How the parts of a hammock are made from materials, their capacity and their mass.

Formulas of handbooks on records of their own; nothing here knows a mesh or a solver.
"""

from .amount import Amount
from .bar import BarBuild, BarPart, ThrustPath
from .bar_column import build_column
from .bar_faults import BarIssue, find_bar_issues
from .bar_path import describe_path, list_untold
from .bar_strength import list_weaknesses
from .bend import bend_cord, find_bend_share
from .capacity import BASES, Basis, Capacity, CapacityStep, Multiplier, find_capacity, find_weakest
from .channel_strength import SewnChannel, find_fold_cloth, find_seam_cloth, find_strip_strength, is_usual
from .column import Column
from .cord_termination import CordTermination, TerminationType, measure_bury
from .corner import Corner, CornerPlate, TipLoop
from .creep import Weather
from .cutting_rules import CuttingRules
from .end_use import is_tail_told, measure_end
from .extra import ExtraItem
from .factor import FACTORS, WET, Factor, Factors, Reductions
from .failure_mode import FailureMode
from .fold import Fold, Strip, flatten_cord
from .fold_layer import Layer
from .fold_section import FoldSection, cut_fold
from .group import WeightGroup
from .hem import Hem, measure_hem
from .lock import Lock
from .material_class import Substance, find_substance
from .retained_strength import RetainedStrength, find_share, name_fibre
from .rigging import END_TITLES, Rigging, name_ends_table
from .stitching import Stitch, Stitching, find_lock_force, find_lock_strength, find_seam_strength
from .strap import SHORTEST_REACH, Hitch, Slings, Tree, TreeStrap, Wrap
from .thread_use import measure_thread
from .unit_mass import UnitMass, find_unit_mass
from .workmanship import Workmanship

__all__ = [
    "BASES",
    "END_TITLES",
    "FACTORS",
    "SHORTEST_REACH",
    "WET",
    "Amount",
    "BarBuild",
    "BarIssue",
    "BarPart",
    "Basis",
    "Capacity",
    "CapacityStep",
    "Column",
    "CordTermination",
    "Corner",
    "CornerPlate",
    "CuttingRules",
    "ExtraItem",
    "Factor",
    "Factors",
    "FailureMode",
    "Fold",
    "FoldSection",
    "Hem",
    "Hitch",
    "Layer",
    "Lock",
    "Multiplier",
    "Reductions",
    "RetainedStrength",
    "Rigging",
    "SewnChannel",
    "Slings",
    "Stitch",
    "Stitching",
    "Strip",
    "Substance",
    "TerminationType",
    "ThrustPath",
    "TipLoop",
    "Tree",
    "TreeStrap",
    "UnitMass",
    "Weather",
    "WeightGroup",
    "Workmanship",
    "Wrap",
    "bend_cord",
    "build_column",
    "cut_fold",
    "describe_path",
    "find_bar_issues",
    "find_bend_share",
    "find_capacity",
    "find_fold_cloth",
    "find_lock_force",
    "find_lock_strength",
    "find_seam_cloth",
    "find_seam_strength",
    "find_share",
    "find_strip_strength",
    "find_substance",
    "find_unit_mass",
    "find_weakest",
    "flatten_cord",
    "is_tail_told",
    "is_usual",
    "list_untold",
    "list_weaknesses",
    "measure_bury",
    "measure_end",
    "measure_hem",
    "measure_thread",
    "name_ends_table",
    "name_fibre",
]


def __dir__() -> list[str]:
    """List the public names only."""
    return [*__all__]
