"""What a mesh size means for a design: whether it fits, how many triangles it makes, how long they take."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .design import Design

_RATE = 1000.0  # triangles a second, measured with 5,000 to 40,000 on two cores of an ordinary machine
_LONG = 15.0  # s, from which a word is due


class MeshSizeError(ValueError):
    """A mesh size that does not fit the body; the message says what is allowed."""


def count_triangles(design: "Design", size: float) -> int:
    """Return the number of triangles of the finest mesh.

    Parameters
    ----------
    design : Design
        Without faults of its geometry.
    size : float
        Edge of a triangle in the middle of the cloth, m.

    Raises
    ------
    MeshSizeError
        If no mesh of this size fits the body.

    Examples
    --------
    >>> from types import SimpleNamespace as Record
    >>> from tautlay.meshing import example_hammock
    >>> count_triangles(Record(hammock=example_hammock()), 0.1)
    672
    >>> count_triangles(Record(hammock=example_hammock()), 2.0)
    Traceback (most recent call last):
    tautlay.cases.mesh_size.MeshSizeError: mesh size must lie between 6.1 mm and 379.8 mm for this body, got 2000 mm.
    """
    from ..meshing import mesh_hammock

    try:
        return len(mesh_hammock(design.hammock, size).triangles)
    except ValueError as error:
        raise MeshSizeError(str(error)) from None


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
