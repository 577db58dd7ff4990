"""Designs with some parts swapped, solved under every required load."""

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
from ...judging.checks.check import write_utilisation
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

Selection = tuple[int, ...]  # for each part 0 for its present material, or the number of a swap


@dataclass(frozen=True)
class Evaluation:
    """Result of a design with some parts swapped.

    Parameters
    ----------
    selection : tuple of int
        Which swaps.
    rows : tuple of SweepRow
        One for each load it was solved under; after one that fails there are no more.
    reason : str
        Why it fails; empty if it passes.
    """

    selection: Selection
    rows: tuple[SweepRow, ...]
    reason: str

    def __repr__(self) -> str:
        return write_repr(self, f"swaps {self.selection}", f"{len(self.rows)} loads", self.reason or "passes")

    @property
    def passes(self) -> bool:
        """Whether it passes under every load and keeps every limit."""
        return not self.reason

    @property
    def worst(self) -> SweepRow:
        """One row of the worst values under all loads; where neither direction is better, those of the first load."""
        figures: dict[str, float] = {}
        for row in self.rows:
            for key, value in row.figures.items():
                worse = {"less": max, "more": min}.get(find_result_value(key).better)
                if worse is not None and key in figures:
                    figures[key] = worse(figures[key], value)
                figures.setdefault(key, value)
        least = min(self.rows, key=lambda row: row.figures.get("least_margin", 0.0))
        return replace(least, figures=figures)


def select_one(parts: Sequence[ReplaceablePart], place: int, index: int) -> Selection:
    """Return a design with one swap, of the part at a place."""
    return tuple(index if other == place else 0 for other in range(len(parts)))


class SwapEvaluator:
    """Solves designs with parts swapped.

    Parameters
    ----------
    design, content : Design, TomlFile
        The unchanged design, and its file.
    parts : tuple of ReplaceablePart
        What may change.
    runner : SweepRunner
        Solves the designs.
    loads : sequence of str
        Load cases under which it must pass, the one that fails most first.
    """

    def __init__(
        self,
        design: Design,
        content: TomlFile,
        parts: tuple[ReplaceablePart, ...],
        runner: SweepRunner,
        *,
        loads: Sequence[str],
    ) -> None:
        self.design, self.parts, self.runner = design, parts, runner
        self.sweeps = [self._make_sweep(content, load) for load in loads]
        self.limits: list[Condition] = []
        self.tried: dict[Selection, Evaluation] = {}
        self.unchecked: frozenset[str] = frozenset()

    @cached_property
    def packed(self) -> float:
        """Added pack weight of the unchanged design, kg."""
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
        name = f"{base.name}, lighter, {load}, {self._size} mesh"
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
        for selection in wanted:
            options = tuple(choice.options[index] for choice, index in zip(sweep.choices, selection, strict=True))
            number = 1 + sum(index * prod(sizes[place + 1 :]) for place, index in enumerate(selection))  # as in a grid
            variants.append(Variant(number, selection, options))
        return replace(sweep, variants=tuple(variants))

    def solve(self, wanted: Sequence[Selection], progress: SweepCallback | None = None) -> list[Evaluation]:
        """Solve designs that were not tried yet, load after load, and return all their evaluations."""
        left = [selection for selection in dict.fromkeys([self.as_designed, *wanted]) if selection not in self.tried]
        rows: dict[Selection, list[SweepRow]] = {selection: [] for selection in left}
        reasons = dict.fromkeys(left, "")
        for sweep in self.sweeps:
            going = [selection for selection in left if not reasons[selection]]
            designs = self.list_designs(sweep, list(dict.fromkeys([self.as_designed, *going])))
            found = self.runner.run_jobs(designs, plan_jobs(designs, start_from=StartFrom.FIRST), progress)
            numbers = {variant.number: variant.picks for variant in designs.variants}
            for row in found:  # in the order of their numbers
                selection = numbers[row.number]
                if selection in rows and not reasons[selection]:
                    rows[selection].append(row)
                    reasons[selection] = self._find_reason(selection, row)
        for selection in left:
            evaluation = Evaluation(selection, tuple(rows[selection]), reasons[selection])
            self.tried[selection] = (
                evaluation
                if evaluation.reason
                else replace(evaluation, reason=self._find_broken_limit(evaluation.worst))
            )
        return [self.tried[selection] for selection in wanted]

    def store_all(self) -> None:
        """Register all that was solved under each load as one sweep, that of the first load last."""
        for place, sweep in reversed(list(enumerate(self.sweeps))):
            solved = [selection for selection, evaluation in self.tried.items() if len(evaluation.rows) > place]
            if solved:
                designs = self.list_designs(sweep, solved)
                self.runner.run_jobs(designs, plan_jobs(designs, start_from=StartFrom.FIRST))

    def keep_limits(self, texts: Sequence[str]) -> Evaluation:
        """Apply limits to the worst values under all loads; return the unchanged design.

        Raises
        ------
        RankingError
            For a condition that cannot be read.
        """
        base = self.tried[self.as_designed]
        self.limits = [read_condition(text, base.rows) for text in texts]
        if base.passes:
            self.tried[self.as_designed] = replace(base, reason=self._find_broken_limit(base.worst))
        return self.tried[self.as_designed]

    def _find_reason(self, selection: Selection, row: SweepRow) -> str:
        """Return why a design fails under a load, empty if it passes."""
        if row.status is not RowStatus.SOLVED:
            return row.reason
        if selection == self.as_designed:
            self.unchecked |= set(row.unchecked)
        if row.failed:
            return f"{row.failed[0]} (used {write_utilisation(row.figures['least_margin'])})"
        fresh = set(row.unchecked) - self.unchecked
        if fresh:
            return f"can no longer be checked: {', '.join(sorted(fresh))}"
        return ""

    def _find_broken_limit(self, row: SweepRow) -> str:
        """Return the first limit that is not kept."""
        return next((f"not {limit.text}" for limit in self.limits if not limit.meets(row)), "")

    def list_alone(self) -> list[Selection]:
        """Return every swap that can be made, alone."""
        return [
            select_one(self.parts, place, index) for place, part in enumerate(self.parts) for index in part.feasible
        ]

    def find_factors(self, load: int) -> Factors:
        """Return the factors of safety required under one of the loads."""
        asked = self.design.workmanship.factors
        return replace(asked, sudden=self.sweeps[load].base.load.sudden)

    def list_all(self) -> list[Selection]:
        """Return every combination of swaps that can be made one by one, the unchanged design included."""
        return list(product(*((0, *part.feasible) for part in self.parts)))
