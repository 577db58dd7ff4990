"""A design with other values of many inputs at once."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from ....materials import Material
from ...design import Design
from ...judging.sensitivity.material_replacement import swap_material
from ...judging.sensitivity.range_input import Input, MaterialInput
from .hang_input import HangInput


def put_values(design: Design, values: Mapping[Input, float]) -> Design:
    """Return the design with other values.

    Parameters
    ----------
    design : Design
        With the nominal ones.
    values : mapping of Input to float
        SI; shares that a capacity is multiplied with change no design and are left to the checks.

    Raises
    ------
    ValueError
        For values of one material that conflict.
    """
    fields: dict[Material, list[tuple[str, float]]] = {}
    for source, value in values.items():
        if isinstance(source, HangInput):
            design = source.put(design, value)
        elif isinstance(source, MaterialInput):
            fields.setdefault(source.material, []).append((source.field, value))
        elif source.test == "wet":
            work = design.workmanship
            reductions = replace(work.reductions, wet_keeps=value)
            design = replace(design, workmanship=replace(work, reductions=reductions))
    for material, pairs in fields.items():
        changed: Any = dict(pairs)  # fields of many kinds
        new = replace(material, **changed)
        design = replace(
            design,
            hammock=swap_material(design.hammock, material, new),
            workmanship=swap_material(design.workmanship, material, new),
        )
    return design
