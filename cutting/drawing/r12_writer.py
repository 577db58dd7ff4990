"""Entities of a DXF file of release 12 as text: lines of a group code and a value, by turns.

Written without a library, since loading one and building its document took half of the time of a pattern. The groups
are those that ezdxf 1.4 writes for release 12, less the header and tables that nothing here refers to; tests read the
files back with ezdxf and with GDAL. One unit is one millimetre.
"""

from collections.abc import Iterable, Sequence
from itertools import count

import numpy as np

from ...hammock.arrays import FloatArray
from ...materials.short_repr import write_repr
from .drawing import Lettering

_MM = 1000.0
_ENCODING = "cp1252"
_LAST_CODED = 0xFFFF  # of the signs that a code of four digits can name
_HEAD = """  0
SECTION
  2
HEADER
  9
$ACADVER
  1
AC1009
  9
$DWGCODEPAGE
  3
ANSI_1252
  9
$INSUNITS
 70
4
  9
$MEASUREMENT
 70
1
  9
$HANDLING
 70
1
  9
$HANDSEED
  5
{seed}
  0
ENDSEC
  0
SECTION
  2
TABLES
  0
TABLE
  2
LTYPE
 70
1
  0
LTYPE
  2
CONTINUOUS
 70
0
  3
Solid line
 72
65
 73
0
 40
0.0
  0
ENDTAB
  0
TABLE
  2
LAYER
 70
{count}
{layers}  0
ENDTAB
  0
TABLE
  2
STYLE
 70
1
  0
STYLE
  2
STANDARD
 70
0
 40
0.0
 41
1.0
 50
0.0
 71
0
 42
2.5
  3
txt
  4

  0
ENDTAB
  0
ENDSEC
"""


class R12Writer:
    """Writes entities, each with a handle of its own, and in the end the file that holds them.

    Examples
    --------
    >>> writer = R12Writer()
    >>> writer.write_point(np.array([0.5, 0.0]), "2").split()
    ['0', 'POINT', '5', '1', '8', '2', '10', '500.0', '20', '0.0', '30', '0.0']
    """

    def __init__(self) -> None:
        self._handles = count(1)

    def __repr__(self) -> str:
        return write_repr(self)

    def write_path(self, points: FloatArray, layer: str, *, closed: bool) -> str:
        """Return a line through points (n, 2), m: a LINE through two, a POLYLINE through more."""
        corners = to_millimetres(points).tolist()
        if len(corners) == 2:
            return self._begin("LINE", layer) + "".join(_place(corner, at) for at, corner in enumerate(corners))
        head = f"{self._begin('POLYLINE', layer)} 66\n1\n{_place((0.0, 0.0))} 70\n{int(closed)}\n"
        vertices = [f"{self._begin('VERTEX', layer)}{_place(corner)} 70\n0\n" for corner in corners]
        return "".join([head, *vertices, self._begin("SEQEND", layer)])

    def write_point(self, point: FloatArray, layer: str) -> str:
        """Return a point (2,), m."""
        return self._begin("POINT", layer) + _place(to_millimetres(point).tolist())

    def write_text(self, caption: Lettering, layer: str) -> str:
        """Return words, their middle where the caption stands."""
        place, angle = to_millimetres(caption.at).tolist(), round(float(np.degrees(caption.angle)), 6)
        size = f" 40\n{round(caption.height * _MM, 6)}\n  1\n{_clean(caption.text)}\n"
        turn = f" 50\n{angle}\n" if angle else ""
        return f"{self._begin('TEXT', layer)}{_place(place)}{size}{turn} 72\n1\n{_place(place, 1)}"

    def write_insert(self, name: str, at: FloatArray, layer: str) -> str:
        """Return a block as it is inserted at (2,), m."""
        return f"{self._begin('INSERT', layer)}  2\n{name}\n{_place(to_millimetres(at).tolist())}"

    def write_block(self, name: str, entities: Iterable[str]) -> str:
        """Return a block of entities."""
        head = f"{self._begin('BLOCK', '0')}  2\n{name}\n 70\n0\n{_place((0.0, 0.0))}  3\n{name}\n  1\n\n"
        return "".join([head, *entities, self._begin("ENDBLK", "0")])

    def write_file(self, layers: dict[str, int], blocks: Iterable[str], entities: Iterable[str]) -> bytes:
        """Return the file.

        Parameters
        ----------
        layers : dict of str to int
            Colour of each layer, a number of the CAD index.
        blocks, entities : iterable of str
            Everything that is drawn.
        """
        body = f"{_section('BLOCKS', blocks)}{_section('ENTITIES', entities)}  0\nEOF\n"
        rows = [f"  0\nLAYER\n  2\n{name}\n 70\n0\n 62\n{colour}\n  6\nCONTINUOUS\n" for name, colour in layers.items()]
        head = _HEAD.format(seed=f"{next(self._handles):X}", count=len(rows), layers="".join(rows))
        return encode_text(head + body)

    def _begin(self, kind: str, layer: str) -> str:
        """Return how an entity begins."""
        return f"  0\n{kind}\n  5\n{next(self._handles):X}\n  8\n{layer}\n"


def to_millimetres(points: FloatArray) -> FloatArray:
    """Return points (..., 2), m, in mm, to a millionth; none is minus zero."""
    return np.asarray(np.round(points * _MM, 6) + 0.0)


def encode_text(text: str) -> bytes:
    r"""Return text in the signs of Windows 1252; others as codes of four digits, and those beyond as U+FFFD.

    Examples
    --------
    >>> encode_text("Zürich, Łódź")
    b'Z\xfcrich, \\U+0141\xf3d\\U+017a'
    """
    try:
        return text.encode(_ENCODING)
    except UnicodeEncodeError:
        return b"".join(map(_encode_sign, text))


def _encode_sign(sign: str) -> bytes:
    """Return one sign."""
    try:
        return sign.encode(_ENCODING)
    except UnicodeEncodeError:
        return f"\\U+{ord(sign) if ord(sign) <= _LAST_CODED else 0xFFFD:04x}".encode("ascii")


def _place(at: Sequence[float], number: int = 0) -> str:
    """Return the groups of the first, or of another, point of an entity."""
    x, y = at
    return f" {10 + number}\n{x}\n {20 + number}\n{y}\n {30 + number}\n0.0\n"


def _clean(text: str) -> str:
    """Return words on one line; a pair of per cent signs, and a caret at the end, would begin a code."""
    return "".join(sign for sign in text if sign.isprintable()).replace("%%", "% %").rstrip("^")


def _section(name: str, parts: Iterable[str]) -> str:
    """Return a section of the file."""
    return "".join([f"  0\nSECTION\n  2\n{name}\n", *parts, "  0\nENDSEC\n"])
