"""Views drawn by OpenGL, without a window, as images that fit the axes of a sheet."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..cases.storage.shape import Shape
from .camera import Camera
from .flesh import make_skin
from .graphics import DisplayKind, use_screen
from .look import ColourScheme
from .scene import add_cloth, add_lines, add_person
from .viewpoint import Viewpoint

_AWAY = 10.0  # m from the hammock; the projection is parallel, so that it does not matter
_LAYERS = 6  # of what can be seen through


class Renderer:
    """Draws views of one shape.

    Parameters
    ----------
    shape : Shape
        Deformed hammock.
    screen : {"display", "egl", "osmesa"}
        By which way; a process keeps to the first.
    """

    def __init__(self, shape: Shape, screen: DisplayKind) -> None:
        use_screen(screen)
        self.skin = make_skin(shape)

    def draw(self, axes: Any, view: Viewpoint, look: ColourScheme, dots: int) -> None:  # noqa: ANN401
        """Draw cloth, cords, bars and person as an image under everything else.

        Parameters
        ----------
        axes : matplotlib Axes
            Where to draw; limits are set.
        view : Viewpoint
            From where.
        look : ColourScheme
            What the colours mean.
        dots : int
            Of the sheet, per inch.
        """
        box, sheet = axes.get_position(), axes.figure.get_size_inches()
        size = (round(box.width * sheet[0] * dots), round(box.height * sheet[1] * dots))
        limits = (*axes.get_xlim(), *axes.get_ylim())
        point = (limits[1] - limits[0]) / size[0] * dots / 72  # m
        axes.imshow(self._render(view, look, limits, size, point), extent=limits, aspect="auto", zorder=2)

    def _render(
        self, view: Viewpoint, look: ColourScheme, limits: tuple[float, ...], size: tuple[int, int], point: float
    ) -> NDArray[np.uint8]:
        """Return red, green, blue and opacity (rows, columns, 4)."""
        import pyvista

        plotter = pyvista.Plotter(off_screen=True, window_size=list(size))
        try:
            plotter.enable_anti_aliasing("ssaa")
            plotter.enable_depth_peeling(_LAYERS)
            add_cloth(plotter, view.shape, look)
            add_lines(plotter, view.shape, look, point)
            add_person(plotter, self.skin)
            aim_plotter(plotter, view.camera, limits)
            image: NDArray[np.uint8] = plotter.screenshot(None, return_img=True, transparent_background=True)
            return image
        finally:
            plotter.close()


def aim_plotter(plotter: Any, camera: Camera, limits: tuple[float, ...]) -> None:  # noqa: ANN401
    """Let a plotter show what lies within limits (left, right, bottom, top), m, in the plane of the picture."""
    left, right, bottom, top = limits
    focus = camera.right * (left + right) / 2 + camera.top * (bottom + top) / 2
    plotter.camera.focal_point = focus
    plotter.camera.position = focus + _AWAY * camera.eye
    plotter.camera.up = camera.top
    plotter.enable_parallel_projection()
    plotter.camera.parallel_scale = (top - bottom) / 2
    plotter.renderer.ResetCameraClippingRange()
