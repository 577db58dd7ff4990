"""Everything about how a design could be lighter."""

from os import PathLike
from pathlib import Path
from typing import NamedTuple

from ...design import Design, compose_design
from ...design_text import read_text
from ..sweep.queue import Listener
from ..sweep.run import open_workshop
from ..sweep.worker_pool import Hands, count_cores
from .combination_search import FEW, Best, find_best
from .evaluation import Bench, Picks, Trial
from .part_swaps import Part, list_parts

LOADS = ("lying", "sudden")
MESH_SIZE = 0.1  # m, of all that is only compared; what is told as the answer has the mesh of the design
MOST = 60  # combinations that are solved where there are many


class Terms(NamedTuple):
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
    loads: tuple[str, ...] = LOADS
    limits: tuple[str, ...] = ()
    most: int = MOST
    few: int = FEW


class Lightening(NamedTuple):
    """How a design could be lighter.

    Parameters
    ----------
    design : Design
        As it is.
    parts : tuple of Part
        What was looked at.
    base : Trial
        The design as it is, meshed as the swaps.
    sure : Trial
        The design as it is, with its own mesh.
    alone : mapping of picks to Trial
        Every swap that can be made, by itself.
    best : Best
        The lightest combination that does.
    loads : tuple of str
        Under which it must hold.
    """

    design: Design
    parts: tuple[Part, ...]
    base: Trial
    sure: Trial
    alone: dict[Picks, Trial]
    best: Best
    loads: tuple[str, ...]

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
    terms: Terms | None = None,
    *,
    hands: Hands | None = None,
    progress: Listener | None = None,
) -> Lightening:
    """Find for every part what else of the library it could be made of, and the lightest combination that does.

    Parameters
    ----------
    path : path
        Design file.
    file : Path
        SQLite file of results; one that is there is gone on with.
    terms : Terms or None
        What may change and what must hold.
    hands : Hands or None
        Who does the work; None is one process for each core.
    progress : callable or None
        Told a ``SweepProgress`` after each design.

    Raises
    ------
    DesignError, PartError, RankingError, StoreError, SchedulerError
        For what cannot be used, each with a sentence.
    """
    terms, hands = terms or Terms(), hands or Hands()
    loads = tuple(dict.fromkeys(terms.loads))
    place = Path(path)
    content = read_text(place)
    design = compose_design(content, place)
    parts = list_parts(design, content, terms.keys)
    with open_workshop(file, hands) as shop:
        fine = Bench(design, content, parts, shop, loads=loads)
        bench = fine
        if _is_rough(design):
            coarse = compose_design(content, place, mesh_size=MESH_SIZE)
            bench = Bench(coarse, content, parts, shop, loads=loads)
        base, sure = (_solve_base(each, terms.limits, progress) for each in (bench, fine))
        alone = bench.list_alone()
        trials = dict(zip(alone, bench.solve(alone, progress), strict=True))
        at_once = shop.crew.size if shop.crew is not None else hands.processes or count_cores()
        best = find_best(bench, at_once=at_once, most=terms.most, few=terms.few, fine=fine)
        bench.keep_all()
    return Lightening(design, parts, base, sure, trials, best, loads)


def _solve_base(bench: Bench, limits: tuple[str, ...], progress: Listener | None) -> Trial:
    """Return the design as it is, held against the limits."""
    base = bench.solve([bench.as_designed], progress)[0]
    return bench.keep_limits(limits) if base.rows[0].figures else base
