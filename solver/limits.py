"""When a method stops and how far it may go in one step."""

from typing import NamedTuple


class Limits(NamedTuple):
    """What the caller of :func:`relax` allows: residual, steps, step length (m), fictitious mass factor."""

    tolerance: float
    max_iterations: int
    step_cap: float
    mass_factor: float
