"""What was found for a design: the record, its summary in numbers, and the files it is kept in."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from ..meshing import HammockModel, LoadCase, find_cautions
from ..solver import State
from .atomic import write_text
from .checks import check_tensions, describe_checks
from .clearance import Clearance
from .comfort import describe_comfort
from .design import Design, find_factor
from .findings import describe_anchors, describe_fabric, describe_forces, describe_shape, describe_weights, note_stretch
from .firmness import Firmness, describe_firmness, judge_firmness, note_firmness
from .gather_shape import gather_shape
from .remark import note_lay
from .result_folder import replace_folder
from .shape import write_shape


@dataclass(frozen=True)
class Result:
    """Equilibrium of one design under one load.

    Parameters
    ----------
    design : Design
        What was solved.
    load : LoadCase
        Load case.
    mesh_size : float
        Edge length in the field, m.
    model : HammockModel
        Its structure and named parts.
    state : State
        Equilibrium of ``model.structure``.
    iterations : int
        Steps on all meshes together.
    factorisations : int
        Sparse factorisations on all meshes together.
    seconds : float
        Wall time.
    """

    design: Design
    load: LoadCase
    mesh_size: float
    model: HammockModel
    state: State
    iterations: int
    factorisations: int
    seconds: float

    @cached_property
    def comfort(self) -> dict[str, Any]:
        """How a person in contact lies, as in ``summary["comfort"]``; empty for any other load."""
        return describe_comfort(self.model, self.state) if self.model.frame is not None else {}

    @cached_property
    def firmness(self) -> Firmness | None:
        """How firm the found lie is; found when it is first asked for, which takes some more solving."""
        return judge_firmness(self)

    @cached_property
    def summary(self) -> dict[str, Any]:
        """Nested dictionary of plain numbers and words; the end of each key names the SI unit."""
        person, shape = self.design.person, describe_shape(self.model, self.state)
        forces = describe_forces(self.model, self.state)
        low = Clearance(shape["ground_clearance_m"]).sentence
        return {
            "design": {
                "name": self.design.name,
                "file": str(self.design.path),
                "load": str(self.load),
                "load_factor": find_factor(self.design, self.load),
            },
            "person": {"stature_m": person.stature, "mass_kg": person.mass, "sex": str(person.sex)},
            "solution": {
                "reason": str(self.state.reason),
                "residual": self.state.residual,
                "iterations": self.iterations,
                "factorisations": self.factorisations,
                "triangles": len(self.model.mesh.triangles),
                "mesh_size_m": self.mesh_size,
                "seconds_s": self.seconds,
            },
            "forces": forces,
            "checks": describe_checks(check_tensions(forces, self.design.hammock)),
            "anchors": describe_anchors(self.model, self.state),
            "shape": shape,
            "comfort": self.comfort,
            "stability": describe_firmness(self.firmness),
            "fabric": describe_fabric(self.model, self.state),
            "weights": describe_weights(self.model, self.design.person),
            "notes": [
                *([low] if low else []),
                *find_cautions(self.design.hammock, self.design.person),
                *note_stretch(self.model, self.state),
                *note_lay(self.model, self.comfort),
                *note_firmness(self.firmness),
            ],
        }

    def save(self, folder: str | Path, *, draw: Callable[[Path, Path], None] | None = None) -> None:
        """Write ``result.json``, ``shape.vtu`` and a copy of the design into ``folder``, all of them or nothing.

        Parameters
        ----------
        folder : path
            Made if it is not there; the result of an earlier solve in it is replaced as a whole.
        draw : callable or None
            Told the folder with the other files and the picture ``shape.png`` to write; None draws none.

        Raises
        ------
        OSError
            If the folder cannot be written, or holds anything but a result.
        """
        with replace_folder(Path(folder)) as place:
            write_shape(gather_shape(self.model, self.state), place / "shape.vtu")
            write_text(place / "design.toml", self.design.text)
            write_text(place / "result.json", json.dumps(self.summary, indent=2, allow_nan=False) + "\n")
            if draw is not None:
                draw(place, place / "shape.png")
