"""Everything that is told of a result, in plain numbers and words: what is printed, drawn, written and read again."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from ..hammock import LoadCase
from ..hammock.person import Sex
from ..solver import Reason
from .judging.bar_summary import Bars
from .judging.checks import CheckRecord, Unchecked
from .judging.cloth.channel_summary import ChannelRecord
from .judging.cloth.cloth_summary import FabricRecord
from .judging.cloth.extension_summary import ExtensionRecord
from .judging.cloth.hot_spot import HotSpot
from .judging.comfort.comfort import Comfort
from .judging.comfort.side_stability import StabilityRecord
from .judging.forces import Anchors, Forces
from .judging.loaded_shape import LoadedShape
from .judging.material_list import MaterialRecord
from .judging.sensitivity.ranges_record import FactorRangesRecord
from .judging.stretch import CordStretch
from .judging.trees import TreeLoads
from .judging.verdict.verdict import Verdict
from .judging.weighing import Weights
from .load_step import LoadStepRecord
from .record import Kilograms, Metres, Missing, Record, Seconds
from .unit_display import Units


@dataclass(frozen=True, repr=False)
class DesignHeader(Record):
    """What was solved.

    Parameters
    ----------
    name, note : str
        What the maker calls it and says of it.
    file : str
        The design file.
    load : LoadCase
        What the person does.
    load_factor : float
        On the person's weight.
    """

    name: str
    note: str
    file: str
    load: LoadCase
    load_factor: float


@dataclass(frozen=True, repr=False)
class ReportHeader(Record):
    """How it is reported: the units shown first."""

    units: Units


@dataclass(frozen=True, repr=False)
class PersonHeader(Record):
    """Who lies in it: stature, m, mass, kg, and sex."""

    stature: Metres
    mass: Kilograms
    sex: Sex


@dataclass(frozen=True, repr=False)
class SolutionRecord(Record):
    r"""How the equilibrium was found.

    Parameters
    ----------
    reason : Reason
        Why the solver ended.
    residual : float
        :math:`|r| / |f|`, unbalanced over applied load.
    iterations, factorisations : int
        On all meshes together.
    triangles : int
        Of the finest mesh.
    mesh_size : float
        Edge length in the field, m.
    seconds : float
        Wall time, s.
    """

    reason: Reason
    residual: float
    iterations: int
    factorisations: int
    triangles: int
    mesh_size: Metres
    seconds: Seconds


@dataclass(frozen=True, repr=False)
class ResultRecord(Record):
    """Everything that is told of a result, in the order of ``result.json``.

    Parameters
    ----------
    design, report, person, solution : DesignHeader, ReportHeader, PersonHeader, SolutionRecord
        What was solved, and how.
    verdict : str
        In one line whether everything that was looked at holds.
    judged : Verdict or None
        Every requirement under this load, and what was not judged; None in results of earlier versions.
    forces : Forces
        What cords, lines and bars carry.
    checks, unchecked : tuple of CheckRecord, tuple of Unchecked
        Least margin first, and what could not be checked.
    how_sure : FactorRangesRecord or None
        Between what the factors lie; None was not asked.
    bars, anchors, trees : Bars, Anchors, TreeLoads
        How bars are put together, pulls on the trees, and what trees bear.
    stretch : mapping of str to CordStretch
        How much longer each cord and line is.
    shape : LoadedShape
        How it hangs.
    comfort, stability : Comfort or None, StabilityRecord or None
        How a person in contact lies, and is held against rolling.
    hot_spots : tuple of HotSpot
        Where the cloth is pulled hardest; none if the mesh is too coarse to tell.
    load_steps : tuple of LoadStepRecord
        Shapes under parts of the weight.
    channel, fabric, weights : ChannelRecord, FabricRecord, Weights
        Side channels, cloth and masses.
    extensions : tuple of ExtensionRecord or None
        Cloth beyond the bars that are set in; None where there is none.
    notes : tuple of str
        What a maker ought to know besides; may be sentences.
    materials : tuple of MaterialRecord
        What it is made of.
    """

    design: DesignHeader
    report: ReportHeader
    person: PersonHeader
    solution: SolutionRecord
    verdict: str
    judged: Annotated[Verdict | None, Missing.LEFT_OUT]
    forces: Forces
    checks: tuple[CheckRecord, ...]
    unchecked: tuple[Unchecked, ...]
    how_sure: FactorRangesRecord | None
    bars: Bars
    anchors: Anchors
    trees: TreeLoads
    stretch: Mapping[str, CordStretch]
    shape: LoadedShape
    comfort: Annotated[Comfort | None, Missing.EMPTY]
    stability: Annotated[StabilityRecord | None, Missing.EMPTY]
    hot_spots: tuple[HotSpot, ...]
    load_steps: tuple[LoadStepRecord, ...]
    channel: ChannelRecord
    fabric: FabricRecord
    extensions: Annotated[tuple[ExtensionRecord, ...] | None, Missing.LEFT_OUT]
    weights: Weights
    notes: tuple[str, ...]
    materials: tuple[MaterialRecord, ...]
