"""All pieces of a hammock, how they are joined, and what is wrong with them."""

from dataclasses import dataclass

from ..hammock.described import Described
from ..hammock.outline import draw_outline
from ..making import cut_fold
from ..materials.short_repr import write_repr
from .body import LEFT, RIGHT, cut_channels, draft_body, draw_side
from .extension import draft_extensions
from .extension_seams import DART, LAPPED_SEAM, PLAIN_SEAM, join_extension
from .join import Join, mark_joins
from .panels import WeftPull
from .piece import ClothPiece
from .seams import FELLED_SEAM, close_channel, join_panels, join_strip
from .strip import draft_strips, name_strip


@dataclass(frozen=True)
class Draft:
    """The pieces of a hammock and how they are joined.

    Parameters
    ----------
    pieces : tuple of ClothPiece
        With their notches.
    joins : tuple of Join
        In the order of sewing.
    """

    pieces: tuple[ClothPiece, ...]
    joins: tuple[Join, ...]

    def __repr__(self) -> str:
        return write_repr(self, *(piece.name for piece in self.pieces), f"{len(self.joins)} joins")

    def list_panels(self, part: str) -> tuple[ClothPiece, ...]:
        """Return the pieces of a part."""
        return tuple(piece for piece in self.pieces if piece.part == part)

    @property
    def panel_seams(self) -> tuple[Join, ...]:
        """Seams between the panels of a body that is wider than its cloth; none of a body in one piece."""
        return tuple(join for join in self.joins if join.seam == FELLED_SEAM)

    @property
    def seams_beyond(self) -> tuple[Join, ...]:
        """Seams and darts of the cloth beyond bars that are set in."""
        return tuple(join for join in self.joins if join.seam in (PLAIN_SEAM, DART, LAPPED_SEAM))


def draft_pieces(described: Described, pull: WeftPull | None = None) -> Draft:
    """Return the pieces of a hammock.

    Body, what lies beyond bars that are set in, and channel strips.

    Parameters
    ----------
    described : Described
        Hammock and how it is made.
    pull : callable or None
        What the weft pulls at points of the flat cloth, N/m, for a body that must be seamed; None is not solved.

    Returns
    -------
    Draft
        The body first.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> from tautlay.making import Workmanship
    >>> from typing import NamedTuple
    >>> class Plan(NamedTuple):
    ...     hammock: object
    ...     workmanship: object
    >>> draft = draft_pieces(Plan(example_hammock(), Workmanship()))
    >>> [piece.name for piece in draft.pieces], len(draft.joins)
    (['body'], 0)
    """
    hammock, work = described.hammock, described.workmanship
    outline, channel, fold = draw_outline(hammock.body), cut_channels(described), work.fold
    sides = {side: draw_side(outline.pick_edge(side), side, channel) for side in (LEFT, RIGHT)}
    bodies = draft_body(described, pull)
    cloth = (*bodies, *draft_extensions(described))
    strips: tuple[ClothPiece, ...] = ()
    if fold is not None and fold.strip is not None:
        section = cut_fold(fold, hammock.body.layers, hammock.channel.cord.diameter)
        strips = draft_strips(outline, {side: edge.turning for side, edge in sides.items()}, fold, section)
    spacing = work.cutting.notch_spacing
    joins = list(join_panels(bodies, fold, spacing))
    if channel is not None and fold is not None:
        if strips:
            names = {side: name_strip(side, even=len(strips) == 1) for side in sides}
            joins += [join_strip(edge, names[side], fold, spacing) for side, edge in sides.items()]
        if channel.turned > 0:
            joins += [close_channel(edge, channel, fold, spacing) for edge in sides.values()]
    stitching = None if fold is None else fold.seam
    for end in hammock.ends:
        if end.bar.set_in > 0:
            joins += join_extension(cloth, end, stitching, spacing)
    return Draft(mark_joins((*cloth, *strips), tuple(joins)), tuple(joins))
