"""The stiffnesses that measurements tell, as a file of materials that a design can name."""

from collections.abc import Iterator
from typing import Any

from ...judging.sensitivity.range_input import MaterialInput
from ...storage.output_file import FITTED_MARK
from .stiffness_fit import FoundInput, StiffnessFit

_UNITS = {"line_stiffness": "N/m", "force": "N", "ratio": ""}


def write_materials(found: StiffnessFit, source: str) -> str:
    """Return a file of materials with every stiffness that is told at least in part, the others as they were.

    Parameters
    ----------
    found : StiffnessFit
        What measurements tell.
    source : str
        The file of measurements, as it is named.

    Returns
    -------
    str
        TOML; each value has the band of 90 of 100 as its range and the status ``seen``.
    """
    import tomlkit

    document = tomlkit.document()
    document.add(tomlkit.comment(FITTED_MARK.removeprefix("# ")))
    document.add(tomlkit.comment(f"Put it beside the design: [materials] files = [...]. {_list_left(found)}"))
    for each, stiff in _list_told(found):
        if stiff.material.category not in document:
            document.add(stiff.material.category, tomlkit.table(is_super_table=True))
        category: Any = document[stiff.material.category]
        if stiff.material.name not in category:
            category.add(stiff.material.name, _begin_table(stiff, found, source))
        category[stiff.material.name].add(stiff.field, _write_value(each, stiff))
    return tomlkit.dumps(document)


def _list_told(found: StiffnessFit) -> Iterator[tuple[FoundInput, MaterialInput]]:
    """Yield what is told at least in part."""
    for each in found.stiffnesses:
        if each.told != "not" and isinstance(each.source, MaterialInput):
            yield each, each.source


def _list_left(found: StiffnessFit) -> str:
    """Return what is not in the file."""
    left = [str(each.source.title) for each in found.stiffnesses if each.told == "not"]
    return f"Not told, left as they were: {'; '.join(left)}." if left else "Every stiffness was told."


def _begin_table(stiff: MaterialInput, found: StiffnessFit, source: str) -> Any:  # noqa: ANN401 - tomlkit's
    """Return the table of one material without its values."""
    import tomlkit

    table = tomlkit.table()
    table.add("base", stiff.material.name)
    words = f"least squares fit to {len(found.misfits)} measurements of {found.design.name} ({source})"
    table.add("source", words)
    table.add("status", "seen")
    return table


def _write_value(each: FoundInput, stiff: MaterialInput) -> Any:  # noqa: ANN401 - tomlkit's
    """Return a value with its range."""
    import tomlkit

    unit = _UNITS[stiff.dimension]
    value, low, high = (f"{number:.4g} {unit}".rstrip() for number in (each.value, each.low, each.high))
    table = tomlkit.inline_table()
    table.add("value", value)
    table.add("range", [low, high])
    table.add("note", f"90 of 100 within the range; its standard deviation is {each.narrowed:.0%} of that before")
    return table
