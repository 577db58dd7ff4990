"""The verdict on a design of a sweep, in words."""

from ..sweep.sweep_row import RowStatus, SweepRow, write_pass

_SHOWN = 2  # failed checks of a design


_VERDICTS = {
    RowStatus.SOLVED: "FAIL",
    RowStatus.REFUSED: "INVALID",
    RowStatus.NO_REST: "NO EQUILIBRIUM",
    RowStatus.BROKEN: "CRASHED",
    RowStatus.LOST: "ABANDONED",
    RowStatus.OPEN: "NOT SOLVED",
}


def format_verdict(row: SweepRow) -> str:
    """Return what governs a design that passes, and why any other does not.

    Examples
    --------
    >>> format_verdict(SweepRow(1, {}, RowStatus.SOLVED, governs="foot bar buckles", failed=("foot bar buckles",)))
    'FAIL: foot bar buckles'
    >>> format_verdict(SweepRow(1, {}, RowStatus.NO_REST, "the person slid out."))
    'NO EQUILIBRIUM: the person slid out.'
    """
    verdict = f"{write_pass([row])};" if row.holds else f"{_VERDICTS[row.status]}:"
    return f"{verdict} {format_reason(row)}"


def format_reason(row: SweepRow) -> str:
    """Return the governing check of a design that passes, the failed checks, or why it is not solved.

    Examples
    --------
    >>> format_reason(SweepRow(1, {}, RowStatus.SOLVED, governs="foot bar buckles"))
    'foot bar buckles'
    """
    if row.status is not RowStatus.SOLVED:
        return row.reason
    failed = list(dict.fromkeys(row.failed))  # both ends of a line may fail alike
    more = [f"and {len(failed) - _SHOWN} more"] if len(failed) > _SHOWN else []
    return "; ".join([*failed[:_SHOWN], *more]) or row.governs or "nothing was checked"
