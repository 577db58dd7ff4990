"""Force per metre of cloth as cut, of the body and of the cloth beyond a bar."""

import numpy as np

from ....hammock.arrays import FloatArray
from ....meshing import ExtensionMesh, HammockModel
from ....solver import State


def find_nominal(model: HammockModel, state: State, beyond: ExtensionMesh | None = None) -> FloatArray:
    """Return the nominal stress P = F S (m, 3, 2) of the triangles, N/m; its columns are the pull on warp and weft.

    Parameters
    ----------
    model : HammockModel
        Structure and named parts.
    state : State
        Its equilibrium.
    beyond : ExtensionMesh or None
        Of ``model.beyond``, whose triangles are meant; None: the body's.
    """
    cloth, name = (model.mesh, "body") if beyond is None else (beyond, f"{beyond.end} extension")
    corners = cloth.flat_corners() @ turn_to_threads(model), state.positions[cloth.triangles]
    flat, loaded = (np.swapaxes(np.diff(x, axis=1), 1, 2) for x in corners)
    F = loaded @ np.linalg.inv(flat)  # its columns: where warp and weft threads have gone
    return np.asarray(F @ state[model.elements[name]].pk2[:, [0, 2, 2, 1]].reshape(-1, 2, 2))


def turn_to_threads(model: HammockModel) -> FloatArray:
    """Return the matrix (2, 2) that takes flat coordinates, as rows, to those along warp and weft."""
    cos, sin = np.cos(model.hammock.body.grain), np.sin(model.hammock.body.grain)
    return np.array([[cos, -sin], [sin, cos]])
