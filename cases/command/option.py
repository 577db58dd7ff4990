"""What commands have in common: options, each made from the one list of what can be named."""

from pathlib import Path

import click

from ...hammock.load_case import LoadCase
from ..unit_display import UNIT_SYSTEMS

FILE = click.Path(path_type=Path)
LOADS = click.Choice([case.value for case in LoadCase])
UNITS = click.Choice(UNIT_SYSTEMS)
FORCE = click.option("--force", is_flag=True, help="Replace files even if tautlay did not write them.")


def parse_option(text: str, dimension: str, plausible: str | None, ctx: click.Context, param: click.Parameter) -> float:
    """Return a quantity given as an option, SI.

    Parameters
    ----------
    text : str
        Number and unit.
    dimension, plausible : str, str or None
        As for ``materials.parse_quantity``.
    ctx, param : click.Context, click.Parameter
        Whose option it is.

    Raises
    ------
    click.BadParameter
        For text that is not such a quantity; the message says why.
    """
    from ...materials import QuantityError, parse_quantity

    try:
        return parse_quantity(text, dimension, plausible)
    except QuantityError as error:
        raise click.BadParameter(str(error), ctx, param) from None
