"""The sewn fold of a channel: widths, layers and cloth, and the lines it is drawn from."""

from dataclasses import dataclass
from typing import Annotated

from ....hammock import Hammock
from ....making import Workmanship, cut_fold
from ...record import FieldUnit, KilogramsPerMetre, Metres, Record


@dataclass(frozen=True, repr=False)
class FoldLayerRecord(Record):
    """One layer of a fold, cut across.

    Parameters
    ----------
    cloth : str
        ``body`` or ``strip``.
    path : tuple of (float, float)
        Its line, m: distance inboard of the finished edge, and height.
    """

    cloth: str
    path: Annotated[tuple[tuple[float, float], ...], FieldUnit("m")]


@dataclass(frozen=True, repr=False)
class FoldRecord(Record):
    """The sewn fold of a channel; both are alike.

    Parameters
    ----------
    finished_width, stitching_width : float
        Of the whole fold, and of what is left beside the cord for the stitches, m.
    layers_pulled, layers_sewn : int
        Layers that the cord pulls on, and those that are sewn through.
    stitches_per_inch : float
        Number in 25.4 mm.
    stitch_length : float
        m.
    body_allowance, strip_width : float
        Cloth of the body beyond its finished edge, and width of a strip sewn round it, m; 0 where there is none.
    cloth : float
        Mass of both, kg per metre of channel.
    rows : tuple of float
        Rows of stitches, m from the finished edge.
    cord_centre, cord_diameter : float
        The cord, m from the finished edge, and its diameter, m.
    layers : tuple of FoldLayerRecord
        The layers it is drawn from.
    """

    finished_width: Metres
    stitching_width: Metres
    layers_pulled: int
    layers_sewn: int
    stitches_per_inch: float
    stitch_length: Metres
    body_allowance: Metres
    strip_width: Metres
    cloth: KilogramsPerMetre
    rows: Annotated[tuple[float, ...], FieldUnit("m")]
    cord_centre: Metres
    cord_diameter: Metres
    layers: tuple[FoldLayerRecord, ...]


def measure_fold(hammock: Hammock, workmanship: Workmanship) -> FoldRecord | None:
    """Return widths, layers and cloth of the fold, and the lines it is drawn from.

    Parameters
    ----------
    hammock : Hammock
        Its body and cord.
    workmanship : Workmanship
        How the channels are sewn.

    Returns
    -------
    FoldRecord or None
        None where nothing is told of it.
    """
    fold, body = workmanship.fold, hammock.body
    if fold is None:
        return None
    section = cut_fold(fold, body.layers, hammock.channel.cord.diameter)
    strip = fold.strip
    return FoldRecord(
        finished_width=section.width,
        stitching_width=section.room,
        layers_pulled=len(section.pulled),
        layers_sewn=len(section.sewn),
        stitches_per_inch=fold.seam.per_inch,
        stitch_length=fold.seam.stitch_length,
        body_allowance=section.body_allowance,
        strip_width=strip.width if strip else 0.0,
        cloth=section.find_mass(body.fabric, strip.fabric if strip else None),
        rows=section.rows,
        cord_centre=section.cord[0],
        cord_diameter=section.cord[1],
        layers=tuple(FoldLayerRecord(layer.cloth, layer.path) for layer in section.layers),
    )
