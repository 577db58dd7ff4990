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

    whole = BytesIO()
    figure.savefig(whole, dpi=dots, format="png")
    with Image.open(whole) as image:
        sheet = image.convert("RGB")
    scales = (
        (CLOTH_MAP, 1.0, SCALE_COLOURS),
        (CORD_MAP, CORD_LIGHTEST, LINE_COLOURS),
        (BAR_MAP, BAR_LIGHTEST, LINE_COLOURS),
    )
    kept = np.concatenate(
        [colormaps[name](np.linspace(0.0, lightest, count), bytes=True)[:, :3] for name, lightest, count in scales]
    )
    others = np.array(sheet.quantize(255 - len(kept)).getpalette("RGB")).reshape(-1, 3)
    palette = np.concatenate([kept, others, [_WHITE]]).astype(np.uint8)
    small = Image.fromarray(_match_colours(np.asarray(sheet), palette), mode="P")
    small.putpalette(palette.ravel().tolist())
    small.save(path, format="PNG", optimize=True, dpi=(dots, dots))


def _match_colours(sheet: NDArray[np.uint8], palette: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Return for each dot (rows, columns, 3) the number of the nearest colour of a palette (p, 3)."""
    code = sheet[..., 0].astype(np.int32) * 65536 + sheet[..., 1].astype(np.int32) * 256 + sheet[..., 2]
    _, first, place = np.unique(code, return_index=True, return_inverse=True)
    colours, ours = sheet.reshape(-1, 3)[first].astype(float), palette.astype(float)
    away = (ours**2).sum(axis=1) - 2 * colours @ ours.T  # squared distance, less what is the same for all
    nearest: NDArray[np.uint8] = np.argmin(away, axis=1).astype(np.uint8)
    return nearest[place].reshape(code.shape)
