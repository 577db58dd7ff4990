"""Rows of stitches and their strength."""

from dataclasses import dataclass, replace
from enum import StrEnum
from math import floor

from ..materials import Thread
from ..materials.short_repr import write_repr, write_value
from .capacity import Capacity, CapacityStep, Multiplier, find_capacity
from .factor import Reductions

_INCH = 0.0254  # m, NIST SP 811 B.8


class Stitch(StrEnum):
    """How needle thread and lower thread interlock; the value is the word of the design file."""

    LOCK = "lock"  # stitch type 301
    CHAIN = "chain"  # stitch type 401


STITCH_NAMES = {Stitch.LOCK: "lockstitch (301)", Stitch.CHAIN: "chainstitch (401)"}

# Seam over thread: strength of one stitch over the breaking load of its thread.
_FACTORS = {Stitch.LOCK: 1.5, Stitch.CHAIN: 1.7}
# Of a lockstitch by the fibre of the thread: twice what is left in its loops; of polyester up to the usual factor.
_RANGES = {"polyester": (2 * 0.60, 1.5), "nylon": (2 * 0.70, 2 * 0.80)}


@dataclass(frozen=True)
class Stitching:
    """Parallel rows of stitches.

    Parameters
    ----------
    thread : Thread
        Of needle and bobbin or looper.
    stitch_length : float
        From hole to hole, m.
    rows : int
        Number of rows.
    stitch : Stitch
        Type.

    Examples
    --------
    >>> from tautlay.materials import Thread, read_library
    >>> stitching = Stitching(read_library().find(Thread, "nylon size E"), 0.003, rows=2)
    >>> round(stitching.per_inch, 2)
    8.47
    """

    thread: Thread
    stitch_length: float
    rows: int = 1
    stitch: Stitch = Stitch.LOCK

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{self.thread.name} in rows: {self.rows}",
            f"{self.stitch} stitch {write_value(self.stitch_length, 'length')} long",
        )

    @property
    def per_inch(self) -> float:
        """Stitches per inch of one row."""
        return _INCH / self.stitch_length


def find_seam_strength(stitching: Stitching, reductions: Reductions) -> Capacity:
    r"""Return the strength of the stitches of a seam per length: :math:`n\,f\,B/s`.

    Rows n, breaking load B of the thread, stitch length s, and a factor f of 1.5 for a lockstitch and 1.7 for a chain
    stitch: two threads cross the seam in each stitch, and in its loops they bear less than pulled straight
    (high-tenacity polyester 60 to 65 %, nylon 70 to 80 %, thread makers' data). The factor holds the loss, so it is
    not taken off again.

    Parameters
    ----------
    stitching : Stitching
        Its rows.
    reductions : Reductions
        Losses of the thread by wet and age.

    Returns
    -------
    Capacity
        N/m.

    Notes
    -----
    For superimposed seams; 10 stitches per inch of a 4 lbf thread then bear 60 lbf per inch. The factor is an average:
    a polyester seam bears up to a sixth less than it says, 2 x 62.5 % instead of 150 %.

    Examples
    --------
    >>> from tautlay.materials import Thread, read_library
    >>> stitching = Stitching(read_library().find(Thread, "nylon size E"), 0.003, rows=2)
    >>> round(find_seam_strength(stitching, Reductions(wet=False)).value)
    40034
    """
    thread = find_capacity(stitching.thread, "breaking_load", "force", "breaking load")
    thread = reductions.apply(thread, stitching.thread.kind)
    name, factor = STITCH_NAMES[stitching.stitch], _FACTORS[stitching.stitch]
    rows = f"{stitching.rows} rows" if stitching.rows > 1 else "1 row"
    steps = (
        CapacityStep(f"{rows} of {stitching.per_inch:.1f} stitches per inch", "the design", "stated"),
        CapacityStep(
            f"{name}: {factor:g} x thread per stitch; includes that loops are weaker than straight thread",
            "sewing-thread trade formula for superimposed seams, reprinted",
            "second hand",
            Multiplier(f"{name} over thread", "stitch", factor, _find_range(stitching)),
        ),
    )
    value = thread.value * factor * stitching.rows / stitching.stitch_length
    return Capacity(value, "line_load", (*thread.steps, *steps))


def _find_range(stitching: Stitching) -> tuple[float, float] | None:
    """Return the range of the factor of a stitch, or None where it is not known."""
    kind = stitching.thread.kind if stitching.stitch is Stitch.LOCK else ""
    return next((spread for fibre, spread in _RANGES.items() if fibre in kind), None)


def find_lock_strength(stitching: Stitching, reductions: Reductions) -> Capacity:
    """Return the strength of stitching through the cord along the cord per length, as :func:`find_seam_strength`.

    Parameters
    ----------
    stitching : Stitching
        Through the cord.
    reductions : Reductions
        Losses of the thread by wet and age.

    Returns
    -------
    Capacity
        N/m.
    """
    line = find_seam_strength(stitching, reductions)
    text = "stitching through the cord is taken as strong as a seam, all stitches alike"
    times = Multiplier("stitching through the cord over seam", "lock", 1.0)
    return replace(
        line,
        steps=(*line.steps, CapacityStep(text, "engineering judgement: no test of it was found", "judgement", times)),
    )


def find_lock_force(stitching: Stitching, length: float, reductions: Reductions) -> Capacity:
    """Return the strength of a length of stitching through the cord along the cord.

    Parameters
    ----------
    stitching : Stitching
        Through the cord.
    length : float
        Of each row, m.
    reductions : Reductions
        Losses of the thread by wet and age.

    Returns
    -------
    Capacity
        N.

    Examples
    --------
    >>> from tautlay.materials import Thread, read_library
    >>> stitching = Stitching(read_library().find(Thread, "nylon size E"), 0.0025)
    >>> round(find_lock_force(stitching, 0.04, Reductions(wet=False)).value)
    961
    """
    line = find_lock_strength(stitching, reductions)
    step = CapacityStep(
        f"{floor(length / stitching.stitch_length + 1e-9)} stitches in each row", "the design", "stated"
    )
    return Capacity(line.value * length, "force", (*line.steps, step))
