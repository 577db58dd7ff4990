"""What a mesh size means for a design: whether it fits, how many triangles it makes, how long they take."""

from typing import TYPE_CHECKING

from .unit_display import write_sentence

if TYPE_CHECKING:
    from .design import Design

_RATE = 1000.0  # triangles a second, measured with 5,000 to 40,000 on two cores of an ordinary machine
_LONG = 15.0  # s, from which a word is due


class MeshSizeError(ValueError):
    """A mesh size that does not fit the body; the message says what is allowed, in the units of the report."""


def count_triangles(design: "Design", size: float, rim: float | None = None) -> int:
    """Return the number of triangles of the finest mesh.

    Parameters
    ----------
    design : Design
        Without faults of its geometry.
    size : float
        Edge of a triangle in the middle of the cloth, m.
    rim : float or None
        Cells along channels and bars, m; None is a third of ``size``.

    Raises
    ------
    MeshSizeError
        If no mesh of this size fits the body.

    Examples
    --------
    >>> from types import SimpleNamespace as Record
    >>> from tautlay.meshing import example_hammock
    >>> design = Record(hammock=example_hammock(), units="metric")
    >>> count_triangles(design, 0.1)
    672
    >>> try:
    ...     count_triangles(design, 2.0)
    ... except MeshSizeError as error:
    ...     print(str(error).partition(" for ")[0])
    mesh size must lie between 6.12 mm and 37.8 cm
    """
    from ..meshing import Fineness, mesh_hammock

    try:
        return len(mesh_hammock(design.hammock, Fineness(size, rim)).triangles)
    except ValueError as error:
        raise MeshSizeError(write_sentence(error.args[0], design.units)) from None


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
    'A mesh of 97,200 triangles: expect about 97 seconds, more on a slow machine.'
    """
    seconds = triangles / _RATE
    if seconds < _LONG:
        return None
    return f"A mesh of {triangles:,} triangles: expect about {seconds:.0f} seconds, more on a slow machine."
