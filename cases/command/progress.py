"""What a terminal shows while a design is being solved."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..solving.mesh_sequence import CaseProgress, MeshCallback


@contextmanager
def show_progress(wanted: bool) -> "Iterator[MeshCallback | None]":
    """Give a listener that keeps one line on the terminal up to date, or None where nobody watches.

    Parameters
    ----------
    wanted : bool
        Whether the user wants to see progress; a pipe gets none in any case.

    Yields
    ------
    callable or None
        To be told each step.

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

        def tell(news: "CaseProgress") -> None:
            step = news.step
            write(
                f"mesh {news.stage} of {news.stages}, {news.triangles} triangles: "
                f"step {step.iteration}, residual {step.residual:.0e}"
            )

        yield tell


@contextmanager
def show_line(wanted: bool, first: str = "") -> Iterator[Callable[[str], None] | None]:
    """Give what writes one line on the terminal anew, or None where nobody watches.

    Parameters
    ----------
    wanted : bool
        Whether the user wants to see progress; a pipe gets none in any case.
    first : str
        What the line says before anything is told.

    Yields
    ------
    callable or None
        To be told the text.

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
