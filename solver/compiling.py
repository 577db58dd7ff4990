"""The one way in which loops are compiled."""

from collections.abc import Callable
from typing import TypeVar, cast

import numba

Kernel = TypeVar("Kernel", bound=Callable[..., object])


def compiled(function: Kernel) -> Kernel:
    """Return a loop that is compiled when first called and then kept on disk; for callers its type stays as written.

    A compiled loop takes numbers, arrays and named tuples of them, six at most. No loop is handed to another one as
    an argument: each process would compile it anew.
    """
    return cast(Kernel, numba.njit(cache=True)(function))
