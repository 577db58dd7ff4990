"""Everything about how a design could be lighter."""

from os import PathLike
from pathlib import Path
from typing import NamedTuple

from ..design import Design, read_design
from ..design_text import read_text
from ..sweep.queue import Listener
from ..sweep.run import open_workshop
from ..sweep.workers import Hands, count_cores
from .search import FEW, Best, Tell, find_best
from .swap import Part, list_parts
from .trial import Bench, Picks, Trial

LOADS = ("lying", "sudden")
MESH_SIZE = 0.1  # m; channels and bars are meshed finely all the same
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
        The design as it is.
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
    alone: dict[Picks, Trial]
    best: Best
    loads: tuple[str, ...]


def lighten_design(
    path: str | PathLike[str],
    file: Path,
    terms: Terms | None = None,
    *,
    hands: Hands | None = None,
    progress: Listener | None = None,
    tell: Tell | None = None,
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
    progress, tell : callable or None
        Told a ``SweepProgress`` after each design and a line of text for each batch.

    Raises
    ------
    DesignError, PartError, RankingError, StoreError, SchedulerError
        For what cannot be used, each with a sentence.
    """
    terms, hands = terms or Terms(), hands or Hands()
    loads = tuple(dict.fromkeys(terms.loads))
    place = Path(path)
    design, content = read_design(place, mesh_size=MESH_SIZE), read_text(place)
    parts = list_parts(design, content, terms.keys)
    with open_workshop(file, hands) as shop:
        bench = Bench(design, content, parts, shop, loads=loads)
        base = bench.solve([bench.as_designed], progress)[0]
        if base.rows[0].figures:
            base = bench.keep_limits(terms.limits)
        alone = bench.list_alone()
        trials = dict(zip(alone, bench.solve(alone, progress), strict=True))
        at_once = shop.crew.size if shop.crew is not None else hands.processes or count_cores()
        best = find_best(bench, at_once=at_once, most=terms.most, few=terms.few, tell=tell)
        bench.enter_tried()
    return Lightening(design, parts, base, trials, best, loads)
