"""Designs with some parts swapped, solved under every load that is asked for."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import product
from math import prod

import tomlkit

from ....making import Factors
from ....materials import TomlFile
from ....materials.short_repr import write_repr
from ...design import Design, compose_design
from ...judging.weighing import weigh_design
from ..compare.condition import Condition, read_condition
from ..sweep.plan import StartFrom, plan_jobs
from ..sweep.queue import SweepCallback
from ..sweep.result_value import find_result_value
from ..sweep.run import SweepRunner
from ..sweep.setting import apply_settings
from ..sweep.sweep import Sweep
from ..sweep.sweep_row import RowStatus, SweepRow
from ..sweep.variant import Variant
from .part_swaps import ReplaceablePart

Selection = tuple[int, ...]  # for each part 0 for what it is made of, or the number of a swap


@dataclass(frozen=True)
class Evaluation:
    """What came of a design with some parts swapped.

    Parameters
    ----------
    picks : tuple of int
        Which swaps.
    rows : tuple of SweepRow
        One for each load it was solved under; after one that does not hold there are no more.
    reason : str
        Why it does not do; empty if it does.
    """

    picks: Selection
    rows: tuple[SweepRow, ...]
    reason: str

    def __repr__(self) -> str:
        return write_repr(self, f"swaps {self.picks}", f"{len(self.rows)} loads", self.reason or "does")

    @property
    def does(self) -> bool:
        """Whether it holds under every load and keeps every limit."""
        return not self.reason

    @property
    def worst(self) -> SweepRow:
        """One row of the worst figures under all loads; where neither way is better, those of the first load."""
        figures: dict[str, float] = {}
        for row in self.rows:
            for key, value in row.figures.items():
                worse = {"less": max, "more": min}.get(find_result_value(key).better)
                if worse is not None and key in figures:
                    figures[key] = worse(figures[key], value)
                figures.setdefault(key, value)
        least = min(self.rows, key=lambda row: row.figures.get("least_margin", 0.0))
        return replace(least, figures=figures)


def select_one(parts: Sequence[ReplaceablePart], place: int, pick: int) -> Selection:
    """Return a design with one swap, of the part at a place."""
    return tuple(pick if other == place else 0 for other in range(len(parts)))


class SwapEvaluator:
    """Solves designs with parts swapped.

    Parameters
    ----------
    design, content : Design, TomlFile
        As it is, and its file.
    parts : tuple of ReplaceablePart
        What may change.
    shop : SweepRunner
        Who solves.
    loads : sequence of str
        Load cases under which it must hold, the one that fails most first.
    """

    def __init__(
        self,
        design: Design,
        content: TomlFile,
        parts: tuple[ReplaceablePart, ...],
        shop: SweepRunner,
        *,
        loads: Sequence[str],
    ) -> None:
        self.design, self.parts, self.shop = design, parts, shop
        self.sweeps = [self._make_sweep(content, load) for load in loads]
        self.limits: list[Condition] = []
        self.tried: dict[Selection, Evaluation] = {}
        self.unchecked: frozenset[str] = frozenset()

    @cached_property
    def packed(self) -> float:
        """Weight of the design as it is, kg."""
        return weigh_design(self.design).packed.mass

    @property
    def as_designed(self) -> Selection:
        """The design with nothing swapped."""
        return (0,) * len(self.parts)

    @property
    def _size(self) -> str:
        """The side of a triangle."""
        return f"{self.design.mesh_size!r} m"

    def _make_sweep(self, content: TomlFile, load: str) -> Sweep:
        """Return a sweep under one load, still without designs."""
        fixed = ((("load", "case"), load),)
        changed = content._replace(data=apply_settings(content.data, fixed))
        base = compose_design(changed, self.design.path, mesh_size=self.design.mesh_size)
        choices = tuple(part.choice for part in self.parts)
        name = f"{base.name}, lighter, {load}, triangles of {self._size}"
        return Sweep(name, "", base.path, self._write_text(name, load), base, content, fixed, choices, (), True)

    def _write_text(self, name: str, load: str) -> str:
        """Return the sweep file of all combinations under one load, so that each can be written as a design."""
        head = {"name": name, "design": self.design.path.name, "combine": "grid", "mesh_size": self._size}
        vary = [{"key": part.key, "values": [option.label for option in part.choice.options]} for part in self.parts]
        return tomlkit.dumps({"sweep": head, "set": [{"key": "load.case", "value": load}], "vary": vary})

    def list_designs(self, sweep: Sweep, wanted: Sequence[Selection]) -> Sweep:
        """Return the sweep with these designs."""
        variants = []
        sizes = [len(choice.options) for choice in sweep.choices]
        for picks in wanted:
            options = tuple(choice.options[pick] for choice, pick in zip(sweep.choices, picks, strict=True))
            number = 1 + sum(pick * prod(sizes[place + 1 :]) for place, pick in enumerate(picks))  # as in a grid
            variants.append(Variant(number, picks, options))
        return replace(sweep, variants=tuple(variants))

    def solve(self, wanted: Sequence[Selection], progress: SweepCallback | None = None) -> list[Evaluation]:
        """Solve designs that were not tried yet, load after load, and return all their trials."""
        left = [picks for picks in dict.fromkeys([self.as_designed, *wanted]) if picks not in self.tried]
        rows: dict[Selection, list[SweepRow]] = {picks: [] for picks in left}
        reasons = dict.fromkeys(left, "")
        for sweep in self.sweeps:
            going = [picks for picks in left if not reasons[picks]]
            designs = self.list_designs(sweep, list(dict.fromkeys([self.as_designed, *going])))
            found = self.shop.run_jobs(designs, plan_jobs(designs, begin=StartFrom.FIRST), progress)
            numbers = {variant.number: variant.picks for variant in designs.variants}
            for row in found:  # in the order of their numbers
                picks = numbers[row.number]
                if picks in rows and not reasons[picks]:
                    rows[picks].append(row)
                    reasons[picks] = self._find_reason(picks, row)
        for picks in left:
            trial = Evaluation(picks, tuple(rows[picks]), reasons[picks])
            self.tried[picks] = trial if trial.reason else replace(trial, reason=self._find_broken_limit(trial.worst))
        return [self.tried[picks] for picks in wanted]

    def store_all(self) -> None:
        """Register all that was solved under each load as one sweep, that of the first load last."""
        for place, sweep in reversed(list(enumerate(self.sweeps))):
            solved = [picks for picks, trial in self.tried.items() if len(trial.rows) > place]
            if solved:
                designs = self.list_designs(sweep, solved)
                self.shop.run_jobs(designs, plan_jobs(designs, begin=StartFrom.FIRST))

    def keep_limits(self, texts: Sequence[str]) -> Evaluation:
        """Ask of the worst figures under all loads what some conditions tell; return the design as it is.

        Raises
        ------
        RankingError
            For a condition that cannot be read.
        """
        base = self.tried[self.as_designed]
        self.limits = [read_condition(text, base.rows) for text in texts]
        if base.does:
            self.tried[self.as_designed] = replace(base, reason=self._find_broken_limit(base.worst))
        return self.tried[self.as_designed]

    def _find_reason(self, picks: Selection, row: SweepRow) -> str:
        """Return why a design does not do under a load."""
        if row.status is not RowStatus.SOLVED:
            return row.reason
        if picks == self.as_designed:
            self.unchecked |= set(row.unchecked)
        if row.failed:
            return f"{row.failed[0]}, margin {row.figures['least_margin']:.2f}"
        fresh = set(row.unchecked) - self.unchecked
        if fresh:
            return f"can no longer be checked: {', '.join(sorted(fresh))}"
        return ""

    def _find_broken_limit(self, row: SweepRow) -> str:
        """Return the first limit that is not kept."""
        return next((f"not {limit.text}" for limit in self.limits if not limit.meets(row)), "")

    def list_alone(self) -> list[Selection]:
        """Return every swap that can be made, by itself."""
        return [select_one(self.parts, place, pick) for place, part in enumerate(self.parts) for pick in part.feasible]

    def find_factors(self, load: int) -> Factors:
        """Return the factors of safety asked under one of the loads."""
        asked = self.design.workmanship.factors
        return replace(asked, sudden=self.sweeps[load].base.load.sudden)

    def list_all(self) -> list[Selection]:
        """Return every combination of swaps that can be made one by one, the design as it is included."""
        return list(product(*((0, *part.feasible) for part in self.parts)))
