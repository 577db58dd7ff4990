"""The mesh of a hammock's body; finding it needs no solver."""

from ..hammock.hammock import Attachment, Hammock
from ..hammock.outline import draw_outline
from .grid import Fineness, Mesh, make_mesh


def mesh_hammock(hammock: Hammock, size: float | Fineness, *, half: bool = False) -> Mesh:
    """Return the mesh of the body, with columns where locks end.

    Raises
    ------
    ValueError
        For a size that does not fit the body.
    """
    lock = hammock.channel.lock_length if hammock.channel.attachment is Attachment.LOCKED else 0.0
    return make_mesh(draw_outline(hammock.body), size, lock_length=lock, half=half)
