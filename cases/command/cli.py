"""The command line ``tautlay``. Everything heavy is imported where it is used: the help must be fast."""

from typing import Any

import click

from .check_command import check
from .choose_command import choose
from .draw_command import draw
from .exit_codes import INTERRUPTED, STOPPED, explain_error
from .fit_command import fit
from .hang_command import hang
from .judge_command import judge
from .lighten_command import lighten
from .materials_command import materials
from .morning_command import morning
from .new_command import new
from .pattern_command import pattern
from .rank_command import rank
from .report_command import report
from .say import escape_lines, say
from .sit_command import sit
from .solve_command import solve
from .sweep_command import sweep
from .tip_command import tip
from .trial_command import trial
from .trim_command import trim
from .view_command import view
from .weigh_command import weigh

# To add a command, write a module with it and put it here.
COMMANDS = (
    check,
    choose,
    draw,
    fit,
    hang,
    judge,
    lighten,
    materials,
    morning,
    new,
    pattern,
    rank,
    report,
    sit,
    solve,
    sweep,
    tip,
    trial,
    trim,
    view,
    weigh,
)


class Commands(click.Group):
    """A group whose commands end with a sentence and an exit code instead of a traceback."""

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401
        """Run a command; an error that is not caused by the user is left to whoever calls."""
        try:
            return super().invoke(ctx)
        except KeyboardInterrupt:
            click.echo(STOPPED, err=True)
            ctx.exit(INTERRUPTED)
        except click.UsageError as error:
            raise click.UsageError(escape_lines(error.format_message()), error.ctx) from None
        except (click.ClickException, click.exceptions.Exit, click.Abort, BrokenPipeError):
            raise  # the last one is not reported: the reader of the output is gone
        except Exception as error:
            known = explain_error(error)
            if known is None:
                raise
            code, sentence = known
            say(sentence, err=True)
            ctx.exit(code)


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="tautlay")
def main() -> None:
    """Compute the loaded shape and the forces of a bridge hammock before the cloth is cut.

    Start with new, check and solve; then judge, hang, weigh and pattern.

    Exit codes, for scripts: 0 done; 1 a check failed and --strict was given; 2 bad input; 3 no shape found in which it
    hangs still; 4 an error of the program itself; 130 stopped by Ctrl-C.
    """


for command in COMMANDS:
    main.add_command(command)
