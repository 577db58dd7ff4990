"""One step of sewing, and how rows of stitches are described in it."""

from typing import NamedTuple

from ...making import Stitching
from ...making.stitching import STITCH_NAMES
from ...materials import make_sentence


class SewingStep(NamedTuple):
    """One step.

    Parameters
    ----------
    title : str
        What is done.
    sentences : tuple of str
        How; may be ``Sentence``.
    trial : str
        What to try before the next step; may be a ``Sentence``.
    """

    title: str
    sentences: tuple[str, ...]
    trial: str


def describe_rows(stitching: Stitching | None, needs: str) -> str:
    """Return rows, stitch length, stitch and thread in one sentence.

    Parameters
    ----------
    stitching : Stitching or None
        None is not given.
    needs : str
        What to add to the design then.

    Examples
    --------
    >>> describe_rows(None, "[body.hem]")
    'Its rows are not described: add [body.hem].'
    """
    if stitching is None:
        return f"Its rows are not described: add {needs}."
    rows = f"{stitching.rows} rows" if stitching.rows > 1 else "1 row"
    return make_sentence(
        "Sew {rows} of {stitch} with {thread}, stitches {length:length} long.",
        rows=rows,
        stitch=STITCH_NAMES[stitching.stitch],
        thread=stitching.thread.name,
        length=stitching.stitch_length,
    )
