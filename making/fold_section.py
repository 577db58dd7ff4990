"""Cross-section of a channel: every layer of cloth, the rows of stitches, the layers round the cord."""

from dataclasses import dataclass

from ..materials import Fabric
from ..materials.short_repr import write_repr, write_value
from .fold import Fold
from .fold_layer import Drawing, Layer


@dataclass(frozen=True)
class FoldSection:
    """A channel cut across.

    Parameters
    ----------
    layers : tuple of Layer
        Every layer of body and strip.
    rows : tuple of float
        Distance of each row of stitches from the finished edge, m.
    cord : tuple of float
        Distance of the cord's centre from the finished edge and its diameter, m.
    width, room : float
        Finished width and the part of it that is for stitches, m.
    """

    layers: tuple[Layer, ...]
    rows: tuple[float, ...]
    cord: tuple[float, float]
    width: float
    room: float

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{len(self.layers)} layers",
            f"{len(self.rows)} rows",
            f"{write_value(self.width, 'length')} wide",
            f"{write_value(self.room, 'length')} for stitches",
        )

    @property
    def pulled(self) -> tuple[str, ...]:
        """The cloth of each layer round the cord, counted on the ray from it outward."""
        centre = self.cord[0]
        return tuple(
            layer.cloth
            for layer in self.layers
            for a, b in zip(layer.path, layer.path[1:], strict=False)
            if (a[1] < 0) != (b[1] < 0) and max(a[0], b[0]) < centre
        )

    @property
    def sewn(self) -> tuple[str, ...]:
        """The cloth of each layer under the row of stitches that goes through the fewest."""
        return min((self.cut(row) for row in self.rows), key=len)

    @property
    def held(self) -> tuple[str, ...]:
        """The cloth of each layer that comes from the cord to the stitches: both legs of what lies round it."""
        return 2 * self.pulled

    def cut(self, x: float) -> tuple[str, ...]:
        """Return the cloth of each layer crossed at ``x``, m from the finished edge."""
        return tuple(
            layer.cloth
            for layer in self.layers
            for a, b in zip(layer.path, layer.path[1:], strict=False)
            if (a[0] < x) != (b[0] < x)
        )

    @property
    def body_allowance(self) -> float:
        """Width of one layer of body beyond the finished edge, m; below zero the body ends short of it."""
        body = next(layer for layer in self.layers if layer.cloth == "body")
        return body.length - body.turns[0]

    def find_mass(self, body: Fabric, strip: Fabric | None) -> float:
        """Return the mass of the channel's cloth, kg per metre of its length, without the body up to its edge.

        Parameters
        ----------
        body : Fabric
            Cloth of the body.
        strip : Fabric or None
            Cloth of the strip, if there is one.
        """
        mass = 0.0
        for layer in self.layers:
            cloth = body if layer.cloth == "body" or strip is None else strip
            mass += cloth.areal_mass * (layer.length - (layer.turns[0] if layer.cloth == "body" else 0.0))
        return mass


def cut_fold(fold: Fold, layers: int, diameter: float) -> FoldSection:
    """Return the cross-section of a channel with its cord.

    Parameters
    ----------
    fold : Fold
        How it is folded.
    layers : int
        Of the body.
    diameter : float
        Of the cord, m.

    Returns
    -------
    FoldSection
        In m; rows are spread evenly over the room for stitches.

    Raises
    ------
    ValueError
        For a fold in which the cord leaves no room, or whose strip does not reach round.

    Examples
    --------
    >>> from tautlay.making import Fold, Stitching
    >>> from tautlay.materials import Thread, read_library
    >>> rows = Stitching(read_library().find(Thread, "nylon size E"), 0.003, rows=2)
    >>> hem = cut_fold(Fold(2, rows, finished_width=0.02), 1, 0.002)
    >>> hem.pulled, hem.sewn, round(hem.body_allowance, 4)
    (('body',), ('body', 'body', 'body'), 0.0369)
    """
    room = fold.find_room(diameter)
    if room <= 0 or fold.lap < -1e-9:
        raise ValueError("this channel has no width for stitches, or its strip is too narrow.")
    rows = tuple(fold.width - room + room * (row + 0.5) / fold.seam.rows for row in range(fold.seam.rows))
    pocket = fold.width - room
    drawn = Drawing(pocket, diameter, fold, layers)
    return FoldSection(tuple(drawn.list_layers(room)), rows, (drawn.centre, diameter), fold.width, room)
