"""Drawings as DXF of release 12, with layers after ASTM D6673 as far as they are known.

The standard itself was not at hand: layer numbers and the words of texts come from listings that agree with each other
(secondary source) and from memory. No conformity is claimed. How depth and angle of a notch are coded is not known; a
notch is a point on the cut, with a tick on the layer of internal lines. One unit is one millimetre.
"""

import io
import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, nullcontext
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

import numpy as np

from ...hammock.arrays import FloatArray
from .drawing import Lettering, LineDrawing, LineKind, PointKind

if TYPE_CHECKING:
    from ezdxf.layouts.base import BaseLayout

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
_NO_FONTS = '{"version": 2, "font-faces": []}'  # as ezdxf keeps what it found; of another version it looks anew
_TEXT = "15"
_COLOURS = {"1": 7, "2": 8, "3": 8, "4": 1, "7": 3, "8": 5, "13": 1, "14": 4, "15": 2}  # of the CAD index
_LAST = 0xFFFF  # sign that a file of release 12 can name
_MM = 1000.0
_GAP = 0.05  # m between blocks as they are inserted
_UNITS = "  9\n$INSUNITS\n 70\n     4\n  9\n$MEASUREMENT\n 70\n     1\n"  # mm; ezdxf writes none of it for release 12


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
    with _settle_home() if "ezdxf" not in sys.modules else nullcontext():
        from ezdxf.document import Drawing as Document

    with _fix_time():
        document = Document.new("R12")
        for layer, colour in _COLOURS.items():
            document.layers.add(layer, color=colour)
        place, space = np.zeros(2), document.modelspace()
        for drawing in drawings:
            name = name_block(drawing.name)
            _fill_block(document.blocks.new(name), drawing)
            low, high = drawing.box
            space.add_blockref(name, _mm(np.array([0.0, place[1] - high[1]])), dxfattribs={"layer": "1"})
            place = place - np.array([0.0, high[1] - low[1] + _GAP])
        for number, title in enumerate(titles):
            _add_text(space, Lettering(title, np.array([0.0, 0.05 + 0.02 * number]), 0.01))
        stream = io.StringIO(newline="")
        document.write(stream)
    text = stream.getvalue().replace("\r\n", "\n")
    head = "  0\nSECTION\n  2\nHEADER\n"
    start, _, rest = text.partition(head)
    return f"{start}{head}{_UNITS}{rest}".encode(document.encoding, errors="dxfreplace")


def name_block(name: str) -> str:
    """Return the name of a block: letters, digits and lines only.

    Examples
    --------
    >>> name_block("left channel strip")
    'left_channel_strip'
    """
    return "".join(sign if sign.isascii() and sign.isalnum() else "_" for sign in name)


@contextmanager
def _settle_home() -> Iterator[None]:
    """Let ezdxf find no fonts and settings: it reads both when imported, needs none, and ends over damaged ones."""
    names = ("XDG_CACHE_HOME", "XDG_CONFIG_HOME")
    before = {name: os.environ[name] for name in names if name in os.environ}
    with TemporaryDirectory(prefix="tautlay-") as home:
        kept = Path(home) / "ezdxf"
        kept.mkdir()
        (kept / "font_manager_cache.json").write_text(_NO_FONTS, encoding="utf-8")
        os.environ.update(dict.fromkeys(names, home))
        try:
            yield
        finally:
            for name in names:
                del os.environ[name]
            os.environ.update(before)


@contextmanager
def _fix_time() -> Iterator[None]:
    """Let ezdxf write neither time nor random numbers into a file."""
    from ezdxf._options import options

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _fill_block(block: "BaseLayout", drawing: LineDrawing) -> None:
    """Draw everything into a block."""
    for stroke in drawing.strokes:
        if stroke.kind is not LineKind.CROSS:
            layer = {"layer": LAYERS[stroke.kind]}
            if len(stroke.points) == 2:
                block.add_line(_mm(stroke.points[0]), _mm(stroke.points[1]), dxfattribs=layer)
            else:
                block.add_polyline2d(list(map(_mm, stroke.points)), close=stroke.closed, dxfattribs=layer)
    for point in drawing.points:
        block.add_point(_mm(point.at), dxfattribs={"layer": LAYERS[point.kind]})
    for caption in drawing.captions:
        _add_text(block, caption)


def _add_text(block: "BaseLayout", caption: Lettering) -> None:
    """Write words; a pair of per cent signs would begin a code, and codes of signs have four digits."""
    from ezdxf.enums import TextEntityAlignment

    words = "".join(sign if ord(sign) <= _LAST else "\N{REPLACEMENT CHARACTER}" for sign in caption.text)
    text = block.add_text(
        words.replace("%%", "% %"),
        height=round(caption.height * _MM, 6),
        rotation=round(float(np.degrees(caption.angle)), 6),
        dxfattribs={"layer": _TEXT},
    )
    text.set_placement(_mm(caption.at), align=TextEntityAlignment.CENTER)


def _mm(point: FloatArray) -> tuple[float, float]:
    """Return a point in mm, to a millionth."""
    x, y = point * _MM
    return round(float(x), 6) + 0.0, round(float(y), 6) + 0.0
