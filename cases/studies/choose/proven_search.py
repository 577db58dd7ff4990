"""The lightest of a finite set that earns the verdict, proven: everything lighter is solved and fails, or is excluded.

Weights need no solve, so designs are solved from the lightest up. Left out is only what fails for certain: what
``least_force`` finds too weak, what is heavier than the maker allows, and what takes the same shape as a design that
was solved and did not rest, lie or hang as required. Two designs take the same shape if they are the same hammock, down
to every length and material, with the same people and loads: how ends are made, sewn and drilled does not bear on it.

One design in a batch is taken from the middle of what is left, so that there is a best so far long before the proof.
"""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field

from ....hammock.hammock import Hammock
from ....materials.short_repr import write_repr
from ...judging.verdict.terms import JudgeTerms
from ..sweep.plan import Job
from ..sweep.sweep_row import RowStatus, SweepRow
from .candidate import Candidate
from .evaluator import DesignEvaluator, Tried

BATCH = 8  # solved at once, whatever the number of processes: the search takes the same way on every machine
WEAK, HEAVY, SHAPE = (
    "too weak for the least force on it",
    "heavier than the limit",
    "of the same shape as one that does not lie or hang as required",
)
Confirm = Callable[[Tried], SweepRow | None]
_Family = tuple[Hammock, JudgeTerms, float]


@dataclass
class ProvenSearch:
    """A search from the lightest up.

    Parameters
    ----------
    candidates : tuple of Candidate
        The lightest first.
    evaluator : DesignEvaluator
        On the mesh of the search.
    confirm : callable
        Returns what a design that passes there is on its own mesh; None where that is the same mesh.
    most : int
        How many are solved at most.
    """

    candidates: tuple[Candidate, ...]
    evaluator: DesignEvaluator
    confirm: Confirm
    most: int
    best: Tried | None = None
    best_row: SweepRow | None = None
    refuted: list[tuple[Tried, SweepRow]] = field(default_factory=list)
    excluded: dict[int, str] = field(default_factory=dict)
    seen: set[int] = field(default_factory=set)
    front: tuple[Tried, ...] = ()
    confirmed: bool = True

    def __post_init__(self) -> None:
        self.by_number = {each.number: each for each in self.candidates}
        self.by_key = {each.job.key: each.job for each in self.candidates}
        self.families: dict[_Family, list[int]] = {}
        for each in self.candidates:
            self.families.setdefault(_find_family(each.job), []).append(each.number)
            if each.heavy:
                self.excluded[each.number] = HEAVY
            elif each.weak:
                self.excluded[each.number] = WEAK

    def __repr__(self) -> str:
        return write_repr(self, f"{len(self.candidates)} designs", f"{len(self.seen)} solved")

    @property
    def ceiling(self) -> float | None:
        """Weight of the best so far, kg."""
        return None if self.best is None else self._find(self.best.job).packed

    @property
    def left(self) -> list[Candidate]:
        """What is lighter than the best so far, not solved and not excluded; the lightest first."""
        top = self.ceiling
        return [
            each
            for each in self.candidates
            if each.number not in self.seen and each.number not in self.excluded and (top is None or each.packed < top)
        ]

    @property
    def floor(self) -> float | None:
        """Weight below which nothing passes, kg: that of the lightest that is not decided; None where none is left."""
        return next((each.packed for each in self.left), None)

    @property
    def counts(self) -> Counter[str]:
        """How many are excluded by what."""
        return Counter(self.excluded.values())

    @property
    def compared(self) -> int:
        """How many designs were compared in something else than weight."""
        return 0

    def settle(self, *, confirm: bool) -> None:
        """Name the best once the search has ended; the lightest was confirmed when it was found.

        Parameters
        ----------
        confirm : bool
            Whether what is named must pass on its own mesh too.
        """

    def _find(self, job: Job) -> Candidate:
        return self.by_number[job.variant.number]

    def run(self) -> bool:
        """Search until nothing lighter is left; return whether it came to that and every answer is there."""
        while left := self.left:
            if len(self.seen) >= self.most:
                return False
            self._take(self._pick(left, self.most - len(self.seen)))
        return not any(each.row.status.is_owed for each in self.evaluator.tried.values())

    def _pick(self, left: list[Candidate], room: int) -> list[Candidate]:
        """Return the next batch: the lightest, and one from the middle of what is left."""
        batch = left[: min(BATCH, room)]
        middle = left[len(left) // 2]
        return batch if middle in batch else [*batch[: max(len(batch) - 1, 1)], middle]

    def _take(self, batch: list[Candidate]) -> None:
        """Solve a batch and draw the conclusions."""
        jobs = [each.job for each in batch]
        starts = (self.by_key[job.start_key] for job in jobs if job.start_key in self.by_key)
        for tried in self.evaluator.solve(jobs, list({job.key: job for job in starts}.values())):
            self.seen.add(tried.job.variant.number)
            if self.evaluator.passes(tried.row):
                self._crown(tried)
            else:
                self._exclude_alike(tried)

    def _crown(self, tried: Tried) -> None:
        """Take a design that passes as the best so far, if it passes on its own mesh too and is lighter."""
        if self.ceiling is not None and self._find(tried.job).packed >= self.ceiling:
            return
        fine = self.confirm(tried)
        if fine is None or self.evaluator.passes(fine):
            self.best, self.best_row = tried, fine or tried.row
        else:
            self.refuted.append((tried, fine))

    def _exclude_alike(self, tried: Tried) -> None:
        """Exclude everything of the same shape, where that is what fails."""
        if not fails_by_shape(tried.row):
            return
        for number in self.families[_find_family(tried.job)]:
            if number not in self.seen:
                self.excluded.setdefault(number, SHAPE)


def fails_by_shape(row: SweepRow) -> bool:
    """Return whether a design has no equilibrium, or does not lie or hang as required: its strength does not matter.

    Examples
    --------
    >>> fails_by_shape(SweepRow(1, {}, RowStatus.SOLVED, figures={"lay_used": 1.2}))
    True
    >>> fails_by_shape(SweepRow(1, {}, RowStatus.SOLVED, figures={"lay_used": 0.9, "least_margin": 0.5}))
    False
    """
    if row.status is RowStatus.NO_REST:
        return True
    if row.status is not RowStatus.SOLVED:
        return False
    used = max(row.figures.get(key, 0.0) for key in ("lay_used", "ground_used"))
    return used > 1.0 or row.figures.get("plainly_unmet", 0.0) > 0.0


def _find_family(job: Job) -> _Family:
    """Return what decides on the shape that a design takes."""
    assert job.design is not None  # what cannot be made is no candidate
    return job.design.hammock, job.design.terms, job.design.sudden_factor
