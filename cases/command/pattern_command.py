"""The command that writes the cutting pattern of a design."""

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .exit_codes import CHECK_FAILED
from .option import FILE, UNITS, parse_option
from .say import say

if TYPE_CHECKING:
    from ...cutting.drawing.paper import Paper
    from ..design import Design
    from ..result import Result
    from ..storage.stored_result import StoredResult
    from ..unit_display import Units

_NARROWEST, _WIDEST = 0.5, 5.0  # m, of cloth


def read_width(ctx: click.Context, param: click.Parameter, text: str | None) -> float | None:
    """Return the width of the cloth, m; what cannot be read is bad usage."""
    width = None if text is None else parse_option(text, "length", None, ctx, param)
    if width is not None and not _NARROWEST <= width <= _WIDEST:
        raise click.BadParameter("cloth must be between 50 cm and 5 m wide.", ctx, param)
    return width


def read_paper(ctx: click.Context, param: click.Parameter, text: str) -> "Paper":
    """Return the paper; a name that is not known is bad usage."""
    from ...cutting.drawing.paper import find_paper
    from ...materials import QuantityError

    try:
        return find_paper(text)
    except (ValueError, QuantityError) as error:
        raise click.BadParameter(str(error), ctx, param) from None


def _read_solved(folder: Path) -> "StoredResult":
    """Return the result in a folder; what reads it is slow to load."""
    from ..storage.stored_result import read_result

    return read_result(folder)


def _solve(plan: "Design", *, quiet: bool) -> "Result":
    """Return the design solved under the load that it names, for the line of the cloth under its bars."""
    from ..solving.no_equilibrium import NoEquilibriumError
    from ..solving.solution import solve_equilibrium
    from .progress import show_progress

    if not quiet:
        say(f"Solving {plan.name} under the load {plan.load}: its extensions are cut to the line of the loaded cloth.")
    try:
        with show_progress(not quiet) as listener:
            return solve_equilibrium(plan, hot_spots=False, progress=listener)
    except NoEquilibriumError as error:
        raise NoEquilibriumError(f"{plan.path}: {error} With --estimate nothing is solved.") from None


@click.command()
@click.argument("design", type=FILE)
@click.option("--output", "-o", type=FILE, help="Folder for the pattern; default: patterns/DESIGN.")
@click.option(
    "--paper", default="a4", callback=read_paper, metavar="PAPER",
    help='Of sheets.pdf: a4, letter, a3, a0 or a roll such as "36 in roll".',
)  # fmt: skip
@click.option("--half/--full", default=True, help="On paper, even pieces half on the fold (default) or whole.")
@click.option(
    "--cloth-width", callback=read_width, metavar="LENGTH",
    help="Cuttable width of the cloth; default: from the design. A wider body is seamed.",
)  # fmt: skip
@click.option("--nest", is_flag=True, help="Look for a tighter lay, each piece in the gaps of others; takes seconds.")
@click.option("--only", multiple=True, metavar="PIECE", help="Print only this piece on paper; may be repeated.")
@click.option(
    "--solved", type=FILE,
    help="Result folder of the design: extensions follow its cloth, a wide body is seamed where the pull is least.",
)  # fmt: skip
@click.option(
    "--estimate", is_flag=True, help="Estimate the line of the cloth under a bar that is set in; solve nothing."
)
@click.option("--units", type=UNITS, help="Units of words and tables; default: from the design.")
@click.option("--quiet", "-q", is_flag=True, help="Print nothing but errors.")
@click.option("--strict", is_flag=True, help="End with exit code 1 if the pattern must not be cut as it is.")
@click.option("--no-page", is_flag=True, help="Write no page.")
@click.pass_context
def pattern(
    ctx: click.Context,
    design: Path,
    *,
    output: Path | None,
    paper: "Paper",
    half: bool,
    cloth_width: float | None,
    nest: bool,
    only: tuple[str, ...],
    solved: Path | None,
    estimate: bool,
    units: "Units | None",
    quiet: bool,
    strict: bool,
    no_page: bool,
) -> None:
    """Write the cutting pattern of DESIGN.

    Pieces at true size as DXF, SVG and PDF, sheets to print at home, how they lie on the cloth, a cut list, and
    pattern.html: what to buy, to cut and to sew. Cloth beyond a bar that is set in is cut to the line of the loaded
    cloth, for which DESIGN is solved; without such a bar nothing is solved.
    """
    if estimate and solved is not None:
        raise click.UsageError("--estimate and --solved exclude each other. Leave one out.", ctx)
    from dataclasses import replace

    from rich.console import Console

    from ..design import read_design
    from ..patterns.pattern import draft_pattern
    from ..storage.result_folder import PATTERN, check_folder
    from .pattern_page import draw_page
    from .printing.pattern_table import print_pattern

    plan = read_design(design)
    plan = replace(plan, units=units or plan.units)
    folder = output or Path("patterns") / design.stem
    check_folder(folder, PATTERN, inputs=plan.files)
    draft = partial(draft_pattern, plan, cloth_width=cloth_width, nested=nest)
    result: Result | StoredResult | None = None if solved is None else _read_solved(solved)
    if plan.hammock.is_estimated and result is None and not estimate:
        if only:  # a piece of an unknown name is refused before anything is solved
            draft().choose_printed(only)
        result = _solve(plan, quiet=quiet)
    drafted = draft(result)
    drafted.save(folder, paper=paper, half=half, only=only, draw=None if no_page else partial(draw_page, drafted))
    if not quiet:
        print_pattern(drafted, Console(highlight=False))
        say(f"Written to {folder}" + ("" if no_page else f"; begin with {folder / 'pattern.html'}"))
    if strict and any(note.fails for note in drafted.check()):
        ctx.exit(CHECK_FAILED)
