"""Designs with some parts swapped, solved for everybody under every required load."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import product
from math import inf

from ....hammock.load_case import LoadCase
from ....materials import TomlFile
from ....materials.short_repr import write_repr
from ...design import Design
from ...judging.checks.check import write_utilisation
from ...judging.weighing import weigh_design
from ..compare.condition import Condition, read_condition
from ..sweep.listed_sweep import list_designs
from ..sweep.plan import StartFrom, plan_jobs
from ..sweep.queue import SweepCallback
from ..sweep.run import SweepRunner
from ..sweep.sweep import Sweep
from ..sweep.sweep_row import RowStatus, SweepRow
from .part_swaps import ReplaceablePart

Selection = tuple[int, ...]  # for each part 0 for its present material, or the number of a swap


@dataclass(frozen=True)
class Evaluation:
    """Result of a design with some parts swapped.

    Parameters
    ----------
    selection : tuple of int
        Which swaps.
    row : SweepRow
        What was found; of several people and loads the worst.
    reason : str
        Why it fails; empty if it passes.
    """

    selection: Selection
    row: SweepRow
    reason: str

    def __repr__(self) -> str:
        return write_repr(self, f"swaps {self.selection}", self.reason or "passes", *self.row.judged)

    @property
    def passes(self) -> bool:
        """Whether it meets every requirement under every load, for each person, and every limit."""
        return not self.reason


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
    loads : tuple of LoadCase
        Under which it must pass; empty is all that the design has to stand.
    """

    def __init__(
        self,
        design: Design,
        content: TomlFile,
        parts: tuple[ReplaceablePart, ...],
        runner: SweepRunner,
        *,
        loads: tuple[LoadCase, ...] = (),
    ) -> None:
        self.design, self.parts, self.runner = design, parts, runner
        self.sweep = self._make_sweep(content, loads)
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

    def _make_sweep(self, content: TomlFile, loads: tuple[LoadCase, ...]) -> Sweep:
        """Return the sweep of all combinations, still without designs; only single swaps are solved whatever fails."""
        base, choices = self.design, tuple(part.choice for part in self.parts)
        name = ", ".join((f"{base.name}, lighter", *loads, f"{self._size} mesh"))
        return Sweep(name, "", base.path, "", base, content, (), choices, (), True, loads, thorough=1)

    def list_designs(self, wanted: Sequence[Selection]) -> Sweep:
        """Return the sweep with these designs."""
        choices = self.sweep.choices
        return list_designs(
            self.sweep,
            (
                (selection, tuple(choice.options[index] for choice, index in zip(choices, selection, strict=True)))
                for selection in wanted
            ),
        )

    def solve(self, wanted: Sequence[Selection], progress: SweepCallback | None = None) -> list[Evaluation]:
        """Solve designs that were not tried yet, the unchanged one first, and return all their evaluations."""
        left = [each for each in dict.fromkeys([self.as_designed, *wanted]) if each not in self.tried]
        if left:
            rows = self._run(left, progress)
            if self.as_designed in left:
                self.unchecked = frozenset(rows[self.as_designed].unchecked)
            for selection in left:
                self.tried[selection] = Evaluation(selection, rows[selection], self._find_reason(rows[selection]))
        return [self.tried[selection] for selection in wanted]

    def _run(self, wanted: Iterable[Selection], progress: SweepCallback | None = None) -> dict[Selection, SweepRow]:
        """Return the rows of the unchanged design and of others, solved as far as they are not."""
        designs = self.list_designs(list(dict.fromkeys([self.as_designed, *wanted])))
        found = self.runner.run_jobs(designs, plan_jobs(designs, start_from=StartFrom.FIRST), progress)
        numbers = {variant.number: variant.picks for variant in designs.variants}
        return {numbers[row.number]: row for row in found}

    def store_all(self) -> None:
        """Register all that was solved as one sweep."""
        self._run(self.tried)

    def keep_limits(self, texts: Sequence[str]) -> Evaluation:
        """Apply limits to the worst values under all loads; return the unchanged design.

        Raises
        ------
        RankingError
            For a condition that cannot be read.
        """
        base = self.tried[self.as_designed]
        self.limits = [read_condition(text, [base.row]) for text in texts]
        self.tried[self.as_designed] = replace(base, reason=self._find_reason(base.row))
        return self.tried[self.as_designed]

    def _find_reason(self, row: SweepRow) -> str:
        """Return why a design fails, empty if it passes."""
        if row.status is not RowStatus.SOLVED:
            return row.reason
        if row.failed:
            margin = row.figures.get("least_margin", inf)
            return f"{row.failed[0]}, used {write_utilisation(margin)}" if margin < 1.0 else row.failed[0]
        if lost := row.list_lost(self.unchecked):
            return f"can no longer be checked: {', '.join(lost)}"
        return next((f"not {limit.text}" for limit in self.limits if not limit.meets(row)), "")

    def list_unmet(self, row: SweepRow) -> tuple[str, ...]:
        """Return the requirements and limits that a design does not meet."""
        return (*row.failed, *(limit.text for limit in self.limits if not limit.meets(row)))

    def list_alone(self) -> list[Selection]:
        """Return every swap that can be made, alone."""
        return [
            select_one(self.parts, place, index) for place, part in enumerate(self.parts) for index in part.feasible
        ]

    def list_all(self) -> list[Selection]:
        """Return every combination of swaps that can be made one by one, the unchanged design included."""
        return list(product(*((0, *part.feasible) for part in self.parts)))
