"""Lists of materials that fit a terminal of 80 columns, with status and numbered sources."""

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from ....materials import CATEGORIES, Library, Material, find_weakest_status
from ...display.basis_words import show_basis
from ...unit_display import WIDTH, Units, list_systems, show_quantity


def print_categories(library: Library, console: Console) -> None:
    """Print which categories there are and how to see them.

    Parameters
    ----------
    library : Library
        The materials.
    console : Console
        Where to.
    """
    table = Table(box=None, pad_edge=False)
    for heading in ("category", "entries", "see"):
        table.add_column(heading)
    for category in CATEGORIES:
        table.add_row(category, str(len(library.names(category))), f"tautlay materials {category}")
    console.print(table)


def print_materials(
    category: str,
    materials: tuple[Material, ...],
    library: Library,
    units: Units,
    console: Console,
    *,
    sources: bool = False,
) -> None:
    """Print materials of one category; a single one with all its numbers.

    Parameters
    ----------
    category : str
        One of the library's categories.
    materials : tuple of Material
        What to print, at least one.
    library : Library
        Where they come from.
    units : {"metric", "imperial", "both"}
        Units.
    console : Console
        Where to; nothing is wider than 80 columns.
    sources : bool
        Whether a list of several says where their numbers come from; that of a single one always does.
    """
    notes = _Footnotes()
    if len(materials) == 1:
        heading = f"{category}: {materials[0].name} ({materials[0].kind})"
        table = _list_values(category, materials[0], library, units, notes)
    else:
        heading = (
            f"{category}: {len(materials)} entries\n"
            "status of the least certain value in the row; secondary source: read in a page that quotes it; "
            "derived: calculated from sourced values; unverified: no source found"
        )
        table = _list_names(materials, units, notes if sources else None)
    parts: list[RenderableType] = [Text(heading, style="bold"), table]
    if notes.numbers:
        parts += [Text("\nSources", style="bold"), *notes.lines()]
    else:
        parts += [Text(f'\nAll values of one: tautlay materials {category} --find "{materials[0].name}"')]
        parts += [Text(f"Where they all come from: tautlay materials {category} --sources")]
    console.print(Group(*parts), width=min(console.width, WIDTH))


class _Footnotes:
    """Numbers texts in the order in which they come up."""

    def __init__(self) -> None:
        self.numbers: dict[str, int] = {}

    def number(self, text: str) -> str:
        """Return the number of a text."""
        return str(self.numbers.setdefault(text, len(self.numbers) + 1))

    def lines(self) -> list[Text]:
        """Return the numbered texts."""
        return [Text(f"{number:>3} {text}") for text, number in self.numbers.items()]


def _list_names(materials: tuple[Material, ...], units: Units, notes: _Footnotes | None) -> Table:
    """Return one row for each material: the numbers it is chosen by, the least sure status, with notes the sources."""
    columns = materials[0].columns
    table = Table(box=None, pad_edge=False, row_styles=("", "dim"))
    table.add_column("name", ratio=1)
    for _, heading, _ in columns:
        table.add_column(heading, justify="right", no_wrap=True)
    table.add_column("status", max_width=11)
    if notes:
        table.add_column("sources", max_width=9)
    for material in materials:
        values = [_stack(getattr(material, name), dimension, units) for name, _, dimension in columns]
        cells = [*values, show_basis(find_weakest_status(material, [name for name, _, _ in columns]))]
        if notes:
            origins = dict.fromkeys(origin.source for origin in material.provenance.values())
            cells.append(" ".join(map(notes.number, origins)))
        table.add_row(Text(material.name), *map(Text, cells))
    return table


def _list_values(category: str, material: Material, library: Library, units: Units, notes: _Footnotes) -> Table:
    """Return one row for each number of a material."""
    table = Table(box=None, pad_edge=False)
    for heading in ("quantity", "value", "likely range", "as written", "status", "source"):
        table.add_column(heading, justify="right" if heading == "value" else "left")
    systems = list_systems(units)
    details = [library.details(category, material.name, system).rows for system in systems]
    for rows in zip(*details, strict=True):
        quantity, _, _, written, status, source, note = rows[0]
        value, limits = ("\n".join(dict.fromkeys(row[place] for row in rows)) for place in (1, 2))
        number = notes.number(f"{source}; {note}" if note else source)
        table.add_row(*map(Text, (quantity, value, limits, written, show_basis(status), number)))
    return table


def _stack(value: float | None, dimension: str, units: Units) -> str:
    """Return a value in the units asked for, one below the other."""
    if value is None:
        return "not known"
    return show_quantity(value, dimension, units).replace(" (", "\n").rstrip(")")
