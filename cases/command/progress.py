"""Progress on a terminal while a design is being solved."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..solving.mesh_sequence import CaseProgress, MeshCallback


@contextmanager
def show_progress(wanted: bool) -> "Iterator[MeshCallback | None]":
    """Give a listener that keeps one line of the terminal up to date, or None where there is no terminal.

    Parameters
    ----------
    wanted : bool
        Whether the user wants to see progress; a pipe gets none in any case.

    Yields
    ------
    callable or None
        Receives each iterate.

    Examples
    --------
    >>> with show_progress(False) as listener:
    ...     print(listener)
    None
    """
    with show_line(wanted, "reading the mesh") as write:
        if write is None:
            yield None
            return

        def show(news: "CaseProgress") -> None:
            step = news.step
            write(
                f"mesh {news.stage} of {news.stages}, {news.triangles} triangles: "
                f"step {step.iteration}, residual {step.residual:.0e}"
            )

        yield show


@contextmanager
def show_line(wanted: bool, first: str = "") -> Iterator[Callable[[str], None] | None]:
    """Give a function that rewrites one line of the terminal, or None where there is no terminal.

    Parameters
    ----------
    wanted : bool
        Whether the user wants to see progress; a pipe gets none in any case.
    first : str
        First text of the line.

    Yields
    ------
    callable or None
        Receives the text.

    Examples
    --------
    >>> with show_line(False) as write:
    ...     print(write)
    None
    """
    from rich.console import Console
    from rich.progress import Progress, SpinnerColumn, TextColumn, TimeElapsedColumn

    console = Console(stderr=True)
    if not wanted or not console.is_terminal:
        yield None
        return
    columns = (SpinnerColumn(), TextColumn("{task.description}", markup=False), TimeElapsedColumn())
    with Progress(*columns, console=console, transient=True) as bar:
        task = bar.add_task(first)
        yield lambda text: bar.update(task, description=text)
