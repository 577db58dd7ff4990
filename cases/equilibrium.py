"""The equilibrium of one design, and everything that is read from it. Nothing here solves anything."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from ..hammock import LoadCase
from ..hammock.foot_room import find_foot_room
from ..materials.short_repr import write_repr, write_value
from ..meshing import HammockModel
from ..solver import State
from .design import Design
from .judging.bar_summary import Bars, find_bars
from .judging.checks import Case, Findings, list_checks
from .judging.cloth.channel_summary import ChannelRecord, measure_channel_loads
from .judging.cloth.cloth_summary import FabricRecord, measure_fabric
from .judging.cloth.extension_summary import ExtensionRecord, measure_beyond
from .judging.cloth.hot_spot import ClothUtilisation, HotSpot, find_cloth_utilisation, is_fine_enough
from .judging.comfort.comfort import Comfort
from .judging.comfort.measurement import measure_comfort
from .judging.comfort.side_stability import SideStability, StabilityRecord, record_stability
from .judging.comfort.smooth_rest import SmoothRest
from .judging.forces import Anchors, Forces, find_anchors, find_forces
from .judging.loaded_shape import LoadedShape, measure_shape
from .judging.sensitivity.factor_ranges import FactorRanges
from .judging.stretch import CordStretch, measure_stretch
from .judging.trees import TreeLoads, find_tree_loads
from .judging.verdict.case_requirements import CaseFacts, list_requirements
from .judging.verdict.requirement import Requirement
from .judging.verdict.verdict import Verdict, merge_cases
from .judging.weighing import Weights, weigh_design
from .judging.weighing.modelled_mass import record_weights
from .load_step import NO_STEPS, LoadSteps


@dataclass(frozen=True)
class Equilibrium:
    """Equilibrium of one design under one load.

    Parameters
    ----------
    design : Design
        What was solved.
    load : LoadCase
        Load case.
    mesh_size : float
        Edge length in the field, m.
    model : HammockModel
        Its structure and named parts.
    state : State
        Equilibrium of ``model.structure``.
    iterations : int
        Steps on all meshes together.
    factorisations : int
        Sparse factorisations on all meshes together.
    seconds : float
        Wall time.
    side_stability : SideStability or None
        How hard a person in contact is held against rolling aside; None was not asked, or does not apply.
    smooth_rest : SmoothRest or None
        Where somebody on the side would roll to on smooth cloth; None was not asked, or does not apply.
    factor_ranges : FactorRanges or None
        How sure the checks are; None was not asked.
    load_steps : LoadSteps
        Equilibria under parts of the weight, if they were asked for.
    """

    design: Design
    load: LoadCase
    mesh_size: float
    model: HammockModel
    state: State
    iterations: int
    factorisations: int
    seconds: float
    side_stability: SideStability | None = None
    smooth_rest: SmoothRest | None = None
    factor_ranges: FactorRanges | None = None
    load_steps: LoadSteps = NO_STEPS

    def __repr__(self) -> str:
        """Return what was solved, and the pull on both lines."""
        lines = [f"{end} line {write_value(self.forces.pick_line(end), 'force')}" for end in ("head", "foot")]
        size = f"{len(self.model.triangles)} triangles"
        return write_repr(self, self.design.name, str(self.load), str(self.state.reason), size, *lines)

    @cached_property
    def findings(self) -> Findings:
        """Every check of what was found, least margin first, and what could not be checked."""
        return list_checks(self.case)

    @property
    def case(self) -> Case:
        """What the checks look at."""
        return self.make_case(self.cloth_utilisation)

    def make_case(self, cloth_utilisation: ClothUtilisation | None) -> Case:
        """Return what the checks look at, with other hot spots or none, which take long to find."""
        work = self.design.workmanship
        if self.load.sudden:
            work = replace(work, factors=replace(work.factors, sudden=True))
        return Case(self.model, self.state, self.forces, work, cloth_utilisation)

    @property
    def carried_weight(self) -> float:
        """Weight of the person in contact that the cloth bears, N."""
        return -float(self.state[self.model.elements["contact"]].force[2])

    @property
    def can_be_pushed(self) -> bool:
        """Whether a person lies in contact, on the back and in the middle: one whose sideways stability is judged."""
        posture = self.design.person.posture
        return self.model.frame is not None and not posture.on_side and posture.offset <= 0.0

    @cached_property
    def requirements(self) -> tuple[Requirement, ...]:
        """What is required of the design under this load, and whether it is met, the worst first."""
        design = self.design
        facts = CaseFacts(
            self.findings,
            self.shape.ground_clearance,
            self.weights.packed,
            find_foot_room(design.hammock, design.person),
            self.comfort,
            self.side_stability,
        )
        return list_requirements(facts, design.find_case(self.load), design.terms.limits)

    @cached_property
    def verdict(self) -> Verdict:
        """The verdict on this load and person alone; what else is required is listed as not judged."""
        case, terms = self.design.find_case(self.load), self.design.terms
        unseen = ["sideways stability"] if self.side_stability is None and self.can_be_pushed else []
        return merge_cases(
            [self.requirements],
            judged=(case.title,),
            unjudged=(*unseen, *terms.list_unjudged((case,))),
            unchecked=(each.part for each in self.findings.unchecked),
        )

    @cached_property
    def cloth_utilisation(self) -> ClothUtilisation | None:
        """Where the cloth is pulled hardest; None if the mesh is too coarse along channels and bars to tell."""
        if not is_fine_enough(self.model):
            return None
        return find_cloth_utilisation(self.model, self.state, self.design.workmanship.reductions)

    @property
    def hot_spots(self) -> tuple[HotSpot, ...]:
        """The places where the cloth is pulled hardest; none if the mesh is too coarse to tell."""
        return () if self.cloth_utilisation is None else self.cloth_utilisation.spots

    @cached_property
    def forces(self) -> Forces:
        """What cords, lines and bars carry, N."""
        return find_forces(self.model, self.state)

    @cached_property
    def anchors(self) -> Anchors:
        """Pull on each tree, N."""
        return find_anchors(self.model, self.state)

    @cached_property
    def trees(self) -> TreeLoads:
        """What each tree bears."""
        return find_tree_loads(self.model, self.state)

    @cached_property
    def stretch(self) -> Mapping[str, CordStretch]:
        """How much longer each cord and line is under load, m."""
        return measure_stretch(self.model, self.state)

    @cached_property
    def shape(self) -> LoadedShape:
        """How it hangs."""
        return measure_shape(self.model, self.state)

    @cached_property
    def comfort(self) -> Comfort | None:
        """How a person in contact lies; None for any other load."""
        return measure_comfort(self.model, self.state) if self.model.frame is not None else None

    @cached_property
    def channel(self) -> ChannelRecord:
        """What cloth and side cords do to each other, and the sewn fold."""
        return measure_channel_loads(self.model, self.state, self.design.workmanship)

    @cached_property
    def fabric(self) -> FabricRecord:
        """How hard the cloth is pulled and stretched as a whole."""
        return measure_fabric(self.model, self.state)

    @cached_property
    def extensions(self) -> tuple[ExtensionRecord, ...] | None:
        """How the cloth beyond each bar is pulled and held; None where no bar is set in."""
        return measure_beyond(self.model, self.state)

    @property
    def bars(self) -> Bars:
        """How both bars are put together."""
        return find_bars(self.model.hammock)

    @property
    def stability(self) -> StabilityRecord | None:
        """How hard a person in contact is held against rolling aside; None was not asked, or does not apply."""
        return record_stability(self.side_stability)

    @cached_property
    def weights(self) -> Weights:
        """Masses of the person, of what the structure carries, and of everything on the scales, kg."""
        return record_weights(self.model, self.design.person, weigh_design(self.design))
