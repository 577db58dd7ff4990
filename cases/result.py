"""What was found for a design: its record, its summary in numbers, and the files it is kept in."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from importlib.metadata import entry_points
from pathlib import Path
from typing import Any

from ..hammock import find_design_warnings
from ..meshing import check_containment
from .design import find_load_factor
from .equilibrium import Equilibrium
from .judging.checks import record_check
from .judging.clearance import Clearance
from .judging.cloth.cloth_summary import note_stretch
from .judging.comfort.bar_clearance import note_bar
from .judging.comfort.lay_notes import note_lay
from .judging.comfort.side_stability import note_side_stability
from .judging.comfort.smooth_rest import note_smooth_rest
from .judging.material_list import record_materials
from .judging.sensitivity.factor_ranges import FactorRanges
from .judging.sensitivity.ranges_record import record_ranges
from .judging.stretch import note_cords
from .judging.tree_notes import note_trees
from .judging.verdict.verdict import write_outcome
from .load_step import name_step, note_load_steps, record_load_steps
from .result_record import DesignHeader, PersonHeader, ReportHeader, ResultRecord, SolutionRecord
from .storage.atomic import write_json, write_text
from .storage.gather_shape import gather_shape
from .storage.result_folder import replace_folder
from .storage.result_json import encode_result
from .storage.shape import write_shape

HTML_WRITER = "tautlay.result_html"  # group of entry points, see pyproject.toml


@dataclass(frozen=True, repr=False)
class Result(Equilibrium):
    """Equilibrium of one design under one load, with all that is told of it and kept: what :func:`solve_case` returns.

    Parameters
    ----------
    design, load, mesh_size : Design, LoadCase, float
        What was solved, under which load, and the edge length of the mesh in the field, m.
    model : HammockModel
        Mesh and named parts: ``model.triangles`` (m, 3) are the corners of the cloth's triangles.
    state : State
        ``state.positions`` (n, 3), m, are where the nodes stand, those of the cloth first; nodes of the person, under
        ``lying``, come last.
    iterations, factorisations, seconds : int, int, float
        Steps and sparse factorisations on all meshes together, and wall time, s.
    side_stability, smooth_rest : SideStability or None, SmoothRest or None
        How hard a person in contact is held against rolling aside, and where somebody on the side would roll to.
    factor_ranges : FactorRanges or None
        How sure the checks are; None was not asked.
    load_steps : LoadSteps
        Equilibria under parts of the weight, if they were asked for.

    Examples
    --------
    >>> from importlib.resources import files
    >>> from tautlay.cases import read_design, solve_case
    >>> design = read_design(str(files("tautlay.cases") / "larch_ridge.toml"))
    >>> result = solve_case(design, mesh_size=0.15, hot_spots=False)
    >>> round(result.forces.head_bar_thrust), round(result.shape.sag, 2), result.comfort
    (385, 0.68, None)
    """

    def _repr_html_(self) -> str:
        """Return what a notebook shows; the writer is an entry point, since drawing lies above and is not imported."""
        (writer,) = entry_points(group=HTML_WRITER)
        return str(writer.load()(self))

    def add_factor_ranges(self, factor_ranges: FactorRanges) -> "Result":
        """Return the same result with the uncertainty of its checks."""
        sure = replace(self, factor_ranges=factor_ranges)
        known = {key: value for key, value in vars(self).items() if key in ("cloth_utilisation", "findings")}
        vars(sure).update(known)  # they do not change, and take seconds to find
        return sure

    @cached_property
    def record(self) -> ResultRecord:
        """Everything that is told of the result."""
        return _compile_record(self)

    @cached_property
    def summary(self) -> dict[str, Any]:
        """Nested dictionary of plain numbers and words; the end of each key names the SI unit."""
        return encode_result(self.record)

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

        Notes
        -----
        A result is not lost to a picture: whatever else ``draw`` raises is raised once the rest is written.
        """
        failure: Exception | None = None
        with replace_folder(Path(folder)) as place:
            reductions = self.design.workmanship.reductions
            write_shape(gather_shape(self.model, self.state, reductions), place / "shape.vtu")
            for number, step in enumerate(self.load_steps.found):
                write_shape(gather_shape(step.model, step.state, reductions), place / name_step(number))
            write_text(place / "design.toml", self.design.text)
            write_json(place / "result.json", self.summary)
            if draw is not None:
                try:
                    draw(place, place / "shape.png")
                except OSError:
                    raise
                except Exception as error:
                    failure = error
        if failure is not None:
            raise failure


def _compile_record(found: Equilibrium) -> ResultRecord:
    """Return everything that is told of an equilibrium."""
    ranges = found.factor_ranges
    return ResultRecord(
        design=_head_design(found),
        report=ReportHeader(found.design.units),
        person=PersonHeader(found.design.person.stature, found.design.person.mass, found.design.person.sex),
        solution=_record_solution(found),
        verdict=write_outcome(found.verdict, found.findings),
        judged=found.verdict,
        forces=found.forces,
        checks=tuple(record_check(check) for check in found.findings.checks),
        unchecked=found.findings.unchecked,
        how_sure=None if ranges is None else record_ranges(ranges),
        bars=found.bars,
        anchors=found.anchors,
        trees=found.trees,
        stretch=found.stretch,
        shape=found.shape,
        comfort=found.comfort,
        stability=found.stability,
        hot_spots=found.hot_spots,
        load_steps=record_load_steps(found.load_steps),
        channel=found.channel,
        fabric=found.fabric,
        extensions=found.extensions,
        weights=found.weights,
        notes=tuple(_list_notes(found)),
        materials=record_materials(found.design.sources),
    )


def _head_design(found: Equilibrium) -> DesignHeader:
    """Return what was solved."""
    design = found.design
    return DesignHeader(design.name, design.note, design.file_name, found.load, find_load_factor(design, found.load))


def _record_solution(found: Equilibrium) -> SolutionRecord:
    """Return how the equilibrium was found."""
    return SolutionRecord(
        reason=found.state.reason,
        residual=found.state.residual,
        iterations=found.iterations,
        factorisations=found.factorisations,
        triangles=len(found.model.triangles),
        mesh_size=found.mesh_size,
        seconds=found.seconds,
    )


def _list_notes(found: Equilibrium) -> Iterator[str]:
    """Yield what a maker ought to know besides."""
    design, model, state = found.design, found.model, found.state
    if (low := Clearance(found.shape.ground_clearance).sentence) is not None:
        yield low
    yield from find_design_warnings(design.hammock, design.person)
    yield from note_stretch(model, state)
    yield from note_cords(model, state, design.workmanship, lasting=not found.load.sudden)
    yield from note_lay(model, found.comfort)
    yield from note_bar(model, state)
    if (arm := check_containment(model, state.positions, arms=True)) is not None:
        yield _tell_arm(arm)
    yield from note_smooth_rest(found.smooth_rest)
    yield from note_side_stability(found.side_stability)
    yield from note_load_steps(found.load_steps)
    yield from note_trees(design.hammock.suspension)


def _tell_arm(outside: str) -> str:
    """Return where an arm is that lies on no cloth."""
    if outside.startswith("slipped through"):
        return f"The cloth crosses the person's {outside.rpartition(': ')[2]}, which carries nothing on the side."
    return f"The person {outside}, with nothing below it there."
