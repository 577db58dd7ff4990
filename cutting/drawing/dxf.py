"""Drawings as DXF of release 12, with layers after ASTM D6673 as far as they are known.

The standard itself was not at hand: layer numbers and the words of texts come from listings that agree with each other
(secondary source) and from memory. No conformity is claimed. How depth and angle of a notch are coded is not known; a
notch is a point on the cut, with a tick on the layer of internal lines. One unit is one millimetre.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from .drawing import Lettering, LineDrawing, LineKind, PointKind
from .r12_writer import R12Writer

LAYERS = {
    LineKind.CUT: "1",
    LineKind.SEW: "14",
    LineKind.GRAIN: "7",
    LineKind.FOLD: "8",
    LineKind.PLACE: "8",
    LineKind.NOTCH: "8",
    PointKind.TURN: "2",
    PointKind.CURVE: "3",
    PointKind.NOTCH: "4",
    PointKind.DRILL: "13",
}
_TEXT = "15"
_COLOURS = {"0": 7, "1": 7, "2": 8, "3": 8, "4": 1, "7": 3, "8": 5, "13": 1, "14": 4, "15": 2}  # of the CAD index
_GAP = 0.05  # m between blocks as they are inserted


def write_dxf(drawings: Sequence[LineDrawing], titles: Sequence[str]) -> bytes:
    """Return drawings as DXF, each a block of its name, inserted side by side.

    Parameters
    ----------
    drawings : sequence of LineDrawing
        Crosses are written as points alone.
    titles : sequence of str
        Texts that belong to all of them.

    Returns
    -------
    bytes
        The same for the same drawings, on every run.
    """
    writer, blocks, space, top = R12Writer(), [], [], 0.0
    for drawing in drawings:
        name = name_block(drawing.name)
        blocks.append(writer.write_block(name, _write_entities(writer, drawing)))
        low, high = drawing.box
        space.append(writer.write_insert(name, np.array([0.0, top - high[1]]), "1"))
        top -= high[1] - low[1] + _GAP
    for number, title in enumerate(titles):
        space.append(writer.write_text(Lettering(title, np.array([0.0, 0.05 + 0.02 * number]), 0.01), _TEXT))
    return writer.write_file(_COLOURS, blocks, space)


def name_block(name: str) -> str:
    """Return the name of a block: letters, digits and lines only.

    Examples
    --------
    >>> name_block("left channel strip")
    'left_channel_strip'
    """
    return "".join(sign if sign.isascii() and sign.isalnum() else "_" for sign in name)


def _write_entities(writer: R12Writer, drawing: LineDrawing) -> Iterator[str]:
    """Yield everything that is drawn."""
    for stroke in drawing.strokes:
        if stroke.kind is not LineKind.CROSS:
            yield writer.write_path(stroke.points, LAYERS[stroke.kind], closed=stroke.closed)
    for point in drawing.points:
        yield writer.write_point(point.at, LAYERS[point.kind])
    for caption in drawing.captions:
        yield writer.write_text(caption, _TEXT)
