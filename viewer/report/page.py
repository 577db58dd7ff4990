"""The page put together from its template, its style sheet, its program and what was found."""

import json
from base64 import b64encode
from functools import cache
from hashlib import sha256
from importlib.metadata import version
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from ...cases.display.safety_cautions import CAUTIONS
from ...cases.judging.comfort.lay_notes import make_restraint_sentence
from ...cases.storage.stored_result import StoredResult
from ...cases.studies.compare.value_columns import name_design, name_figure
from ...cases.unit_display import UNIT_SYSTEMS, Units, title_units
from ..picture import head_result
from .checks import sort_checks
from .compare import list_changes, list_differences
from .plots import list_figures
from .range_rows import list_ranges
from .scene import pack_scene
from .tables import list_comfort_rows, list_groups, list_materials
from .weights import list_weight_tables, list_weights
from .wording import mark_quantity, mark_sentence

if TYPE_CHECKING:
    from jinja2 import Environment

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
        checks=sort_checks(record.checks),
        groups=list(list_groups(record)),
        comfort=list_comfort_rows(record.comfort),
        hold=make_restraint_sentence(record.comfort.slide, record.comfort.hold) if record.comfort else "",
        ranges=list_ranges(record.how_sure),
        weights=list(list_weights(record.weights)),
        weight_tables=list(list_weight_tables(record.weights)),
        figures=list(list_figures(result)),
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


def write_json(found: object) -> Markup:
    r"""Return JSON that can stand in a ``script`` element: nothing in it can end the element.

    Examples
    --------
    >>> write_json("</script>")
    Markup('"\\u003c/script\\u003e"')
    """
    text = json.dumps(found, allow_nan=False, separators=(",", ":"))
    for sign in "<>&":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return Markup(text)


def render_page(
    template: str,
    units: Units,
    *,
    bundle: str = "bundle.js",
    styles: tuple[str, ...] = ("page.css",),
    **found: Any,  # noqa: ANN401
) -> str:
    """Return a template filled in.

    Parameters
    ----------
    template : str
        File of ``viewer/page``.
    units : {"metric", "imperial", "both"}
        What the page shows first.
    bundle, styles : str, tuple of str
        Its program and its style sheets, files of the same folder.
    found : dict
        What the template shows; ``scene`` is put into the page as JSON for the program.
    """
    program, style = _read(bundle), "".join(map(_read, styles))
    if "</script" in program.lower():
        raise ValueError("the built program of the page would end its own script element; build it again.")
    hashed = b64encode(sha256(program.encode("utf-8")).digest()).decode("ascii")
    return (
        _open_templates()
        .get_template(template)
        .render(
            **{**found, "scene": write_json(found["scene"])},
            units=units,
            unit_systems=[(name, title_units(name)) for name in UNIT_SYSTEMS],
            program=Markup(program),
            program_hash=hashed,
            style=Markup(style),
            cautions=CAUTIONS,
            version=version("tautlay"),
        )
    )


@cache
def _open_templates() -> "Environment":
    """Return the templates; every value that goes in is made harmless."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    environment = Environment(
        loader=FileSystemLoader(str(files("tautlay.viewer") / "page")),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters.update(
        quantity=mark_quantity, sentence=mark_sentence, value_name=name_figure, design_name=name_design
    )
    return environment


def _read(name: str) -> str:
    """Return a file of the page."""
    return (files("tautlay.viewer") / "page" / name).read_text(encoding="utf-8")


def _list_pictures(folder: Path) -> list[tuple[str, str]]:
    """Return the pictures beside a result, each with its title, as addresses that hold them."""
    found = []
    for name, title in _PICTURES:
        if (folder / name).is_file():
            data = b64encode((folder / name).read_bytes()).decode("ascii")
            found.append((title, f"data:image/png;base64,{data}"))
    return found
