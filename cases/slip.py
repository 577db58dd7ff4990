"""Whether a person in contact lies in the cloth, or has slipped through it while the equilibrium was sought."""

from .cross_section import cut_cloth, find_height
from .shape import Part, Shape


def note_slip(shape: Shape) -> list[str]:
    """Return a sentence if the axis of any part of the person stands below the cloth.

    Contact pushes flesh out on the side on which its axis is, so that an equilibrium with a limb on the wrong side of
    the cloth is one for the solver and none for a person.

    Parameters
    ----------
    shape : Shape
        Deformed hammock.
    """
    if shape.occupant is None:
        return []
    low, high = shape.points[shape.triangles, 0].min(), shape.points[shape.triangles, 0].max()
    outside = []
    for part, axis in zip(shape.occupant.part, shape.occupant.axes, strict=True):
        ends = [(x, y, z) for x, y, z in axis if low < x < high]
        if any(z < find_height(cut_cloth(shape.points, shape.triangles, x), y) for x, y, z in ends):
            outside.append(Part(part).title)
    if not outside:
        return []
    names = ", ".join(outside)
    return [
        f"NOT LYING IN IT: the computation let parts of the person slip through the cloth: {names}. Use no number of "
        "this result; change lie, arms or offset of the person, or the mesh size."
    ]
