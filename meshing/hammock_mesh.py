"""The mesh of a hammock's body; finding it needs no solver."""

from ..hammock.hammock import Attachment, Hammock
from ..hammock.outline import draw_outline
from ..hammock.ruled_sheet import list_levels
from .grid import Fineness, Mesh, make_mesh


def mesh_hammock(hammock: Hammock, size: float | Fineness, *, half: bool = False) -> Mesh:
    """Return the mesh of the body, with columns where locks end, and lines where what is beyond the bars begins.

    Raises
    ------
    ValueError
        For a size that does not fit the body.
    """
    lock = hammock.channel.lock_length if hammock.channel.attachment is Attachment.LOCKED else 0.0
    across = tuple(level for end in hammock.ends for level in list_levels(end))
    return make_mesh(draw_outline(hammock.body), size, lock_length=lock, half=half, across=across)
