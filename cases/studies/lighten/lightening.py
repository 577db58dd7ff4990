"""Lighter materials for a design: settings, result and search."""

from os import PathLike
from pathlib import Path
from typing import NamedTuple

from ....hammock.load_case import LoadCase, find_load_case
from ....materials.short_repr import write_repr, write_value
from ...design import Design, compose_design
from ...design_text import read_text
from ..sweep.queue import SweepCallback
from ..sweep.run import open_runner
from ..sweep.worker_pool import PoolSettings, count_cores
from .combination_search import FEW, SearchResult, find_best
from .evaluation import Evaluation, Selection, SwapEvaluator
from .no_answer import explain_failure
from .part_swaps import ReplaceablePart, list_parts

MESH_SIZE = 0.1  # m, for comparisons; the answer has the mesh of the design
MOST = 60  # combinations that are solved where there are many


class LightenSettings(NamedTuple):
    """What may change and what must pass.

    Parameters
    ----------
    keys : tuple of str
        Keys of the parts that may change, such as ``body.fabric``; empty is all that name a material.
    loads : tuple of str
        Load cases under which it must pass; empty is all that the design has to stand.
    limits : tuple of str
        Conditions on figures that must be kept too, such as ``back_sag_m < 25 cm``; of figures that several loads
        have, the worst counts.
    most, few : int
        Combinations that are solved if there are many; up to how many there are few and all lighter ones are solved.
    """

    keys: tuple[str, ...] = ()
    loads: tuple[str, ...] = ()
    limits: tuple[str, ...] = ()
    most: int = MOST
    few: int = FEW


class LightenResult(NamedTuple):
    """Lighter materials for a design.

    Parameters
    ----------
    design : Design
        Unchanged.
    parts : tuple of ReplaceablePart
        What was looked at.
    base : Evaluation
        The unchanged design, on the mesh of the swaps.
    sure : Evaluation
        The unchanged design, on its own mesh.
    alone : mapping of selection to Evaluation
        Every swap that can be made, alone.
    best : SearchResult
        The lightest combination that passes.
    judged, unjudged : tuple of str
        Loads, and people if there are several, under which it must pass, and those required that are left out.
    sweep : str
        Name under which the file of results has what was solved on the mesh of the design.
    exclusion : str
        Where nothing passes, the current design included: which requirements exclude each other, and the nearest.
    """

    design: Design
    parts: tuple[ReplaceablePart, ...]
    base: Evaluation
    sure: Evaluation
    alone: dict[Selection, Evaluation]
    best: SearchResult
    judged: tuple[str, ...]
    unjudged: tuple[str, ...]
    sweep: str
    exclusion: str = ""

    def __repr__(self) -> str:
        return write_repr(
            self,
            self.design.name,
            f"{len(self.parts)} parts",
            f"saves {write_value(self.best.saved, 'mass')}",
            *self.judged,
        )

    @property
    def rough(self) -> bool:
        """Whether the swaps have a coarser mesh than the design."""
        return _is_rough(self.design)


def _is_rough(design: Design) -> bool:
    """Return whether swaps are meshed more coarsely than a design."""
    return design.mesh_size < MESH_SIZE


def lighten_design(
    path: str | PathLike[str],
    file: Path,
    terms: LightenSettings | None = None,
    *,
    settings: PoolSettings | None = None,
    progress: SweepCallback | None = None,
) -> LightenResult:
    """Find lighter materials for every part, and the lightest combination that passes.

    Parameters
    ----------
    path : path
        Design file.
    file : Path
        SQLite file of results; an existing one is continued.
    terms : LightenSettings or None
        What may change and what must pass.
    settings : PoolSettings or None
        Where the work is done; None is one process for each core.
    progress : callable or None
        Receives a ``SweepProgress`` after each design.

    Raises
    ------
    DesignError, PartError, RankingError, StoreError, SchedulerError
        For input that cannot be used; the message says why.
    """
    terms, settings = terms or LightenSettings(), settings or PoolSettings()
    loads = tuple(find_load_case(load) for load in dict.fromkeys(terms.loads))
    place = Path(path)
    content = read_text(place)
    design = compose_design(content, place)
    parts = list_parts(design, content, terms.keys)
    with open_runner(file, settings) as runner:
        fine = SwapEvaluator(design, content, parts, runner, loads=loads)
        evaluator = fine
        if _is_rough(design):
            coarse = compose_design(content, place, mesh_size=MESH_SIZE)
            evaluator = SwapEvaluator(coarse, content, parts, runner, loads=loads)
        base, sure = (_solve_base(each, terms.limits, progress) for each in (evaluator, fine))
        alone = evaluator.list_alone()
        evaluations = dict(zip(alone, evaluator.solve(alone, progress), strict=True))
        at_once = runner.pool.size if runner.pool is not None else settings.processes or count_cores()
        best = find_best(evaluator, at_once=at_once, most=terms.most, few=terms.few, fine=fine)
        evaluator.store_all()
    exclusion = explain_failure(evaluator, fine) if best.evaluation is None else ""
    cases = _name_cases(design, loads)
    return LightenResult(design, parts, base, sure, evaluations, best, *cases, fine.sweep.name, exclusion)


def _name_cases(design: Design, loads: tuple[LoadCase, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return under which people and loads a design is solved, and what else is required."""
    cases = design.terms.list_cases(loads or None)
    return design.terms.name_cases(cases), design.terms.list_unjudged(cases)


def _solve_base(evaluator: SwapEvaluator, limits: tuple[str, ...], progress: SweepCallback | None) -> Evaluation:
    """Return the unchanged design, checked against the limits."""
    base = evaluator.solve([evaluator.as_designed], progress)[0]
    return evaluator.keep_limits(limits) if base.row.figures else base
