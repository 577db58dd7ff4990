"""What became of a design of a sweep, in words."""

from ..sweep.sweep_row import Row, Status

_TOLD = 2  # checks of a design that are not met


def tell_verdict(row: Row) -> str:
    """Return what governs a design that holds, and why any other does not.

    Examples
    --------
    >>> tell_verdict(Row(1, {}, Status.SOLVED, governs="foot bar buckles", failed=("foot bar buckles",)))
    'NOT ENOUGH: foot bar buckles'
    >>> tell_verdict(Row(1, {}, Status.NO_REST, "the person slid out."))
    'NO REST: the person slid out.'
    """
    verdict = "ok;" if row.holds else "NOT ENOUGH:" if row.status is Status.SOLVED else f"{row.status.upper()}:"
    return f"{verdict} {tell_reason(row)}"


def tell_reason(row: Row) -> str:
    """Return what governs a design that holds, what fails first of one that does not, why it is not solved.

    Examples
    --------
    >>> tell_reason(Row(1, {}, Status.SOLVED, governs="foot bar buckles"))
    'foot bar buckles'
    """
    if row.status is not Status.SOLVED:
        return row.reason
    failed = list(dict.fromkeys(row.failed))  # both ends of a line may fail alike
    more = [f"and {len(failed) - _TOLD} more"] if len(failed) > _TOLD else []
    return "; ".join([*failed[:_TOLD], *more]) or row.governs or "nothing was checked"
