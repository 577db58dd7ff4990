"""Whether, and by which way, three-dimensional pictures can be made here.

Without a usable OpenGL library VTK ends the whole process, which no ``try`` can catch. So a child process tries first.
"""

import os
import subprocess
import sys
from functools import cache
from typing import Literal

from ..cases.design_issue import InputError

DisplayKind = Literal["display", "egl", "osmesa", "none"]
FORCED = "TAUTLAY_SCREEN"  # environment variable that answers instead of the probe
_CLASS = "VTK_DEFAULT_OPENGL_WINDOW"  # environment variable by which VTK chooses
_WINDOWS: dict[DisplayKind, str] = {
    "display": "vtkXOpenGLRenderWindow",
    "egl": "vtkEGLRenderWindow",
    "osmesa": "vtkOSOpenGLRenderWindow",
}
_PATIENCE = 60.0  # s; a child that takes longer hangs
_TRIAL = """
import pyvista
plotter = pyvista.Plotter(off_screen=True, window_size=(8, 8))
plotter.background_color = "red"
image = plotter.screenshot(None, return_img=True)
assert image.shape == (8, 8, 3) and (image == [255, 0, 0]).all()
print("drawn")
"""


class DisplayError(InputError):
    """What was asked for cannot be shown here; the message is one sentence."""


def find_screen(*, window: bool = False) -> DisplayKind:
    """Return the first way that draws eight by eight red dots in a child process; the answer is kept.

    The environment variable ``TAUTLAY_SCREEN`` set to ``display``, ``egl``, ``osmesa`` or ``none`` answers instead.

    Parameters
    ----------
    window : bool
        Whether a window is wanted, which needs a display.

    Returns
    -------
    {"display", "egl", "osmesa", "none"}
        ``"none"`` if nothing draws.

    Raises
    ------
    DisplayError
        If ``TAUTLAY_SCREEN`` says anything else.

    Examples
    --------
    >>> find_screen() in ("display", "egl", "osmesa", "none")
    True
    """
    forced = os.environ.get(FORCED)
    if forced is not None:
        if forced not in (*_WINDOWS, "none"):
            raise DisplayError(f"{FORCED} = {forced!r} is not a display. Choose {', '.join(_WINDOWS)} or none.")
        return forced if forced == "display" or not window else "none"
    return _probe(("display",) if window else ("egl", "osmesa", "display"))


@cache
def _probe(ways: tuple[DisplayKind, ...]) -> DisplayKind:
    """Return the first way that draws."""
    return next((way for way in ways if _draws(way)), "none")


def _draws(way: DisplayKind) -> bool:
    """Return whether a child process can draw this way."""
    if way == "display" and _needs_display() and not os.environ.get("DISPLAY"):
        return False
    if way != "display" and not _needs_display():
        return False  # Windows and macOS know only their own
    try:
        child = subprocess.run(
            [sys.executable, "-c", _TRIAL],
            env=os.environ | _choose(way),
            capture_output=True,
            timeout=_PATIENCE,
            check=False,
        )
    except (OSError, subprocess.TimeoutExpired):
        return False
    return child.returncode == 0 and child.stdout.strip().endswith(b"drawn")


def use_screen(way: DisplayKind) -> None:
    """Let VTK take the way that was found, before the first plotter of this process."""
    os.environ.update(_choose(way))


def _choose(way: DisplayKind) -> dict[str, str]:
    """Return the environment that makes VTK take one way."""
    return {_CLASS: _WINDOWS[way]} if _needs_display() else {}


def _needs_display() -> bool:
    """Return whether windows of this system come from an X server."""
    return sys.platform not in ("win32", "darwin")
