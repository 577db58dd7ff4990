"""Drawings as DXF of release 12, with layers after ASTM D6673 as far as they are known.

The standard itself was not at hand: layer numbers and the words of texts come from listings that agree with each other
(secondary source) and from memory. No conformity is claimed. How depth and angle of a notch are coded is not known; a
notch is a point on the cut, with a tick on the layer of internal lines. One unit is one millimetre.

The frame of the file, its blocks and its words are a document of ezdxf. Lines and points, of which there are thousands,
come from ezdxf's writer of streams, which takes a tenth of the time but knows no blocks: they are put into theirs.
Entities have no handles, which release 12 leaves free.
"""

import io
import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, nullcontext
from importlib import import_module
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from ...hammock.arrays import FloatArray
from .drawing import Lettering, LineDrawing, LineKind, PointKind

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
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
_HEADER, _END = "  0\nSECTION\n  2\nHEADER\n", "  0\nENDBLK\n"
_UNITS = "  9\n$INSUNITS\n 70\n     4\n  9\n$MEASUREMENT\n 70\n     1\n"  # mm; ezdxf writes none of it for release 12


class _Frame(NamedTuple):
    """A DXF file as text, and the code page that it names."""

    text: str
    encoding: str


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
        import_module("ezdxf.document")
    frame = _write_frame(drawings, titles)
    *blocks, rest = frame.text.replace(_HEADER, _HEADER + _UNITS, 1).split(_END)
    spaces = [""] * (len(blocks) - len(drawings))  # of model and paper, blocks too
    lines = [*spaces, *map(_write_lines, drawings)]
    filled = "".join(f"{block}{inside}{_END}" for block, inside in zip(blocks, lines, strict=True))
    return (filled + rest).encode(frame.encoding, errors="dxfreplace")


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


def _write_frame(drawings: Sequence[LineDrawing], titles: Sequence[str]) -> _Frame:
    """Return a file with the blocks of all drawings, their words alone in them."""
    from ezdxf.document import Drawing as Document

    stream = io.StringIO(newline="")
    with _fix_time():
        document = Document.new("R12")
        document.header["$HANDLING"] = 0
        for layer, colour in _COLOURS.items():
            document.layers.add(layer, color=colour)
        _insert_blocks(document, drawings)
        for number, title in enumerate(titles):
            _add_text(document.modelspace(), Lettering(title, np.array([0.0, 0.05 + 0.02 * number]), 0.01))
        document.write(stream)
    return _Frame(stream.getvalue().replace("\r\n", "\n"), document.encoding)


def _insert_blocks(document: "Document", drawings: Sequence[LineDrawing]) -> None:
    """Make a block of each drawing, with its words, and insert it below the one before."""
    place, space = np.zeros(2), document.modelspace()
    for drawing in drawings:
        name = name_block(drawing.name)
        block = document.blocks.new(name)
        for caption in drawing.captions:
            _add_text(block, caption)
        low, high = drawing.box
        space.add_blockref(name, _mm(np.array([0.0, place[1] - high[1]])), dxfattribs={"layer": "1"})
        place = place - np.array([0.0, high[1] - low[1] + _GAP])


def _write_lines(drawing: LineDrawing) -> str:
    """Return all lines and points of a drawing as entities."""
    from ezdxf.addons.r12writer import R12FastStreamWriter

    stream = io.StringIO()
    writer = R12FastStreamWriter(stream)
    start = stream.tell()
    for stroke in drawing.strokes:
        if stroke.kind is not LineKind.CROSS:
            points, layer = _list_mm(stroke.points), LAYERS[stroke.kind]
            if len(points) == 2:
                writer.add_line(points[0], points[1], layer)
            else:
                writer.add_polyline_2d(points, closed=stroke.closed, layer=layer)
    for mark in drawing.points:
        writer.add_point(_mm(mark.at), LAYERS[mark.kind])
    return stream.getvalue()[start:]


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


def _list_mm(points: FloatArray) -> list[list[float]]:
    """Return points (n, 2) in mm, to a millionth."""
    rounded: list[list[float]] = ((points * _MM).round(6) + 0.0).tolist()  # without a minus before nothing
    return rounded


def _mm(point: FloatArray) -> list[float]:
    """Return a point (2,) in mm, to a millionth."""
    return _list_mm(point[None])[0]
