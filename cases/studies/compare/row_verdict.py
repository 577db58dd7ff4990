"""What became of a design of a sweep, in words."""

from ..sweep.sweep_row import RowStatus, SweepRow

_TOLD = 2  # checks of a design that are not met


def format_verdict(row: SweepRow) -> str:
    """Return what governs a design that holds, and why any other does not.

    Examples
    --------
    >>> format_verdict(SweepRow(1, {}, RowStatus.SOLVED, governs="foot bar buckles", failed=("foot bar buckles",)))
    'NOT ENOUGH: foot bar buckles'
    >>> format_verdict(SweepRow(1, {}, RowStatus.NO_REST, "the person slid out."))
    'NO REST: the person slid out.'
    """
    verdict = "ok;" if row.holds else "NOT ENOUGH:" if row.status is RowStatus.SOLVED else f"{row.status.upper()}:"
    return f"{verdict} {format_reason(row)}"


def format_reason(row: SweepRow) -> str:
    """Return what governs a design that holds, what fails first of one that does not, why it is not solved.

    Examples
    --------
    >>> format_reason(SweepRow(1, {}, RowStatus.SOLVED, governs="foot bar buckles"))
    'foot bar buckles'
    """
    if row.status is not RowStatus.SOLVED:
        return row.reason
    failed = list(dict.fromkeys(row.failed))  # both ends of a line may fail alike
    more = [f"and {len(failed) - _TOLD} more"] if len(failed) > _TOLD else []
    return "; ".join([*failed[:_TOLD], *more]) or row.governs or "nothing was checked"
