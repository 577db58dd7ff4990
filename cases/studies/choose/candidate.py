"""The designs of a finite set: each weighed, and looked over for what excludes it without a solve."""

from collections.abc import Sequence
from dataclasses import dataclass

from ....materials.short_repr import write_repr, write_value
from ...judging.verdict.limit import PACK_WEIGHT
from ...judging.weighing import weigh_design
from ..line_callback import LineCallback
from ..sweep.plan import Job
from .least_force import WeakPart, find_weak_parts

_EVERY = 20  # designs between two lines of progress


@dataclass(frozen=True)
class Candidate:
    """One design of a finite set.

    Parameters
    ----------
    job : Job
        What would be solved.
    packed : float
        Added pack weight, kg.
    weak : tuple of WeakPart
        Parts too weak for the least force on them; empty where none is for certain.
    heavy : bool
        Whether it is heavier than the maker's limit.
    """

    job: Job
    packed: float
    weak: tuple[WeakPart, ...] = ()
    heavy: bool = False

    def __repr__(self) -> str:
        return write_repr(self, f"{self.number}", write_value(self.packed, "mass"), *map(repr, self.weak))

    @property
    def number(self) -> int:
        """In the order of all combinations, from 1."""
        return self.job.variant.number


def weigh_jobs(jobs: Sequence[Job], report: LineCallback | None = None) -> tuple[Candidate, ...]:
    """Return the designs that can be made, the lightest first.

    Parameters
    ----------
    jobs : sequence of Job
        All combinations.
    report : callable or None
        Receives a line of text now and then.
    """
    found = []
    for count, job in enumerate(jobs):
        if report is not None and count % _EVERY == 0:
            report(f"weighing design {count + 1} of {len(jobs)}")
        if job.design is None:
            continue
        weights, limits = weigh_design(job.design), job.design.terms.limits
        packed = weights.packed.mass
        heavy = any(limit.key == PACK_WEIGHT and not limit.is_kept(packed) for limit in limits)
        found.append(Candidate(job, packed, find_weak_parts(job.design, weights), heavy))
    return tuple(sorted(found, key=lambda each: (each.packed, each.number)))
