"""The contact pressure on the loaded cloth, seen from above: colour, numbers of the colours, and the peak marked."""

import numpy as np
from markupsafe import Markup

from ...cases.storage.shape import CellTag, FloatArray, Shape
from ..field import find_scale
from ..field_list import NAMES
from ..look import CLOTH_MAP
from ..svg_path import trace_path
from .plot import Frame, draw_path, draw_plot, draw_text, frame_alike
from .wording import mark_quantity

_LEVELS = 5


def draw_pressure(shape: Shape) -> tuple[Markup, Markup]:
    """Return drawing and words of the contact pressure.

    Parameters
    ----------
    shape : Shape
        With a person in contact.
    """
    assert shape.occupant is not None
    pressure, seen = shape.occupant.pressure, shape.points[shape.triangles][..., :2]
    end, _ = find_scale(shape, NAMES["pressure"])
    level = np.minimum(np.ceil(pressure / end * _LEVELS), _LEVELS).astype(int)  # 0 where nothing touches
    frame = frame_alike(seen.reshape(-1, 2), ("along, head on the left", "left of the centre line"), 0.02)
    parts = [_draw_level(frame, seen[level == number], number) for number in range(1, _LEVELS + 1)]
    parts += [draw_path(frame, edge, "edge") for edge in _list_edges(shape)]
    peak = int(np.argmax(pressure))
    at = seen[peak].mean(axis=0)
    x, y = frame.place(at)
    parts.append(Markup('<path class="peak" d="M{:.5g},{:.5g}m-6,0h12m-6,-6v12"/>').format(x, y))
    parts.append(draw_text(frame, (float(at[0]) + 0.05, float(at[1]) + 0.03), "peak", "halo"))
    drawing = draw_plot(frame, "Contact pressure on the cloth from above", parts)
    words = Markup("Highest on one triangle: {} (the cross). {}").format(
        mark_quantity(pressure[peak], "stress"), _key(end)
    )
    return drawing, words


def _draw_level(frame: Frame, corners: FloatArray, number: int) -> Markup:
    """Draw all triangles (m, 3, 2) of one colour."""
    outlines = "".join(trace_path(corner, closed=True) for corner in frame.place(corners).round(1))
    return Markup('<path fill="{0}" stroke="{0}" stroke-width=".4" d="{1}"/>').format(_colour(number), outlines)


def _colour(number: int) -> str:
    """Return the colour of a level, counted from 1."""
    from matplotlib import colormaps
    from matplotlib.colors import to_hex

    return to_hex(colormaps[CLOTH_MAP]((number - 0.5) / _LEVELS))


def _list_edges(shape: Shape) -> list[FloatArray]:
    """Return the side cords and bars from above (k, 2)."""
    parts = (CellTag.LEFT_SIDE_CORD, CellTag.RIGHT_SIDE_CORD, CellTag.HEAD_BAR, CellTag.FOOT_BAR)
    return [piece[:, :2] for piece in shape.points[shape.segments[np.isin(shape.part, parts)]]]


def _key(end: float) -> Markup:
    """Return what each colour stands for."""
    limits = [("to", mark_quantity(end * number / _LEVELS, "stress", 2)) for number in range(1, _LEVELS)]
    limits.append(("above", limits[-1][1]))
    rows = [
        Markup('<span class="swatch"><i style="background:{}"></i>{}</span>').format(
            _colour(number), Markup("{} {}").format(*words)
        )
        for number, words in enumerate(limits, 1)
    ]
    return Markup('<span class="key">{}</span>').format(Markup(" ").join(rows))
