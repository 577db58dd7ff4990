"""What a user asks: design files, load cases, results, the command line.

Names are loaded when first used: the command's help must not wait for a solver it does not need.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .certainty.bands import Bands
    from .certainty.search import find_bands
    from .design import Design, read_design
    from .fault import DesignError, Fault
    from .hang.sheet import HangSheet, make_hang_sheet
    from .keeping.shape import Part, Shape, read_shape
    from .lying.tipping import TipMargin, find_tip_margin
    from .lying.trim import Trim, find_trim
    from .result import Result
    from .solving.ladder import CaseProgress
    from .solving.no_equilibrium import NoEquilibriumError
    from .solving.solution import solve_case
    from .sweep.row import Row
    from .sweep.run import run_sweep
    from .sweep.sweep import Sweep
    from .sweep.sweep_file import read_sweep
    from .weighing import Scales, weigh_design

HOMES = {
    "Bands": "certainty.bands",
    "CaseProgress": "solving.ladder",
    "Design": "design",
    "DesignError": "fault",
    "Fault": "fault",
    "HangSheet": "hang.sheet",
    "NoEquilibriumError": "solving.no_equilibrium",
    "Part": "keeping.shape",
    "Result": "result",
    "Row": "sweep.row",
    "Scales": "weighing",
    "Shape": "keeping.shape",
    "Sweep": "sweep.sweep",
    "TipMargin": "lying.tipping",
    "Trim": "lying.trim",
    "find_bands": "certainty.search",
    "find_tip_margin": "lying.tipping",
    "find_trim": "lying.trim",
    "make_hang_sheet": "hang.sheet",
    "read_design": "design",
    "read_shape": "keeping.shape",
    "read_sweep": "sweep.sweep_file",
    "run_sweep": "sweep.run",
    "solve_case": "solving.solution",
    "weigh_design": "weighing",
}

__all__ = [
    "Bands",
    "CaseProgress",
    "Design",
    "DesignError",
    "Fault",
    "HangSheet",
    "NoEquilibriumError",
    "Part",
    "Result",
    "Row",
    "Scales",
    "Shape",
    "Sweep",
    "TipMargin",
    "Trim",
    "find_bands",
    "find_tip_margin",
    "find_trim",
    "make_hang_sheet",
    "read_design",
    "read_shape",
    "read_sweep",
    "run_sweep",
    "solve_case",
    "weigh_design",
]


def __getattr__(name: str) -> Any:  # noqa: ANN401
    """Return a public name from the module that holds it."""
    if name not in HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f".{HOMES[name]}", __name__), name)
