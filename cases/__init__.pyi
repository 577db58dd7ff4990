from .design import Design as Design
from .design import read_design as read_design
from .design_issue import DesignError as DesignError
from .design_issue import DesignIssue as DesignIssue
from .judging.sensitivity.factor_ranges import FactorRanges as FactorRanges
from .judging.weighing import WeightList as WeightList
from .judging.weighing import weigh_design as weigh_design
from .result import Result as Result
from .solving.mesh_sequence import CaseProgress as CaseProgress
from .solving.no_equilibrium import NoEquilibriumError as NoEquilibriumError
from .storage.shape import CellTag as CellTag
from .storage.shape import Shape as Shape
from .storage.shape import read_shape as read_shape
from .studies.hang.hang_sheet import HangSheet as HangSheet
from .studies.hang.hang_sheet import make_hang_sheet as make_hang_sheet
from .studies.lying.tipping import TipMargin as TipMargin
from .studies.lying.tipping import find_tip_margin as find_tip_margin
from .studies.lying.trim import Trim as Trim
from .studies.lying.trim import find_trim as find_trim
from .studies.sensitivity.range_search import find_factor_ranges as find_factor_ranges
from .studies.solved_case import solve_case as solve_case
from .studies.sweep.run import run_sweep as run_sweep
from .studies.sweep.sweep import Sweep as Sweep
from .studies.sweep.sweep_file import read_sweep as read_sweep
from .studies.sweep.sweep_row import SweepRow as SweepRow

__version__: str
