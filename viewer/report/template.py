"""Templates of pages, filled in: whatever stands in a page has gone through here and is harmless."""

import json
from base64 import b64encode
from functools import cache
from hashlib import sha256
from importlib.metadata import version
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from ...cases.display.safety_cautions import CAUTIONS
from ...cases.studies.compare.value_columns import name_design, name_figure
from ...cases.unit_display import UNIT_SYSTEMS, Units, title_units
from .wording import mark_quantity, mark_sentence

if TYPE_CHECKING:
    from jinja2 import Environment


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
