"""Channels as plain numbers: load between cloth and cord, the fold, the cord force to anchor at the corners."""

from typing import Any

import numpy as np

from ....hammock import Attachment
from ....making import Workmanship, cut_fold, find_lock_strength
from ....meshing import HammockModel
from ....solver import State
from .channel_load import find_channel_load
from .cord_anchoring import list_jumps
from .gauge_square import GAUGE


def describe_channel(model: HammockModel, state: State, workmanship: Workmanship) -> dict[str, Any]:
    """Return loads of both channels, changes of the cords' tension at the corners, and the fold.

    Parameters
    ----------
    model : HammockModel
        What was solved.
    state : State
        Its equilibrium.
    workmanship : Workmanship
        How the channels are sewn.

    Returns
    -------
    dict
        Plain numbers; the end of each key names the SI unit. ``fold`` is None where the design does not describe it.
    """
    return {
        "gauge_m": GAUGE,
        "left": _describe_load(model, state, "left"),
        "right": _describe_load(model, state, "right"),
        "corners": _describe_corners(model, state, workmanship),
        "fold": describe_fold(model, workmanship),
    }


def _describe_load(model: HammockModel, state: State, side: str) -> dict[str, float]:
    """Return the load of one channel, averaged over gauge lengths, and its mean over the whole channel."""
    load = find_channel_load(model, state, side)
    pull, across = load.average(), np.linalg.norm(load.across, axis=1)
    length = load.bounds[-1] - load.bounds[0]
    return {
        "pull_across_most_N_per_m": float(pull.across.max()),
        "pull_across_mean_N_per_m": float(across @ load.widths / length),
        "pull_along_most_N_per_m": float(np.abs(pull.along).max()),
        "cord_pressure_most_Pa": float(load.press().max()),
    }


def _describe_corners(model: HammockModel, state: State, workmanship: Workmanship) -> dict[str, dict[str, float]]:
    """Return the cord force to anchor at each corner, and the length of anchor stitching it needs."""
    found, lock = {}, workmanship.lock
    sewn = model.hammock.channel.attachment is not Attachment.FREE
    for jump in list_jumps(model, state):
        corner = {"leg_N": jump.leg, "cord_N": jump.channel, "inner_cord_N": jump.inner, "jump_N": jump.force}
        if lock is not None and sewn:
            holds = find_lock_strength(lock.stitching, workmanship.reductions).value
            corner["lock_length_needed_m"] = jump.force * workmanship.factors["seam"].value / holds
        found[f"{jump.end}_{jump.side}"] = corner
    return found


def describe_fold(model: HammockModel, workmanship: Workmanship) -> dict[str, Any] | None:
    """Return widths, layers and cloth of the fold, and the polylines it is drawn from."""
    fold, body = workmanship.fold, model.hammock.body
    if fold is None:
        return None
    section = cut_fold(fold, body.layers, model.hammock.channel.cord.diameter)
    strip = fold.strip
    return {
        "finished_width_m": section.width,
        "stitching_width_m": section.room,
        "layers_pulled": len(section.pulled),
        "layers_sewn": len(section.sewn),
        "stitches_per_inch": fold.seam.per_inch,
        "stitch_length_m": fold.seam.stitch_length,
        "body_allowance_m": section.body_allowance,
        "strip_width_m": strip.width if strip else 0.0,
        "cloth_kg_per_m": section.find_mass(body.fabric, strip.fabric if strip else None),
        "rows_m": list(section.rows),
        "cord_centre_m": section.cord[0],
        "cord_diameter_m": section.cord[1],
        "layers": [{"cloth": layer.cloth, "path_m": [list(point) for point in layer.path]} for layer in section.layers],
    }
