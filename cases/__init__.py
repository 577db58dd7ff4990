"""What a user asks: design files, load cases, results, studies, the command line.

Names are loaded when first used: the command's help must not wait for a solver it does not need. They stand in
``__init__.pyi``, once for programs and for type checkers.
"""

from .public_names import attach_names

_RENAMED = {
    "Bands": "FactorRanges",
    "Fault": "DesignIssue",
    "Part": "CellTag",
    "Row": "SweepRow",
    "Scales": "WeightList",
    "find_bands": "find_factor_ranges",
}
__getattr__, __dir__, __all__ = attach_names(__name__, __file__, _RENAMED)
