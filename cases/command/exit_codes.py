"""Exit codes of the commands, and the message for each error."""

DONE, CHECK_FAILED, BAD_INPUT, NO_EQUILIBRIUM, CRASHED, INTERRUPTED = 0, 1, 2, 3, 4, 130
STOPPED = "Stopped; no file was left half-written."


def explain_error(error: Exception) -> tuple[int, str] | None:
    """Return exit code and message, or None for an error of the program itself.

    Parameters
    ----------
    error : Exception
        Raised by a command.

    Returns
    -------
    tuple of int and str, or None
        Code and one message for each issue.

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
        return BAD_INPUT, f"{error}\n{count} {'error' if count == 1 else 'errors'}."
    if isinstance(error, InputError | MaterialError | QuantityError):
        return BAD_INPUT, str(error)
    if isinstance(error, MemoryError):
        return BAD_INPUT, "There is not enough memory. Choose a coarser mesh, or fewer processes."
    if isinstance(error, OSError):
        place = f"{error.filename}: " if error.filename else ""
        return BAD_INPUT, f"{place}{error.strerror or error}."
    return None
