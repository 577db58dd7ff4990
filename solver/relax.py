"""Dynamic relaxation: find the shape in which every free node is in balance."""

from collections.abc import Callable
from typing import Literal

import numpy as np

from .balance import Balance
from .element import Floats
from .explicit import walk_explicit
from .implicit import walk_implicit
from .limits import Limits
from .outcome import Progress, Reason, State
from .structure import Structure
from .threads import use_one_thread

Gear = Literal["auto", "explicit", "implicit"]


def relax(  # the options are keywords, each with its meaning below
    structure: Structure,
    *,
    tolerance: float = 1e-6,
    gear: Gear = "auto",
    start: object = None,
    max_iterations: int | None = None,
    step_cap: float | None = None,
    mass_factor: float = 1.0,
    progress: Callable[[Progress], None] | None = None,
) -> State:
    """Find the equilibrium of a structure: a minimum of its total potential energy.

    Parameters
    ----------
    structure : Structure
        What is to be solved; it is not changed.
    tolerance : float
        Largest allowed norm of the unbalanced force on free directions over the norm of the applied load
        there (forces, weight and pressure; of the reactions where no load is applied).
    gear : "auto", "explicit" or "implicit"
        The method. Explicit: fictitious masses and kinetic damping. Implicit: an interior point
        walk with the factored stiffness. Auto: implicit, helped by explicit steps where it stalls.
    start : (n, 3) or None
        First positions, m; by default those of the structure. Held directions stay where the structure
        has them.
    max_iterations : int or None
        Steps at the most; by default 500 implicit or 200 000 explicit ones. Given, it also keeps the
        automatic choice from going on with the other method.
    step_cap : float or None
        Farthest a node may move in one step, m; by default a tenth of the structure's size. Where bodies
        press on cloth explicit steps are no longer than contact allows; none takes a body through the cloth.
    mass_factor : float
        Fictitious mass over the smallest that is always stable; at least 1 is safe.
    progress : callable or None
        Told a :class:`Progress` after each step.

    Returns
    -------
    State
        With a named reason; ``state.converged`` tells whether it is an equilibrium.

    Raises
    ------
    ValueError
        For options that make no sense.

    Examples
    --------
    >>> from tautlay.solver import Cable
    >>> line = Cable([[0, 1]], ea=1e4, rest_length=1.0)
    >>> weight = [[0, 0, 0], [0, 0, -100.0]]
    >>> hang = Structure([[0, 0, 0], [0.5, 0, -0.5]], [line], fixed=[True, False], forces=weight)
    >>> state = relax(hang)
    >>> state.converged, state.positions[1].round(6).tolist()
    (True, [0.0, 0.0, -1.01])
    """
    positions = _cast_start(structure, start)
    _check_options(gear, tolerance, step_cap, mass_factor, max_iterations)
    size = float(np.ptp(structure.positions, axis=0).max()) or 1.0
    count = max_iterations or (200_000 if gear == "explicit" else 500)
    limits = Limits(tolerance, count, step_cap or size / 10, mass_factor)
    balance = Balance(structure, size, progress)
    if balance.has_loose_load():
        return balance.outcome(positions, Reason.INCONSISTENT)
    with use_one_thread():
        positions, reason = _walk(balance, positions, limits, gear, alone=max_iterations is not None)
    return balance.outcome(positions, reason)


def _walk(balance: Balance, positions: Floats, limits: Limits, gear: Gear, *, alone: bool) -> tuple[Floats, Reason]:
    """Return where the method got to and why it stopped; the automatic choice keeps to one if it is to go ``alone``."""
    if gear == "explicit":
        return walk_explicit(balance, positions, limits)
    positions, reason = walk_implicit(balance, positions, limits)
    if gear == "auto" and not alone and reason in (Reason.STALLED, Reason.STEP_LIMIT):
        return _change_methods(balance, positions, limits)
    return positions, reason


def _check_options(
    gear: str, tolerance: float, step_cap: float | None, mass_factor: float, max_iterations: int | None
) -> None:
    """Refuse options that make no sense."""
    if gear not in ("auto", "explicit", "implicit"):
        raise ValueError(f"gear must be auto, explicit or implicit, got {gear!r}.")
    for name, value in {
        "tolerance": tolerance,
        "mass_factor": mass_factor,
        "step_cap": 1.0 if step_cap is None else step_cap,
    }.items():
        if not (np.isfinite(value) and value > 0):
            raise ValueError(f"{name} must be positive, got {value}.")
    if tolerance >= 1:
        raise ValueError(f"tolerance must be below 1, where nothing is carried yet, got {tolerance}.")
    if max_iterations is not None and (max_iterations != int(max_iterations) or max_iterations < 1):
        raise ValueError(f"max_iterations must be a whole number from 1, got {max_iterations}.")


def _change_methods(balance: Balance, positions: Floats, limits: Limits) -> tuple[Floats, Reason]:
    """Shake the structure loose with explicit steps, then let the implicit method finish; a few times."""
    reason = Reason.STALLED
    for _ in range(4):
        burst = limits._replace(max_iterations=2000)
        positions, reason = walk_explicit(balance, positions, burst)
        if reason is Reason.STEP_LIMIT:
            positions, reason = walk_implicit(balance, positions, limits)
        if reason not in (Reason.STALLED, Reason.STEP_LIMIT):
            break
    return positions, reason


def _cast_start(structure: Structure, start: object) -> Floats:
    """Return the first positions (n, 3) with held directions where the structure has them."""
    if start is None:
        return structure.positions.copy()
    positions = np.array(start, dtype=np.float64)
    if positions.shape != structure.positions.shape or not np.isfinite(positions).all():
        raise ValueError(f"start must be finite numbers of shape {structure.positions.shape}, got {positions.shape}.")
    return np.where(structure.free, positions, structure.positions)
