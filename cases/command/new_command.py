"""The command that writes a design to start from."""

from pathlib import Path

import click

from .option import FILE


@click.command()
@click.argument("path", type=FILE, default=Path("my_hammock.toml"))
@click.option("--force", is_flag=True, help="Replace the file if it is there already.")
def new(path: Path, *, force: bool) -> None:
    """Write a commented design to start from to PATH (left out: my_hammock.toml)."""
    from ..new_design import write_starter

    click.echo(f"Written to {write_starter(path, force=force)}")
