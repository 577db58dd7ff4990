"""The hammock in three dimensions: what a plotter shows. Each thing has a name; to add it again replaces it."""

from typing import Any

import numpy as np

from ..cases.judging.cloth.hot_spot import HotSpot
from ..cases.storage.shape import BARS, FloatArray, IntegerArray, Shape
from .ghost import GHOST_COLOUR, UnloadedShape, find_rim
from .hatching import place_marks
from .look import (
    BAR,
    BAR_COLOUR,
    DARK,
    KNOB,
    LIGHT,
    POINT,
    ColourScheme,
    paint_bars,
    paint_cloth,
    paint_cords,
    widen_cords,
)
from .person import FLESH_COLOUR
from .spots import SPOT_COLOUR
from .view import GROUND_COLOUR, TREE_COLOUR, find_trees, find_trunks

DOT = 0.011  # m, radius
MARK_LIFT = 0.003  # m, of marks above either face of the cloth
SHINE, FRONT = 0.30, 0.80  # opacity of the person through everything, and where nothing is in front
_THROUGH = -20000.0  # offset of depth by which the person shines through cloth, units of VTK: some 1.5 m
_EDGE = 0.12  # opacity of the lines of the mesh

Plotter = Any  # pyvista has no types
DrawnMesh = Any


def add_cloth(plotter: Plotter, shape: Shape, look: ColourScheme) -> Any:  # noqa: ANN401
    """Show the cloth in unlit colours, which are those of the scale, with marks on both faces; return its actor."""
    import pyvista

    cloth = pyvista.PolyData.from_regular_faces(shape.points, shape.triangles)
    cloth.cell_data["colour"] = _to_bytes(paint_cloth(shape, look))
    actor = plotter.add_mesh(
        cloth, scalars="colour", rgb=True, lighting=False, show_edges=True, edge_opacity=_EDGE, name="cloth",
        show_scalar_bar=False, render=False,
    )  # fmt: skip
    marks = place_marks(shape, look.field, look.end)
    if not len(marks.corners):
        plotter.remove_actor("marks", render=False)
        return actor
    normals = find_normals_of(marks.corners)[:, None]
    corners = np.concatenate([marks.corners + side * MARK_LIFT * normals for side in (-1, 1)])
    patches = pyvista.PolyData.from_regular_faces(corners.reshape(-1, 3), np.arange(4 * len(corners)).reshape(-1, 4))
    patches.cell_data["colour"] = _to_bytes(np.tile(np.where(marks.dark[:, None], DARK, LIGHT), (2, 1)))
    plotter.add_mesh(patches, scalars="colour", rgb=True, lighting=False, name="marks", pickable=False, render=False)
    return actor


def find_normals_of(corners: FloatArray) -> FloatArray:
    """Return the unit normals (q, 3) of patches (q, 4, 3)."""
    across = np.cross(corners[:, 2] - corners[:, 0], corners[:, 3] - corners[:, 1])
    return np.asarray(across / np.maximum(np.linalg.norm(across, axis=1, keepdims=True), 1e-300))


def add_lines(plotter: Plotter, shape: Shape, look: ColourScheme, point: float = POINT) -> Any:  # noqa: ANN401
    """Show cords, lines and bars, a point of a sheet being ``point`` m; return cords and bars."""
    import pyvista

    bars = np.isin(shape.part, BARS)
    cords = ~bars
    tubes = [
        _make_tubes(shape.points[shape.segments[rows]], radius, colours)
        for rows, radius, colours in (
            (cords, point / 2 * widen_cords(shape.force[cords], look), paint_cords(shape.force[cords], look)),
            (bars, np.full(bars.sum(), point / 2 * BAR), paint_bars(shape.part[bars], shape.force[bars], look)),
        )
        if rows.any()
    ]
    actor = plotter.add_mesh(
        pyvista.merge(tubes), scalars="colour", rgb=True, ambient=0.6, diffuse=0.5, name="lines", render=False
    )
    ends = shape.points[shape.segments[bars]].reshape(-1, 3)
    knobs = pyvista.PolyData(ends).glyph(geom=pyvista.Sphere(radius=point / 2 * KNOB), scale=False, orient=False)
    plotter.add_mesh(knobs, color=BAR_COLOUR, name="knobs", pickable=False, render=False)
    return actor


def _make_tubes(pieces: FloatArray, radius: FloatArray, colours: FloatArray) -> DrawnMesh:
    """Return round pieces (k, 2, 3), each of its radius (k,), m, and colour (k, 4)."""
    import pyvista

    ends = pyvista.PolyData(
        pieces.reshape(-1, 3), lines=np.insert(np.arange(2 * len(pieces)).reshape(-1, 2), 0, 2, axis=1).ravel()
    )
    ends.point_data["radius"] = np.repeat(radius, 2)
    ends.point_data["colour"] = _to_bytes(np.repeat(colours, 2, axis=0))
    return ends.tube(scalars="radius", absolute=True, n_sides=12, capping=True)


def add_person(plotter: Plotter, skin: DrawnMesh | None) -> None:
    """Show a person with the skin of :func:`make_skin` translucent, paler behind cloth; nobody for None."""
    if skin is None:
        for name in ("person", "shine"):
            plotter.remove_actor(name, render=False)
        return
    for name, opacity, offset in (("person", FRONT, 0.0), ("shine", SHINE, _THROUGH)):
        actor = plotter.add_mesh(
            skin, color=FLESH_COLOUR, opacity=opacity, culling="back", smooth_shading=True, ambient=0.25, diffuse=0.75,
            name=name, pickable=False, render=False,
        )  # fmt: skip
        actor.mapper.SetResolveCoincidentTopologyToPolygonOffset()
        actor.mapper.SetRelativeCoincidentTopologyPolygonOffsetParameters(0.0, offset)


def add_ghost(plotter: Plotter, triangles: IntegerArray, ghost: UnloadedShape) -> None:
    """Show the unloaded cloth, nearly invisible, within a grey line."""
    import pyvista

    sheet = pyvista.PolyData.from_regular_faces(ghost.points, triangles)
    plotter.add_mesh(
        sheet, color=GHOST_COLOUR, opacity=0.10, lighting=False, name="ghost", pickable=False, render=False
    )
    lines = pyvista.lines_from_points(ghost.points[find_rim(triangles)])
    plotter.add_mesh(lines, color=GHOST_COLOUR, line_width=2, name="ghost rim", pickable=False, render=False)


def add_spots(plotter: Plotter, spots: tuple[HotSpot, ...]) -> None:
    """Show a dot at each hot spot, through everything, and its number beside it; those shown before go."""
    import pyvista

    for name in [name for name in plotter.actors if name.startswith("hot spot")]:
        plotter.remove_actor(name, render=False)
    for place, spot in enumerate(spots, 1):
        dot = pyvista.Sphere(radius=DOT, center=spot.loaded)
        actor = plotter.add_mesh(
            dot, color=SPOT_COLOUR, lighting=False, name=f"hot spot {place}", pickable=False, render=False
        )
        actor.mapper.SetResolveCoincidentTopologyToPolygonOffset()
        actor.mapper.SetRelativeCoincidentTopologyPolygonOffsetParameters(0.0, 2 * _THROUGH)
        number = pyvista.Text(str(place))
        number.prop.font_size, number.prop.bold, number.prop.color = 16, True, "white"
        number.prop.background_color, number.prop.background_opacity = SPOT_COLOUR, 1.0
        number.GetPositionCoordinate().SetCoordinateSystemToWorld()
        number.GetPositionCoordinate().SetValue(*spot.loaded + np.array([0.0, 0.0, 2 * DOT]))
        plotter.add_actor(number, name=f"hot spot number {place}", pickable=False, render=False)


def add_surroundings(plotter: Plotter, shape: Shape) -> None:
    """Show each trunk as thick as it is, and the ground."""
    import pyvista

    trees = find_trees(shape)
    for number, (tree, radius) in enumerate(zip(trees, find_trunks(shape), strict=True)):
        foot = np.array([tree[0] + np.sign(tree[0]) * radius, tree[1], 0.0])
        top = foot + np.array([0.0, 0.0, tree[2] + 0.35])
        post = pyvista.Tube(pointa=foot, pointb=top, radius=radius, n_sides=24)
        plotter.add_mesh(
            post, color=TREE_COLOUR, ambient=0.6, diffuse=0.5, name=f"tree {number}", pickable=False, render=False
        )
    if len(trees):
        length = float(np.ptp(trees[:, 0])) + 1.0
        ground = pyvista.Plane(
            center=(trees[:, 0].mean(), 0.0, 0.0),
            direction=(0, 0, 1),
            i_size=length,
            j_size=2.0,
            i_resolution=1,
            j_resolution=1,
        )
        plotter.add_mesh(
            ground, color=GROUND_COLOUR, opacity=0.25, lighting=False, name="ground", pickable=False, render=False
        )


def _to_bytes(colours: FloatArray) -> Any:  # noqa: ANN401
    """Return colours from 0 to 255."""
    return np.round(255 * colours).astype(np.uint8)
