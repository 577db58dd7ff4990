"""Mesh size of a design: its limits, number of triangles, and solving time."""

from ..hammock import Hammock
from .unit_display import Units, write_sentence

_RATE = 1000.0  # triangles a second, measured with 5,000 to 40,000 on two cores of an ordinary machine
_LONG = 15.0  # s, from which the time is announced


class MeshSizeError(ValueError):
    """A mesh size that does not fit the body; the message gives the limits, in the units of the report."""


def count_triangles(hammock: Hammock, size: float, rim: float | None = None, *, units: Units = "both") -> int:
    """Return the number of triangles of the finest mesh.

    Parameters
    ----------
    hammock : Hammock
        Without faults of its geometry.
    size : float
        Edge of a triangle in the middle of the cloth, m.
    rim : float or None
        Cells along channels and bars, m; None is a third of ``size``.
    units : {"metric", "imperial", "both"}
        Of the message of an error.

    Raises
    ------
    MeshSizeError
        If no mesh of this size fits the body.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> count_triangles(example_hammock(), 0.1)
    672
    >>> try:
    ...     count_triangles(example_hammock(), 2.0, units="metric")
    ... except MeshSizeError as error:
    ...     print(str(error).partition(" for ")[0])
    mesh size must be between 6.12 mm and 37.8 cm
    """
    from ..meshing import Fineness, mesh_hammock

    try:
        return len(mesh_hammock(hammock, Fineness(size, rim)).triangles)
    except ValueError as error:
        raise MeshSizeError(write_sentence(error.args[0], units)) from None


def foretell_wait(triangles: int) -> str | None:
    """Return a sentence about a solve that will take long, or None for a short one.

    Parameters
    ----------
    triangles : int
        Of the finest mesh.

    Returns
    -------
    str or None
        Number of triangles and the time to expect.

    Examples
    --------
    >>> foretell_wait(97_200)
    'A mesh of 97,200 triangles takes about 97 seconds, more on a slow machine.'
    """
    seconds = triangles / _RATE
    if seconds < _LONG:
        return None
    return f"A mesh of {triangles:,} triangles takes about {seconds:.0f} seconds, more on a slow machine."
