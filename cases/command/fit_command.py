"""The command that finds stiffnesses from what was measured."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from .option import FILE, FORCE, UNITS
from .say import say

if TYPE_CHECKING:
    from ..studies.fit.stiffness_fit import StiffnessFit
    from ..unit_display import Units


@click.command()
@click.argument("design", type=FILE)
@click.argument("measured", type=FILE)
@click.option("--output", "-o", type=FILE, help="File of materials to write; default: DESIGN_fitted.toml.")
@click.option("--json", "json_file", type=FILE, help="Also write everything that was found to this file.")
@FORCE
@click.option("--units", type=UNITS, help="Units of the table; default: from the design.")
@click.option("--quiet", "-q", is_flag=True, help="Print nothing but errors.")
def fit(
    design: Path,
    measured: Path,
    *,
    output: Path | None,
    json_file: Path | None,
    force: bool,
    units: "Units | None",
    quiet: bool,
) -> None:
    """Find cloth and cord stiffness of DESIGN from what was MEASURED.

    MEASURED holds what a trial showed (`tautlay trial`), strips of cloth that were pulled, pieces of cord. Says how
    well each stiffness is told, what is not told at all, and what to measure next; writes a file of materials.
    """
    from ..design import read_design
    from ..solving.no_equilibrium import name_file
    from ..storage.output_file import FIT, MATERIALS, check_outputs
    from ..studies.fit.measured_file import read_measured
    from ..studies.fit.stiffness_fit import fit_stiffness
    from .progress import show_line

    plan = read_design(design)
    form = read_measured(measured, plan)
    file = output or Path(f"{design.stem}_fitted.toml")
    check_outputs(((json_file, FIT), (file, MATERIALS)), (*plan.files, measured), force=force)
    with show_line(not quiet, "reading the mesh") as write, name_file(measured):
        found = fit_stiffness(plan, form, report=write)
    if not quiet:
        from rich.console import Console

        from .printing.fit_table import print_fit

        print_fit(found, units or plan.units, Console(highlight=False))
    _write(found, measured, file, json_file)


def _write(found: "StiffnessFit", measured: Path, file: Path, json_file: Path | None) -> None:
    """Write the files."""
    from ...materials import escape_text
    from ..storage.atomic import write_json, write_text
    from ..storage.codec import encode
    from ..studies.fit.fit_record import record_fit
    from ..studies.fit.fitted_materials import write_materials

    if json_file is not None:
        header = {"name": found.design.name, "file": found.design.file_name}
        write_json(json_file, {"design": header, **encode(record_fit(found))})
        say(f"Written to {json_file}")
    if all(each.told == "not" for each in found.stiffnesses):
        say("No file of materials is written: these measurements tell no stiffness.")
        return
    write_text(file, write_materials(found, escape_text(measured.name)))
    say(f"Written to {file}")
