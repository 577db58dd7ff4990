"""Everything about how a design could be lighter."""

from os import PathLike
from pathlib import Path
from typing import NamedTuple

from ....hammock.load_case import DESIGN_LOADS
from ....materials.short_repr import write_repr, write_value
from ...design import Design, compose_design
from ...design_text import read_text
from ..sweep.queue import SweepCallback
from ..sweep.run import open_runner
from ..sweep.worker_pool import PoolSettings, count_cores
from .combination_search import FEW, SearchResult, find_best
from .evaluation import Evaluation, Selection, SwapEvaluator
from .part_swaps import ReplaceablePart, list_parts

MESH_SIZE = 0.1  # m, of all that is only compared; what is told as the answer has the mesh of the design
MOST = 60  # combinations that are solved where there are many


class LightenSettings(NamedTuple):
    """What may change and what must hold.

    Parameters
    ----------
    keys : tuple of str
        Keys of the parts that may change, such as ``body.fabric``; empty is all that name a material.
    loads : tuple of str
        Load cases under which every check must be met.
    limits : tuple of str
        Conditions on figures that must be kept too, such as ``back_sag_m < 25 cm``; of figures that several loads
        have, the worst counts.
    most, few : int
        Combinations that are solved if there are many; up to how many there are few and all lighter ones are solved.
    """

    keys: tuple[str, ...] = ()
    loads: tuple[str, ...] = DESIGN_LOADS
    limits: tuple[str, ...] = ()
    most: int = MOST
    few: int = FEW


class LightenResult(NamedTuple):
    """How a design could be lighter.

    Parameters
    ----------
    design : Design
        As it is.
    parts : tuple of ReplaceablePart
        What was looked at.
    base : Evaluation
        The design as it is, meshed as the swaps.
    sure : Evaluation
        The design as it is, with its own mesh.
    alone : mapping of picks to Evaluation
        Every swap that can be made, by itself.
    best : SearchResult
        The lightest combination that does.
    loads : tuple of str
        Under which it must hold.
    """

    design: Design
    parts: tuple[ReplaceablePart, ...]
    base: Evaluation
    sure: Evaluation
    alone: dict[Selection, Evaluation]
    best: SearchResult
    loads: tuple[str, ...]

    def __repr__(self) -> str:
        return write_repr(
            self,
            self.design.name,
            f"{len(self.parts)} parts",
            f"saves {write_value(self.best.saved, 'mass')}",
            *self.loads,
        )

    @property
    def rough(self) -> bool:
        """Whether the swaps have a coarser mesh than the design."""
        return _is_rough(self.design)


def _is_rough(design: Design) -> bool:
    """Tell whether swaps are meshed more coarsely than a design."""
    return design.mesh_size < MESH_SIZE


def lighten_design(
    path: str | PathLike[str],
    file: Path,
    terms: LightenSettings | None = None,
    *,
    hands: PoolSettings | None = None,
    progress: SweepCallback | None = None,
) -> LightenResult:
    """Find for every part what else of the library it could be made of, and the lightest combination that does.

    Parameters
    ----------
    path : path
        Design file.
    file : Path
        SQLite file of results; one that is there is gone on with.
    terms : LightenSettings or None
        What may change and what must hold.
    hands : PoolSettings or None
        Who does the work; None is one process for each core.
    progress : callable or None
        Told a ``SweepProgress`` after each design.

    Raises
    ------
    DesignError, PartError, RankingError, StoreError, SchedulerError
        For what cannot be used, each with a sentence.
    """
    terms, hands = terms or LightenSettings(), hands or PoolSettings()
    loads = tuple(dict.fromkeys(terms.loads))
    place = Path(path)
    content = read_text(place)
    design = compose_design(content, place)
    parts = list_parts(design, content, terms.keys)
    with open_runner(file, hands) as shop:
        fine = SwapEvaluator(design, content, parts, shop, loads=loads)
        bench = fine
        if _is_rough(design):
            coarse = compose_design(content, place, mesh_size=MESH_SIZE)
            bench = SwapEvaluator(coarse, content, parts, shop, loads=loads)
        base, sure = (_solve_base(each, terms.limits, progress) for each in (bench, fine))
        alone = bench.list_alone()
        trials = dict(zip(alone, bench.solve(alone, progress), strict=True))
        at_once = shop.crew.size if shop.crew is not None else hands.processes or count_cores()
        best = find_best(bench, at_once=at_once, most=terms.most, few=terms.few, fine=fine)
        bench.store_all()
    return LightenResult(design, parts, base, sure, trials, best, loads)


def _solve_base(bench: SwapEvaluator, limits: tuple[str, ...], progress: SweepCallback | None) -> Evaluation:
    """Return the design as it is, held against the limits."""
    base = bench.solve([bench.as_designed], progress)[0]
    return bench.keep_limits(limits) if base.rows[0].figures else base
