"""The cutting pattern: pieces with named edges, how they are joined, how they lie on the cloth; drawings of them.

It follows from the flat hammock alone and loads neither mesh nor solver.
"""

from .body import BODY
from .draft import Draft, draft_pieces
from .edge import PieceEdge, Treatment
from .join import EdgeLine, Join, Match
from .piece import ClothPiece

__all__ = ["BODY", "ClothPiece", "Draft", "EdgeLine", "Join", "Match", "PieceEdge", "Treatment", "draft_pieces"]


def __dir__() -> list[str]:
    """List the public names only."""
    return [*__all__]
