"""The drawings of the reference, which show what each length and angle of a design file measures."""

import re
from collections import Counter
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import NamedTuple

from docutils import nodes

from tautlay.cases import read_design
from tautlay.viewer.measures.list_views import list_views
from tautlay.viewer.measures.measured_view import MeasuredView
from tautlay.viewer.measures.placed_view import number_keys
from tautlay.viewer.measures.svg_sheet import embed_sheets
from tautlay.viewer.measures.view_sheet import lay_out_view

_EVERY_SIZE = Path(__file__).parents[1] / "reference" / "fern_hollow.toml"
_ALIKE = (  # what is measured alike under several keys
    (r"\.\d+(?=\.)", ""),
    (r"(?:^|(?<=\.))(?:head|foot|left|right)_", ""),
    (r"^trees(?=\.)", "tree"),
    (r"^ends\.\w+(?=\.)", "ends"),
    (r"^channel\.lock\.corner_length$", "channel.lock_length"),
)


class ReferenceDrawing(NamedTuple):
    """A drawing of the reference: its anchor, what is drawn, and the table of the file beside which it stands."""

    anchor: str
    view: MeasuredView
    table: str


class DrawnKey(NamedTuple):
    """Where a key is drawn: its drawing and its number there."""

    drawing: ReferenceDrawing
    number: int


def find_alike(path: str) -> str:
    """Return the name that keys share which measure the same: at head and foot, left and right, of any end."""
    for pattern, name in _ALIKE:
        path = re.sub(pattern, name, path)
    return path


@cache
def list_drawings() -> tuple[ReferenceDrawing, ...]:
    """Return drawings that together show every key: of a design with every size, and of the file of ``tautlay new``."""
    found: list[ReferenceDrawing] = []
    shown: set[str] = set()
    for path in (_EVERY_SIZE, files("tautlay.cases") / "starter.toml"):
        for view in list_views(read_design(path)):
            keys = {find_alike(key) for key in view.keys}
            if keys <= shown:
                continue
            shown |= keys
            tables = Counter(_leave_out_numbers(key).rpartition(".")[0] for key in view.keys)
            found.append(ReferenceDrawing(f"drawing-{path.stem}-{view.name}", view, tables.most_common(1)[0][0]))
    return tuple(found)


@cache
def list_drawn_keys() -> dict[str, DrawnKey]:
    """Return where each key is drawn, and each name that keys alike share; the first drawing counts."""
    found: dict[str, DrawnKey] = {}
    for drawing in list_drawings():
        for keys, number in number_keys(drawing.view).items():
            for name in (name for key in keys for name in (_leave_out_numbers(key), find_alike(key))):
                found.setdefault(name, DrawnKey(drawing, number))
    return found


def find_drawn(path: str) -> DrawnKey | None:
    """Return where a key is drawn, or else one that measures the same; None where neither is."""
    drawn = list_drawn_keys()
    return drawn.get(path) or drawn.get(find_alike(path))


def _leave_out_numbers(key: str) -> str:
    """Return a key without the numbers of entries of lists, as forms have it."""
    return re.sub(r"\.\d+(?=\.)", "", key)


@cache
def embed_drawings() -> dict[str, nodes.raw]:
    """Return each drawing as it stands in the page, by its anchor."""
    drawings = list_drawings()
    sheets = embed_sheets(lay_out_view(each.view, lambda row: row.write("both")) for each in drawings)
    return {
        each.anchor: nodes.raw("", f'<div id="{each.anchor}" class="measured">{sheet}</div>', format="html")
        for each, sheet in zip(drawings, sheets, strict=True)
    }
