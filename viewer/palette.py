"""Pictures with 256 colours: to the eye the same, in a third of the bytes."""

from io import BytesIO
from pathlib import Path
from typing import IO, Any

import numpy as np
from numpy.typing import NDArray

from .look import BAR_LIGHTEST, BAR_MAP, CLOTH_MAP, CORD_LIGHTEST, CORD_MAP

SCALE_COLOURS = 96  # of the scale of the cloth, kept in the file: a step of a hundredth is not seen
LINE_COLOURS = 24  # of each of the scales of cords and bars
_WHITE = (255.0, 255.0, 255.0)
_TOGETHER = 256  # colours that are compared at once: their distances stay in the processor's cache


def save_small(figure: Any, path: Path | IO[bytes], dots: int) -> None:  # noqa: ANN401
    """Write a sheet as PNG with 256 colours; white and those of the scales are among them.

    Parameters
    ----------
    figure : matplotlib Figure
        The sheet.
    path : Path or binary file
        Where to write.
    dots : int
        Per inch.
    """
    from matplotlib import colormaps
    from PIL import Image

    sheet = _draw_sheet(figure, dots)
    scales = (
        (CLOTH_MAP, 1.0, SCALE_COLOURS),
        (CORD_MAP, CORD_LIGHTEST, LINE_COLOURS),
        (BAR_MAP, BAR_LIGHTEST, LINE_COLOURS),
    )
    kept = np.concatenate(
        [colormaps[name](np.linspace(0.0, lightest, count), bytes=True)[:, :3] for name, lightest, count in scales]
    )
    others = np.array(Image.fromarray(sheet).quantize(255 - len(kept)).getpalette("RGB")).reshape(-1, 3)
    palette = np.concatenate([kept, others, [_WHITE]]).astype(np.uint8)
    small = Image.fromarray(_match_colours(sheet, palette), mode="P")
    small.putpalette(palette.ravel().tolist())
    small.save(path, format="PNG", optimize=True, dpi=(dots, dots))


def _draw_sheet(figure: Any, dots: int) -> NDArray[np.uint8]:  # noqa: ANN401
    """Return the colours of a sheet (rows, columns, 3)."""
    whole = BytesIO()
    figure.savefig(whole, dpi=dots, format="rgba")  # as it is: packing and unpacking a PNG takes longer than drawing
    columns, rows = (int(side * dots) for side in figure.get_size_inches())
    return np.frombuffer(whole.getbuffer(), np.uint8).reshape(rows, columns, 4)[..., :3].copy()


def _match_colours(sheet: NDArray[np.uint8], palette: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Return for each dot (rows, columns, 3) the number of the nearest colour of a palette (p, 3)."""
    code = sheet[..., 0].astype(np.int32) * 65536 + sheet[..., 1].astype(np.int32) * 256 + sheet[..., 2]
    nearest: NDArray[np.uint8] = np.zeros(256**3, np.uint8)  # of every code: sorting the dots would take longer
    nearest[code] = 1
    codes = np.flatnonzero(nearest)
    ours = palette.astype(np.float32).T  # whole numbers below 2**24, and so are their products: exact
    square = (ours**2).sum(axis=0)
    for some in np.array_split(codes, len(codes) // _TOGETHER + 1):
        red, green, blue = ((some >> shift & 255).astype(np.float32)[:, None] for shift in (16, 8, 0))
        away = square - 2 * (red * ours[0] + green * ours[1] + blue * ours[2])  # squared, less what is the same for all
        nearest[some] = np.argmin(away, axis=1)
    return nearest.take(code)
