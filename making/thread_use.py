"""Thread consumption of a seam."""

from .amount import Amount
from .capacity import CapacityStep
from .stitching import STITCH_NAMES, Stitch, Stitching

_TRADE = "sewing-thread trade tables, quoted; the range is unverified"
# Thread in needle and bobbin or looper over the length of the row: usual, least and most.
_RATIOS = {Stitch.LOCK: (2.75, 2.5, 3.0), Stitch.CHAIN: (5.4, 4.8, 6.0)}


def measure_thread(stitching: Stitching, length: float) -> Amount:
    r"""Return the thread consumption of rows of stitches, :math:`n\,c\,L`.

    Rows n of length L; c is 2.5 to 3 for a lockstitch (2.75 taken) and 4.8 to 6 for a chain stitch (5.4 taken).

    Parameters
    ----------
    stitching : Stitching
        Its rows.
    length : float
        Of each row, m.

    Returns
    -------
    Amount
        m of thread.

    Notes
    -----
    Tables give 2.5 for a lockstitch, one unpicked chain stitch took 5.4. In the trade's geometry c is 2 + 2 t/s for a
    lockstitch through a thickness t with stitches s long, and 4 + 2 t/s for a chain stitch: thick or short-stitched
    seams take more. What is cut off at the ends is not counted.

    Examples
    --------
    >>> from tautlay.materials import Thread, read_library
    >>> rows = Stitching(read_library().find(Thread, "nylon size E"), 0.003, rows=2)
    >>> used = measure_thread(rows, 2.1)
    >>> round(used.value, 2), used.basis
    (11.55, 'second hand')
    """
    usual, least, most = (ratio * stitching.rows * length for ratio in _RATIOS[stitching.stitch])
    rows = f"{stitching.rows} rows" if stitching.rows > 1 else "1 row"
    text = f"{rows}, {_RATIOS[stitching.stitch][0]:g} times their length in {STITCH_NAMES[stitching.stitch]}"
    return Amount(usual, "length", (CapacityStep(text, _TRADE, "second hand"),), (least, most))
