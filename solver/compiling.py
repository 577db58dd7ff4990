"""The one way in which loops are compiled."""

import os
import warnings
from collections.abc import Callable
from errno import EINVAL
from typing import TypeVar, cast

try:
    with warnings.catch_warnings():
        warnings.filterwarnings("error", "Environment variable", RuntimeWarning)
        import numba
except (ValueError, RuntimeWarning) as error:
    settings = [f"{name}={value}" for name, value in sorted(os.environ.items()) if name.startswith("NUMBA_")]
    if not settings:
        raise
    raise OSError(
        EINVAL,
        f"numba, which compiles the loops of the solver, does not start with {' '.join(settings)} in the environment: "
        f"{str(error).split(chr(10))[0].rstrip('.')}. Unset what is wrong there",
    ) from None

from .kernel_cache import KernelCache

Kernel = TypeVar("Kernel", bound=Callable[..., object])


def compiled(function: Kernel) -> Kernel:
    """Return a loop that is compiled when first called and then kept on disk; for callers its type stays as written.

    A compiled loop takes numbers, arrays and named tuples of them, six at most. No loop is handed to another one as
    an argument: each process would compile it anew.
    """
    loop = numba.njit(function)
    if loop is not function:  # unless NUMBA_DISABLE_JIT is set
        loop._cache = KernelCache(function)  # numba offers no other way to put a cache of one's own in place of its own
    return cast(Kernel, loop)
