"""How a command ends: the exit code and the words for each way it can go wrong."""

DONE, CHECK_FAILED, BAD_INPUT, NO_EQUILIBRIUM, INTERRUPTED = 0, 1, 2, 3, 130
STOPPED = "Stopped; no file was left half-written."


def explain_error(error: Exception) -> tuple[int, str] | None:
    """Return the exit code and what to tell the user, or None for an error that is a fault of the program.

    Parameters
    ----------
    error : Exception
        What a command raised.

    Returns
    -------
    tuple of int and str, or None
        Code and one sentence for each fault.

    Examples
    --------
    >>> explain_error(FileNotFoundError(2, "No such file or directory", "a.toml"))
    (2, 'a.toml: No such file or directory.')
    """
    from ...materials import MaterialError, QuantityError
    from ..design_issue import DesignError, InputError
    from ..solving.no_equilibrium import NoEquilibriumError

    if isinstance(error, NoEquilibriumError):
        return NO_EQUILIBRIUM, str(error)
    if isinstance(error, DesignError):
        count = len(error.faults)
        return BAD_INPUT, f"{error}\n{count} {'fault' if count == 1 else 'faults'} found."
    if isinstance(error, InputError | MaterialError | QuantityError):
        return BAD_INPUT, str(error)
    if isinstance(error, OSError):
        place = f"{error.filename}: " if error.filename else ""
        return BAD_INPUT, f"{place}{error.strerror or error}."
    return None
