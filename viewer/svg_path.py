"""Outlines as SVG writes them."""

from ..cases.storage.shape import FloatArray


def trace_path(seen: FloatArray, *, closed: bool = False) -> str:
    """Return points (n, 2) of a sheet as the outline of a path.

    Examples
    --------
    >>> import numpy as np
    >>> trace_path(np.array([[0.0, 0.0], [1.5, 2.0]]))
    'M0,0L1.5,2'
    """
    return "M" + "L".join(f"{x:.5g},{y:.5g}" for x, y in seen) + ("Z" if closed else "")
