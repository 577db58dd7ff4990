"""What is told in one line while a study is at work."""

from collections.abc import Callable

from ..solving.mesh_sequence import CaseProgress, MeshCallback

LineCallback = Callable[[str], None]


def tell_residual(report: LineCallback | None, line: str) -> MeshCallback:
    """Return a listener of a solve that tells a line with the residual after each step.

    Parameters
    ----------
    report : callable or None
        Receives it; None hears nothing.
    line : str
        What is solved.
    """

    def listen(news: CaseProgress) -> None:
        if report is not None:
            report(f"{line}, residual {news.step.residual:.0e}")

    return listen
