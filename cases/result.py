"""The result of a design: the record, its summary in numbers, and its files."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import Any

from ..hammock import LoadCase, find_design_warnings
from ..meshing import HammockModel
from ..solver import State
from .design import Design, find_factor
from .judging.bar_summary import describe_bars
from .judging.checks import Case, Findings, describe_checks, describe_unchecked, list_checks
from .judging.checks.verdict import write_verdict
from .judging.clearance import Clearance
from .judging.cloth.channel_summary import describe_channel
from .judging.cloth.cloth_summary import describe_fabric, note_stretch
from .judging.cloth.hot_spot import ClothUtilisation, describe_spot, find_cloth_utilisation, is_fine_enough
from .judging.comfort.comfort import describe_comfort
from .judging.comfort.lay_notes import note_lay
from .judging.comfort.side_stability import SideStability, describe_side_stability, note_side_stability
from .judging.forces import describe_anchors, describe_forces
from .judging.loaded_shape import describe_shape
from .judging.material_list import describe_materials
from .judging.sensitivity.factor_ranges import FactorRanges
from .judging.sensitivity.ranges_description import describe_factor_ranges
from .judging.stretch import describe_stretch, note_cords
from .judging.trees import describe_trees, note_trees
from .judging.weighing import weigh_design
from .judging.weighing.modelled_mass import describe_weights
from .load_step import NO_STEPS, LoadSteps, describe_load_steps, name_step, note_load_steps
from .storage.atomic import write_json, write_text
from .storage.gather_shape import gather_shape
from .storage.result_folder import replace_folder
from .storage.sentence_store import keep_sentences
from .storage.shape import write_shape


@dataclass(frozen=True)
class Result:
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
        Sideways stability of a person in contact; None was not requested, or does not apply.
    factor_ranges : FactorRanges or None
        Uncertainty of the checks; None was not requested.
    load_steps : LoadSteps
        Equilibria under parts of the weight, if requested.
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
    factor_ranges: FactorRanges | None = None
    load_steps: LoadSteps = NO_STEPS

    def add_factor_ranges(self, factor_ranges: FactorRanges) -> "Result":
        """Return the same result with the uncertainty of its checks."""
        sure = replace(self, factor_ranges=factor_ranges)
        known = {key: value for key, value in vars(self).items() if key in ("cloth_utilisation", "findings")}
        vars(sure).update(known)  # they do not change, and take seconds to find
        return sure

    @cached_property
    def findings(self) -> Findings:
        """Every check, highest utilisation first, and what could not be checked."""
        return list_checks(self.case)

    @property
    def case(self) -> Case:
        """The input of the checks."""
        return self.make_case(self.cloth_utilisation)

    def make_case(self, cloth_utilisation: ClothUtilisation | None) -> Case:
        """Return the input of the checks, with other hot spots or none, which take long to find."""
        forces, work = describe_forces(self.model, self.state), self.design.workmanship
        if self.load is LoadCase.SUDDEN:
            work = replace(work, factors=replace(work.factors, sudden=True))
        return Case(self.model, self.state, forces, work, cloth_utilisation)

    @cached_property
    def cloth_utilisation(self) -> ClothUtilisation | None:
        """Highest cloth tension; None if the mesh is too coarse along channels and bars."""
        if not is_fine_enough(self.model):
            return None
        return find_cloth_utilisation(self.model, self.state, self.design.workmanship.reductions)

    @cached_property
    def comfort(self) -> dict[str, Any]:
        """Lay and comfort of a person in contact, as in ``summary["comfort"]``; empty for any other load."""
        return describe_comfort(self.model, self.state) if self.model.frame is not None else {}

    @cached_property
    def summary(self) -> dict[str, Any]:
        """Nested dictionary of plain numbers and words; the end of each key names the SI unit."""
        person, shape = self.design.person, describe_shape(self.model, self.state)
        low = Clearance(shape["ground_clearance_m"]).sentence
        found = {
            "design": {
                "name": self.design.name,
                "note": self.design.note,
                "file": str(self.design.path),
                "load": str(self.load),
                "load_factor": find_factor(self.design, self.load),
            },
            "report": {"units": self.design.units},
            "person": {"stature_m": person.stature, "mass_kg": person.mass, "sex": str(person.sex)},
            "solution": {
                "reason": str(self.state.reason),
                "residual": self.state.residual,
                "iterations": self.iterations,
                "factorisations": self.factorisations,
                "triangles": len(self.model.mesh.triangles),
                "mesh_size_m": self.mesh_size,
                "seconds_s": self.seconds,
            },
            "verdict": write_verdict(self.findings),
            "forces": describe_forces(self.model, self.state),
            "checks": describe_checks(self.findings.checks),
            "unchecked": describe_unchecked(self.findings.unchecked),
            "how_sure": None if self.factor_ranges is None else describe_factor_ranges(self.factor_ranges),
            "bars": describe_bars(self.model.hammock),
            "anchors": describe_anchors(self.model, self.state),
            "trees": describe_trees(self.model, self.state),
            "stretch": describe_stretch(self.model, self.state),
            "shape": shape,
            "comfort": self.comfort,
            "stability": describe_side_stability(self.side_stability),
            "hot_spots": []
            if self.cloth_utilisation is None
            else [describe_spot(self.model, self.state, s) for s in self.cloth_utilisation.spots],
            "load_steps": describe_load_steps(self.load_steps),
            "channel": describe_channel(self.model, self.state, self.design.workmanship),
            "fabric": describe_fabric(self.model, self.state),
            "weights": describe_weights(self.model, self.design.person, weigh_design(self.design)),
            "notes": [
                *([low] if low else []),
                *find_design_warnings(self.design.hammock, self.design.person),
                *note_stretch(self.model, self.state),
                *note_cords(self.model, self.state, self.design.workmanship),
                *note_trees(self.design.hammock.suspension),
                *note_lay(self.model, self.comfort),
                *note_side_stability(self.side_stability),
                *note_load_steps(self.load_steps),
            ],
            "materials": describe_materials(self.design.sources),
        }
        return found | {"sentences": keep_sentences(found)}

    def save(self, folder: str | Path, *, draw: Callable[[Path, Path], None] | None = None) -> None:
        """Write ``result.json``, ``shape.vtu`` and a copy of the design into ``folder``, all of them or nothing.

        The equilibria under parts of the weight go into ``load_step_0.vtu`` and so on, the emptiest first.

        Parameters
        ----------
        folder : path
            Made if it is not there; the result of an earlier solve in it is replaced as a whole.
        draw : callable or None
            Receives the folder with the other files and the picture ``shape.png`` to write, others beside it; None
            draws none.

        Raises
        ------
        OSError
            If the folder cannot be written, or has anything but a result.
        """
        with replace_folder(Path(folder)) as place:
            reductions = self.design.workmanship.reductions
            write_shape(gather_shape(self.model, self.state, reductions), place / "shape.vtu")
            for number, step in enumerate(self.load_steps.found):
                write_shape(gather_shape(step.model, step.state, reductions), place / name_step(number))
            write_text(place / "design.toml", self.design.text)
            write_json(place / "result.json", self.summary)
            if draw is not None:
                draw(place, place / "shape.png")
