"""How many threads linear algebra runs on while a structure is solved."""

from contextlib import AbstractContextManager
from functools import cache

from threadpoolctl import ThreadpoolController


@cache
def _find_libraries() -> ThreadpoolController:
    """Return what is known of the loaded libraries: looking for them takes some milliseconds."""
    return ThreadpoolController()


def use_one_thread() -> AbstractContextManager[object]:
    """Return a context in which BLAS has one thread.

    Vectors of a structure are short: further threads wait for each other, which on a busy machine costs twice the CPU
    time and on an idle one saves nothing.
    """
    limited: AbstractContextManager[object] = _find_libraries().limit(limits=1, user_api="blas")
    return limited
