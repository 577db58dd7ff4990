"""Pictures and pages of results, and the window in which they are seen. Reads what cases wrote, computes no mechanics.

Names are loaded when first used: drawing libraries take a second to import.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .album import draw_album
    from .exhibit import show
    from .fold import draw_fold
    from .graphics import ScreenError
    from .picture import draw_shape
    from .report import write_comparison, write_report
    from .sweep_page import write_sweep_page

_HOMES = {
    "ScreenError": ".graphics",
    "draw_album": ".album",
    "draw_fold": ".fold",
    "draw_shape": ".picture",
    "show": ".exhibit",
    "write_comparison": ".report",
    "write_report": ".report",
    "write_sweep_page": ".sweep_page",
}
__all__ = [
    "ScreenError",
    "draw_album",
    "draw_fold",
    "draw_shape",
    "show",
    "write_comparison",
    "write_report",
    "write_sweep_page",
]


def __getattr__(name: str) -> Any:  # noqa: ANN401
    """Return a public name from the module that holds it."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(_HOMES[name], __name__), name)
