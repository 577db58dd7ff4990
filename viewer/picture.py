"""One printed sheet of the loaded shape, drawn without a screen."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import numpy as np

from ..cases.display.headings import PrintHeading, write_heading
from ..cases.result_record import ResultRecord
from ..cases.storage.atomic import write_beside
from ..cases.storage.result_json import read_record
from ..cases.storage.shape import CellTag, Shape, read_shape
from ..cases.storage.stored_result import find_bar_shares
from ..cases.unit_display import Units
from .camera import aim_camera, project_points
from .field_list import FIELDS
from .labels import draw_labels
from .legend import draw_key, draw_line_scales, draw_scale
from .look import ColourScheme, make_look
from .palette import save_small
from .person import draw_outline, draw_person
from .section import draw_section
from .view import Inset, draw_hammock, draw_scale_bar, draw_trees, find_far_bark, find_trees, fit_view, format_clearance
from .viewpoint import NEAR, cut_lines, keep_body

SHEET = (11.69, 8.27)  # in, A4 across
DOTS = 160  # per inch
NOTE = "Computed shape and forces. A computed result is no proof that a hammock is safe."
DRAWN = " Jaw, feet, folded forearms and the hollows of the torso are drawn, not computed."
_LONG = 95  # letters of a heading that fit at full size


def draw_shape(source: Path, png_path: Path, *, title: str | None = None, units: Units = "both") -> None:
    """Draw a solved hammock on one sheet.

    Three-quarter view with the force in each part, side view with trees and ground, view from the foot end; with a
    person in contact also the cross-section at the shoulders.

    Parameters
    ----------
    source : Path
        A ``shape.vtu``, or the result folder that holds one.
    png_path : Path
        Picture to write, whole or not at all.
    title : str or None
        Name in the heading; None takes the design's from ``result.json`` beside the shape, or else the file's name.
    units : {"metric", "imperial", "both"}
        Of everything that is written.

    Raises
    ------
    VtuError
        If there is no shape to draw.
    ResultError
        If the ``result.json`` beside it cannot be read.
    OSError
        If the picture cannot be written.
    """
    file = source / "shape.vtu" if source.is_dir() else source
    shape = read_shape(file)
    beside = file.with_name("result.json")
    record = read_record(beside) if beside.is_file() else None
    heading = write_heading(file.stem if title is None else title) if record is None else head_result(record, title)
    bar_shares = {} if record is None else find_bar_shares(record.checks)
    _save(compose_sheet(shape, heading, units, bar_shares), png_path)


def draw_posture(shape: Shape, png_path: Path, *, title: str, units: Units = "both") -> None:
    """Draw a shape that is kept in no file, such as that of somebody who is sitting up, on one sheet.

    Parameters
    ----------
    shape : Shape
        Deformed hammock with a person.
    png_path : Path
        Picture to write, whole or not at all.
    title : str
        In the heading.
    units : {"metric", "imperial", "both"}
        Of everything that is written.

    Raises
    ------
    OSError
        If the picture cannot be written.
    """
    _save(compose_sheet(shape, write_heading(title), units), png_path)


def _save(figure: Any, png_path: Path) -> None:  # noqa: ANN401
    """Write a sheet, whole or not at all."""
    with write_beside(png_path) as picture:
        save_small(figure, picture, DOTS)


def head_result(record: ResultRecord, title: str | None = None) -> PrintHeading:
    """Return what a sheet is headed with: the design, or another ``title``, and its load."""
    return write_heading(record.design.name if title is None else title, record.design.load, record.design.load_factor)


def compose_sheet(
    shape: Shape, heading: PrintHeading, units: Units = "both", bar_shares: Mapping[CellTag, float] | None = None
) -> Any:  # noqa: ANN401
    """Put the views, the scale of colours and the words on a sheet.

    Parameters
    ----------
    shape : Shape
        Deformed hammock.
    heading : PrintHeading
        What is written at the top.
    units : {"metric", "imperial", "both"}
        Of everything that is written.
    bar_shares : mapping of CellTag to float or None
        Demand over capacity of each bar that was checked.

    Returns
    -------
    matplotlib Figure
        Ready to be saved.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(SHEET)
    FigureCanvasAgg(figure)
    write_top(figure, heading)
    note = NOTE if shape.occupant is None else NOTE + DRAWN
    figure.text(0.03, 0.022, note, fontsize=7.5, va="center", color="0.3")
    look = make_look(shape, FIELDS[0], bar_shares or {}, units)
    _draw_main(figure.add_axes((0.02, 0.40, 0.81, 0.53)), shape, look, units)
    if shape.occupant is None:
        _draw_side(figure.add_axes((0.02, 0.05, 0.62, 0.31)), shape, look, units)
        _draw_foot(figure.add_axes((0.66, 0.05, 0.32, 0.31)), shape, look, units)
    else:
        _draw_side(figure.add_axes((0.02, 0.05, 0.45, 0.31)), shape, look, units)
        _draw_foot(figure.add_axes((0.48, 0.05, 0.24, 0.31)), shape, look, units)
        draw_section(figure.add_axes((0.73, 0.05, 0.25, 0.31)), shape, units)
    draw_scale(figure, look, units)
    draw_line_scales(figure, look, units)
    draw_key(figure, shape, look)
    return figure


def write_top(figure: Any, heading: PrintHeading) -> None:  # noqa: ANN401
    """Write what a sheet is headed with."""
    size = 15 * min(1.0, _LONG / len(heading.title))
    figure.text(0.03, 0.970, heading.title, fontsize=size, va="center", parse_math=False)
    figure.text(0.03, 0.945, heading.meaning, fontsize=8, va="center", color="0.3")


def _draw_main(axes: Any, shape: Shape, look: ColourScheme, units: Units) -> None:  # noqa: ANN401
    """Draw the body, legs and the nearest piece of the lines, and the force in each."""
    camera = aim_camera(-62, 30) if shape.occupant is None else aim_camera(-60, 40)  # from higher up one sees in
    near = cut_lines(shape, NEAR)
    used = np.unique(np.concatenate([near.triangles.ravel(), near.segments.ravel()]))
    fit_view(axes, project_points(camera, near.points[used]), Inset(0.02, 0.02, 0.17, 0.16))
    draw_hammock(axes, near, camera, look)
    draw_person(axes, near, camera, DOTS)
    draw_labels(axes, near, camera, units)
    draw_scale_bar(axes, (0.02, 0.24), units)


def _draw_side(axes: Any, shape: Shape, look: ColourScheme, units: Units) -> None:  # noqa: ANN401
    """Draw everything between the trees, seen from the person's right."""
    camera = aim_camera(-90, 0)
    seen = project_points(camera, np.concatenate([shape.points, find_far_bark(shape)]))
    ground = np.stack([seen[:, 0], np.zeros(len(seen))], -1)
    fit_view(axes, np.concatenate([seen, ground]), Inset(0.05, 0.05, 0.10, 0.16))
    draw_trees(axes, shape, camera)
    draw_hammock(axes, shape, camera, look, 0.6)
    draw_outline(axes, shape, camera)
    axes.text(
        0.5, 1.0, "from the right side, head on the left", transform=axes.transAxes, ha="center", va="top", fontsize=8
    )
    (left, right), post = axes.get_xlim(), float(project_points(camera, find_trees(shape))[:, 0].min(initial=np.inf))
    draw_scale_bar(axes, ((post + 0.3 - left) / (right - left), 0.20), units)  # clear of head tree and ground
    axes.text(
        0.5,
        0.0,
        format_clearance(shape, units),
        transform=axes.transAxes,
        ha="center",
        va="bottom",
        fontsize=8,
    )


def _draw_foot(axes: Any, shape: Shape, look: ColourScheme, units: Units) -> None:  # noqa: ANN401
    """Draw cloth and bars seen from the foot end."""
    camera = aim_camera(0, 0)
    seen = [shape.points[shape.triangles], *([] if shape.occupant is None else [shape.occupant.axes])]
    flat = np.concatenate([project_points(camera, points).reshape(-1, 2) for points in seen])
    fit_view(axes, flat, Inset(0.08, 0.08, 0.14, 0.12))
    draw_hammock(axes, keep_body(shape), camera, look, 0.8)
    draw_person(axes, shape, camera, DOTS, hidden=0.0)
    axes.text(0.5, 1.0, "body and bars from the foot end", transform=axes.transAxes, ha="center", va="top", fontsize=8)
    draw_scale_bar(axes, (0.08, 0.04), units)
