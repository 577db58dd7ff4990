"""Public names of a package that are loaded when first used, its version, and the names it had before."""

import warnings
from collections.abc import Callable, Mapping
from importlib.metadata import version
from typing import Any

import lazy_loader


def attach_names(
    package: str, file: str, renamed: Mapping[str, str]
) -> tuple[Callable[[str], Any], Callable[[], list[str]], list[str]]:
    """Return ``__getattr__``, ``__dir__`` and ``__all__`` of a package whose public names stand in its ``.pyi`` file.

    Parameters
    ----------
    package, file : str
        Its ``__name__`` and ``__file__``.
    renamed : mapping of str to str
        The new name by the old one. An old name still works, with a DeprecationWarning that tells the new one; it
        is not listed.

    Returns
    -------
    tuple of callable, callable, list of str
        For the module to take.

    Examples
    --------
    >>> import tautlay.cases
    >>> "Row" in dir(tautlay.cases), "SweepRow" in dir(tautlay.cases)
    (False, True)
    """
    load, list_names, public = lazy_loader.attach_stub(package, file)

    def find_name(name: str) -> Any:  # noqa: ANN401
        if name == "__version__":
            return version("tautlay")
        if name not in renamed:
            return load(name)
        warnings.warn(f"{package}.{name} is now called {renamed[name]}.", DeprecationWarning, stacklevel=2)
        return load(renamed[name])

    return find_name, list_names, public
