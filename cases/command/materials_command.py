"""The command that lists the material library."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from ...materials import CATEGORIES
from .option import FILE, UNITS

if TYPE_CHECKING:
    from ..unit_display import Units


# What makers call some of the categories.
_SYNONYMS = {"cloth": "fabric", "rope": "cord", "line": "cord", "strap": "webbing", "pole": "tube", "bar": "tube"}


class _Category(click.Choice[str]):
    """A category of the library, by its name or by another word for it, in the singular or the plural."""

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Return the name of the category."""
        singular = value.lower().removesuffix("s")
        name = _SYNONYMS.get(singular, singular)
        return super().convert(name if name in self.choices else value, param, ctx)


@click.command()
@click.argument("category", type=_Category(list(CATEGORIES)), required=False)
@click.option("--find", help="Only entries with this text in name or kind.")
@click.option("--sources", is_flag=True, help="With the source of every value; of a single entry always.")
@click.option("--units", type=UNITS, default="both", show_default=True, help="Units of the list.")
@click.option("--file", "files", type=FILE, multiple=True, help="Your own file of materials; may be repeated.")
def materials(
    category: str | None, *, find: str | None, sources: bool, units: "Units", files: tuple[Path, ...]
) -> None:
    """List the material library and its sources.

    Status of a value: checked in the source, secondary source, derived, or unverified.
    """
    from rich.console import Console

    from ...materials import read_library
    from .printing.material_table import print_categories, print_materials

    library, console = read_library(*files), Console(highlight=False)
    if category is None and find is None:
        print_categories(library, console)
        return
    found = {name: library.select(name, text=find) for name in ([category] if category else CATEGORIES)}
    if not any(found.values()):
        raise click.UsageError(f"nothing in the library matches {find!r}. `tautlay materials` lists all categories.")
    for name, entries in found.items():
        if entries:
            print_materials(name, entries, library, units, console, sources=sources)
