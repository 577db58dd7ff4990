"""The command that writes a starter design."""

from pathlib import Path
from shlex import quote

import click

from .option import FILE
from .say import say


@click.command()
@click.argument("path", type=FILE, default=Path("my_hammock.toml"))
@click.option("--all", "every_setting", is_flag=True, help="With every setting there is, unused ones as comments.")
@click.option(
    "--units", type=click.Choice(["metric", "imperial"]), default="metric", help="Of its sizes; default: metric."
)
@click.option("--force", is_flag=True, help="Replace an existing file.")
def new(path: Path, *, every_setting: bool, units: str, force: bool) -> None:
    """Write a commented starter design to PATH.

    Default: my_hammock.toml.
    """
    from ..new_design import write_starter

    written = write_starter(path, every_setting=every_setting, imperial=units == "imperial", force=force)
    say(f"Written to {written}. Change it to your sizes, then: tautlay check {quote(str(written))}")
