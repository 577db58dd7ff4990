"""Drawings as SVG in millimetres, for cutters and for the page."""

from collections.abc import Sequence
from xml.sax.saxutils import escape, quoteattr

import numpy as np

from ...hammock.arrays import FloatArray
from .drawing import Lettering, LineDrawing, LineKind

_MM = 1000.0
_MARGIN = 10.0  # mm
STYLES = {  # one colour for each kind of line, hairlines
    LineKind.CUT: "#000000",
    LineKind.SEW: "#1f5fa8",
    LineKind.FOLD: "#7a2e8c",
    LineKind.PLACE: "#2f7d32",
    LineKind.NOTCH: "#c1121f",
    LineKind.GRAIN: "#8a5a00",
    LineKind.CROSS: "#e0007a",
}
DASHES = {LineKind.SEW: (6.0, 3.0), LineKind.FOLD: (12.0, 3.0, 2.0, 3.0), LineKind.PLACE: (2.0, 2.0)}  # mm


def write_svg(drawings: Sequence[LineDrawing], title: str, *, screen: bool = False) -> str:
    """Return drawings, as they lie, on one sheet; every line once, words as text.

    Parameters
    ----------
    drawings : sequence of LineDrawing
        Not over each other.
    title : str
        Of the sheet.
    screen : bool
        Whether it is looked at and not cut: lines then keep their width, however small it is shown.

    Returns
    -------
    str
        One unit of the drawing is 1 mm.
    """
    boxes = [drawing.box for drawing in drawings]
    low = np.min([box[0] for box in boxes], axis=0) * _MM - _MARGIN
    high = np.max([box[1] for box in boxes], axis=0) * _MM + _MARGIN
    width, height = (f"{each:.3f}" for each in high - low)
    shift = np.array([low[0], high[1]])
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}">',
        f"<title>{escape(title)}</title>",
        f"<style>{_write_style(screen=screen)}</style>",
    ]
    for drawing in drawings:
        parts.append(f"<g id={quoteattr(drawing.name)}>")
        parts += [
            f'<path class="{stroke.kind}" d="{trace(stroke.points * _MM, shift, closed=stroke.closed)}"/>'
            for stroke in drawing.strokes
        ]
        parts += [_write_caption(caption, shift) for caption in drawing.captions]
        parts.append("</g>")
    return "\n".join([*parts, "</svg>", ""])


def trace(points: FloatArray, shift: FloatArray, *, closed: bool) -> str:
    """Return the outline of a path through points (n, 2), mm, y turned over about ``shift`` (2,), mm."""
    seen = np.stack([points[:, 0] - shift[0], shift[1] - points[:, 1]], -1)
    return "M" + "L".join(f"{x:.3f},{y:.3f}" for x, y in seen) + ("Z" if closed else "")


def _write_style(*, screen: bool) -> str:
    """Return how each kind of line looks."""
    width = "1.5px;vector-effect:non-scaling-stroke" if screen else "0.3"
    rules = [f"path{{fill:none;stroke-width:{width}}}", "text{font-family:sans-serif;text-anchor:middle;fill:#000000}"]
    for kind, colour in STYLES.items():
        dash = f";stroke-dasharray:{' '.join(f'{each:g}' for each in DASHES[kind])}" if kind in DASHES else ""
        rules.append(f".{kind}{{stroke:{colour}{dash}}}")
    return "".join(rules)


def _write_caption(caption: Lettering, shift: FloatArray) -> str:
    """Return words; a capital is 0.72 of the size of its type."""
    x, y = caption.at[0] * _MM - shift[0], shift[1] - caption.at[1] * _MM
    turn = f' transform="rotate({-np.degrees(caption.angle):.3f} {x:.3f} {y:.3f})"' if caption.angle else ""
    size = caption.height * _MM / 0.72
    return f'<text x="{x:.3f}" y="{y:.3f}" font-size="{size:.2f}"{turn}>{escape(caption.text)}</text>'
