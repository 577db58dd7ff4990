"""The page put together from its template and what was found."""

from base64 import b64encode
from pathlib import Path

from ...cases.judging.comfort.lay_notes import make_restraint_sentence
from ...cases.judging.verdict.verdict import write_unjudged
from ...cases.storage.stored_result import StoredResult
from ...cases.unit_display import Units
from ..picture import head_result
from .checks import sort_checks
from .compare import list_changes, list_differences
from .measures import draw_sizes
from .plots import list_figures
from .range_rows import list_chances, list_ranges
from .scene import pack_scene
from .tables import list_comfort_rows, list_groups, list_materials
from .template import render_page
from .weights import list_weight_tables, list_weights

_PICTURES = (("shape.png", "Loaded shape"), ("channel.png", "Side channel, cross-section"))


def compose_report(result: StoredResult, *, units: Units | None = None) -> str:
    """Return the page of one result.

    Parameters
    ----------
    result : StoredResult
        What was solved.
    units : {"metric", "imperial", "both"} or None
        What the page shows first; None is as in the design.

    Returns
    -------
    str
        A whole HTML document that loads nothing from the network.
    """
    record = result.record
    return render_page(
        "report.html",
        units or result.units,
        scene=pack_scene([result]),
        heading=head_result(record),
        record=record,
        unjudged=write_unjudged(record.judged) if record.judged else "",
        checks=sort_checks(record.checks),
        groups=list(list_groups(record)),
        comfort=list_comfort_rows(record.comfort),
        hold=make_restraint_sentence(record.comfort.slide, record.comfort.hold) if record.comfort else "",
        ranges=list_ranges(record.how_sure),
        chances=list_chances(record.how_sure),
        weights=list(list_weights(record.weights)),
        weight_tables=list(list_weight_tables(record.weights)),
        figures=list(list_figures(result)),
        measures=draw_sizes(result),
        materials=list_materials(record.materials),
        design_text=result.design_text,
        pictures=_list_pictures(result.folder),
    )


def compose_comparison(first: StoredResult, second: StoredResult, *, units: Units | None = None) -> str:
    """Return the page that shows two results side by side.

    Parameters
    ----------
    first, second : StoredResult
        What was solved; differences say by how much the second is more.
    units : {"metric", "imperial", "both"} or None
        What the page shows first; None is as in the first design.

    Returns
    -------
    str
        A whole HTML document that loads nothing from the network.
    """
    results = (first, second)
    return render_page(
        "compare.html",
        units or first.units,
        scene=pack_scene([first, second]),
        headings=[head_result(result.record) for result in results],
        records=[result.record for result in results],
        folders=[result.folder for result in results],
        changes=list_changes(first.design_text, second.design_text),
        differences=list(list_differences(first.record, second.record)),
        pictures=[picture for result in results for picture in _list_pictures(result.folder)[:1]],
    )


def _list_pictures(folder: Path) -> list[tuple[str, str]]:
    """Return the pictures beside a result, each with its title, as addresses that hold them."""
    found = []
    for name, title in _PICTURES:
        if (folder / name).is_file() and not (folder / name).is_symlink():
            data = b64encode((folder / name).read_bytes()).decode("ascii")
            found.append((title, f"data:image/png;base64,{data}"))
    return found
